//! The talk-through: what was said on the walk, read into proposals that a person accepts, changes or refuses.
//!
//! Nothing is entered without a person's yes. The words and the sound are kept whole, so that what was not understood is
//! not lost.

mod card;
mod kept;
mod review;
pub mod sound;

use crate::book::{Book, Workbench};
use crate::common_words;
use crate::hearing::proposals::{Left, moment};
use crate::hearing::verdict::answer;
use crate::look::{Dialog, EntryForm, FormOf};
use card::Card;
use kept::{Kept, keep};
use leptos::html;
use leptos::prelude::*;
use review::Review;
use send_wrapper::SendWrapper;
use serde_json::json;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlInputElement};

/// The word of this page in addresses.
pub const WORD: &str = "talk-through";

/// Larger sound is not taken apart in the page: read as samples it would not fit into a telephone's memory.
const LARGEST_BYTES: f64 = 120e6;

/// The page.
#[component]
pub fn TalkThrough() -> impl IntoView {
    let book = Book::here();
    let review = Review::new(book, Workbench::here());
    on_cleanup(move || review.close());
    view! {
        <section class="panel talk">
            <p class="back"><a href=format!("/survey/{}/walk", book.survey)>"All members"</a></p>
            <h2>"Talk-through"</h2>
            {move || review.fault.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <p role="status" class="hush">{move || review.doing.get()}</p>
            <Show when=move || review.read.with(Option::is_some) fallback=move || view! { <Beginning review/> }>
                <Reviewing review/>
            </Show>
        </section>
    }
}

/// A file that was chosen.
type Chosen = RwSignal<Option<SendWrapper<File>>>;

fn chooser(into: Chosen) -> impl Fn(web_sys::Event) + Copy {
    move |event| {
        let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        into.set(input.and_then(|input| input.files()?.item(0)).map(SendWrapper::new));
    }
}

/// Giving the words and the sound, and those kept already.
#[component]
fn Beginning(review: Review) -> impl IntoView {
    let (book, bench) = (Book::here(), Workbench::here());
    let (words, sound): (Chosen, Chosen) = (RwSignal::new(None), RwSignal::new(None));
    let typed = RwSignal::new(String::new());
    let typing: NodeRef<html::Textarea> = NodeRef::new();
    let read = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if review.doing.get_untracked().is_some() {
            return;
        }
        review.fault.set(None);
        let (words, sound, typed) = (words.get_untracked(), sound.get_untracked(), typed.get_untracked());
        leptos::task::spawn_local(async move {
            if let Err(why) = take(review, book, bench, words, sound, typed).await {
                review.fault.try_set(Some(why));
            }
            review.doing.try_set(None);
        });
    };
    let before = Memo::new(move |_| book.state.with(kept::kept));
    view! {
        <p>"Say what you see, hear and measure while you go round her; then give the words here. They are read into proposals, each beside the words it rests on, and nothing is entered until you accept it."</p>
        <form class="entry-form talk-form" on:submit=read novalidate aria-label="Read a talk-through">
            <div class="field"><label for="talk-words">"The words, with their times"</label>
                <input id="talk-words" type="file" accept=".vtt,.srt,.json,.txt,text/vtt,text/plain,application/json" aria-describedby="talk-words-about" on:change=chooser(words)/>
                <span class="about" id="talk-words-about">"WebVTT, SubRip or JSON word times, as programs that write down speech give them."</span></div>
            <div class="field"><label for="talk-typed">"Or the words, typed or dictated"</label>
                <textarea id="talk-typed" node_ref=typing rows="5" aria-describedby="talk-typed-about" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))></textarea>
                <span class="about" id="talk-typed-about">"Dictate with the device’s own keyboard. One sentence for one thing; words without times are not tied to the sound."</span></div>
            <div class="field"><label for="talk-sound">"The sound, if there is any"</label>
                <input id="talk-sound" type="file" accept="audio/*,video/*" aria-describedby="talk-sound-about" on:change=chooser(sound)/>
                <span class="about" id="talk-sound-about">"It is kept whole, played at each moment, and listened to for hammer blows. It does not leave this device but for your own server."</span></div>
            <p class="acts"><button type="submit" class="main" disabled=move || review.doing.get().is_some()>"Read it"</button></p>
        </form>
        <Show when=move || !before.with(Vec::is_empty)>
            <h3>"Kept with this survey"</h3>
            <ul class="talks">{move || before.get().into_iter().map(|talk| {
                let name = if talk.sound.is_some() { format!("{}, with its sound", talk.name) } else { talk.name.clone() };
                let open = move |_| {
                    let talk = talk.clone();
                    leptos::task::spawn_local(async move {
                        if let Err(why) = open_again(review, book, bench, talk).await {
                            review.fault.try_set(Some(why));
                        }
                        review.doing.try_set(None);
                    });
                };
                view! { <li><button type="button" on:click=open>{format!("Open {name}")}</button></li> }
            }).collect_view()}</ul>
        </Show>
    }
}

