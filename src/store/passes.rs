//! Passes, and the choice of pieces that rows are read for.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use crate::desk::Scope;
use crate::shop::{Air, Amount, AmountBasis, Draw, Drawn, Loss, Pass, PassId, Weights};
use crate::units::{Mass, Temperature, Volume};
use rusqlite::types::Value;
use rusqlite::{Connection, params, params_from_iter};
use std::collections::HashMap;

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
            Scope::MeasuredLately(most) => (
                "piece.id IN (SELECT piece FROM event WHERE pass IN (SELECT id FROM (\
                 SELECT id, row_number() OVER (PARTITION BY product ORDER BY ended_ms DESC, id \
                 DESC) AS place FROM pass WHERE basis <> 'estimated') WHERE place <= ?1))",
                Some(Value::Integer(i64::from(most))),
            ),
        };
        Self { sql, value }
    }
}

const COLUMNS: &str = "id, kind, product, started_ms, ended_ms, used_ul, basis, before_mg, \
                       after_mg, air_mc, air_rh_tenths, method, lost_mg, lost_ul";

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
    let method = row.maybe_word()?;
    let (lost_mass, lost_volume): (Option<i64>, Option<i64>) = (row.take()?, row.take()?);
    let lost = lost_mass.zip(lost_volume).map(|(mass, volume)| Loss {
        mass: Mass::from_mg(mass),
        volume: Volume::from_ul(volume),
    });
    let draws = Vec::new();
    Ok(Pass {
        id,
        kind,
        product,
        started,
        ended,
        amount: Amount { volume, basis },
        air,
        drawn: Drawn {
            draws,
            lost,
            method,
        },
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
    let passes = all(conn, &sql, params_from_iter(chosen.value.clone()), read)?;
    let of = format!(
        "SELECT event.pass FROM piece CROSS JOIN event ON event.piece = piece.id \
         WHERE event.pass IS NOT NULL AND {}",
        chosen.sql
    );
    with_draws(conn, passes, &of, params_from_iter(chosen.value))
}

/// The passes that a query names, with what they drew; `value` is its `?1`, if it has one.
pub(super) fn drawn(conn: &Connection, of: &str, value: Option<Value>) -> Result<Vec<Pass>, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM pass WHERE id IN ({of}) ORDER BY started_ms, id");
    let passes = all(conn, &sql, params_from_iter(value.clone()), read)?;
    with_draws(conn, passes, of, params_from_iter(value))
}

fn with_draws(
    conn: &Connection,
    mut passes: Vec<Pass>,
    of: &str,
    params: impl rusqlite::Params,
) -> Result<Vec<Pass>, Fault> {
    let sql = format!(
        "SELECT pass, can, used_ul, before_mg, after_mg FROM pass_can WHERE pass IN ({of}) \
         ORDER BY pass, pos"
    );
    let draws = all(conn, &sql, params, read_draw)?;
    if draws.is_empty() {
        return Ok(passes);
    }
    let mut by_pass: HashMap<PassId, Vec<Draw>> = HashMap::new();
    for (pass, draw) in draws {
        by_pass.entry(pass).or_default().push(draw);
    }
    for pass in &mut passes {
        pass.drawn.draws = by_pass.remove(&pass.id).unwrap_or_default();
        let sum: Volume = pass.drawn.draws.iter().map(|draw| draw.volume).sum();
        if !pass.drawn.draws.is_empty() && sum != pass.amount.volume {
            return Err(Fault::damaged(format!(
                "what pass {} took from its cans does not make what it used",
                pass.id
            )));
        }
    }
    Ok(passes)
}

fn read_draw(row: &mut Cells<'_>) -> Result<(PassId, Draw), Fault> {
    let (pass, can) = (row.parse()?, row.parse()?);
    let volume = Volume::from_ul(row.take()?);
    let (before, after): (Option<i64>, Option<i64>) = (row.take()?, row.take()?);
    let weights = before.zip(after).map(|(before, after)| Weights {
        before: Mass::from_mg(before),
        after: Mass::from_mg(after),
    });
    let draw = Draw {
        can,
        volume,
        weights,
    };
    Ok((pass, draw))
}

pub(super) fn pass(conn: &Connection, id: PassId) -> Result<Option<Pass>, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM pass WHERE id = ?1");
    let passes = all(conn, &sql, [id.to_string()], read)?;
    let passes = with_draws(conn, passes, "?1", [id.to_string()])?;
    Ok(passes.into_iter().next())
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
         after_mg, air_mc, air_rh_tenths, method, lost_mg, lost_ul) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14) ON CONFLICT (id) DO UPDATE SET \
         kind = excluded.kind, product = excluded.product, started_ms = excluded.started_ms, \
         ended_ms = excluded.ended_ms, used_ul = excluded.used_ul, basis = excluded.basis, \
         before_mg = excluded.before_mg, after_mg = excluded.after_mg, \
         air_mc = excluded.air_mc, air_rh_tenths = excluded.air_rh_tenths, \
         method = excluded.method, lost_mg = excluded.lost_mg, lost_ul = excluded.lost_ul",
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
            pass.drawn.method.as_ref().map(word).transpose()?,
            pass.drawn.lost.map(|lost| lost.mass.mg()),
            pass.drawn.lost.map(|lost| lost.volume.ul()),
        ],
    )?;
    put_draws(conn, pass)
}

/// Writes what a pass drew; rows that are as they should be are left alone.
fn put_draws(conn: &Connection, pass: &Pass) -> Result<(), Fault> {
    let id = pass.id.to_string();
    let count = i64::try_from(pass.drawn.draws.len()).unwrap_or(i64::MAX);
    run(
        conn,
        "DELETE FROM pass_can WHERE pass = ?1 AND pos >= ?2",
        params![id, count],
    )?;
    for (pos, draw) in (0_i64..).zip(&pass.drawn.draws) {
        run(
            conn,
            "INSERT INTO pass_can (pass, pos, can, used_ul, before_mg, after_mg) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (pass, pos) DO UPDATE SET \
             can = excluded.can, used_ul = excluded.used_ul, before_mg = excluded.before_mg, \
             after_mg = excluded.after_mg",
            params![
                id,
                pos,
                draw.can.to_string(),
                draw.volume.ul(),
                draw.weights.map(|weights| weights.before.mg()),
                draw.weights.map(|weights| weights.after.mg()),
            ],
        )?;
    }
    Ok(())
}
