//! `bench.toml`: bench hours and step times, changes of single days, the sheet that was kept, the
//! step under way, promises. Written where there is something to say; a shop of an earlier version
//! has none and plans by the starting figures.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::text::{self, LINE_MOST, NAME_MOST};
use super::times;
use super::tomls::{Read, value};
use crate::desk::typed::read_hours;
use crate::shop::{
    BenchBook, Interruptions, JobId, KeptJob, KeptLine, KeptSheet, PieceId, PlanBook, Promise,
    PromiseId, Range, Slot, SlotId, SlotMeans, Step, StepKey, StepTime, UnderWay, WeekHours,
};
use chrono::{DateTime, Utc};
use serde::Deserialize;
use toml::Spanned;

pub(super) const FILE: &str = "bench.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    bench: Option<Spanned<BenchRow>>,
    #[serde(default)]
    time: Vec<Spanned<TimeRow>>,
    #[serde(default)]
    slot: Vec<Spanned<SlotRow>>,
    under_way: Option<Spanned<StepRow>>,
    kept: Option<Spanned<KeptRow>>,
    #[serde(default)]
    kept_line: Vec<Spanned<LineRow>>,
    #[serde(default)]
    kept_job: Vec<Spanned<KeptJobRow>>,
    #[serde(default)]
    promise: Vec<Spanned<PromiseRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BenchRow {
    hours: [String; 7],
    rack: Option<u32>,
    settle: u32,
    settle_scuff: u32,
    keep: u32,
    interruptions: u32,
    interruption: [u32; 3],
    seed: u32,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TimeRow {
    step: String,
    fixed: [u32; 3],
    rate: [u32; 3],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SlotRow {
    id: String,
    day: String,
    means: String,
    #[serde(default)]
    hours: String,
    #[serde(default)]
    what: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepRow {
    piece: String,
    step: String,
    since: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptRow {
    day: String,
    at: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LineRow {
    piece: String,
    step: String,
    start: String,
    end: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptJobRow {
    job: String,
    end: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PromiseRow {
    id: String,
    job: String,
    at: String,
    date: String,
    odds: u16,
    even: String,
    nine: String,
    open_pieces: u32,
    basis: String,
}

fn said<T, E: std::fmt::Display>(what: &'static str, read: Result<T, E>) -> Result<T, Fault> {
    value(what, read.map_err(|error| error.to_string()))
}

/// A moment that may lie ahead.
fn ahead(
    what: &'static str,
    text: &str,
    now: DateTime<Utc>,
    zone: chrono_tz::Tz,
) -> Result<DateTime<Utc>, Fault> {
    let plain = DateTime::parse_from_rfc3339(text.trim()).map(|at| at.with_timezone(&Utc));
    plain.or_else(|_| value(what, times::read_moment(text, now, zone)))
}

/// Reads it; jobs and pieces are known by their keys.
pub(super) fn read(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    pieces: &Ring<PieceId>,
) -> Result<PlanBook, FilesError> {
    let file = match Read::<File>::file(&reading.source, FILE) {
        Err(FilesError::NoFile { .. }) => return Ok(PlanBook::default()),
        other => other?,
    };
    let (now, zone) = (reading.now, reading.zone);
    let what = &file.what;
    let mut book = PlanBook::default();
    if let Some(row) = &what.bench {
        let read = bench(row.get_ref()).map_err(|fault| fault.at(FILE, file.line(row)))?;
        book.bench = read;
    }
    for row in &what.time {
        let read = time(row.get_ref())
            .and_then(|(step, time)| said("time", book.bench.times.set(step, time)));
        read.map_err(|fault| fault.at(FILE, file.line(row)))?;
    }
    for row in &what.slot {
        let line = file.line(row);
        let slot = slot(reading, row.get_ref(), line)?;
        book.slots.push(slot);
    }
    book.slots.sort_by_key(order);
    let key = |piece: &str, step: &str| {
        Ok::<_, Fault>(StepKey {
            piece: pieces.find(piece)?,
            step: said("step", step.parse())?,
        })
    };
    if let Some(row) = &what.under_way {
        let at = row.get_ref();
        let read = key(&at.piece, &at.step).and_then(|key| {
            let since = value("since", times::read_moment(&at.since, now, zone))?;
            Ok(UnderWay { key, since })
        });
        book.under_way = Some(read.map_err(|fault| fault.at(FILE, file.line(row)))?);
    }
    if let Some(row) = &what.kept {
        let at = row.get_ref();
        let day = value("day", times::read_date(&at.day, reading.today));
        let made = value("at", times::read_moment(&at.at, now, zone));
        let mut kept = KeptSheet {
            day: day.map_err(|fault| fault.at(FILE, file.line(row)))?,
            at: made.map_err(|fault| fault.at(FILE, file.line(row)))?,
            lines: Vec::new(),
            jobs: Vec::new(),
        };
        for row in &what.kept_line {
            let at = row.get_ref();
            let line = key(&at.piece, &at.step).and_then(|key| {
                Ok(KeptLine {
                    key,
                    start: ahead("start", &at.start, now, zone)?,
                    end: ahead("end", &at.end, now, zone)?,
                })
            });
            kept.lines
                .push(line.map_err(|fault| fault.at(FILE, file.line(row)))?);
        }
        for row in &what.kept_job {
            let at = row.get_ref();
            let job = jobs.find(&at.job).and_then(|job| {
                let end = ahead("end", &at.end, now, zone)?;
                Ok(KeptJob { job, end })
            });
            kept.jobs
                .push(job.map_err(|fault| fault.at(FILE, file.line(row)))?);
        }
        book.kept = Some(kept);
    }
    for row in &what.promise {
        let line = file.line(row);
        let promise = promise(reading, jobs, row.get_ref(), line)?;
        book.promises.push(promise);
    }
    book.promises.sort_by_key(|promise| promise.id);
    Ok(book)
}

/// Slots in the order the store gives them.
pub(super) fn order(slot: &Slot) -> (chrono::NaiveDate, Option<u16>, SlotId) {
    let from = match slot.means {
        SlotMeans::DayOff => None,
        SlotMeans::Taken(span) | SlotMeans::Added(span) => Some(span.from()),
    };
    (slot.day, from, slot.id)
}

fn bench(row: &BenchRow) -> Result<BenchBook, Fault> {
    let mut week: [Vec<crate::shop::DaySpan>; 7] = Default::default();
    for (day, text) in week.iter_mut().zip(&row.hours) {
        *day = said("hours", read_hours("hours", text))?;
    }
    let [low, likely, high] = row.interruption;
    let book = BenchBook {
        week: said("hours", WeekHours::new(week))?,
        rack: row.rack,
        settle: row.settle,
        settle_scuff: row.settle_scuff,
        keep: row.keep,
        interruptions: Interruptions {
            in_ten_days: row.interruptions,
            minutes: Range { low, likely, high },
        },
        seed: row.seed,
        ..BenchBook::default()
    };
    said("bench", book.check())?;
    Ok(book)
}

fn time(row: &TimeRow) -> Result<(Step, StepTime), Fault> {
    let step = Step::of_code(row.step.trim());
    let step =
        step.ok_or_else(|| format!("\"{}\" is no kind of step.", super::table::short(&row.step)));
    let range = |[low, likely, high]: [u32; 3]| Range { low, likely, high };
    let time = StepTime {
        fixed: range(row.fixed),
        rate: range(row.rate),
    };
    Ok((value("step", step)?, time))
}

fn slot(reading: &mut Reading<'_>, row: &SlotRow, line: u64) -> Result<Slot, FilesError> {
    let at = |fault: Fault| fault.at(FILE, line);
    let key = value("id", key_word(&row.id)).map_err(at)?;
    let twice = Fault::Twice {
        what: "slot",
        key: key.clone(),
    };
    let id = reading.keys.of(&key).ok_or_else(|| at(twice))?;
    let day = value("day", times::read_date(&row.day, reading.today)).map_err(at)?;
    let span = || {
        let spans = said("hours", read_hours("hours", &row.hours)).map_err(at)?;
        match spans.as_slice() {
            [one] => Ok(*one),
            _ => Err(at(Fault::Value {
                what: "hours",
                why: "write one time from and to, like 14:00-15:00.".to_owned(),
            })),
        }
    };
    let means = match row.means.as_str() {
        "day-off" => SlotMeans::DayOff,
        "taken" => SlotMeans::Taken(span()?),
        "added" => SlotMeans::Added(span()?),
        _ => {
            return Err(at(Fault::Value {
                what: "means",
                why: "write day-off, taken or added.".to_owned(),
            }));
        }
    };
    let (what, left_out) = text::line("what", &row.what, NAME_MOST).map_err(at)?;
    reading.notes.left_out(FILE, line, "what", left_out);
    Ok(Slot {
        id: SlotId(id),
        day,
        means,
        what,
    })
}

fn promise(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    row: &PromiseRow,
    line: u64,
) -> Result<Promise, FilesError> {
    let at = |fault: Fault| fault.at(FILE, line);
    let key = value("id", key_word(&row.id)).map_err(at)?;
    let twice = Fault::Twice {
        what: "promise",
        key: key.clone(),
    };
    let id = reading.keys.of(&key).ok_or_else(|| at(twice))?;
    if row.odds > 1000 {
        return Err(at(Fault::Value {
            what: "odds",
            why: "odds are thousandths, up to 1000.".to_owned(),
        }));
    }
    let date = |what, text: &str| value(what, times::read_date(text, reading.today)).map_err(at);
    let (day, even, nine) = (
        date("date", &row.date)?,
        date("even", &row.even)?,
        date("nine", &row.nine)?,
    );
    let made = value("at", times::read_moment(&row.at, reading.now, reading.zone)).map_err(at)?;
    let (basis, left_out) = text::line("basis", &row.basis, LINE_MOST * 2).map_err(at)?;
    reading.notes.left_out(FILE, line, "basis", left_out);
    Ok(Promise {
        id: PromiseId(id),
        job: jobs.find(&row.job).map_err(at)?,
        at: made,
        date: day,
        odds: row.odds,
        even,
        nine,
        open_pieces: row.open_pieces,
        basis,
    })
}
