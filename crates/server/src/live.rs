//! Telling a page that there are new entries or attachments, as server-sent events.

use crate::news::News;
use crate::problem::Problem;
use crate::surveys::{blocking, named};
use crate::taken_apart::PathPart;
use crate::workbench::Shared;
use axum::extract::State;
use axum::http::HeaderName;
use axum::response::IntoResponse;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream;
use std::convert::Infallible;
use std::time::Duration;
use store::Position;
use survey::SurveyId;
use tokio::sync::broadcast::{Receiver, error::RecvError};
use tokio::time::{Instant, Interval, interval_at};
use tokio_util::sync::CancellationToken;

/// How often a comment is sent when there is nothing to tell, so that a broken connection is noticed.
const KEEP_ALIVE: Duration = Duration::from_secs(15);

/// Entries read at a time.
const BATCH: usize = 500;

/// Sends an event `cursor` with the position of the last entry, at once and whenever there are new ones, and an event
/// `attachment` with the digest whenever an attachment came in here. Ends when the server stops; the browser asks
/// again by itself.
#[utoipa::path(get, path = "/api/surveys/{survey}/live", tag = "surveys", operation_id = "live",
    params(("survey" = String, Path, description = "The survey, a UUID")),
    responses((status = OK, content_type = "text/event-stream", body = String,
        description = "Events `cursor` (a position, to be given as `after`) and `attachment` (a digest)")))]
pub async fn live(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
) -> Result<impl IntoResponse, Problem> {
    let survey = named(&survey)?;
    // Listening begins before looking, so that nothing falls between.
    let (told, stopping) = (shared.wire.listen(), shared.wire.stopping());
    let seen = last(&shared, survey, Position::START).await?;
    let every = shared.limits.look_every;
    let look = interval_at(Instant::now() + every, every);
    let listener = Listener { shared, survey, seen, greeted: false, told, stopping, look };
    let events = Sse::new(stream::unfold(listener, next)).keep_alive(KeepAlive::new().interval(KEEP_ALIVE));
    // Some proxies hold answers back until they end, unless told not to.
    Ok(([(HeaderName::from_static("x-accel-buffering"), "no")], events))
}

struct Listener {
    shared: Shared,
    survey: SurveyId,
    seen: Position,
    greeted: bool,
    told: Receiver<News>,
    stopping: CancellationToken,
    look: Interval,
}

async fn next(mut listener: Listener) -> Option<(Result<Event, Infallible>, Listener)> {
    if !listener.greeted {
        listener.greeted = true;
        return Some((Ok(cursor(listener.seen)), listener));
    }
    loop {
        let news = tokio::select! {
            () = listener.stopping.cancelled() => return None,
            told = listener.told.recv() => match told {
                Ok(news) => news,
                Err(RecvError::Lagged(_)) => News::Entries(listener.survey),
                Err(RecvError::Closed) => return None,
            },
            // Other programs write to the same store, and do not tell.
            _ = listener.look.tick() => News::Entries(listener.survey),
        };
        match news {
            News::Attachment(sha256) => {
                let event = Event::default().event("attachment").data(sha256.to_string());
                return Some((Ok(event), listener));
            }
            News::Entries(survey) if survey == listener.survey => {
                // A store that fails ends the stream; the page then asks again by itself.
                let now = last(&listener.shared, survey, listener.seen).await.ok()?;
                if now > listener.seen {
                    listener.seen = now;
                    return Some((Ok(cursor(now)), listener));
                }
            }
            News::Entries(_) => {}
        }
    }
}

fn cursor(position: Position) -> Event {
    Event::default().event("cursor").data(position.to_string())
}

/// Returns the position of the last entry of a survey.
async fn last(shared: &Shared, survey: SurveyId, mut after: Position) -> Result<Position, Problem> {
    let store = shared.store.clone();
    blocking(move || {
        if after == Position::START {
            let kept = store.surveys()?;
            return Ok(kept.iter().find(|kept| kept.survey == survey).map_or(after, |kept| kept.last));
        }
        loop {
            let batch = store.kept_since(Some(survey), after, BATCH)?;
            let Some(last) = batch.last() else { return Ok(after) };
            after = last.position;
        }
    })
    .await
}
