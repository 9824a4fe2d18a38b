//! Why something about money or hours is not done.

use crate::money::{EstimateError, PartError, RateError};
use crate::shop::HoursLogError;
use thiserror::Error;

/// Why something about money or hours is not done.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum MoneyRefusal {
    /// Parts that do not make the total.
    #[error(transparent)]
    Parts(#[from] PartError),
    /// No estimate can be made.
    #[error(transparent)]
    Estimate(#[from] EstimateError),
    /// No hourly rate can be reckoned.
    #[error(transparent)]
    Rate(#[from] RateError),
    /// Hours that cannot be.
    #[error(transparent)]
    Hours(#[from] HoursLogError),
    /// A job without pieces and lines.
    #[error(
        "Job {0} has no piece and no line of its own yet, so there is nothing to price: enter one first."
    )]
    NothingToPrice(u32),
    /// No estimate was given.
    #[error("No estimate was given for job {0} yet: give one, or say the price and the tax.")]
    NoEstimate(u32),
    /// Nothing was signed.
    #[error(
        "Nothing is signed for job {0} yet, so there is nothing to change: sign the agreement first."
    )]
    NotSigned(u32),
    /// The agreement stands.
    #[error("Job {no} is signed and {why}, so the agreement stands: write a change order instead.")]
    Stands {
        /// The job.
        no: u32,
        /// What hangs on it.
        why: &'static str,
    },
    /// A price below nothing.
    #[error("The agreed price must be above nothing, and its tax not below: type them again.")]
    Price,
    /// No promised date.
    #[error("Say when it is to be set: an agreement holds a start and a finish.")]
    NoPromise,
    /// Dates out of order.
    #[error("{0}")]
    Dates(String),
    /// A signature or payment of the future.
    #[error("{what} cannot lie ahead of today, {today}: type the day it happened.")]
    Ahead {
        /// What.
        what: &'static str,
        /// Today.
        today: chrono::NaiveDate,
    },
    /// A change that was signed.
    #[error("Change order {0} is signed and stands: write another that takes it back.")]
    ChangeSigned(u32),
    /// Signed or approved before.
    #[error("{what} was {how} on {on} by {by} already.")]
    Already {
        /// What.
        what: String,
        /// Signed or approved.
        how: &'static str,
        /// When.
        on: chrono::NaiveDate,
        /// By whom.
        by: String,
    },
    /// A change of nothing.
    #[error("A change order changes the price or the date: give a price or days.")]
    NoChange,
    /// More than the job comes to.
    #[error(
        "With {amount} job {no} would be billed {over} more than its total of {total}: write a change order first, or bill the rest."
    )]
    OverBilled {
        /// The job.
        no: u32,
        /// The amount.
        amount: String,
        /// How much more.
        over: String,
        /// Its total.
        total: String,
    },
    /// An amount that is none.
    #[error("{0} must be above nothing.")]
    Nothing(&'static str),
    /// A payment of nothing.
    #[error("A payment of nothing is none: type how much; money given back with a minus.")]
    NoPayment,
    /// An invoice of another job.
    #[error("Invoice {0} belongs to another job: leave the invoice out, or name one of this job.")]
    OtherJob(u32),
    /// An invoice that was paid on.
    #[error("Something was paid on invoice {0}, so it stands: correct the payment first.")]
    PaidOn(u32),
    /// No clock runs.
    #[error("No clock runs: start one on a step first.")]
    NoClock,
    /// The same clock.
    #[error("The clock runs on that already, since {0}.")]
    Runs(String),
    /// The clock started later than that.
    #[error("The clock was started {0}: give a later time, or correct its start.")]
    BeforeStart(String),
    /// Interrupted already.
    #[error("The work is interrupted already, since {0}.")]
    Paused(String),
    /// Not interrupted.
    #[error("The work is not interrupted: the clock runs.")]
    NotPaused,
    /// A piece of another job.
    #[error("{0} belongs to another job: log each job's hours by themselves.")]
    OtherPiece(String),
    /// A figure for pricing that cannot be.
    #[error("{0}")]
    Figure(String),
    /// A place without a row.
    #[error("{what} {name} is not in the table: add it first, or leave it empty.")]
    NoPlace {
        /// Which table.
        what: &'static str,
        /// The name.
        name: String,
    },
}
