//! Each outline against the formula for it.

use std::f64::consts::PI;

use tackfree::shape::{
    Construction, Corner, Corners, Cut, EdgeProfile, FaceKey, LiveEdges, Outline, Quad, ShapeDraft,
};

use super::made::{build, close, cornered, cup, draft, ell, inch, slab, sq_in, top};

const IN2: f64 = 0.000_645_16;

#[test]
fn an_l_and_a_u_are_their_rectangles() {
    let l = top(Outline::L(ell()));
    close(
        l.outline_area().sq_in(),
        120.0 * 25.5 + 24.0 * (96.0 - 25.5),
        1e-12,
    );
    close(l.perimeter() / 0.0254, 2.0 * (120.0 + 96.0), 1e-12);
    let u = top(Outline::U(cup()));
    close(
        u.outline_area().sq_in(),
        120.0 * 25.5 + 44.0 * (72.0 - 25.5),
        1e-12,
    );
    close(
        u.perimeter() / 0.0254,
        2.0 * (120.0 + 72.0) + 2.0 * (72.0 - 25.5),
        1e-12,
    );
}

#[test]
fn the_band_of_an_l_is_sharp_outside_and_round_inside() {
    // Everything within 2 in of the edge. Along straight runs that is 2 in times the run; each
    // outer corner counts 4 sq in twice, and the inside corner adds a quarter disc.
    let shape = build(ShapeDraft {
        band: Some(inch(2, 0)),
        ..draft(Outline::L(ell()))
    });
    let around = 2.0 * (120.0 + 96.0);
    let band = 2.0 * around - 5.0 * 4.0 + PI * 4.0 / 4.0;
    close(sq_in(&shape, FaceKey::Band), band, 1e-5);
    close(
        sq_in(&shape, FaceKey::Band) + sq_in(&shape, FaceKey::Field),
        120.0 * 25.5 + 24.0 * 70.5,
        1e-9,
    );
}

#[test]
fn an_oval_is_an_ellipse() {
    let (a, b) = (30.0, 20.0);
    let shape = build(ShapeDraft {
        band: Some(inch(2, 0)),
        ..draft(Outline::Oval {
            length: inch(60, 0),
            width: inch(40, 0),
        })
    });
    close(shape.outline_area().sq_in(), PI * a * b, 1e-12);
    // Ramanujan's second formula for the length around (Modular equations and approximations to
    // pi, 1914; from memory), good to 1e-9 for an oval as full as this.
    let h = ((a - b) / (a + b)) * ((a - b) / (a + b));
    let around = PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()));
    close(shape.perimeter() / 0.0254, around, 1e-8);
    // A strip of width w inside a smooth curve takes w P - pi w2, whatever the curve (Steiner).
    close(sq_in(&shape, FaceKey::Band), 2.0 * around - PI * 4.0, 5e-5);
    // And a circle is an oval with two equal axes.
    let circle = top(Outline::Oval {
        length: inch(36, 0),
        width: inch(36, 0),
    });
    close(circle.perimeter() / 0.0254, PI * 36.0, 1e-12);
}

#[test]
fn cut_corners_take_what_they_take() {
    let round = cornered(60, 30, &Corner::OUTER.map(|c| (c, Cut::Round(inch(3, 0)))));
    let shape = top(round);
    close(
        shape.outline_area().sq_in(),
        60.0 * 30.0 - (4.0 - PI) * 9.0,
        1e-12,
    );
    close(
        shape.perimeter() / 0.0254,
        2.0 * (54.0 + 24.0) + 2.0 * PI * 3.0,
        1e-12,
    );
    let clip = Cut::Clip {
        along: inch(4, 0),
        across: inch(3, 0),
    };
    let notch = Cut::Notch {
        along: inch(6, 0),
        across: inch(2, 0),
    };
    let shape = top(cornered(
        60,
        30,
        &[(Corner::FrontLeft, clip), (Corner::BackRight, notch)],
    ));
    close(shape.outline_area().sq_in(), 1800.0 - 6.0 - 12.0, 1e-12);
    close(shape.perimeter() / 0.0254, 2.0 * 90.0 - 7.0 + 5.0, 1e-12);
    // A radius of half the width makes a racetrack: no straight end is left.
    let shape = top(cornered(
        60,
        30,
        &Corner::OUTER.map(|c| (c, Cut::Round(inch(15, 0)))),
    ));
    close(
        shape.outline_area().sq_in(),
        30.0 * 30.0 + PI * 225.0,
        1e-12,
    );
    let keys: Vec<FaceKey> = shape
        .faces(Construction::FaceGrain)
        .iter()
        .map(|face| face.key)
        .collect();
    assert!(!keys.contains(&FaceKey::Left) && keys.contains(&FaceKey::Front));
}

#[test]
fn rounds_inside_an_l_add_and_outside_take() {
    let mut l = ell();
    l.corners = Corners::new([
        (Corner::Inside, Cut::Round(inch(2, 0))),
        (Corner::Leg, Cut::Round(inch(1, 0))),
    ]);
    let shape = top(Outline::L(l));
    let quarter = 1.0 - PI / 4.0;
    close(
        shape.outline_area().sq_in(),
        120.0 * 25.5 + 24.0 * 70.5 + 4.0 * quarter - quarter,
        1e-12,
    );
}

