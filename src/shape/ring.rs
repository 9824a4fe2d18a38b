//! A closed ring of runs, each with the face it belongs to.

use geo::{LineString, Polygon};

use super::face::FaceKey;
use super::grain::Way;
use super::stroke::{Point, Stroke};

/// One run of a ring: a straight edge, an arc, a live edge.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The face it is the edge of.
    pub face: FaceKey,
    /// How it lies to the grain.
    pub way: Way,
    /// Where it goes.
    pub stroke: Stroke,
}

/// A closed ring, counter-clockwise: each run starts where the one before it ends.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ring {
    /// Its runs.
    pub runs: Vec<Run>,
}

impl Ring {
    /// The area inside, in square metres: closed form, arcs included.
    pub fn area(&self) -> f64 {
        self.runs.iter().map(|run| run.stroke.area_part()).sum()
    }

    /// The length around, in metres: closed form, arcs included.
    pub fn perimeter(&self) -> f64 {
        self.runs.iter().map(|run| run.stroke.length()).sum()
    }

    /// The points it is drawn through, none twice in a row; the first is not repeated at the end.
    pub fn points(&self) -> Vec<Point> {
        let mut points: Vec<Point> = Vec::new();
        for run in &self.runs {
            for point in run.stroke.points() {
                let same = |last: &Point| {
                    (last.x - point.x).abs() < 1e-10 && (last.y - point.y).abs() < 1e-10
                };
                if !points.last().is_some_and(same) {
                    points.push(point);
                }
            }
        }
        if let (Some(first), Some(last)) = (points.first(), points.last())
            && points.len() > 1
            && (first.x - last.x).abs() < 1e-10
            && (first.y - last.y).abs() < 1e-10
        {
            points.pop();
        }
        points
    }

    /// The ring as a polygon without holes, its arcs cut into chords of half a degree.
    pub fn polygon(&self) -> Polygon<f64> {
        Polygon::new(LineString::from(self.points()), Vec::new())
    }
}
