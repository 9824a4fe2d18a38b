//! The demo shop, carried in the program and loaded through the same import as any other.

use super::error::FilesError;
use super::import::{Begins, ImportReport, bring_in};
use super::source::Source;
use crate::coating::DryingClock;
use crate::coating::id::Mint;
use crate::desk::Books;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// The files of the demo shop: an invented shop with invented people.
pub fn demo_files() -> [(&'static str, &'static str); 34] {
    [
        ("shop.toml", include_str!("../../../demo-data/shop.toml")),
        (
            "products.toml",
            include_str!("../../../demo-data/products.toml"),
        ),
        (
            "recipes.toml",
            include_str!("../../../demo-data/recipes.toml"),
        ),
        (
            "clients.csv",
            include_str!("../../../demo-data/clients.csv"),
        ),
        ("jobs.csv", include_str!("../../../demo-data/jobs.csv")),
        ("pieces.csv", include_str!("../../../demo-data/pieces.csv")),
        (
            "openings.csv",
            include_str!("../../../demo-data/openings.csv"),
        ),
        (
            "schedules.toml",
            include_str!("../../../demo-data/schedules.toml"),
        ),
        ("passes.csv", include_str!("../../../demo-data/passes.csv")),
        ("log.csv", include_str!("../../../demo-data/log.csv")),
        ("cans.csv", include_str!("../../../demo-data/cans.csv")),
        (
            "can_log.csv",
            include_str!("../../../demo-data/can_log.csv"),
        ),
        ("draws.csv", include_str!("../../../demo-data/draws.csv")),
        ("air.csv", include_str!("../../../demo-data/air.csv")),
        ("day.csv", include_str!("../../../demo-data/day.csv")),
        ("woods.toml", include_str!("../../../demo-data/woods.toml")),
        ("sites.csv", include_str!("../../../demo-data/sites.csv")),
        (
            "fastening.csv",
            include_str!("../../../demo-data/fastening.csv"),
        ),
        ("bench.toml", include_str!("../../../demo-data/bench.toml")),
        (
            "moisture.csv",
            include_str!("../../../demo-data/moisture.csv"),
        ),
        (
            "prices.toml",
            include_str!("../../../demo-data/prices.toml"),
        ),
        ("terms.csv", include_str!("../../../demo-data/terms.csv")),
        ("items.csv", include_str!("../../../demo-data/items.csv")),
        (
            "estimates.csv",
            include_str!("../../../demo-data/estimates.csv"),
        ),
        (
            "estimate_lines.csv",
            include_str!("../../../demo-data/estimate_lines.csv"),
        ),
        (
            "estimate_steps.csv",
            include_str!("../../../demo-data/estimate_steps.csv"),
        ),
        (
            "agreements.csv",
            include_str!("../../../demo-data/agreements.csv"),
        ),
        (
            "payments_due.csv",
            include_str!("../../../demo-data/payments_due.csv"),
        ),
        (
            "changes.csv",
            include_str!("../../../demo-data/changes.csv"),
        ),
        (
            "samples.csv",
            include_str!("../../../demo-data/samples.csv"),
        ),
        (
            "invoices.csv",
            include_str!("../../../demo-data/invoices.csv"),
        ),
        (
            "payments.csv",
            include_str!("../../../demo-data/payments.csv"),
        ),
        ("hours.csv", include_str!("../../../demo-data/hours.csv")),
        ("breaks.csv", include_str!("../../../demo-data/breaks.csv")),
    ]
}

/// Loads the demo shop into a store without clients. Its times count back from `now`, so that at
/// any hour something dries, something is ready, one window is missed and one run is sanded back.
///
/// # Errors
/// [`FilesError::NotEmpty`] for a store with clients, and what the store itself meets.
pub fn load_demo(
    books: &mut dyn Books,
    now: DateTime<Utc>,
    mint: &mut Mint,
    zone: Tz,
    clock: &dyn DryingClock,
) -> Result<ImportReport, FilesError> {
    let files = demo_files();
    bring_in(
        books,
        Source::Carried(&files),
        Begins::Shop("Opened the demo shop"),
        (now, zone),
        mint,
        clock,
    )
}
