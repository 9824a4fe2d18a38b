//! What would save a late job: tried by making the sheet again with the change, never guessed.

use super::floor::Floor;
use super::sheet::{Made, make};
use super::solve::Effort;
use crate::shop::bench_book::PlanBook;
use crate::shop::hours::{DaySpan, Slot, SlotMeans, hours_of};
use crate::shop::id::{JobId, RecipeId, SlotId};
use crate::shop::people::Job;
use crate::shop::piece::PieceFile;
use crate::shop::recipe::Recipe;
use chrono::{DateTime, Days, Duration, NaiveDate, Utc};
use std::sync::atomic::{AtomicBool, Ordering};
use uuid::Uuid;

/// A change that was tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// Bench hours added on a day.
    Hours(NaiveDate, DaySpan),
    /// Pieces of the job on which no work has started follow another recipe.
    Recipe(RecipeId),
    /// Another job is promised for a later day: the day it is done then.
    OtherPromise(JobId, NaiveDate),
    /// The job itself is promised for the day it will be done.
    OwnPromise(NaiveDate),
}

impl Change {
    /// The cheaper the lower: an hour of one's own before the client's wood, before a word with
    /// another client, before one with this.
    fn cost(self) -> (u8, u16) {
        match self {
            Self::Hours(_, span) => (0, span.minutes()),
            Self::Recipe(_) => (1, 0),
            Self::OtherPromise(..) => (2, 0),
            Self::OwnPromise(_) => (3, 0),
        }
    }
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cure {
    /// The change.
    pub change: Change,
    /// When the job ends then.
    pub end: DateTime<Utc>,
    /// How late it still is.
    pub late: Option<Duration>,
}

/// Why a job is late.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Because {
    /// It would be late with nothing else to do: its drying and its work need longer.
    Itself {
        /// When it would end.
        alone: DateTime<Utc>,
    },
    /// The hands are at other jobs before it: minutes of their work ahead of its end.
    Others {
        /// When it would end with nothing else to do.
        alone: DateTime<Utc>,
        /// The other jobs, the most minutes first.
        jobs: Vec<(JobId, i64)>,
    },
}

/// A late job: by how much, because of what, and the cheapest cures found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LateJob {
    /// The job.
    pub job: JobId,
    /// How late.
    pub late: Duration,
    /// Why.
    pub because: Option<Because>,
    /// What would save it or help, the cheapest first.
    pub cures: Vec<Cure>,
}

/// A job that ends sooner by less is not helped, minutes.
const HELPS: i64 = 60;

/// The late jobs of a sheet, each with its cures. `recipes` are what pieces could follow instead.
pub fn late_jobs(
    floor: &Floor<'_>,
    made: &Made,
    recipes: &[Recipe],
    effort: Effort,
    stop: &AtomicBool,
) -> Vec<LateJob> {
    let late = made
        .sheet
        .jobs
        .iter()
        .filter_map(|outlook| Some((outlook.job, outlook.late()?)));
    late.map(|(job, late)| LateJob {
        job,
        late,
        because: because(floor, made, job, effort, stop),
        cures: cures(floor, made, job, recipes, effort, stop),
    })
    .collect()
}

fn because(
    floor: &Floor<'_>,
    made: &Made,
    job: JobId,
    effort: Effort,
    stop: &AtomicBool,
) -> Option<Because> {
    let files: Vec<PieceFile> = floor
        .files
        .iter()
        .filter(|file| file.piece.job == job)
        .cloned()
        .collect();
    let alone = Floor {
        files: &files,
        ..*floor
    };
    let sheet = make(&alone, effort, stop).sheet;
    let outlook = sheet.jobs.iter().find(|outlook| outlook.job == job)?;
    let end = outlook.end?;
    if outlook.late().is_some() {
        return Some(Because::Itself { alone: end });
    }
    let own = made
        .sheet
        .jobs
        .iter()
        .find(|outlook| outlook.job == job)?
        .end?;
    let mut jobs: Vec<(JobId, i64)> = Vec::new();
    for line in made
        .sheet
        .lines
        .iter()
        .filter(|line| line.job != job && line.start < own)
    {
        let minutes: i64 = line
            .parts
            .iter()
            .map(|part| (part.to - part.from).num_minutes())
            .sum();
        match jobs.iter_mut().find(|(other, _)| *other == line.job) {
            Some((_, sum)) => *sum += minutes,
            None => jobs.push((line.job, minutes)),
        }
    }
    jobs.sort_by_key(|(_, minutes)| -minutes);
    jobs.truncate(3);
    Some(Because::Others { alone: end, jobs })
}

