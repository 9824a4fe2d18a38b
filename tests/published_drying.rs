//! Drying, dew point and wet bulb against published figures. Each number stands beside its source;
//! what was computed here from a published formula says so.
#![allow(
    clippy::expect_used,
    reason = "a test may stop where its own setting is wrong"
)]

use chrono::{DateTime, Duration, TimeZone, Utc};
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::families::{usual_figures, usual_kind};
use tackfree::coating::psychro::{
    STANDARD_PRESSURE, dew_margin, dew_point, dew_point_c, saturation_hpa, wet_bulb,
};
use tackfree::coating::{
    AirLog, AirReading, Assumed, BeforePass, Care, Check, DryingLaw, Family, FigureBasis,
    LabelHours, ModelSettings, Product, ProductId, ShopAir, ShopAirClock, Span, Stands,
    before_pass, film_factor,
};
use tackfree::units::{Humidity, Money, SpreadRate, Temperature, Volume};

fn air(c: f64, percent: f64) -> ShopAir {
    ShopAir {
        temperature: Temperature::from_c(c),
        humidity: Humidity::from_percent(percent).expect("a humidity"),
    }
}

/// A product whose label forbids nothing between 10 C and 100 %.
fn product(family: Family) -> Product {
    let mut label = usual_figures(family);
    label.min_temp = Temperature::from_c(10.0);
    label.max_humidity = Humidity::from_percent(100.0).expect("a humidity");
    Product {
        id: ProductId(uuid::Uuid::nil()),
        name: family.word().to_owned(),
        kind: usual_kind(family),
        family,
        basis: FigureBasis::Label,
        label,
        can: Volume::from_ul(946_353),
        price: Money::from_cents(2_500),
    }
}

fn law(family: Family, care: Care, cap: i32) -> DryingLaw {
    let settings = ModelSettings {
        cap,
        ..ModelSettings::default()
    };
    let product = product(family);
    settings.law(family, &product.label, Temperature::from_c(23.0), care)
}

const OIL: Family = Family::OilBrushingVarnish;
const WATER: Family = Family::WaterBorne;
const SOLVENT: Family = Family::Shellac;

/// To the digits printed: within half of the last one.
fn printed(found: f64, text: &str, what: &str) {
    let decimals = text.split_once('.').map_or(0, |(_, d)| d.len());
    assert_eq!(format!("{found:.decimals$}"), text, "{what}");
}

// The vectors below are computed from the law as `model` states it (R = 8.314462618 J/(mol K),
// label at 23 C), by another program than this one.
#[test]
fn speeds_come_out_to_the_printed_digits() {
    for (c, percent, oil, water, solvent) in [
        (23.0, 50.0, "1.0000", "1.0000", "1.0000"),
        (10.0, 50.0, "0.3937", "0.4402", "0.4402"),
        (15.0, 50.0, "0.5691", "0.6089", "0.6089"),
        (15.0, 75.0, "0.3983", "0.3044", "0.6089"),
        (18.0, 60.0, "0.7056", "0.5886", "0.7357"),
        (20.0, 50.0, "0.8124", "0.8329", "0.8329"),
        (23.0, 75.0, "0.7000", "0.5000", "1.0000"),
        (27.0, 80.0, "0.7865", "0.5076", "1.0000"),
    ] {
        for (family, expected) in [(OIL, oil), (WATER, water), (SOLVENT, solvent)] {
            let air = air(c, percent);
            let speed = law(family, Care::Safe, 1000).speed(air.temperature, air.humidity);
            printed(
                speed,
                expected,
                &format!("{} at {c} C {percent} %", family.word()),
            );
        }
    }
}

#[test]
fn uncapped_speeds_come_out_to_the_printed_digits() {
    let uncapped = |family, c, percent| {
        let law = law(family, Care::Safe, 1000);
        let air = air(c, percent);
        law.temperature_factor(air.temperature) * law.curve.factor(air.humidity)
    };
    printed(uncapped(SOLVENT, 27.0, 80.0), "1.2689", "solvent");
    for (family, expected) in [(OIL, "1.5982"), (WATER, "1.8129"), (SOLVENT, "1.5108")] {
        printed(uncapped(family, 30.0, 40.0), expected, family.word());
    }
}

#[test]
fn the_water_law_is_the_ratio_of_vapour_pressures_within_seven_in_a_thousand() {
    // At 10 C 0.4402 against 0.4373, at 35 C 2.0054 against 2.0035: the latent heat of water, 44
    // kJ/mol, against the Magnus form of Alduchov and Eskridge 1996, equation 21.
    let law = law(WATER, Care::Safe, 1000);
    let vapour =
        |c| saturation_hpa(Temperature::from_c(c)) / saturation_hpa(Temperature::from_c(23.0));
    printed(vapour(10.0), "0.4373", "10 C");
    printed(vapour(35.0), "2.0035", "35 C");
    printed(
        law.temperature_factor(Temperature::from_c(35.0)),
        "2.0054",
        "35 C",
    );
    for tenths in 100..=350 {
        let c = f64::from(tenths) / 10.0;
        let ratio = law.temperature_factor(Temperature::from_c(c)) / vapour(c);
        assert!((ratio - 1.0).abs() <= 0.007, "{ratio} at {c} C");
    }
}

