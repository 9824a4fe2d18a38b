//! Readings place by place, the curve of each, and the moisture content that counts as today's.

use crate::wood::moisture::{
    Acclimation, AcclimationError, Emc, Meter, MoistureContent, Reading, ReadyRule, SeasonBand,
    fit_acclimation, whole_days,
};
use chrono::{DateTime, Utc};

/// What today's moisture content rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TodayBasis {
    /// The newest reading of so many places, averaged; the newest of all was taken then.
    Read {
        /// How many places.
        places: usize,
        /// Places that were last read too long before the newest reading to count.
        left_out: usize,
        /// The newest reading.
        last: DateTime<Utc>,
    },
    /// Nothing was read: what the shop's air would hold it at.
    ShopAir,
    /// Nothing was read and no air is known: the middle of the year at the client's.
    MidYear,
}

/// The moisture content that counts as today's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Today {
    /// The moisture content.
    pub content: MoistureContent,
    /// What it rests on.
    pub basis: TodayBasis,
}

impl Today {
    pub(super) fn of(
        readings: &[Reading],
        rule: &ReadyRule,
        held: Option<&Emc>,
        band: &SeasonBand,
    ) -> Self {
        let Some(last) = readings.iter().map(|reading| reading.at).max() else {
            return match held {
                Some(emc) => Self {
                    content: emc.content,
                    basis: TodayBasis::ShopAir,
                },
                None => Self {
                    content: band.midpoint(),
                    basis: TodayBasis::MidYear,
                },
            };
        };
        let fresh = i64::from(rule.fresh_days);
        let (newest, old): (Vec<&Reading>, Vec<&Reading>) = by_place(readings)
            .into_iter()
            .filter_map(|(_, mut of)| of.pop())
            .partition(|reading| whole_days(last - reading.at) <= fresh);
        let sum: f64 = newest
            .iter()
            .map(|reading| reading.content().percent())
            .sum();
        #[allow(clippy::cast_precision_loss)] // nobody reads a top at 2^52 places
        let mean = sum / newest.len().max(1) as f64;
        let basis = TodayBasis::Read {
            places: newest.len(),
            left_out: old.len(),
            last,
        };
        let content = MoistureContent::from_percent(mean).unwrap_or(band.midpoint());
        Self { content, basis }
    }
}

/// The readings of one place with one meter, and the curve through them.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceCurve {
    /// The place.
    pub place: String,
    /// The meter.
    pub meter: Meter,
    /// Its readings, in order of time.
    pub readings: Vec<Reading>,
    /// The curve toward what the shop's air holds wood at; none while that air is not known.
    pub curve: Option<Result<Acclimation, AcclimationError>>,
}

type Place = (String, Meter);

/// Readings of each place with each meter, in order of time; places in the order they were first
/// read.
fn by_place(readings: &[Reading]) -> Vec<(Place, Vec<&Reading>)> {
    let mut sorted: Vec<&Reading> = readings.iter().collect();
    sorted.sort_by_key(|reading| reading.at);
    let mut out: Vec<(Place, Vec<&Reading>)> = Vec::new();
    for reading in sorted {
        let key = (reading.place.trim().to_lowercase(), reading.meter);
        match out.iter_mut().find(|(known, _)| *known == key) {
            Some((_, of)) => of.push(reading),
            None => out.push((key, vec![reading])),
        }
    }
    out
}

pub(super) fn curves(readings: &[Reading], held: Option<&Emc>) -> Vec<PlaceCurve> {
    by_place(readings)
        .into_iter()
        .map(|((_, meter), of)| {
            let readings: Vec<Reading> = of.into_iter().cloned().collect();
            let place = readings
                .last()
                .map_or_else(String::new, |reading| reading.place.trim().to_owned());
            let curve = held.map(|emc| fit_acclimation(&readings, emc.content));
            PlaceCurve {
                place,
                meter,
                readings,
                curve,
            }
        })
        .collect()
}
