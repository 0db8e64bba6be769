//! Photographs taken or chosen while recording: several at once, marked up when wanted, kept before the entry is.

use crate::book::{Book, Workbench, new_id};
use crate::look::Dialog;
use crate::photograph::camera::camera;
use crate::photograph::position::without_position;
use leptos::html;
use leptos::prelude::*;
use send_wrapper::SendWrapper;
use survey::EntryId;
use survey::payload::{Attachment, Payload};
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, FileList, HtmlCanvasElement, HtmlImageElement, HtmlInputElement};

/// A picture that waits to be recorded.
#[derive(Clone)]
pub struct Photo {
    file: SendWrapper<Blob>,
    name: String,
    address: String,
    caption: RwSignal<String>,
    keep_position: RwSignal<bool>,
}

/// Choosing pictures, and those chosen so far.
#[component]
pub fn Photos(photos: RwSignal<Vec<Photo>>) -> impl IntoView {
    let marked = RwSignal::new(None::<usize>);
    let marking = RwSignal::new(false);
    let chosen = move |event: web_sys::Event| {
        let Some(input) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()) else { return };
        if let Some(files) = input.files() {
            photos.update(|all| all.extend(photos_in(&files)));
        }
        // So that the same file may be chosen again after it was taken out.
        input.set_value("");
    };
    view! {
        <div class="field photos">
            <label for="photos" class="button">"Photographs"</label>
            <input id="photos" class="beyond-sight" type="file" accept="image/*" multiple on:change=chosen/>
            <div class="pending">
                {move || photos.get().into_iter().enumerate().map(|(n, photo)| {
                    let Photo { address, caption, keep_position, name, .. } = photo;
                    view! {
                        <figure>
                            <img src=address alt=format!("chosen: {name}")/>
                            <input type="text" aria-label=format!("What {name} shows") placeholder="What it shows" prop:value=move || caption.get() on:input=move |e| caption.set(event_target_value(&e))/>
                            <label class="several-one"><input type="checkbox" prop:checked=move || keep_position.get() on:change=move |e| keep_position.set(event_target_checked(&e))/><span>"keep where it was taken"</span></label>
                            <span class="acts">
                                <button type="button" class="quiet" on:click=move |_| { marked.set(Some(n)); marking.set(true) }>"Mark up"</button>
                                <button type="button" class="quiet" on:click=move |_| photos.update(|all| { all.remove(n); })>"Take out"</button>
                            </span>
                        </figure>
                    }
                }).collect_view()}
            </div>
        </div>
        <Dialog open=marking title="Mark up">
            {move || marked.get().and_then(|n| photos.with_untracked(|all| all.get(n).cloned())).map(|photo| view! { <MarkUp photo photos done=move || marking.set(false)/> })}
        </Dialog>
    }
}

fn photo_of(file: &File) -> Option<Photo> {
    Some(Photo {
        file: SendWrapper::new(file.clone().unchecked_into::<Blob>()),
        name: file.name(),
        address: web_sys::Url::create_object_url_with_blob(file).ok()?,
        caption: RwSignal::new(String::new()),
        keep_position: RwSignal::new(false),
    })
}

/// Returns the pictures that were chosen or taken.
pub fn photos_in(files: &FileList) -> Vec<Photo> {
    (0..files.length()).filter_map(|n| files.item(n)).filter_map(|file| photo_of(&file)).collect()
}

/// Keeps the pictures of an entry and returns the entries that name them.
///
/// # Errors
/// One sentence when a picture cannot be read or kept.
pub async fn keep_photos(
    book: Book,
    bench: Workbench,
    of: EntryId,
    photos: Vec<Photo>,
) -> Result<Vec<(EntryId, Payload)>, String> {
    let mut named = Vec::new();
    for photo in photos {
        let unreadable = |_| format!("{} could not be read; nothing was recorded.", photo.name);
        let buffer = JsFuture::from(photo.file.array_buffer()).await.map_err(unreadable)?;
        let bytes = js_sys::Uint8Array::new(&buffer).to_vec();
        let said = camera(&bytes);
        let keep_position = photo.keep_position.get_untracked();
        let bytes = if keep_position { bytes } else { without_position(&bytes) };
        let settings = BlobPropertyBag::new();
        settings.set_type(&photo.file.type_());
        let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(bytes.as_slice()));
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &settings)
            .map_err(|_| format!("{} could not be kept; nothing was recorded.", photo.name))?;
        let (sha256, length) =
            bench.keep().put_attachment(book.survey, &blob).await.map_err(|fault| fault.to_string())?;
        let attachment = Attachment {
            sha256,
            bytes: length,
            media_type: photo.file.type_(),
            file_name: photo.name.clone(),
            caption: photo.caption.get_untracked().trim().to_owned(),
            alternative: String::new(),
            of: Some(of),
            taken: said.taken,
            position_deg: said.position_deg.filter(|_| keep_position),
        };
        named.push((new_id(), attachment.into()));
    }
    Ok(named)
}

