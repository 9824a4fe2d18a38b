//! Unseen layouts against an independent polygon library, one the program does not use: distances
//! from a cutout to the outline and areas, within 0.01 %. The outlines are drawn here from the
//! numbers of the tape, not taken from the program.

use cavalier_contours::core::math::Vector2;
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use proptest::prelude::*;
use tackfree::shape::layout::{Looks, Seen, to_nearest, to_void};
use tackfree::shape::{
    Construction, Corner, Corners, Cut, EdgeProfile, Ell, FaceKey, LiveEdges, LiveSlab, Opening,
    OpeningKind, Outline, Place, Purpose, Quad, Shape, Station,
};
use tackfree::units::Length;

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// Whole millimetres, far below what a double holds exactly.
fn real(mm: i64) -> f64 {
    f64::from(i32::try_from(mm).expect("millimetres"))
}

/// A closed line through these points.
fn polygon(points: &[(f64, f64)]) -> Polyline<f64> {
    let mut line = Polyline::new_closed();
    for (x, y) in points {
        line.add(*x, *y, 0.0);
    }
    line
}

/// The border of a cutout with true quarter circles at its corners.
#[derive(Debug, Clone, Copy)]
struct Box {
    at: (i64, i64),
    size: (i64, i64),
    r: i64,
}

impl Box {
    fn opening(self, no: u8) -> Opening {
        Opening {
            no,
            place: Place {
                x: mm(self.at.0),
                y: mm(self.at.1),
            },
            what: OpeningKind::Cutout {
                width: mm(self.size.0),
                depth: mm(self.size.1),
                corner_radius: mm(self.r),
            },
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        }
    }

    fn line(self) -> Polyline<f64> {
        let (x, y, r) = (real(self.at.0), real(self.at.1), real(self.r));
        let (hx, hy) = (real(self.size.0) / 2.0, real(self.size.1) / 2.0);
        // A bulge is the tangent of a quarter of the angle turned.
        let bulge = (std::f64::consts::PI / 8.0).tan();
        let mut line = Polyline::new_closed();
        for (px, py, bulge) in [
            (hx - r, -hy, bulge),
            (hx, r - hy, 0.0),
            (hx, hy - r, bulge),
            (hx - r, hy, 0.0),
            (r - hx, hy, bulge),
            (-hx, hy - r, 0.0),
            (-hx, r - hy, bulge),
            (r - hx, -hy, 0.0),
        ] {
            line.add(x + px, y + py, bulge);
        }
        line
    }

    /// Points all along the border.
    fn points(self) -> Vec<Vector2<f64>> {
        let (x, y, r) = (real(self.at.0), real(self.at.1), real(self.r));
        let (hx, hy) = (real(self.size.0) / 2.0 - r, real(self.size.1) / 2.0 - r);
        let mut out = Vec::new();
        for (quarter, (sx, sy)) in (0..4).zip([(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)])
        {
            for step in 0..=500 {
                let turn =
                    (f64::from(quarter) + f64::from(step) / 500.0) * std::f64::consts::FRAC_PI_2;
                out.push(Vector2::new(
                    x + sx * hx + r * turn.cos(),
                    y + sy * hy + r * turn.sin(),
                ));
            }
        }
        out
    }
}

/// How near two closed lines come: at a corner of the one or at a point of the box's border.
fn apart(line: &Polyline<f64>, other: Box) -> f64 {
    let to = |line: &Polyline<f64>, point: Vector2<f64>| {
        line.closest_point(point, 1e-9).expect("a point").distance
    };
    let from_box = other.points().into_iter().map(|point| to(line, point));
    let border = other.line();
    let corners = line
        .vertex_data
        .iter()
        .map(|vertex| to(&border, Vector2::new(vertex.x, vertex.y)));
    from_box.chain(corners).fold(f64::INFINITY, f64::min)
}

/// Within 0.01 %.
fn near(ours: f64, theirs: f64) -> Result<(), TestCaseError> {
    prop_assert!(
        (ours - theirs).abs() <= theirs.abs() * 1e-4,
        "{ours} and {theirs}"
    );
    Ok(())
}

