//! What would bring a date forward: fewer coats, another recipe, a Saturday.

use super::{EVEN, NINE, Odds, odds};
use crate::coating::DryingClock;
use crate::shop::bench_book::PlanBook;
use crate::shop::day_sheet::{Effort, Floor};
use crate::shop::hours::DaySpan;
use crate::shop::id::{JobId, RecipeId};
use crate::shop::piece::PieceFile;
use crate::shop::recipe::Recipe;
use crate::shop::schedule::Schedule;
use chrono::{NaiveDate, Weekday};
use std::sync::atomic::{AtomicBool, Ordering};

/// One what-if.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhatIf {
    /// One topcoat fewer on pieces on which no work has started.
    FewerCoats,
    /// Those pieces follow another recipe, with other products.
    Recipe(RecipeId),
    /// Saturdays from 8 to 12.
    Saturday,
}

/// A what-if with its dates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Answered {
    /// What.
    pub what: WhatIf,
    /// The even-odds date.
    pub even: NaiveDate,
    /// The 9-in-10 date.
    pub nine: NaiveDate,
}

/// The dates under each what-if that can be.
pub fn what_ifs(
    floor: &Floor<'_>,
    likely: &dyn DryingClock,
    job: JobId,
    recipes: &[Recipe],
    (runs, effort): (u32, Effort),
    stop: &AtomicBool,
) -> Vec<Answered> {
    let mut out = Vec::new();
    let mut answer = |what, odds: Option<Odds>| {
        let dates = odds.and_then(|odds| Some((odds.day(EVEN)?, odds.day(NINE)?)));
        out.extend(dates.map(|(even, nine)| Answered { what, even, nine }));
    };
    let ask = |floor: &Floor<'_>| odds(floor, likely, job, (runs, effort), stop);
    let fresh = |file: &PieceFile| file.piece.job == job && file.events.is_empty();
    let with = |change: &dyn Fn(&Schedule) -> Option<Schedule>| -> Option<Vec<PieceFile>> {
        let mut files = floor.files.to_vec();
        let mut changed = false;
        for file in files.iter_mut().filter(|file| fresh(file)) {
            if let Some(schedule) = change(&file.schedule) {
                changed |= schedule != file.schedule;
                file.schedule = schedule;
            }
        }
        changed.then_some(files)
    };
    if let Some(files) = with(&fewer) {
        answer(
            WhatIf::FewerCoats,
            ask(&Floor {
                files: &files,
                ..*floor
            }),
        );
    }
    let stained = floor
        .files
        .iter()
        .find(|file| fresh(file))
        .map(|file| file.schedule.show.stained);
    for recipe in recipes {
        if stop.load(Ordering::Relaxed) {
            break;
        }
        let other = |_: &Schedule| Some(recipe.schedule.clone());
        if stained != Some(recipe.schedule.show.stained) {
            continue;
        }
        if let Some(files) = with(&other) {
            answer(
                WhatIf::Recipe(recipe.id),
                ask(&Floor {
                    files: &files,
                    ..*floor
                }),
            );
        }
    }
    if let Some(book) = saturdays(floor.book) {
        answer(
            WhatIf::Saturday,
            ask(&Floor {
                book: &book,
                ..*floor
            }),
        );
    }
    out
}

/// The schedule with one topcoat fewer on every side, if it still seals and balances.
fn fewer(schedule: &Schedule) -> Option<Schedule> {
    let mut out = schedule.clone();
    for plan in [&mut out.show, &mut out.end_grain, &mut out.underside] {
        plan.topcoats = plan.topcoats.checked_sub(1)?;
    }
    (out.show.topcoats > 0 && out.check().is_ok()).then_some(out)
}

/// The shop with Saturday mornings, if it has none.
fn saturdays(book: &PlanBook) -> Option<PlanBook> {
    if !book.bench.week.day(Weekday::Sat).is_empty() {
        return None;
    }
    let mut out = book.clone();
    let span = DaySpan::new(8 * 60, 12 * 60)?;
    out.bench.week = book.bench.week.with(Weekday::Sat, vec![span]).ok()?;
    Some(out)
}
