//! How long the drying clock takes over a log of twenty years, against a scan from the start.
//!
//! `cargo bench --bench drying`: prints a table; nothing here passes or fails.

use chrono::{DateTime, Duration, TimeZone, Utc};
use std::collections::HashMap;
use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;
use tackfree::coating::families::{usual_figures, usual_kind};
use tackfree::coating::{
    AirLog, AirReading, Assumed, DryingLaw, Family, ModelSettings, Product, ProductId, ShopAir,
    ShopAirClock, Span,
};
use tackfree::units::{Humidity, Money, Temperature, Volume};

fn rows(from: DateTime<Utc>, step: i64, count: i64) -> Vec<AirReading> {
    (0..count)
        .map(|row| {
            let hour = (row * step) as f64 / 60.0;
            let c = 17.0 + 6.0 * (hour * std::f64::consts::TAU / 24.0).sin();
            let percent = 55.0 + 25.0 * (hour * 0.0154).sin();
            AirReading {
                at: from + Duration::minutes(row * step),
                air: ShopAir {
                    temperature: Temperature::from_c(c),
                    humidity: Humidity::from_percent(percent).unwrap_or(NORMAL),
                },
            }
        })
        .collect()
}

const NORMAL: Humidity = match Humidity::from_tenths(500) {
    Some(normal) => normal,
    None => panic!("500 tenths are 50 %"),
};

fn scan(rows: &[AirReading], law: DryingLaw, from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
    let mut hours = 0.0;
    for pair in rows.windows(2) {
        let (start, end) = (pair[0].at.max(from), pair[1].at.min(to));
        if end > start {
            let speed = law.speed(pair[0].air.temperature, pair[0].air.humidity);
            hours += speed * (end - start).num_seconds() as f64 / 3600.0;
        }
    }
    hours
}

/// Microseconds of one run, over `times` runs.
fn micros(times: u32, mut run: impl FnMut(u32)) -> f64 {
    let start = Instant::now();
    for turn in 0..times {
        run(turn);
    }
    start.elapsed().as_secs_f64() * 1e6 / f64::from(times)
}

fn main() {
    let Some(from) = Utc.with_ymd_and_hms(2006, 11, 1, 0, 0, 0).single() else {
        return;
    };
    for (name, step, count) in [
        ("every 10 minutes, 20 years", 10, 1_051_920),
        ("every 13 hours, 20 years", 780, 13_485),
    ] {
        let rows = rows(from, step, count);
        let family = Family::OilBrushingVarnish;
        let product = Product {
            id: ProductId(uuid::Uuid::nil()),
            name: family.word().to_owned(),
            kind: usual_kind(family),
            family,
            label: usual_figures(family),
            can: Volume::from_ul(946_353),
            price: Money::from_cents(2_500),
        };
        let mut log = AirLog::new(chrono_tz::America::New_York, Assumed::LabelConditions);
        let load = micros(1, |_| {
            log.merge(rows.iter().copied());
        });
        let settings = ModelSettings::default();
        let none = Arc::new(HashMap::new());
        let clock = ShopAirClock::new(Arc::new(log), settings, Arc::clone(&none));
        let law = clock.law(&product);
        let end = rows.last().map_or(from, |row| row.at);
        let day = |turn: u32| end - Duration::days(3) - Duration::minutes(i64::from(turn) * 37);
        println!("{name} ({} rows)", rows.len());
        let line = |what: &str, micros: f64| println!("  {what:<52}{micros:>14.1} us");
        line("put in, all at once", load);
        let first = micros(1, |_| {
            black_box(clock.reach(&product, day(0), Span::days(30)));
        });
        line("first question: full cure of a coat 3 days old", first);
        let recoat = micros(2_000, |turn| {
            black_box(clock.reach(&product, day(turn % 200), Span::hours(8)));
        });
        line("dry to recoat", recoat);
        let cure = micros(2_000, |turn| {
            black_box(clock.reach(&product, day(turn % 200), Span::days(30)));
        });
        line("full cure, 30 label-days", cure);
        let whole = micros(1, |_| {
            black_box(clock.label_hours(&product, from, end));
        });
        line("all twenty years, first time", whole);
        let whole = micros(50, |_| {
            black_box(clock.label_hours(&product, from, end));
        });
        line("all twenty years, again", whole);
        let naive = micros(3, |turn| {
            black_box(scan(&rows, law, day(turn), end));
        });
        line("yardstick: a scan from the start", naive);
        let mut log = AirLog::clone(clock.log());
        let append = micros(1_000, |turn| {
            let at = end + Duration::minutes(i64::from(turn) + 1);
            let air = rows[0].air;
            black_box(log.insert(AirReading { at, air }));
        });
        line("one more reading at the end", append);
        let early = micros(20, |turn| {
            let at = from + Duration::seconds(i64::from(turn) + 1);
            let air = rows[0].air;
            black_box(log.insert(AirReading { at, air }));
        });
        line("one more reading at the start", early);
    }
}
