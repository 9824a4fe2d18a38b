//! Checks round cutouts and holes.

use super::finding::Notebook;
use super::near::{to_nearest, to_void};
use super::rule::Rule;
use super::seen::{Looks, Point, Seen, Serves, Void};
use super::standing::{Joint, JointWay};
use crate::shape::OpeningName;
use crate::units::Length;

/// A hole this near a sink is taken for a faucet's when nothing was said.
const FAUCET_NEAR_MM: f64 = 150.0;

/// The code of an opening in a finding.
pub(super) fn code(name: OpeningName) -> String {
    match name {
        OpeningName::Cutout(no) => format!("cutout-{no}"),
        OpeningName::Hole(no) => format!("hole-{no}"),
    }
}

fn is_cutout(void: &Void) -> bool {
    matches!(void.name, OpeningName::Cutout(_))
}

fn is_sink(void: &Void) -> bool {
    is_cutout(void) && matches!(void.serves, Serves::Unsaid | Serves::Sink | Serves::Apron)
}

/// Whether a hole is a faucet's, and which sink it serves: the nearest.
fn sink_of<'a>(seen: &'a Seen, hole: &Void) -> Option<&'a Void> {
    let nearest = seen
        .voids
        .iter()
        .filter(|void| is_sink(void))
        .map(|sink| (to_void(sink, hole).mm, sink))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let is_faucet = |mm: f64| match hole.serves {
        Serves::Faucet => true,
        Serves::Unsaid => mm <= FAUCET_NEAR_MM,
        _ => false,
    };
    nearest
        .filter(|(mm, _)| is_faucet(*mm))
        .map(|(_, sink)| sink)
}

/// Everything round the cutouts and holes of a piece.
pub(super) fn check(
    seen: &Seen,
    joints: &[Joint],
    thickness: Length,
    bit: Length,
    book: &mut Notebook<'_>,
) {
    let say = book.by();
    for cutout in seen.voids.iter().filter(|void| is_cutout(void)) {
        strips(seen, cutout, book);
        for (no, joint) in (1..).zip(joints) {
            joint_strip(cutout, no, joint, book);
        }
        corners(cutout, bit, book);
    }
    let cutouts: Vec<&Void> = seen.voids.iter().filter(|void| is_cutout(void)).collect();
    for (at, cutout) in cutouts.iter().enumerate() {
        for other in &cutouts[at + 1..] {
            let near = to_void(cutout, other);
            let about = [code(cutout.name), code(other.name)];
            let place = Some((near.from, near.to));
            book.at_least(Rule::Between, &about, near.mm, place, |missing| {
                format!(
                    "move one of them {} off, or prop the strip from below.",
                    say(missing)
                )
            });
        }
    }
    for hole in seen.voids.iter().filter(|void| !is_cutout(void)) {
        if let Some(sink) = sink_of(seen, hole) {
            faucet(hole, sink, thickness, book);
        }
    }
    faucet_decks(seen, book);
}

fn strips(seen: &Seen, cutout: &Void, book: &mut Notebook<'_>) {
    let say = book.by();
    let about = [code(cutout.name)];
    let looking = |looks| seen.runs.iter().filter(move |run| run.looks() == looks);
    let end = if cutout.serves == Serves::Apron {
        Rule::ApronEnd
    } else {
        Rule::EndStrip
    };
    let rows = [
        (Rule::StripFront, Looks::Front, "towards the back"),
        (Rule::StripBack, Looks::Back, "towards the front"),
        (end, Looks::End, "away from the end"),
    ];
    for (rule, looks, way) in rows {
        if rule == Rule::StripFront && cutout.serves == Serves::Apron {
            continue;
        }
        if let Some(near) = to_nearest(cutout, looking(looks)) {
            let place = Some((near.from, near.to));
            book.at_least(rule, &about, near.mm, place, |missing| {
                format!("move it {} {way}, or make it smaller.", say(missing))
            });
        }
    }
}

