//! The table of woods: how much each shrinks and moves, how heavy it is, and where each figure
//! comes from.
//!
//! Lives here: the built-in rows, the shop's own woods beside them, look-up, density. May not:
//! what a top of that wood does, which is [`super::movement`].

mod density;
mod own;
mod row;
mod table;

pub use density::FIBRE_SATURATION;
pub use own::{OwnWood, OwnWoodError};
pub use row::{Coefficients, Gravity, GravityAt, Shrinkage, Species, SpeciesKind};
pub use table::{LookUpError, SpeciesTable};
