//! The shop's own woods, and its rule of readiness.

use super::cells::{all, run};
use super::error::Fault;
use super::wood::{content, tenths};
use crate::shop::{ShopWood, WoodId};
use crate::wood::moisture::ReadyRule;
use crate::wood::species::OwnWood;
use rusqlite::{Connection, params};

pub(super) fn rule(conn: &Connection) -> Result<Option<ReadyRule>, Fault> {
    let sql = "SELECT days_apart, within_tenths, care_tenths, stop_tenths, fresh_days \
               FROM ready_rule";
    let found = all(conn, sql, [], |row| {
        let days_apart = row.take()?;
        let within: i32 = row.take()?;
        let (care, stop) = (row.take()?, row.take()?);
        Ok(ReadyRule {
            days_apart,
            within: f64::from(within) / 10.0,
            care_over: content(row, care)?,
            stop_over: content(row, stop)?,
            fresh_days: row.take()?,
        })
    })?;
    Ok(found.into_iter().next())
}

pub(super) fn put_rule(conn: &Connection, rule: &ReadyRule) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO ready_rule \
         (one, days_apart, within_tenths, care_tenths, stop_tenths, fresh_days) \
         VALUES (1, ?1, ?2, ?3, ?4, ?5) ON CONFLICT (one) DO UPDATE SET \
         days_apart = excluded.days_apart, within_tenths = excluded.within_tenths, \
         care_tenths = excluded.care_tenths, stop_tenths = excluded.stop_tenths, \
         fresh_days = excluded.fresh_days",
        params![
            rule.days_apart,
            whole(rule.within, 10.0),
            tenths(rule.care_over),
            tenths(rule.stop_over),
            rule.fresh_days,
        ],
    )?;
    Ok(())
}

/// A figure in whole parts of one.
#[allow(clippy::cast_possible_truncation)] // `as` saturates, and no such figure is that great
fn whole(value: f64, parts: f64) -> i64 {
    (value * parts).round() as i64
}

/// Parts of one in a row of `own_wood`: shrinkage, change per point, gravity.
const PARTS: (f64, f64, f64) = (1e3, 1e8, 1e3);

#[allow(clippy::cast_precision_loss)] // no such figure has more than ten digits
pub(super) fn own_woods(conn: &Connection) -> Result<Vec<ShopWood>, Fault> {
    let sql = "SELECT id, name, botanical, shrink_radial, shrink_tangential, change_radial, \
               change_tangential, gravity, source FROM own_wood";
    all(conn, sql, [], |row| {
        let (id, name, botanical) = (row.parse()?, row.take()?, row.take()?);
        let mut figure = |parts: f64| {
            row.take::<Option<i64>>()
                .map(|value| value.map(|value| value as f64 / parts))
        };
        let shrinkage = (figure(PARTS.0)?, figure(PARTS.0)?);
        let coefficients = (figure(PARTS.1)?, figure(PARTS.1)?);
        let gravity = figure(PARTS.2)?;
        let wood = OwnWood {
            name,
            botanical,
            shrinkage: shrinkage.0.zip(shrinkage.1),
            coefficients: coefficients.0.zip(coefficients.1),
            gravity,
            source: row.take()?,
        };
        Ok(ShopWood { id, wood })
    })
}

pub(super) fn put_own_wood(conn: &Connection, own: &ShopWood) -> Result<(), Fault> {
    let wood = &own.wood;
    let whole = |value: Option<f64>, parts| value.map(|value| whole(value, parts));
    run(
        conn,
        "INSERT INTO own_wood (id, name, botanical, shrink_radial, shrink_tangential, \
         change_radial, change_tangential, gravity, source) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (id) DO UPDATE SET \
         name = excluded.name, botanical = excluded.botanical, \
         shrink_radial = excluded.shrink_radial, shrink_tangential = excluded.shrink_tangential, \
         change_radial = excluded.change_radial, change_tangential = excluded.change_tangential, \
         gravity = excluded.gravity, source = excluded.source",
        params![
            own.id.to_string(),
            wood.name,
            wood.botanical,
            whole(wood.shrinkage.map(|of| of.0), PARTS.0),
            whole(wood.shrinkage.map(|of| of.1), PARTS.0),
            whole(wood.coefficients.map(|of| of.0), PARTS.1),
            whole(wood.coefficients.map(|of| of.1), PARTS.1),
            whole(wood.gravity, PARTS.2),
            wood.source,
        ],
    )?;
    Ok(())
}

pub(super) fn remove_own_wood(conn: &Connection, id: WoodId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM own_wood WHERE id = ?1", [id.to_string()])
}
