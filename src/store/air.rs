//! The shop's air, the typed forecast, what is set about drying, and the way to touch tests.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use crate::coating::{AirReading, Assumed, Care, ForecastStep, ModelSettings, ProductId, ShopAir};
use crate::desk::{AirSpan, DryingRules, LoggedAir, TouchRecord, spread_of};
use crate::shop::EventId;
use crate::units::{Area, Temperature, Volume};
use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use std::collections::HashMap;

fn second(row: &mut Cells<'_>) -> Result<DateTime<Utc>, Fault> {
    let at: i64 = row.take()?;
    DateTime::from_timestamp(at, 0).ok_or_else(|| row.wrong(&"out of the calendar"))
}

fn shop_air(row: &mut Cells<'_>) -> Result<ShopAir, Fault> {
    let (mc, rh): (i32, i32) = (row.take()?, row.take()?);
    Ok(ShopAir {
        temperature: Temperature::from(mc),
        humidity: rh.try_into().map_err(|error| row.wrong(&error))?,
    })
}

fn logged(row: &mut Cells<'_>) -> Result<LoggedAir, Fault> {
    let (at, air) = (second(row)?, shop_air(row)?);
    Ok(LoggedAir {
        reading: AirReading { at, air },
        source: row.word()?,
    })
}

/// The readings of a span, in order: a walk along the table's own key, so that it costs what it
/// gives back, however long the log is.
pub(super) fn readings(conn: &Connection, span: AirSpan) -> Result<Vec<LoggedAir>, Fault> {
    let sql = "SELECT at, mc, rh, src FROM air WHERE at >= ?1 AND at <= ?2 ORDER BY at";
    let to = span.to.map_or(i64::MAX, |to| to.timestamp());
    all(conn, sql, [span.from.timestamp(), to], logged)
}

/// The last reading at or before a moment.
pub(super) fn before(conn: &Connection, at: DateTime<Utc>) -> Result<Option<LoggedAir>, Fault> {
    let sql = "SELECT at, mc, rh, src FROM air WHERE at <= ?1 ORDER BY at DESC LIMIT 1";
    Ok(all(conn, sql, [at.timestamp()], logged)?.into_iter().next())
}

/// The newest readings, newest first.
pub(super) fn newest(conn: &Connection, limit: usize) -> Result<Vec<LoggedAir>, Fault> {
    let sql = "SELECT at, mc, rh, src FROM air ORDER BY at DESC LIMIT ?1";
    all(
        conn,
        sql,
        [i64::try_from(limit).unwrap_or(i64::MAX)],
        logged,
    )
}

/// When the first reading was taken.
pub(super) fn first(conn: &Connection) -> Result<Option<DateTime<Utc>>, Fault> {
    let sql = "SELECT at FROM air ORDER BY at LIMIT 1";
    Ok(all(conn, sql, [], second)?.into_iter().next())
}

pub(super) fn put(conn: &Connection, air: &LoggedAir) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO air (at, mc, rh, src) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (at) DO UPDATE \
         SET mc = excluded.mc, rh = excluded.rh, src = excluded.src",
        params![
            air.reading.at.timestamp(),
            air.reading.air.temperature.milli_c(),
            air.reading.air.humidity.tenths(),
            air.source.word(),
        ],
    )?;
    Ok(())
}

pub(super) fn remove(conn: &Connection, at: DateTime<Utc>) -> Result<usize, Fault> {
    run(conn, "DELETE FROM air WHERE at = ?1", [at.timestamp()])
}

pub(super) fn forecast(conn: &Connection) -> Result<Vec<ForecastStep>, Fault> {
    let sql = "SELECT at, until, mc, rh FROM forecast ORDER BY at";
    all(conn, sql, [], |row| {
        Ok(ForecastStep {
            from: second(row)?,
            until: second(row)?,
            air: shop_air(row)?,
        })
    })
}

/// Puts a whole forecast in the place of the one there was.
pub(super) fn put_forecast(conn: &Connection, steps: &[ForecastStep]) -> Result<(), Fault> {
    run(conn, "DELETE FROM forecast", [])?;
    for step in steps {
        run(
            conn,
            "INSERT INTO forecast (at, until, mc, rh) VALUES (?1, ?2, ?3, ?4)",
            params![
                step.from.timestamp(),
                step.until.timestamp(),
                step.air.temperature.milli_c(),
                step.air.humidity.tenths(),
            ],
        )?;
    }
    Ok(())
}

pub(super) fn rules(conn: &Connection) -> Result<DryingRules, Fault> {
    let sql = "SELECT care, cap, oil_humidity, assumed_mc, assumed_rh FROM drying";
    let found = all(conn, sql, [], |row| {
        let law = ModelSettings {
            safe: row.word::<Care>()?,
            cap: row.take()?,
            oil_humidity: row.take()?,
        };
        let (mc, rh): (Option<i32>, Option<i32>) = (row.take()?, row.take()?);
        let assumed = match (mc, rh) {
            (Some(mc), Some(rh)) => Assumed::Air(ShopAir {
                temperature: Temperature::from(mc),
                humidity: rh.try_into().map_err(|error| row.wrong(&error))?,
            }),
            _ => Assumed::LabelConditions,
        };
        Ok(DryingRules { law, assumed })
    })?;
    Ok(found.into_iter().next().unwrap_or_default())
}

