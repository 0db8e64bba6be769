//! What can go wrong, in one sentence, and the exit status it gives.

use std::fmt::Display;
use std::io;

/// Why a command did not do what was asked.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// The input is not accepted.
    #[error("{0}")]
    Input(String),
    /// The input was good, but it could not be done.
    #[error("{0}")]
    Undone(String),
    /// Whoever reads our output has gone away, as `head` does; nothing is wrong.
    #[error("nobody reads on")]
    ReaderGone,
}

impl Fault {
    /// Returns the fault of some input.
    pub fn input(why: impl Display) -> Self {
        Fault::Input(why.to_string())
    }

    /// Returns the fault of something that could not be done.
    pub fn undone(why: impl Display) -> Self {
        Fault::Undone(why.to_string())
    }

    /// Returns the exit status: 2 for input, 1 for the rest.
    pub fn exit_status(&self) -> u8 {
        match self {
            Fault::Input(_) => 2,
            Fault::Undone(_) => 1,
            Fault::ReaderGone => 0,
        }
    }
}

impl From<io::Error> for Fault {
    fn from(fault: io::Error) -> Self {
        if fault.kind() == io::ErrorKind::BrokenPipe { Fault::ReaderGone } else { Fault::undone(fault) }
    }
}