/// Longest side of a marked-up copy, in pixels; the picture itself is kept as it came.
const LONGEST: f64 = 2400.0;

/// Drawing on a copy of a picture with finger, pen or mouse.
#[component]
fn MarkUp(photo: Photo, photos: RwSignal<Vec<Photo>>, done: impl Fn() + Copy + Send + Sync + 'static) -> impl IntoView {
    let canvas: NodeRef<html::Canvas> = NodeRef::new();
    let strokes = StoredValue::new(Vec::<Vec<(f64, f64)>>::new());
    let drawing = StoredValue::new(false);
    let image = StoredValue::new_local(HtmlImageElement::new().ok());
    let redraw = move || {
        let (Some(canvas), Some(image)) = (canvas.get_untracked(), image.get_value()) else { return };
        let Some(pen) = context(&canvas) else { return };
        let (w, h) = (f64::from(canvas.width()), f64::from(canvas.height()));
        let _ = pen.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, w, h);
        // White under red reads on any picture, in black and white too.
        for (colour, width) in [("#ffffff", 9.0), ("#a3341f", 5.0)] {
            pen.set_stroke_style_str(colour);
            pen.set_line_width(width * w.max(h) / 1200.0);
            pen.set_line_cap("round");
            pen.set_line_join("round");
            strokes.with_value(|all| {
                for stroke in all {
                    pen.begin_path();
                    for (n, (x, y)) in stroke.iter().enumerate() {
                        if n == 0 { pen.move_to(x * w, y * h) } else { pen.line_to(x * w, y * h) }
                    }
                    pen.stroke();
                }
            });
        }
    };
    let address = photo.address.clone();
    Effect::new(move |_| {
        let (Some(canvas), Some(image)) = (canvas.get(), image.get_value()) else { return };
        let own = image.clone();
        let loaded = Closure::once_into_js(move || {
            let (w, h) = (f64::from(own.natural_width()), f64::from(own.natural_height()));
            let by = (LONGEST / w.max(h)).min(1.0);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels within LONGEST")]
            {
                canvas.set_width((w * by) as u32);
                canvas.set_height((h * by) as u32);
            }
            redraw();
        });
        image.set_onload(Some(loaded.unchecked_ref()));
        image.set_src(&address);
    });
    let at = move |event: &web_sys::PointerEvent| {
        let canvas = canvas.get_untracked()?;
        let rect = canvas.get_bounding_client_rect();
        Some((
            (f64::from(event.client_x()) - rect.left()) / rect.width(),
            (f64::from(event.client_y()) - rect.top()) / rect.height(),
        ))
    };
    let down = move |event: web_sys::PointerEvent| {
        event.prevent_default();
        drawing.set_value(true);
        if let Some(point) = at(&event) {
            strokes.update_value(|all| all.push(vec![point]));
        }
    };
    let moved = move |event: web_sys::PointerEvent| {
        if !drawing.get_value() {
            return;
        }
        if let Some(point) = at(&event) {
            strokes.update_value(|all| {
                if let Some(last) = all.last_mut() {
                    last.push(point);
                }
            });
            redraw();
        }
    };
    let up = move |_| drawing.set_value(false);
    let name = photo.name.clone();
    let caption = photo.caption.get_untracked();
    let keep_it = move |_| {
        let Some(canvas) = canvas.get_untracked() else { return };
        let (name, caption) = (name.clone(), caption.clone());
        let taken = Closure::once_into_js(move |blob: Option<Blob>| {
            let Some(blob) = blob else { return };
            let Ok(address) = web_sys::Url::create_object_url_with_blob(&blob) else { return };
            let words = if caption.is_empty() { "Marked up".to_owned() } else { format!("{caption}, marked up") };
            let copy = Photo {
                file: SendWrapper::new(blob),
                name: format!("marked-{}.jpg", name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem)),
                address,
                caption: RwSignal::new(words),
                keep_position: RwSignal::new(false),
            };
            photos.update(|all| all.push(copy));
        });
        let _ = canvas.to_blob_with_type_and_encoder_options(taken.unchecked_ref(), "image/jpeg", &0.9.into());
        done();
    };
    view! {
        <p class="hush">"Draw on it. The picture as taken stays; the marked copy is kept beside it."</p>
        <canvas class="mark-up" node_ref=canvas role="img" aria-label="The picture, to be drawn on" on:pointerdown=down on:pointermove=moved on:pointerup=up on:pointerleave=up></canvas>
        <div class="acts">
            <button type="button" class="main" on:click=keep_it>"Keep the marked copy"</button>
            <button type="button" on:click=move |_| { strokes.update_value(|all| { all.pop(); }); redraw() }>"Take back a stroke"</button>
        </div>
    }
}

fn context(canvas: &HtmlCanvasElement) -> Option<web_sys::CanvasRenderingContext2d> {
    canvas.get_context("2d").ok().flatten()?.dyn_into().ok()
}
