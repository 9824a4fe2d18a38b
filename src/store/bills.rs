//! The money book, invoices, payments, the hours log, and what is removed of them.

use super::cells::{all, json, run, word};
use super::deals::{
    self, agreements, cents, changes, estimates, put_agreement, put_change, put_estimate,
    put_prices, put_sample, put_terms, samples, terms,
};
use super::error::Fault;
use crate::desk::{HoursOf, MoneyKey, MoneyRow};
use crate::shop::{HoursEntry, HoursId, Invoice, MoneyBook, Payment, PieceId};
use rusqlite::{Connection, params};
use std::collections::HashMap;

pub(super) use deals::{forget_job, prices};

/// All of it, read over one state of the store.
pub(super) fn book(conn: &Connection) -> Result<MoneyBook, Fault> {
    Ok(MoneyBook {
        terms: terms(conn)?,
        estimates: estimates(conn)?,
        agreements: agreements(conn)?,
        changes: changes(conn)?,
        samples: samples(conn)?,
        invoices: invoices(conn)?,
        payments: payments(conn)?,
    })
}

pub(super) fn put(conn: &Connection, row: MoneyRow<'_>) -> Result<(), Fault> {
    match row {
        MoneyRow::Prices(book) => put_prices(conn, book),
        MoneyRow::Terms(of) => put_terms(conn, of),
        MoneyRow::Estimate(of) => put_estimate(conn, of),
        MoneyRow::Agreement(of) => put_agreement(conn, of),
        MoneyRow::Change(of) => put_change(conn, of),
        MoneyRow::Sample(of) => put_sample(conn, of),
        MoneyRow::Invoice(of) => put_invoice(conn, of),
        MoneyRow::Payment(of) => put_payment(conn, of),
        MoneyRow::Hours(of) => put_hours(conn, of),
    }
}

/// What it is called in a refusal, the rows removed, and what would hold it.
pub(super) fn remove(
    conn: &Connection,
    key: MoneyKey,
) -> (&'static str, Result<usize, Fault>, &'static str) {
    let delete = |table: &str, id: String| {
        let column = if table == "agreement" { "job" } else { "id" };
        run(
            conn,
            &format!("DELETE FROM {table} WHERE {column} = ?1"),
            [id],
        )
    };
    match key {
        MoneyKey::Estimate(id) => (
            "estimate",
            delete("estimate", id.to_string()),
            "the agreement rests on the estimate",
        ),
        MoneyKey::Agreement(job) => (
            "agreement",
            delete("agreement", job.to_string()),
            "the agreement has change orders",
        ),
        MoneyKey::Change(id) => ("change order", delete("change_order", id.to_string()), ""),
        MoneyKey::Sample(id) => ("sample board", delete("sample_board", id.to_string()), ""),
        MoneyKey::Invoice(id) => (
            "invoice",
            delete("invoice", id.to_string()),
            "the invoice has payments",
        ),
        MoneyKey::Payment(id) => ("payment", delete("payment", id.to_string()), ""),
        MoneyKey::Hours(id) => {
            let of = id.to_string();
            let pieces = run(conn, "DELETE FROM hours_piece WHERE hours = ?1", [&of]);
            let removed = pieces.and_then(|_| delete("hours", of));
            ("entry of the hours log", removed, "")
        }
    }
}

fn invoices(conn: &Connection) -> Result<Vec<Invoice>, Fault> {
    let sql = "SELECT id, job, no, dated, due, what, amount_cents, tax_cents FROM invoice \
               ORDER BY no";
    all(conn, sql, [], |row| {
        Ok(Invoice {
            id: row.parse()?,
            job: row.parse()?,
            no: row.take()?,
            on: row.parse()?,
            due: row.parse()?,
            what: row.take()?,
            amount: cents(row)?,
            tax: cents(row)?,
        })
    })
}

fn put_invoice(conn: &Connection, of: &Invoice) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO invoice (id, job, no, dated, due, what, amount_cents, tax_cents) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (id) DO UPDATE SET \
         no = excluded.no, dated = excluded.dated, due = excluded.due, what = excluded.what, \
         amount_cents = excluded.amount_cents, tax_cents = excluded.tax_cents",
        params![
            of.id.to_string(),
            of.job.to_string(),
            of.no,
            of.on.to_string(),
            of.due.to_string(),
            of.what,
            of.amount.cents(),
            of.tax.cents(),
        ],
    )?;
    Ok(())
}

