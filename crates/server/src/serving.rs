//! Listening, and stopping in good order.

use crate::{Setup, set_up};
use std::future::{Future, IntoFuture as _};
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;
use store::Store;
use tokio::net::TcpListener;

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

/// Serves until the process is told to stop (Ctrl-C, or SIGTERM), then lets requests under way end.
///
/// # Errors
/// [`ServeFault::Port`] when the port cannot be listened on.
pub async fn serve(config: Config, store: Arc<dyn Store>, setup: Setup) -> Result<(), ServeFault> {
    let address = SocketAddr::from((Ipv4Addr::LOCALHOST, config.port));
    let listener = TcpListener::bind(address).await.map_err(|source| ServeFault::Port { port: config.port, source })?;
    println!("The workbench is at http://{}/ (stop with Ctrl-C).", listener.local_addr()?);
    if let Some(clients) = &setup.clients {
        println!("Clients' links open under {clients}, where a proxy must lead here and keep the name asked for.");
    }
    serve_on(listener, store, setup, told_to_stop()).await
}

/// Serves on a port that is listened on already, until `stop` ends. Live streams are ended then, and requests under
/// way may take ten seconds more.
///
/// # Errors
/// [`ServeFault::Ended`] by a fault of the system.
pub async fn serve_on(
    listener: TcpListener,
    store: Arc<dyn Store>,
    setup: Setup,
    stop: impl Future<Output = ()> + Send + 'static,
) -> Result<(), ServeFault> {
    let (router, shared) = set_up(store, setup);
    let stopping = shared.wire.stopping();
    let (at_stop, in_time) = (stopping.clone(), stopping);
    let stop = async move {
        stop.await;
        at_stop.cancel();
    };
    let serving = axum::serve(listener, router).with_graceful_shutdown(stop).into_future();
    tokio::select! {
        ended = serving => ended.map_err(ServeFault::from),
        () = async { in_time.cancelled().await; tokio::time::sleep(GRACE).await } => Ok(()),
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
