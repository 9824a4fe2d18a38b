//! What a shop's days are planned by: bench hours, rack places, dust, step times, interruptions.

use super::hours::{Slot, WeekHours};
use super::promise_record::Promise;
use super::sheet_kept::{KeptSheet, UnderWay};
use super::step_times::{Range, StepTimes};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// How often the door, the telephone and the delivery take time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Interruptions {
    /// In ten bench days.
    pub in_ten_days: u32,
    /// How long one takes.
    pub minutes: Range,
}

/// The figures a shop plans by.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BenchBook {
    /// Bench hours of an ordinary week.
    pub week: WeekHours,
    /// Places for drying pieces; none is no limit.
    pub rack: Option<u32>,
    /// How long after sanding its dust hangs in the air, minutes.
    pub settle: u32,
    /// The same after a scuff.
    pub settle_scuff: u32,
    /// How long a set-up stands after a pass, minutes.
    pub keep: u32,
    /// Step times.
    pub times: StepTimes,
    /// Interruptions, for promises.
    pub interruptions: Interruptions,
    /// What the search and the simulations begin with. The same figure, the same sheet.
    pub seed: u32,
}

impl Default for BenchBook {
    /// Where a shop starts. Dust settles in half an hour after a sander, ten minutes after a hand
    /// scuff; a set-up stands an hour; twenty interruptions in ten days of ten to sixty minutes:
    /// all common practice, no source.
    fn default() -> Self {
        Self {
            week: WeekHours::starting(),
            rack: None,
            settle: 30,
            settle_scuff: 10,
            keep: 60,
            times: StepTimes::default(),
            interruptions: Interruptions {
                in_ten_days: 20,
                minutes: Range::of_minutes(10.0, 20.0, 60.0),
            },
            seed: 20_261_127,
        }
    }
}

/// Why a bench book cannot be as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum BenchBookError {
    /// A rack without places.
    #[error(
        "A rack needs at least one place, and a hundred are the most: type a number, or none for no limit."
    )]
    Rack,
    /// Dust that hangs longer than a day.
    #[error("Dust settles within a day: type minutes up to 1440.")]
    Settle,
    /// A set-up that outlives the day.
    #[error("A set-up stands up to a day: type minutes up to 1440.")]
    Keep,
    /// More interruptions than work.
    #[error(
        "Interruptions must rise from low over likely to high, each up to 8 hours, at most 20 a day."
    )]
    Interruptions,
}

impl BenchBook {
    /// Checks what the types alone cannot.
    ///
    /// # Errors
    /// [`BenchBookError`] for figures no shop works by.
    pub fn check(&self) -> Result<(), BenchBookError> {
        if self.rack.is_some_and(|places| !(1..=100).contains(&places)) {
            return Err(BenchBookError::Rack);
        }
        if self.settle > 1440 || self.settle_scuff > 1440 {
            return Err(BenchBookError::Settle);
        }
        if self.keep > 1440 {
            return Err(BenchBookError::Keep);
        }
        let Range { low, likely, high } = self.interruptions.minutes;
        let rises = low <= likely && likely <= high && high <= 480_000;
        if !rises || self.interruptions.in_ten_days > 200 {
            return Err(BenchBookError::Interruptions);
        }
        Ok(())
    }
}

/// All that is on record about the planning of days.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlanBook {
    /// The figures.
    pub bench: BenchBook,
    /// Changes of single days, by day.
    pub slots: Vec<Slot>,
    /// The sheet that was kept last.
    pub kept: Option<KeptSheet>,
    /// The step under way.
    pub under_way: Option<UnderWay>,
    /// Every promise pinned, by when it was made.
    pub promises: Vec<Promise>,
}
