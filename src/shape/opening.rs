//! What is cut through a top: cutouts (sinks, cooktops) and holes (taps, cables).

use std::fmt;

use serde::{Deserialize, Serialize};

use super::face::FaceKey;
use super::fitting::{Mount, Purpose, Sink};
use super::grain::Way;
use super::profile::EdgeProfile;
use super::ring::{Ring, Run};
use super::rounded::{Rounded, halves};
use super::stroke::{Point, Stroke};
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
    /// What it is for.
    #[serde(default)]
    pub purpose: Purpose,
    /// What is run along its edge: above, and for a bullnose below too; square when nothing is
    /// said.
    #[serde(default, skip_serializing_if = "EdgeProfile::is_square")]
    pub profile: EdgeProfile,
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

    /// Whether it is open to the front: the cutout of an apron-front sink, which reaches from the
    /// front edge back.
    pub fn open_front(&self) -> bool {
        let apron = matches!(
            self.purpose,
            Purpose::Sink(Sink {
                mount: Mount::ApronFront(_),
                ..
            })
        );
        apron && matches!(self.what, OpeningKind::Cutout { .. })
    }

    /// The bowl of a sink whose reveal is known: the cutout less the reveal on each side (an
    /// apron-front sink has none at its front).
    pub fn bowl(&self) -> Option<(Length, Length)> {
        let OpeningKind::Cutout { width, depth, .. } = self.what else {
            return None;
        };
        let beyond = self.purpose.sink()?.mount.reveal()?.beyond();
        let sides = if self.open_front() { 1 } else { 2 };
        Some((width - beyond * 2, depth - beyond * sides))
    }

    /// What it takes from the top, in square metres.
    pub fn taken(&self) -> f64 {
        match self.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } if self.open_front() => {
                let corner = (2.0 - std::f64::consts::FRAC_PI_2) * corner_radius.metres().powi(2);
                width.metres() * depth.metres() - corner
            }
            _ => self.figure().area(),
        }
    }

    /// How long its wall is, in metres: the front is no part of one that is open there.
    pub fn wall_length(&self) -> f64 {
        match self.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } if self.open_front() => {
                width.metres() + 2.0 * depth.metres()
                    - (4.0 - std::f64::consts::PI) * corner_radius.metres()
            }
            _ => self.figure().perimeter(),
        }
    }

    /// The surface of its wall with the profile on it, in square metres: the length of the wall
    /// times the profile's girth, and what the profile gains on its way round the corners.
    pub fn wall_area(&self, thickness: Length) -> f64 {
        self.wall_length() * self.profile.girth(thickness) + self.turning() * self.profile.moment()
    }

    /// What the profile takes from the wood, in cubic metres, the corners counted in the same way.
    pub(super) fn profile_taken(&self) -> f64 {
        self.wall_length() * self.profile.taken() + self.turning() * self.profile.taken_moment()
    }

    /// How far the wall turns in all: a whole turn, or only two corners where it is open in front.
    fn turning(&self) -> f64 {
        if self.open_front() {
            std::f64::consts::PI
        } else {
            std::f64::consts::TAU
        }
    }

    /// What it takes of the flat of the top: the opening and its profile round it.
    pub(super) fn above(&self) -> Rounded {
        self.figure().grown(self.profile.reach())
    }

    /// What it takes of the flat of the underside: more than the opening for a bullnose only.
    pub(super) fn below(&self) -> Rounded {
        self.figure().grown(self.profile.reach_below())
    }

    /// The ring of its wall, counter-clockwise from the right of its front (one that is open to
    /// the front reaches out past it, as far as its corners are round).
    pub fn ring(&self) -> Ring {
        let [cx, cy, hx, hy, r] = self.figure().metres_from(0, 0);
        let face = self.wall();
        let core = [(hx, -hy), (hx, hy), (-hx, hy), (-hx, -hy)];
        let mut runs = Vec::new();
        let mut quarter = -std::f64::consts::FRAC_PI_2;
        for i in 0..4 {
            let (px, py) = core[i];
            let (nx, ny) = core[(i + 1) % 4];
            let (dx, dy) = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)][i];
            let point = |x: f64, y: f64| Point {
                x: cx + x + r * dx,
                y: cy + y + r * dy,
            };
            if r > 0.0 {
                runs.push(Run {
                    face,
                    way: Way::Mixed,
                    stroke: Stroke::Arc {
                        centre: Point {
                            x: cx + px,
                            y: cy + py,
                        },
                        radius: r,
                        start: quarter,
                        sweep: std::f64::consts::FRAC_PI_2,
                    },
                });
            }
            if (px, py) != (nx, ny) {
                runs.push(Run {
                    face,
                    way: Way::of(nx - px, ny - py),
                    stroke: Stroke::Line {
                        from: point(px, py),
                        to: point(nx, ny),
                    },
                });
            }
            quarter += std::f64::consts::FRAC_PI_2;
        }
        Ring { runs }
    }

    /// The opening as an exact figure, in the place it has on the top. One that is open to the
    /// front reaches out past it by its corner radius, so that only its back corners are round.
    pub(super) fn figure(&self) -> Rounded {
        if self.open_front()
            && let OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } = self.what
        {
            let r = halves(corner_radius);
            let reach = (halves(depth) - r) / 2;
            return Rounded {
                cx: halves(self.place.x),
                cy: reach,
                hx: halves(width) / 2 - r,
                hy: reach,
                r,
            };
        }
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
