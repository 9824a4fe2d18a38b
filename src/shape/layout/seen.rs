//! A piece seen from above as runs of edge and openings, in millimetres: what the checks and the
//! drawing both work on.

use crate::shape::rounded::Rounded;
use crate::shape::stroke::Stroke;
use crate::shape::{FaceKey, Opening, OpeningName, Purpose, Ring, Shape, Way};

/// A point on the piece: `x` along the grain from the left, `y` across it from the front.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Millimetres from the left.
    pub x: f64,
    /// Millimetres from the front.
    pub y: f64,
}

/// Which way a run of edge looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Looks {
    /// To the front: a long edge.
    Front,
    /// To the back: a long edge.
    Back,
    /// To the left or the right: an end.
    End,
}

/// A straight run of the outline, or a short piece of a round one, the wood on its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// The face it belongs to.
    pub face: FaceKey,
    /// How that run of the face lies to the grain.
    pub way: Way,
    /// From here.
    pub from: Point,
    /// To here.
    pub to: Point,
}

/// What an opening is for, as far as it is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Serves {
    /// Nothing was said: a cutout counts as one for a sink set in or under.
    Unsaid,
    /// A sink, under, in or on the top.
    Sink,
    /// A sink whose apron shows in front.
    Apron,
    /// A hole for a faucet or what stands beside it.
    Faucet,
    /// Anything else: a cooktop, an outlet, a cable.
    Other,
}

/// An opening: every point within `r` of a rectangle of half sides `hx`, `hy` about `mid`. A hole
/// has no half sides, a cutout with sharp corners no `r`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Void {
    /// Which.
    pub name: OpeningName,
    /// What it is for.
    pub serves: Serves,
    /// Its centre.
    pub mid: Point,
    /// Half the length of the core.
    pub hx: f64,
    /// Half the width of the core.
    pub hy: f64,
    /// Radius round the core.
    pub r: f64,
}

/// A piece seen from above.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The outline before anything is cut out of it, counter-clockwise and closed.
    pub runs: Vec<Run>,
    /// The same with the cutouts of apron-front sinks taken out of its front.
    pub border: Vec<Run>,
    /// The openings.
    pub voids: Vec<Void>,
}

/// Pieces a full circle is drawn with: the sagitta of a 4 m top is then under 5 micrometres.
const ROUND: f64 = 2_880.0;

impl Point {
    /// How far to another point.
    pub fn to(self, other: Self) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }

    /// A part of the way to another point.
    #[must_use]
    pub fn toward(self, other: Self, part: f64) -> Self {
        Self {
            x: self.x + (other.x - self.x) * part,
            y: self.y + (other.y - self.y) * part,
        }
    }
}

impl Run {
    /// Which way it looks: by its own direction, up to 45 degrees off the grain a long edge.
    pub fn looks(&self) -> Looks {
        let (dx, dy) = (self.to.x - self.from.x, self.to.y - self.from.y);
        if dy.abs() > dx.abs() {
            Looks::End
        } else if dx > 0.0 {
            Looks::Front
        } else {
            Looks::Back
        }
    }

    /// Its length.
    pub fn long(&self) -> f64 {
        self.from.to(self.to)
    }
}

impl Void {
    /// Half its whole length and width.
    pub fn half(&self) -> (f64, f64) {
        (self.hx + self.r, self.hy + self.r)
    }

    /// Its outline as points, counter-clockwise, its round parts in steps.
    pub fn points(&self, steps: u32) -> Vec<Point> {
        let corners = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)];
        let quarter = (steps / 4).max(1);
        let mut out = Vec::new();
        for (at, (sx, sy)) in (0_u32..).zip(corners) {
            let mid = Point {
                x: self.mid.x + sx * self.hx,
                y: self.mid.y + sy * self.hy,
            };
            if self.r <= 0.0 {
                out.push(mid);
                continue;
            }
            for step in 0..=quarter {
                let turn = (f64::from(at) + f64::from(step) / f64::from(quarter))
                    * std::f64::consts::FRAC_PI_2;
                out.push(Point {
                    x: mid.x + self.r * turn.cos(),
                    y: mid.y + self.r * turn.sin(),
                });
            }
        }
        out
    }
}

impl Seen {
    /// A shape from above.
    pub fn of(shape: &Shape) -> Self {
        let drawn = shape.drawn();
        Self {
            runs: runs(&drawn.outline),
            border: runs(&drawn.border),
            voids: shape.openings().iter().map(void).collect(),
        }
    }

