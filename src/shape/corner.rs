//! Corners by name, and what is done to them: clipped, rounded, notched.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::units::Length;

/// A corner of an outline. The order is that of walking round from the front left, the inner
/// corners last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Corner {
    /// At the origin.
    FrontLeft,
    /// At the right end of the front.
    FrontRight,
    /// At the right end of the back.
    BackRight,
    /// At the left end of the back.
    BackLeft,
    /// The inside corner of an L.
    Inside,
    /// The left inside corner of a U.
    InsideLeft,
    /// The right inside corner of a U.
    InsideRight,
    /// Of an L: where the leg across the grain ends at the opening.
    Leg,
    /// Of an L: where the run along the grain ends at the opening.
    Run,
    /// Of a U: at the opening's end of the left leg.
    LegLeft,
    /// Of a U: at the opening's end of the right leg.
    LegRight,
}

impl Corner {
    /// All corners, in order.
    pub const ALL: [Corner; 11] = [
        Corner::FrontLeft,
        Corner::FrontRight,
        Corner::BackRight,
        Corner::BackLeft,
        Corner::Inside,
        Corner::InsideLeft,
        Corner::InsideRight,
        Corner::Leg,
        Corner::Run,
        Corner::LegLeft,
        Corner::LegRight,
    ];

    /// The four corners of a rectangle, counter-clockwise from the front left.
    pub const OUTER: [Corner; 4] = [
        Corner::FrontLeft,
        Corner::FrontRight,
        Corner::BackRight,
        Corner::BackLeft,
    ];

    /// The stable code: `front-left`, `inside`, `leg-right`...
    pub fn code(self) -> &'static str {
        match self {
            Corner::FrontLeft => "front-left",
            Corner::FrontRight => "front-right",
            Corner::BackRight => "back-right",
            Corner::BackLeft => "back-left",
            Corner::Inside => "inside",
            Corner::InsideLeft => "inside-left",
            Corner::InsideRight => "inside-right",
            Corner::Leg => "leg",
            Corner::Run => "run",
            Corner::LegLeft => "leg-left",
            Corner::LegRight => "leg-right",
        }
    }

    /// The corner of a code.
    pub fn of_code(code: &str) -> Option<Corner> {
        Corner::ALL.into_iter().find(|corner| corner.code() == code)
    }
}

impl fmt::Display for Corner {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Corner::FrontLeft => "front left corner",
            Corner::FrontRight => "front right corner",
            Corner::BackRight => "back right corner",
            Corner::BackLeft => "back left corner",
            Corner::Inside => "inside corner",
            Corner::InsideLeft => "left inside corner",
            Corner::InsideRight => "right inside corner",
            Corner::Leg => "leg corner",
            Corner::Run => "run corner",
            Corner::LegLeft => "left leg corner",
            Corner::LegRight => "right leg corner",
        })
    }
}

/// What is done to a corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cut {
    /// Rounded with this radius.
    Round(Length),
    /// Cut off straight.
    Clip {
        /// Taken from the edge that runs along the grain.
        along: Length,
        /// Taken from the edge that runs across it.
        across: Length,
    },
    /// A rectangle taken out.
    Notch {
        /// Along the grain.
        along: Length,
        /// Across it.
        across: Length,
    },
}

impl Cut {
    /// The word for it: `round`, `clip`, `notch`.
    pub fn word(self) -> &'static str {
        match self {
            Cut::Round(_) => "round",
            Cut::Clip { .. } => "clip",
            Cut::Notch { .. } => "notch",
        }
    }

    /// Its sizes, each with its name.
    pub(super) fn sizes(self) -> Vec<(&'static str, Length)> {
        match self {
            Cut::Round(radius) => vec![("radius", radius)],
            Cut::Clip { along, across } => {
                vec![("clip along", along), ("clip across", across)]
            }
            Cut::Notch { along, across } => {
                vec![("notch along", along), ("notch across", across)]
            }
        }
    }
}

/// The corners of an outline that are not left sharp: each at most once, in order.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Corners(Vec<(Corner, Cut)>);

impl Corners {
    /// All corners sharp.
    pub const SHARP: Corners = Corners(Vec::new());

    /// These corners cut; of two cuts at one corner the later holds.
    pub fn new(cuts: impl IntoIterator<Item = (Corner, Cut)>) -> Self {
        let mut corners = Corners::SHARP;
        for (corner, cut) in cuts {
            corners.0.retain(|(has, _)| *has != corner);
            corners.0.push((corner, cut));
        }
        corners.0.sort_by_key(|(corner, _)| *corner);
        corners
    }

    /// What is done to a corner, if anything.
    pub fn at(&self, corner: Corner) -> Option<Cut> {
        let (_, cut) = self.0.iter().find(|(has, _)| *has == corner)?;
        Some(*cut)
    }

    /// The cuts, in order of their corners.
    pub fn iter(&self) -> impl Iterator<Item = (Corner, Cut)> + '_ {
        self.0.iter().copied()
    }

    /// Whether every corner is sharp.
    pub fn is_sharp(&self) -> bool {
        self.0.is_empty()
    }
}
