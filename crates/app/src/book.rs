//! The survey open in this window: its state, what is written in it, and the taking back of it.

use crate::exchange::{Exchange, Standing};
use crate::form::kind_in_words;
use crate::keep::{Keep, KeepFault};
use leptos::prelude::*;
use measure::System;
use survey::payload::{Amendment, Payload};
use survey::{EntryId, State, SurveyId};
use uuid::Uuid;

/// What the whole workbench shares, whatever survey is open.
#[derive(Clone, Copy)]
pub struct Workbench {
    /// What this browser keeps.
    pub keep: StoredValue<Keep, LocalStorage>,
    /// Who writes here; empty until it is said.
    pub author: RwSignal<String>,
    /// The units that numbers are shown in.
    pub units: RwSignal<System>,
    /// `light`, `dark`, or empty for what the device prefers.
    pub shade: RwSignal<String>,
    /// What was last done or went wrong, for the bar at the foot.
    pub said: RwSignal<Option<Said>>,
}

/// One message to the person at the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// The sentence.
    pub words: String,
    /// Whether something went wrong.
    pub wrong: bool,
    /// Whether it can be taken back.
    pub can_undo: bool,
}

impl Workbench {
    /// Returns the workbench that the page runs.
    pub fn here() -> Self {
        expect_context()
    }

    /// Says that something was done.
    pub fn say(self, words: impl Into<String>) {
        self.said.set(Some(Said { words: words.into(), wrong: false, can_undo: false }));
    }

    /// Says that something went wrong.
    pub fn complain(self, words: impl Into<String>) {
        self.said.set(Some(Said { words: words.into(), wrong: true, can_undo: false }));
    }

    /// Returns the keep.
    pub fn keep(self) -> Keep {
        self.keep.get_value()
    }
}

/// What one act wrote, so that it can be taken back.
#[derive(Clone, Debug)]
struct Act {
    entries: Vec<EntryId>,
}

/// The survey open in this window.
#[derive(Clone, Copy)]
pub struct Book {
    /// Its identifier.
    pub survey: SurveyId,
    /// What it says now.
    pub state: RwSignal<State>,
    /// Counts up a moment after the state has changed, when what was entered has been shown. What goes over the whole
    /// survey follows this and not the state, so that nobody waits for it under the thumb; see [`Book::later`].
    settled: RwSignal<u64>,
    /// Whether its entries have been read from the browser's store yet.
    pub is_read: RwSignal<bool>,
    /// Where its entries stand with the server.
    pub standing: RwSignal<Standing>,
    bench: Workbench,
    exchange: StoredValue<Option<Exchange>, LocalStorage>,
    acts: StoredValue<Vec<Act>>,
    /// How many of the entries kept here this window has read.
    read: StoredValue<u64>,
}

impl Book {
    /// Returns the survey that is open.
    pub fn here() -> Self {
        expect_context()
    }

    /// Opens a survey: reads what this browser keeps of it, then exchanges with the server as long as the window shows
    /// it.
    pub fn open(survey: SurveyId, bench: Workbench) -> Self {
        let book = Self {
            survey,
            state: RwSignal::new(State::new(survey)),
            settled: RwSignal::new(0),
            is_read: RwSignal::new(false),
            standing: RwSignal::new(Standing::Fetching),
            bench,
            exchange: StoredValue::new_local(None),
            acts: StoredValue::new(Vec::new()),
            read: StoredValue::new(0),
        };
        let keep = bench.keep();
        let news = keep.on_news(move |of| {
            if of == survey {
                book.read_again();
            }
        });
        let news = StoredValue::new_local(Some(news));
        leptos::task::spawn_local(async move {
            book.read_kept().await;
            let exchange = Exchange::start(
                bench.keep(),
                survey,
                move |entries| book.take(entries),
                move |standing| {
                    book.standing.try_set(standing);
                },
            );
            book.exchange.try_set_value(Some(exchange));
        });
        on_cleanup(move || {
            news.set_value(None);
            book.exchange.set_value(None);
        });
        book
    }

