//! Checks of a sink against the cabinet below it.

use super::cutouts::code;
use super::finding::Notebook;
use super::rule::Rule;
use super::seen::{Point, Serves, Void};
use crate::shape::words::say;
use crate::shape::{Cabinet, Opening};

/// Width against width, sides and rails, for every sink with a measured cabinet.
pub(super) fn check(openings: &[Opening], voids: &[Void], book: &mut Notebook<'_>) {
    for (opening, void) in openings.iter().zip(voids) {
        let Some(sink) = opening.purpose.sink() else {
            continue;
        };
        let Some(cabinet) = &sink.cabinet else {
            continue;
        };
        let about = [code(void.name)];
        let (half_x, half_y) = void.half();
        let (wide, deep) = match sink.overall {
            Some((wide, deep)) => (wide.mm() / 2.0, deep.mm() / 2.0),
            None => (half_x, half_y),
        };
        if let Some((overall, _)) = sink.overall {
            let left = cabinet.width.mm() - overall.mm();
            book.at_least(Rule::SinkBase, &about, left, None, |missing| {
                format!("take a cabinet {} wider, or a narrower sink.", say(missing))
            });
        }
        walls(cabinet, void, wide, &about, book);
        rails(cabinet, void, deep, &about, book);
    }
}

fn walls(cabinet: &Cabinet, void: &Void, half: f64, about: &[String], book: &mut Notebook<'_>) {
    let mid = void.mid;
    let from = match cabinet.left {
        Some(left) => left.mm(),
        None => mid.x - cabinet.width.mm() / 2.0,
    };
    let (left, right) = (
        from + cabinet.wall.mm(),
        from + cabinet.width.mm() - cabinet.wall.mm(),
    );
    for (room, wall, side) in [
        (mid.x - half - left, left, mid.x - half),
        (right - mid.x - half, right, mid.x + half),
    ] {
        let point = |x: f64| Point { x, y: mid.y };
        let place = Some((point(side), point(wall)));
        book.at_least(Rule::SinkWall, about, room, place, |missing| {
            format!(
                "move the sink or the cabinet {}, or cut its side down.",
                say(missing)
            )
        });
    }
}

fn rails(cabinet: &Cabinet, void: &Void, half: f64, about: &[String], book: &mut Notebook<'_>) {
    let Some(front) = cabinet.overhang else {
        return;
    };
    let mid = void.mid;
    let rail = front.mm() + cabinet.front_rail.mm();
    let mut look = |room: f64, rail: f64, side: f64| {
        let point = |y: f64| Point { x: mid.x, y };
        let place = Some((point(side), point(rail)));
        book.at_least(Rule::SinkRail, about, room, place, |missing| {
            format!(
                "move the sink {} off the rail, or notch the rail.",
                say(missing)
            )
        });
    };
    // The front of an apron-front sink takes the rail's place.
    if void.serves != Serves::Apron {
        look(mid.y - half - rail, rail, mid.y - half);
    }
    if let Some(depth) = cabinet.depth {
        let rail = front.mm() + depth.mm() - cabinet.back_rail.mm();
        look(rail - mid.y - half, rail, mid.y + half);
    }
}
