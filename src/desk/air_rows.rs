//! What the store keeps of the shop's air and of drying.

use crate::coating::{AirReading, Assumed, FilmStage, ModelSettings, ProductId};
use crate::shop::{PassId, TouchVerdict};
use crate::units::{Area, SpreadRate, Volume};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

/// Where a reading came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AirSource {
    /// Typed by hand.
    Typed,
    /// From a data logger's file.
    Logger,
}

impl AirSource {
    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Typed => "typed",
            Self::Logger => "logger",
        }
    }
}

/// One row of the air log as it is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LoggedAir {
    /// When, to the whole second, and what was read.
    pub reading: AirReading,
    /// Where it came from.
    pub source: AirSource,
}

/// What the shop has set about drying, for every product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DryingRules {
    /// The law.
    pub law: ModelSettings,
    /// The air before the first reading.
    pub assumed: Assumed,
}

/// A span of the air log: from a moment up to another, both included; with no end, all that
/// follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AirSpan {
    /// From.
    pub from: DateTime<Utc>,
    /// To.
    pub to: Option<DateTime<Utc>>,
}

/// A touch test as the store has it, with the coat it was made on.
#[derive(Debug, Clone, PartialEq)]
pub struct TouchRecord {
    /// The product of the coat.
    pub product: ProductId,
    /// The pass the coat came from: one film, however many pieces it went over.
    pub pass: PassId,
    /// From when the coat's drying counts.
    pub laid: DateTime<Utc>,
    /// When it was tested.
    pub at: DateTime<Utc>,
    /// What was found.
    pub verdict: TouchVerdict,
    /// The pass's real spread rate, where it was measured or weighed.
    pub spread: Option<SpreadRate>,
}

impl TouchRecord {
    /// What was found, as the estimator takes it.
    pub fn stage(&self) -> FilmStage {
        match self.verdict {
            TouchVerdict::StillSoft => FilmStage::Soft,
            TouchVerdict::TouchDry => FilmStage::Touch,
            TouchVerdict::TackFree => FilmStage::TackFree,
            TouchVerdict::DryToRecoat => FilmStage::Recoat,
            TouchVerdict::DryToHandle => FilmStage::Handle,
        }
    }
}

/// Touch tests of a product that teach nothing, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PassedOver {
    /// Their coats were laid before the shop's first reading of its air.
    pub before_air: usize,
    /// Their coats had had no label-hours to speak of: just laid, or in air in which nothing dries.
    pub no_hours: usize,
}

impl PassedOver {
    /// Each why with its tests: `1 touch test does not count: its coat was laid before the first
    /// reading of the shop's air`.
    pub fn words(&self) -> Vec<String> {
        let said = |n: usize, why: &str| match n {
            0 => None,
            1 => Some(format!("1 touch test does not count: its coat {why}")),
            n => Some(format!(
                "{n} touch tests do not count: each one's coat {why}"
            )),
        };
        [
            said(
                self.before_air,
                "was laid before the first reading of the shop's air",
            ),
            said(self.no_hours, "had had no label-hours"),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// The spread rate of what was really used over an area; none where that is no spread rate.
pub fn spread_of(area: Area, used: Volume) -> Option<SpreadRate> {
    SpreadRate::from_m2_per_l(area.m2() / (used.ml() / 1000.0))
}