    async fn read_kept(self) {
        let read = self.read.try_get_value().unwrap_or_default();
        match self.bench.keep().entries_after(self.survey, read).await {
            Ok((entries, kept)) => {
                // Two readings may overlap; entries read twice are known by their names.
                self.read.try_update_value(|read| *read = kept.max(*read));
                self.take(entries);
            }
            Err(fault) => self.bench.complain(fault.to_string()),
        }
        self.is_read.try_set(true);
    }

    fn read_again(self) {
        leptos::task::spawn_local(async move { self.read_kept().await });
    }

    /// Adds entries that came from the store or the server.
    fn take(self, entries: Vec<survey::Entry>) {
        // The page may have gone to another survey meanwhile.
        let Some(fresh) = self.state.try_with_untracked(|state| {
            entries.into_iter().filter(|entry| state.entry(entry.id).is_none()).collect::<Vec<_>>()
        }) else {
            return;
        };
        if !fresh.is_empty() {
            self.state.update(|state| {
                for entry in fresh {
                    state.take(entry);
                }
            });
            after_it_is_shown(move || {
                self.settled.try_update(|n| *n += 1);
            });
        }
    }

    /// Returns what the whole survey says, worked out anew a moment after each change: see [`Book::settled`].
    pub fn later<T: PartialEq + Send + Sync + 'static>(
        self,
        say: impl Fn(&State) -> T + Send + Sync + 'static,
    ) -> Memo<T> {
        Memo::new(move |_| {
            self.settled.track();
            self.state.with_untracked(&say)
        })
    }

    /// Writes entries: checked against the survey, kept, then shown. Returns their names.
    ///
    /// # Errors
    /// One sentence for the person who wrote them.
    pub async fn write(self, payloads: Vec<Payload>, done: &str) -> Result<Vec<EntryId>, String> {
        let named: Vec<(EntryId, Payload)> = payloads.into_iter().map(|payload| (new_id(), payload)).collect();
        self.write_named(named, done).await
    }

    /// Writes entries under names chosen beforehand, so that they can name each other.
    ///
    /// # Errors
    /// One sentence for the person who wrote them.
    pub async fn write_named(self, named: Vec<(EntryId, Payload)>, done: &str) -> Result<Vec<EntryId>, String> {
        let author = self.bench.author.get_untracked();
        if author.trim().is_empty() {
            return Err("Say who writes here first: your name goes with every entry.".to_owned());
        }
        let ids: Vec<EntryId> = named.iter().map(|(id, _)| *id).collect();
        // Entries of one act may name each other; those are not yet in the survey.
        self.state.with_untracked(|state| {
            named.iter().try_for_each(|(_, payload)| match state.admits(payload) {
                Err(survey::AdmitFault::NoSuchEntry { id, .. }) if ids.contains(&id) => Ok(()),
                other => other.map_err(|fault| sentence(&fault.to_string())),
            })
        })?;
        let keep = self.bench.keep();
        let written = match keep.write(self.survey, author.trim(), named.clone()).await {
            // The browser threw its store away under the open page; what the page holds goes back into it first.
            Err(KeepFault::Cleared) => {
                let held = self.state.with_untracked(|state| state.entries().into_iter().cloned().collect());
                match keep.bring_in(self.survey, held).await {
                    Ok(_) => keep.write(self.survey, author.trim(), named).await,
                    Err(fault) => Err(fault),
                }
            }
            other => other,
        };
        let entries = written.map_err(|fault| fault.to_string())?;
        self.take(entries);
        self.acts.update_value(|acts| acts.push(Act { entries: ids.clone() }));
        self.bench.said.set(Some(Said { words: done.to_owned(), wrong: false, can_undo: true }));
        self.exchange.with_value(|exchange| {
            if let Some(exchange) = exchange {
                exchange.nudge();
            }
        });
        Ok(ids)
    }

    /// Amends an entry: what it now says and why.
    ///
    /// # Errors
    /// One sentence for the person who amends.
    pub async fn amend(self, id: EntryId, payload: &Payload, why: &str) -> Result<(), String> {
        let (amends, settles) = self.before_them(id).ok_or("That entry is not in this survey.")?;
        let value = serde_json::from_str(&payload.to_json()).map_err(|fault| fault.to_string())?;
        let amendment = Amendment { amends, settles, why: why.to_owned(), payload: Some(value) };
        self.write(vec![amendment.into()], "Amended.").await.map(|_| ())
    }

    /// Withdraws an entry: it stays readable and no longer counts.
    ///
    /// # Errors
    /// One sentence for the person who withdraws.
    pub async fn withdraw(self, id: EntryId, why: &str) -> Result<(), String> {
        let (amends, settles) = self.before_them(id).ok_or("That entry is not in this survey.")?;
        let amendment = Amendment { amends, settles, why: why.to_owned(), payload: None };
        self.write(vec![amendment.into()], "Withdrawn.").await.map(|_| ())
    }

    /// Returns the version of a record that the person has before them, and its rivals.
    fn before_them(self, id: EntryId) -> Option<(EntryId, Vec<EntryId>)> {
        self.state.with_untracked(|state| {
            let record = state.record(id)?;
            Some((record.shown().id, record.rivals().iter().map(|rival| rival.id).collect()))
        })
    }

    /// Takes back the last act of this window, by amendment: new entries are withdrawn, amended ones say again what they
    /// said before.
    pub fn undo(self) {
        let Some(act) = self.acts.try_update_value(Vec::pop).flatten() else {
            self.bench.say("There is nothing of this window to take back.");
            return;
        };
        leptos::task::spawn_local(async move {
            for id in act.entries.into_iter().rev() {
                if let Err(why) = self.undo_one(id).await {
                    self.bench.complain(why);
                    return;
                }
                // What takes an act back is not an act to take back itself.
                self.acts.update_value(|acts| {
                    acts.pop();
                });
            }
            self.bench.say("Taken back; the field book keeps both.");
        });
    }

    async fn undo_one(self, id: EntryId) -> Result<(), String> {
        const WHY: &str = "taken back at once";
        let before = self.state.with_untracked(|state| {
            let entry = state.entry(id)?;
            let Payload::Amendment(amendment) = &entry.payload else { return Some((id, None)) };
            let record = state.record(amendment.amends)?;
            let version = record.versions().into_iter().find(|version| version.id == amendment.amends)?;
            Some((record.first().id, Some(record.payload_at(version))))
        });
        match before {
            None => Err("That entry is no longer in this survey.".to_owned()),
            Some((record, None | Some(None))) => self.withdraw(record, WHY).await,
            Some((record, Some(Some(payload)))) => self.amend(record, &payload, WHY).await,
        }
    }
}

/// Does something once the browser has shown what was just put into the page.
pub fn after_it_is_shown(act: impl FnOnce() + 'static) {
    // The next frame shows it; a moment after that frame there is time.
    request_animation_frame(move || set_timeout(act, std::time::Duration::from_millis(60)));
}

/// Draws the name of a new entry.
pub fn new_id() -> EntryId {
    EntryId::new(Uuid::now_v7())
}

/// Makes a library's message a sentence.
pub fn sentence(text: &str) -> String {
    let mut text = text.trim().to_owned();
    if let Some(first) = text.get(0..1) {
        let upper = first.to_uppercase();
        text.replace_range(0..1, &upper);
    }
    if !text.ends_with(['.', '!', '?']) {
        text.push('.');
    }
    for kind in survey::payload::KINDS {
        let shown = kind_in_words(kind);
        if *kind != shown {
            text = text.replace(kind, shown);
        }
    }
    text
}
