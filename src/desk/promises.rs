//! "When can I set this?": a promise reckoned over a snapshot of the shop.

use super::day_plan::PromiseDraft;
use super::day_sheet::{effort, with_floor};
use super::snapshot::Shop;
use crate::shop::day_sheet::Floor;
use crate::shop::promise::{Answered, EVEN, NINE, Odds, odds, what_ifs};
use crate::shop::{Job, JobId, PieceFile, PieceId};
use chrono::{DateTime, NaiveDate, Utc};
use std::sync::atomic::AtomicBool;
use uuid::Uuid;

/// Runs of one simulation: the odds of a day are then true to some two in a hundred.
pub const RUNS: u32 = 400;
/// Runs of a what-if.
const WHAT_IF_RUNS: u32 = 120;
/// Orders tried for the sheet a promise is simulated on.
const PROMISE_ROUNDS: u64 = 1_000;

/// Which work is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PromiseAsk {
    /// A job, its pieces as they stand.
    Job(JobId),
    /// Another like this job, beside it, with nothing done yet.
    AnotherLike(JobId),
}

/// What can be promised.
#[derive(Debug, Clone, PartialEq)]
pub struct PromiseAnswer {
    /// The job it is about; of another like it, that one.
    pub job: JobId,
    /// The odds of every day.
    pub odds: Odds,
    /// The even-odds date.
    pub even: NaiveDate,
    /// The 9-in-10 date.
    pub nine: NaiveDate,
    /// The moment with even odds.
    pub even_by: DateTime<Utc>,
    /// The moment with odds of 9 in 10.
    pub nine_by: DateTime<Utc>,
    /// How many pieces are open in the shop, those asked about included.
    pub open_pieces: u32,
    /// What it was reckoned by.
    pub basis: String,
    /// What would bring it forward, or not.
    pub what_ifs: Vec<Answered>,
}

impl PromiseAnswer {
    /// A promise of this date, ready to be pinned.
    pub fn draft(&self, date: NaiveDate) -> PromiseDraft {
        PromiseDraft {
            job: self.job,
            date,
            odds: self.odds.of(date),
            even: self.even,
            nine: self.nine,
            open_pieces: self.open_pieces,
            basis: self.basis.clone(),
        }
    }
}

/// Reckons a promise. Like the day sheet it reads no store and no clock, and the same shop at the
/// same moment gives the same answer. `what_if` asks for the list of what would change it. None
/// where something holds the job, so that it has no end.
pub fn promise(
    shop: &Shop,
    now: DateTime<Utc>,
    ask: PromiseAsk,
    what_if: bool,
    halt: &AtomicBool,
) -> Option<PromiseAnswer> {
    let with_copy = match ask {
        PromiseAsk::Job(_) => None,
        PromiseAsk::AnotherLike(job) => Some(copied(shop, job)?),
    };
    let (shop, job) = match (&with_copy, ask) {
        (Some((shop, job)), _) => (shop, *job),
        (None, PromiseAsk::Job(job) | PromiseAsk::AnotherLike(job)) => (shop, job),
    };
    // A job that is asked about is not promised yet: what was promised before must not pull it.
    let likely = shop.clock().likely();
    let effort = effort(shop, PROMISE_ROUNDS);
    with_floor(shop, now, |floor| {
        let odds = odds(floor, &likely, job, (RUNS, effort), halt)?;
        let what_ifs = if what_if {
            let ask = (WHAT_IF_RUNS, effort);
            what_ifs(floor, &likely, job, &shop.recipes, ask, halt)
        } else {
            Vec::new()
        };
        let (even, nine) = (odds.day(EVEN)?, odds.day(NINE)?);
        let open = shop
            .files
            .iter()
            .filter(|file| !file.piece.finished)
            .count();
        Some(PromiseAnswer {
            job,
            even,
            nine,
            even_by: odds.moment(EVEN)?,
            nine_by: odds.moment(NINE)?,
            open_pieces: u32::try_from(open).unwrap_or(u32::MAX),
            basis: basis(floor, &odds, open),
            odds,
            what_ifs,
        })
    })
}

fn basis(floor: &Floor<'_>, odds: &Odds, open: usize) -> String {
    let interruptions = floor.book.bench.interruptions;
    let [low, _, high] = interruptions.minutes.minutes();
    format!(
        "{} runs over {}; drying by {}, between the likely and the safe clock and a fifth beyond; \
         step times inside their ranges; {} interruptions in ten days of {low:.0} to {high:.0} min",
        odds.runs(),
        crate::units::counted(open, "open piece", "open pieces"),
        floor.gates.clock.basis(),
        interruptions.in_ten_days
    )
}

/// The shop with another job like this one, its pieces untouched.
fn copied(shop: &Shop, job: JobId) -> Option<(Shop, JobId)> {
    let like = shop.job(job)?;
    let mut out = shop.clone();
    // Never stored: identifiers that no store gives.
    let id = JobId(Uuid::from_u128(1));
    out.jobs.push(Job {
        id,
        promised: None,
        ..like.clone()
    });
    let copies: Vec<PieceFile> = shop
        .files
        .iter()
        .filter(|file| file.piece.job == job)
        .zip(2_u128..)
        .map(|(file, no)| {
            let mut piece = file.piece.clone();
            piece.id = PieceId(Uuid::from_u128(no));
            piece.job = id;
            piece.finished = false;
            piece.stage = crate::shop::Stage::Sanding;
            PieceFile {
                piece,
                schedule: file.schedule.clone(),
                events: Vec::new(),
            }
        })
        .collect();
    if copies.is_empty() {
        return None;
    }
    out.files.extend(copies);
    Some((out, id))
}

impl Shop {
    /// The day on which the last piece of a job was set; none while one is open.
    pub fn set_on(&self, job: JobId) -> Option<NaiveDate> {
        let files = self.files.iter().filter(|file| file.piece.job == job);
        let days: Option<Vec<NaiveDate>> = files
            .map(|file| {
                let finished = crate::shop::Ticket::of(file).finished?;
                Some(crate::shop::day_of(finished, self.settings.zone))
            })
            .collect();
        days?.into_iter().max()
    }
}

/// The share of promises kept, over time, against the odds quoted. The shop must have been read
/// whole.
pub fn promise_shares(shop: &Shop, now: DateTime<Utc>) -> Vec<crate::shop::Share> {
    let today = crate::shop::day_of(now, shop.settings.zone);
    crate::shop::shares(&shop.plan.promises, |job| shop.set_on(job), today)
}
