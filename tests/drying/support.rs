//! Products, airs and logs for the tests of drying.

use chrono::{DateTime, Duration, TimeZone, Utc};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::families::{usual_figures, usual_kind};
use tackfree::coating::{
    AirLog, AirReading, Assumed, DryingLaw, Family, Found, ModelSettings, Product, ProductId,
    ShopAir, ShopAirClock, TouchTest, Tuning, learn,
};
use tackfree::units::{Humidity, Money, Temperature, Volume};

pub const ZONE: Tz = chrono_tz::America::New_York;

pub fn utc(year: i32, month: u32, day: u32, hour: u32, minute: u32) -> DateTime<Utc> {
    Utc.with_ymd_and_hms(year, month, day, hour, minute, 0)
        .single()
        .expect("a moment")
}

pub fn air(c: f64, percent: f64) -> ShopAir {
    ShopAir {
        temperature: Temperature::from_c(c),
        humidity: Humidity::from_percent(percent).expect("a humidity"),
    }
}

pub fn read(at: DateTime<Utc>, c: f64, percent: f64) -> AirReading {
    AirReading {
        at,
        air: air(c, percent),
    }
}

pub fn product(family: Family) -> Product {
    Product {
        id: ProductId(uuid::Uuid::nil()),
        name: family.word().to_owned(),
        kind: usual_kind(family),
        family,
        label: usual_figures(family),
        can: Volume::from_ul(946_353),
        price: Money::from_cents(2_500),
    }
}

pub fn log_of(readings: &[AirReading]) -> AirLog {
    let mut log = AirLog::new(ZONE, Assumed::LabelConditions);
    log.merge(readings.iter().copied());
    log
}

/// A clock of a shop whose touch tests have taught a factor of a product: by tests that bracket it.
pub fn taught(log: AirLog, product: &Product, factor: f64) -> ShopAirClock {
    let test = |coat, had, found| TouchTest {
        coat,
        asked: 8.0,
        had,
        found,
    };
    let tests: Vec<TouchTest> = (0..6)
        .flat_map(|coat| {
            [
                test(coat, 7.9 / factor, Found::Soft),
                test(coat, 8.1 / factor, Found::Dry),
            ]
        })
        .collect();
    let learned = learn(&tests);
    let tuning = Tuning {
        safe: learned,
        likely: learned,
    };
    let known = HashMap::from([(product.id, tuning)]);
    ShopAirClock::new(Arc::new(log), ModelSettings::default(), Arc::new(known))
}

pub fn clock(log: AirLog) -> ShopAirClock {
    ShopAirClock::new(
        Arc::new(log),
        ModelSettings::default(),
        Arc::new(HashMap::new()),
    )
}

/// Every ten minutes for so many days, warm by day, cool by night, damper in the wet spells.
pub fn dense(from: DateTime<Utc>, days: i64) -> Vec<AirReading> {
    (0..days * 144)
        .map(|step| {
            let hour = step as f64 / 6.0;
            let day = hour / 24.0;
            let c = 17.0
                + 6.0 * (hour * std::f64::consts::TAU / 24.0).sin()
                + 5.0 * (day * std::f64::consts::TAU / 365.0).sin();
            let percent = 55.0 + 25.0 * (day * 0.37).sin();
            read(from + Duration::minutes(step * 10), c, percent)
        })
        .collect()
}

/// Label-hours the slow way: the air of every minute, one after the other.
pub fn by_the_minute(log: &AirLog, law: DryingLaw, from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
    let minutes = (to - from).num_minutes();
    let speeds = (0..minutes).map(|minute| {
        let air = log.air_at(from + Duration::minutes(minute)).air;
        air.map_or(1.0, |air| law.speed(air.temperature, air.humidity))
    });
    speeds.sum::<f64>() / 60.0
}

/// Label-hours the slow way over a log without pauses: every row from the start.
pub fn by_the_row(
    rows: &[AirReading],
    law: DryingLaw,
    from: DateTime<Utc>,
    to: DateTime<Utc>,
) -> f64 {
    let mut hours = 0.0;
    for (row, next) in rows.iter().zip(rows.iter().skip(1).map(Some).chain([None])) {
        let start = row.at.max(from);
        let end = next.map_or(to, |next| next.at.min(to));
        if end > start {
            let speed = law.speed(row.air.temperature, row.air.humidity);
            hours += speed * (end - start).num_seconds() as f64 / 3600.0;
        }
    }
    hours
}

pub fn close(found: f64, expected: f64, what: &str) {
    let off = (found - expected).abs();
    assert!(
        off <= 1e-6 * expected.abs().max(1.0),
        "{what}: {found}, not {expected}"
    );
}
