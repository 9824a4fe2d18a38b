//! Cut list and lumber to buy: board feet net and gross, strips for the glue-up, boards.
//!
//! Lives here: the arithmetic from an outline's reach across each strip to boards in the rack.
//! May not live here: prices, species, or anything stored.

mod boards;
mod strips;

pub use boards::{Boards, BoughtBoard, LumberError, boards, gross_board_feet, round_up_quarter};
pub use strips::{GlueUp, Lay, Strip, StripRun, glue_up};

use crate::units::Length;
use serde::{Deserialize, Serialize};

/// How the shop glues up and buys: its own figures, to be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct LumberRules {
    /// Seen width of one finished strip.
    pub strip: Length,
    /// What is left on each end of a strip, to be trimmed after the glue-up.
    pub end_trim: Length,
    /// What is left on each long side of the glued blank.
    pub side_trim: Length,
    /// What a saw cut and the jointing of the edge take together.
    pub kerf: Length,
    /// Waste, in whole percent of what is bought.
    pub waste_percent: u32,
    /// Nominal width of a board as bought.
    pub board_width: Length,
    /// Its length.
    pub board_length: Length,
    /// Rough thickness in quarters of an inch (8 for 8/4).
    pub quarters: u32,
}

impl Default for LumberRules {
    /// Three-inch strips from 6 in x 10 ft boards of 8/4, 30 % waste (a cabinetmakers' forum takes
    /// 30 % of what is bought; the rest is common practice, no source).
    fn default() -> Self {
        let inches = |count| Length::from_nm(count * Length::NM_PER_INCH);
        Self {
            strip: inches(3),
            end_trim: inches(1),
            side_trim: Length::from_64ths(32),
            kerf: Length::from_64ths(16),
            waste_percent: 30,
            board_width: inches(6),
            board_length: inches(120),
            quarters: 8,
        }
    }
}
