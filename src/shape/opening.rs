//! What is cut through a top: cutouts (sinks, cooktops) and holes (taps, cables).

use std::fmt;

use serde::{Deserialize, Serialize};

use super::face::FaceKey;
use super::rounded::{Rounded, halves};
use crate::units::Length;

/// A point on the top, from the origin of its outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Place {
    /// From the left end, along the grain.
    pub x: Length,
    /// From the front edge, across the grain.
    pub y: Length,
}

/// The form of an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OpeningKind {
    /// A rectangle, square with the grain, with or without rounded corners.
    Cutout {
        /// Along the grain (x).
        width: Length,
        /// Across the grain (y).
        depth: Length,
        /// Radius of the four corners; zero for sharp ones.
        corner_radius: Length,
    },
    /// A round hole.
    Hole {
        /// Across the hole.
        diameter: Length,
    },
}

/// One opening through the whole thickness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Opening {
    /// Its own number, from 1, among the cutouts or among the holes of the piece. It stays the
    /// same for life, so that ticks and coats on its wall keep their face.
    pub no: u8,
    /// The centre.
    pub place: Place,
    /// The form.
    pub what: OpeningKind,
}

/// An opening by its name: cutouts and holes are numbered apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OpeningName {
    /// Cutout of this number.
    Cutout(u8),
    /// Hole of this number.
    Hole(u8),
}

impl fmt::Display for OpeningName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            OpeningName::Cutout(no) => write!(f, "cutout {no}"),
            OpeningName::Hole(no) => write!(f, "hole {no}"),
        }
    }
}

impl Opening {
    /// The name people call it by.
    pub fn name(&self) -> OpeningName {
        match self.what {
            OpeningKind::Cutout { .. } => OpeningName::Cutout(self.no),
            OpeningKind::Hole { .. } => OpeningName::Hole(self.no),
        }
    }

    /// The face that its wall is.
    pub fn wall(&self) -> FaceKey {
        match self.what {
            OpeningKind::Cutout { .. } => FaceKey::Cutout(self.no),
            OpeningKind::Hole { .. } => FaceKey::Hole(self.no),
        }
    }

    /// The sizes that make the opening, each with its name, the corner radius left out.
    pub(super) fn sizes(&self) -> Vec<(&'static str, Length)> {
        match self.what {
            OpeningKind::Cutout { width, depth, .. } => vec![("width", width), ("depth", depth)],
            OpeningKind::Hole { diameter } => vec![("diameter", diameter)],
        }
    }

    /// The opening as an exact figure, in the place it has on the top.
    pub(super) fn figure(&self) -> Rounded {
        let (cx, cy) = (halves(self.place.x), halves(self.place.y));
        // Half a side in half-nanometres is the side in nanometres.
        match self.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } => {
                let r = halves(corner_radius);
                let (hx, hy) = (halves(width) / 2 - r, halves(depth) / 2 - r);
                Rounded { cx, cy, hx, hy, r }
            }
            OpeningKind::Hole { diameter } => Rounded {
                cx,
                cy,
                hx: 0,
                hy: 0,
                r: halves(diameter) / 2,
            },
        }
    }
}
