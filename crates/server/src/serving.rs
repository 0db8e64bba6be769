//! Listening, and stopping in good order.

use crate::devices::{Devices, hand_over_pages};
use crate::{Doors, Setup, set_up};
use axum::Router;
use axum_server::{Handle, tls_rustls::RustlsConfig};
use std::future::{Future, IntoFuture as _};
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;
use store::Store;
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;

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
    let yard = setup.devices.as_deref().map(YardListeners::bind).transpose()?;
    println!("The workbench is at http://{}/ (stop with Ctrl-C).", listener.local_addr()?);
    if let Some(clients) = &setup.clients {
        println!("Clients' links open under {clients}, where a proxy must lead here and keep the name asked for.");
    }
    if let Some(devices) = &setup.devices {
        println!(
            "Devices that are paired reach it at {}; how to pair one is under “This device” at the desk.",
            devices.address()
        );
        println!("The certificate they must trust is handed over at {}", devices.hand_over_address());
        println!("and has the fingerprint {}.", devices.fingerprint());
    }
    serve_all(listener, yard, store, setup, told_to_stop()).await
}

/// The sockets that devices reach, on every network this machine is on.
#[derive(Debug)]
pub struct YardListeners {
    /// The workbench, over HTTPS.
    pub workbench: std::net::TcpListener,
    /// The page that hands the certificate over.
    pub hand_over: std::net::TcpListener,
}

impl YardListeners {
    /// Listens on the ports that the devices' addresses name.
    ///
    /// # Errors
    /// [`ServeFault::Port`] when one cannot be listened on.
    pub fn bind(devices: &Devices) -> Result<Self, ServeFault> {
        let ports = devices.ports();
        let listen = |port: u16| {
            let bound = std::net::TcpListener::bind((Ipv4Addr::UNSPECIFIED, port));
            let bound = bound.and_then(|bound| bound.set_nonblocking(true).map(|()| bound));
            bound.map_err(|source| ServeFault::Port { port, source })
        };
        Ok(Self { workbench: listen(ports.workbench)?, hand_over: listen(ports.hand_over)? })
    }
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
    serve_all(listener, None, store, setup, stop).await
}

/// As [`serve_on`], and to devices on sockets of their own.
///
/// # Errors
/// [`ServeFault::Ended`] by a fault of the system.
pub async fn serve_all(
    listener: TcpListener,
    yard: Option<YardListeners>,
    store: Arc<dyn Store>,
    setup: Setup,
    stop: impl Future<Output = ()> + Send + 'static,
) -> Result<(), ServeFault> {
    let devices = setup.devices.clone();
    let Doors { desk, devices: for_devices, shared } = set_up(store, setup);
    let stopping = shared.wire.stopping();
    let (at_stop, in_time) = (stopping.clone(), stopping.clone());
    let stop = async move {
        stop.await;
        at_stop.cancel();
    };
    let yard = match (yard, devices, for_devices) {
        (Some(sockets), Some(devices), Some(router)) => Some(serve_yard(sockets, devices, router, stopping)?),
        _ => None,
    };
    let serving = axum::serve(listener, desk).with_graceful_shutdown(stop).into_future();
    let serving = async {
        match yard {
            Some(yard) => tokio::try_join!(serving, yard).map(|((), ())| ()),
            None => serving.await,
        }
    };
    tokio::select! {
        ended = serving => ended.map_err(ServeFault::from),
        () = async { in_time.cancelled().await; tokio::time::sleep(GRACE).await } => Ok(()),
    }
}

/// Serves devices over HTTPS, and the page that hands the certificate over, until told to stop.
fn serve_yard(
    sockets: YardListeners,
    devices: Arc<Devices>,
    router: Router,
    stopping: CancellationToken,
) -> Result<impl Future<Output = std::io::Result<()>>, ServeFault> {
    let control = axum_server::Control::new();
    let (workbench, hand_over) = (Handle::with_control(control.clone()), Handle::with_control(control.clone()));
    let pages = axum_server::from_tcp(sockets.hand_over)?
        .handle(hand_over)
        .serve(hand_over_pages(Arc::clone(&devices)).into_make_service());
    Ok(async move {
        let leaf = devices.leaf()?;
        let tls = RustlsConfig::from_der(vec![leaf.certificate], leaf.key).await?;
        let workbench =
            axum_server::from_tcp_rustls(sockets.workbench, tls)?.handle(workbench).serve(router.into_make_service());
        let end = async {
            stopping.cancelled().await;
            control.graceful_shutdown(Some(GRACE));
            Ok(())
        };
        tokio::try_join!(workbench, pages, end).map(|_| ())
    })
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
