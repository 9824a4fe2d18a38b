//! `estimates.csv`, `estimate_lines.csv`, `estimate_steps.csv`: estimates as they were given.

use super::{Out, cents, date, each, known, money, named, once, percent, whole};
use crate::money::{Line as PriceLine, LineKind, StepHours, StepKind};
use crate::shop::{EstimateId, EstimateKept, JobId, MoneyBook};
use crate::store::files::error::FilesError;
use crate::store::files::import::Reading;
use crate::store::files::keys::Ring;
use crate::store::files::table::Line;
use crate::store::files::text::LINE_MOST;
use crate::store::files::times;
use std::collections::HashSet;

pub(super) const FILE: &str = "estimates.csv";
pub(super) const LINES_FILE: &str = "estimate_lines.csv";
pub(super) const STEPS_FILE: &str = "estimate_steps.csv";

const COLUMNS: &[&str] = &[
    "id",
    "job",
    "no",
    "given",
    "valid_until",
    "confidence",
    "hour",
    "priced_minutes",
];
const LINES: &[&str] = &["estimate", "kind", "what", "net", "tax_rate"];
const STEPS: &[&str] = &["estimate", "step", "minutes"];

/// A word of a list in a cell.
pub(super) fn pick<T: Copy>(
    line: &Line<'_>,
    column: &'static str,
    all: &[T],
    word: fn(T) -> &'static str,
) -> Result<T, FilesError> {
    line.must(column, "write one of its words", |text| {
        let found = all.iter().copied().find(|one| word(*one) == text);
        let known: Vec<&str> = all.iter().copied().map(word).collect();
        found.ok_or_else(|| format!("\"{text}\" is not one of {}.", known.join(", ")))
    })
}

fn minutes(line: &Line<'_>, column: &'static str) -> Result<i64, FilesError> {
    line.must(column, "write whole minutes", |text| {
        let read = text.parse::<i64>().ok();
        read.filter(|minutes| (0..10_000_000).contains(minutes))
            .ok_or_else(|| format!("\"{text}\" is no whole number of minutes."))
    })
}

pub(super) fn read(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
) -> Result<(Vec<EstimateKept>, Ring<EstimateId>), FilesError> {
    let (mut out, mut ring) = (Vec::<EstimateKept>::new(), Ring::new("estimate"));
    let mut seen = HashSet::new();
    each(reading, FILE, COLUMNS, |reading, line| {
        let id = named(reading, line, &mut ring, EstimateId)?;
        let (job, no) = (known(line, "job", jobs)?, whole(line, "no")?);
        once(
            line,
            &mut seen,
            (job, no),
            "estimate number",
            &no.to_string(),
        )?;
        out.push(EstimateKept {
            id,
            job,
            no,
            on: date(reading, line, "given")?,
            valid_until: date(reading, line, "valid_until")?,
            confidence: line.must("confidence", "write a per cent", percent)?,
            hour: money(line, "hour")?,
            priced: minutes(line, "priced_minutes")?,
            lines: Vec::new(),
            steps: Vec::new(),
        });
        Ok(())
    })?;
    each(reading, LINES_FILE, LINES, |reading, line| {
        let id = known(line, "estimate", &ring)?;
        let read = PriceLine {
            kind: pick(line, "kind", &LineKind::ALL, LineKind::word)?,
            what: line.line("what", LINE_MOST, &mut reading.notes)?,
            net: money(line, "net")?,
            rate: line.must("tax_rate", "write a per cent, 0 % for none", percent)?,
        };
        let kept = out.iter_mut().filter(|kept| kept.id == id);
        kept.for_each(|kept| kept.lines.push(read.clone()));
        Ok(())
    })?;
    let mut seen = HashSet::new();
    each(reading, STEPS_FILE, STEPS, |_, line| {
        let id = known(line, "estimate", &ring)?;
        let step = pick(line, "step", &StepKind::ALL, StepKind::word)?;
        once(line, &mut seen, (id, step), "step", step.word())?;
        let read = StepHours {
            step,
            minutes: minutes(line, "minutes")?,
        };
        let kept = out.iter_mut().filter(|kept| kept.id == id);
        kept.for_each(|kept| kept.steps.push(read));
        Ok(())
    })?;
    Ok((out, ring))
}

pub(super) fn table(book: &MoneyBook) -> Out {
    let row = |of: &EstimateKept| {
        vec![
            of.id.to_string(),
            of.job.to_string(),
            of.no.to_string(),
            times::date(of.on),
            times::date(of.valid_until),
            of.confidence.to_string(),
            cents(of.hour),
            of.priced.to_string(),
        ]
    };
    (FILE, COLUMNS, book.estimates.iter().map(row).collect())
}

pub(super) fn lines_table(book: &MoneyBook) -> Out {
    let rows = book.estimates.iter().flat_map(|of| {
        of.lines.iter().map(|line| {
            vec![
                of.id.to_string(),
                line.kind.word().to_owned(),
                line.what.clone(),
                cents(line.net),
                line.rate.to_string(),
            ]
        })
    });
    (LINES_FILE, LINES, rows.collect())
}

pub(super) fn steps_table(book: &MoneyBook) -> Out {
    let rows = book.estimates.iter().flat_map(|of| {
        of.steps.iter().map(|step| {
            vec![
                of.id.to_string(),
                step.step.word().to_owned(),
                step.minutes.to_string(),
            ]
        })
    });
    (STEPS_FILE, STEPS, rows.collect())
}
