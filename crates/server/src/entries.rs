//! Exchanging entries: handing out the lines that came after a cursor, and taking lines written elsewhere.

#![expect(unused_qualifications, reason = "the macro that describes a route writes paths in full")]

use crate::news::News;
use crate::problem::Problem;
use crate::surveys::{blocking, named};
use crate::taken_apart::{Asked, JsonBody, PathPart};
use crate::workbench::Shared;
use axum::Json;
use axum::extract::State;
use serde::{Deserialize, Serialize};
use store::Position;
use survey::{Entry, EntryId, SurveyId};
use utoipa::{IntoParams, ToSchema};
use uuid::Uuid;

/// Most entries handed out at a time.
const BATCH: usize = 2000;

/// Bytes of lines after which no more are added to an answer; a single longer line goes alone.
const BATCH_BYTES: usize = 4 << 20;

/// From where to hand out entries.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct After {
    /// The cursor of the answer before; from the beginning when left out.
    #[serde(default)]
    #[param(value_type = u64, required = false)]
    after: Position,
}

/// Entries as their exact lines.
#[derive(Debug, Serialize, ToSchema)]
pub struct Handed {
    /// Where to go on.
    #[schema(value_type = u64)]
    cursor: Position,
    /// Whether there are more at once.
    more: bool,
    /// The lines, each one entry; the bytes that its hash is of.
    entries: Vec<String>,
}

/// Entries on their way in.
#[derive(Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Incoming {
    /// The lines.
    entries: Vec<String>,
}

/// What came of them.
#[derive(Debug, Serialize, ToSchema)]
pub struct TakenIn {
    /// How many are new and kept.
    new: u64,
    /// How many were here already.
    known: u64,
    /// Names under which an entry of other content was here already; both are kept.
    #[schema(value_type = Vec<Uuid>)]
    clashes: Vec<EntryId>,
}

/// The name of a new survey.
#[derive(Debug, Serialize, ToSchema)]
pub struct NewSurvey {
    /// The survey.
    #[schema(value_type = Uuid)]
    survey: SurveyId,
}

/// Draws the identifier of a new survey. Nothing is kept until its first entry comes.
#[utoipa::path(post, path = "/api/surveys", tag = "surveys", operation_id = "new_survey",
    responses((status = OK, body = NewSurvey, description = "The identifier; nothing is kept yet")))]
pub async fn new_survey() -> Json<NewSurvey> {
    Json(NewSurvey { survey: SurveyId::new(Uuid::now_v7()) })
}

/// Hands out the entries of a survey after a cursor. A survey of which nothing is here has none.
#[utoipa::path(get, path = "/api/surveys/{survey}/entries", tag = "surveys", operation_id = "entries_since",
    params(("survey" = String, Path, description = "The survey, a UUID"), After),
    responses((status = OK, body = Handed, description = "The next entries, in the order in which they came here")))]
pub async fn since(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
    Asked(After { after }): Asked<After>,
) -> Result<Json<Handed>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let mut kept = shared.store.kept_since(Some(survey), after, BATCH)?;
        let mut more = kept.len() == BATCH;
        let mut bytes = 0;
        let fits = kept.iter().take_while(|kept| {
            bytes += kept.line.len();
            bytes <= BATCH_BYTES
        });
        let fits = fits.count().max(1);
        more |= fits < kept.len();
        kept.truncate(fits);
        let cursor = kept.last().map_or(after, |last| last.position);
        let line = |kept: store::KeptEntry| kept.read().map(|entry| entry.line().to_owned());
        let entries = kept.into_iter().map(line).collect::<Result<_, _>>()?;
        Ok(Json(Handed { cursor, more, entries }))
    })
    .await
}

/// Takes entries written elsewhere: all or, at the first fault, none.
#[utoipa::path(post, path = "/api/surveys/{survey}/entries", tag = "surveys", operation_id = "take_entries",
    params(("survey" = String, Path, description = "The survey, a UUID")),
    request_body = Incoming,
    responses((status = OK, body = TakenIn, description = "All are kept")))]
pub async fn take(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
    JsonBody(incoming): JsonBody<Incoming>,
) -> Result<Json<TakenIn>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let read = |(n, line): (usize, &String)| {
            let entry = Entry::read(line).map_err(|why| Problem::input(format!("Entry {}: {why}.", n + 1)))?;
            if entry.survey == survey {
                return Ok(entry);
            }
            let other = entry.survey;
            Err(Problem::input(format!("Entry {} belongs to survey {other}; accepted here is {survey}.", n + 1)))
        };
        let entries = incoming.entries.iter().enumerate().map(read).collect::<Result<Vec<_>, _>>()?;
        let taken = shared.store.take_all(&entries)?;
        if taken.new > 0 {
            shared.wire.tell(News::Entries(survey));
        }
        Ok(Json(TakenIn { new: taken.new, known: taken.known, clashes: taken.clashes }))
    })
    .await
}
