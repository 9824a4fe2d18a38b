//! Moist air against a psychrometric library and the dew-point formula's own figures.

use super::{OIL, air, printed, product, start};
use tackfree::coating::psychro::{
    STANDARD_PRESSURE, dew_margin, dew_point, dew_point_c, saturation_hpa, wet_bulb,
};
use tackfree::coating::{BeforePass, Check, LabelHours, Stands, before_pass};
use tackfree::units::Temperature;

#[test]
fn dew_points_come_out_to_the_printed_digits() {
    // Computed with the constants of Alduchov and Eskridge 1996, equation 21.
    for (c, percent, dew, margin) in [
        (22.0, 78.0, "17.99", None),
        (23.0, 50.0, "12.02", None),
        (20.0, 80.0, "16.44", Some("3.56")),
        (15.0, 85.0, "12.50", Some("2.50")),
        (10.0, 90.0, "8.43", Some("1.57")),
        (25.0, 60.0, "16.70", None),
        (18.0, 70.0, "12.45", None),
    ] {
        let air = air(c, percent);
        let found = dew_point_c(air.temperature, air.humidity).expect("moist air");
        printed(found, dew, &format!("{c} C {percent} %"));
        if let Some(margin) = margin {
            printed(
                dew_margin(air.temperature, air.temperature, air.humidity),
                margin,
                dew,
            );
        }
    }
}

#[test]
fn the_older_constants_give_a_published_example_and_ours_lie_a_hundredth_beside_it() {
    // An engineering page's worked example: 22 C and 78 % give 17.98 C with the Magnus form
    // 17.27 T / (237.7 + T).
    let magnus = |c: f64, percent: f64| {
        let gamma = (percent / 100.0).ln() + 17.27 * c / (237.7 + c);
        237.7 * gamma / (17.27 - gamma)
    };
    printed(magnus(22.0, 78.0), "17.98", "the older constants");
    for (c, percent) in [(22.0, 78.0), (5.0, 90.0), (15.0, 40.0), (30.0, 60.0)] {
        let air = air(c, percent);
        let ours = dew_point_c(air.temperature, air.humidity).expect("moist air");
        let older = magnus(c, percent);
        assert!(
            (ours - older).abs() < 0.06,
            "{c} C {percent} %: {ours} {older}"
        );
    }
}

/// Air temperature; then for 30, 50, 65, 80 and 90 % dew point and wet bulb, C, at 101,325 Pa:
/// psychrolib 2.5.0 (a general-purpose library after ASHRAE Handbook Fundamentals 2017, chapter
/// 1), by running it. Below freezing it gives a frost point where the Magnus form gives a dew
/// point over water, so that only dew points above freezing are held against it.
type Moist = (f64, [f64; 5], [f64; 5]);
#[rustfmt::skip]
const MOIST: [Moist; 7] = [
    ( 5.0, [-9.920, -4.033, -0.905, 1.841, 3.498], [-0.575, 1.354, 2.489, 3.588, 4.302]),
    (10.0, [-6.010, 0.063, 3.731, 6.713, 8.437], [3.561, 5.536, 6.943, 8.290, 9.157]),
    (15.0, [-2.141, 4.672, 8.482, 11.582, 13.374], [7.242, 9.672, 11.375, 12.985, 14.010]),
    (20.0, [1.914, 9.272, 13.227, 16.447, 18.310], [10.853, 13.783, 15.800, 17.679, 18.864]),
    (25.0, [6.238, 13.864, 17.967, 21.309, 23.244], [14.422, 17.889, 20.229, 22.380, 23.722]),
    (30.0, [10.548, 18.447, 22.701, 26.169, 28.177], [17.972, 22.005, 24.672, 27.091, 28.586]),
    (35.0, [14.844, 23.020, 27.429, 31.025, 33.108], [21.524, 26.141, 29.134, 31.814, 33.457]), ];

#[test]
fn dew_point_and_wet_bulb_agree_with_a_psychrometric_library() {
    let mut dews = 0;
    for (c, dew, bulb) in MOIST {
        for ((percent, dew), bulb) in [30.0, 50.0, 65.0, 80.0, 90.0]
            .into_iter()
            .zip(dew)
            .zip(bulb)
        {
            let air = air(c, percent);
            let found = dew_point(air.temperature, air.humidity)
                .expect("moist air")
                .c();
            if dew > 0.0 {
                // Within 0.023 C above freezing: the Magnus form against ASHRAE's.
                assert!(
                    (found - dew).abs() <= 0.0235,
                    "{c} C {percent} %: {found}, not {dew}"
                );
                dews += 1;
            }
            let found = wet_bulb(air.temperature, air.humidity, STANDARD_PRESSURE).c();
            // The library itself stops within 0.001 C.
            assert!(
                (found - bulb).abs() <= 0.0025,
                "{c} C {percent} %: {found}, not {bulb}"
            );
        }
    }
    assert_eq!(dews, 30);
}

#[test]
fn saturation_pressures_are_those_of_the_paper_s_formula() {
    for (c, hpa) in [
        (0.0, "6.1094"),
        (10.0, "12.2602"),
        (20.0, "23.3344"),
        (25.0, "31.6174"),
        (30.0, "42.3665"),
    ] {
        printed(
            saturation_hpa(Temperature::from_c(c)),
            hpa,
            &format!("{c} C"),
        );
    }
}

#[test]
fn a_pass_is_held_where_the_dew_margin_is_under_three_degrees() {
    // ISO 8502-4 practice: at least 3 C (5 F). The three margins of the vectors above.
    let product = product(OIL);
    let now = start();
    for (c, percent, stands) in [
        (20.0, 80.0, Stands::Fine),
        (15.0, 85.0, Stands::Hold),
        (10.0, 90.0, Stands::Hold),
    ] {
        let before = BeforePass {
            product: &product,
            at: now,
            air: Some(air(c, percent)),
            surface: None,
            wood_percent: Some(8.0),
            wipe: None,
            stain: None,
            clock: &LabelHours,
        };
        let findings = before_pass(&before);
        let dew = findings
            .iter()
            .find(|finding| matches!(finding.check, Check::DewPoint { .. }))
            .expect("a dew-point finding");
        assert_eq!(dew.stands, stands, "{c} C {percent} %");
        assert!(dew.source.contains("ISO 8502-4"));
    }
}
