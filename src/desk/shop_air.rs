//! What the drying clock needs of the store: as much of the air log as the open work asks for, and
//! what touch tests have taught.
//!
//! A log may hold a million readings. Read are only: the weeks up to now that the usual air is
//! learned from; for each coat of an unfinished piece that is older, the time in which it dries;
//! for each touch test that counts, the time its coat had had. Where these have a pause in which
//! the usual air stands in, also the weeks before the pause. Each is a walk along the log's own
//! order from its start, so that the cost follows what dries, not how long the shop has logged.

use super::air_rows::{AirSpan, DryingRules, PassedOver, TouchRecord, spread_of};
use super::books::{Books, BooksError};
use crate::coating::{
    AirLog, AirReading, Forecast, LEARNS_FROM, ModelSettings, Product, ProductId, ShopAirClock,
    TouchTest, Tuning, air_log::HOLDS, film_factor, learn,
};
use crate::shop::{Films, Pass, PassId, PieceFile, Ticket, What};
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// How far back the air is read whatever dries, in days: the four weeks of the usual air, and one
/// to look at.
const RECENT: i64 = 35;
/// How long the air is followed for one older coat, in days: past a winter in which it did not
/// dry at all. After that the usual air stands in.
const FOLLOWS: i64 = 200;
/// The newest touch tests of a product that count. More would hardly move the factor (their
/// scatter is a tenth, so sixty leave about one in a hundred), and a shop changes.
pub const NEWEST_TESTS: usize = 60;

/// Everything the clock reckons with.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ForClock {
    pub(super) air: Arc<AirLog>,
    pub(super) rules: DryingRules,
    pub(super) forecast: Arc<Forecast>,
    pub(super) tuning: Arc<HashMap<ProductId, Tuning>>,
    pub(super) films: Arc<Films>,
    pub(super) passed_over: Arc<HashMap<ProductId, PassedOver>>,
}

impl ForClock {
    /// Reads it for these pieces.
    pub(super) fn read(
        books: &dyn Books,
        (files, passes): (&[PieceFile], &[Pass]),
        products: &[Product],
        zone: Tz,
    ) -> Result<Self, BooksError> {
        let rules = books.drying_rules()?;
        let mut passed_over = HashMap::new();
        let tests = tests(books, &mut passed_over)?;
        let mut spans: Vec<(DateTime<Utc>, Option<DateTime<Utc>>)> = Vec::new();
        if let Some(last) = books.air_newest(1)?.first() {
            spans.push((back(last.reading.at, RECENT), None));
            // What dries within these weeks needs no span of its own.
            let older = |laid: &DateTime<Utc>| *laid < back(last.reading.at, RECENT);
            let coats = drying(files).into_iter().filter(older);
            spans
                .extend(coats.map(|laid| (laid, laid.checked_add_signed(Duration::days(FOLLOWS)))));
            spans.extend(
                tests
                    .iter()
                    .flatten()
                    .filter(|test| older(&test.laid))
                    .map(|test| (test.laid, Some(test.at))),
            );
        }
        let mut air = AirLog::new(zone, rules.assumed);
        air.merge(readings(books, &spans)?);
        let air = Arc::new(air);
        let forecast = Forecast::new(books.forecast()?).unwrap_or_default();
        let tuning = Arc::new(tuning(&air, rules.law, products, &tests, &mut passed_over));
        Ok(Self {
            air,
            rules,
            forecast: Arc::new(forecast),
            tuning,
            films: Arc::new(films(files, passes, products)),
            passed_over: Arc::new(passed_over),
        })
    }
}

/// A moment so many days before another; before the calendar, its start.
fn back(at: DateTime<Utc>, days: i64) -> DateTime<Utc> {
    at.checked_sub_signed(Duration::days(days))
        .unwrap_or(DateTime::<Utc>::MIN_UTC)
}

/// From when the last coats (or wipe-downs) of unfinished pieces dry.
fn drying(files: &[PieceFile]) -> HashSet<DateTime<Utc>> {
    let open = files.iter().filter(|file| !file.piece.finished);
    open.flat_map(|file| {
        let faces = Ticket::of(file).faces;
        faces.into_iter().filter_map(|face| match face.last_coat() {
            Some(coat) => Some(coat.dries_from()),
            None => face.wiped,
        })
    })
    .collect()
}

/// The readings of these spans, each with the reading that holds at its start, and what the usual
/// air of their pauses is learned from.
fn readings(
    books: &dyn Books,
    spans: &[(DateTime<Utc>, Option<DateTime<Utc>>)],
) -> Result<Vec<AirReading>, BooksError> {
    let mut wanted = Vec::new();
    for (from, to) in spans {
        let held = books.air_before(*from)?.map_or(*from, |row| row.reading.at);
        wanted.push(AirSpan {
            from: held,
            to: *to,
        });
    }
    let wanted = joined(wanted);
    let mut rows = Vec::new();
    let mut pauses = Vec::new();
    for span in &wanted {
        let found = books.air(*span)?;
        let times = found.iter().map(|row| row.reading.at);
        let next = times.clone().skip(1).map(Some).chain([span.to]);
        for (at, until) in times.zip(next) {
            // What follows the last reading of all is foretold by the usual air too.
            let held = until.is_some_and(|until| (until - at).num_seconds() <= HOLDS);
            if !held {
                pauses.push(at);
            }
        }
        rows.extend(found.into_iter().map(|row| row.reading));
    }
    let learned = Duration::seconds(LEARNS_FROM + HOLDS);
    let before = pauses.into_iter().map(|at| AirSpan {
        from: at
            .checked_sub_signed(learned)
            .unwrap_or(DateTime::<Utc>::MIN_UTC),
        to: Some(at),
    });
    for span in joined(before.collect()) {
        rows.extend(books.air(span)?.into_iter().map(|row| row.reading));
    }
    Ok(rows)
}

