//! How near two things on a piece come to each other, and where.

use super::seen::{Point, Run, Void};

/// The nearest two points of two things, and how far apart they are; nothing when they touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// How far, in millimetres; never negative.
    pub mm: f64,
    /// On the first.
    pub from: Point,
    /// On the second.
    pub to: Point,
}

impl Near {
    fn between(from: Point, to: Point) -> Self {
        Self {
            mm: from.to(to),
            from,
            to,
        }
    }

    /// The nearer of two.
    pub fn or(self, other: Option<Self>) -> Option<Self> {
        Some(match other {
            Some(other) if other.mm <= self.mm => other,
            _ => self,
        })
    }

    /// The same with the first thing grown by `from` and the second by `to` all round.
    fn grown(self, from: f64, to: f64) -> Self {
        let left = (self.mm - from - to).max(0.0);
        if self.mm <= 0.0 {
            return self;
        }
        Self {
            mm: left,
            from: self.from.toward(self.to, (from / self.mm).min(1.0)),
            to: self.to.toward(self.from, (to / self.mm).min(1.0)),
        }
    }
}

/// The nearest point of a straight run.
fn on_run(run: &Run, point: Point) -> Point {
    let (dx, dy) = (run.to.x - run.from.x, run.to.y - run.from.y);
    let square = dx * dx + dy * dy;
    if square <= 0.0 {
        return run.from;
    }
    let part = ((point.x - run.from.x) * dx + (point.y - run.from.y) * dy) / square;
    run.from.toward(run.to, part.clamp(0.0, 1.0))
}

/// The nearest point of an opening's core.
fn on_core(void: &Void, point: Point) -> Point {
    Point {
        x: point.x.clamp(void.mid.x - void.hx, void.mid.x + void.hx),
        y: point.y.clamp(void.mid.y - void.hy, void.mid.y + void.hy),
    }
}

/// From an opening to a run of edge: the nearest two points of a rectangle and a line that do not
/// cross are at a corner of the one or an end of the other.
pub fn to_run(void: &Void, run: &Run) -> Near {
    let (l, r) = (void.mid.x - void.hx, void.mid.x + void.hx);
    let (f, b) = (void.mid.y - void.hy, void.mid.y + void.hy);
    let corners = [(l, f), (r, f), (r, b), (l, b)].map(|(x, y)| Point { x, y });
    let by_corner = corners.map(|corner| Near::between(corner, on_run(run, corner)));
    let by_end = [run.from, run.to].map(|end| Near::between(on_core(void, end), end));
    let first = by_corner[0];
    by_corner
        .into_iter()
        .chain(by_end)
        .fold(
            first,
            |best, near| if near.mm < best.mm { near } else { best },
        )
        .grown(void.r, 0.0)
}

/// From one opening to another.
pub fn to_void(void: &Void, other: &Void) -> Near {
    // Along each direction: the two cores overlap, or one ends before the other begins.
    let along = |mid: f64, half: f64, mid2: f64, half2: f64| {
        let (low, high) = (
            (mid - half).max(mid2 - half2),
            (mid + half).min(mid2 + half2),
        );
        if low <= high {
            let meet = f64::midpoint(low, high);
            (meet, meet)
        } else if mid < mid2 {
            (mid + half, mid2 - half2)
        } else {
            (mid - half, mid2 + half2)
        }
    };
    let (x1, x2) = along(void.mid.x, void.hx, other.mid.x, other.hx);
    let (y1, y2) = along(void.mid.y, void.hy, other.mid.y, other.hy);
    Near::between(Point { x: x1, y: y1 }, Point { x: x2, y: y2 }).grown(void.r, other.r)
}

/// From an opening to the nearest of some runs.
pub fn to_nearest<'a>(void: &Void, runs: impl Iterator<Item = &'a Run>) -> Option<Near> {
    runs.fold(None, |best, run| to_run(void, run).or(best))
}
