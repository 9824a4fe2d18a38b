//! `terms.csv`, `items.csv`, `agreements.csv`, `payments_due.csv`, `changes.csv`.

use super::estimates::pick;
use super::{
    Out, cents, date, each, known, maybe_date, money, named, once, percent, signature, signed,
    whole,
};
use crate::money::{Item, LineKind, Markup, Part, PartKind, TaxChoice};
use crate::shop::{
    Agreement, ChangeId, ChangeOrder, EstimateId, JobId, JobTerms, MoneyBook, SignedAt,
};
use crate::store::files::error::{Fault, FilesError};
use crate::store::files::import::Reading;
use crate::store::files::keys::Ring;
use crate::store::files::text::{LINE_MOST, NAME_MOST};
use crate::store::files::times;
use crate::units::Money;
use rust_decimal::Decimal;
use std::collections::HashSet;

pub(super) const TERMS_FILE: &str = "terms.csv";
pub(super) const ITEMS_FILE: &str = "items.csv";
pub(super) const AGREEMENTS_FILE: &str = "agreements.csv";
pub(super) const DUE_FILE: &str = "payments_due.csv";
pub(super) const CHANGES_FILE: &str = "changes.csv";

const TERMS: &[&str] = &["job", "tax_place", "deposit_cap", "sample", "confidence"];
const ITEMS: &[&str] = &["job", "kind", "what", "count", "each", "markup", "tax"];
const AGREEMENTS: &[&str] = &[
    "job",
    "signed_on",
    "signed_by",
    "signed_at",
    "net",
    "tax",
    "estimate",
    "starts",
    "promised",
];
const DUE: &[&str] = &["job", "part", "amount", "event", "due"];
const CHANGES: &[&str] = &[
    "id",
    "job",
    "no",
    "written",
    "asked_by",
    "what",
    "net",
    "tax",
    "days",
    "signed_on",
    "signed_by",
];

fn tax(text: &str) -> Result<TaxChoice, String> {
    match text {
        "as-place" => Ok(TaxChoice::AsPlace),
        "free" => Ok(TaxChoice::Free),
        rate => percent(rate)
            .map(TaxChoice::At)
            .map_err(|_| format!("\"{rate}\" is no tax: write as-place, free, or a rate.")),
    }
}

pub(super) fn read_terms(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
) -> Result<Vec<JobTerms>, FilesError> {
    let mut out: Vec<JobTerms> = Vec::new();
    let mut seen = HashSet::new();
    each(reading, TERMS_FILE, TERMS, |reading, line| {
        let job = known(line, "job", jobs)?;
        once(line, &mut seen, job, "job's terms", line.cell("job"))?;
        let asks_sample = match line.cell("sample") {
            "yes" => true,
            "no" | "" => false,
            _ => return Err(line.bad("sample", "write yes or no.")),
        };
        out.push(JobTerms {
            job,
            place: line.line("tax_place", NAME_MOST, &mut reading.notes)?,
            cap: line.line("deposit_cap", NAME_MOST, &mut reading.notes)?,
            asks_sample,
            confidence: line.maybe("confidence", percent)?,
            items: Vec::new(),
        });
        Ok(())
    })?;
    each(reading, ITEMS_FILE, ITEMS, |reading, line| {
        let job = known(line, "job", jobs)?;
        let count = line.must("count", "write a number above 0", |text| {
            let count = text.parse::<Decimal>().ok();
            count
                .filter(|count| *count > Decimal::ZERO && *count <= Decimal::from(100_000))
                .map(|count| count.normalize())
                .ok_or_else(|| format!("\"{text}\" is no count; write a number above 0."))
        })?;
        let item = Item {
            kind: pick(line, "kind", &LineKind::ALL, LineKind::word)?,
            what: line.name("what", LINE_MOST, &mut reading.notes)?,
            count,
            each: money(line, "each")?,
            markup: line.maybe("markup", percent)?.map(Markup::new),
            tax: line.must("tax", "write as-place, free, or a rate", tax)?,
        };
        match out.iter_mut().find(|terms| terms.job == job) {
            Some(terms) => terms.items.push(item),
            None => out.push(JobTerms {
                items: vec![item],
                ..JobTerms::unsaid(job)
            }),
        }
        Ok(())
    })?;
    Ok(out)
}

