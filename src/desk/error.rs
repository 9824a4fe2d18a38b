//! Why an action was not done.

use super::books::BooksError;
use crate::coating::ProductError;
use crate::shape::ShapeError;
use crate::shape::cutting::CutError;
use crate::shape::layout::{RuleError, StandingError};
use crate::shape::lumber::LumberError;
use crate::shop::{Blocker, ScheduleError};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use thiserror::Error;

/// A piece and every reason that held it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// The piece, as it is called on tickets.
    pub piece: String,
    /// The reasons, in order.
    pub blockers: Vec<Blocker>,
}

/// Why an action was not done. Nothing of it was saved.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DeskError {
    /// A gate held it.
    #[error("{what} was refused")]
    Refused {
        /// What was tried.
        what: String,
        /// Per piece, every reason.
        refusals: Vec<Refusal>,
    },
    /// A field that must be filled is empty.
    #[error("{what} is empty: {cure}")]
    Empty {
        /// The field.
        what: &'static str,
        /// What would do.
        cure: &'static str,
    },
    /// Text longer than a line on a ticket can hold.
    #[error(
        "{what} can have up to {most} characters; this has {has}. Shorten it; the rest can go into the notes."
    )]
    TooLong {
        /// The field.
        what: &'static str,
        /// Most characters.
        most: usize,
        /// Characters given.
        has: usize,
    },
    /// A promise in the past.
    #[error("A promise cannot lie in the past: {date} is before today, {today}.")]
    PastPromise {
        /// The date typed.
        date: chrono::NaiveDate,
        /// Today.
        today: chrono::NaiveDate,
    },
    /// A year no house was built in.
    #[error("{0} is not a year a house was built in; type four digits, or leave it empty.")]
    Year(i32),
    /// A name taken already.
    #[error("There is a {what} called {name} already; choose another name.")]
    NameTaken {
        /// What.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// Work has started, so the recipe stands.
    #[error(
        "Work on {0} has started, so its own copy of the schedule stands; make a new piece for another recipe."
    )]
    Started(String),
    /// Something was logged, so it stays on record.
    #[error("{0} has work on record and cannot be removed.")]
    OnRecord(String),
    /// Nothing picked.
    #[error("No piece was picked: pick one or more first.")]
    NoPiece,
    /// Pieces that take different products in one pass.
    #[error("These pieces do not take the same product: {0}. Log one pass for each product.")]
    MixedProducts(String),
    /// Can heavier after than before.
    #[error(
        "The can weighs more after ({after}) than before ({before}): weigh again, or swap the two."
    )]
    WeightRose {
        /// Before.
        before: String,
        /// After.
        after: String,
    },
    /// Nothing used.
    #[error("A pass uses something: type how much, or leave the amount empty for an estimate.")]
    NothingUsed,
    /// More than a pass can use.
    #[error(
        "{amount} is more than a hundred times the {expected} this area takes: check the unit."
    )]
    AbsurdAmount {
        /// Typed.
        amount: String,
        /// Expected.
        expected: String,
    },
    /// A wrong product kind.
    #[error("{product} is a {is}, not a {needs}: pick another product.")]
    WrongProduct {
        /// The product.
        product: String,
        /// Its kind.
        is: &'static str,
        /// The kind needed.
        needs: &'static str,
    },
    /// Nothing to undo.
    #[error("There is nothing to undo.")]
    NothingToUndo,
    /// Nothing to do again.
    #[error("There is nothing to do again: something new was done since, or nothing was undone.")]
    NothingToRedo,
    /// No such thing.
    #[error("There is no {what} called {name}.")]
    NoSuch {
        /// What.
        what: &'static str,
        /// As typed.
        name: String,
    },
    /// A bad shape.
    #[error(transparent)]
    Shape(#[from] ShapeError),
    /// A bad schedule.
    #[error(transparent)]
    Schedule(#[from] ScheduleError),
    /// A bad product.
    #[error(transparent)]
    Product(#[from] ProductError),
    /// A standing that cannot be.
    #[error(transparent)]
    Standing(#[from] StandingError),
    /// A figure that a layout check cannot go by.
    #[error(transparent)]
    Rule(#[from] RuleError),
    /// A cut that cannot be planned.
    #[error(transparent)]
    Cut(#[from] CutError),
    /// Lumber that cannot be reckoned.
    #[error(transparent)]
    Lumber(#[from] LumberError),
    /// The store.
    #[error(transparent)]
    Books(#[from] BooksError),
}

impl DeskError {
    /// The answer, line by line: what was refused, then every reason in order.
    pub fn lines(&self, now: DateTime<Utc>, zone: Tz) -> Vec<String> {
        let Self::Refused { refusals, .. } = self else {
            return vec![self.to_string()];
        };
        let mut out = Vec::new();
        for refusal in refusals {
            let count = refusal.blockers.len();
            let reasons = if count == 1 {
                "1 reason".to_owned()
            } else {
                format!("{count} reasons")
            };
            out.push(format!("{self}: {}, {reasons}", refusal.piece));
            out.extend(
                refusal
                    .blockers
                    .iter()
                    .map(|blocker| format!("- {}", blocker.words(now, zone))),
            );
        }
        out
    }
}
