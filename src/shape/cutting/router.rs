//! The shop's router as it is set up for a cut.

use super::guide::Guide;
use super::passes::{CleanUp, DepthRule};
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// Bit, guide, speed and the rules the plan goes by: the shop's own figures, to be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Router {
    /// Cutting diameter of the bit.
    pub bit: Length,
    /// How long the bit's cutting edges are.
    pub cutting_length: Length,
    /// Its flutes.
    pub flutes: u32,
    /// Turns a minute.
    pub rpm: u32,
    /// What one flute takes in one turn.
    pub chip: Length,
    /// How deep a pass may go.
    pub depth: DepthRule,
    /// What is left for the end.
    pub clean_up: CleanUp,
    /// What keeps it to the template.
    pub guide: Guide,
}

impl Default for Router {
    /// A half-inch bit with two flutes at 16,000 turns, 0.005 in a flute, quarter-inch passes, a
    /// sixteenth kept for the end, a three-quarter guide.
    fn default() -> Self {
        let sixteenths = |count: i64| Length::from_64ths(4 * count);
        Self {
            bit: sixteenths(8),
            cutting_length: sixteenths(32),
            flutes: 2,
            rpm: 16_000,
            chip: Length::from_nm(5 * (Length::NM_PER_INCH / 1000)),
            depth: DepthRule::AtMost(sixteenths(4)),
            clean_up: CleanUp::LastDepth(sixteenths(1)),
            guide: Guide::Bushing(sixteenths(12)),
        }
    }
}