/// Takes words and sound in: keeps them, then reads them.
async fn take(
    review: Review,
    book: Book,
    bench: Workbench,
    words: Option<SendWrapper<File>>,
    sound: Option<SendWrapper<File>>,
    typed: String,
) -> Result<(), String> {
    review.doing.set(Some("Keeping the words …".to_owned()));
    common_words::are_here().await?;
    let (blob, name): (Blob, String) = match &words {
        Some(file) => ((**file).clone().unchecked_into(), file.name()),
        None if typed.trim().is_empty() => {
            return Err("There are no words yet: choose a file with the words, or type them.".to_owned());
        }
        None => (text_blob(&typed)?, "typed.txt".to_owned()),
    };
    // What cannot be read is not kept: the person is told and has it still.
    crate::hearing::proposals::read(&text_of(&blob).await?, None, &walk::MemberNames::catalogue(), &[], &[])
        .map_err(|why| crate::book::sentence(&format!("{name}: {why}")))?;
    let of_sound: Option<(Blob, String)> = sound.map(|file| ((*file).clone().unchecked_into(), file.name()));
    let parts = of_sound.as_ref().map(|(blob, name)| (blob, name.as_str()));
    let talk = keep(book, bench, (&blob, &name), parts).await?;
    read_it(review, book, bench, talk, &blob, of_sound.map(|(blob, _)| blob)).await
}

/// Opens a talk-through that is kept already.
async fn open_again(review: Review, book: Book, bench: Workbench, talk: Kept) -> Result<(), String> {
    review.fault.set(None);
    review.doing.set(Some("Fetching the words …".to_owned()));
    common_words::are_here().await?;
    let store = bench.keep();
    let words = crate::exchange::fetch_attachment(&store, talk.words).await.map_err(|fault| fault.to_string())?;
    let mut sound = None;
    if let Some(sha256) = talk.sound {
        match crate::exchange::fetch_attachment(&store, sha256).await {
            Ok(blob) => sound = Some(blob),
            Err(fault) => review.fault.set(Some(format!("The words are here, the sound is not: {fault}"))),
        }
    }
    read_it(review, book, bench, talk, &words, sound).await
}

/// Listens to the sound for blows and shows what words and blows give.
async fn read_it(
    review: Review,
    book: Book,
    bench: Workbench,
    talk: Kept,
    words: &Blob,
    sound: Option<Blob>,
) -> Result<(), String> {
    let text = text_of(words).await?;
    let (mut blows, mut seconds) = (Vec::new(), None);
    if let Some(sound) = sound {
        review.address.set(web_sys::Url::create_object_url_with_blob(&sound).ok());
        review.doing.set(Some("Listening for blows …".to_owned()));
        if sound.size() > LARGEST_BYTES {
            review.fault.set(Some(
                "The sound is too large to be listened to for blows in the page; it is kept and can be played. The program on a computer listens to it."
                    .to_owned(),
            ));
        } else {
            let told =
                move |share: f64| review.doing.set(Some(format!("Listening for blows … {:.0} %", share * 100.0)));
            match sound::listen(&sound, told).await {
                Ok(heard) => {
                    seconds = Some(heard.samples.len() as f64 / f64::from(sounding::RATE_HZ));
                    let (references, _, missing) = sound::kept_references(book, bench).await;
                    let judge = references.judge();
                    let judged = heard.blows.iter().map(|blow| walk::Blow {
                        time_s: blow.time_s,
                        // On which member it fell the words tell only later; the boat's blows as a whole are the measure.
                        judgement: answer(&judge.judge("", blow)),
                    });
                    blows = judged.collect();
                    review.cautions.set(heard.cautions.into_iter().chain(missing).collect());
                    review.references.set(judge.references());
                }
                Err(why) => {
                    review.fault.set(Some(format!("{why} It is kept all the same; no blows are taken from it.")))
                }
            }
        }
    }
    review.show(talk, text, blows, seconds).await;
    Ok(())
}

fn text_blob(text: &str) -> Result<Blob, String> {
    let settings = BlobPropertyBag::new();
    settings.set_type("text/plain");
    let parts = js_sys::Array::of1(&text.into());
    Blob::new_with_str_sequence_and_options(&parts, &settings).map_err(|_| "The words could not be kept.".to_owned())
}

async fn text_of(blob: &Blob) -> Result<String, String> {
    let buffer = JsFuture::from(blob.array_buffer()).await.map_err(|_| "The words could not be read.".to_owned())?;
    Ok(walk::text::decoded(&js_sys::Uint8Array::new(&buffer).to_vec()))
}

