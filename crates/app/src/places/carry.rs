//! A survey as one file: made here and sent on, and taken in from elsewhere.

use crate::book::{Book, Workbench};
use crate::carry::{Far, Packed, pack, unpack};
use futures_util::future::{AbortHandle, abortable};
use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use send_wrapper::SendWrapper;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File, FilePropertyBag, HtmlAnchorElement, HtmlInputElement};

/// Work that goes on: how far it has come, and the way to stop it.
#[derive(Clone, Copy)]
struct Going {
    far: RwSignal<Option<Far>>,
    busy: RwSignal<bool>,
    stop: StoredValue<Option<AbortHandle>>,
}

impl Going {
    fn new() -> Self {
        Self { far: RwSignal::new(None), busy: RwSignal::new(false), stop: StoredValue::new(None) }
    }

    /// Begins work. It is `done` with its outcome, or none when it was stopped.
    fn begin<T: 'static>(self, work: impl Future<Output = T> + 'static, done: impl FnOnce(Option<T>) + 'static) {
        let (work, stop) = abortable(work);
        self.far.set(None);
        self.busy.set(true);
        self.stop.set_value(Some(stop));
        leptos::task::spawn_local(async move {
            let outcome = work.await.ok();
            self.busy.try_set(false);
            done(outcome);
        });
    }

    /// Tells how far it has come.
    fn told(self) -> impl Fn(Far) + Copy + 'static {
        move |far| {
            self.far.try_set(Some(far));
        }
    }

    fn stop(self) {
        self.stop.with_value(|stop| stop.iter().for_each(AbortHandle::abort));
    }
}

/// Says how far work has come, and stops it on asking.
#[component]
fn HowFar(going: Going, doing: &'static str) -> impl IntoView {
    let words = move || match going.far.get() {
        None => format!("{doing} …"),
        Some(Far::Gathered(n, all)) => format!("{doing} … {n} of {all} files at hand"),
        Some(Far::Read(bytes)) => format!("{doing} … {:.0} MB read", (bytes / 1e6).ceil()),
        Some(Far::Kept(n, all)) => format!("{doing} … {n} of {all} files kept"),
    };
    view! {
        <Show when=move || going.busy.get()>
            <p class="hush" role="status">{words}</p>
            <button type="button" class="quiet" on:click=move |_| going.stop()>"Stop"</button>
        </Show>
    }
}

/// Packing the open survey, and sending the file on.
#[component]
pub fn CarryOff() -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let going = Going::new();
    let packed = RwSignal::new(None::<SendWrapper<Packed>>);
    let make = move |_| {
        packed.set(None);
        let work = async move { pack(&bench.keep(), book.survey, going.told()).await };
        going.begin(work, move |outcome| match outcome {
            Some(Ok(done)) => {
                packed.try_set(Some(SendWrapper::new(done)));
            }
            Some(Err(why)) => bench.complain(why),
            None => bench.say("Stopped. No package was made."),
        });
    };
    let name = move || {
        let vessel = book.state.with_untracked(|state| state.vessel().map(|v| v.payload.name.clone()));
        format!("{}.ribband", file_name(&vessel.unwrap_or_default()))
    };
    view! {
        <section class="carry"><header class="section-head"><h2>"As one file"</h2></header>
            <p class="hush">"The whole survey with its photographs and recordings, to be sent or carried. Another device, or the desk, takes it in; what it has already is passed over."</p>
            <div class="acts"><button type="button" disabled=move || going.busy.get() on:click=make>"Make a package"</button></div>
            <HowFar going doing="Packing"/>
            {move || packed.get().map(|done| {
                let file = as_file(&done.file, &name());
                let can = file.as_ref().is_some_and(can_share);
                let (saved, shared) = (done.clone(), StoredValue::new_local(file));
                view! {
                    <p role="status">{contents(&done)}</p>
                    <div class="acts">
                        <button type="button" class="main" on:click=move |_| save(bench, &saved.file, &name())>"Save it"</button>
                        {can.then(|| view! { <button type="button" on:click=move |_| share(bench, shared.get_value())>"Send it on"</button> })}
                    </div>
                }
            })}
        </section>
    }
}