fn joint_strip(cutout: &Void, no: usize, joint: &Joint, book: &mut Notebook<'_>) {
    let say = book.by();
    let (half_x, half_y) = cutout.half();
    let (mid, half) = match joint.way {
        JointWay::Across => (cutout.mid.x, half_x),
        JointWay::Along => (cutout.mid.y, half_y),
    };
    let off = joint.at.mm() - mid;
    let near = (off.abs() - half).max(0.0);
    let edge = mid + off.signum() * half.min(off.abs());
    let point = |at: f64| match joint.way {
        JointWay::Across => Point {
            x: at,
            y: cutout.mid.y,
        },
        JointWay::Along => Point {
            x: cutout.mid.x,
            y: at,
        },
    };
    let about = [code(cutout.name), format!("joint-{no}")];
    let place = Some((point(edge), point(joint.at.mm())));
    book.at_least(Rule::JointStrip, &about, near, place, |missing| {
        format!(
            "set the joint {} further off: keep sinks and water off joints.",
            say(missing)
        )
    });
}

fn corners(cutout: &Void, bit: Length, book: &mut Notebook<'_>) {
    let say = book.by();
    let about = [code(cutout.name)];
    let (half_x, half_y) = cutout.half();
    let corner = Point {
        x: cutout.mid.x - half_x,
        y: cutout.mid.y - half_y,
    };
    let place = Some((corner, corner));
    book.at_least(Rule::CornerRadius, &about, cutout.r, place, |missing| {
        format!(
            "round the corners {} more: a sharp corner starts a crack.",
            say(missing)
        )
    });
    let (asks, style) = (Length::from_nm(bit.nm() / 2), book.style);
    if cutout.r + 0.000_5 < asks.mm() && book.rules.setting(Rule::CornerBit).made {
        let has = super::finding::length(cutout.r);
        book.write(
            Rule::CornerBit,
            &about,
            place,
            Some((has, asks)),
            asks - has,
            |_| {
                let corner = say(asks);
                // No bit is small enough for a sharp corner, or for one that reads as nothing.
                let widest = (has * 2).down_to_step(style);
                if widest > Length::ZERO {
                    let widest = widest.show_inches(style);
                    format!("take a bit of {widest} or less, or a corner of {corner}.")
                } else {
                    format!(
                        "make the corner {corner}, or square it by hand after the router: no bit leaves a sharp corner."
                    )
                }
            },
        );
    }
}

fn faucet(hole: &Void, sink: &Void, thickness: Length, book: &mut Notebook<'_>) {
    let say = book.by();
    let about = [code(hole.name)];
    let across = super::finding::length(hole.r * 2.0);
    let place = Some((hole.mid, hole.mid));
    book.at_least(Rule::FaucetLeast, &about, hole.r * 2.0, place, |_| {
        "see the faucet's own sheet before drilling.".to_owned()
    });
    book.at_most(Rule::FaucetMost, &about, across, place, |_| {
        "see the faucet's own sheet: its plate may not cover the hole.".to_owned()
    });
    book.at_most(Rule::FaucetThick, &about, thickness, place, |extra| {
        format!(
            "counterbore {} from below, or find a longer shank.",
            say(extra)
        )
    });
    let near = to_void(sink, hole);
    let about = [code(hole.name), code(sink.name)];
    let place = Some((near.from, hole.mid));
    book.at_least(
        Rule::FaucetClear,
        &about,
        near.mm + hole.r,
        place,
        |missing| format!("drill {} further from the sink.", say(missing)),
    );
}

/// Behind each sink that a faucet serves: wood enough for the faucet's base.
fn faucet_decks(seen: &Seen, book: &mut Notebook<'_>) {
    let say = book.by();
    for sink in seen.voids.iter().filter(|void| is_sink(void)) {
        let behind = |hole: &&Void| hole.mid.y > sink.mid.y + sink.half().1;
        let serves = |hole: &&Void| sink_of(seen, hole).is_some_and(|of| of.name == sink.name);
        let holes = seen.voids.iter().filter(|void| !is_cutout(void));
        if holes.filter(behind).filter(serves).count() == 0 {
            continue;
        }
        let back = seen.runs.iter().filter(|run| run.looks() == Looks::Back);
        if let Some(near) = to_nearest(sink, back) {
            let place = Some((near.from, near.to));
            book.at_least(
                Rule::FaucetDeck,
                &[code(sink.name)],
                near.mm,
                place,
                |missing| {
                    format!(
                        "bring the sink {} forward, or set the faucet beside it.",
                        say(missing)
                    )
                },
            );
        }
    }
}

/// Whether a piece has a sink.
pub(super) fn has_sink(seen: &Seen) -> bool {
    seen.voids.iter().any(is_sink)
}
