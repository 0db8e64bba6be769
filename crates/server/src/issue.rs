//! Issuing a report: frozen, signed and written down by whoever holds the surveyor's key.

use crate::news::News;
use crate::problem::Problem;
use crate::surveys::{blocking, named};
use crate::taken_apart::{JsonBody, PathPart};
use crate::workbench::Shared;
use axum::Json;
use axum::extract::State;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use survey::{Digest, EntryId, SurveyId};
use utoipa::ToSchema;

/// Who can issue reports: holds the surveyor's key, which the server never sees.
pub trait Issuer: Send + Sync + std::fmt::Debug {
    /// Issues the next version of a survey's report.
    ///
    /// # Errors
    /// What stands in the way, in a sentence; nothing was written then.
    fn issue(&self, survey: SurveyId, wish: &IssueWish) -> Result<IssuedNow, IssueRefused>;
}

/// How a report is to go out.
#[derive(Clone, Debug, Default, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct IssueWish {
    /// Who writes the entry of the issue.
    pub author: String,
    /// To whom it goes; the addressees of the brief when left out.
    #[serde(default)]
    pub addressees: Vec<String>,
    /// What changed since the version before, in the surveyor's words.
    #[serde(default)]
    pub changes: String,
    /// Checks that are not met and are overruled: the check's name, and the reason, which the report prints.
    #[serde(default)]
    pub against: BTreeMap<String, String>,
}

/// What went out.
#[derive(Clone, Debug, Serialize, ToSchema)]
pub struct IssuedNow {
    /// Its number.
    pub version: u32,
    /// The entry that says so.
    #[schema(value_type = Uuid)]
    pub entry: EntryId,
    /// Digest of the PDF's bytes, by which it can be fetched as an attachment.
    #[schema(value_type = String)]
    pub sha256: Digest,
    /// How many pages it has.
    pub pages: usize,
}

/// Why a report was not issued.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum IssueRefused {
    /// Something asked or recorded is not accepted.
    #[error("{0}")]
    NotAccepted(String),
    /// It could not be done here.
    #[error("{0}")]
    Undone(String),
}

/// Issues the next version of the report: freezes the field book, signs with the surveyor's key, keeps the exact bytes.
#[utoipa::path(post, path = "/api/surveys/{survey}/report/issue", tag = "report", operation_id = "issue_report",
    params(("survey" = String, Path, description = "The survey, a UUID")),
    request_body = IssueWish,
    responses((status = OK, body = IssuedNow, description = "It is issued, and its entries are in the field book")))]
pub async fn issue(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
    JsonBody(wish): JsonBody<IssueWish>,
) -> Result<Json<IssuedNow>, Problem> {
    let survey = named(&survey)?;
    let Some(issuer) = shared.issuer.clone() else {
        return Err(Problem::refused("This server holds no surveyor's key, so it issues no reports."));
    };
    blocking(move || {
        let issued = issuer.issue(survey, &wish).map_err(|why| match why {
            IssueRefused::NotAccepted(why) => Problem::input(why),
            IssueRefused::Undone(why) => Problem::undone(why),
        })?;
        shared.wire.tell(News::Entries(survey));
        Ok(Json(issued))
    })
    .await
}