pub(super) fn put_rules(conn: &Connection, rules: &DryingRules) -> Result<(), Fault> {
    let assumed = match rules.assumed {
        Assumed::LabelConditions => None,
        Assumed::Air(air) => Some(air),
    };
    run(
        conn,
        "INSERT INTO drying (one, care, cap, oil_humidity, assumed_mc, assumed_rh) \
         VALUES (1, ?1, ?2, ?3, ?4, ?5) ON CONFLICT (one) DO UPDATE SET care = excluded.care, \
         cap = excluded.cap, oil_humidity = excluded.oil_humidity, \
         assumed_mc = excluded.assumed_mc, assumed_rh = excluded.assumed_rh",
        params![
            word(&rules.law.safe)?,
            rules.law.cap,
            rules.law.oil_humidity,
            assumed.map(|air| air.temperature.milli_c()),
            assumed.map(|air| air.humidity.tenths()),
        ],
    )?;
    Ok(())
}

/// From when touch tests count, per product that was reset.
pub(super) fn afresh(conn: &Connection) -> Result<HashMap<ProductId, DateTime<Utc>>, Fault> {
    let rows = all(conn, "SELECT product, at_ms FROM afresh", [], |row| {
        Ok((row.parse()?, row.moment()?))
    })?;
    Ok(rows.into_iter().collect())
}

pub(super) fn put_afresh(
    conn: &Connection,
    product: ProductId,
    at: DateTime<Utc>,
) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO afresh (product, at_ms) VALUES (?1, ?2) \
         ON CONFLICT (product) DO UPDATE SET at_ms = excluded.at_ms",
        params![product.to_string(), at.timestamp_millis()],
    )?;
    Ok(())
}

/// Says which coats a touch test was made on: on each of its faces the last one laid before it.
/// For events that came back by redo as well as for new ones; does nothing where it is said
/// already.
pub(super) fn link_touch(conn: &Connection, touch: EventId) -> Result<(), Fault> {
    let sql = "INSERT INTO touched (touch, coat, product) \
               SELECT DISTINCT test.id, coat.id, coat.product FROM event AS test \
               JOIN event_face AS felt ON felt.event = test.id \
               JOIN event AS coat ON coat.id = (SELECT max(laid.id) FROM event AS laid \
               JOIN event_face AS wet ON wet.event = laid.id AND wet.face = felt.face \
               WHERE laid.piece = test.piece AND laid.kind = 'coat' AND laid.id < test.id) \
               WHERE test.id = ?1 AND test.kind = 'touch' ON CONFLICT DO NOTHING";
    run(conn, sql, [touch.to_string()])?;
    Ok(())
}

/// The products that touch tests were made on.
pub(super) fn tested(conn: &Connection) -> Result<Vec<ProductId>, Fault> {
    // A walk from product to product along the index, not over every test there is.
    let sql = "WITH RECURSIVE step (product) AS (SELECT min(product) FROM touched UNION ALL \
               SELECT (SELECT min(product) FROM touched WHERE product > step.product) FROM step \
               WHERE step.product IS NOT NULL) SELECT product FROM step WHERE product IS NOT NULL";
    #[allow(
        clippy::redundant_closure_for_method_calls,
        reason = "the method alone is not general enough"
    )]
    all(conn, sql, [], |row| row.parse())
}

/// The newest touch tests of a product, newest first, no more than `limit`.
pub(super) fn tests(
    conn: &Connection,
    product: ProductId,
    after: Option<DateTime<Utc>>,
    limit: usize,
) -> Result<Vec<TouchRecord>, Fault> {
    let sql = "SELECT coat.pass, coat.product, coat.at_ms, test.at_ms, test.verdict, \
               (SELECT max(off.at_ms) FROM event AS off \
               WHERE coat.coat = 'stain' AND off.piece = coat.piece AND off.kind = 'wipe-off' \
               AND off.id > coat.id AND off.id < test.id AND EXISTS (SELECT 1 FROM event_face AS a \
               JOIN event_face AS b ON a.face = b.face WHERE a.event = off.id \
               AND b.event = test.id)), \
               pass.basis <> 'estimated' AND coat.coat <> 'stain', pass.used_ul, \
               (SELECT sum(face.area_um2) FROM event AS part \
               JOIN event_face AS face ON face.event = part.id WHERE part.pass = coat.pass) \
               FROM touched JOIN event AS test ON test.id = touched.touch \
               JOIN event AS coat ON coat.id = touched.coat JOIN pass ON pass.id = coat.pass \
               WHERE touched.product = ?1 AND test.at_ms > ?2 ORDER BY touched.touch DESC LIMIT ?3";
    let after = after.map_or(i64::MIN, |after| after.timestamp_millis());
    let limit = i64::try_from(limit).unwrap_or(i64::MAX);
    all(
        conn,
        sql,
        params![product.to_string(), after, limit],
        |row| {
            let (pass, product) = (row.parse()?, row.parse()?);
            let (ended, at, verdict) = (row.moment()?, row.moment()?, row.word()?);
            let wiped: Option<DateTime<Utc>> = row.maybe_moment()?;
            let (measured, used): (bool, i64) = (row.take()?, row.take()?);
            let area = Area::from_um2(row.take::<Option<i64>>()?.unwrap_or(0));
            let spread = measured
                .then(|| spread_of(area, Volume::from_ul(used)))
                .flatten();
            Ok(TouchRecord {
                product,
                pass,
                laid: wiped.map_or(ended, |wiped| wiped.max(ended)),
                at,
                verdict,
                spread,
            })
        },
    )
}
