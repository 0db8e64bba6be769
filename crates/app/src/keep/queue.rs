//! What the server is not known to have, and letting go of a survey that it has whole.

use super::database::{
    ATTACHMENTS, BOOKS, ENTRIES, HOLDS, NUMBERS, QUEUE, all_of, get_each, hash_of, hold_of, number_of, numbered,
};
use super::{Keep, KeepFault, entries};
use crate::exchange::plan::attachment_named;
use std::collections::BTreeSet;
use survey::{Digest, Entry, SurveyId};
use wasm_bindgen::JsValue;

impl Keep {
    /// Returns the numbers of the entries that the server is not known to have, in the order in which they came.
    pub(crate) async fn queued(&self, survey: SurveyId) -> Result<Vec<u64>, KeepFault> {
        let transaction = self.reading(&[QUEUE]).await?;
        let keys = transaction.store(QUEUE)?.get_all_keys(Some(all_of(survey)?), None)?.await?;
        transaction.done().await?;
        Ok(keys.iter().filter_map(number_of).collect())
    }

    /// Returns the hashes of all entries that are kept.
    pub(crate) async fn hashes(&self, survey: SurveyId) -> Result<BTreeSet<Digest>, KeepFault> {
        let transaction = self.reading(&[NUMBERS]).await?;
        let keys = transaction.store(NUMBERS)?.get_all_keys(Some(all_of(survey)?), None)?.await?;
        transaction.done().await?;
        Ok(keys.iter().filter_map(hash_of).collect())
    }

    /// Returns the hashes of the entries that the server is known to have.
    pub(crate) async fn settled_hashes(&self, survey: SurveyId) -> Result<BTreeSet<Digest>, KeepFault> {
        // What is written between the two is in neither.
        let mut settled = self.hashes(survey).await?;
        let queued = self.queued(survey).await?;
        self.numbered(survey, &queued).await?.iter().for_each(|entry| {
            settled.remove(&entry.hash());
        });
        Ok(settled)
    }

    /// Returns the entries of these numbers.
    pub(crate) async fn numbered(&self, survey: SurveyId, numbers: &[u64]) -> Result<Vec<Entry>, KeepFault> {
        let transaction = self.reading(&[ENTRIES]).await?;
        let keys = numbers.iter().map(|number| numbered(survey, *number));
        let lines = get_each(&transaction.store(ENTRIES)?, keys).await?;
        transaction.done().await?;
        lines.into_iter().map(entries::read).collect()
    }

    /// Removes a survey and its attachments from this browser.
    ///
    /// # Errors
    /// [`KeepFault::NotSent`] while the server is not known to have all of it.
    pub async fn forget(&self, survey: SurveyId) -> Result<(), KeepFault> {
        let transaction = self.writing(&[BOOKS, ENTRIES, NUMBERS, QUEUE, ATTACHMENTS, HOLDS]).await?;
        let waiting = transaction.store(QUEUE)?.count(Some(all_of(survey)?))?.await?;
        if waiting > 0 {
            return Err(KeepFault::NotSent(u64::from(waiting)));
        }
        let lines = transaction.store(ENTRIES)?;
        // A line that cannot be read names nothing that could be removed.
        let entries =
            lines.get_all(Some(all_of(survey)?), None)?.await?.into_iter().map(|line| entries::read(Some(line)));
        let named = entries.filter_map(|entry| Some(attachment_named(&entry.ok()?)?.to_string()));
        let mut unneeded: BTreeSet<String> = named.collect();
        let holds = transaction.store(HOLDS)?;
        let (mine, others): (Vec<_>, Vec<_>) = holds
            .get_all_keys(None, None)?
            .await?
            .iter()
            .filter_map(hold_of)
            .partition(|(holder, _)| *holder == survey.to_string());
        unneeded.extend(mine.into_iter().map(|(_, sha256)| sha256));
        others.iter().for_each(|(_, sha256)| {
            unneeded.remove(sha256);
        });
        let files = transaction.store(ATTACHMENTS)?;
        for sha256 in unneeded {
            files.delete(JsValue::from(sha256))?;
        }
        holds.delete(all_of(survey)?)?;
        lines.delete(all_of(survey)?)?;
        transaction.store(NUMBERS)?.delete(all_of(survey)?)?;
        transaction.store(BOOKS)?.delete(JsValue::from(survey.to_string()))?;
        transaction.done().await?;
        self.inner.teller.tell_others(survey);
        Ok(())
    }
}
