//! Prices, terms, estimates as given, agreements, change orders and sample boards.

use super::cells::{Cells, all, json, run, word};
use super::error::Fault;
use crate::money::{Item, Percent, TaxChoice};
use crate::shop::{
    Agreement, ChangeOrder, EstimateKept, JobId, JobTerms, PriceBook, Sample, Signed,
};
use crate::units::Money;
use rusqlite::{Connection, params};
use std::collections::HashMap;

pub(super) fn prices(conn: &Connection) -> Result<Option<PriceBook>, Fault> {
    let sql = "SELECT rate, confidence, markups, allowance, minimum_cents, board_foot_cents, woods, \
               terms_days, valid_days, places, caps FROM price_book";
    let found = all(conn, sql, [], |row| {
        Ok(PriceBook {
            rate: row.json()?,
            confidence: row.word()?,
            markups: row.json()?,
            allowance: row.word()?,
            minimum: cents(row)?,
            board_foot: cents(row)?,
            woods: row.json()?,
            terms_days: row.take()?,
            valid_days: row.take()?,
            places: row.json()?,
            caps: row.json()?,
        })
    })?;
    Ok(found.into_iter().next())
}

pub(super) fn put_prices(conn: &Connection, book: &PriceBook) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO price_book (one, rate, confidence, markups, allowance, minimum_cents, \
         board_foot_cents, woods, terms_days, valid_days, places, caps) \
         VALUES (1, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) ON CONFLICT (one) DO UPDATE SET \
         rate = excluded.rate, confidence = excluded.confidence, markups = excluded.markups, \
         allowance = excluded.allowance, minimum_cents = excluded.minimum_cents, \
         board_foot_cents = excluded.board_foot_cents, woods = excluded.woods, \
         terms_days = excluded.terms_days, valid_days = excluded.valid_days, \
         places = excluded.places, caps = excluded.caps",
        params![
            json(&book.rate)?,
            book.confidence.to_string(),
            json(&book.markups)?,
            book.allowance.to_string(),
            book.minimum.cents(),
            book.board_foot.cents(),
            json(&book.woods)?,
            book.terms_days,
            book.valid_days,
            json(&book.places)?,
            json(&book.caps)?,
        ],
    )?;
    Ok(())
}

/// The next cell as an amount.
pub(super) fn cents(row: &mut Cells<'_>) -> Result<Money, Fault> {
    Ok(Money::from_cents(row.take()?))
}

/// The next two cells as a signature.
fn signed(row: &mut Cells<'_>) -> Result<Option<Signed>, Fault> {
    let (on, by) = (row.maybe_parse()?, row.take::<Option<String>>()?);
    Ok(on.zip(by).map(|(on, by)| Signed { on, by }))
}

fn tax_text(tax: TaxChoice) -> String {
    match tax {
        TaxChoice::AsPlace => "as-place".to_owned(),
        TaxChoice::Free => "free".to_owned(),
        TaxChoice::At(rate) => rate.to_string(),
    }
}

fn read_tax(row: &mut Cells<'_>) -> Result<TaxChoice, Fault> {
    let text: String = row.take()?;
    match text.as_str() {
        "as-place" => Ok(TaxChoice::AsPlace),
        "free" => Ok(TaxChoice::Free),
        rate => Percent::parse(rate)
            .map(TaxChoice::At)
            .map_err(|error| row.wrong(&error)),
    }
}

pub(super) fn terms(conn: &Connection) -> Result<Vec<JobTerms>, Fault> {
    let mut items: HashMap<JobId, Vec<Item>> = HashMap::new();
    let sql = "SELECT job, kind, what, count, each_cents, markup, tax FROM job_item \
               ORDER BY job, pos";
    let rows = all(conn, sql, [], |row| {
        let job: JobId = row.parse()?;
        let item = Item {
            kind: row.word()?,
            what: row.take()?,
            count: row.parse()?,
            each: cents(row)?,
            markup: row.maybe_word()?,
            tax: read_tax(row)?,
        };
        Ok((job, item))
    })?;
    for (job, item) in rows {
        items.entry(job).or_default().push(item);
    }
    let sql = "SELECT job, place, cap, asks_sample, confidence FROM job_terms ORDER BY job";
    all(conn, sql, [], |row| {
        let job = row.parse()?;
        Ok(JobTerms {
            job,
            place: row.take()?,
            cap: row.take()?,
            asks_sample: row.take()?,
            confidence: row.maybe_word()?,
            items: items.remove(&job).unwrap_or_default(),
        })
    })
}

