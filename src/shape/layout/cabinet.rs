//! Checks of a sink against the cabinet below it, and of holes against the sink.

use super::cutouts::code;
use super::finding::Notebook;
use super::rule::Rule;
use super::seen::{Point, Serves, Void};
use crate::shape::{Cabinet, Mount, Opening, OpeningKind, OpeningName, Sink};
use crate::units::Length;

/// A box round a sink, square with the grain, in millimetres.
#[derive(Clone, Copy)]
struct Body {
    left: f64,
    right: f64,
    front: f64,
    back: f64,
}

impl Body {
    /// So wide about the middle of the cutout, from front to back so deep about it; where the front
    /// is open, from the front edge back.
    fn about(opening: &Opening, wide: Length, deep: Length) -> Self {
        let (x, y) = (opening.place.x.mm(), opening.place.y.mm());
        let half = wide.mm() / 2.0;
        let (front, back) = if opening.open_front() {
            (0.0, deep.mm())
        } else {
            (y - deep.mm() / 2.0, y + deep.mm() / 2.0)
        };
        Self {
            left: x - half,
            right: x + half,
            front,
            back,
        }
    }

    /// The box round two.
    fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            right: self.right.max(other.right),
            front: self.front.min(other.front),
            back: self.back.max(other.back),
        }
    }

    /// How far a point lies off it; less than nothing inside.
    fn off(&self, point: Point) -> f64 {
        let x = (self.left - point.x).max(point.x - self.right);
        let y = (self.front - point.y).max(point.y - self.back);
        if x > 0.0 || y > 0.0 {
            x.max(0.0).hypot(y.max(0.0))
        } else {
            x.max(y)
        }
    }
}

/// What of a sink hangs in the cabinet: at least what fills the cutout, and the bowl with its walls;
/// of one set from below all of it, rim included, where that is known. (The rim of one dropped in
/// lies on the top.)
fn hangs(opening: &Opening, sink: &Sink) -> Option<Body> {
    let OpeningKind::Cutout { width, depth, .. } = opening.what else {
        return None;
    };
    let mut body = Body::about(opening, width, depth);
    let walls = sink.wall.unwrap_or(Length::ZERO);
    if let Some((wide, deep)) = opening.bowl() {
        let sides = if opening.open_front() { 1 } else { 2 };
        body = body.with(Body::about(opening, wide + walls * 2, deep + walls * sides));
    }
    if let (Some((wide, deep)), false) = (sink.overall, sink.mount == Mount::DropIn) {
        // An apron stands out in front by half its wall.
        let out = if opening.open_front() {
            Length::from_nm(walls.nm() / 2)
        } else {
            Length::ZERO
        };
        body = body.with(Body::about(opening, wide, deep - out));
    }
    Some(body)
}

/// Width against width, sides and rails, for every sink with a measured cabinet; and every hole
/// against every sink.
pub(super) fn check(openings: &[Opening], voids: &[Void], book: &mut Notebook<'_>) {
    let say = book.by();
    for (opening, void) in openings.iter().zip(voids) {
        let Some(sink) = opening.purpose.sink() else {
            continue;
        };
        let Some(body) = hangs(opening, sink) else {
            continue;
        };
        holes(opening, sink, body, voids, book);
        let Some(cabinet) = &sink.cabinet else {
            continue;
        };
        let name = code(void.name);
        let wide = match sink.overall {
            Some((wide, _)) => wide.mm(),
            None => body.right - body.left,
        };
        let left = cabinet.width.mm() - wide;
        let about = std::slice::from_ref(&name);
        book.at_least(Rule::SinkBase, about, left, None, |missing| {
            format!("take a cabinet {} wider, or a narrower sink.", say(missing))
        });
        walls(cabinet, void.mid, body, &name, book);
        rails(cabinet, void, body, &name, book);
    }
}

