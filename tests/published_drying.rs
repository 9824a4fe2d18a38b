//! Drying, dew point and wet bulb against published figures. Each number stands beside its source;
//! what was computed here from a published formula says so.
#![allow(
    clippy::expect_used,
    reason = "a test may stop where its own setting is wrong"
)]

#[path = "published_drying/moist_air.rs"]
mod moist_air;
#[path = "published_drying/sheets.rs"]
mod sheets;

use chrono::{DateTime, Duration, TimeZone, Utc};
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::families::{usual_figures, usual_kind};
use tackfree::coating::psychro::saturation_hpa;
use tackfree::coating::{
    AirLog, AirReading, Assumed, Care, DryingLaw, Family, ModelSettings, Product, ProductId,
    ShopAir, ShopAirClock, Span, film_factor,
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
    settings.law(family, &product.label, care)
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
