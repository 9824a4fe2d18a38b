//! The day sheet and promises over a snapshot of the shop: plain functions, so that a screen can run
//! them beside itself.

use super::snapshot::Shop;
use crate::shop::day_sheet::{Effort, Floor, LateJob, Made, make};
use chrono::{DateTime, Utc};
use std::sync::atomic::AtomicBool;

/// How many orders are tried for a sheet unless somebody asks for more: some tens of milliseconds
/// for a shop of a few pieces.
pub const ROUNDS: u64 = 4_000;

/// Makes the day sheet of a shop as it was read. It reads no store and no clock and may run for as
/// long as its rounds take; when `halt` is set it gives back the best it has. The same shop at the
/// same moment gives the same sheet.
pub fn day_sheet(shop: &Shop, now: DateTime<Utc>, rounds: u64, halt: &AtomicBool) -> Made {
    with_floor(shop, now, |floor| make(floor, effort(shop, rounds), halt))
}

/// The late jobs of a sheet, why they are late, and the cheapest cures found: each is tried by
/// making the sheet again, with fewer rounds.
pub fn late_jobs(
    shop: &Shop,
    now: DateTime<Utc>,
    made: &Made,
    rounds: u64,
    halt: &AtomicBool,
) -> Vec<LateJob> {
    let effort = Effort {
        refine: 1,
        ..effort(shop, rounds / 10)
    };
    with_floor(shop, now, |floor| {
        crate::shop::day_sheet::late_jobs(floor, made, &shop.recipes, effort, halt)
    })
}

/// The effort of a shop's searches.
pub(super) fn effort(shop: &Shop, rounds: u64) -> Effort {
    Effort {
        seed: u64::from(shop.plan.bench.seed),
        rounds,
        refine: 5,
    }
}

/// The shop as the planning of days sees it.
pub fn with_floor<T>(shop: &Shop, now: DateTime<Utc>, work: impl FnOnce(&Floor<'_>) -> T) -> T {
    let clock = shop.clock();
    let floor = Floor {
        files: &shop.files,
        jobs: &shop.jobs,
        gates: shop.gates(&clock),
        products: &shop.products,
        book: &shop.plan,
        zone: shop.settings.zone,
        now,
    };
    work(&floor)
}