/// Distance to the nearest of the whole outline, and the top's area less the cutout's.
fn agree(outline: Outline, drawn: &[(f64, f64)], cutout: Box) -> Result<(), TestCaseError> {
    let line = polygon(drawn);
    let openings = vec![cutout.opening(1)];
    let shape = Shape::new(outline, mm(38), EdgeProfile::Square, openings, None)
        .map_err(|error| TestCaseError::fail(error.to_string()))?;
    let seen = Seen::of(&shape);
    let ours = to_nearest(&seen.voids[0], seen.runs.iter()).expect("a run");
    near(ours.mm, apart(&line, cutout))?;
    prop_assert!((ours.from.to(ours.to) - ours.mm).abs() < 1e-6);
    let faces = shape.faces(Construction::FaceGrain);
    let top = faces.iter().find(|face| face.key == FaceKey::Top);
    let theirs = line.area().abs() - cutout.line().area().abs();
    near(top.expect("a top").area.m2() * 1e6, theirs)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// The cutout stands in the corner of the L, whose inside corner is often what is nearest.
    #[test]
    fn in_an_l(
        (length, width) in (2_000_i64..3_000, 1_800_i64..2_600),
        (run, leg) in (600_i64..700, 600_i64..700),
        (x, y) in (230_i64..700, 210_i64..560),
        (wide, deep, r) in (100_i64..380, 100_i64..380, 0_i64..50),
    ) {
        let ell = Ell {
            length: mm(length),
            width: mm(width),
            run: mm(run),
            leg: mm(leg),
            open: Corner::BackRight,
            corners: Corners::SHARP,
        };
        let [l, w, run, leg] = [length, width, run, leg].map(real);
        let drawn = [(0.0, 0.0), (l, 0.0), (l, run), (leg, run), (leg, w), (0.0, w)];
        // What reaches out of both arms is refused by the program: keep to what fits in the run.
        let cutout = Box { at: (x, y.min(390)), size: (wide, deep), r };
        agree(Outline::L(ell), &drawn, cutout)?;
    }

    /// Near a clipped corner, which is what is nearest more often than not.
    #[test]
    fn near_a_clip(
        (length, width) in (1_400_i64..2_000, 600_i64..700),
        (along, across) in (50_i64..300, 50_i64..300),
        (x, y) in (0_i64..60, 0_i64..60),
        (wide, deep, r) in (100_i64..400, 60_i64..200, 0_i64..30),
    ) {
        let cut = Cut::Clip { along: mm(along), across: mm(across) };
        let outline = Outline::Cornered {
            length: mm(length),
            width: mm(width),
            corners: Corners::new([(Corner::BackRight, cut)]),
        };
        let [l, w, a, b] = [length, width, along, across].map(real);
        let drawn = [(0.0, 0.0), (l, 0.0), (l, w - b), (l - a, w), (0.0, w)];
        let at = (length - 320 - wide / 2 + x, width - 320 - deep / 2 + y);
        agree(outline, &drawn, Box { at, size: (wide, deep), r })?;
    }

    /// Out of square, measured as sides and a diagonal.
    #[test]
    fn out_of_square(
        front in 1_500_i64..2_000,
        (cx, cy) in (-60_i64..60, 560_i64..700),
        (dx, dy) in (-60_i64..60, 560_i64..700),
        (x, y) in (400_i64..1_100, 230_i64..330),
        (wide, deep, r) in (100_i64..600, 100_i64..300, 0_i64..50),
    ) {
        let points = [
            (0.0, 0.0),
            (real(front), 0.0),
            (real(front + cx), real(cy)),
            (real(dx), real(dy)),
        ];
        let between = |a: usize, b: usize| {
            let ((ax, ay), (bx, by)): ((f64, f64), (f64, f64)) = (points[a], points[b]);
            Length::from_metres_rounded((ax - bx).hypot(ay - by) / 1e3)
        };
        let quad = Quad {
            front: between(0, 1),
            right: between(1, 2),
            back: between(2, 3),
            left: between(3, 0),
            rising: Some(between(0, 2)),
            falling: None,
            corners: Corners::SHARP,
        };
        agree(Outline::Quad(quad), &points, Box { at: (x, y), size: (wide, deep), r })?;
    }

    /// A live front edge, straight from station to station; the back is straight.
    #[test]
    fn behind_a_live_edge(
        widths in prop::collection::vec(560_i64..700, 5),
        (x, up) in (500_i64..1_500, 90_i64..180),
        (wide, deep, r) in (100_i64..600, 100_i64..300, 0_i64..50),
    ) {
        let at = |no: usize| 500 * i64::try_from(no).expect("a few");
        let stations = widths.iter().enumerate().map(|(no, width)| Station {
            at: mm(at(no)),
            width: mm(*width),
            front: None,
        });
        let slab = LiveSlab { edges: LiveEdges::Front, stations: stations.collect() };
        let most = *widths.iter().max().expect("five");
        let mut drawn: Vec<(f64, f64)> = widths
            .iter()
            .enumerate()
            .map(|(no, width)| (real(at(no)), real(most - width)))
            .collect();
        drawn.push((2_000.0, real(most)));
        drawn.push((0.0, real(most)));
        // In front of the back by so much that the front is nearer at times.
        let cutout = Box { at: (x, most - up - deep / 2), size: (wide, deep), r };
        agree(Outline::Live(slab), &drawn, cutout)?;
    }

    /// From one cutout to another, corner to corner as often as side to side.
    #[test]
    fn from_cutout_to_cutout(
        (x, y) in (300_i64..500, 300_i64..700),
        (wide, deep, r) in (60_i64..300, 60_i64..300, 1_i64..30),
        (x2, y2) in (800_i64..1_000, 300_i64..700),
        (wide2, deep2, r2) in (60_i64..300, 60_i64..300, 1_i64..30),
    ) {
        let one = Box { at: (x, y), size: (wide, deep), r };
        let two = Box { at: (x2, y2), size: (wide2, deep2), r: r2 };
        let outline = Outline::Rectangle { length: mm(1_400), width: mm(1_000) };
        let openings = vec![one.opening(1), two.opening(2)];
        let shape = Shape::new(outline, mm(38), EdgeProfile::Square, openings, None).expect("a shape");
        let seen = Seen::of(&shape);
        let ours = to_void(&seen.voids[0], &seen.voids[1]);
        // Every point of the one against the true border of the other.
        let border = two.line();
        let theirs = one
            .points()
            .into_iter()
            .map(|point| border.closest_point(point, 1e-9).expect("a point").distance)
            .chain(two.points().into_iter().map(|point| {
                one.line().closest_point(point, 1e-9).expect("a point").distance
            }))
            .fold(f64::INFINITY, f64::min);
        near(ours.mm, theirs)?;
    }
}

/// The four sides of a plain rectangle by subtraction, so that the helpers above are held to
/// something themselves: 55 behind, 30 in front, 40 and 140 beside.
#[test]
fn the_other_library_sees_a_rectangle_as_it_is() {
    let cutout = Box {
        at: (415, 230),
        size: (750, 400),
        r: 20,
    };
    let outline = polygon(&[(0.0, 0.0), (930.0, 0.0), (930.0, 485.0), (0.0, 485.0)]);
    assert!((apart(&outline, cutout) - 30.0).abs() < 1e-9);
    let area = 750.0 * 400.0 - (4.0 - std::f64::consts::PI) * 400.0;
    assert!((cutout.line().area().abs() - area).abs() < 1e-6);
    let openings = vec![cutout.opening(1)];
    let top = Outline::Rectangle {
        length: mm(930),
        width: mm(485),
    };
    let shape = Shape::new(top, mm(38), EdgeProfile::Square, openings, None).expect("a shape");
    let seen = Seen::of(&shape);
    let backs = seen.runs.iter().filter(|run| run.looks() == Looks::Back);
    let back = to_nearest(&seen.voids[0], backs).expect("a back");
    assert!((back.mm - 55.0).abs() < 1e-9);
}
