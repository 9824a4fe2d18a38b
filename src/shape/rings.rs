//! The ring of every outline: its bare corners and the faces of its runs.

use std::f64::consts::{PI, TAU};

use super::corner::{Corner, Corners};
use super::cuts::{Bare, cut};
use super::face::FaceKey;
use super::forms::{Cup, Ell, LiveEdges, LiveSlab, Quad};
use super::grain::Way;
use super::outline::Outline;
use super::outline_error::OutlineError;
use super::ring::{Ring, Run};
use super::stroke::{CHORDS, Point, Stroke};
use crate::units::Length;

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// The ring of an outline.
///
/// # Errors
/// Sides that cannot close, and corners that are not there or do not fit. Sizes are taken to be
/// in range.
pub(super) fn ring(outline: &Outline) -> Result<Ring, OutlineError> {
    match outline {
        Outline::Rectangle { length, width } => {
            cut(&rectangle(*length, *width), &Corners::SHARP, outline)
        }
        Outline::Cornered {
            length,
            width,
            corners,
        } => cut(&rectangle(*length, *width), corners, outline),
        Outline::L(ell) => cut(&l_corners(ell), &ell.corners, outline),
        Outline::U(cup) => cut(&u_corners(cup), &cup.corners, outline),
        Outline::Quad(quad) => cut(&quad_corners(quad)?, &quad.corners, outline),
        Outline::Circle { diameter } => {
            let radius = diameter.metres() / 2.0;
            Ok(rim(Stroke::Arc {
                centre: at(radius, radius),
                radius,
                start: 0.0,
                sweep: TAU,
            }))
        }
        Outline::Oval { length, width } => {
            let (a, b) = (length.metres() / 2.0, width.metres() / 2.0);
            // At most a few thousand.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let chords = (2.0 * CHORDS) as u32;
            let point = |i: u32| {
                let turn = TAU * f64::from(i % chords) / f64::from(chords);
                at(a + a * turn.cos(), b + b * turn.sin())
            };
            Ok(rim(Stroke::Curve((0..=chords).map(point).collect())))
        }
        Outline::Live(slab) => Ok(live(slab)),
    }
}

fn rim(stroke: Stroke) -> Ring {
    let (face, way) = (FaceKey::Rim, Way::Mixed);
    Ring {
        runs: vec![Run { face, way, stroke }],
    }
}

/// The four corners of a rectangle.
fn rectangle(length: Length, width: Length) -> Vec<Bare> {
    let (l, w) = (length.metres(), width.metres());
    vec![
        (Corner::FrontLeft, at(0.0, 0.0), FaceKey::Front),
        (Corner::FrontRight, at(l, 0.0), FaceKey::Right),
        (Corner::BackRight, at(l, w), FaceKey::Back),
        (Corner::BackLeft, at(0.0, w), FaceKey::Left),
    ]
}

/// The six corners of an L. Drawn open at the front right, then turned over as needed.
fn l_corners(ell: &Ell) -> Vec<Bare> {
    let (l, w) = (ell.length.metres(), ell.width.metres());
    let (run, leg, open) = (ell.run.metres(), ell.leg.metres(), ell.open);
    let (edge, end) = (FaceKey::InnerEdge(open), FaceKey::InnerEnd(open));
    let (fl, fr) = (Corner::FrontLeft, Corner::FrontRight);
    let (br, bl) = (Corner::BackRight, Corner::BackLeft);
    let (front, right, back, left) = (FaceKey::Front, FaceKey::Right, FaceKey::Back, FaceKey::Left);
    match open {
        Corner::FrontLeft => vec![
            (Corner::Leg, at(l - leg, 0.0), front),
            (fr, at(l, 0.0), right),
            (br, at(l, w), back),
            (bl, at(0.0, w), left),
            (Corner::Run, at(0.0, w - run), edge),
            (Corner::Inside, at(l - leg, w - run), end),
        ],
        Corner::BackRight => vec![
            (fl, at(0.0, 0.0), front),
            (fr, at(l, 0.0), right),
            (Corner::Run, at(l, run), edge),
            (Corner::Inside, at(leg, run), end),
            (Corner::Leg, at(leg, w), back),
            (bl, at(0.0, w), left),
        ],
        Corner::BackLeft => vec![
            (fl, at(0.0, 0.0), front),
            (fr, at(l, 0.0), right),
            (br, at(l, w), back),
            (Corner::Leg, at(l - leg, w), end),
            (Corner::Inside, at(l - leg, run), edge),
            (Corner::Run, at(0.0, run), left),
        ],
        // Open at the front right; other corners are refused before this.
        _ => vec![
            (fl, at(0.0, 0.0), front),
            (Corner::Leg, at(leg, 0.0), end),
            (Corner::Inside, at(leg, w - run), edge),
            (Corner::Run, at(l, w - run), right),
            (br, at(l, w), back),
            (bl, at(0.0, w), left),
        ],
    }
}

