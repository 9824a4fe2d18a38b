//! The outline of a top seen from above, and the profile run along its upper outside edge.

use serde::{Deserialize, Serialize};

use super::face::FaceKey;
use super::rounded::{Rounded, halves};
use super::words::NM_PER_64TH;
use crate::units::Length;

/// The outline of a top, seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outline {
    /// A rectangle with sharp corners.
    Rectangle {
        /// Along the grain (x).
        length: Length,
        /// Across the grain (y).
        width: Length,
    },
    /// A round top.
    Circle {
        /// From rim to rim.
        diameter: Length,
    },
}

impl Outline {
    /// The box the outline fits in: length along the grain, width across it.
    pub fn extent(&self) -> (Length, Length) {
        match *self {
            Outline::Rectangle { length, width } => (length, width),
            Outline::Circle { diameter } => (diameter, diameter),
        }
    }

    /// The sizes that make the outline, each with its name.
    pub(super) fn sizes(&self) -> Vec<(&'static str, Length)> {
        match *self {
            Outline::Rectangle { length, width } => vec![("length", length), ("width", width)],
            Outline::Circle { diameter } => vec![("diameter", diameter)],
        }
    }

    /// The outline as an exact figure.
    pub(super) fn figure(&self) -> Rounded {
        match *self {
            // Half a side in half-nanometres is the side in nanometres.
            Outline::Rectangle { length, width } => {
                let (hx, hy) = (halves(length) / 2, halves(width) / 2);
                Rounded {
                    cx: hx,
                    cy: hy,
                    hx,
                    hy,
                    r: 0,
                }
            }
            Outline::Circle { diameter } => {
                let r = halves(diameter) / 2;
                Rounded {
                    cx: r,
                    cy: r,
                    hx: 0,
                    hy: 0,
                    r,
                }
            }
        }
    }

    /// The outside faces around the outline with their runs in metres, in the order of
    /// [`FaceKey`].
    pub(super) fn sides(&self) -> Vec<(FaceKey, f64)> {
        match *self {
            Outline::Rectangle { length, width } => vec![
                (FaceKey::Front, length.metres()),
                (FaceKey::Back, length.metres()),
                (FaceKey::Left, width.metres()),
                (FaceKey::Right, width.metres()),
            ],
            Outline::Circle { .. } => vec![(FaceKey::Rim, self.figure().perimeter())],
        }
    }

    /// How far (in half-nm) a figure that does not fit reaches past the outline, and at which
    /// side it reaches the farthest; zero or less is what is left before the border.
    pub(super) fn reach_past(&self, opening: &Rounded) -> (FaceKey, i128) {
        let top = self.figure();
        let (dx, dy) = (opening.cx - top.cx, opening.cy - top.cy);
        match self {
            Outline::Rectangle { .. } => {
                let past_x = opening.hx + opening.r - top.hx;
                let past_y = opening.hy + opening.r - top.hy;
                let sides = [
                    (FaceKey::Front, past_y - dy),
                    (FaceKey::Back, past_y + dy),
                    (FaceKey::Left, past_x - dx),
                    (FaceKey::Right, past_x + dx),
                ];
                let first = sides[0];
                sides
                    .into_iter()
                    .fold(first, |far, side| if side.1 > far.1 { side } else { far })
            }
            Outline::Circle { .. } => {
                let corner_x = (dx.abs() + opening.hx) as f64;
                let corner_y = (dy.abs() + opening.hy) as f64;
                let past = corner_x.hypot(corner_y) + (opening.r - top.r) as f64;
                // A float turned into an integer saturates: no number is too large for this.
                #[allow(clippy::cast_possible_truncation)]
                let past = past.ceil() as i128;
                (FaceKey::Rim, past)
            }
        }
    }

    /// Whether the outline was measured in inches: every size is a whole number of 64ths.
    pub(super) fn in_inches(&self) -> bool {
        self.sizes()
            .iter()
            .all(|(_, size)| size.nm() % NM_PER_64TH == 0)
    }
}

/// What is run along the upper outside edge of a top. Openings and the lower edge stay square.
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
}

impl EdgeProfile {
    /// How far the profile reaches in from the edge, and down from the top: its radius or leg.
    pub fn reach(self) -> Length {
        match self {
            EdgeProfile::Square => Length::ZERO,
            EdgeProfile::Eased(size)
            | EdgeProfile::RoundOver(size)
            | EdgeProfile::Chamfer(size) => size,
        }
    }

    /// The trade's word for the profile.
    pub fn name(self) -> &'static str {
        match self {
            EdgeProfile::Square => "square edge",
            EdgeProfile::Eased(_) => "eased edge",
            EdgeProfile::RoundOver(_) => "round-over",
            EdgeProfile::Chamfer(_) => "chamfer",
        }
    }

    /// The girth of the edge in metres, measured over its surface from the top face to the
    /// underside: `t`, `t - r + pi r / 2` for an arc, `t - c + c sqrt 2` for a chamfer.
    pub(super) fn girth(self, thickness: Length) -> f64 {
        let size = self.reach().metres();
        let flat = thickness.metres() - size;
        match self {
            EdgeProfile::Square => flat,
            EdgeProfile::Eased(_) | EdgeProfile::RoundOver(_) => {
                flat + std::f64::consts::FRAC_PI_2 * size
            }
            EdgeProfile::Chamfer(_) => flat + std::f64::consts::SQRT_2 * size,
        }
    }
}