#[test]
fn four_sides_and_a_diagonal_make_two_triangles() {
    let quad = Quad {
        front: inch(60, 0),
        right: inch(25, 0),
        back: inch(60, 0),
        left: inch(25, 0),
        rising: Some(inch(65, 0)),
        falling: Some(inch(64, 56)),
        corners: Corners::SHARP,
    };
    // 25, 60, 65 is a right triangle: the top is square, so both diagonals are 65.
    let outline = Outline::Quad(quad.clone());
    close(outline.area().sq_in(), 1500.0, 1e-9);
    let closing = outline.closing().expect("two diagonals");
    close(closing.computed / 0.0254, 65.0, 1e-12);
    close(closing.error() / 0.0254, -0.125, 1e-9);

    // Practice of templating: for a parallelogram sin(lean) = (d1^2 - d2^2) / (4 a b).
    let (a, b) = (60.0_f64, 25.0_f64);
    let lean = 0.01_f64;
    let rising = (a * a + b * b + 2.0 * a * b * lean).sqrt();
    let falling = (a * a + b * b - 2.0 * a * b * lean).sqrt();
    let leaning = Outline::Quad(Quad {
        rising: Some(super::made::nm(rising * 0.0254)),
        falling: None,
        ..quad.clone()
    });
    close(
        leaning.area().m2() / IN2,
        a * b * (1.0 - lean * lean).sqrt(),
        1e-9,
    );
    let other = Outline::Quad(Quad {
        rising: None,
        falling: Some(super::made::nm(falling * 0.0254)),
        ..quad
    });
    close(other.area().m2(), leaning.area().m2(), 1e-8);
    close(
        (rising * rising - falling * falling) / (4.0 * a * b),
        lean,
        1e-12,
    );
}

#[test]
fn a_slab_is_drawn_straight_from_station_to_station() {
    // The slab of the shop's own worked example: widths in inches each 12 in over 96 in. Simpson
    // and trapezoid sums worked out by hand: h/3 (first + last + 4 odd + 2 even), h (half ends +
    // the rest).
    let widths = [21.5, 22.25, 24.0, 25.5, 26.0, 24.75, 23.0, 22.5, 22.0];
    let stations: Vec<(f64, f64)> = (0..)
        .zip(widths)
        .map(|(i, width)| (f64::from(i) * 12.0, width))
        .collect();
    for edges in [LiveEdges::Both, LiveEdges::Front, LiveEdges::Back] {
        let outline = slab(edges, &stations);
        close(outline.area().sq_in(), 2277.0, 1e-9);
        let Outline::Live(live) = &outline else {
            panic!("a slab")
        };
        close(live.simpson().sq_in(), 2278.0, 1e-9);
        close(live.trapezoid().sq_in(), 2277.0, 1e-9);
        let shape = build(ShapeDraft {
            thickness: inch(2, 0),
            ..draft(outline)
        });
        // Simpson's 2,278 sq in at 2 in: 31.64 board feet; as drawn it would be 31.625.
        close(shape.volume_board_feet(), 2278.0 * 2.0 / 144.0, 1e-9);
        close(shape.net_volume() / 0.0254_f64.powi(3), 2278.0 * 2.0, 1e-9);
    }
}

#[test]
fn a_profile_is_counted_over_its_arc() {
    let quarter = inch(0, 16);
    let t = 1.5;
    for (profile, girth) in [
        (EdgeProfile::Ogee(quarter), t - 0.25 + PI * 0.125),
        (EdgeProfile::Cove(quarter), t - 0.25 + PI * 0.125),
        (EdgeProfile::Bullnose(quarter), t - 0.5 + PI * 0.25),
        (EdgeProfile::Bullnose(inch(0, 48)), PI * 0.75),
    ] {
        let shape = build(ShapeDraft {
            profile,
            ..draft(Outline::L(ell()))
        });
        close(sq_in(&shape, FaceKey::Front), 24.0 * girth, 1e-9);
        close(
            sq_in(&shape, FaceKey::InnerEdge(Corner::FrontRight)),
            96.0 * girth,
            1e-9,
        );
    }
    // A bullnose rounds the underside off too.
    let shape = build(ShapeDraft {
        profile: EdgeProfile::Bullnose(inch(0, 32)),
        ..draft(Outline::Rectangle {
            length: inch(60, 0),
            width: inch(20, 0),
        })
    });
    close(sq_in(&shape, FaceKey::Top), 59.0 * 19.0, 1e-12);
    close(sq_in(&shape, FaceKey::Underside), 59.0 * 19.0, 1e-12);
}

#[test]
fn a_top_balances_at_its_middle_of_area() {
    let drawn = top(Outline::L(ell())).drawn();
    let (run, leg) = (120.0 * 25.5, 24.0 * 70.5);
    let x = (run * 60.0 + leg * 12.0) / (run + leg);
    let y = (run * (96.0 - 12.75) + leg * 35.25) / (run + leg);
    let balance = drawn.balance();
    close(balance.x / 0.0254, x, 1e-9);
    close(balance.y / 0.0254, y, 1e-9);
}
