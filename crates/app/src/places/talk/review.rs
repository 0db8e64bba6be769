//! A talk-through under review: what was read, what was decided, and the sound to hear it by.

use super::kept::{self, Kept, accepted, entered};
use crate::book::{Book, Workbench};
use crate::hearing::proposals::{Proposal, TalkThrough, read};
use leptos::html;
use leptos::prelude::*;
use survey::payload::Payload;
use walk::{Blow, MemberNames};

/// The talk-through that is open, shared by the parts of its page.
#[derive(Clone, Copy)]
pub struct Review {
    book: Book,
    bench: Workbench,
    /// As it is kept; nothing as long as none is open.
    pub talk: RwSignal<Option<Kept>>,
    /// What was read out of it.
    pub read: RwSignal<Option<TalkThrough>>,
    /// Whether its words have times.
    pub timed: RwSignal<bool>,
    /// The names of the proposals that were refused.
    pub refused: RwSignal<Vec<String>>,
    /// What went wrong, in a sentence.
    pub fault: RwSignal<Option<String>>,
    /// What to be careful of in the sound.
    pub cautions: RwSignal<Vec<String>>,
    /// How many clean reference blows of this boat the blows were judged against.
    pub references: RwSignal<usize>,
    /// What is being done, in words.
    pub doing: RwSignal<Option<String>>,
    /// Where the page hears the sound from.
    pub address: RwSignal<Option<String>>,
    /// The player.
    pub player: NodeRef<html::Audio>,
    /// The moment at which playing stops, in seconds.
    until_s: StoredValue<Option<f64>>,
    text: StoredValue<String>,
    blows: StoredValue<Vec<Blow>>,
    seconds: StoredValue<Option<f64>>,
    left_as_heard: RwSignal<Vec<usize>>,
}

impl Review {
    /// Returns a review with nothing open.
    pub fn new(book: Book, bench: Workbench) -> Self {
        Self {
            book,
            bench,
            talk: RwSignal::new(None),
            read: RwSignal::new(None),
            timed: RwSignal::new(false),
            refused: RwSignal::new(Vec::new()),
            fault: RwSignal::new(None),
            cautions: RwSignal::new(Vec::new()),
            references: RwSignal::new(0),
            doing: RwSignal::new(None),
            address: RwSignal::new(None),
            player: NodeRef::new(),
            until_s: StoredValue::new(None),
            text: StoredValue::new(String::new()),
            blows: StoredValue::new(Vec::new()),
            seconds: StoredValue::new(None),
            left_as_heard: RwSignal::new(Vec::new()),
        }
    }

    /// Closes what is open.
    pub fn close(self) {
        self.read.set(None);
        self.talk.set(None);
        self.fault.set(None);
        self.cautions.set(Vec::new());
        self.references.set(0);
        self.left_as_heard.set(Vec::new());
        if let Some(address) = self.address.get_untracked() {
            let _ = web_sys::Url::revoke_object_url(&address);
        }
        self.address.set(None);
    }

    /// Shows what a text and its blows give.
    pub async fn show(self, talk: Kept, text: String, blows: Vec<Blow>, seconds: Option<f64>) {
        self.refused.set(kept::refused(self.bench, &talk).await);
        self.text.set_value(text);
        self.blows.set_value(blows);
        self.seconds.set_value(seconds);
        self.talk.set(Some(talk));
        self.read_again();
    }

    fn read_again(self) {
        let names = self.book.state.with_untracked(MemberNames::of);
        let refused = self.left_as_heard.get_untracked();
        let read = self.text.with_value(|text| {
            self.blows.with_value(|blows| read(text, self.seconds.get_value(), &names, blows, &refused))
        });
        match read {
            Ok(talk) => {
                self.timed.set(talk.timed);
                self.read.set(Some(talk));
            }
            Err(why) => self.fault.set(Some(crate::book::sentence(&why.to_string()))),
        }
    }

    /// Takes words as they were heard instead of as they were mended.
    pub fn as_heard(self, first: usize) {
        self.left_as_heard.update(|all| all.push(first));
        self.read_again();
    }

    /// Returns the proposals that are still to be decided and can be entered as they stand. A blow of which neither words nor
    /// sound told how it answered tells nothing: it is accepted by itself or not at all.
    pub fn undecided(self) -> Vec<(Proposal, Payload)> {
        let Some(talk) = self.talk.get() else { return Vec::new() };
        let refused = self.refused.get();
        self.book.state.with(|state| {
            self.read.with(|read| {
                let all = read.iter().flat_map(|read| &read.proposals);
                all.filter(|p| !refused.contains(&p.key()) && accepted(state, &talk, p).is_none())
                    .filter(|p| !p.tells_nothing())
                    .filter_map(|p| Some((p.clone(), p.payload.clone()?)))
                    .collect()
            })
        })
    }

    /// Enters proposals, each tied to its words; one act, that is taken back as one.
    pub fn enter(self, proposals: Vec<(Proposal, Payload)>) {
        let Some(talk) = self.talk.get_untracked() else { return };
        let timed = self.timed.get_untracked();
        let count = proposals.len();
        let named = proposals.into_iter().flat_map(|(proposal, payload)| entered(&talk, &proposal, timed, payload));
        let named: Vec<_> = named.collect();
        leptos::task::spawn_local(async move {
            let done = if count == 1 {
                "Accepted and recorded.".to_owned()
            } else {
                format!("{count} accepted and recorded.")
            };
            if let Err(why) = self.book.write_named(named, &done).await {
                self.bench.complain(why);
            }
        });
    }

    /// Refuses a proposal, or takes it up again.
    pub fn refuse(self, key: &str, refused: bool) {
        self.refused.update(|all| {
            all.retain(|one| one != key);
            if refused {
                all.push(key.to_owned());
            }
        });
        if let Some(talk) = self.talk.get_untracked() {
            kept::keep_refused(self.bench, &talk, &self.refused.get_untracked());
        }
    }

    /// Tells whether there is a sound to play at a moment.
    pub fn can_play(self) -> bool {
        self.timed.get() && self.address.get().is_some()
    }

    /// Plays from a moment to another.
    pub fn play(self, from_s: f64, to_s: f64) {
        let Some(player) = self.player.get_untracked() else { return };
        // A little before the first word, so that it is not cut.
        player.set_current_time((from_s - 0.2).max(0.0));
        self.until_s.set_value(Some(to_s + 0.4));
        // A browser that refuses to play says so in the player itself.
        let _ = player.play();
    }

    /// Stops at the moment that was asked for.
    pub fn passed(self) {
        let (Some(player), Some(until_s)) = (self.player.get_untracked(), self.until_s.get_value()) else { return };
        if player.current_time() >= until_s {
            let _ = player.pause();
            self.until_s.set_value(None);
        }
    }
}
