//! `samples.csv`, `invoices.csv`, `payments.csv`.

use super::{Out, cents, date, each, known, money, named, once, signature, signed, whole};
use crate::shop::{Invoice, InvoiceId, JobId, MoneyBook, Payment, PaymentId, Sample, SampleId};
use crate::store::files::error::FilesError;
use crate::store::files::import::Reading;
use crate::store::files::keys::Ring;
use crate::store::files::text::{LINE_MOST, NAME_MOST};
use crate::store::files::times;
use crate::units::Money;
use std::collections::HashSet;

pub(super) const SAMPLES_FILE: &str = "samples.csv";
pub(super) const INVOICES_FILE: &str = "invoices.csv";
pub(super) const PAYMENTS_FILE: &str = "payments.csv";

const SAMPLES: &[&str] = &[
    "id",
    "job",
    "no",
    "made",
    "carries",
    "light",
    "twin",
    "approved_on",
    "approved_by",
];
const INVOICES: &[&str] = &["id", "job", "no", "dated", "due", "what", "amount", "tax"];
const PAYMENTS: &[&str] = &["id", "job", "no", "paid", "amount", "invoice", "how"];

/// Invoices by their keys, each with its job.
pub(super) type Bills = Ring<(InvoiceId, JobId)>;

pub(super) fn read_samples(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
) -> Result<Vec<Sample>, FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("sample board"));
    let mut seen = HashSet::new();
    each(reading, SAMPLES_FILE, SAMPLES, |reading, line| {
        let id = named(reading, line, &mut ring, SampleId)?;
        let (job, no) = (known(line, "job", jobs)?, whole(line, "no")?);
        once(line, &mut seen, (job, no), "sample board", &no.to_string())?;
        out.push(Sample {
            id,
            job,
            no,
            made: date(reading, line, "made")?,
            carries: line.name("carries", LINE_MOST, &mut reading.notes)?,
            light: line.line("light", NAME_MOST, &mut reading.notes)?,
            twin: line.line("twin", NAME_MOST, &mut reading.notes)?,
            approved: signed(reading, line, "approved_on", "approved_by")?,
        });
        Ok(())
    })?;
    Ok(out)
}

pub(super) fn read_invoices(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
) -> Result<(Vec<Invoice>, Bills), FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("invoice"));
    let mut keys = Ring::new("invoice");
    let mut seen = HashSet::new();
    each(reading, INVOICES_FILE, INVOICES, |reading, line| {
        let id = named(reading, line, &mut keys, InvoiceId)?;
        let (job, no) = (known(line, "job", jobs)?, whole(line, "no")?);
        let hung = ring.hang(line.cell("id"), (id, job));
        hung.map_err(|fault| line.fail(fault))?;
        once(line, &mut seen, no, "invoice number", &no.to_string())?;
        let amount = money(line, "amount")?;
        if amount <= Money::ZERO {
            return Err(line.bad("amount", "an invoice is above nothing."));
        }
        out.push(Invoice {
            id,
            job,
            no,
            on: date(reading, line, "dated")?,
            due: date(reading, line, "due")?,
            what: line.line("what", LINE_MOST, &mut reading.notes)?,
            amount,
            tax: money(line, "tax")?,
        });
        Ok(())
    })?;
    Ok((out, ring))
}

pub(super) fn read_payments(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    invoices: &Bills,
) -> Result<Vec<Payment>, FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("payment"));
    let mut seen = HashSet::new();
    each(reading, PAYMENTS_FILE, PAYMENTS, |reading, line| {
        let id = named(reading, line, &mut ring, PaymentId)?;
        let (job, no) = (known(line, "job", jobs)?, whole(line, "no")?);
        once(line, &mut seen, no, "receipt number", &no.to_string())?;
        let amount = money(line, "amount")?;
        if amount == Money::ZERO {
            return Err(line.bad("amount", "a payment of nothing is none."));
        }
        let invoice = line.maybe("invoice", |key| {
            invoices.find(key).map_err(|fault| fault.to_string())
        })?;
        if invoice.is_some_and(|(_, of)| of != job) {
            return Err(line.bad("invoice", "it belongs to another job."));
        }
        out.push(Payment {
            id,
            job,
            no,
            on: date(reading, line, "paid")?,
            amount,
            invoice: invoice.map(|(id, _)| id),
            how: line.line("how", NAME_MOST, &mut reading.notes)?,
        });
        Ok(())
    })?;
    Ok(out)
}

pub(super) fn samples_table(book: &MoneyBook) -> Out {
    let row = |of: &Sample| {
        let [on, by] = signature(of.approved.as_ref());
        vec![
            of.id.to_string(),
            of.job.to_string(),
            of.no.to_string(),
            times::date(of.made),
            of.carries.clone(),
            of.light.clone(),
            of.twin.clone(),
            on,
            by,
        ]
    };
    (
        SAMPLES_FILE,
        SAMPLES,
        book.samples.iter().map(row).collect(),
    )
}

pub(super) fn invoices_table(book: &MoneyBook) -> Out {
    let row = |of: &Invoice| {
        vec![
            of.id.to_string(),
            of.job.to_string(),
            of.no.to_string(),
            times::date(of.on),
            times::date(of.due),
            of.what.clone(),
            cents(of.amount),
            cents(of.tax),
        ]
    };
    let rows = book.invoices.iter().map(row).collect();
    (INVOICES_FILE, INVOICES, rows)
}

pub(super) fn payments_table(book: &MoneyBook) -> Out {
    let row = |of: &Payment| {
        vec![
            of.id.to_string(),
            of.job.to_string(),
            of.no.to_string(),
            times::date(of.on),
            cents(of.amount),
            of.invoice.map_or_else(String::new, |id| id.to_string()),
            of.how.clone(),
        ]
    };
    let rows = book.payments.iter().map(row).collect();
    (PAYMENTS_FILE, PAYMENTS, rows)
}
