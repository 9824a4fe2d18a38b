//! What to leave open for a year's movement: gaps, slots, a mitre, a cleat.
//!
//! Everything is reckoned from the most a size may move, and rounded up to 1/32 in.

use serde::{Deserialize, Serialize};

use super::build::{Axis, Build};
use super::change::MovementError;
use super::show::{both, up_to_32nd};
use super::year::YearMovement;
use crate::units::Length;
use crate::wood::Standing;
use crate::wood::moisture::{MoistureContent, SeasonBand};

/// Where a top is held, as seen from one of its edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoldLine {
    /// At this edge: it stays.
    ThisEdge,
    /// In the middle: this edge takes half the movement.
    Middle,
    /// At the opposite edge: this edge takes all of it.
    OppositeEdge,
}

impl HoldLine {
    /// The same line as seen from the opposite edge.
    #[must_use]
    pub fn from_opposite(self) -> Self {
        match self {
            Self::ThisEdge => Self::OppositeEdge,
            Self::Middle => Self::Middle,
            Self::OppositeEdge => Self::ThisEdge,
        }
    }

    /// This edge's share of the movement.
    pub(super) fn of(self, length: Length) -> Length {
        match self {
            Self::ThisEdge => Length::ZERO,
            // Rounded up, so that half a nanometre is not lost twice.
            Self::Middle => Length::from_nm(length.nm() / 2 + length.nm() % 2),
            Self::OppositeEdge => length,
        }
    }
}

/// A figure from practice to hold beside what the movement asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PracticeFigure {
    /// What it says.
    pub words: &'static str,
    /// Who says so.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

/// Gaps at walls that makers and joiners ask for.
pub const PRACTICE_GAPS: [PracticeFigure; 3] = [
    PracticeFigure {
        words: "3/16 in at walls",
        source: "a US top maker's installation sheet",
        standing: Standing::Retrieved,
    },
    PracticeFigure {
        words: "1/8 in at the back",
        source: "trade forum on mitred wood tops, 2013",
        standing: Standing::Retrieved,
    },
    PracticeFigure {
        words: "6 to 10 mm at the back",
        source: "a UK worktop fitting page",
        standing: Standing::Retrieved,
    },
];

/// The gap to leave between an edge and a wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// What to leave today, at least.
    pub leave: Length,
    /// What it opens to in the dry season, at most, when just that was left.
    pub opens_to: Length,
}

impl Gap {
    /// `leave at least 3/32" (2.4 mm) today; opens to 7/32" (5.6 mm) in the dry season`.
    pub fn words(&self) -> String {
        if self.leave == Length::ZERO {
            return format!(
                "no gap is needed today; it opens to {} in the dry season",
                both(self.opens_to)
            );
        }
        format!(
            "leave at least {} today; opens to {} in the dry season",
            both(self.leave),
            both(self.opens_to)
        )
    }
}

/// The gap that lets an edge grow to its damp-season place without touching.
pub fn wall_gap(year: &YearMovement, held: HoldLine) -> Gap {
    let leave = up_to_32nd(held.of(year.outward()));
    Gap {
        leave,
        opens_to: leave + up_to_32nd(held.of(year.inward())),
    }
}

/// The gap at the far end of a leg that is joined to a run at a corner: the edge of the run that it
/// stands at moves by its share of the run's width (`held` as seen from that edge), and the leg's own
/// length, held at the corner, comes on top (geometry).
pub fn far_end_gap(run_across: &YearMovement, held: HoldLine, leg_along: &YearMovement) -> Gap {
    let leave = up_to_32nd(held.of(run_across.outward()) + leg_along.outward());
    Gap {
        leave,
        opens_to: leave + up_to_32nd(held.of(run_across.inward()) + leg_along.inward()),
    }
}

