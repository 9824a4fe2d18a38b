//! The outline of a top seen from above.

use serde::{Deserialize, Serialize};

use super::corner::Corners;
use super::forms::{Cup, Ell, LiveSlab, Quad};
use super::outline_error::OutlineError;
use super::ring::Ring;
use super::rings;
use super::rounded::{Rounded, halves};
use super::stroke::apart;
use super::words::NM_PER_64TH;
use crate::units::{Area, Length};

/// The outline of a top, seen from above.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
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
    /// An oval: an ellipse.
    Oval {
        /// Along the grain (x).
        length: Length,
        /// Across the grain (y).
        width: Length,
    },
    /// A rectangle with corners clipped, rounded or notched.
    Cornered {
        /// Along the grain (x).
        length: Length,
        /// Across the grain (y).
        width: Length,
        /// Which, and how.
        corners: Corners,
    },
    /// An L.
    L(Ell),
    /// A U.
    U(Cup),
    /// Four sides out of square.
    Quad(Quad),
    /// A slab with one or two live edges.
    Live(LiveSlab),
}

/// What the second diagonal of a top out of square says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// The second diagonal as measured.
    pub measured: Length,
    /// The second diagonal that follows from the sides and the first, in metres.
    pub computed: f64,
}

impl Closing {
    /// The closing error in metres: measured less computed.
    pub fn error(&self) -> f64 {
        self.measured.metres() - self.computed
    }
}