/// What was read, to be decided.
#[component]
fn Reviewing(review: Review) -> impl IntoView {
    let tally = Memo::new(move |_| {
        let open = review.undecided().len();
        review.read.with(|read| {
            read.as_ref().map(|read| (read.proposals.len(), open, read.left.len(), read.blows_alone_s.len()))
        })
    });
    let all = move |_| review.enter(review.undecided());
    let cautions = Memo::new(move |_| {
        let of_text = review.read.with(|read| read.as_ref().map(|r| r.cautions.clone()).unwrap_or_default());
        review.cautions.get().into_iter().chain(of_text).collect::<Vec<_>>()
    });
    view! {
        <p>{move || tally.get().map(|(all, open, left, _)| format!("{all} proposed, {open} of them still to be decided; {left} stretches of talk not understood."))}</p>
        {move || review.address.get().map(|address| view! {
            <audio class="player" node_ref=review.player controls src=address on:timeupdate=move |_| review.passed() aria-label="The sound of the talk-through"></audio>
        })}
        <Show when=move || review.address.get().is_none()><p class="hush">"No sound was given with these words; nothing can be played."</p></Show>
        <p class="hush">{move || tally.get().filter(|_| review.address.get().is_some()).map(|_| match review.references.get() {
            0 => "There are no reference blows of this boat yet: blows are counted and not judged.".to_owned(),
            n => format!("Blows are judged against {n} clean reference blows of this boat."),
        })}</p>
        <Show when=move || !cautions.with(Vec::is_empty)>
            <ul class="cautions">{move || cautions.get().into_iter().map(|words| view! { <li>{words}</li> }).collect_view()}</ul>
        </Show>
        <p class="acts">
            <Show when=move || { tally.get().is_some_and(|(_, open, ..)| open > 0) }>
                <button type="button" class="main" on:click=all>{move || tally.get().map(|(_, open, ..)| format!("Accept all {open} that are open"))}</button>
            </Show>
            <button type="button" on:click=move |_| review.close()>"Another talk-through"</button>
        </p>
        <p class="hush keys-told">"With the keyboard on a proposal: A accepts, C changes, R refuses, P plays."</p>
        <ol class="proposals" aria-label="Proposals">
            <For each=move || review.read.with(|read| read.as_ref().map(|r| r.proposals.clone()).unwrap_or_default()) key=|p| (p.key(), p.mended.len(), p.draft.words.clone()) children=move |proposal| view! { <Card review proposal/> }/>
        </ol>
        <NotUnderstood review/>
    }
}

/// The talk that led to nothing, kept in sight.
#[component]
fn NotUnderstood(review: Review) -> impl IntoView {
    let left = Memo::new(move |_| review.read.with(|read| read.as_ref().map(|r| r.left.clone()).unwrap_or_default()));
    let alone =
        Memo::new(move |_| review.read.with(|read| read.as_ref().map(|r| r.blows_alone_s.clone()).unwrap_or_default()));
    let (writing, note) = (RwSignal::new(false), RwSignal::new(String::new()));
    let play = move |from_s: f64, to_s: f64| {
        view! {
            <Show when=move || review.can_play()>
                <button type="button" class="quiet" aria-label=format!("Play from {}", moment(from_s)) on:click=move |_| review.play(from_s, to_s)>"Play"</button>
            </Show>
        }
    };
    view! {
        <Show when=move || !left.with(Vec::is_empty)>
            <h3>"Not understood"</h3>
            <p class="hush">"Nothing was made of these words. They stay with the survey as they were said."</p>
            <ul class="left">{move || left.get().into_iter().map(|Left { start_s, end_s, words }| {
                let said = words.clone();
                view! {
                    <li><span class="moment">{review.timed.get().then(|| moment(start_s))}</span><span class="left-words">{words}</span>
                        <span class="acts">{play(start_s, end_s)}
                        <button type="button" class="quiet" on:click=move |_| { note.set(said.clone()); writing.set(true) }>"Record it by hand"</button></span></li>
                }
            }).collect_view()}</ul>
        </Show>
        <Show when=move || !alone.with(Vec::is_empty)>
            <h3>"Blows with no words near them"</h3>
            <ul class="left">{move || alone.get().into_iter().map(|at_s| view! { <li><span class="moment">{moment(at_s)}</span>{play(at_s, at_s + 0.5)}</li> }).collect_view()}</ul>
        </Show>
        <Dialog open=writing title="Record it by hand">
            {move || view! { <EntryForm of=FormOf::New("observation", json!({"note": note.get_untracked()})) done=move |_| writing.set(false)/> }}
        </Dialog>
    }
}
