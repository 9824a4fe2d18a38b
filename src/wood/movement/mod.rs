//! How far wood moves with its moisture, and the gaps, slots and holds that follow.
//!
//! Lives here: the rate of each direction, the change of a size, a year of it, what to leave and
//! where to hold. May not: where the moisture comes from ([`super::moisture`]), nor what coats hold
//! back ([`super::sealing`]).
//!
//! # Formulas
//! Between 6 and 14 % at both ends, with printed coefficients: `dD = D C (M_F - M_I)` (Wood Handbook
//! eq. 13-2, p. 13-17). Otherwise `dD = D (M_F - M_I) / (100 F/S - F + M_I)` (eq. 13-3, printed with
//! F = 30), both moisture contents capped at F, where shrinking begins: above it nothing moves.
//! Where a row has coefficients but no shrinkage, `100 F/S - F` is taken as `1/C - 10`, which is
//! the same formula turned round at the 10 % that the coefficients are made for (worked out here).
//! Where a row's coefficients and shrinkage come from different sets, both are used and the movement
//! lies between, so that a wider span is never told to move less.
//! Sizes are those at today's moisture content. Table 13-5 overstates the width and understates
//! the thickness of boards that are neither flatsawn nor quartersawn (p. 13-17).

mod build;
mod change;
mod fasten;
mod fit;
mod hold;
mod rate;
mod room;
mod show;
mod year;

pub use build::{Axis, Build, Direction, Grain};
pub use change::{Movement, MovementError};
pub(in crate::wood) use change::{sized, spread};
pub use fasten::{FigureEight, Spacing, SpacingRule, figure_eight, spaced};
pub use fit::{
    CleatSlot, Gap, HoldLine, Mitre, PRACTICE_GAPS, PracticeFigure, SCREW_HOLES, Slot, cleat_slots,
    far_end_gap, mitre_opening, slot, wall_gap,
};
pub use hold::{HoldAdvice, Situation, Surroundings};
pub use rate::Formula;
pub use room::{Clearance, Filling, clearance};
pub use show::{both, nearest_32nd, up_to_32nd};
pub use year::YearMovement;
