//! The promise: faces, grain and areas follow from the shape, exactly, and a shape that cannot be
//! cut is refused in one sentence.

use std::f64::consts::PI;

use geo::{Area as _, BooleanOps as _, MultiPolygon};
use proptest::prelude::*;
use tackfree::shape::{Construction, EdgeProfile, Face, FaceKey, Outline, Shape, ShapeDraft};
use tackfree::units::Length;

#[path = "shape/tops.rs"]
mod tops;
use tops::{cutout, drawn_opening, drawn_outline, hole, pairs, tops};

/// Inches and 64ths.
fn inch(whole: i64, part: i64) -> Length {
    Length::from_64ths(whole * 64 + part)
}

/// 98 3/8 x 25 1/2 x 1 1/2 in with a 30 x 16 in cutout and a 1 3/8 in hole behind it.
fn hand_case() -> ShapeDraft {
    ShapeDraft {
        outline: Outline::Rectangle {
            length: inch(98, 24),
            width: inch(25, 32),
        },
        thickness: inch(1, 32),
        profile: EdgeProfile::Square,
        openings: vec![
            cutout(
                1,
                inch(40, 0),
                inch(12, 48),
                [inch(30, 0), inch(16, 0)],
                inch(0, 48),
            ),
            hole(1, inch(40, 0), inch(22, 32), inch(1, 24)),
        ],
        band: Some(inch(2, 0)),
        band_round_openings: false,
    }
}

fn round_top(diameter: Length) -> ShapeDraft {
    let (openings, outline) = (Vec::new(), Outline::Circle { diameter });
    ShapeDraft {
        outline,
        openings,
        band: None,
        ..hand_case()
    }
}

fn build(draft: ShapeDraft) -> Shape {
    Shape::try_from(draft).expect("a shape that can be cut")
}

fn sq_in(faces: &[Face], key: FaceKey) -> f64 {
    faces
        .iter()
        .find(|face| face.key == key)
        .expect("the face is there")
        .area
        .sq_in()
}

fn close(got: f64, want: f64, relative: f64) {
    assert!(
        (got - want).abs() <= relative * want.abs(),
        "got {got}, want {want}"
    );
}

#[test]
fn the_hand_case_has_nine_faces_with_the_areas_of_the_formulas() {
    let shape = build(hand_case());
    let faces = shape.faces(Construction::EdgeGrain);
    let sink = 30.0 * 16.0 - (4.0 - PI) * 0.75 * 0.75;
    let tap = PI * 1.375 * 1.375 / 4.0;
    // Formula, and the same worked out apart from this program.
    let want = [
        (
            FaceKey::Top,
            98.375 * 25.5 - sink - tap,
            2_027.560_460_729_682_3,
        ),
        (FaceKey::Band, 98.375 * 25.5 - 94.375 * 21.5, 479.5),
        (
            FaceKey::Field,
            94.375 * 21.5 - sink - tap,
            1_548.060_460_729_682_3,
        ),
        (FaceKey::Front, 98.375 * 1.5, 147.5625),
        (FaceKey::Back, 98.375 * 1.5, 147.5625),
        (FaceKey::Left, 25.5 * 1.5, 38.25),
        (FaceKey::Right, 25.5 * 1.5, 38.25),
        (
            FaceKey::Cutout(1),
            (2.0 * (30.0 + 16.0) - 8.0 * 0.75 + 2.0 * PI * 0.75) * 1.5,
            136.068_583_470_577_04,
        ),
        (FaceKey::Hole(1), PI * 1.375 * 1.5, 6.479_534_848_028_949),
    ];
    assert_eq!(
        faces.iter().map(|f| f.key).collect::<Vec<_>>(),
        want.map(|w| w.0)
    );
    for (key, formula, number) in want {
        close(sq_in(&faces, key), formula, 1e-12);
        close(sq_in(&faces, key), number, 1e-12);
    }
    close(shape.outline_area().sq_in(), 2508.5625, 1e-12);
    close(shape.openings_area().sq_in(), sink + tap, 1e-12);
    close(shape.perimeter() / 0.0254, 247.75, 1e-12);
    close(shape.volume_board_feet(), 2508.5625 * 1.5 / 144.0, 1e-12);
}

#[test]
fn a_profile_is_counted_over_its_arc_and_taken_off_the_top() {
    let flat = 97.875 * 25.0;
    let arc = 1.5 - 0.25 + PI * 0.25 / 2.0;
    let slope = 1.5 - 0.25 + 0.25 * 2f64.sqrt();
    let quarter = inch(0, 16);
    for (profile, girth) in [
        (EdgeProfile::RoundOver(quarter), arc),
        (EdgeProfile::Eased(quarter), arc),
        (EdgeProfile::Chamfer(quarter), slope),
    ] {
        let shape = build(ShapeDraft {
            profile,
            openings: Vec::new(),
            ..hand_case()
        });
        let faces = shape.faces(Construction::FaceGrain);
        close(sq_in(&faces, FaceKey::Top), flat, 1e-12);
        close(sq_in(&faces, FaceKey::Front), 98.375 * girth, 1e-12);
        close(sq_in(&faces, FaceKey::Right), 25.5 * girth, 1e-12);
        close(sq_in(&faces, FaceKey::Band), 479.5, 1e-12);
    }
}

