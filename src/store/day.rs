//! The chores of the days' ends, and the days that were closed.

use super::cells::{all, run, word};
use super::error::Fault;
use crate::shop::{Chore, ChoreDone, DayClosed, DayLog};
use chrono::NaiveDate;
use rusqlite::{Connection, params};

pub(super) fn days(conn: &Connection) -> Result<DayLog, Fault> {
    let sql = "SELECT day, chore, way, at_ms FROM chore ORDER BY day, chore";
    let done = all(conn, sql, [], |row| {
        Ok(ChoreDone {
            day: row.parse()?,
            chore: row.word()?,
            way: row.maybe_word()?,
            at: row.moment()?,
        })
    })?;
    let sql = "SELECT day, at_ms, reason FROM day_closed ORDER BY day";
    let closed = all(conn, sql, [], |row| {
        Ok(DayClosed {
            day: row.parse()?,
            at: row.moment()?,
            reason: row.take()?,
        })
    })?;
    Ok(DayLog { done, closed })
}

pub(super) fn put_chore(conn: &Connection, done: &ChoreDone) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO chore (day, chore, way, at_ms) VALUES (?1, ?2, ?3, ?4) \
         ON CONFLICT (day, chore) DO UPDATE SET way = excluded.way, at_ms = excluded.at_ms",
        params![
            done.day.to_string(),
            word(&done.chore)?,
            done.way.as_ref().map(word).transpose()?,
            done.at.timestamp_millis(),
        ],
    )?;
    Ok(())
}

pub(super) fn put_closed(conn: &Connection, closed: &DayClosed) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO day_closed (day, at_ms, reason) VALUES (?1, ?2, ?3) \
         ON CONFLICT (day) DO UPDATE SET at_ms = excluded.at_ms, reason = excluded.reason",
        params![
            closed.day.to_string(),
            closed.at.timestamp_millis(),
            closed.reason,
        ],
    )?;
    Ok(())
}

pub(super) fn remove_chore(
    conn: &Connection,
    day: NaiveDate,
    chore: Chore,
) -> Result<usize, Fault> {
    run(
        conn,
        "DELETE FROM chore WHERE day = ?1 AND chore = ?2",
        params![day.to_string(), word(&chore)?],
    )
}
