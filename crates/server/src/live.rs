//! Telling a page that there are new entries, as server-sent events.

use crate::Shared;
use crate::entries::{fault, named};
use crate::problem::Problem;
use crate::surveys::blocking;
use axum::extract::{Path, State};
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use std::convert::Infallible;
use std::time::Duration;
use store::Position;
use survey::SurveyId;

/// How often the store is asked. It is asked, and not told, because other programs write to it too.
const PAUSE: Duration = Duration::from_millis(500);

/// Sends an event `cursor` with the position of the last entry, at once and whenever there are new ones.
pub async fn live(
    State(store): State<Shared>,
    Path(survey): Path<String>,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Problem> {
    let survey = named(&survey)?;
    let first = last(&store, survey, Position::START).await?;
    let from = (store, first, true);
    let events = stream::unfold(from, move |(store, seen, at_once)| async move {
        if at_once {
            return Some((Ok(event(seen)), (store, seen, false)));
        }
        loop {
            tokio::time::sleep(PAUSE).await;
            // A store that fails ends the stream; the page then asks again by itself.
            let now = last(&store, survey, seen).await.ok()?;
            if now > seen {
                return Some((Ok(event(now)), (store, now, false)));
            }
        }
    });
    Ok(Sse::new(events).keep_alive(KeepAlive::default()))
}

fn event(cursor: Position) -> Event {
    Event::default().event("cursor").data(cursor.to_string())
}

async fn last(store: &Shared, survey: SurveyId, mut after: Position) -> Result<Position, Problem> {
    let store = store.clone();
    blocking(move || {
        loop {
            let batch = store.kept_since(Some(survey), after, 500).map_err(fault)?;
            let Some(last) = batch.last() else { return Ok(after) };
            after = last.position;
        }
    })
    .await
}
