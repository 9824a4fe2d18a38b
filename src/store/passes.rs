//! Passes, and the choice of pieces that rows are read for.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use crate::desk::Scope;
use crate::shop::{Air, Amount, AmountBasis, Drawn, Pass, PassId};
use crate::units::{Mass, Temperature, Volume};
use rusqlite::types::Value;
use rusqlite::{Connection, params, params_from_iter};

/// A scope as a condition on `piece`, and its parameter.
pub(super) struct Chosen {
    /// The condition.
    pub sql: &'static str,
    /// Its `?1`, if it has one.
    pub value: Option<Value>,
}

impl Chosen {
    /// From the scope. The moment a piece was finished is that of its last line on the set list.
    pub fn from(scope: Scope) -> Self {
        let (sql, value) = match scope {
            Scope::All => ("TRUE", None),
            Scope::OpenSince(moment) => (
                "piece.id IN (SELECT id FROM piece WHERE finished = 0 UNION \
                 SELECT piece FROM event WHERE kind = 'set-list' AND at_ms >= ?1)",
                Some(Value::Integer(moment.timestamp_millis())),
            ),
            Scope::Job(id) => ("piece.job = ?1", Some(Value::Text(id.to_string()))),
            Scope::One(id) => ("piece.id = ?1", Some(Value::Text(id.to_string()))),
        };
        Self { sql, value }
    }
}

const COLUMNS: &str = "id, kind, product, started_ms, ended_ms, used_ul, basis, before_mg, \
                       after_mg, air_mc, air_rh_tenths";

fn read(row: &mut Cells<'_>) -> Result<Pass, Fault> {
    let (id, kind, product) = (row.parse()?, row.word()?, row.parse()?);
    let (started, ended) = (row.moment()?, row.moment()?);
    let volume = Volume::from_ul(row.take()?);
    let basis: String = row.take()?;
    let (before, after): (Option<i64>, Option<i64>) = (row.take()?, row.take()?);
    let basis = match (basis.as_str(), before, after) {
        ("estimated", None, None) => AmountBasis::Estimated,
        ("measured", None, None) => AmountBasis::Measured,
        ("weighed", Some(before), Some(after)) => AmountBasis::Weighed {
            before: Mass::from_mg(before),
            after: Mass::from_mg(after),
        },
        _ => return Err(row.wrong(&"the amount does not add up")),
    };
    let (temperature, humidity): (Option<i32>, Option<i32>) = (row.take()?, row.take()?);
    let air = match (temperature, humidity) {
        (Some(temperature), Some(humidity)) => Some(Air {
            temperature: Temperature::from(temperature),
            humidity: humidity.try_into().map_err(|error| row.wrong(&error))?,
        }),
        _ => None,
    };
    Ok(Pass {
        id,
        kind,
        product,
        started,
        ended,
        amount: Amount { volume, basis },
        air,
        drawn: Drawn::default(),
    })
}

pub(super) fn passes(conn: &Connection, scope: Scope) -> Result<Vec<Pass>, Fault> {
    let chosen = Chosen::from(scope);
    let sql = format!(
        "SELECT {COLUMNS} FROM pass WHERE id IN (SELECT event.pass FROM piece \
         CROSS JOIN event ON event.piece = piece.id WHERE event.pass IS NOT NULL AND {}) \
         ORDER BY started_ms, id",
        chosen.sql
    );
    all(conn, &sql, params_from_iter(chosen.value), read)
}

pub(super) fn pass(conn: &Connection, id: PassId) -> Result<Option<Pass>, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM pass WHERE id = ?1");
    Ok(all(conn, &sql, [id.to_string()], read)?.into_iter().next())
}

pub(super) fn put_pass(conn: &Connection, pass: &Pass) -> Result<(), Fault> {
    let (basis, before, after) = match pass.amount.basis {
        AmountBasis::Estimated => ("estimated", None, None),
        AmountBasis::Measured => ("measured", None, None),
        AmountBasis::Weighed { before, after } => ("weighed", Some(before.mg()), Some(after.mg())),
    };
    run(
        conn,
        "INSERT INTO pass (id, kind, product, started_ms, ended_ms, used_ul, basis, before_mg, \
         after_mg, air_mc, air_rh_tenths) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) ON CONFLICT (id) DO UPDATE SET \
         kind = excluded.kind, product = excluded.product, started_ms = excluded.started_ms, \
         ended_ms = excluded.ended_ms, used_ul = excluded.used_ul, basis = excluded.basis, \
         before_mg = excluded.before_mg, after_mg = excluded.after_mg, \
         air_mc = excluded.air_mc, air_rh_tenths = excluded.air_rh_tenths",
        params![
            pass.id.to_string(),
            word(&pass.kind)?,
            pass.product.to_string(),
            pass.started.timestamp_millis(),
            pass.ended.timestamp_millis(),
            pass.amount.volume.ul(),
            basis,
            before,
            after,
            pass.air.map(|air| air.temperature.milli_c()),
            pass.air.map(|air| air.humidity.tenths()),
        ],
    )?;
    Ok(())
}
