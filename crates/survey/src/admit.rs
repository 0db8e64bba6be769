//! Whether a survey can take what someone is about to enter: whether what it names is there.

use crate::payload::{Payload, PayloadFault};
use crate::{EntryId, State};

/// Why a survey does not take what is about to be entered.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AdmitFault {
    /// It names an entry that is not in the survey.
    #[error("{kind}: `{field}` names entry {id}, which is not in this survey")]
    NoSuchEntry {
        /// The kind about to be entered.
        kind: String,
        /// The field.
        field: &'static str,
        /// The entry named.
        id: EntryId,
    },
    /// It names an entry of another kind than it must.
    #[error("{kind}: `{field}` names entry {id}, which is of kind {is}; accepted is {wanted}")]
    OtherKind {
        /// The kind about to be entered.
        kind: String,
        /// The field.
        field: &'static str,
        /// The entry named.
        id: EntryId,
        /// What it is.
        is: String,
        /// What it must be.
        wanted: &'static str,
    },
    /// What an amendment puts in an entry's place is not accepted.
    #[error("amendment of {0}")]
    Amended(#[from] PayloadFault),
}

impl State {
    /// Tells whether the survey can take this payload: every entry it names is there and of the right kind, and what
    /// an amendment puts in an entry's place would itself be accepted.
    pub fn admits(&self, payload: &Payload) -> Result<(), AdmitFault> {
        let there = |field, id: EntryId, wanted: Option<&'static str>| {
            let kind = payload.kind().to_owned();
            let Some(record) = self.record(id) else { return Err(AdmitFault::NoSuchEntry { kind, field, id }) };
            match (wanted, record.first().kind()) {
                (Some(wanted), is) if is != wanted => {
                    Err(AdmitFault::OtherKind { kind, field, id, is: is.to_owned(), wanted })
                }
                _ => Ok(()),
            }
        };
        match payload {
            Payload::Amendment(amendment) => {
                there("amends", amendment.amends, None)?;
                amendment.settles.iter().try_for_each(|id| there("settles", *id, None))?;
                if let (Some(new), Some(record)) = (&amendment.payload, self.record(amendment.amends)) {
                    let new = Payload::read_strict(record.first().kind(), new)?;
                    self.admits(&new)?;
                }
                Ok(())
            }
            Payload::Attachment(attachment) => attachment.of.map_or(Ok(()), |of| there("of", of, None)),
            Payload::Finding(finding) => finding.basis.iter().try_for_each(|id| there("basis", *id, None)),
            Payload::Recommendation(recommendation) => {
                recommendation.findings.iter().try_for_each(|id| there("findings", *id, Some("finding")))
            }
            Payload::EstimateLine(line) => {
                line.recommendation.map_or(Ok(()), |id| there("recommendation", id, Some("recommendation")))
            }
            Payload::FollowUp(follow_up) => there("recommendation", follow_up.recommendation, Some("recommendation")),
            Payload::Observation(observation) => match &observation.reading {
                crate::Reading::Moisture { instrument: Some(id), .. } => there("instrument", *id, Some("instrument")),
                _ => Ok(()),
            },
            _ => Ok(()),
        }
    }
}
