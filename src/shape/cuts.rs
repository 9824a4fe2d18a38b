//! What is cut at the corners of an outline: rounds, clips, notches, and whether they fit.

use std::f64::consts::PI;

use super::corner::{Corner, Corners, Cut};
use super::face::FaceKey;
use super::grain::Way;
use super::outline::Outline;
use super::outline_error::OutlineError;
use super::ring::{Ring, Run};
use super::stroke::{Point, Stroke, apart};
use super::words::round_down;
use crate::units::Length;

/// Lengths in metres below this are nothing: a hundredth of a nanometre.
const NOTHING: f64 = 1e-11;

/// A corner of the bare polygon, and the face of the side that leaves it.
pub(super) type Bare = (Corner, Point, FaceKey);

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// What a cut makes of its corner: how much of the side before and of the side after it takes,
/// and the runs in between.
struct Made {
    before: f64,
    after: f64,
    runs: Vec<Run>,
}

/// Cuts the corners of a bare polygon.
pub(super) fn cut(
    bare: &[Bare],
    corners: &Corners,
    outline: &Outline,
) -> Result<Ring, OutlineError> {
    for (corner, _) in corners.iter() {
        if !bare.iter().any(|(has, _, _)| *has == corner) {
            return Err(OutlineError::NoCorner { corner });
        }
    }
    let count = bare.len();
    let mut made = Vec::with_capacity(count);
    for i in 0..count {
        let before = bare[(i + count - 1) % count].1;
        let after = bare[(i + 1) % count].1;
        made.push(one_corner(bare[i], before, after, corners)?);
    }
    let mut runs = Vec::new();
    for i in 0..count {
        let (corner, from, face) = bare[i];
        let (next, to, _) = bare[(i + 1) % count];
        let length = apart(from, to);
        let (mine, theirs) = (made[i].after, made[(i + 1) % count].before);
        let left = length - mine - theirs;
        if left < -NOTHING {
            return Err(too_much(
                corners,
                (corner, mine),
                (next, theirs),
                (face, length),
                outline,
            ));
        }
        runs.append(&mut made[i].runs);
        if left > NOTHING {
            let along = at((to.x - from.x) / length, (to.y - from.y) / length);
            let from = from + along * mine;
            let to = to - along * theirs;
            runs.push(Run {
                face,
                way: Way::of(along.x, along.y),
                stroke: Stroke::Line { from, to },
            });
        }
    }
    Ok(Ring { runs })
}

/// The sentence for two cuts that do not fit on the side between them.
fn too_much(
    corners: &Corners,
    (first, mine): (Corner, f64),
    (second, theirs): (Corner, f64),
    (side, length): (FaceKey, f64),
    outline: &Outline,
) -> OutlineError {
    let (corner, takes) = if mine >= theirs {
        (first, mine)
    } else {
        (second, theirs)
    };
    let other = if corner == first { theirs } else { mine };
    let cut = corners.at(corner);
    // A radius takes as much of the side as its tangent is long: scaled back to the radius.
    let given = match cut {
        Some(Cut::Round(radius)) => radius,
        _ => Length::from_metres_rounded(takes),
    };
    let share = if mine.min(theirs) > NOTHING && other < length / 2.0 {
        length - other
    } else if other > NOTHING {
        length / 2.0
    } else {
        length
    };
    let most = given.metres() * share / takes;
    OutlineError::CornerOver {
        what: cut.map_or("cut", Cut::word),
        corner,
        given,
        side,
        length: Length::from_metres_rounded(length),
        most: round_down(most, outline.in_inches()),
    }
}

fn one_corner(
    (corner, here, _): Bare,
    before: Point,
    after: Point,
    corners: &Corners,
) -> Result<Made, OutlineError> {
    let none = Made {
        before: 0.0,
        after: 0.0,
        runs: Vec::new(),
    };
    let Some(cut) = corners.at(corner) else {
        return Ok(none);
    };
    let (back, on) = (toward(here, before), toward(here, after));
    // Above zero where the outline turns left, as at every outer corner.
    let turn = back.y * on.x - back.x * on.y;
    let along_first = back.x.abs() >= back.y.abs();
    match cut {
        Cut::Round(radius) => {
            let radius = radius.metres();
            let between = (back.x * on.x + back.y * on.y).clamp(-1.0, 1.0).acos();
            if between < 1e-6 || PI - between < 1e-6 {
                return Ok(none);
            }
            let tangent = radius / (between / 2.0).tan();
            let middle = at(back.x + on.x, back.y + on.y);
            let size = middle.x.hypot(middle.y);
            let out = radius / (between / 2.0).sin() / size;
            let centre = here + middle * out;
            let from = here + back * tangent;
            let start = (from.y - centre.y).atan2(from.x - centre.x);
            let sweep = (PI - between) * turn.signum();
            Ok(Made {
                before: tangent,
                after: tangent,
                runs: vec![Run {
                    face: FaceKey::Corner(corner),
                    way: Way::Mixed,
                    stroke: Stroke::Arc {
                        centre,
                        radius,
                        start,
                        sweep,
                    },
                }],
            })
        }
        Cut::Clip { along, across } => {
            let (first, second) = if along_first {
                (along.metres(), across.metres())
            } else {
                (across.metres(), along.metres())
            };
            let (from, to) = (here + back * first, here + on * second);
            Ok(Made {
                before: first,
                after: second,
                runs: vec![Run {
                    face: FaceKey::Corner(corner),
                    way: Way::of(to.x - from.x, to.y - from.y),
                    stroke: Stroke::Line { from, to },
                }],
            })
        }
        Cut::Notch { along, across } => {
            let square = (back.x * on.x + back.y * on.y).abs() < 1e-9;
            if turn < 0.0 || !square {
                return Err(OutlineError::NoNotch { corner });
            }
            let (first, second) = if along_first {
                (along.metres(), across.metres())
            } else {
                (across.metres(), along.metres())
            };
            let (from, to) = (here + back * first, here + on * second);
            let inner = from + on * second;
            let side = |from: Point, to: Point| {
                let way = Way::of(to.x - from.x, to.y - from.y);
                let face = if way == Way::Long {
                    FaceKey::InnerEdge(corner)
                } else {
                    FaceKey::InnerEnd(corner)
                };
                let stroke = Stroke::Line { from, to };
                Run { face, way, stroke }
            };
            Ok(Made {
                before: first,
                after: second,
                runs: vec![side(from, inner), side(inner, to)],
            })
        }
    }
}

/// The direction from one point to another.
fn toward(from: Point, to: Point) -> Point {
    let far = apart(from, to);
    at((to.x - from.x) / far, (to.y - from.y) / far)
}
