//! Why something about wood is not noted.

use crate::shop::FastenerError;
use crate::wood::moisture::{EmcError, ReadingError, RuleError};
use crate::wood::species::LookUpError;
use thiserror::Error;

/// Why a reading, a site, a wood or the rule of readiness is not saved.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum WoodRefusal {
    /// A reading that cannot be.
    #[error(transparent)]
    Reading(#[from] ReadingError),
    /// A reading that was not taken yet.
    #[error("A reading cannot lie ahead of now; type when it was taken.")]
    Ahead,
    /// Air that the handbook's equation does not cover.
    #[error(transparent)]
    Air(#[from] EmcError),
    /// No such wood in the table.
    #[error(transparent)]
    LookUp(#[from] LookUpError),
    /// A size of a fastener that cannot be.
    #[error(transparent)]
    Fastener(#[from] FastenerError),
    /// A wood of the shop's own that cannot be.
    #[error("{why}")]
    Own {
        /// Why not, one sentence.
        why: String,
    },
    /// A wood that pieces are of.
    #[error("{pieces} of {name}, so it keeps its name and stays; change the wood of those first.")]
    InUse {
        /// `3A bar top is` or `3A bar top and 2 more are`.
        pieces: String,
        /// The wood.
        name: String,
    },
    /// A rule that cannot be.
    #[error(transparent)]
    Rule(#[from] RuleError),
}
