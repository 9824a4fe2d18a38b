//! Areas, board feet and edge arithmetic against published worked examples. Each number stands
//! beside the page it is taken from; where only the data were published and the answer is worked
//! out here, or a rule is usual without a source, it says so.

use std::f64::consts::PI;

use tackfree::shape::{
    Corners, EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Quad, Shape,
    average_ordinate, simpson, trapezoid,
};
use tackfree::units::{Area, Length};

#[track_caller]
fn near(found: f64, published: f64, tolerance: f64) {
    assert!(
        (found - published).abs() <= tolerance,
        "{found} is not {published} within {tolerance}"
    );
}

/// Ordinates at equal spacing.
fn every(spacing: f64, ordinates: &[f64]) -> Vec<(f64, f64)> {
    (0..)
        .zip(ordinates)
        .map(|(i, width)| (f64::from(i) * spacing, *width))
        .collect()
}

#[test]
fn nine_offsets_at_ten_metres() {
    // A surveying lecture page on computation of areas by offsets (average ordinate, trapezoidal
    // and Simpson's rules): offsets 3.15, 4.30, 8.20, 5.60, 6.85, 7.60, 4.20, 5.60, 4.30 m at
    // 10 m: average ordinate 442.67, trapezoidal rule 460.75, Simpson's rule 461.17 m2.
    let stations = every(10.0, &[3.15, 4.3, 8.2, 5.6, 6.85, 7.6, 4.2, 5.6, 4.3]);
    near(average_ordinate(&stations), 442.67, 0.005);
    near(trapezoid(&stations), 460.75, 0.005);
    near(simpson(&stations), 461.17, 0.005);
}

#[test]
fn seven_offsets_at_twenty_five_metres() {
    // A surveying question page on Simpson's rule: offsets 3.6, 5.0, 6.5, 5.5, 7.3, 6.0, 4.0 m at
    // 25 m: 843.33 m2. The trapezoids of the same offsets, 852.5 m2, are worked out here.
    let stations = every(25.0, &[3.6, 5.0, 6.5, 5.5, 7.3, 6.0, 4.0]);
    near(simpson(&stations), 843.33, 0.005);
    near(trapezoid(&stations), 852.5, 0.005);
}

#[test]
fn seven_offsets_at_fifteen_metres() {
    // A surveying exercise page: offsets 3.9, 4.5, 5.1, 6.5, 6.3, 5.1, 4.1 m at 15 m; the answers
    // 476.0 (Simpson) and 472.5 m2 (trapezoids) are worked out here by the rules as published.
    let stations = every(15.0, &[3.9, 4.5, 5.1, 6.5, 6.3, 5.1, 4.1]);
    near(simpson(&stations), 476.0, 0.005);
    near(trapezoid(&stations), 472.5, 0.005);
}

#[test]
fn an_odd_interval_is_a_trapezoid_and_unequal_ones_keep_a_parabola() {
    // The first lecture page: Simpson's rule takes an even number of intervals; the last of an odd
    // number is added as a trapezoid.
    let seven = every(10.0, &[3.15, 4.3, 8.2, 5.6, 6.85, 7.6, 4.2]);
    let eight = every(10.0, &[3.15, 4.3, 8.2, 5.6, 6.85, 7.6, 4.2, 5.6]);
    near(simpson(&eight), simpson(&seven) + 49.0, 1e-9);
    // No source: a parabola is met exactly at any spacing within twice of one another, integral of
    // 1 + x + x2 from 0 to 3 = 3 + 4.5 + 9.
    let curve = |x: f64| (x, 1.0 + x + x * x);
    near(simpson(&[curve(0.0), curve(1.2), curve(3.0)]), 16.5, 1e-12);
    // And one spaced wider apart than that is reckoned by trapezoids.
    let wide = [(0.0, 1.0), (1.0, 3.0), (4.0, 2.0)];
    near(simpson(&wide), trapezoid(&wide), 1e-12);
}

fn plank(length: i64, width: i64, thickness: i64) -> Shape {
    let inch = |n: i64| Length::from_64ths(n * 64);
    let outline = Outline::Rectangle {
        length: inch(length),
        width: inch(width),
    };
    Shape::new(
        outline,
        inch(thickness),
        EdgeProfile::Square,
        Vec::new(),
        None,
    )
    .unwrap()
}

