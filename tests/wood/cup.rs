//! Cup: plate and two-layer formulas, and the risk of unlike faces.

use tackfree::units::Length;
use tackfree::wood::movement::{Grain, MovementError};
use tackfree::wood::sealing::{
    Coats, CupRisk, Faces, FinishKind, cup_risk, even_curvature, layer_factor, one_more_coat,
    sagitta, step_curvature,
};

use super::{flat, inches, mc, near, wood};

const VARNISH: FinishKind = FinishKind::UrethaneVarnish;

fn faces(top: u8, underside: u8) -> Faces {
    Faces::new(
        &[Coats::new(VARNISH, top)],
        &[Coats::new(VARNISH, underside)],
    )
}

/// Sugar maple, flatsawn boards, 25 1/2 x 1 1/2 in, from 7 to 11 %.
fn risk(top: u8, underside: u8) -> CupRisk {
    sized_risk(25.5, 1.5, faces(top, underside)).unwrap()
}

fn sized_risk(width: f64, thickness: f64, faces: Faces) -> Result<CupRisk, MovementError> {
    let maple = wood("Maple, sugar");
    let build = flat(&maple, Grain::Flat);
    cup_risk(
        &build,
        inches(width),
        inches(thickness),
        faces,
        mc(7.0),
        mc(11.0),
    )
}

#[test]
fn two_like_layers_give_the_two_layer_limit_of_1_5() {
    // Timoshenko 1925, J. Opt. Soc. Am. 11:233-255, general form from memory; for layers of like
    // thickness a teaching page of the University of Cambridge (read) has
    // de = k t (E + 14 + 1/E)/12 with E the ratio of stiffnesses and t = h/2.
    near(layer_factor(1.0, 1.0), 1.5, 1e-12);
    for stiffness in [0.1, 0.5, 1.0, 1.7, 4.0, 10.0] {
        let cambridge = 24.0 / (stiffness + 14.0 + 1.0 / stiffness);
        near(layer_factor(1.0, stiffness), cambridge, 1e-12);
    }
    // Which layer is called first does not matter.
    near(layer_factor(0.3, 2.0), layer_factor(1.0 / 0.3, 0.5), 1e-12);
}

#[test]
fn the_plate_integral_gives_1_for_an_even_gradient_and_1_5_for_a_step() {
    // k = 12/h^3 times the integral of e(z) z (beam theory), summed here in thin slices.
    let curvature = |strain: &dyn Fn(f64) -> f64| {
        let slices = 20_000;
        let step = 1.0 / f64::from(slices);
        (0..slices)
            .map(|i| (f64::from(i) + 0.5) * step - 0.5)
            .map(|z| 12.0 * strain(z) * z * step)
            .sum::<f64>()
    };
    let h = Length::from_mm(1000);
    near(curvature(&|z| z), even_curvature(1.0, h), 1e-6);
    near(
        curvature(&|z| 0.5 * z.signum()),
        step_curvature(1.0, h),
        1e-6,
    );
}

#[test]
fn cup_of_three_cases_worked_out_by_hand() {
    // d = k w^2/8 with e = C dM, C of Table 13-5, p. 13-16: even gradient, step.
    for (c, points, width, even, step) in [
        (0.00353, 1.0, 25.5, 0.191, 0.287),
        (0.00353, 2.0, 25.5, 0.383, 0.574),
        (0.00369, 1.0, 24.0, 0.177, 0.266),
    ] {
        let thickness = inches(1.5);
        let cup = |curvature| sagitta(curvature, inches(width)).inches();
        near(cup(even_curvature(c * points, thickness)), even, 0.000_6);
        near(cup(step_curvature(c * points, thickness)), step, 0.000_6);
    }
}

