//! One round: fetch what is new, send what waits, and hear it back.

use super::plan::{Heard, MOST_ENTRIES, Sending, Step, Waiting, agree, attachment_named, comparison_is_due};
use super::{ExchangeFault, Standing, http};
use crate::keep::Keep;
use std::cell::Cell;
use std::collections::BTreeSet;
use survey::{Digest, Entry, EntryFault, SurveyId};

/// What a round works on, and whom it tells.
pub(super) struct Round<'a> {
    pub keep: &'a Keep,
    pub survey: SurveyId,
    pub sending: &'a mut Sending,
    /// The server's position up to which all is here.
    pub cursor: &'a Cell<u64>,
    pub new: &'a dyn Fn(Vec<Entry>),
    pub standing: &'a dyn Fn(Standing),
}

impl Round<'_> {
    /// Goes one round: when it returns, nothing is left to fetch, and to send only what was refused.
    pub async fn go(&mut self) -> Result<(), ExchangeFault> {
        loop {
            if let Err(fault) = self.fetch().await {
                if matches!(fault, ExchangeFault::Newer(_)) {
                    // What is written here shall reach the office all the same. It stays queued, being unheard.
                    while self.send_some().await? {}
                    self.sending.forget_there();
                }
                return Err(fault);
            }
            match self.sending.heard(&self.keep.queued(self.survey).await?) {
                Heard::All if self.agrees().await? => {}
                Heard::All => {
                    self.start_over().await?;
                    continue;
                }
                Heard::NotAll => {
                    self.start_over().await?;
                    continue;
                }
                Heard::Never => return Err(ExchangeFault::NotHandedBack),
            }
            let mut sent = false;
            while self.send_some().await? {
                sent = true;
            }
            if !sent {
                return Ok(());
            }
        }
    }

    /// Fetches until there is no more.
    async fn fetch(&mut self) -> Result<(), ExchangeFault> {
        loop {
            let asked = self.keep.ask(self.survey).await?;
            let handed = http::entries(self.survey, asked.after()).await?;
            let read = handed.entries.iter().map(|line| Entry::read(line));
            let entries = read.collect::<Result<Vec<_>, EntryFault>>();
            let entries = entries.map_err(|fault| ExchangeFault::Newer(fault.to_string()))?;
            match self.keep.answered(self.survey, &asked, entries, handed.cursor).await? {
                None => self.sending.forget_there(),
                Some(new) => {
                    self.cursor.set(handed.cursor);
                    if !new.is_empty() {
                        (self.new)(new);
                    }
                    if !handed.more {
                        return Ok(());
                    }
                }
            }
            (self.standing)(Standing::Fetching);
        }
    }

    /// Compares all that the server has with all that is kept, once a day; tells whether there is nothing wrong.
    async fn agrees(&mut self) -> Result<bool, ExchangeFault> {
        let name = format!("compared {}", self.survey);
        let now_ms = js_sys::Date::now() as u64;
        let last = self.keep.setting(&name).await?.and_then(|ms| ms.parse::<u64>().ok());
        if last.is_some_and(|last| !comparison_is_due(last, now_ms)) {
            return Ok(true);
        }
        // What is fetched for the first time is complete by itself.
        let agree = last.is_none() || {
            let settled = self.keep.settled_hashes(self.survey).await?;
            let theirs = self.their_hashes().await?;
            self.fetch().await?;
            agree(&settled, &theirs, &self.keep.hashes(self.survey).await?)
        };
        self.keep.set_setting(&name, &now_ms.to_string()).await?;
        Ok(agree)
    }

    async fn their_hashes(&self) -> Result<BTreeSet<Digest>, ExchangeFault> {
        let (mut theirs, mut after) = (BTreeSet::new(), 0);
        loop {
            let handed = http::entries(self.survey, after).await?;
            theirs.extend(handed.entries.iter().map(|line| Digest::of(line.as_bytes())));
            after = handed.cursor;
            if !handed.more {
                return Ok(theirs);
            }
        }
    }

    async fn start_over(&mut self) -> Result<(), ExchangeFault> {
        self.sending.forget_there();
        Ok(self.keep.start_over(self.survey).await?)
    }

    /// Takes the next step of sending; tells whether there may be another before hearing back.
    async fn send_some(&mut self) -> Result<bool, ExchangeFault> {
        let queued = self.keep.queued(self.survey).await?;
        let left = queued.len() as u64;
        let mut open: Vec<u64> = queued.into_iter().filter(|number| self.sending.is_open(*number)).collect();
        open.truncate(MOST_ENTRIES);
        let entries = self.keep.numbered(self.survey, &open).await?;
        let mut waiting = Vec::with_capacity(open.len());
        for (number, entry) in open.into_iter().zip(&entries) {
            let attachment = match attachment_named(entry) {
                Some(sha256) if self.keep.has_attachment(sha256).await? => Some(sha256),
                _ => None,
            };
            waiting.push(Waiting { number, bytes: entry.line().len(), attachment });
        }
        match self.sending.next(&waiting) {
            Step::Rest => Ok(false),
            Step::HearBack => Ok(false),
            Step::Attachment(sha256) => {
                (self.standing)(Standing::Sending { left });
                match self.send_attachment(sha256).await {
                    Err(ExchangeFault::Refused(why)) => self.sending.attachment_refused(sha256, why, &waiting),
                    Err(other) => return Err(other),
                    Ok(()) => self.sending.attachment_is_there(sha256),
                }
                Ok(true)
            }
            Step::Entries(numbers) => {
                (self.standing)(Standing::Sending { left });
                let chosen = waiting.iter().zip(&entries).filter(|(waiting, _)| numbers.contains(&waiting.number));
                let lines = chosen.map(|(_, entry)| entry.line()).collect();
                match http::send(self.survey, lines).await {
                    Err(ExchangeFault::Refused(why)) => self.sending.entries_refused(&numbers, why),
                    Err(other) => return Err(other),
                    Ok(()) => self.sending.entries_sent(&numbers),
                }
                Ok(true)
            }
        }
    }

    async fn send_attachment(&self, sha256: Digest) -> Result<(), ExchangeFault> {
        if http::has_attachment(sha256).await? {
            return Ok(());
        }
        match self.keep.attachment(sha256).await? {
            Some(blob) => http::put_attachment(sha256, &blob).await,
            None => Err(ExchangeFault::NoAttachment(sha256)),
        }
    }
}
