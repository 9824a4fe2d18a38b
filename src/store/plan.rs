//! The planning of days: bench hours, slots, the kept sheet, the step under way, promises.

use super::cells::{Cells, all, json, run, word};
use super::error::Fault;
use crate::shop::{
    BenchBook, DaySpan, KeptSheet, PlanBook, Promise, Slot, SlotId, SlotMeans, StepKey, UnderWay,
};
use rusqlite::{Connection, params};
use serde::{Deserialize, Serialize};

/// The word of what a slot does.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Means {
    DayOff,
    Taken,
    Added,
}

pub(super) fn book(conn: &Connection) -> Result<PlanBook, Fault> {
    let sql = "SELECT week, rack, settle, settle_scuff, keep, times, interruptions, seed \
               FROM bench_book";
    let bench = all(conn, sql, [], |row| {
        Ok(BenchBook {
            week: row.json()?,
            rack: row.take()?,
            settle: row.take()?,
            settle_scuff: row.take()?,
            keep: row.take()?,
            times: row.json()?,
            interruptions: row.json()?,
            seed: row.take()?,
        })
    })?;
    let sql = "SELECT day, at_ms, lines, jobs FROM kept_sheet";
    let kept = all(conn, sql, [], |row| {
        Ok(KeptSheet {
            day: row.parse()?,
            at: row.moment()?,
            lines: row.json()?,
            jobs: row.json()?,
        })
    })?;
    let sql = "SELECT piece, step, since_ms FROM under_way";
    let under_way = all(conn, sql, [], |row| {
        Ok(UnderWay {
            key: StepKey {
                piece: row.parse()?,
                step: row.parse()?,
            },
            since: row.moment()?,
        })
    })?;
    Ok(PlanBook {
        bench: bench.into_iter().next().unwrap_or_default(),
        slots: slots(conn)?,
        kept: kept.into_iter().next(),
        under_way: under_way.into_iter().next(),
        promises: promises(conn)?,
    })
}

fn slots(conn: &Connection) -> Result<Vec<Slot>, Fault> {
    let sql = "SELECT id, day, means, from_min, to_min, what FROM slot \
               ORDER BY day, from_min, id";
    all(conn, sql, [], |row| {
        let (id, day, means) = (row.parse()?, row.parse()?, row.word()?);
        let means = match means {
            Means::DayOff => {
                let (_, _): (Option<u16>, Option<u16>) = (row.take()?, row.take()?);
                SlotMeans::DayOff
            }
            Means::Taken => SlotMeans::Taken(span(row)?),
            Means::Added => SlotMeans::Added(span(row)?),
        };
        Ok(Slot {
            id,
            day,
            means,
            what: row.take()?,
        })
    })
}

fn span(row: &mut Cells<'_>) -> Result<DaySpan, Fault> {
    let (from, to) = (row.take()?, row.take()?);
    DaySpan::new(from, to).ok_or_else(|| row.wrong(&"it ends before it begins"))
}

fn promises(conn: &Connection) -> Result<Vec<Promise>, Fault> {
    let sql = "SELECT id, job, at_ms, date, odds, even, nine, open_pieces, basis FROM promise \
               ORDER BY id";
    all(conn, sql, [], |row| {
        Ok(Promise {
            id: row.parse()?,
            job: row.parse()?,
            at: row.moment()?,
            date: row.parse()?,
            odds: row.take()?,
            even: row.parse()?,
            nine: row.parse()?,
            open_pieces: row.take()?,
            basis: row.take()?,
        })
    })
}

pub(super) fn put_bench(conn: &Connection, book: &BenchBook) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO bench_book (one, week, rack, settle, settle_scuff, keep, times, \
         interruptions, seed) VALUES (1, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) \
         ON CONFLICT (one) DO UPDATE SET week = excluded.week, rack = excluded.rack, \
         settle = excluded.settle, settle_scuff = excluded.settle_scuff, keep = excluded.keep, \
         times = excluded.times, interruptions = excluded.interruptions, seed = excluded.seed",
        params![
            json(&book.week)?,
            book.rack,
            book.settle,
            book.settle_scuff,
            book.keep,
            json(&book.times)?,
            json(&book.interruptions)?,
            book.seed,
        ],
    )?;
    Ok(())
}

pub(super) fn put_slot(conn: &Connection, slot: &Slot) -> Result<(), Fault> {
    let (means, span) = match slot.means {
        SlotMeans::DayOff => (Means::DayOff, None),
        SlotMeans::Taken(span) => (Means::Taken, Some(span)),
        SlotMeans::Added(span) => (Means::Added, Some(span)),
    };
    run(
        conn,
        "INSERT INTO slot (id, day, means, from_min, to_min, what) VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
         ON CONFLICT (id) DO UPDATE SET day = excluded.day, means = excluded.means, \
         from_min = excluded.from_min, to_min = excluded.to_min, what = excluded.what",
        params![
            slot.id.to_string(),
            slot.day.to_string(),
            word(&means)?,
            span.map(DaySpan::from),
            span.map(DaySpan::to),
            slot.what,
        ],
    )?;
    Ok(())
}

pub(super) fn remove_slot(conn: &Connection, id: SlotId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM slot WHERE id = ?1", [id.to_string()])
}

pub(super) fn put_kept(conn: &Connection, kept: Option<&KeptSheet>) -> Result<(), Fault> {
    let Some(kept) = kept else {
        run(conn, "DELETE FROM kept_sheet", [])?;
        return Ok(());
    };
    run(
        conn,
        "INSERT INTO kept_sheet (one, day, at_ms, lines, jobs) VALUES (1, ?1, ?2, ?3, ?4) \
         ON CONFLICT (one) DO UPDATE SET day = excluded.day, at_ms = excluded.at_ms, \
         lines = excluded.lines, jobs = excluded.jobs",
        params![
            kept.day.to_string(),
            kept.at.timestamp_millis(),
            json(&kept.lines)?,
            json(&kept.jobs)?,
        ],
    )?;
    Ok(())
}

pub(super) fn put_under_way(conn: &Connection, under: Option<&UnderWay>) -> Result<(), Fault> {
    let Some(under) = under else {
        run(conn, "DELETE FROM under_way", [])?;
        return Ok(());
    };
    run(
        conn,
        "INSERT INTO under_way (one, piece, step, since_ms) VALUES (1, ?1, ?2, ?3) \
         ON CONFLICT (one) DO UPDATE SET piece = excluded.piece, step = excluded.step, \
         since_ms = excluded.since_ms",
        params![
            under.key.piece.to_string(),
            under.key.step.to_string(),
            under.since.timestamp_millis(),
        ],
    )?;
    Ok(())
}

pub(super) fn put_promise(conn: &Connection, promise: &Promise) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO promise (id, job, at_ms, date, odds, even, nine, open_pieces, basis) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            promise.id.to_string(),
            promise.job.to_string(),
            promise.at.timestamp_millis(),
            promise.date.to_string(),
            promise.odds,
            promise.even.to_string(),
            promise.nine.to_string(),
            promise.open_pieces,
            promise.basis,
        ],
    )?;
    Ok(())
}

/// Promises of a job that is removed go with it.
pub(super) fn forget_job(conn: &Connection, id: &str) -> Result<(), Fault> {
    run(conn, "DELETE FROM promise WHERE job = ?1", [id])?;
    Ok(())
}