fn start() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2026, 6, 1, 8, 0, 0)
        .single()
        .expect("a day")
}

/// A clock over stretches of hours, each at one air; stretches over 12 hours are read twice.
fn clock(stretches: &[(i64, f64, f64)], settings: ModelSettings) -> ShopAirClock {
    let mut log = AirLog::new(chrono_tz::UTC, Assumed::LabelConditions);
    let mut at = start();
    for (hours, c, percent) in stretches {
        for part in 0..(hours + 5) / 6 {
            log.insert(AirReading {
                at: at + Duration::hours(part * 6),
                air: air(*c, *percent),
            });
        }
        at += Duration::hours(*hours);
    }
    ShopAirClock::new(Arc::new(log), settings, Arc::new(HashMap::new()))
}

/// Stretches of hours, C and %; then label-hours for oil, water and solvent.
type DayLog = (
    &'static [(i64, f64, f64)],
    &'static str,
    &'static str,
    Option<&'static str>,
);

#[test]
fn logs_of_a_day_come_out_to_the_printed_hours() {
    let logs: [DayLog; 3] = [
        (
            &[(8, 21.0, 45.0), (16, 12.0, 60.0)],
            "14.278",
            "14.218",
            Some("15.115"),
        ),
        (
            &[(6, 24.0, 50.0), (12, 16.0, 70.0), (6, 24.0, 50.0)],
            "17.872",
            "16.672",
            None,
        ),
        (
            &[(10, 8.0, 60.0), (14, 23.0, 50.0)],
            "14.000",
            "14.000",
            None,
        ),
    ];
    let end = start() + Duration::hours(24);
    for (log, oil, water, solvent) in logs {
        let clock = clock(log, ModelSettings::default());
        let hours = |family| clock.label_hours(&product(family), start(), end);
        printed(hours(OIL), oil, "oil");
        printed(hours(WATER), water, "water");
        if let Some(solvent) = solvent {
            printed(hours(SOLVENT), solvent, "solvent");
        }
    }
    let log = [(6, 24.0, 50.0), (12, 16.0, 70.0), (6, 24.0, 50.0)];
    let faster = ModelSettings {
        cap: 1500,
        ..ModelSettings::default()
    };
    let clock = clock(&log, faster);
    printed(
        clock.label_hours(&product(OIL), start(), end),
        "18.721",
        "cap 1.5",
    );
    printed(
        clock.label_hours(&product(WATER), start(), end),
        "17.415",
        "cap 1.5",
    );
    printed(
        clock.window_hours(&product(OIL), start(), end),
        "24.849",
        "window",
    );
}

#[test]
fn a_day_s_label_at_10_c_takes_the_printed_hours() {
    let wait = |family: Family, care: Care| {
        let settings = ModelSettings {
            safe: care,
            ..ModelSettings::default()
        };
        let clock = clock(&[(240, 10.0, 50.0)], settings);
        let clock = if care == Care::Likely {
            clock.likely()
        } else {
            clock
        };
        let reach = clock.reach(&product(family), start(), Span::hours(24));
        assert!(reach.in_sight);
        (reach.at - start()).num_seconds() as f64 / 3600.0
    };
    printed(wait(OIL, Care::Safe), "61.0", "oil");
    printed(wait(WATER, Care::Safe), "54.5", "water");
    printed(wait(SOLVENT, Care::Safe), "54.5", "solvent");
    printed(wait(OIL, Care::Likely), "46.1", "oil, likely");
    printed(wait(OIL, Care::Strict), "82.2", "oil, strict");
    // A wipe of mineral spirits, 30 minutes at 23 C, by the same law at 10 C: 73 minutes.
    let clock = clock(&[(24, 10.0, 50.0)], ModelSettings::default());
    let reach = clock.reach(&product(Family::MineralSpirits), start(), Span::minutes(30));
    printed(
        (reach.at - start()).num_seconds() as f64 / 60.0,
        "73",
        "wipe",
    );
}

#[test]
fn a_thick_coat_waits_by_its_film_factor() {
    // Twice the film takes about four times as long for solvent and water paints (a boat-paint
    // data book), at least twice for oil-modified floor coats (a floor-coating maker's answers).
    let rate = |m2: f64| SpreadRate::from_m2_per_l(m2).expect("a rate");
    for (family, k) in [(OIL, "1.50"), (WATER, "2.25"), (SOLVENT, "2.25")] {
        printed(film_factor(family, rate(12.0), rate(8.0)), k, family.word());
        printed(film_factor(family, rate(12.0), rate(16.0)), "1.00", "thin");
    }
    printed(
        film_factor(WATER, rate(12.0), rate(6.0)),
        "4.00",
        "twice the film",
    );
}

