//! What changed since the sheet that was kept, and how the coming weeks are loaded.

use super::floor::Floor;
use super::sheet::Sheet;
use crate::shop::hours::open_times;
use crate::shop::id::JobId;
use crate::shop::sheet_kept::{KeptSheet, StepKey};
use chrono::{DateTime, Datelike, Days, NaiveDate, Utc};

/// One change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Changed {
    /// A step of the kept day starts at another time.
    Moved {
        /// Which.
        key: StepKey,
        /// When it was to start.
        was: DateTime<Utc>,
        /// When it starts now.
        now: DateTime<Utc>,
    },
    /// A step is on the day that was not.
    New {
        /// Which.
        key: StepKey,
        /// When it starts.
        now: DateTime<Utc>,
    },
    /// A job ends on another day.
    Job {
        /// Which.
        job: JobId,
        /// When it was to end.
        was: DateTime<Utc>,
        /// When it ends now.
        now: DateTime<Utc>,
    },
}

/// A start that moves by less is no change anybody acts on, minutes.
const SLIGHT: i64 = 10;

/// What this sheet has otherwise than the kept one: steps of the kept day, then jobs. Steps that
/// are done since are no change.
pub fn changes(floor: &Floor<'_>, kept: &KeptSheet, sheet: &Sheet) -> Vec<Changed> {
    let mut out = Vec::new();
    for line in &sheet.lines {
        let had = kept.lines.iter().find(|had| had.key == line.key);
        let on_day = |at: DateTime<Utc>| floor.day_of(at) == kept.day;
        match had {
            Some(had)
                if (on_day(had.start) || on_day(line.start))
                    && (line.start - had.start).num_minutes().abs() > SLIGHT =>
            {
                out.push(Changed::Moved {
                    key: line.key,
                    was: had.start,
                    now: line.start,
                });
            }
            None if on_day(line.start) => out.push(Changed::New {
                key: line.key,
                now: line.start,
            }),
            _ => {}
        }
    }
    for outlook in &sheet.jobs {
        let had = kept.jobs.iter().find(|had| had.job == outlook.job);
        if let (Some(had), Some(now)) = (had, outlook.end)
            && floor.day_of(had.end) != floor.day_of(now)
        {
            out.push(Changed::Job {
                job: outlook.job,
                was: had.end,
                now,
            });
        }
    }
    out
}

/// How much work a week has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeekLoad {
    /// Its Monday.
    pub monday: NaiveDate,
    /// Bench minutes left in it.
    pub bench: i64,
    /// Minutes of work the sheet puts into it.
    pub planned: i64,
    /// Minutes of work left on jobs that are promised for it.
    pub promised: i64,
}

/// The load of the coming weeks: this one and those after it.
pub fn load(floor: &Floor<'_>, sheet: &Sheet, weeks: u64) -> Vec<WeekLoad> {
    let today = floor.today();
    let back = u64::from(today.weekday().num_days_from_monday());
    let monday = today.checked_sub_days(Days::new(back)).unwrap_or(today);
    let mut out = Vec::new();
    for no in 0..weeks {
        let Some(from) = monday.checked_add_days(Days::new(7 * no)) else {
            break;
        };
        let (week, slots) = (&floor.book.bench.week, &floor.book.slots);
        let open = open_times(week, slots, from, 7, floor.zone);
        let in_week = |day: NaiveDate| day >= from && (day - from).num_days() < 7;
        let parts = sheet.lines.iter().flat_map(|line| &line.parts);
        out.push(WeekLoad {
            monday: from,
            bench: open
                .iter()
                .map(|open| (open.to - open.from.max(floor.now).min(open.to)).num_minutes())
                .sum(),
            planned: parts
                .filter(|part| in_week(floor.day_of(part.from)))
                .map(|part| (part.to - part.from).num_minutes())
                .sum(),
            promised: sheet
                .jobs
                .iter()
                .filter(|outlook| outlook.promised.is_some_and(in_week))
                .map(|outlook| outlook.work)
                .sum(),
        });
    }
    out
}