#[test]
fn a_slab_of_120_by_18_by_2_is_30_board_feet() {
    // A slab calculator's page: board feet = length x width x thickness in inches / 144; a slab of
    // 120 x 18 x 2 in has 30 board feet.
    near(plank(120, 18, 2).volume_board_feet(), 30.0, 1e-12);
    // A board foot is 144 cubic inches (American Softwood Lumber Standard, NIST PS 20, definition;
    // from memory): 1 ft x 1 ft x 1 in.
    near(plank(12, 12, 1).volume_board_feet(), 1.0, 1e-12);
    // A slab 96 in long, widths each 12 in: 2,278.0 sq in by Simpson's rule = 15.82 sq ft, at 2 in
    // thick 31.6 board feet; worked out here.
    let widths = [21.5, 22.25, 24.0, 25.5, 26.0, 24.75, 23.0, 22.5, 22.0];
    let area = simpson(&every(12.0, &widths));
    near(area, 2278.0, 1e-9);
    near(Area::from_sq_in(area).sq_ft(), 15.82, 0.005);
    near(area * 2.0 / 144.0, 31.6, 0.05);
}

#[test]
fn three_four_five_is_square() {
    // The 3-4-5 test, any multiple (common practice, no source): sides of 6 and 8 ft with
    // diagonals of 10 ft are square, and both diagonals agree.
    let ft = |n: i64| Length::from_64ths(n * 12 * 64);
    let quad = Quad {
        front: ft(8),
        right: ft(6),
        back: ft(8),
        left: ft(6),
        rising: Some(ft(10)),
        falling: Some(ft(10)),
        corners: Corners::SHARP,
    };
    let outline = Outline::Quad(quad);
    near(outline.area().sq_ft(), 48.0, 1e-9);
    near(outline.closing().unwrap().error(), 0.0, 1e-12);
    // Walls out of square by 10 mm in 600 mm are normal (a fitter's measuring page): over a
    // 600 mm deep top 2.4 m long that is a diagonal longer by 38 mm, by the cosine law here.
    let lean = (10.0_f64 / 600.0).asin();
    let (a, b) = (2400.0_f64, 600.0_f64);
    let diagonal = |turn: f64| (a * a + b * b - 2.0 * a * b * turn.cos()).sqrt();
    let (long, short) = (diagonal(PI / 2.0 + lean), diagonal(PI / 2.0 - lean));
    let mm = |value: f64| Length::from_metres_rounded(value / 1000.0);
    let leaning = Outline::Quad(Quad {
        front: mm(a),
        right: mm(b),
        back: mm(a),
        left: mm(b),
        rising: Some(mm(long)),
        falling: Some(mm(short)),
        corners: Corners::SHARP,
    });
    near(leaning.closing().unwrap().error() * 1000.0, 0.0, 1e-5);
    near(leaning.area().m2(), 2.4 * 0.6 * lean.cos(), 1e-9);
}

#[test]
fn a_quarter_inch_round_over_is_an_arc() {
    // Common practice, no source: the surface of a quarter-inch round-over is a quarter circle,
    // pi/2 x 1/4 = 0.3927 in, not the 0.5 in of its two legs nor the 0.3536 in of a chamfer.
    let t = Length::from_64ths(96);
    let quarter = Length::from_64ths(16);
    let arc = EdgeProfile::RoundOver(quarter).girth(t) / 0.0254 - 1.25;
    near(arc, std::f64::consts::FRAC_PI_8, 1e-8);
    let slope = EdgeProfile::Chamfer(quarter).girth(t) / 0.0254 - 1.25;
    near(slope, 0.353_553_39, 1e-8);
    // On the edge of a round hole of 2 in the arc is swept round: its centroid lies 1/4 (1 - 2/pi)
    // in outside the wall (Pappus and Guldin), so that it has pi/8 x 2 pi (1 + 0.0908) = 2.692 sq
    // in, and the bare wall below it 2 pi x 1 1/4 = 7.854.
    let hole = Opening {
        no: 1,
        place: Place {
            x: Length::from_64ths(10 * 64),
            y: Length::from_64ths(10 * 64),
        },
        what: OpeningKind::Hole {
            diameter: Length::from_64ths(2 * 64),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::RoundOver(quarter),
    };
    near(hole.wall_area(t) / 0.0254_f64.powi(2), 7.854 + 2.692, 5e-4);
}
