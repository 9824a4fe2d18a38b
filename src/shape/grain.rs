//! Grain: how the fibres meet a face, by the way it lies and how the top is built up.

use std::fmt;

use serde::{Deserialize, Serialize};

/// How the wood fibres meet a face: what it drinks and how it sands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaceGrain {
    /// The wide face of the boards.
    Face,
    /// Along the fibres, but not the wide face: an edge of the boards.
    LongGrain,
    /// Across the fibres.
    EndGrain,
    /// Long and end grain by turns, as around a hole.
    Mixed,
}

impl fmt::Display for FaceGrain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            FaceGrain::Face => "face grain",
            FaceGrain::LongGrain => "long grain",
            FaceGrain::EndGrain => "end grain",
            FaceGrain::Mixed => "mixed grain",
        })
    }
}

/// How a face lies to the grain, which runs along x.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// Flat: top and underside.
    Flat,
    /// Upright, within 45 degrees of the grain.
    Long,
    /// Upright, 45 degrees off the grain or more.
    Across,
    /// Upright, turning from one to the other.
    Mixed,
}

impl Way {
    /// How an upright face lies whose run goes this way.
    pub(super) fn of(dx: f64, dy: f64) -> Way {
        // A 45 degree clip counts as end grain, whatever the last digit says: it drinks like it.
        if dx.abs() > dy.abs() * (1.0 + 1e-9) {
            Way::Long
        } else {
            Way::Across
        }
    }
}

/// How a top is built up, which decides the grain of its faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Construction {
    /// Boards laid flat, wide faces up.
    FaceGrain,
    /// Strips on edge, wide faces glued to each other.
    EdgeGrain,
    /// Blocks on end, fibres upright.
    EndGrain,
    /// One board or slab.
    SolidSlab,
}

impl Construction {
    /// All constructions, in order.
    pub const ALL: [Construction; 4] = [
        Construction::FaceGrain,
        Construction::EdgeGrain,
        Construction::EndGrain,
        Construction::SolidSlab,
    ];

    /// The grain of a face that lies this way in a top built like this.
    pub fn grain_of(self, way: Way) -> FaceGrain {
        let (flat, long_side, end, round) = match self {
            Construction::FaceGrain | Construction::SolidSlab => (
                FaceGrain::Face,
                FaceGrain::LongGrain,
                FaceGrain::EndGrain,
                FaceGrain::Mixed,
            ),
            Construction::EdgeGrain => (
                FaceGrain::LongGrain,
                FaceGrain::Face,
                FaceGrain::EndGrain,
                FaceGrain::Mixed,
            ),
            // Fibres upright: whatever stands shows them lengthwise.
            Construction::EndGrain => (
                FaceGrain::EndGrain,
                FaceGrain::LongGrain,
                FaceGrain::LongGrain,
                FaceGrain::LongGrain,
            ),
        };
        match way {
            Way::Flat => flat,
            Way::Long => long_side,
            Way::Across => end,
            Way::Mixed => round,
        }
    }
}

impl fmt::Display for Construction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Construction::FaceGrain => "face grain",
            Construction::EdgeGrain => "edge grain",
            Construction::EndGrain => "end grain",
            Construction::SolidSlab => "solid slab",
        })
    }
}
