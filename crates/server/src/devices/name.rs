//! The name under which paired devices reach this machine.

use std::fmt;
use std::net::{IpAddr, Ipv4Addr};
use std::str::FromStr;

/// Domains that no public name server answers for: mDNS (RFC 6762) and home networks (RFC 8375).
const LOCAL_DOMAINS: [&str; 2] = ["local", "home.arpa"];

/// A name, or a private address, of this machine on the network of the yard. A browser keeps what it holds under the
/// name it was reached by, so it should not change: a router may hand out another address tomorrow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LocalName {
    /// Such as `shed.local` or `shed.home.arpa`, in small letters.
    Name(String),
    /// An IPv4 address of a private network (RFC 1918) or of this machine itself.
    Address(Ipv4Addr),
}

/// The text names no machine of a private network.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} is not accepted; accepted is a name of this machine that ends in .local or .home.arpa, as shed.local, or its \
     address on a private network, as 192.168.1.20"
)]
pub struct NotALocalName(String);

impl FromStr for LocalName {
    type Err = NotALocalName;

    fn from_str(text: &str) -> Result<Self, NotALocalName> {
        let no = || NotALocalName(text.to_owned());
        let name = text.trim().to_ascii_lowercase();
        if let Ok(address) = name.parse::<Ipv4Addr>() {
            return (address.is_private() || address.is_loopback()).then_some(Self::Address(address)).ok_or_else(no);
        }
        let of_domain = |domain: &&str| name.strip_suffix(*domain)?.strip_suffix('.');
        let own = LOCAL_DOMAINS.iter().find_map(of_domain).ok_or_else(no)?;
        let is_label = |label: &str| {
            let letters = label.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
            (1..=63).contains(&label.len()) && letters && !label.starts_with('-') && !label.ends_with('-')
        };
        (name.len() <= 253 && own.split('.').all(is_label)).then_some(Self::Name(name.clone())).ok_or_else(no)
    }
}

impl fmt::Display for LocalName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Name(name) => f.write_str(name),
            Self::Address(address) => address.fmt(f),
        }
    }
}

impl LocalName {
    /// Tells whether a request named this host.
    pub(crate) fn is_host(&self, host: &str) -> bool {
        match self {
            Self::Name(name) => name.eq_ignore_ascii_case(host),
            Self::Address(address) => host.parse::<IpAddr>() == Ok(IpAddr::V4(*address)),
        }
    }
}