#[test]
fn a_round_top_has_a_rim() {
    let openings = vec![hole(4, inch(18, 0), inch(18, 0), inch(2, 0))];
    let profile = EdgeProfile::RoundOver(inch(0, 32));
    let draft = ShapeDraft {
        profile,
        openings,
        band: Some(inch(3, 0)),
        ..round_top(inch(36, 0))
    };
    let faces = build(draft).faces(Construction::SolidSlab);
    let want = [
        (FaceKey::Top, PI * (17.5 * 17.5 - 1.0)),
        (FaceKey::Band, PI * (18.0 * 18.0 - 15.0 * 15.0)),
        (FaceKey::Field, PI * (15.0 * 15.0 - 1.0)),
        (FaceKey::Rim, PI * 36.0 * (1.0 + PI / 4.0)),
        (FaceKey::Hole(4), PI * 2.0 * 1.5),
    ];
    assert_eq!(
        faces.iter().map(|f| f.key).collect::<Vec<_>>(),
        want.map(|w| w.0)
    );
    for (key, formula) in want {
        close(sq_in(&faces, key), formula, 1e-12);
    }
}

#[test]
fn an_opening_over_the_band_line_takes_from_both_parts() {
    // 10 x 4 in, from 1 in to 5 in off the front edge: a quarter of it lies in the 2 in band.
    let sink = cutout(
        1,
        inch(40, 0),
        inch(3, 0),
        [inch(10, 0), inch(4, 0)],
        Length::ZERO,
    );
    let faces = build(ShapeDraft {
        openings: vec![sink],
        ..hand_case()
    })
    .faces(Construction::EdgeGrain);
    close(sq_in(&faces, FaceKey::Band), 479.5 - 10.0, 1e-7);
    close(sq_in(&faces, FaceKey::Field), 94.375 * 21.5 - 30.0, 1e-7);
}

#[test]
fn a_shape_is_read_back_as_written_and_checked_again() {
    let shape = build(hand_case());
    let json = serde_json::to_string(&shape).unwrap();
    assert_eq!(serde_json::from_str::<Shape>(&json).unwrap(), shape);
    let bent = json.replace("\"thickness\":38100000", "\"thickness\":-1");
    let refusal = serde_json::from_str::<Shape>(&bent)
        .unwrap_err()
        .to_string();
    assert!(refusal.contains("The thickness is -0.001 mm"), "{refusal}");
}

fn m2(faces: &[Face], key: FaceKey) -> f64 {
    faces
        .iter()
        .find(|face| face.key == key)
        .map_or(0.0, |face| face.area.m2())
}

proptest! {
    #[test]
    fn band_and_field_make_up_the_underside(shape in tops()) {
        let split = shape.faces(Construction::EdgeGrain);
        let whole = build(ShapeDraft { band: None, ..shape.into() }).faces(Construction::EdgeGrain);
        let (band, field) = (m2(&split, FaceKey::Band), m2(&split, FaceKey::Field));
        close(band + field, m2(&whole, FaceKey::Underside), 1e-9);
        prop_assert!(whole.iter().chain(&split).all(|face| face.area.m2() > 0.0));
        prop_assert!(split.is_sorted_by(|a, b| a.key < b.key));
        prop_assert_eq!(split.len(), whole.len() + 1);
    }

    #[test]
    fn moving_openings_inside_changes_no_total((before, after) in pairs()) {
        // Without a band, every face has a total of its own that stays.
        let areas = |draft: &ShapeDraft| -> Vec<f64> {
            let shape = build(ShapeDraft { band: None, ..draft.clone() });
            shape.faces(Construction::FaceGrain).iter().map(|face| face.area.m2()).collect()
        };
        for (a, b) in areas(&before).into_iter().zip(areas(&after)) {
            close(a, b, 1e-12);
        }
        // With one, band and field share the loss differently, and lose the same together.
        let (before, after) = (Shape::try_from(before), Shape::try_from(after));
        prop_assume!(before.is_ok() && after.is_ok());
        let total = |shape: Shape| -> f64 {
            shape.faces(Construction::FaceGrain).iter().map(|face| face.area.m2()).sum()
        };
        close(total(after.unwrap()), total(before.unwrap()), 1e-12);
    }
}

proptest! {
    // Fewer cases: boolean operations on thousands of corners are slow without optimisation.
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn areas_agree_with_polygons_drawn_apart(shape in tops()) {
        let faces = shape.faces(Construction::EdgeGrain);
        // 0.01 %, and two millionths of the top for the chords where a face is a small remainder.
        let slack = 2e-6 * shape.outline_area().m2();
        let near = |got: f64, want: f64| {
            assert!((got - want).abs() <= 1e-4 * want + slack, "got {got}, want {want}");
        };
        let cut = MultiPolygon::new(shape.openings().iter().map(drawn_opening).collect());
        let left = |inset: f64| drawn_outline(shape.outline(), inset).difference(&cut);
        let field = left(shape.band().unwrap().metres());
        let flat = left(shape.profile().reach().metres());
        near(m2(&faces, FaceKey::Top), flat.unsigned_area());
        near(m2(&faces, FaceKey::Field), field.unsigned_area());
        near(m2(&faces, FaceKey::Band), left(0.0).difference(&field).unsigned_area());
        for opening in shape.openings() {
            let ring = drawn_opening(opening).exterior().clone();
            let around: f64 = ring.lines().map(|line| line.dx().hypot(line.dy())).sum();
            close(m2(&faces, opening.wall()), around * shape.thickness().metres(), 1e-4);
        }
    }
}