#[test]
fn unlike_faces_risk_a_cup_between_the_even_and_the_step_estimate() {
    // Table 16-3: 3 coats against 1 let in 0.10/0.36/0.56 and 0.45/0.90/0.98 after 1/7/14 days:
    // they differ by 0.35, 0.54 and 0.42 of 4 points.
    let risk = risk(3, 1);
    near(risk.points.low(), 0.35 * 4.0, 1e-9);
    near(risk.points.high(), 0.54 * 4.0, 1e-9);
    let one_point = 0.191_25;
    near(risk.cup.low().inches(), 1.4 * one_point, 0.000_5);
    near(risk.cup.high().inches(), 2.16 * 1.5 * one_point, 0.001);
    assert!(risk.underside_poorer && risk.wetter);
    assert_eq!(risk.shape_words(), "underside bulging, edges up");
    assert_eq!(
        risk.line(),
        "Top lets in 10 % of what bare wood takes up in a day, underside 45 %: risk of 9/32\" to \
         5/8\" (6.8 to 15.7 mm) cup over 25 1/2\" (647.7 mm) until they are even again (estimate)."
    );
    assert!(risk.basis().contains("passing estimate") && risk.basis().contains("inference"));
}

#[test]
fn like_faces_risk_nothing_whatever_is_on_them() {
    // Forest Products Laboratory Technical Note D-12 (1952): coatings of nearly equal moisture
    // resistance belong on all surfaces.
    for coats in 0..=6 {
        assert!(risk(coats, coats).is_none());
    }
    let water = [Coats::new(FinishKind::WaterbornePolyurethane, 3)];
    let like = sized_risk(25.5, 1.5, Faces::new(&water, &water)).unwrap();
    assert!(like.is_none() && like.line().contains("no cup to fear"));
    // Unlike coats of a finish nobody published: anything up to bare against tight.
    let less = [Coats::new(FinishKind::WaterbornePolyurethane, 1)];
    let unlike = sized_risk(25.5, 1.5, Faces::new(&water, &less)).unwrap();
    assert_eq!(unlike.cup.low(), Length::ZERO);
    assert_eq!(unlike.cup.high(), {
        let tight = sized_risk(25.5, 1.5, Faces::new(&[], &water)).unwrap();
        tight.cup.high()
    });
    assert!(unlike.underside_poorer && unlike.line().contains("an unknown share"));
}

#[test]
fn double_the_width_is_four_times_the_cup_and_double_the_thickness_half() {
    // A university emeritus's column says halving the width leaves a quarter (of ring cupping).
    let at = |width, thickness| {
        let risk = sized_risk(width, thickness, faces(3, 1)).unwrap();
        risk.cup.high().inches()
    };
    near(at(24.0, 1.5) / at(12.0, 1.5), 4.0, 1e-4);
    near(at(24.0, 0.75) / at(24.0, 1.5), 2.0, 1e-4);
    assert!(sized_risk(0.0, 1.5, faces(3, 1)).is_err());
    assert!(sized_risk(24.0, -1.0, faces(3, 1)).is_err());
}

#[test]
fn one_more_coat_goes_on_the_poorer_face_and_lowers_the_risk() {
    let maple = wood("Maple, sugar");
    let build = flat(&maple, Grain::Flat);
    let more = |risk: &CupRisk| one_more_coat(&build, risk, mc(7.0), mc(11.0)).unwrap();
    for (top, underside) in [(3, 1), (1, 3), (3, 0), (0, 3), (3, 2)] {
        let before = risk(top, underside);
        let one = more(&before).unwrap();
        assert_eq!(one.on_underside, underside < top);
        assert_eq!(one.finish, VARNISH);
        assert!(one.after.cup.high() < one.before.cup.high());
    }
    assert!(more(&risk(3, 2)).unwrap().after.is_none());
    assert_eq!(more(&risk(3, 3)), None);
    assert_eq!(more(&risk(0, 0)), None);
    let line = more(&risk(3, 1)).unwrap().line();
    assert!(
        line.starts_with("One more coat of oil-based urethane varnish on the underside: from 5/8")
    );
}

#[test]
fn a_drying_room_bends_the_other_way() {
    let maple = wood("Maple, sugar");
    let build = flat(&maple, Grain::Flat);
    let dry = cup_risk(
        &build,
        inches(25.5),
        inches(1.5),
        faces(3, 1),
        mc(11.0),
        mc(7.0),
    )
    .unwrap();
    assert_eq!(dry.shape_words(), "top bulging, edges down");
    assert_eq!(dry.cup, risk(3, 1).cup);
}