pub(super) fn put_terms(conn: &Connection, terms: &JobTerms) -> Result<(), Fault> {
    let job = terms.job.to_string();
    run(
        conn,
        "INSERT INTO job_terms (job, place, cap, asks_sample, confidence) \
         VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT (job) DO UPDATE SET place = excluded.place, \
         cap = excluded.cap, asks_sample = excluded.asks_sample, \
         confidence = excluded.confidence",
        params![
            job,
            terms.place,
            terms.cap,
            terms.asks_sample,
            terms.confidence.map(|percent| percent.to_string()),
        ],
    )?;
    let count = i64::try_from(terms.items.len()).unwrap_or(i64::MAX);
    run(
        conn,
        "DELETE FROM job_item WHERE job = ?1 AND pos > ?2",
        params![job, count],
    )?;
    for (pos, item) in (1_i64..).zip(&terms.items) {
        run(
            conn,
            "INSERT INTO job_item (job, pos, kind, what, count, each_cents, markup, tax) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (job, pos) DO UPDATE SET \
             kind = excluded.kind, what = excluded.what, count = excluded.count, \
             each_cents = excluded.each_cents, markup = excluded.markup, tax = excluded.tax",
            params![
                job,
                pos,
                word(&item.kind)?,
                item.what,
                item.count.normalize().to_string(),
                item.each.cents(),
                item.markup.map(|markup| markup.percent().to_string()),
                tax_text(item.tax),
            ],
        )?;
    }
    Ok(())
}

/// Takes away what is only said of a job, when the job is removed.
pub(super) fn forget_job(conn: &Connection, job: &str) -> Result<(), Fault> {
    run(conn, "DELETE FROM job_item WHERE job = ?1", [job])?;
    run(conn, "DELETE FROM job_terms WHERE job = ?1", [job])?;
    Ok(())
}

pub(super) fn estimates(conn: &Connection) -> Result<Vec<EstimateKept>, Fault> {
    let sql = "SELECT id, job, no, given, valid_until, confidence, hour_cents, priced_minutes, \
               lines, steps FROM estimate ORDER BY job, no";
    all(conn, sql, [], |row| {
        Ok(EstimateKept {
            id: row.parse()?,
            job: row.parse()?,
            no: row.take()?,
            on: row.parse()?,
            valid_until: row.parse()?,
            confidence: row.word()?,
            hour: cents(row)?,
            priced: row.take()?,
            lines: row.json()?,
            steps: row.json()?,
        })
    })
}

pub(super) fn put_estimate(conn: &Connection, kept: &EstimateKept) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO estimate (id, job, no, given, valid_until, confidence, hour_cents, \
         priced_minutes, lines, steps) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10) \
         ON CONFLICT (id) DO UPDATE SET no = excluded.no, given = excluded.given, \
         valid_until = excluded.valid_until, confidence = excluded.confidence, \
         hour_cents = excluded.hour_cents, priced_minutes = excluded.priced_minutes, \
         lines = excluded.lines, steps = excluded.steps",
        params![
            kept.id.to_string(),
            kept.job.to_string(),
            kept.no,
            kept.on.to_string(),
            kept.valid_until.to_string(),
            kept.confidence.to_string(),
            kept.hour.cents(),
            kept.priced,
            json(&kept.lines)?,
            json(&kept.steps)?,
        ],
    )?;
    Ok(())
}

pub(super) fn agreements(conn: &Connection) -> Result<Vec<Agreement>, Fault> {
    let sql = "SELECT job, signed_on, signed_by, signed_at, net_cents, tax_cents, estimate, starts, \
               promised, parts FROM agreement ORDER BY job";
    all(conn, sql, [], |row| {
        Ok(Agreement {
            job: row.parse()?,
            on: row.parse()?,
            by: row.take()?,
            at: row.word()?,
            net: cents(row)?,
            tax: cents(row)?,
            estimate: row.maybe_parse()?,
            starts: row.maybe_parse()?,
            promised: row.parse()?,
            parts: row.json()?,
        })
    })
}