/// The eight corners of a U.
fn u_corners(cup: &Cup) -> Vec<Bare> {
    let (l, w) = (cup.length.metres(), cup.width.metres());
    let (left, right) = (cup.left.metres(), l - cup.right.metres());
    let inner = w - cup.run.metres();
    let (inside_left, inside_right) = (Corner::InsideLeft, Corner::InsideRight);
    vec![
        (Corner::FrontLeft, at(0.0, 0.0), FaceKey::Front),
        (
            Corner::LegLeft,
            at(left, 0.0),
            FaceKey::InnerEnd(inside_left),
        ),
        (
            inside_left,
            at(left, inner),
            FaceKey::InnerEdge(inside_left),
        ),
        (
            inside_right,
            at(right, inner),
            FaceKey::InnerEnd(inside_right),
        ),
        (Corner::LegRight, at(right, 0.0), FaceKey::LegFront),
        (Corner::FrontRight, at(l, 0.0), FaceKey::Right),
        (Corner::BackRight, at(l, w), FaceKey::Back),
        (Corner::BackLeft, at(0.0, w), FaceKey::Left),
    ]
}

/// The cosine law: the angle between sides `a` and `b` of a triangle with `c` opposite. Whether the
/// three make one is decided in whole nanometres: two sides as long as the third lie flat on it.
fn angle(a: Length, b: Length, c: Length) -> Option<f64> {
    let [na, nb, nc] = [a, b, c].map(|side| i128::from(side.nm()));
    if na + nb <= nc || nb + nc <= na || nc + na <= nb {
        return None;
    }
    let [a, b, c] = [a, b, c].map(Length::metres);
    let cosine = (a * a + b * b - c * c) / (2.0 * a * b);
    // So nearly flat that the last digits lose it.
    (cosine.abs() < 1.0).then(|| cosine.acos())
}

/// The four corners of a top out of square: two triangles on the diagonal that decides.
pub(super) fn quad_corners(quad: &Quad) -> Result<Vec<Bare>, OutlineError> {
    let (front, left, right) = (quad.front.metres(), quad.left.metres(), quad.right.metres());
    let (a, b) = (at(0.0, 0.0), at(front, 0.0));
    let (c, d) = match (quad.rising, quad.falling) {
        (Some(rising), _) => {
            let diagonal = rising.metres();
            let up = angle(quad.front, rising, quad.right)
                .ok_or_else(|| no_triangle("front, right end", [quad.front, quad.right], rising))?;
            let more = angle(rising, quad.left, quad.back)
                .ok_or_else(|| no_triangle("back, left end", [quad.back, quad.left], rising))?;
            (
                at(diagonal * up.cos(), diagonal * up.sin()),
                at(left * (up + more).cos(), left * (up + more).sin()),
            )
        }
        (None, Some(falling)) => {
            let diagonal = falling.metres();
            let up = angle(quad.front, falling, quad.left)
                .ok_or_else(|| no_triangle("front, left end", [quad.front, quad.left], falling))?;
            let more = angle(falling, quad.right, quad.back)
                .ok_or_else(|| no_triangle("back, right end", [quad.back, quad.right], falling))?;
            let seen = |angle: f64, far: f64| {
                let turned = PI - angle;
                at(front + far * turned.cos(), far * turned.sin())
            };
            (seen(up + more, right), seen(up, diagonal))
        }
        (None, None) => return Err(OutlineError::NoDiagonal),
    };
    Ok(vec![
        (Corner::FrontLeft, a, FaceKey::Front),
        (Corner::FrontRight, b, FaceKey::Right),
        (Corner::BackRight, c, FaceKey::Back),
        (Corner::BackLeft, d, FaceKey::Left),
    ])
}

fn no_triangle(sides: &'static str, lengths: [Length; 2], diagonal: Length) -> OutlineError {
    OutlineError::NoTriangle {
        sides,
        first: lengths[0],
        second: lengths[1],
        diagonal,
    }
}

/// The ring of a slab with live edges.
fn live(slab: &LiveSlab) -> Ring {
    let (ahead, _) = slab.reaches();
    let line = ahead.metres();
    let start = slab.stations.first().map_or(Length::ZERO, |first| first.at);
    let mut front = Vec::new();
    let mut back = Vec::new();
    for station in &slab.stations {
        let x = (station.at - start).metres();
        let (before, behind) = station.sides(slab.edges);
        front.push(at(x, line - before.metres()));
        back.push(at(x, line + behind.metres()));
    }
    back.reverse();
    let (Some(&left), Some(&right)) = (front.first(), front.last()) else {
        return Ring::default();
    };
    let (Some(&right_back), Some(&left_back)) = (back.first(), back.last()) else {
        return Ring::default();
    };
    let side = |alive: bool, face: [FaceKey; 2], points: Vec<Point>, from, to| {
        let (face, stroke) = if alive {
            (face[0], Stroke::Curve(points))
        } else {
            (face[1], Stroke::Line { from, to })
        };
        let way = Way::Long;
        Run { face, way, stroke }
    };
    let end = |face, from, to| Run {
        face,
        way: Way::Across,
        stroke: Stroke::Line { from, to },
    };
    let both = slab.edges == LiveEdges::Both;
    Ring {
        runs: vec![
            side(
                both || slab.edges == LiveEdges::Front,
                [FaceKey::LiveFront, FaceKey::Front],
                front,
                left,
                right,
            ),
            end(FaceKey::Right, right, right_back),
            side(
                both || slab.edges == LiveEdges::Back,
                [FaceKey::LiveBack, FaceKey::Back],
                back,
                right_back,
                left_back,
            ),
            end(FaceKey::Left, left_back, left),
        ],
    }
}
