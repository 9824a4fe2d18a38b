//! The drawing of a shape: its outline with the apron-front cutouts taken out of the front, and
//! its openings, each run with the face it belongs to and how it lies to the grain.

use geo::{Centroid as _, LineString, Polygon};

use super::face::FaceKey;
use super::grain::Way;
use super::opening::OpeningName;
use super::ring::{Ring, Run};
use super::solid::ShapeDraft;
use super::stroke::{Point, Stroke};

/// An opening as drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnOpening {
    /// Its name.
    pub name: OpeningName,
    /// Its whole ring, counter-clockwise. One that is open to the front reaches past it.
    pub ring: Ring,
    /// Whether it is open to the front, and so part of the border.
    pub open_front: bool,
}

/// A shape drawn flat, in metres, x along the grain.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// The outline before anything is cut out of it, counter-clockwise.
    pub outline: Ring,
    /// The outline with cutouts that are open to the front taken out of it: what is left of the
    /// outside edge, and the walls of those cutouts between.
    pub border: Ring,
    /// Every opening.
    pub openings: Vec<DrawnOpening>,
}

impl Drawn {
    /// The drawing of a checked draft, which closes.
    pub(super) fn of(draft: &ShapeDraft) -> Drawn {
        let outline = draft.outline.ring().unwrap_or_default();
        let mut border = outline.clone();
        for opening in draft.openings.iter().filter(|o| o.open_front()) {
            border = open(&border, &opening.ring());
        }
        let openings = draft
            .openings
            .iter()
            .map(|opening| DrawnOpening {
                name: opening.name(),
                ring: opening.ring(),
                open_front: opening.open_front(),
            })
            .collect();
        Drawn {
            outline,
            border,
            openings,
        }
    }

    /// The border with all closed openings as holes, arcs in chords of half a degree.
    pub fn polygon(&self) -> Polygon<f64> {
        let holes = self
            .openings
            .iter()
            .filter(|opening| !opening.open_front)
            .map(|opening| LineString::from(opening.ring.points()))
            .collect();
        Polygon::new(LineString::from(self.border.points()), holes)
    }

    /// The lower left and the upper right corner of the box around the outline.
    pub fn extent(&self) -> (Point, Point) {
        let mut low = Point {
            x: f64::MAX,
            y: f64::MAX,
        };
        let mut high = Point {
            x: f64::MIN,
            y: f64::MIN,
        };
        for point in self.outline.points() {
            low = Point {
                x: low.x.min(point.x),
                y: low.y.min(point.y),
            };
            high = Point {
                x: high.x.max(point.x),
                y: high.y.max(point.y),
            };
        }
        (low, high)
    }

    /// Where the top balances, openings taken out: the centroid of [`Drawn::polygon`].
    pub fn balance(&self) -> Point {
        self.polygon()
            .centroid()
            .map_or_else(Point::default, |point| Point {
                x: point.x(),
                y: point.y(),
            })
    }

    /// The outside faces, each once, with how they lie and their true lengths in metres.
    pub fn sides(&self) -> Vec<(FaceKey, Way, f64)> {
        let mut sides: Vec<(FaceKey, Way, f64)> = Vec::new();
        for run in &self.border.runs {
            if matches!(run.face, FaceKey::Cutout(_)) {
                continue;
            }
            let length = run.stroke.length();
            match sides.iter_mut().find(|(face, _, _)| *face == run.face) {
                Some((_, _, sum)) => *sum += length,
                None => sides.push((run.face, run.way, length)),
            }
        }
        sides
    }
}

/// A border with one cutout taken out of its front.
fn open(border: &Ring, cutout: &Ring) -> Ring {
    // What of the cutout's wall lies behind the front, walked clockwise as the border's own
    // counter-clockwise way round the wood asks.
    let mut wall: Vec<Run> = cutout
        .runs
        .iter()
        .rev()
        .filter_map(|run| {
            behind(run).map(|stroke| Run {
                stroke,
                ..run.clone()
            })
        })
        .collect();
    // The ring starts at the right of the front: turned so that the left wall comes first.
    let start = wall
        .iter()
        .position(|run| run.stroke.from().y.abs() < 1e-12)
        .unwrap_or(0);
    wall.rotate_left(start);
    let (Some(left), Some(right)) = (
        wall.first().map(|run| run.stroke.from()),
        wall.last().map(|run| run.stroke.to()),
    ) else {
        return border.clone();
    };
    let mut runs = Vec::new();
    for run in &border.runs {
        match &run.stroke {
            Stroke::Line { from, to }
                if run.face == FaceKey::Front
                    && from.y.abs() < 1e-12
                    && from.x <= left.x
                    && right.x <= to.x =>
            {
                let part = |from, to| Run {
                    stroke: Stroke::Line { from, to },
                    ..run.clone()
                };
                runs.push(part(*from, left));
                runs.extend(wall.iter().cloned());
                runs.push(part(right, *to));
            }
            _ => runs.push(run.clone()),
        }
    }
    Ring { runs }
}

/// A run of an open cutout's wall, reversed, as far as it lies behind the front line.
fn behind(run: &Run) -> Option<Stroke> {
    match &run.stroke {
        Stroke::Line { from, to } => {
            let lift = |point: Point| Point {
                x: point.x,
                y: point.y.max(0.0),
            };
            let (from, to) = (lift(*to), lift(*from));
            (from != to && (from.y > 0.0 || to.y > 0.0)).then_some(Stroke::Line { from, to })
        }
        Stroke::Arc {
            centre,
            radius,
            start,
            sweep,
        } => (start.sin() + (start + sweep).sin() > 0.0).then_some(Stroke::Arc {
            centre: *centre,
            radius: *radius,
            start: start + sweep,
            sweep: -sweep,
        }),
        Stroke::Curve(_) => None,
    }
}
