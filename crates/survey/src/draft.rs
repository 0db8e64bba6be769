//! What a person or script wants to enter, before a device writes it down.

use crate::EntryId;
use crate::payload::{Payload, PayloadFault, not_json};
use serde::Deserialize;
use serde_json::Value;

/// Why a draft is not accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DraftFault {
    /// The text is not JSON, or lacks a part.
    #[error("{0}")]
    Shape(String),
    /// The payload is not accepted.
    #[error(transparent)]
    Payload(#[from] PayloadFault),
}

/// A kind and a payload, checked; optionally with an identifier chosen beforehand, so that other drafts can name it.
///
/// As JSON: `{"kind": "observation", "payload": {…}}`, with `"id"` where wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// The identifier chosen beforehand.
    pub id: Option<EntryId>,
    /// What is to be entered.
    pub payload: Payload,
}

impl Draft {
    /// Reads a draft from JSON; unknown kinds, unknown fields and impossible values are refused.
    pub fn read(json: &str) -> Result<Self, DraftFault> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Shape {
            id: Option<EntryId>,
            kind: String,
            payload: Value,
        }
        let shape: Shape = serde_json::from_str(json).map_err(|fault| DraftFault::Shape(not_json(&fault)))?;
        Ok(Self { id: shape.id, payload: Payload::read_strict(&shape.kind, &shape.payload)? })
    }
}