#[test]
fn dew_points_come_out_to_the_printed_digits() {
    // Computed with the constants of Alduchov and Eskridge 1996, equation 21. An engineering page
    // gives 17.98 C for 22 C and 78 % with the older constants 17.27 and 237.7.
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

/// Air temperature; then for 30, 50, 65, 80 and 90 % dew point and wet bulb, C, at 101,325 Pa:
/// psychrolib 2.5.0 (a general-purpose library after ASHRAE Handbook Fundamentals 2017, chapter
/// 1), by running it. Below freezing it gives a frost point where the Magnus form gives a dew
/// point over water, so that only dew points above freezing are held against it.
type Moist = (f64, [f64; 5], [f64; 5]);
const MOIST: [Moist; 7] = [
    (
        5.0,
        [-9.920, -4.033, -0.905, 1.841, 3.498],
        [-0.575, 1.354, 2.489, 3.588, 4.302],
    ),
    (
        10.0,
        [-6.010, 0.063, 3.731, 6.713, 8.437],
        [3.561, 5.536, 6.943, 8.290, 9.157],
    ),
    (
        15.0,
        [-2.141, 4.672, 8.482, 11.582, 13.374],
        [7.242, 9.672, 11.375, 12.985, 14.010],
    ),
    (
        20.0,
        [1.914, 9.272, 13.227, 16.447, 18.310],
        [10.853, 13.783, 15.800, 17.679, 18.864],
    ),
    (
        25.0,
        [6.238, 13.864, 17.967, 21.309, 23.244],
        [14.422, 17.889, 20.229, 22.380, 23.722],
    ),
    (
        30.0,
        [10.548, 18.447, 22.701, 26.169, 28.177],
        [17.972, 22.005, 24.672, 27.091, 28.586],
    ),
    (
        35.0,
        [14.844, 23.020, 27.429, 31.025, 33.108],
        [21.524, 26.141, 29.134, 31.814, 33.457],
    ),
];

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

/// Hours to a stage by temperature, C, as makers' data sheets print them: the sheet's letter, the
/// stage, the temperature the sheet calls normal, and its rows. Nine products, one a clear wood
/// varnish (H), the rest alkyds, mostly pigmented and on steel.
type Sheet = (&'static str, &'static str, f64, &'static [(f64, f64)]);
const SHEETS: &[Sheet] = &[
    (
        "H",
        "touch",
        25.0,
        &[(5.0, 4.0), (10.0, 3.5), (25.0, 2.0), (35.0, 1.0)],
    ),
    (
        "H",
        "hard",
        25.0,
        &[(5.0, 24.0), (10.0, 17.0), (25.0, 6.0), (35.0, 4.0)],
    ),
    (
        "H",
        "recoat",
        25.0,
        &[(5.0, 24.0), (10.0, 22.0), (25.0, 16.0), (35.0, 12.0)],
    ),
    (
        "G",
        "touch",
        25.0,
        &[(10.0, 14.0), (15.0, 10.0), (25.0, 6.0), (40.0, 4.0)],
    ),
    (
        "G",
        "hard",
        25.0,
        &[(10.0, 48.0), (15.0, 36.0), (25.0, 24.0), (40.0, 8.0)],
    ),
    (
        "G",
        "recoat",
        25.0,
        &[(10.0, 24.0), (15.0, 24.0), (25.0, 24.0), (40.0, 14.0)],
    ),
    (
        "V",
        "touch",
        25.0,
        &[(10.0, 6.0), (15.0, 4.0), (25.0, 2.0), (35.0, 1.0)],
    ),
    (
        "V",
        "hard",
        25.0,
        &[(10.0, 14.0), (15.0, 11.0), (25.0, 8.0), (35.0, 6.0)],
    ),
    (
        "V",
        "recoat",
        25.0,
        &[(10.0, 32.0), (15.0, 29.0), (25.0, 24.0), (35.0, 16.0)],
    ),
    (
        "I",
        "touch",
        25.0,
        &[(5.0, 0.5), (15.0, 0.42), (25.0, 0.33), (40.0, 0.17)],
    ),
    (
        "I",
        "hard",
        25.0,
        &[(5.0, 2.0), (15.0, 1.75), (25.0, 1.5), (40.0, 1.0)],
    ),
    (
        "I",
        "recoat",
        25.0,
        &[(5.0, 4.0), (15.0, 4.0), (25.0, 4.0), (40.0, 2.0)],
    ),
    (
        "R",
        "dust",
        23.0,
        &[(10.0, 0.67), (23.0, 0.25), (35.0, 0.17)],
    ),
    ("R", "touch", 23.0, &[(10.0, 3.0), (23.0, 1.5), (35.0, 1.0)]),
    (
        "R",
        "recoat",
        23.0,
        &[(10.0, 288.0), (23.0, 144.0), (35.0, 96.0)],
    ),
    (
        "W",
        "touch",
        23.0,
        &[(10.0, 12.0), (23.0, 6.0), (35.0, 3.0)],
    ),
    (
        "W",
        "dust",
        23.0,
        &[(10.0, 0.5), (23.0, 0.33), (35.0, 0.17)],
    ),
    (
        "W",
        "recoat",
        23.0,
        &[(10.0, 336.0), (23.0, 168.0), (35.0, 168.0)],
    ),
    (
        "X",
        "touch",
        23.0,
        &[(10.0, 10.0), (23.0, 5.0), (40.0, 3.0)],
    ),
    (
        "X",
        "hard",
        23.0,
        &[(10.0, 30.0), (23.0, 15.0), (40.0, 9.0)],
    ),
    (
        "P",
        "touch",
        25.0,
        &[(10.0, 0.75), (15.0, 0.67), (25.0, 0.5), (35.0, 0.5)],
    ),
    (
        "P",
        "hard",
        25.0,
        &[(10.0, 30.0), (15.0, 30.0), (25.0, 29.0), (35.0, 24.0)],
    ),
    (
        "P",
        "recoat",
        25.0,
        &[(10.0, 48.0), (15.0, 36.0), (25.0, 24.0), (35.0, 24.0)],
    ),
    (
        "II",
        "dust",
        23.0,
        &[(10.0, 0.67), (23.0, 0.25), (35.0, 0.17)],
    ),
    (
        "II",
        "touch",
        23.0,
        &[(10.0, 5.0), (23.0, 1.5), (35.0, 0.75)],
    ),
    (
        "II",
        "recoat",
        23.0,
        &[(10.0, 1.5), (23.0, 0.5), (35.0, 0.33)],
    ),
];

/// The figures of the sheets that are longer than the law's time from the sheet's own normal
/// figure: sheet, stage, temperature.
fn longer_than(care: Care) -> (usize, Vec<String>) {
    let (mut rows, mut longer) = (0, Vec::new());
    for (sheet, stage, normal, figures) in SHEETS {
        let mut product = product(OIL);
        product.label.min_temp = Temperature::from_c(0.0);
        let law =
            ModelSettings::default().law(OIL, &product.label, Temperature::from_c(*normal), care);
        let at = |c: f64| {
            figures
                .iter()
                .find(|row| (row.0 - c).abs() < 0.01)
                .expect("the normal row")
                .1
        };
        for (c, hours) in figures.iter().filter(|row| (row.0 - normal).abs() > 0.01) {
            rows += 1;
            let air = air(*c, 50.0);
            let ours = at(*normal) / law.speed(air.temperature, air.humidity);
            if ours < *hours {
                longer.push(format!(
                    "{sheet} {stage} {c} C: {hours} h, by the law {ours:.2} h"
                ));
            }
        }
    }
    (rows, longer)
}

#[test]
fn safe_times_are_not_shorter_than_published_temperature_tables_but_for_five_rows() {
    let (rows, longer) = longer_than(Care::Safe);
    assert_eq!(rows, 67);
    // 62 of 67 hold. The law doubles the time for each 10 C (50 kJ/mol), a cautious rule and no
    // bound: these five pigmented alkyds on steel slow down more than that in the cold, by 3 to
    // 31 per cent. The two dust figures are one table printed twice, and label
    // times this short are rounded.
    assert_eq!(
        longer,
        [
            "V touch 10 C: 6 h, by the law 5.82 h",
            "R dust 10 C: 0.67 h, by the law 0.64 h",
            "II dust 10 C: 0.67 h, by the law 0.64 h",
            "II touch 10 C: 5 h, by the law 3.81 h",
            "II recoat 10 C: 1.5 h, by the law 1.27 h",
        ]
    );
    // The one clear wood varnish holds in every row, and the strict setting in all of them.
    assert!(longer.iter().all(|row| !row.starts_with("H ")));
    assert_eq!(longer_than(Care::Strict).1, Vec::<String>::new());
}

#[test]
fn the_likely_time_lies_amid_the_published_tables() {
    // On the cold side, 10 C against the sheet's normal: 35 kJ/mol is the middle of the tables, so
    // that both more and less than a quarter of the rows are slower.
    let (rows, longer) = longer_than(Care::Likely);
    assert!(
        longer.len() * 5 > rows && longer.len() * 2 < rows,
        "{} of {rows}",
        longer.len()
    );
}
