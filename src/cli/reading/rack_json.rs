//! The Rack's fields in JSON.

use super::{PieceJson, moment, rounded};
use crate::coating::{AirBasis, Recoat};
use crate::desk::Shop;
use crate::shop::Film;
use chrono::{DateTime, Utc};
use serde::Serialize;

/// The whole Rack.
#[derive(Serialize)]
pub(super) struct RackJson {
    pub(super) now: String,
    pub(super) basis: &'static str,
    pub(super) line: String,
    pub(super) rows: Vec<RowJson>,
}

/// One piece.
#[derive(Serialize)]
pub(super) struct RowJson {
    #[serde(flatten)]
    pub(super) piece: PieceJson,
    pub(super) state: &'static str,
    pub(super) coat_kind: Option<&'static str>,
    pub(super) coat_no: Option<u8>,
    pub(super) tack_free_at: Option<String>,
    pub(super) recoat_at: Option<String>,
    pub(super) window_shuts_at: Option<String>,
    pub(super) full_cure_at: Option<String>,
    pub(super) waits_for: String,
    pub(super) until: Option<String>,
    pub(super) film: Option<FilmJson>,
}

/// One film.
#[derive(Serialize)]
pub(super) struct FilmJson {
    product: String,
    laid_at: String,
    stage: &'static str,
    stages: Vec<StageJson>,
    window: WindowJson,
    abrade_with: String,
    label_hours: f64,
    label_hours_asked: f64,
    film_factor: f64,
    speed: f64,
    slow: String,
    costliest: Option<CostJson>,
    air_basis: &'static str,
    temperature_c: Option<f64>,
    humidity_percent: Option<f64>,
    learned_factor: f64,
    learned_tests: usize,
    tested: Option<&'static str>,
    tested_at: Option<String>,
    test_again_at: Option<String>,
}

#[derive(Serialize)]
struct StageJson {
    stage: &'static str,
    safe_at: Option<String>,
    likely_at: Option<String>,
    in_sight: bool,
    reached: bool,
}

/// The stretch that cost a film most.
#[derive(Serialize)]
struct CostJson {
    from: String,
    until: String,
    label_hours_lost: f64,
}

#[derive(Serialize)]
struct WindowJson {
    state: &'static str,
    shuts_at: Option<String>,
    scuff: bool,
    words: String,
}

impl FilmJson {
    pub(super) fn of(film: &Film, shop: &Shop, now: DateTime<Utc>) -> Self {
        let (settings, zone) = (&shop.settings, shop.settings.zone);
        let air = film.speed.air;
        Self {
            product: shop
                .product(film.product)
                .map_or_else(String::new, |product| product.name.clone()),
            laid_at: moment(film.laid),
            stage: film.stage.code(),
            stages: film
                .milestones
                .iter()
                .map(|milestone| StageJson {
                    stage: milestone.stage.code(),
                    safe_at: milestone.in_sight.then(|| moment(milestone.times.safe)),
                    likely_at: milestone.in_sight.then(|| moment(milestone.times.likely)),
                    in_sight: milestone.in_sight,
                    reached: milestone.times.safe <= now,
                })
                .collect(),
            window: WindowJson {
                state: match film.window.state {
                    Recoat::Wait { .. } => "wait",
                    Recoat::Open { .. } => "open",
                    Recoat::Lifts { .. } => "lifts",
                    Recoat::Missed { .. } => "missed",
                },
                shuts_at: film.window.shuts.map(moment),
                scuff: film.window.label.scuff,
                words: film.window_words(now, zone),
            },
            abrade_with: film.abrades_with.words(),
            label_hours: rounded(film.had),
            label_hours_asked: rounded(film.asked),
            film_factor: rounded(film.thickness),
            speed: rounded(film.speed.speed),
            slow: film.slow_words(now, zone, settings.temperature),
            costliest: film.cost.map(|cost| CostJson {
                from: moment(cost.from),
                until: moment(cost.until),
                label_hours_lost: rounded(cost.lost),
            }),
            air_basis: match film.speed.basis {
                AirBasis::Read { .. } => "read",
                AirBasis::Usual { .. } => "usual",
                AirBasis::Forecast => "forecast",
                AirBasis::Assumed => "assumed",
            },
            temperature_c: air.map(|air| rounded(air.temperature.c())),
            humidity_percent: air.map(|air| air.humidity.percent()),
            learned_factor: rounded(film.learned.cautious()),
            learned_tests: film.learned.tests,
            tested: film.touch.map(|(_, verdict)| verdict.code()),
            tested_at: film.touch.map(|(at, _)| moment(at)),
            test_again_at: film.look_again.map(moment),
        }
    }
}
