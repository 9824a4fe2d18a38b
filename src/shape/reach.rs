//! How far one drawn ring reaches past another.

use geo::{Contains as _, Coord};

use super::face::FaceKey;
use super::ring::Ring;
use super::stroke::{Point, apart};

/// Metres below which a drawn distance is nothing: a tenth of a micrometre.
pub(super) const NEAR: f64 = 1e-7;

/// The distance from a point to a line between two points.
pub(super) fn to_line(point: Point, from: Point, to: Point) -> f64 {
    let along = Coord {
        x: to.x - from.x,
        y: to.y - from.y,
    };
    let square = along.x * along.x + along.y * along.y;
    if square <= 0.0 {
        return apart(point, from);
    }
    let part = ((point.x - from.x) * along.x + (point.y - from.y) * along.y) / square;
    let part = part.clamp(0.0, 1.0);
    apart(
        point,
        Coord {
            x: from.x + along.x * part,
            y: from.y + along.y * part,
        },
    )
}

/// The face of a ring that is nearest to a point, and how far it is, among the faces asked for.
fn nearest(ring: &[(FaceKey, Vec<Point>)], point: Point) -> Option<(FaceKey, f64)> {
    let mut best: Option<(FaceKey, f64)> = None;
    for (face, points) in ring {
        for pair in points.windows(2) {
            let far = to_line(point, pair[0], pair[1]);
            if best.is_none_or(|(_, least)| far < least) {
                best = Some((*face, far));
            }
        }
    }
    best
}

/// How far an opening reaches past the faces of an outline that are asked for, in metres, and at
/// which it reaches the farthest; less than nothing is what is left before the border. Nothing of
/// an opening that lies in front of the front line is looked at where the front is not asked for.
pub(super) fn past(
    outline: &Ring,
    opening: &Ring,
    asked: impl Fn(FaceKey) -> bool,
) -> Option<(FaceKey, f64)> {
    let sides: Vec<(FaceKey, Vec<Point>)> = outline
        .runs
        .iter()
        .filter(|run| asked(run.face))
        .map(|run| (run.face, run.stroke.points()))
        .collect();
    let front = asked(FaceKey::Front);
    let (outer, hole) = (outline.polygon(), opening.polygon());
    let mut worst: Option<(FaceKey, f64)> = None;
    let mut note = |face: FaceKey, past: f64| {
        if worst.is_none_or(|(_, most)| past > most) {
            worst = Some((face, past));
        }
    };
    for point in opening.points() {
        if !front && point.y <= NEAR {
            continue;
        }
        if let Some((face, far)) = nearest(&sides, point) {
            let inside = outer.contains(&geo::Point::from(point));
            note(face, if inside { -far } else { far });
        }
    }
    // A border that pokes into the opening between the opening's own points.
    let wall: Vec<(FaceKey, Vec<Point>)> = opening
        .runs
        .iter()
        .map(|run| (run.face, run.stroke.points()))
        .collect();
    for (face, points) in &sides {
        for point in points {
            if let Some((_, far)) = nearest(&wall, *point) {
                let inside = hole.contains(&geo::Point::from(*point));
                note(*face, if inside { far } else { -far });
            }
        }
    }
    worst
}
