//! Why a weighing could not be made.

/// Why a weighing could not be made: one sentence that says what was wrong, where, and what is accepted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// A data file of this room cannot be read; the caller cannot mend this.
    #[error("the data file {file} cannot be read: {why}.")]
    Data {
        /// File name.
        file: &'static str,
        /// What is wrong.
        why: String,
    },
    /// A state was named that there is none of.
    #[error("{given} in {place} is no state; accepted is one of {accepted}.")]
    State {
        /// What was given.
        given: String,
        /// Where.
        place: String,
        /// The names there are.
        accepted: String,
    },
    /// A reading was named that the data do not know.
    #[error("the reading {group}/{reading} is not known; accepted is {accepted}, each also with not_ before it.")]
    Reading {
        /// Group given.
        group: String,
        /// Reading given.
        reading: String,
        /// The readings there are, of the group if it is known.
        accepted: String,
    },
    /// The prior is not a set of shares.
    #[error("the prior {why}; accepted are shares from 0 to 1 that add up to 1.")]
    Prior {
        /// What is wrong.
        why: String,
    },
    /// A word or number of the context is not known.
    #[error("{given} for {factor} is not known; accepted is {accepted}.")]
    Context {
        /// The factor.
        factor: String,
        /// What was given.
        given: String,
        /// What is accepted.
        accepted: String,
    },
    /// An overriding likelihood is out of range.
    #[error(
        "{p} for {group}/{reading} in state {hypothesis} is not a likelihood; accepted is a number from 0.0001 to 0.9999, since nothing seen on a boat is impossible or certain."
    )]
    Override {
        /// Group.
        group: String,
        /// Reading.
        reading: String,
        /// State.
        hypothesis: String,
        /// What was given.
        p: f64,
    },
}
