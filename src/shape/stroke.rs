//! Lines and arcs: what every outline and opening is drawn with, in metres.

use geo::Coord;

/// A point on the top in metres, from the origin of its outline.
pub type Point = Coord<f64>;

/// Chords to a full turn of a drawn arc: half a degree each, which leaves 0.0013 % of a disc
/// outside its chords.
pub(super) const CHORDS: f64 = 720.0;

/// One stroke of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Stroke {
    /// A straight line.
    Line {
        /// Where it starts.
        from: Point,
        /// Where it ends.
        to: Point,
    },
    /// Part of a circle.
    Arc {
        /// The circle's centre.
        centre: Point,
        /// Its radius.
        radius: f64,
        /// Direction from the centre to the start, in radians from the x axis.
        start: f64,
        /// How far it turns, in radians: counter-clockwise above zero.
        sweep: f64,
    },
    /// Straight lines from point to point: a live edge, or a curve that is neither line nor arc.
    Curve(Vec<Point>),
}

/// The point at a direction from a centre.
pub(super) fn on_circle(centre: Point, radius: f64, angle: f64) -> Point {
    Point {
        x: centre.x + radius * angle.cos(),
        y: centre.y + radius * angle.sin(),
    }
}

/// The distance between two points.
pub(super) fn apart(a: Point, b: Point) -> f64 {
    (b.x - a.x).hypot(b.y - a.y)
}

fn cross(a: Point, b: Point) -> f64 {
    a.x * b.y - a.y * b.x
}

impl Stroke {
    /// Where it starts.
    pub fn from(&self) -> Point {
        match self {
            Stroke::Line { from, .. } => *from,
            Stroke::Arc {
                centre,
                radius,
                start,
                ..
            } => on_circle(*centre, *radius, *start),
            Stroke::Curve(points) => points.first().copied().unwrap_or_default(),
        }
    }

    /// Where it ends.
    pub fn to(&self) -> Point {
        match self {
            Stroke::Line { to, .. } => *to,
            Stroke::Arc {
                centre,
                radius,
                start,
                sweep,
            } => on_circle(*centre, *radius, start + sweep),
            Stroke::Curve(points) => points.last().copied().unwrap_or_default(),
        }
    }

    /// Its true length in metres.
    pub fn length(&self) -> f64 {
        match self {
            Stroke::Line { from, to } => apart(*from, *to),
            Stroke::Arc { radius, sweep, .. } => radius * sweep.abs(),
            Stroke::Curve(points) => points.windows(2).map(|p| apart(p[0], p[1])).sum(),
        }
    }

    /// The points it is drawn through, both ends included; an arc has a chord to each half degree
    /// or less.
    pub fn points(&self) -> Vec<Point> {
        match self {
            Stroke::Line { from, to } => vec![*from, *to],
            Stroke::Curve(points) => points.clone(),
            Stroke::Arc {
                centre,
                radius,
                start,
                sweep,
            } => {
                let chords = (sweep.abs() / std::f64::consts::TAU * CHORDS - 1e-9).ceil();
                // At most two turns' worth, far within u32.
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
                let chords = chords.clamp(1.0, 2.0 * CHORDS) as u32;
                (0..=chords)
                    .map(|i| {
                        let turned = sweep * f64::from(i) / f64::from(chords);
                        on_circle(*centre, *radius, start + turned)
                    })
                    .collect()
            }
        }
    }

    /// Its part of the area of a closed ring, `1/2 integral (x dy - y dx)`, in closed form.
    pub(super) fn area_part(&self) -> f64 {
        match self {
            Stroke::Line { from, to } => cross(*from, *to) / 2.0,
            Stroke::Curve(points) => points.windows(2).map(|p| cross(p[0], p[1]) / 2.0).sum(),
            Stroke::Arc {
                centre,
                radius,
                sweep,
                ..
            } => {
                let (from, to) = (self.from(), self.to());
                let step = Point {
                    x: to.x - from.x,
                    y: to.y - from.y,
                };
                f64::midpoint(radius * radius * sweep, cross(*centre, step))
            }
        }
    }

    /// The same stroke moved.
    #[must_use]
    pub fn moved(&self, by: Point) -> Stroke {
        match self {
            Stroke::Line { from, to } => Stroke::Line {
                from: *from + by,
                to: *to + by,
            },
            Stroke::Arc {
                centre,
                radius,
                start,
                sweep,
            } => Stroke::Arc {
                centre: *centre + by,
                radius: *radius,
                start: *start,
                sweep: *sweep,
            },
            Stroke::Curve(points) => Stroke::Curve(points.iter().map(|p| *p + by).collect()),
        }
    }
}
