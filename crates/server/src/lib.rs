//! The workbench over HTTP, for the browsers of this machine.
//!
//! For: showing what a store keeps, exchanging entries and attachments with the app in the browser, and handing out
//! the app, reports and reckonings. Not for: deciding what an entry means (room `survey`) or keeping it (room
//! `store`). Listens on the loopback address only, unless devices are let in ([`devices`]).
//!
//! Read first: [`serve`], [`router`].

mod assets;
mod attachments;
mod clients;
mod conditional;
mod description;
pub mod devices;
mod entries;
mod folded;
mod front;
mod guard;
mod issue;
mod limits;
mod live;
mod media;
mod news;
mod policy;
mod previews;
mod problem;
mod ranges;
mod reckoners;
mod reports;
mod serving;
mod surveys;
mod take_off;
mod taken_apart;
mod workbench;
mod written;

pub use assets::{Asset, Assets};
pub use clients::{ClientsAddress, NotAnAddress};
pub use issue::{IssueRefused, IssueWish, IssuedNow, Issuer};
pub use limits::Limits;
pub use serving::{Config, ServeFault, YardListeners, serve, serve_all, serve_on};
pub use written::{Wanted, Written, WrittenFault, Yard, write_docx, write_report, write_wanted, yard_list};

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::routing::get;
use devices::Devices;
use std::sync::Arc;
use std::time::Duration;
use store::Store;
use tower_http::catch_panic::CatchPanicLayer;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use workbench::{Shared, Workbench};

/// What is served and within what bounds.
#[derive(Clone, Debug)]
pub struct Setup {
    /// Bounds on requests.
    pub limits: Limits,
    /// The app for the browser.
    pub assets: Assets,
    /// Who issues reports; none are issued when there is none.
    pub issuer: Option<Arc<dyn Issuer>>,
    /// Where clients open the links they were given; from this machine alone when there is none.
    pub clients: Option<ClientsAddress>,
    /// Devices that reach this machine over the network of the yard; none when there is none.
    pub devices: Option<Arc<Devices>>,
}

impl Default for Setup {
    fn default() -> Self {
        Self { limits: Limits::default(), assets: Assets::built_in(), issuer: None, clients: None, devices: None }
    }
}

/// Returns all that is served, with the app that was built in and the usual bounds.
pub fn router(store: Arc<dyn Store>) -> Router {
    router_with(store, Setup::default())
}

/// Returns all that is served.
pub fn router_with(store: Arc<dyn Store>, setup: Setup) -> Router {
    set_up(store, setup).desk
}

/// Returns all that is served, and what is served to devices, behind their gate, when any are let in.
pub fn routers(store: Arc<dyn Store>, setup: Setup) -> (Router, Option<Router>) {
    let doors = set_up(store, setup);
    (doors.desk, doors.devices)
}

/// What is served, behind each door, and the workbench behind both.
pub(crate) struct Doors {
    /// For the browsers of this machine.
    pub desk: Router,
    /// For devices that are paired.
    pub devices: Option<Router>,
    pub shared: Shared,
}

pub(crate) fn set_up(store: Arc<dyn Store>, setup: Setup) -> Doors {
    let Setup { limits, assets, issuer, clients, devices } = setup;
    let (api, described) = api(&limits).split_for_parts();
    let shared = Arc::new(Workbench {
        store,
        folded: Default::default(),
        summaries: Default::default(),
        previews: Default::default(),
        wire: Default::default(),
        limits,
        assets: assets.clone(),
        issuer,
        clients: clients.clone(),
        devices: devices.clone(),
        description: description::finished(described),
    });
    let pages = Router::new()
        .route("/plain", get(front::plain))
        .route("/plain.css", get(front::style))
        .route("/issued/{token}", get(clients::page))
        .route("/issued/{token}/{file}", get(clients::file))
        .layer(from_fn_with_state(limits.answer_within, limits::in_time));
    let rooms = api
        .merge(pages)
        .method_not_allowed_fallback(problem::not_that_way)
        .fallback(front::front)
        .layer(DefaultBodyLimit::max(limits.json_bytes))
        .layer(CatchPanicLayer::custom(guard::panicked))
        .with_state(Arc::clone(&shared));
    let for_devices = devices.map(|devices| {
        let keeper = devices::Gatekeeper { devices, assets };
        rooms.clone().layer(from_fn_with_state(keeper, devices::gate))
    });
    let desk = rooms.layer(from_fn_with_state(clients, guard::guard));
    Doors { desk, devices: for_devices, shared }
}

/// Returns the routes of the interface, each with its description.
fn api(limits: &Limits) -> OpenApiRouter<Shared> {
    let within =
        |routes: OpenApiRouter<Shared>, time: Duration| routes.layer(from_fn_with_state(time, limits::in_time));
    let quick = OpenApiRouter::new()
        .routes(routes!(surveys::list, entries::new_survey))
        .routes(routes!(surveys::state))
        .routes(routes!(entries::since, entries::take))
        .routes(routes!(clients::address))
        .routes(routes!(devices::list_devices, devices::pair_device))
        .routes(routes!(devices::new_invitation))
        .routes(routes!(devices::end_device))
        .routes(routes!(reckoners::list))
        .routes(routes!(reckoners::reckon))
        .routes(routes!(description::description));
    let attached = OpenApiRouter::new().routes(routes!(attachments::get, attachments::put));
    let typeset = OpenApiRouter::new()
        .routes(routes!(reports::pdf))
        .routes(routes!(reports::pages))
        .routes(routes!(reports::page))
        .routes(routes!(issue::issue));
    // The live stream has no end, and so no time to end within.
    OpenApiRouter::with_openapi(description::begun())
        .merge(within(quick, limits.answer_within))
        .merge(within(attached, limits.upload_within))
        .merge(within(typeset, limits.typeset_within))
        .routes(routes!(live::live))
}