pub(super) fn read_agreements(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    estimates: &Ring<EstimateId>,
) -> Result<Vec<Agreement>, FilesError> {
    let mut out: Vec<(Agreement, u64)> = Vec::new();
    let mut seen = HashSet::new();
    each(reading, AGREEMENTS_FILE, AGREEMENTS, |reading, line| {
        let job = known(line, "job", jobs)?;
        once(line, &mut seen, job, "agreement", line.cell("job"))?;
        let estimate = line.maybe("estimate", |key| {
            estimates.find(key).map_err(|fault| fault.to_string())
        })?;
        let of = Agreement {
            job,
            on: date(reading, line, "signed_on")?,
            by: line.name("signed_by", NAME_MOST, &mut reading.notes)?,
            at: pick(line, "signed_at", &SignedAt::ALL, SignedAt::word)?,
            net: money(line, "net")?,
            tax: money(line, "tax")?,
            estimate,
            starts: line.maybe("starts", |text| times::read_date(text, reading.today))?,
            promised: date(reading, line, "promised")?,
            parts: Vec::new(),
        };
        out.push((of, line.no));
        Ok(())
    })?;
    each(reading, DUE_FILE, DUE, |reading, line| {
        let job = known(line, "job", jobs)?;
        let part = Part {
            kind: pick(line, "part", &PartKind::ALL, PartKind::word)?,
            amount: money(line, "amount")?,
            event: line.line("event", LINE_MOST, &mut reading.notes)?,
            due: line.maybe("due", |text| times::read_date(text, reading.today))?,
        };
        let of = out.iter_mut().find(|(of, _)| of.job == job);
        let Some((of, _)) = of else {
            return Err(line.bad("job", "it has no agreement in agreements.csv."));
        };
        of.parts.push(part);
        Ok(())
    })?;
    for (of, line) in &out {
        let sum: Money = of.parts.iter().map(|part| part.amount).sum();
        if sum != of.total() {
            let why = format!(
                "the agreement comes to {}, its parts in {DUE_FILE} to {}.",
                cents(of.total()),
                cents(sum)
            );
            return Err(Fault::Value { what: "net", why }.at(AGREEMENTS_FILE, *line));
        }
    }
    Ok(out.into_iter().map(|(of, _)| of).collect())
}

pub(super) fn read_changes(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    agreements: &[Agreement],
) -> Result<Vec<ChangeOrder>, FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("change order"));
    let mut seen = HashSet::new();
    each(reading, CHANGES_FILE, CHANGES, |reading, line| {
        let id = named(reading, line, &mut ring, ChangeId)?;
        let (job, no) = (known(line, "job", jobs)?, whole(line, "no")?);
        if !agreements.iter().any(|of| of.job == job) {
            return Err(line.bad("job", "it has no agreement in agreements.csv."));
        }
        once(line, &mut seen, (job, no), "change order", &no.to_string())?;
        let days = line.must("days", "write whole days, 0 for none", |text| {
            let days = text.parse::<i32>().ok().filter(|days| days.abs() <= 3650);
            days.ok_or_else(|| format!("\"{text}\" is no number of days up to 3650."))
        })?;
        out.push(ChangeOrder {
            id,
            job,
            no,
            on: date(reading, line, "written")?,
            asked_by: line.line("asked_by", NAME_MOST, &mut reading.notes)?,
            what: line.name("what", LINE_MOST, &mut reading.notes)?,
            net: money(line, "net")?,
            tax: money(line, "tax")?,
            days,
            signed: signed(reading, line, "signed_on", "signed_by")?,
        });
        Ok(())
    })?;
    Ok(out)
}

pub(super) fn terms_table(book: &MoneyBook) -> Out {
    let row = |of: &JobTerms| {
        vec![
            of.job.to_string(),
            of.place.clone(),
            of.cap.clone(),
            if of.asks_sample { "yes" } else { "no" }.to_owned(),
            of.confidence.map_or_else(String::new, |of| of.to_string()),
        ]
    };
    (TERMS_FILE, TERMS, book.terms.iter().map(row).collect())
}

pub(super) fn items_table(book: &MoneyBook) -> Out {
    let rows = book.terms.iter().flat_map(|of| {
        of.items.iter().map(|item| {
            let markup = item.markup.map(|markup| markup.percent().to_string());
            vec![
                of.job.to_string(),
                item.kind.word().to_owned(),
                item.what.clone(),
                item.count.normalize().to_string(),
                cents(item.each),
                markup.unwrap_or_default(),
                match item.tax {
                    TaxChoice::AsPlace => "as-place".to_owned(),
                    TaxChoice::Free => "free".to_owned(),
                    TaxChoice::At(rate) => rate.to_string(),
                },
            ]
        })
    });
    (ITEMS_FILE, ITEMS, rows.collect())
}

pub(super) fn agreements_table(book: &MoneyBook) -> Out {
    let row = |of: &Agreement| {
        vec![
            of.job.to_string(),
            times::date(of.on),
            of.by.clone(),
            of.at.word().to_owned(),
            cents(of.net),
            cents(of.tax),
            of.estimate.map_or_else(String::new, |id| id.to_string()),
            maybe_date(of.starts),
            times::date(of.promised),
        ]
    };
    let rows = book.agreements.iter().map(row).collect();
    (AGREEMENTS_FILE, AGREEMENTS, rows)
}

pub(super) fn due_table(book: &MoneyBook) -> Out {
    let rows = book.agreements.iter().flat_map(|of| {
        of.parts.iter().map(|part| {
            vec![
                of.job.to_string(),
                part.kind.word().to_owned(),
                cents(part.amount),
                part.event.clone(),
                maybe_date(part.due),
            ]
        })
    });
    (DUE_FILE, DUE, rows.collect())
}

pub(super) fn changes_table(book: &MoneyBook) -> Out {
    let row = |of: &ChangeOrder| {
        let [on, by] = signature(of.signed.as_ref());
        vec![
            of.id.to_string(),
            of.job.to_string(),
            of.no.to_string(),
            times::date(of.on),
            of.asked_by.clone(),
            of.what.clone(),
            cents(of.net),
            cents(of.tax),
            of.days.to_string(),
            on,
            by,
        ]
    };
    (
        CHANGES_FILE,
        CHANGES,
        book.changes.iter().map(row).collect(),
    )
}