fn holes(opening: &Opening, sink: &Sink, body: Body, voids: &[Void], book: &mut Notebook<'_>) {
    let say = book.by();
    let drop_in = sink.mount == Mount::DropIn;
    let rim = match sink.overall {
        Some((wide, deep)) => body.with(Body::about(opening, wide, deep)),
        None => body,
    };
    let holes = voids
        .iter()
        .filter(|void| matches!(void.name, OpeningName::Hole(_)));
    for hole in holes {
        let about = [code(hole.name), code(opening.name())];
        let place = Some((hole.mid, hole.mid));
        let room = rim.off(hole.mid) - hole.r;
        book.at_least(Rule::HoleSink, &about, room, place, |missing| {
            let off = say(missing);
            if drop_in {
                format!("move it {off} off the rim, or drill by the sink's own template where the faucet stands on its rim.")
            } else {
                format!("move it {off} off the sink, which is fixed right below.")
            }
        });
    }
}

fn walls(cabinet: &Cabinet, mid: Point, body: Body, name: &str, book: &mut Notebook<'_>) {
    let say = book.by();
    let from = match cabinet.left {
        Some(left) => left.mm(),
        None => mid.x - cabinet.width.mm() / 2.0,
    };
    let wall = cabinet.wall_taken().mm();
    let (left, right) = (from + wall, from + cabinet.width.mm() - wall);
    let taken = if cabinet.wall.is_none() {
        format!(
            " (Its sides were not measured: {} taken.)",
            say(cabinet.wall_taken())
        )
    } else {
        String::new()
    };
    for (side_name, room, wall, side) in [
        ("left-side", body.left - left, left, body.left),
        ("right-side", right - body.right, right, body.right),
    ] {
        let point = |x: f64| Point { x, y: mid.y };
        let place = Some((point(side), point(wall)));
        let about = [name.to_owned(), side_name.to_owned()];
        book.at_least(Rule::SinkWall, &about, room, place, |missing| {
            if cabinet.left.is_some() {
                format!(
                    "move the sink or the cabinet {}, or cut its side down.{taken}",
                    say(missing)
                )
            } else {
                format!(
                    "take a cabinet {} wider, or cut its sides down; it is taken to stand centred below the sink.{taken}",
                    say(missing * 2)
                )
            }
        });
    }
}

fn rails(cabinet: &Cabinet, void: &Void, body: Body, name: &str, book: &mut Notebook<'_>) {
    let say = book.by();
    // The front of an apron-front sink takes the front rail's place.
    let apron = void.serves == Serves::Apron;
    let has_front = cabinet.front_rail > Length::ZERO && !apron;
    let has_back = cabinet.back_rail > Length::ZERO;
    let mut unsaid = Vec::new();
    if cabinet.overhang.is_none() && (has_front || has_back) {
        unsaid.push("how far the top hangs out over the cabinet's front (overhang)");
    }
    if cabinet.depth.is_none() && has_back {
        unsaid.push("how deep the cabinet is (deep)");
    }
    if !unsaid.is_empty() {
        let about = [name.to_owned()];
        let cure = format!(
            "measure {}: until then its rails are only partly checked.",
            unsaid.join(" and ")
        );
        book.whether(Rule::CabinetMeasure, &about, None, &cure);
    }
    let mid = void.mid;
    let mut look = |which: &str, room: f64, rail: f64, side: f64, least: &str| {
        let point = |y: f64| Point { x: mid.x, y };
        let place = Some((point(side), point(rail)));
        let about = [name.to_owned(), which.to_owned()];
        book.at_least(Rule::SinkRail, &about, room, place, |missing| {
            format!(
                "move the sink {} off the rail, or notch the rail.{least}",
                say(missing)
            )
        });
    };
    if !apron && (cabinet.overhang.is_some() || has_front) {
        // Where the overhang was not measured, the rail lies at least as far back as without any.
        let (out, least) = match cabinet.overhang {
            Some(out) => (out, ""),
            None => (
                Length::ZERO,
                " (At least that: the overhang was not measured.)",
            ),
        };
        let rail = out.mm() + cabinet.front_rail.mm();
        look("front-rail", body.front - rail, rail, body.front, least);
    }
    if let (Some(out), Some(depth)) = (cabinet.overhang, cabinet.depth) {
        let rail = out.mm() + depth.mm() - cabinet.back_rail.mm();
        look("back-rail", rail - body.back, rail, body.back, "");
    }
}
