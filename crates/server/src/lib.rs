//! The workbench over HTTP, for the browsers of this machine.
//!
//! For: showing what a store keeps, exchanging entries and attachments with the app in the browser, and handing out
//! the app, reports and reckonings. Not for: deciding what an entry means (room `survey`) or keeping it (room
//! `store`). Listens on the loopback address only; nothing leaves the machine.
//!
//! Read first: [`serve`], [`router`].

mod assets;
mod attachments;
mod clients;
mod conditional;
mod description;
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
pub use serving::{Config, ServeFault, serve, serve_on};
pub use written::{Wanted, Written, WrittenFault, Yard, write_docx, write_report, write_wanted, yard_list};

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::routing::get;
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
}

impl Default for Setup {
    fn default() -> Self {
        Self { limits: Limits::default(), assets: Assets::built_in(), issuer: None, clients: None }
    }
}

/// Returns all that is served, with the app that was built in and the usual bounds.
pub fn router(store: Arc<dyn Store>) -> Router {
    router_with(store, Setup::default())
}

/// Returns all that is served.
pub fn router_with(store: Arc<dyn Store>, setup: Setup) -> Router {
    set_up(store, setup).0
}

/// Returns all that is served, and the workbench behind it.
pub(crate) fn set_up(store: Arc<dyn Store>, setup: Setup) -> (Router, Shared) {
    let Setup { limits, assets, issuer, clients } = setup;
    let (api, described) = api(&limits).split_for_parts();
    let shared = Arc::new(Workbench {
        store,
        folded: Default::default(),
        summaries: Default::default(),
        previews: Default::default(),
        wire: Default::default(),
        limits,
        assets,
        issuer,
        clients: clients.clone(),
        description: description::finished(described),
    });
    let pages = Router::new()
        .route("/plain", get(front::plain))
        .route("/plain.css", get(front::style))
        .route("/issued/{token}", get(clients::page))
        .route("/issued/{token}/{file}", get(clients::file))
        .layer(from_fn_with_state(limits.answer_within, limits::in_time));
    let router = api
        .merge(pages)
        .method_not_allowed_fallback(problem::not_that_way)
        .fallback(front::front)
        .layer(DefaultBodyLimit::max(limits.json_bytes))
        .layer(CatchPanicLayer::custom(guard::panicked))
        .layer(from_fn_with_state(clients, guard::guard))
        .with_state(Arc::clone(&shared));
    (router, shared)
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