impl Outline {
    /// The word for it: `rectangle`, `circle`, `oval`, `cornered`, `l`, `u`, `quad`, `live`.
    pub fn word(&self) -> &'static str {
        match self {
            Outline::Rectangle { .. } => "rectangle",
            Outline::Circle { .. } => "circle",
            Outline::Oval { .. } => "oval",
            Outline::Cornered { .. } => "cornered",
            Outline::L(_) => "l",
            Outline::U(_) => "u",
            Outline::Quad(_) => "quad",
            Outline::Live(_) => "live",
        }
    }

    /// The box the outline fits in: length along the grain, width across it. That of a top out of
    /// square is to the nearest nanometre, and nothing where its sides do not close.
    pub fn extent(&self) -> (Length, Length) {
        match self {
            Outline::Rectangle { length, width }
            | Outline::Oval { length, width }
            | Outline::Cornered { length, width, .. }
            | Outline::L(Ell { length, width, .. })
            | Outline::U(Cup { length, width, .. }) => (*length, *width),
            Outline::Circle { diameter } => (*diameter, *diameter),
            Outline::Live(slab) => {
                let (front, back) = slab.reaches();
                (slab.length(), front + back)
            }
            Outline::Quad(_) => {
                let points = self.ring().map(|ring| ring.points()).unwrap_or_default();
                let size = |of: fn(&super::Point) -> f64| {
                    let all = || points.iter().map(of);
                    let (least, most) = (
                        all().fold(f64::MAX, f64::min),
                        all().fold(f64::MIN, f64::max),
                    );
                    Length::from_metres_rounded((most - least).max(0.0))
                };
                (size(|p| p.x), size(|p| p.y))
            }
        }
    }

    /// The corners that are not left sharp; none for an outline that has no corners to cut.
    pub fn corners(&self) -> &Corners {
        static SHARP: Corners = Corners::SHARP;
        match self {
            Outline::Cornered { corners, .. } => corners,
            Outline::L(ell) => &ell.corners,
            Outline::U(cup) => &cup.corners,
            Outline::Quad(quad) => &quad.corners,
            _ => &SHARP,
        }
    }

    /// The sizes that make the outline, each with its name.
    pub(super) fn sizes(&self) -> Vec<(String, Length)> {
        let named: Vec<(&str, Length)> = match self {
            Outline::Rectangle { length, width }
            | Outline::Oval { length, width }
            | Outline::Cornered { length, width, .. } => {
                vec![("length", *length), ("width", *width)]
            }
            Outline::Circle { diameter } => vec![("diameter", *diameter)],
            Outline::L(ell) => vec![
                ("length", ell.length),
                ("width", ell.width),
                ("depth of the run", ell.run),
                ("width of the leg", ell.leg),
            ],
            Outline::U(cup) => vec![
                ("length", cup.length),
                ("width", cup.width),
                ("depth of the run", cup.run),
                ("width of the left leg", cup.left),
                ("width of the right leg", cup.right),
            ],
            Outline::Quad(quad) => {
                let sides = [
                    ("front side", Some(quad.front)),
                    ("right side", Some(quad.right)),
                    ("back side", Some(quad.back)),
                    ("left side", Some(quad.left)),
                    ("diagonal", quad.rising),
                    ("diagonal", quad.falling),
                ];
                sides
                    .into_iter()
                    .filter_map(|(what, size)| Some((what, size?)))
                    .collect()
            }
            Outline::Live(slab) => vec![("length", slab.length())],
        };
        let mut sizes: Vec<(String, Length)> = named
            .into_iter()
            .map(|(what, size)| (what.to_owned(), size))
            .collect();
        for (corner, cut) in self.corners().iter() {
            let of = |(what, size)| (format!("{what} of the {corner}"), size);
            sizes.extend(cut.sizes().into_iter().map(of));
        }
        if let Outline::Live(slab) = self {
            let of = |(no, station): (usize, &super::Station)| {
                (format!("width at station {}", no + 1), station.width)
            };
            sizes.extend(slab.stations.iter().enumerate().map(of));
        }
        sizes
    }

    /// The ring of its runs.
    ///
    /// # Errors
    /// Sides that do not close, corners that are not there or do not fit.
    pub(super) fn ring(&self) -> Result<Ring, OutlineError> {
        rings::ring(self)
    }

    /// The outline as an exact figure, where it is one.
    pub(super) fn figure(&self) -> Option<Rounded> {
        match self {
            // Half a side in half-nanometres is the side in nanometres.
            Outline::Rectangle { length, width } => {
                let (hx, hy) = (halves(*length) / 2, halves(*width) / 2);
                Some(Rounded {
                    cx: hx,
                    cy: hy,
                    hx,
                    hy,
                    r: 0,
                })
            }
            Outline::Circle { diameter } => {
                let r = halves(*diameter) / 2;
                Some(Rounded {
                    cx: r,
                    cy: r,
                    hx: 0,
                    hy: 0,
                    r,
                })
            }
            _ => None,
        }
    }

    /// The area inside, in square metres: in closed form, save that a live edge is straight from
    /// station to station. Nothing where the sides do not close.
    pub fn area(&self) -> Area {
        let m2 = match self {
            Outline::Oval { length, width } => {
                std::f64::consts::PI * length.metres() * width.metres() / 4.0
            }
            other => match other.figure() {
                Some(figure) => figure.area(),
                None => other.ring().map_or(0.0, |ring| ring.area()),
            },
        };
        Area::from_m2(m2)
    }

    /// The length around, in metres.
    pub fn perimeter(&self) -> f64 {
        match self {
            Outline::Oval { length, width } => {
                ellipse_perimeter(length.metres() / 2.0, width.metres() / 2.0)
            }
            other => match other.figure() {
                Some(figure) => figure.perimeter(),
                None => other.ring().map_or(0.0, |ring| ring.perimeter()),
            },
        }
    }

    /// Where the back edge is behind a place along the top, as far as the tape tells: the
    /// outline's last point there. None beside the outline.
    pub fn back_at(&self, x: Length) -> Option<Length> {
        if let Outline::Rectangle { length, width } = self {
            return (Length::ZERO <= x && x <= *length).then_some(*width);
        }
        let (at, points) = (x.metres(), self.ring().ok()?.points());
        let count = points.len();
        let crossing = |i: usize| {
            let (a, b) = (points[i], points[(i + 1) % count]);
            let (low, high) = (a.x.min(b.x), a.x.max(b.x));
            if at < low - 1e-10 || at > high + 1e-10 {
                return None;
            }
            if high - low < 1e-10 {
                return Some(a.y.max(b.y));
            }
            Some(a.y + (b.y - a.y) * (at - a.x) / (b.x - a.x))
        };
        let back = (0..count).filter_map(crossing).reduce(f64::max)?;
        Some(Length::from_metres_rounded(back))
    }

    /// For a top out of square with both diagonals measured: the second against what the sides
    /// and the first make it.
    pub fn closing(&self) -> Option<Closing> {
        let Outline::Quad(quad) = self else {
            return None;
        };
        let measured = quad.rising.and(quad.falling)?;
        let corners = rings::quad_corners(quad).ok()?;
        let computed = apart(corners.get(1)?.1, corners.get(3)?.1);
        Some(Closing { measured, computed })
    }

    /// Whether the outline was measured in inches: every size is a whole number of 64ths.
    pub(super) fn in_inches(&self) -> bool {
        self.sizes()
            .iter()
            .all(|(_, size)| size.nm() % NM_PER_64TH == 0)
    }
}

/// The length around an ellipse with these half axes, by the arithmetic-geometric mean, which
/// doubles the right digits at each step: `4 a E`, `E = pi / (2 M) (1 - sum of 2^(n-1) c_n^2)`
/// (Abramowitz and Stegun 17.6.3 and 17.6.4, from memory; checked against a circle and against
/// the drawn curve).
fn ellipse_perimeter(one: f64, other: f64) -> f64 {
    let (long, short) = (one.max(other), one.min(other));
    let (mut p, mut q) = (1.0, short / long);
    let (mut sum, mut power) = ((1.0 - q * q) / 2.0, 0.5);
    for _ in 0..40 {
        let c = (p - q) / 2.0;
        (p, q) = (f64::midpoint(p, q), (p * q).sqrt());
        power *= 2.0;
        sum += power * c * c;
        if c.abs() < 1e-17 {
            break;
        }
    }
    2.0 * std::f64::consts::PI * long / p * (1.0 - sum)
}
