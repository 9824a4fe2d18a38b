//! The last readings of the shop's air, its usual day and the forecast.

use super::{moment, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::{AirBasis, ShopAir};
use crate::desk::{AirSource, Books, Shop, show_air};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::units::counted;
use crate::units::show_moment;
use chrono::{DateTime, Utc};
use serde::Serialize;

#[derive(Serialize)]
struct AirJson {
    now: String,
    basis: &'static str,
    temperature_c: Option<f64>,
    humidity_percent: Option<f64>,
    readings: Vec<ReadingJson>,
    usual: Vec<HourJson>,
    usual_days: u16,
    forecast: Vec<StepJson>,
}

#[derive(Serialize)]
struct ReadingJson {
    at: String,
    temperature_c: f64,
    humidity_percent: f64,
    source: &'static str,
}

#[derive(Serialize)]
struct HourJson {
    hour: usize,
    temperature_c: f64,
    humidity_percent: f64,
}

#[derive(Serialize)]
struct StepJson {
    from: String,
    until: String,
    temperature_c: f64,
    humidity_percent: f64,
}

fn figures(air: ShopAir) -> (f64, f64) {
    (rounded(air.temperature.c()), air.humidity.percent())
}

/// How the air of this moment is known: the word in JSON, and a sentence's part.
fn basis_words(basis: AirBasis, at: impl Fn(DateTime<Utc>) -> String) -> (&'static str, String) {
    match basis {
        AirBasis::Read { at: read } => ("read", format!("read {}", at(read))),
        AirBasis::Usual { last, days } => (
            "usual",
            format!(
                "the usual air of this hour from {}, since the last reading is of {}",
                counted(usize::from(days), "day", "days"),
                at(last)
            ),
        ),
        AirBasis::Forecast => ("forecast", "as foretold".to_owned()),
        AirBasis::Assumed => ("assumed", "assumed, no reading so far".to_owned()),
    }
}

/// Reads it.
pub fn run(shop: &Shop, lines: usize, session: &Session<'_>) -> Result<Answer, Failure> {
    let (now, zone, settings) = (session.now, shop.settings.zone, &shop.settings);
    let at = |at| show_moment(at, now, zone);
    let (air, basis) = shop.clock().air_at(now);
    let (word, known) = basis_words(basis, at);
    let mut text = vec![match air {
        Some(air) => format!("AIR now {}: {known}", show_air(air, settings)),
        None => "AIR: no reading so far, so the label's conditions are assumed".to_owned(),
    }];
    let readings = session.store.air_newest(lines)?;
    if !readings.is_empty() {
        text.extend([String::new(), "Readings, newest first".to_owned()]);
        let mut columns = Columns::default();
        for row in &readings {
            let source = match row.source {
                AirSource::Typed => "",
                AirSource::Logger => "logger",
            };
            let shown = show_air(row.reading.air, settings);
            columns.row([at(row.reading.at).as_str(), &shown, source]);
        }
        text.extend(columns.lines(2, PAPER_WIDTH));
    }
    let usual = shop.air.usual(now);
    if let Some(usual) = &usual {
        text.extend([
            String::new(),
            format!(
                "Usual day, from {}",
                counted(usize::from(usual.days()), "day", "days")
            ),
        ]);
        let mut columns = Columns::default();
        for hour in (0..24).step_by(3) {
            let name = format!("{hour}:00");
            columns.row([name.as_str(), &show_air(usual.hour(hour), settings)]);
        }
        text.extend(columns.lines(2, PAPER_WIDTH));
    }
    let steps = shop.forecast.steps();
    let ahead: Vec<_> = steps.iter().filter(|step| step.until > now).collect();
    if !ahead.is_empty() {
        text.extend([String::new(), "Forecast".to_owned()]);
        text.extend(ahead.iter().map(|step| {
            let shown = show_air(step.air, settings);
            format!("  {} to {}: {shown}", at(step.from), at(step.until))
        }));
    }
    let json = AirJson {
        now: moment(now),
        basis: word,
        temperature_c: air.map(|air| figures(air).0),
        humidity_percent: air.map(|air| figures(air).1),
        readings: readings
            .iter()
            .map(|row| {
                let (temperature_c, humidity_percent) = figures(row.reading.air);
                ReadingJson {
                    at: moment(row.reading.at),
                    temperature_c,
                    humidity_percent,
                    source: row.source.word(),
                }
            })
            .collect(),
        usual: usual
            .iter()
            .flat_map(|usual| usual.hours().iter().enumerate())
            .map(|(hour, air)| {
                let (temperature_c, humidity_percent) = figures(*air);
                HourJson {
                    hour,
                    temperature_c,
                    humidity_percent,
                }
            })
            .collect(),
        usual_days: usual.as_ref().map_or(0, |usual| usual.days()),
        forecast: ahead
            .iter()
            .map(|step| {
                let (temperature_c, humidity_percent) = figures(step.air);
                StepJson {
                    from: moment(step.from),
                    until: moment(step.until),
                    temperature_c,
                    humidity_percent,
                }
            })
            .collect(),
    };
    Answer::new(text, json)
}
