//! A data logger's file brought into the air log: thousands of readings, one action.

use super::air_rows::{AirSource, AirSpan, LoggedAir};
use super::books::Row;
use super::error::DeskError;
use super::perform::{Desk, Done};
use crate::coating::{AirReading, LoggerReport};
use crate::units::clean_line;
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};

/// Of refused rows and pauses, how many are told one by one.
const TOLD: usize = 3;

/// A logger's file as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct AirImport {
    /// What the file is called.
    pub file: String,
    /// What was read of it.
    pub report: LoggerReport,
}

impl Desk<'_> {
    /// Brings a logger's readings in. What the log holds stays as it is: an import never rewrites
    /// what was logged.
    pub(super) fn import_air(&mut self, import: &AirImport) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let report = &import.report;
        let file: String = clean_line(&import.file).0.chars().take(80).collect();
        let mut fresh = report.readings.clone();
        // Stable, so that of two rows at one second the first in the file stays.
        fresh.sort_by_key(|reading| reading.at.timestamp());
        let (Some(first), Some(last)) = (fresh.first().copied(), fresh.last().copied()) else {
            return Err(DeskError::NoAirRows {
                file,
                why: report
                    .first_refused
                    .first()
                    .map_or_else(String::new, |row| {
                        format!(": line {}: {}", row.line, row.why)
                    }),
            });
        };
        let show = |at: DateTime<Utc>| show_moment(at, self.now, settings.zone);
        let held = self.books.air(AirSpan {
            from: first.at,
            to: Some(last.at),
        })?;
        let newest = self.books.air_newest(1)?.first().map(|row| row.reading.at);
        let sorted = sort_out(&fresh, &held);
        let mut notes = notes(report, &sorted, &show);
        if sorted.new.is_empty() {
            let words = match (fresh.len(), sorted.differ) {
                (1, 0) => format!("The one reading of {file} is in the log already"),
                (n, 0) => format!("All {} readings of {file} are in the log already", count(n)),
                (1, _) => format!("The one reading of {file} was left out"),
                (n, _) => format!("None of the {} readings of {file} was brought in", count(n)),
            };
            return Ok(Done::said(words).with_notes(notes));
        }
        for reading in &sorted.new {
            self.books.put(Row::Air(&LoggedAir {
                reading: *reading,
                source: AirSource::Logger,
            }))?;
        }
        if newest.is_some_and(|newest| newest > first.at) {
            notes.push(format!(
                "Older readings came in: what dried after {} is reckoned anew.",
                show(first.at)
            ));
        }
        let words = match sorted.new.as_slice() {
            [one] => format!(
                "Brought in 1 reading of the shop's air from {file}, of {}",
                show(one.at)
            ),
            new => format!(
                "Brought in {} readings of the shop's air from {file}, {} to {}",
                count(new.len()),
                show(first.at),
                show(last.at)
            ),
        };
        Ok(Done::said(words).with_notes(notes))
    }
}

#[derive(Default)]
struct Sorted {
    new: Vec<AirReading>,
    same: usize,
    differ: usize,
}

/// What is new, what the log or the file had already, and what differs from what stays; both in
/// order of time.
fn sort_out(fresh: &[AirReading], held: &[LoggedAir]) -> Sorted {
    let mut sorted = Sorted::default();
    let mut held = held.iter().map(|row| row.reading).peekable();
    for reading in fresh {
        let second = reading.at.timestamp();
        while held.next_if(|row| row.at.timestamp() < second).is_some() {}
        let stays = held
            .peek()
            .copied()
            .filter(|row| row.at.timestamp() == second)
            .or_else(|| {
                let last = sorted.new.last().copied();
                last.filter(|last| last.at.timestamp() == second)
            });
        match stays {
            None => sorted.new.push(*reading),
            Some(stays) if stays.air == reading.air => sorted.same += 1,
            Some(_) => sorted.differ += 1,
        }
    }
    sorted
}

fn notes(
    report: &LoggerReport,
    sorted: &Sorted,
    show: &dyn Fn(DateTime<Utc>) -> String,
) -> Vec<String> {
    let mut notes = Vec::new();
    let rows = |n: usize| if n == 1 { "row" } else { "rows" };
    let were = |n: usize| if n == 1 { "row was" } else { "rows were" };
    if sorted.same > 0 {
        notes.push(format!(
            "{} {} there already.",
            count(sorted.same),
            were(sorted.same)
        ));
    }
    if sorted.differ > 0 {
        notes.push(format!(
            "{} {} left out: another reading stands at that time and stays.",
            count(sorted.differ),
            were(sorted.differ)
        ));
    }
    if report.refused > 0 {
        // One note a row, so that a list of notes stays a list.
        notes.push(format!(
            "{} {} could not be read and {} left out.",
            count(report.refused),
            rows(report.refused),
            if report.refused == 1 { "was" } else { "were" }
        ));
        let told = report.first_refused.iter().take(TOLD);
        notes.extend(told.map(|row| {
            let why = row.why.trim_end_matches('.');
            format!("Line {}: {why}.", row.line)
        }));
        let more = report.refused.saturating_sub(TOLD);
        if more > 0 {
            notes.push(format!("And {} more {}.", count(more), rows(more)));
        }
    }
    if report.out_of_order > 0 {
        notes.push(format!(
            "{} {} put in order of time.",
            count(report.out_of_order),
            were(report.out_of_order)
        ));
    }
    if report.gaps > 0 {
        let told: Vec<String> = report
            .first_gaps
            .iter()
            .take(TOLD)
            .map(|(from, to)| format!("{} to {}", show(*from), show(*to)))
            .collect();
        notes.push(format!(
            "{} without readings for more than 12 hours, where the shop's usual air stands in: {}.",
            if report.gaps == 1 {
                "1 time".to_owned()
            } else {
                format!("{} times", count(report.gaps))
            },
            told.join(", ")
        ));
    }
    if report.left_out > 0 {
        notes.push(format!(
            "{} fell into the hour that the clock change leaves out and {} taken an hour later.",
            if report.left_out == 1 {
                "1 local time".to_owned()
            } else {
                format!("{} local times", count(report.left_out))
            },
            if report.left_out == 1 { "was" } else { "were" }
        ));
    }
    notes
}

/// A count with its thousands apart: `10,231`.
fn count(n: usize) -> String {
    let digits = n.to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}
