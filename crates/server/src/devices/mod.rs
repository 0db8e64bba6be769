//! Phones and other devices of the surveyor: how they reach this machine where there is no internet, and which are let
//! in.
//!
//! A browser keeps an app that works with no network only when it came over HTTPS from an address it trusts. So this
//! machine is its own certificate authority, for its one local name ([`authority`]), hands its certificate over on a
//! page of its own ([`hand_over`]), and answers over HTTPS to devices that were invited at the desk ([`gate`]).

mod asked;
mod authority;
mod gate;
mod hand_over;
mod name;
mod paired;

pub(crate) use asked::{end_device, list_devices, new_invitation, pair_device};
pub(crate) use gate::{Gatekeeper, gate};
pub use hand_over::pages as hand_over_pages;
pub use name::{LocalName, NotALocalName};
pub use paired::Device;

pub(crate) use asked::{__path_end_device, __path_list_devices, __path_new_invitation, __path_pair_device};
pub(crate) use authority::Leaf;

use authority::Authority;
use paired::Paired;
use std::fmt;
use std::io;
use std::path::Path;

/// Which devices reach this machine, and how.
pub struct Devices {
    name: LocalName,
    ports: Ports,
    authority: Authority,
    paired: Paired,
}

/// The ports that devices reach, on every network this machine is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ports {
    /// The workbench, over HTTPS.
    pub workbench: u16,
    /// The page that hands the authority's certificate over, over plain HTTP.
    pub hand_over: u16,
}

impl Devices {
    /// Opens the list of devices and the authority, both kept under the folder of the surveys; makes them the first
    /// time.
    ///
    /// # Errors
    /// What the system says of the files, or that they hold what they should not.
    pub fn kept_in(folder: &Path, name: LocalName, ports: Ports) -> io::Result<Self> {
        let folder = folder.join("devices");
        // An authority for each name: its certificate allows it no other.
        let authority = Authority::kept_in(&folder.join(name.to_string()), &name)?;
        let paired = Paired::kept_in(folder.join("paired.json"))?;
        Ok(Self { name, ports, authority, paired })
    }

    /// Returns the ports that devices reach.
    pub fn ports(&self) -> Ports {
        self.ports
    }

    /// Returns the address of the workbench for devices.
    pub fn address(&self) -> String {
        format!("https://{}:{}", self.name, self.ports.workbench)
    }

    /// Returns the address of the page that hands the certificate over.
    pub fn hand_over_address(&self) -> String {
        format!("http://{}:{}", self.name, self.ports.hand_over)
    }

    /// Returns the fingerprint of the authority's certificate, to be compared by eye.
    pub fn fingerprint(&self) -> String {
        self.authority.fingerprint()
    }

    /// Returns a certificate for the workbench's name.
    pub(crate) fn leaf(&self) -> io::Result<Leaf> {
        self.authority.leaf()
    }
}

impl fmt::Debug for Devices {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // No secrets.
        f.debug_struct("Devices").field("name", &self.name).field("ports", &self.ports).finish_non_exhaustive()
    }
}