/// Taking a package in.
#[component]
pub fn TakeIn() -> impl IntoView {
    let bench = Workbench::here();
    let going = Going::new();
    let refused = RwSignal::new(None::<String>);
    let go = use_navigate();
    let chosen = move |event: web_sys::Event| {
        let Some(input) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()) else { return };
        let file = input.files().and_then(|files| files.item(0));
        // So that the same file may be chosen again.
        input.set_value("");
        let Some(file) = file else { return };
        refused.set(None);
        let go = go.clone();
        let work = async move { unpack(&bench.keep(), &file, going.told()).await };
        going.begin(work, move |outcome| match outcome {
            Some(Ok(done)) => {
                let new: usize = done.surveys.iter().map(|(_, new)| new).sum();
                let lacking = match done.lacking {
                    0 => String::new(),
                    n => format!(" {n} attachments were left out of it."),
                };
                let taken = match new {
                    0 => "Nothing in it was new here.".to_owned(),
                    n => format!("{n} entries were new here and are kept."),
                };
                bench.say(format!("{taken}{lacking}"));
                if let [(survey, _)] = done.surveys.as_slice() {
                    go(&format!("/survey/{survey}/hull"), Default::default());
                } else {
                    let _ = window().location().reload();
                }
            }
            Some(Err(why)) => {
                refused.try_set(Some(format!("Nothing was taken in. {why}")));
            }
            None => bench.say("Stopped. Take the package in again to have all of it."),
        });
    };
    view! {
        <label for="take-in" class="button">"Take in a package"</label>
        <input id="take-in" class="beyond-sight" type="file" accept=".ribband,application/zip" disabled=move || going.busy.get() on:change=chosen/>
        <HowFar going doing="Looking through it"/>
        {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
    }
}

fn contents(done: &Packed) -> String {
    let size = match done.file.size() {
        bytes if bytes < 1e6 => format!("{:.0} kB", (bytes / 1e3).ceil()),
        bytes => format!("{:.1} MB", bytes / 1e6),
    };
    let left_out = match done.left_out {
        0 => String::new(),
        1 => " One attachment is neither on this device nor on a server in reach and is not in it.".to_owned(),
        n => format!(" {n} attachments are neither on this device nor on a server in reach and are not in it."),
    };
    format!("{} entries and {} attachments, {size}.{left_out}", done.entries, done.attachments)
}

/// Returns a boat's name as the name of a file on any system.
fn file_name(vessel: &str) -> String {
    let letters = vessel.chars().map(|c| if c.is_alphanumeric() { c.to_ascii_lowercase() } else { '-' });
    let name: String =
        letters.collect::<String>().split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    if name.is_empty() { "survey".to_owned() } else { name.chars().take(60).collect() }
}

fn as_file(blob: &Blob, name: &str) -> Option<File> {
    let options = FilePropertyBag::new();
    options.set_type("application/zip");
    File::new_with_blob_sequence_and_options(&Array::of1(blob), name, &options).ok()
}

fn shared(file: &File) -> Object {
    let data = Object::new();
    // Setting a field of a plain object does not fail.
    let _ = Reflect::set(&data, &"files".into(), &Array::of1(file));
    data
}

fn method(name: &str) -> Option<Function> {
    Reflect::get(&window().navigator(), &name.into()).ok()?.dyn_into().ok()
}

/// Tells whether the device's share sheet takes such a file: some take only pictures and papers.
fn can_share(file: &File) -> bool {
    let asked = method("canShare").and_then(|ask| ask.call1(&window().navigator(), &shared(file)).ok());
    asked.is_some_and(|answer| answer.is_truthy())
}

fn share(bench: Workbench, file: Option<File>) {
    let (Some(file), Some(share)) = (file, method("share")) else { return };
    let Ok(promise) = share.call1(&window().navigator(), &shared(&file)) else { return };
    leptos::task::spawn_local(async move {
        let Ok(promise) = promise.dyn_into::<js_sys::Promise>() else { return };
        if let Err(thrown) = JsFuture::from(promise).await {
            let name = Reflect::get(&thrown, &"name".into()).ok().and_then(|name: JsValue| name.as_string());
            // Closing the sheet is no fault.
            if name.as_deref() != Some("AbortError") {
                bench.complain("The device did not take the file; save it, and send it from where it was saved.");
            }
        }
    });
}

fn save(bench: Workbench, blob: &Blob, name: &str) {
    let saved = || -> Option<()> {
        let url = web_sys::Url::create_object_url_with_blob(blob).ok()?;
        let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
        link.set_href(&url);
        link.set_download(name);
        link.click();
        // Some browsers read it a moment after.
        set_timeout(
            move || {
                let _ = web_sys::Url::revoke_object_url(&url);
            },
            std::time::Duration::from_secs(60),
        );
        Some(())
    };
    if saved().is_none() {
        bench.complain("The browser did not save the file.");
    }
}
