//! Why something did not come or go.

use crate::keep::KeepFault;
use survey::Digest;

/// Why entries or an attachment could not be exchanged with the server. Nothing recorded is lost by it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ExchangeFault {
    /// The server cannot be reached, or not now. This is normal, under a boat.
    #[error("the server cannot be reached now ({0}); what is entered is kept here and sent later")]
    Away(String),
    /// The server answers paired devices only, and this is none, or none any more.
    #[error("this device is not paired with the workbench here; what is entered is kept on it")]
    NotPaired,
    /// The server does not take something.
    #[error("the server does not take this: {0}")]
    Refused(String),
    /// The server hands out entries that this version of the page cannot read.
    #[error("the record has an entry that this page cannot read ({0}); reload the page to bring it up to date")]
    Newer(String),
    /// The server took entries and does not hand them back.
    #[error("the server took entries and does not hand them out again; they stay here, queued")]
    NotHandedBack,
    /// No one here or there has the attachment.
    #[error("the attachment {0} is neither on this device nor on the server")]
    NoAttachment(Digest),
    /// What the server handed out is not what was asked for.
    #[error("the server's copy of attachment {0} has been altered or damaged")]
    Altered(Digest),
    /// This browser does not keep what came.
    #[error(transparent)]
    Keep(#[from] KeepFault),
}

impl ExchangeFault {
    /// Tells whether it is only that the server is out of reach.
    pub(super) fn is_away(&self) -> bool {
        matches!(self, Self::Away(_))
    }
}
