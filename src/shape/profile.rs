//! The profile run along an edge of a top: outside, or round an opening.

use std::f64::consts::{FRAC_PI_2, PI, SQRT_2};

use serde::{Deserialize, Serialize};

use crate::units::Length;

/// What is run along an edge of a top, outside or round an opening: along its upper corner, and for
/// a bullnose along its lower one too.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EdgeProfile {
    /// Left square (a broken arris at most).
    #[default]
    Square,
    /// Eased with a small radius.
    Eased(Length),
    /// Rounded over with this radius.
    RoundOver(Length),
    /// A 45 degree chamfer with this leg.
    Chamfer(Length),
    /// An S curve as high and as deep as this: a hollow quarter circle above a round one, each of
    /// half the size.
    Ogee(Length),
    /// A hollow quarter circle of this radius.
    Cove(Length),
    /// Rounded over with this radius above and below; at half the thickness a full bullnose.
    Bullnose(Length),
}

impl EdgeProfile {
    /// Whether nothing is run along the edge.
    pub fn is_square(&self) -> bool {
        *self == EdgeProfile::Square
    }

    /// How far the profile reaches in from the edge, and down from the top: its radius or leg.
    pub fn reach(self) -> Length {
        match self {
            EdgeProfile::Square => Length::ZERO,
            EdgeProfile::Eased(size)
            | EdgeProfile::RoundOver(size)
            | EdgeProfile::Chamfer(size)
            | EdgeProfile::Ogee(size)
            | EdgeProfile::Cove(size)
            | EdgeProfile::Bullnose(size) => size,
        }
    }

    /// How far the profile reaches in from the edge on the underside: nothing for all but a
    /// bullnose.
    pub fn reach_below(self) -> Length {
        match self {
            EdgeProfile::Bullnose(size) => size,
            _ => Length::ZERO,
        }
    }

    /// The trade's word for the profile.
    pub fn name(self) -> &'static str {
        match self {
            EdgeProfile::Square => "square edge",
            EdgeProfile::Eased(_) => "eased edge",
            EdgeProfile::RoundOver(_) => "round-over",
            EdgeProfile::Chamfer(_) => "chamfer",
            EdgeProfile::Ogee(_) => "ogee",
            EdgeProfile::Cove(_) => "cove",
            EdgeProfile::Bullnose(_) => "bullnose",
        }
    }

    /// The word it is typed and filed by: `square`, `eased`, `round-over`...
    pub fn code(self) -> &'static str {
        match self {
            EdgeProfile::Square => "square",
            EdgeProfile::Eased(_) => "eased",
            EdgeProfile::RoundOver(_) => "round-over",
            EdgeProfile::Chamfer(_) => "chamfer",
            EdgeProfile::Ogee(_) => "ogee",
            EdgeProfile::Cove(_) => "cove",
            EdgeProfile::Bullnose(_) => "bullnose",
        }
    }

    /// Every profile with a size, made from one.
    pub const SIZED: [fn(Length) -> EdgeProfile; 6] = [
        EdgeProfile::Eased,
        EdgeProfile::RoundOver,
        EdgeProfile::Chamfer,
        EdgeProfile::Ogee,
        EdgeProfile::Cove,
        EdgeProfile::Bullnose,
    ];

    /// The profile of this [`EdgeProfile::code`] and size; none where the two do not go together.
    pub fn of_code(code: &str, size: Option<Length>) -> Option<EdgeProfile> {
        match size {
            None => (code == "square").then_some(EdgeProfile::Square),
            Some(size) => EdgeProfile::SIZED
                .into_iter()
                .map(|make| make(size))
                .find(|profile| profile.code() == code),
        }
    }

    /// The girth of the edge in metres, measured over its surface from the top face to the
    /// underside: `t`; `t - r + pi r / 2` for an arc (an ogee's two half-size arcs come to the
    /// same); `t - c + c sqrt 2` for a chamfer; `t - 2 r + pi r` for a bullnose.
    pub fn girth(self, thickness: Length) -> f64 {
        let size = self.reach().metres();
        let flat = thickness.metres() - size;
        match self {
            EdgeProfile::Square => flat,
            EdgeProfile::Eased(_)
            | EdgeProfile::RoundOver(_)
            | EdgeProfile::Ogee(_)
            | EdgeProfile::Cove(_) => flat + FRAC_PI_2 * size,
            EdgeProfile::Chamfer(_) => flat + SQRT_2 * size,
            EdgeProfile::Bullnose(_) => flat - size + PI * size,
        }
    }

    /// The wood that the profile takes from each metre of edge, in square metres: `r2 (1 - pi/4)`
    /// for an arc, `pi r2 / 4` for a cove, half the square of the leg for a chamfer; an ogee takes
    /// half its square too, since what its hollow takes more, its round takes less; a bullnose
    /// takes an arc's share twice.
    pub fn taken(self) -> f64 {
        let square = self.reach().metres().powi(2);
        match self {
            EdgeProfile::Square => 0.0,
            EdgeProfile::Eased(_) | EdgeProfile::RoundOver(_) => square * (1.0 - PI / 4.0),
            EdgeProfile::Chamfer(_) | EdgeProfile::Ogee(_) => square / 2.0,
            EdgeProfile::Cove(_) => square * PI / 4.0,
            EdgeProfile::Bullnose(_) => 2.0 * square * (1.0 - PI / 4.0),
        }
    }

    /// The first moment of the profile's surface about the bare edge's plane, for each metre of
    /// edge, in square metres: by it the surface grows where the profile turns outwards round a
    /// corner of an opening (the second rule of Pappus and Guldin: a curve turned by an angle sweeps
    /// its length times the way of its centroid). `r2 (pi/2 - 1)` for an arc, `r2` for a cove, `r2 /
    /// sqrt 2` for a chamfer, `pi r2 / 4` for an ogee, an arc's twice for a bullnose.
    pub(super) fn moment(self) -> f64 {
        let square = self.reach().metres().powi(2);
        match self {
            EdgeProfile::Square => 0.0,
            EdgeProfile::Eased(_) | EdgeProfile::RoundOver(_) => square * (FRAC_PI_2 - 1.0),
            EdgeProfile::Chamfer(_) => square / SQRT_2,
            EdgeProfile::Ogee(_) => square * PI / 4.0,
            EdgeProfile::Cove(_) => square,
            EdgeProfile::Bullnose(_) => square * (PI - 2.0),
        }
    }

    /// The same for the wood taken ([`EdgeProfile::taken`]), in cubic metres: `r3 (5/6 - pi/4)` for
    /// an arc, `r3 / 3` for a cove, a sixth of the leg's cube for a chamfer, `5 r3 / 24` for an ogee.
    pub(super) fn taken_moment(self) -> f64 {
        let cube = self.reach().metres().powi(3);
        let arc = cube * (5.0 / 6.0 - PI / 4.0);
        match self {
            EdgeProfile::Square => 0.0,
            EdgeProfile::Eased(_) | EdgeProfile::RoundOver(_) => arc,
            EdgeProfile::Chamfer(_) => cube / 6.0,
            EdgeProfile::Ogee(_) => cube * 5.0 / 24.0,
            EdgeProfile::Cove(_) => cube / 3.0,
            EdgeProfile::Bullnose(_) => arc * 2.0,
        }
    }
}
