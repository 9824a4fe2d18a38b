//! Tops made up for the checks, and the same tops drawn as polygons the general-purpose way.

use std::f64::consts::PI;

use geo::{LineString, Polygon};
use proptest::prelude::*;
use tackfree::shape::{
    EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape, ShapeDraft, ShapeError,
};
use tackfree::units::Length;

fn at(no: u8, x: Length, y: Length, what: OpeningKind) -> Opening {
    Opening {
        no,
        place: Place { x, y },
        what,
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    }
}

pub fn cutout(no: u8, x: Length, y: Length, size: [Length; 2], corner_radius: Length) -> Opening {
    let [width, depth] = size;
    at(
        no,
        x,
        y,
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        },
    )
}

pub fn hole(no: u8, x: Length, y: Length, diameter: Length) -> Opening {
    at(no, x, y, OpeningKind::Hole { diameter })
}

/// One opening to be laid in a cell of the top: how much of the cell it fills both ways, where in
/// the cell's slack it sits, how round its corners are; round ones are holes.
type Seed = (f64, f64, f64, f64, f64, bool);

fn nm(metres: f64) -> Length {
    #[allow(clippy::cast_possible_truncation)]
    Length::from_nm((metres * 1e9).round() as i64)
}

/// Lays openings in a row of cells that share `x0..x1`, `y0..y1`, one to a cell, clear of it.
fn lay(seeds: &[Seed], [x0, x1, y0, y1]: [f64; 4]) -> Vec<Opening> {
    let cell = (x1 - x0) / seeds.len().max(1) as f64;
    let place = |(i, &(w, d, px, py, round, is_hole)): (usize, &Seed)| {
        let no = u8::try_from(i + 1).unwrap();
        let (mut width, mut depth) = (cell * w, (y1 - y0) * d);
        if is_hole {
            width = width.min(depth);
            depth = width;
        }
        let x = x0 + cell * (i as f64 + 0.02) + width / 2.0 + (0.96 * cell - width) * px;
        let y = y0 + (y1 - y0) * 0.02 + depth / 2.0 + (0.96 * (y1 - y0) - depth) * py;
        let radius = nm(width.min(depth) / 2.0 * round * 0.999);
        if is_hole {
            hole(no, nm(x), nm(y), nm(width))
        } else {
            cutout(no, nm(x), nm(y), [nm(width), nm(depth)], radius)
        }
    };
    seeds.iter().enumerate().map(place).collect()
}

prop_compose! {
    fn seed()(w in 0.05..0.9, d in 0.05..0.9, px in 0.0..1.0, py in 0.0..1.0, round in 0.0..1.0,
              is_hole: bool) -> Seed {
        (w, d, px, py, round, is_hole)
    }
}

prop_compose! {
    /// A top with one opening to each seed, and a band; and the same top with its openings
    /// elsewhere.
    pub fn pairs()(round: bool, length in 0.3..4.0, width in 0.2..1.2, thickness in 0.01..0.1,
               seeds in prop::collection::vec(seed(), 0..5), band in 0.02..0.9, eased: bool)
              -> (ShapeDraft, ShapeDraft) {
        let (length, width, thickness): (f64, f64, f64) = (length, width, thickness);
        // The room for openings; in a round top, a square well inside it.
        let (outline, room, across) = if round {
            let edge = width * 0.16;
            (Outline::Circle { diameter: nm(width) }, [edge, width - edge, edge, width - edge], width)
        } else {
            let outline = Outline::Rectangle { length: nm(length), width: nm(width) };
            (outline, [0.005, length - 0.005, 0.005, width - 0.005], length.min(width))
        };
        let elsewhere: Vec<Seed> =
            seeds.iter().map(|&(w, d, px, py, r, h)| (w, d, py, (px + 0.5) % 1.0, r, h)).collect();
        let top = |seeds: &[Seed]| ShapeDraft {
            outline: outline.clone(),
            thickness: nm(thickness),
            profile: if eased { EdgeProfile::Eased(nm(0.003)) } else { EdgeProfile::Square },
            openings: lay(seeds, room),
            band: Some(nm(across / 2.0 * band)), band_round_openings: false,
        };
        (top(&seeds), top(&elsewhere))
    }
}

/// A top that can be cut. (The one thing that a pair may be refused for is a field that an
/// opening has swallowed.)
pub fn tops() -> impl Strategy<Value = Shape> {
    pairs().prop_filter_map("no field is left", |(draft, _)| {
        match Shape::try_from(draft) {
            Err(ShapeError::NoField { .. }) => None,
            made => Some(made.expect("it was laid out to fit")),
        }
    })
}

/// A rounded rectangle drawn corner by corner, with its middle, full sides and corner radius: the
/// general-purpose way, apart from how the program does it.
fn drawn(x: f64, y: f64, width: f64, depth: f64, r: f64) -> Polygon<f64> {
    let steps = 2000;
    let point = |i: i32| {
        let turn = f64::from(i) / f64::from(steps) * 2.0 * PI;
        let (dx, dy) = (turn.cos(), turn.sin());
        let px = x + dx.signum() * (width / 2.0 - r) + r * dx;
        (px, y + dy.signum() * (depth / 2.0 - r) + r * dy)
    };
    Polygon::new(
        (0..steps).map(point).collect::<LineString<f64>>(),
        Vec::new(),
    )
}

pub fn drawn_outline(outline: &Outline, inset: f64) -> Polygon<f64> {
    match outline {
        Outline::Rectangle { length, width } => {
            let (l, w) = (length.metres(), width.metres());
            drawn(l / 2.0, w / 2.0, l - 2.0 * inset, w - 2.0 * inset, 0.0)
        }
        Outline::Circle { diameter } => {
            let d = diameter.metres();
            drawn(
                d / 2.0,
                d / 2.0,
                d - 2.0 * inset,
                d - 2.0 * inset,
                d / 2.0 - inset,
            )
        }
        other => panic!("{other:?} is not among the tops"),
    }
}

pub fn drawn_opening(opening: &Opening) -> Polygon<f64> {
    let (x, y) = (opening.place.x.metres(), opening.place.y.metres());
    match opening.what {
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        } => drawn(x, y, width.metres(), depth.metres(), corner_radius.metres()),
        OpeningKind::Hole { diameter } => {
            let d = diameter.metres();
            drawn(x, y, d, d, d / 2.0)
        }
    }
}