/// Spans in order, those that touch put together.
fn joined(mut spans: Vec<AirSpan>) -> Vec<AirSpan> {
    spans.sort_by_key(|span| span.from);
    let mut out: Vec<AirSpan> = Vec::new();
    for span in spans {
        match out.last_mut() {
            Some(last) if last.to.is_none_or(|to| span.from <= to) => {
                last.to = match (last.to, span.to) {
                    (Some(one), Some(other)) => Some(one.max(other)),
                    _ => None,
                };
            }
            _ => out.push(span),
        }
    }
    out
}

/// The tests that count, per product, in the order in which they were made: the newest since the
/// learning was reset, one for each pass and moment however many pieces it went over. Tests from
/// before the first reading of a shop that does log its air are left out: what they were made in
/// is not known, and the log now says what they would have been taken for.
fn tests(
    books: &dyn Books,
    passed_over: &mut HashMap<ProductId, PassedOver>,
) -> Result<Vec<Vec<TouchRecord>>, BooksError> {
    let (afresh, first) = (books.afresh()?, books.air_first()?);
    let mut out = Vec::new();
    for product in books.tested_products()? {
        let after = afresh.get(&product).copied();
        let mut seen = HashSet::new();
        // A pass goes over a few pieces, each with a line of its own.
        let mut newest = books.touch_tests(product, after, 4 * NEWEST_TESTS)?;
        newest.retain(|test| seen.insert((test.pass, test.at, test.verdict)));
        let all = newest.len();
        newest.retain(|test| first.is_none_or(|first| test.laid >= first));
        if newest.len() < all {
            let over: &mut PassedOver = passed_over.entry(product).or_default();
            over.before_air = all - newest.len();
        }
        newest.truncate(NEWEST_TESTS);
        newest.reverse();
        if !newest.is_empty() {
            out.push(newest);
        }
    }
    Ok(out)
}

/// What is known of each product beyond its label.
fn tuning(
    air: &Arc<AirLog>,
    law: ModelSettings,
    products: &[Product],
    tests: &[Vec<TouchRecord>],
    passed_over: &mut HashMap<ProductId, PassedOver>,
) -> HashMap<ProductId, Tuning> {
    let mut tuning: HashMap<ProductId, Tuning> = products
        .iter()
        .map(|product| (product.id, Tuning::default()))
        .collect();
    // Without learned factors: tests are weighed by the law alone.
    let clock = ShopAirClock::new(Arc::clone(air), law, Arc::new(tuning.clone()));
    for tests in tests {
        let Some(first) = tests.first() else { continue };
        let Some(product) = products.iter().find(|known| known.id == first.product) else {
            continue;
        };
        let seen = |clock: &ShopAirClock| -> Vec<TouchTest> {
            tests
                .iter()
                .filter_map(|test| {
                    let k = test.spread.map_or(1.0, |spread| {
                        film_factor(product.family, product.label.spread, spread)
                    });
                    let (coat, stage) = (test.pass.0.as_u128(), test.stage());
                    clock
                        .with_film(k)
                        .observe(product, coat, test.laid, test.at, stage)
                })
                .collect()
        };
        if let Some(known) = tuning.get_mut(&product.id) {
            let safe = seen(&clock.safe());
            known.safe = learn(&safe);
            known.likely = learn(&seen(&clock.likely()));
            let silent = safe.iter().filter(|test| !test.counts()).count();
            if silent > 0 {
                passed_over.entry(product.id).or_default().no_hours = silent;
            }
        }
    }
    tuning
}

/// Film factors of the passes that were measured or weighed and laid thicker than the label's
/// spread. A piece's share of a pass is by area, so one piece's line tells the spread of all.
fn films(files: &[PieceFile], passes: &[Pass], products: &[Product]) -> Films {
    let measured: HashMap<PassId, &Pass> = passes
        .iter()
        .filter(|pass| pass.amount.basis.is_measured())
        .map(|pass| (pass.id, pass))
        .collect();
    let mut thick = Films::new();
    for event in files.iter().flat_map(|file| &file.events) {
        let What::Coat {
            pass,
            product,
            kind,
            faces,
            used,
            ..
        } = &event.what
        else {
            continue;
        };
        // Stain is wiped off again: what was laid is not what dries.
        let Some(whole) = measured.get(pass).filter(|_| kind.is_film()) else {
            continue;
        };
        let Some(product) = products.iter().find(|known| known.id == *product) else {
            continue;
        };
        let um2: i64 = faces.iter().map(|(_, area)| area.um2()).sum();
        let area = crate::units::Area::from_um2(um2);
        let Some(spread) = spread_of(area, whole.on_wood_of(*used)) else {
            continue;
        };
        let k = film_factor(product.family, product.label.spread, spread);
        if k > 1.0 {
            thick.insert(*pass, k);
        }
    }
    thick
}