fn payments(conn: &Connection) -> Result<Vec<Payment>, Fault> {
    let sql = "SELECT id, job, no, paid, amount_cents, invoice, how FROM payment ORDER BY no";
    all(conn, sql, [], |row| {
        Ok(Payment {
            id: row.parse()?,
            job: row.parse()?,
            no: row.take()?,
            on: row.parse()?,
            amount: cents(row)?,
            invoice: row.maybe_parse()?,
            how: row.take()?,
        })
    })
}

fn put_payment(conn: &Connection, of: &Payment) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO payment (id, job, no, paid, amount_cents, invoice, how) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (id) DO UPDATE SET no = excluded.no, \
         paid = excluded.paid, amount_cents = excluded.amount_cents, \
         invoice = excluded.invoice, how = excluded.how",
        params![
            of.id.to_string(),
            of.job.to_string(),
            of.no,
            of.on.to_string(),
            of.amount.cents(),
            of.invoice.map(|id| id.to_string()),
            of.how,
        ],
    )?;
    Ok(())
}

/// The hours asked, by start.
pub(super) fn hours(conn: &Connection, of: HoursOf) -> Result<Vec<HoursEntry>, Fault> {
    let (test, job) = match of {
        HoursOf::All => ("?1 IS NULL", None),
        HoursOf::Job(job) => ("hours.job = ?1", Some(job.to_string())),
        HoursOf::Running => ("?1 IS NULL AND hours.running = 1", None),
    };
    let mut pieces: HashMap<HoursId, Vec<PieceId>> = HashMap::new();
    let sql = format!(
        "SELECT hours_piece.hours, hours_piece.piece FROM hours_piece \
         JOIN hours ON hours.id = hours_piece.hours WHERE {test} \
         ORDER BY hours_piece.hours, hours_piece.piece"
    );
    for (id, piece) in all(conn, &sql, [&job], |row| Ok((row.parse()?, row.parse()?)))? {
        pieces.entry(id).or_default().push(piece);
    }
    let sql = format!(
        "SELECT id, job, step, started_ms, ended_ms, breaks FROM hours WHERE {test} \
         ORDER BY started_ms, id"
    );
    all(conn, &sql, [&job], |row| {
        let id = row.parse()?;
        Ok(HoursEntry {
            id,
            job: row.parse()?,
            step: row.word()?,
            started: row.moment()?,
            ended: row.maybe_moment()?,
            breaks: row.json()?,
            pieces: pieces.remove(&id).unwrap_or_default(),
        })
    })
}

fn put_hours(conn: &Connection, of: &HoursEntry) -> Result<(), Fault> {
    let id = of.id.to_string();
    run(
        conn,
        "INSERT INTO hours (id, job, step, started_ms, ended_ms, running, breaks) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (id) DO UPDATE SET job = excluded.job, \
         step = excluded.step, started_ms = excluded.started_ms, ended_ms = excluded.ended_ms, \
         running = excluded.running, breaks = excluded.breaks",
        params![
            id,
            of.job.to_string(),
            word(&of.step)?,
            of.started.timestamp_millis(),
            of.ended.map(|ended| ended.timestamp_millis()),
            of.runs().then_some(1),
            json(&of.breaks)?,
        ],
    )?;
    let sql = "SELECT piece FROM hours_piece WHERE hours = ?1";
    let had: Vec<PieceId> = all(conn, sql, [&id], |row| {
        let piece = row.parse()?;
        Ok(piece)
    })?;
    for piece in had.iter().filter(|piece| !of.pieces.contains(piece)) {
        let sql = "DELETE FROM hours_piece WHERE hours = ?1 AND piece = ?2";
        run(conn, sql, params![id, piece.to_string()])?;
    }
    for piece in of.pieces.iter().filter(|piece| !had.contains(piece)) {
        let sql = "INSERT INTO hours_piece (hours, piece) VALUES (?1, ?2)";
        run(conn, sql, params![id, piece.to_string()])?;
    }
    Ok(())
}
