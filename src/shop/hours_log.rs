//! The hours log: what was worked on, when, with interruptions.

use super::id::{HoursId, JobId, PieceId};
use crate::money::StepKind;
use chrono::{DateTime, Duration, Utc};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// An interruption.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Break {
    /// From.
    pub from: DateTime<Utc>,
    /// Until; none while it lasts.
    pub until: Option<DateTime<Utc>>,
    /// Why, if said.
    pub why: String,
}

/// One entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoursEntry {
    /// Its identifier.
    pub id: HoursId,
    /// The job.
    pub job: JobId,
    /// The pieces of that job it was done on; none for work on the job as a whole.
    pub pieces: Vec<PieceId>,
    /// The kind of step.
    pub step: StepKind,
    /// Start.
    pub started: DateTime<Utc>,
    /// End; none while the clock runs.
    pub ended: Option<DateTime<Utc>>,
    /// Interruptions, in order; only the last may last.
    pub breaks: Vec<Break>,
}

/// Why an entry cannot be.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum HoursLogError {
    /// It ends before it starts.
    #[error("The work would end before it starts: type the later time as its end.")]
    Backward,
    /// A start or an end in the future.
    #[error("That time is still to come: hours are logged when they are worked.")]
    Ahead,
    /// More than a day.
    #[error("That is more than 24 hours in one go: log each day's work by itself.")]
    TooLong,
    /// An interruption outside of the work, or across another.
    #[error("Each interruption must lie within the work and after the one before it.")]
    Break,
    /// An interruption that lasts although the work has ended.
    #[error("An interruption has no end: say when work went on.")]
    OpenBreak,
}

impl HoursEntry {
    /// Whether its clock runs (also while interrupted).
    pub fn runs(&self) -> bool {
        self.ended.is_none()
    }

    /// The interruption that lasts, if one does.
    pub fn paused(&self) -> Option<&Break> {
        self.breaks.last().filter(|last| last.until.is_none())
    }

    /// Time worked up to `now`, interruptions left out.
    pub fn worked(&self, now: DateTime<Utc>) -> Duration {
        let end = self.ended.unwrap_or(now).max(self.started);
        let idle = self
            .breaks
            .iter()
            .map(|one| one.until.unwrap_or(end).min(end) - one.from.min(end))
            .fold(Duration::zero(), |sum, one| sum + one);
        (end - self.started - idle).max(Duration::zero())
    }

    /// Whether it can stand.
    ///
    /// # Errors
    /// [`HoursLogError`].
    pub fn check(&self, now: DateTime<Utc>) -> Result<(), HoursLogError> {
        let end = self.ended.unwrap_or(now);
        if self.started > now || self.ended.is_some_and(|ended| ended > now) {
            return Err(HoursLogError::Ahead);
        }
        if end < self.started {
            return Err(HoursLogError::Backward);
        }
        if self.ended.is_some() && end - self.started > Duration::hours(24) {
            return Err(HoursLogError::TooLong);
        }
        let mut last = self.started;
        for (at, one) in self.breaks.iter().enumerate() {
            let lasts = at + 1 == self.breaks.len() && self.ended.is_none();
            let until = match one.until {
                Some(until) => until,
                None if lasts => end,
                None => return Err(HoursLogError::OpenBreak),
            };
            if one.from < last || until < one.from || until > end {
                return Err(HoursLogError::Break);
            }
            last = until;
        }
        Ok(())
    }

    /// Whether two entries lie over each other: one pair of hands does one thing at a time.
    pub fn overlaps(&self, other: &Self, now: DateTime<Utc>) -> bool {
        let end = |one: &Self| one.ended.unwrap_or(now);
        self.started < end(other) && other.started < end(self)
    }
}