pub(super) fn put_agreement(conn: &Connection, of: &Agreement) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO agreement (job, signed_on, signed_by, signed_at, net_cents, tax_cents, \
         estimate, starts, promised, parts) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10) \
         ON CONFLICT (job) DO UPDATE SET signed_on = excluded.signed_on, \
         signed_by = excluded.signed_by, signed_at = excluded.signed_at, \
         net_cents = excluded.net_cents, tax_cents = excluded.tax_cents, \
         estimate = excluded.estimate, starts = excluded.starts, promised = excluded.promised, \
         parts = excluded.parts",
        params![
            of.job.to_string(),
            of.on.to_string(),
            of.by,
            word(&of.at)?,
            of.net.cents(),
            of.tax.cents(),
            of.estimate.map(|id| id.to_string()),
            of.starts.map(|day| day.to_string()),
            of.promised.to_string(),
            json(&of.parts)?,
        ],
    )?;
    Ok(())
}

pub(super) fn changes(conn: &Connection) -> Result<Vec<ChangeOrder>, Fault> {
    let sql = "SELECT id, job, no, written, asked_by, what, net_cents, tax_cents, days, signed_on, \
               signed_by FROM change_order ORDER BY job, no";
    all(conn, sql, [], |row| {
        Ok(ChangeOrder {
            id: row.parse()?,
            job: row.parse()?,
            no: row.take()?,
            on: row.parse()?,
            asked_by: row.take()?,
            what: row.take()?,
            net: cents(row)?,
            tax: cents(row)?,
            days: row.take()?,
            signed: signed(row)?,
        })
    })
}

pub(super) fn put_change(conn: &Connection, of: &ChangeOrder) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO change_order (id, job, no, written, asked_by, what, net_cents, tax_cents, \
         days, signed_on, signed_by) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) \
         ON CONFLICT (id) DO UPDATE SET no = excluded.no, written = excluded.written, \
         asked_by = excluded.asked_by, what = excluded.what, net_cents = excluded.net_cents, \
         tax_cents = excluded.tax_cents, days = excluded.days, signed_on = excluded.signed_on, \
         signed_by = excluded.signed_by",
        params![
            of.id.to_string(),
            of.job.to_string(),
            of.no,
            of.on.to_string(),
            of.asked_by,
            of.what,
            of.net.cents(),
            of.tax.cents(),
            of.days,
            of.signed.as_ref().map(|signed| signed.on.to_string()),
            of.signed.as_ref().map(|signed| &signed.by),
        ],
    )?;
    Ok(())
}

pub(super) fn samples(conn: &Connection) -> Result<Vec<Sample>, Fault> {
    let sql = "SELECT id, job, no, made, carries, light, twin, approved_on, approved_by \
               FROM sample_board ORDER BY job, no";
    all(conn, sql, [], |row| {
        Ok(Sample {
            id: row.parse()?,
            job: row.parse()?,
            no: row.take()?,
            made: row.parse()?,
            carries: row.take()?,
            light: row.take()?,
            twin: row.take()?,
            approved: signed(row)?,
        })
    })
}

pub(super) fn put_sample(conn: &Connection, of: &Sample) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO sample_board (id, job, no, made, carries, light, twin, approved_on, \
         approved_by) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (id) DO UPDATE SET \
         no = excluded.no, made = excluded.made, carries = excluded.carries, \
         light = excluded.light, twin = excluded.twin, approved_on = excluded.approved_on, \
         approved_by = excluded.approved_by",
        params![
            of.id.to_string(),
            of.job.to_string(),
            of.no,
            of.made.to_string(),
            of.carries,
            of.light,
            of.twin,
            of.approved.as_ref().map(|signed| signed.on.to_string()),
            of.approved.as_ref().map(|signed| &signed.by),
        ],
    )?;
    Ok(())
}
