//! News of what came in, from the handlers that take it to the pages that listen.

use survey::{Digest, SurveyId};
use tokio::sync::broadcast;
use tokio_util::sync::CancellationToken;

/// News that may wait for a slow listener. One that falls further behind asks the store instead.
const WAITING: usize = 256;

/// Something came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum News {
    /// Entries of a survey.
    Entries(SurveyId),
    /// An attachment. To which survey it belongs is for the entries to say, which may come later.
    Attachment(Digest),
}

/// Where news is told and heard, and whether the server is stopping.
pub struct Wire {
    news: broadcast::Sender<News>,
    stopping: CancellationToken,
}

impl Default for Wire {
    fn default() -> Self {
        Self { news: broadcast::Sender::new(WAITING), stopping: CancellationToken::new() }
    }
}

impl Wire {
    /// Tells all who listen now.
    pub fn tell(&self, news: News) {
        // It is no fault that nobody listens.
        let _ = self.news.send(news);
    }

    /// Listens from now on.
    pub fn listen(&self) -> broadcast::Receiver<News> {
        self.news.subscribe()
    }

    /// Returns what is cancelled when the server stops. Answers without an end must end then.
    pub fn stopping(&self) -> CancellationToken {
        self.stopping.clone()
    }
}
