//! What the handlers share.

use crate::assets::Assets;
use crate::clients::ClientsAddress;
use crate::devices::Devices;
use crate::folded::Folded;
use crate::issue::Issuer;
use crate::limits::Limits;
use crate::news::Wire;
use crate::previews::Previews;
use crate::surveys::Summary;
use std::collections::HashMap;
use std::sync::{Arc, Mutex};
use store::{Position, Store};
use survey::SurveyId;

/// The store, what is told of it, and what was worked out from it and need not be worked out again.
pub struct Workbench {
    /// The record.
    pub store: Arc<dyn Store>,
    /// What each survey says now, as far as it was folded already.
    pub folded: Folded,
    /// The list of surveys, each with the position up to which it holds.
    pub summaries: Mutex<HashMap<SurveyId, (Position, Summary)>>,
    /// Reports laid out to be looked at.
    pub previews: Previews,
    /// News for those who listen.
    pub wire: Wire,
    /// What is accepted.
    pub limits: Limits,
    /// The app for the browser.
    pub assets: Assets,
    /// Who issues reports.
    pub issuer: Option<Arc<dyn Issuer>>,
    /// Where clients open their links.
    pub clients: Option<ClientsAddress>,
    /// The devices that reach this machine over the network of the yard.
    pub devices: Option<Arc<Devices>>,
    /// The description of the interface, as JSON.
    pub description: String,
}

/// The workbench, as every handler gets it.
pub type Shared = Arc<Workbench>;
