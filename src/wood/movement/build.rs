//! How a top is made, and which way of the wood lies along which side of it.

use serde::{Deserialize, Serialize};

use crate::shape::Construction;
use crate::wood::species::Species;

/// How the boards were sawn: how the growth rings lie to a board's wide face, before it was turned
/// on edge or stood on end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// Rings about along the wide face (plainsawn).
    Flat,
    /// Rings about square to the wide face (quartersawn, vertical grain).
    Quarter,
    /// Both kinds of board, or rings at an angle (rift).
    Mixed,
    /// Nobody looked.
    Unknown,
}

impl Grain {
    /// Every grain.
    pub const ALL: [Self; 4] = [Self::Flat, Self::Quarter, Self::Mixed, Self::Unknown];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Flat => "flatsawn",
            Self::Quarter => "quartersawn",
            Self::Mixed => "mixed grain",
            Self::Unknown => "grain unknown",
        }
    }
}

/// A side of the top, as [`crate::shape`] has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Axis {
    /// Across the grain (y).
    Width,
    /// Along the grain (x); for an end-grain top the long side, which is across the fibres too.
    Length,
    /// From the underside to the top.
    Thickness,
}

impl Axis {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Width, Self::Length, Self::Thickness];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Width => "width",
            Self::Length => "length",
            Self::Thickness => "thickness",
        }
    }
}

/// A way of the wood itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Direction {
    /// Across the growth rings, from the pith outward.
    Radial,
    /// Along the growth rings, around the pith.
    Tangential,
    /// Along the fibres.
    Lengthwise,
}

impl Direction {
    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Radial => "radial",
            Self::Tangential => "tangential",
            Self::Lengthwise => "along the fibres",
        }
    }
}

/// A top as far as its movement goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Build<'a> {
    /// Its wood.
    pub species: &'a Species,
    /// How it is built up.
    pub construction: Construction,
    /// How its boards were sawn.
    pub grain: Grain,
}

impl Build<'_> {
    /// The ways of the wood that lie along a side: one when it is known, two when the side's
    /// movement lies between them.
    ///
    /// Boards flat or one slab: a flatsawn board is tangential in width, radial in thickness; a
    /// quartersawn one the other way round. Strips on edge lie turned by a quarter: flatsawn
    /// strips make a top that is radial in width. Blocks on end turn both sides of the top across
    /// the fibres, each block as it comes, so both lie between radial and tangential, and the
    /// thickness runs along the fibres.
    pub fn directions(&self, axis: Axis) -> &'static [Direction] {
        use Direction::{Lengthwise, Radial, Tangential};
        const EITHER: &[Direction] = &[Radial, Tangential];
        if self.construction == Construction::EndGrain {
            return match axis {
                Axis::Thickness => &[Lengthwise],
                Axis::Width | Axis::Length => EITHER,
            };
        }
        if axis == Axis::Length {
            return &[Lengthwise];
        }
        let turned = (self.construction == Construction::EdgeGrain) != (axis == Axis::Thickness);
        match (self.grain, turned) {
            (Grain::Flat, false) | (Grain::Quarter, true) => &[Tangential],
            (Grain::Flat, true) | (Grain::Quarter, false) => &[Radial],
            (Grain::Mixed | Grain::Unknown, _) => EITHER,
        }
    }

    /// `Maple, sugar, edge grain, flatsawn strips`.
    pub fn words(&self) -> String {
        format!(
            "{}, {}, {}",
            self.species.name,
            self.construction,
            self.grain.words()
        )
    }
}
