//! The workbench over HTTP, for the browsers of this machine.
//!
//! For: showing what a store keeps, and handing out reports and reckonings. Not for: deciding what an entry means
//! (room `survey`) or keeping it (room `store`). Listens on the loopback address only; nothing leaves the machine.
//!
//! Read first: [`serve`], [`router`].

mod front;
mod guard;
mod problem;
mod reckoners;
mod surveys;
mod written;

pub use written::{Written, WrittenFault, write_report};

use axum::Router;
use axum::routing::{get, post};
use std::future::IntoFuture as _;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;
use store::Store;
use tower_http::limit::RequestBodyLimitLayer;

/// Largest request body taken, in bytes.
const LARGEST_REQUEST: usize = 64 << 20;

/// How long requests under way may still take once the server is told to stop.
const GRACE: Duration = Duration::from_secs(10);

/// Where to listen.
#[derive(Clone, Debug)]
pub struct Config {
    /// Port on the loopback address; 0 takes a free one.
    pub port: u16,
}

impl Default for Config {
    fn default() -> Self {
        Self { port: 7340 }
    }
}

/// Why there is no server.
#[derive(Debug, thiserror::Error)]
pub enum ServeFault {
    /// The port is taken or may not be used.
    #[error(
        "port {port} of this machine cannot be listened on ({source}); choose another with --port, 0 for a free one"
    )]
    Port {
        /// The port.
        port: u16,
        /// What the system said.
        source: std::io::Error,
    },
    /// The server ended by a fault of the system.
    #[error("the server ended: {0}")]
    Ended(#[from] std::io::Error),
}

/// What the handlers share.
pub(crate) type Shared = Arc<dyn Store>;

/// Returns all that is served, for `serve` and for tests.
pub fn router(store: Arc<dyn Store>) -> Router {
    Router::new()
        .route("/", get(front::front))
        .route("/style.css", get(front::style))
        .route("/api/surveys", get(surveys::list))
        .route("/api/surveys/{survey}/state", get(surveys::state))
        .route("/api/surveys/{survey}/report.pdf", get(surveys::report))
        .route("/api/reckon", get(reckoners::list))
        .route("/api/reckon/{topic}", post(reckoners::reckon))
        .fallback(problem::nothing_here)
        .layer(RequestBodyLimitLayer::new(LARGEST_REQUEST))
        .layer(axum::middleware::from_fn(guard::guard))
        .with_state(store)
}

/// Serves until the process is told to stop (Ctrl-C, or SIGTERM), then lets requests under way end.
///
/// # Errors
/// [`ServeFault::Port`] when the port cannot be listened on.
pub async fn serve(config: Config, store: Arc<dyn Store>) -> Result<(), ServeFault> {
    let address = SocketAddr::from((Ipv4Addr::LOCALHOST, config.port));
    let listener = tokio::net::TcpListener::bind(address)
        .await
        .map_err(|source| ServeFault::Port { port: config.port, source })?;
    println!("The workbench is at http://{}/ (stop with Ctrl-C).", listener.local_addr()?);
    let (told, mut tell) = tokio::sync::watch::channel(());
    let stop = async move {
        told_to_stop().await;
        let _ = told.send(());
    };
    let serving = axum::serve(listener, router(store)).with_graceful_shutdown(stop).into_future();
    tokio::select! {
        ended = serving => ended.map_err(ServeFault::from),
        () = async { let _ = tell.changed().await; tokio::time::sleep(GRACE).await } => Ok(()),
    }
}

async fn told_to_stop() {
    let interrupt = async {
        let _ = tokio::signal::ctrl_c().await;
    };
    #[cfg(unix)]
    let terminate = async {
        match tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
            Ok(mut signal) => {
                signal.recv().await;
            }
            Err(_) => std::future::pending().await,
        }
    };
    #[cfg(not(unix))]
    let terminate = std::future::pending::<()>();
    tokio::select! { () = interrupt => {}, () = terminate => {} }
}