    /// The box round the outline: its lower left and upper right corners.
    pub fn extent(&self) -> (Point, Point) {
        let none = (
            Point {
                x: f64::INFINITY,
                y: f64::INFINITY,
            },
            Point {
                x: f64::NEG_INFINITY,
                y: f64::NEG_INFINITY,
            },
        );
        self.runs.iter().fold(none, |(low, high), run| {
            (
                Point {
                    x: low.x.min(run.from.x),
                    y: low.y.min(run.from.y),
                },
                Point {
                    x: high.x.max(run.from.x),
                    y: high.y.max(run.from.y),
                },
            )
        })
    }

    /// Whether a point lies inside the outline, openings left aside.
    pub fn holds(&self, point: Point) -> bool {
        let crosses = |run: &&Run| {
            let (a, b) = (run.from, run.to);
            (a.y > point.y) != (b.y > point.y)
                && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y)
        };
        self.runs.iter().filter(crosses).count() % 2 == 1
    }

    /// How far the outline runs along `x` (or along `y` when `crossways`) between two places of
    /// the other direction: from its least to its most, in millimetres.
    pub fn reach(&self, from: f64, to: f64, crossways: bool) -> f64 {
        // A nanometre to either side, so that a border is not missed by a last digit.
        let (from, to) = (from - 1e-6, to + 1e-6);
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        let turn = |point: Point| {
            if crossways {
                (point.y, point.x)
            } else {
                (point.x, point.y)
            }
        };
        for run in &self.runs {
            let ((ax, ay), (bx, by)) = (turn(run.from), turn(run.to));
            let (low, high) = (ay.min(by), ay.max(by));
            if high < from || low > to {
                continue;
            }
            for level in [ay, by, from, to] {
                if level < low.max(from) || level > high.min(to) {
                    continue;
                }
                let mut meet = |x: f64| {
                    least = least.min(x);
                    most = most.max(x);
                };
                if (by - ay).abs() < f64::EPSILON {
                    meet(ax);
                    meet(bx);
                } else {
                    meet(ax + (bx - ax) * (level - ay) / (by - ay));
                }
            }
        }
        (most - least).max(0.0)
    }
}

fn runs(ring: &Ring) -> Vec<Run> {
    let mut out = Vec::new();
    for run in &ring.runs {
        let points = points(&run.stroke);
        out.extend(
            points
                .windows(2)
                .filter(|pair| pair[0] != pair[1])
                .map(|pair| Run {
                    face: run.face,
                    way: run.way,
                    from: pair[0],
                    to: pair[1],
                }),
        );
    }
    out
}

/// The points of a stroke; arcs in finer steps than for areas, so that distances hold.
fn points(stroke: &Stroke) -> Vec<Point> {
    let mm = |x: f64, y: f64| Point {
        x: x * 1e3,
        y: y * 1e3,
    };
    match stroke {
        Stroke::Arc {
            centre,
            radius,
            start,
            sweep,
        } => {
            let steps = (sweep.abs() / std::f64::consts::TAU * ROUND)
                .ceil()
                .clamp(1.0, ROUND);
            // From 1 to some thousands.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let count = steps as u32;
            (0..=count)
                .map(|step| {
                    let turn = start + sweep * f64::from(step) / steps;
                    mm(
                        centre.x + radius * turn.cos(),
                        centre.y + radius * turn.sin(),
                    )
                })
                .collect()
        }
        other => other
            .points()
            .iter()
            .map(|point| mm(point.x, point.y))
            .collect(),
    }
}

fn serves(opening: &Opening) -> Serves {
    match opening.purpose {
        Purpose::Plain => Serves::Unsaid,
        Purpose::Sink(_) if opening.open_front() => Serves::Apron,
        Purpose::Sink(_) => Serves::Sink,
        Purpose::Faucet | Purpose::Accessory => Serves::Faucet,
        Purpose::Cooktop | Purpose::Outlet | Purpose::Cable => Serves::Other,
    }
}

fn void(opening: &Opening) -> Void {
    let Rounded { cx, cy, hx, hy, r } = opening.figure();
    // Half-nanometres.
    let mm = |half_nm: i128| half_nm as f64 / 2e6;
    Void {
        name: opening.name(),
        serves: serves(opening),
        mid: Point {
            x: mm(cx),
            y: mm(cy),
        },
        hx: mm(hx),
        hy: mm(hy),
        r: mm(r),
    }
}