/// Round holes for screws up through a fixed rail that makers ask for.
pub const SCREW_HOLES: [PracticeFigure; 2] = [
    PracticeFigure {
        words: "hole 3/8 in larger than the screw, with a large washer",
        source: "a US top maker's installation sheet",
        standing: Standing::Retrieved,
    },
    PracticeFigure {
        words: "5/8 in hole for a 1/4 in lag screw",
        source: "another US top maker's installation sheet",
        standing: Standing::Retrieved,
    },
];

/// A slot across the grain for a screw that travels with the top.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// End to end: travel and screw diameter (common practice, no source).
    pub length: Length,
    /// From the screw's centre today to the slot's end away from the held line.
    pub outward: Length,
    /// From the screw's centre today to the slot's end toward the held line.
    pub inward: Length,
    /// The round hole that would do instead, with the screw in its centre today.
    pub round_hole: Length,
}

impl Slot {
    /// `slot 7/16" (11.1 mm) long, 1/4" (6.4 mm) of it outward of the screw's centre`.
    pub fn words(&self) -> String {
        format!(
            "slot {} long, {} of it outward of the screw's centre today; or a round hole of {}",
            both(self.length),
            both(self.outward),
            both(self.round_hole)
        )
    }
}

/// The slot for a screw whose distance from the held line is the size that `year` was reckoned for.
///
/// # Errors
/// [`MovementError::Size`] for a screw that cannot be.
pub fn slot(year: &YearMovement, screw_diameter: Length) -> Result<Slot, MovementError> {
    let screw = super::change::sized("screw diameter", screw_diameter)?;
    let radius = HoldLine::Middle.of(screw);
    let outward = up_to_32nd(year.outward() + radius);
    let inward = up_to_32nd(year.inward() + radius);
    Ok(Slot {
        length: outward + inward,
        outward,
        inward,
        round_hole: outward.max(inward) * 2,
    })
}

/// A slot of a cleat or breadboard end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CleatSlot {
    /// The screw's distance from the held line; zero is the held screw itself.
    pub from_held: Length,
    /// Its slot; `None` for the held screw, which gets a round hole.
    pub slot: Option<Slot>,
}

/// The slots of a cleat or breadboard end across the grain, for screws at these distances from the
/// one that is held.
///
/// # Errors
/// [`MovementError`] for a wood without figures, or a distance or screw that cannot be.
pub fn cleat_slots(
    build: &Build<'_>,
    from_held: &[Length],
    screw_diameter: Length,
    today: MoistureContent,
    band: &SeasonBand,
) -> Result<Vec<CleatSlot>, MovementError> {
    from_held
        .iter()
        .map(|&distance| {
            if distance == Length::ZERO {
                return Ok(CleatSlot {
                    from_held: distance,
                    slot: None,
                });
            }
            let year = build.year(Axis::Width, distance, today, band)?;
            Ok(CleatSlot {
                from_held: distance,
                slot: Some(slot(&year, screw_diameter)?),
            })
        })
        .collect()
}

/// How far a mitred corner of two like legs opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mitre {
    /// At the outer point in the damp season, at most.
    pub outer_when_damp: Length,
    /// At the inner corner in the dry season, at most.
    pub inner_when_dry: Length,
}

impl Mitre {
    /// `outer point opens up to 1/4" (6.4 mm) when damp, inner corner up to 3/16" (4.8 mm) when
    /// dry`.
    pub fn words(&self) -> String {
        format!(
            "outer point opens up to {} when damp, inner corner up to {} when dry",
            both(self.outer_when_damp),
            both(self.inner_when_dry)
        )
    }
}

/// How far a square mitre opens at its far end, `sqrt 2` times the change of a leg's width (worked
/// out from the geometry): swelling opens the outer point, shrinking the inner corner. `year` is
/// that of one leg's width; both legs are taken to be alike.
pub fn mitre_opening(year: &YearMovement) -> Mitre {
    let opened =
        |length: Length| Length::from_metres_rounded(length.metres() * std::f64::consts::SQRT_2);
    Mitre {
        outer_when_damp: opened(year.outward()),
        inner_when_dry: opened(year.inward()),
    }
}
