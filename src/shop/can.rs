//! A can on the shelf: what it is, where it came from, how long it keeps.
//!
//! What is left in it and how that is known is never written down: it is folded from the can's log
//! and the passes that drew on it (`can_fold`).

use super::id::CanId;
use crate::coating::ProductId;
use crate::units::{Mass, Money, Volume};
use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

/// A can within so many days of its shelf life's end is told as such; judgement.
pub const DAYS_SOON: i64 = 30;

/// How a can came to stand on the shelf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Came {
    /// Bought.
    Bought {
        /// The day it came.
        on: NaiveDate,
        /// What was paid for what it held.
        price: Money,
    },
    /// Mixed in the shop, out of other cans: what it cost is what went in was worth.
    Mixed {
        /// When.
        at: DateTime<Utc>,
    },
}

/// How long the label says it keeps, in whole days; none where it says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub struct Keeps {
    /// From the day it came.
    pub sealed: Option<u32>,
    /// From the day it was opened.
    pub open: Option<u32>,
}

/// The last day on which a can is good, and what sets it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeepsDay {
    /// Counted from the day it came.
    Sealed(NaiveDate),
    /// Counted from the day it was opened.
    Open(NaiveDate),
}

impl KeepsDay {
    /// The day.
    pub fn day(self) -> NaiveDate {
        match self {
            Self::Sealed(day) | Self::Open(day) => day,
        }
    }
}

impl Keeps {
    /// The earlier of the two ends; none where the label says nothing. An end that the calendar
    /// does not hold is none.
    pub fn until(self, came: NaiveDate, opened: Option<NaiveDate>) -> Option<KeepsDay> {
        let end = |from: NaiveDate, days: Option<u32>| {
            from.checked_add_signed(TimeDelta::days(i64::from(days?)))
        };
        let sealed = end(came, self.sealed).map(KeepsDay::Sealed);
        let open = opened
            .and_then(|opened| end(opened, self.open))
            .map(KeepsDay::Open);
        [sealed, open]
            .into_iter()
            .flatten()
            .min_by_key(|end| end.day())
    }
}

/// One can.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Can {
    /// Its identifier. A can that was mixed has a later one than every can it was mixed of.
    pub id: CanId,
    /// The number on its lid, counted by the shop from 1.
    pub no: u32,
    /// What is in it.
    pub product: ProductId,
    /// The size it holds.
    pub size: Volume,
    /// What was in it when it came: the size, or less for a can that was begun already.
    pub held: Volume,
    /// Batch number as printed, or the batches it was mixed of; empty where it was not read.
    pub batch: String,
    /// How it came.
    pub came: Came,
    /// How long it keeps.
    pub keeps: Keeps,
    /// What the empty can weighs with its lid, if that is known.
    pub empty: Option<Mass>,
    /// Where it was put when it came.
    pub place: String,
}

impl Can {
    /// What it is called on the lid and in the journal: `can 7`.
    pub fn called(&self) -> String {
        format!("can {}", self.no)
    }

    /// The day it came, on the calendar of `zone`.
    pub fn day(&self, zone: chrono_tz::Tz) -> NaiveDate {
        match self.came {
            Came::Bought { on, .. } => on,
            Came::Mixed { at } => at.with_timezone(&zone).date_naive(),
        }
    }
}