fn cures(
    floor: &Floor<'_>,
    made: &Made,
    job: JobId,
    recipes: &[Recipe],
    effort: Effort,
    stop: &AtomicBool,
) -> Vec<Cure> {
    let Some(before) = made.sheet.jobs.iter().find(|outlook| outlook.job == job) else {
        return Vec::new();
    };
    let (Some(end), Some(due)) = (before.end, before.due) else {
        return Vec::new();
    };
    let mut out: Vec<Cure> = Vec::new();
    let mut saved_by: Option<(u8, u16)> = None;
    for change in changes(floor, made, job, due, recipes) {
        // The first that saves it is enough of its kind; a dearer one of that kind need not be tried.
        let (kind, minutes) = change.cost();
        let dearer = saved_by.is_some_and(|(saved, least)| saved == kind && minutes > least);
        if stop.load(Ordering::Relaxed) || dearer {
            continue;
        }
        let Some(cure) = tried(floor, job, change, recipes, effort, stop) else {
            continue;
        };
        if (end - cure.end).num_minutes() >= HELPS {
            if cure.late.is_none() {
                saved_by = Some((kind, minutes));
            }
            out.push(cure);
        }
    }
    // What saves it, the cheapest first; then what helps most.
    out.sort_by_key(|cure| (cure.late, cure.change.cost(), cure.end));
    out.truncate(3);
    out.push(Cure {
        change: Change::OwnPromise(floor.day_of(end)),
        end,
        late: None,
    });
    out
}

/// What could be tried.
fn changes(
    floor: &Floor<'_>,
    made: &Made,
    job: JobId,
    due: DateTime<Utc>,
    recipes: &[Recipe],
) -> Vec<Change> {
    let mut out = Vec::new();
    let (bench, slots) = (&floor.book.bench, &floor.book.slots);
    let last = floor.day_of(due);
    let days: Vec<NaiveDate> = (0..10)
        .filter_map(|no| floor.today().checked_add_days(Days::new(no)))
        .filter(|day| *day <= last)
        .collect();
    for hours in [60, 120] {
        for day in &days {
            let close = hours_of(&bench.week, slots, *day)
                .last()
                .map(|span| span.to());
            let span = close.and_then(|close| DaySpan::new(close, close + hours));
            // Nobody's evening is past ten.
            if let Some(span) = span.filter(|span| span.to() <= 22 * 60) {
                out.push(Change::Hours(*day, span));
            }
        }
    }
    for day in &days {
        if hours_of(&bench.week, slots, *day).is_empty()
            && let Some(span) = DaySpan::new(8 * 60, 12 * 60)
        {
            out.push(Change::Hours(*day, span));
        }
    }
    let fresh = |file: &&PieceFile| file.piece.job == job && file.events.is_empty();
    let stained = |schedule: &crate::shop::Schedule| schedule.show.stained;
    if let Some(file) = floor.files.iter().find(fresh) {
        let fits = |recipe: &&Recipe| {
            recipe.id != file.piece.recipe && stained(&recipe.schedule) == stained(&file.schedule)
        };
        out.extend(
            recipes
                .iter()
                .filter(fits)
                .map(|recipe| Change::Recipe(recipe.id)),
        );
    }
    let before = made
        .sheet
        .jobs
        .iter()
        .find(|outlook| outlook.job == job)
        .and_then(|o| o.end);
    let in_front = |other: JobId| {
        made.sheet
            .lines
            .iter()
            .any(|line| line.job == other && before.is_some_and(|end| line.start < end))
    };
    for outlook in &made.sheet.jobs {
        if outlook.job != job
            && in_front(outlook.job)
            && let Some(later) = outlook
                .promised
                .and_then(|day| day.checked_add_days(Days::new(7)))
        {
            out.push(Change::OtherPromise(outlook.job, later));
        }
    }
    out
}

/// Makes the sheet again with the change.
fn tried(
    floor: &Floor<'_>,
    job: JobId,
    change: Change,
    recipes: &[Recipe],
    effort: Effort,
    stop: &AtomicBool,
) -> Option<Cure> {
    let (mut book, mut jobs, mut files): (
        Option<PlanBook>,
        Option<Vec<Job>>,
        Option<Vec<PieceFile>>,
    ) = (None, None, None);
    match change {
        Change::Hours(day, span) => {
            let mut changed = floor.book.clone();
            changed.slots.push(Slot {
                id: SlotId(Uuid::nil()),
                day,
                means: SlotMeans::Added(span),
                what: String::new(),
            });
            book = Some(changed);
        }
        Change::Recipe(id) => {
            let recipe = recipes.iter().find(|recipe| recipe.id == id)?;
            let mut changed = floor.files.to_vec();
            for file in &mut changed {
                if file.piece.job == job && file.events.is_empty() {
                    file.schedule = recipe.schedule.clone();
                }
            }
            files = Some(changed);
        }
        Change::OtherPromise(other, later) => {
            let mut changed = floor.jobs.to_vec();
            changed.iter_mut().find(|job| job.id == other)?.promised = Some(later);
            jobs = Some(changed);
        }
        Change::OwnPromise(_) => return None,
    }
    let changed = Floor {
        files: files.as_deref().unwrap_or(floor.files),
        jobs: jobs.as_deref().unwrap_or(floor.jobs),
        book: book.as_ref().unwrap_or(floor.book),
        ..*floor
    };
    let sheet = make(&changed, effort, stop).sheet;
    let outlook = sheet.jobs.iter().find(|outlook| outlook.job == job)?;
    let change = match change {
        Change::OtherPromise(other, _) => {
            let end = sheet
                .jobs
                .iter()
                .find(|outlook| outlook.job == other)?
                .end?;
            let promised = floor.job(other)?.promised?;
            let day = floor.day_of(end).max(promised);
            if day == promised {
                return None;
            }
            Change::OtherPromise(other, day)
        }
        other => other,
    };
    Some(Cure {
        change,
        end: outlook.end?,
        late: outlook.late(),
    })
}
