//! How long a step takes: minutes = fixed + rate x area, as a range that the person can edit and
//! that the hours log narrows.
//!
//! Small tops are dominated by the fixed part, so a rate alone would not do. The starting ranges
//! are ours to be replaced by the owner's clock; each says how it was found.

use crate::units::Area;
use crate::wood::Standing;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use thiserror::Error;

/// Square feet in a square metre.
const SQ_FT: f64 = 10.763_910_416_709_722;

/// A kind of work that has a time of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// One grit on flat faces: top, underside, band.
    SandFlat,
    /// One grit on edges, ends, rims and walls.
    SandEdge,
    /// The wipe-down after the last grit.
    WipeDown,
    /// Stain on, and off again.
    Stain,
    /// A coat brushed or wiped on.
    Coat,
    /// A coat sprayed.
    Spray,
    /// A scuff between coats.
    Scuff,
    /// Abrading after a missed window.
    Abrade,
    /// A touch test.
    Touch,
    /// Set-up and clean-up of a product, shared by passes one after another.
    SetUp,
    /// Setting one piece on site.
    Set,
    /// The way to a site and back, shared by the pieces set in one go.
    Travel,
}

impl Step {
    /// Every kind, in the order of work.
    pub const ALL: [Self; 12] = [
        Self::SandFlat,
        Self::SandEdge,
        Self::WipeDown,
        Self::Stain,
        Self::Coat,
        Self::Spray,
        Self::Scuff,
        Self::Abrade,
        Self::Touch,
        Self::SetUp,
        Self::Set,
        Self::Travel,
    ];

    /// The word in files and commands.
    pub fn code(self) -> &'static str {
        match self {
            Self::SandFlat => "sand-flat",
            Self::SandEdge => "sand-edge",
            Self::WipeDown => "wipe-down",
            Self::Stain => "stain",
            Self::Coat => "coat",
            Self::Spray => "spray",
            Self::Scuff => "scuff",
            Self::Abrade => "abrade",
            Self::Touch => "touch",
            Self::SetUp => "set-up",
            Self::Set => "set",
            Self::Travel => "travel",
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::SandFlat => "sand flat faces, one grit",
            Self::SandEdge => "sand edges and walls, one grit",
            Self::WipeDown => "wipe down",
            Self::Stain => "stain on and off",
            Self::Coat => "brush or wipe a coat",
            Self::Spray => "spray a coat",
            Self::Scuff => "scuff",
            Self::Abrade => "abrade after a missed window",
            Self::Touch => "touch test",
            Self::SetUp => "set up and clean up a product",
            Self::Set => "set a piece on site",
            Self::Travel => "way to the site and back",
        }
    }

    /// Reads the code back.
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|step| step.code() == code)
    }

    /// Whether area counts for it.
    pub fn has_rate(self) -> bool {
        !matches!(self, Self::Touch | Self::SetUp | Self::Travel)
    }

    /// The starting range, minutes fixed and minutes a square foot, and how it was found.
    ///
    /// Sanding flat: three passes a grit with a 5 in pad at half overlap, 1 to 4 in/s: 0.7 to 2.9
    /// min/sq ft, derived. Edges: 1 to 2 min a foot for four grits of a 1 1/2 in edge. Scuff,
    /// stain, brush and spray: common practice, no source. A coat's 15 to 30 min fixed (stir,
    /// strain, tack, clean) are parted between set-up (shared) and piece. The rest is a judgement.
    fn starting(self) -> (StepTime, Standing) {
        let (fixed, rate, standing) = match self {
            Self::SandFlat => ((2.0, 3.0, 5.0), (0.7, 1.4, 2.9), Standing::Derived),
            Self::SandEdge => ((1.0, 1.0, 2.0), (2.0, 2.8, 4.0), Standing::Practice),
            Self::WipeDown => ((3.0, 5.0, 8.0), (0.1, 0.2, 0.3), Standing::Judgement),
            Self::Stain => ((5.0, 7.0, 10.0), (0.6, 0.85, 1.2), Standing::Practice),
            Self::Coat => ((5.0, 7.0, 10.0), (0.4, 0.55, 0.8), Standing::Practice),
            Self::Spray => ((5.0, 7.0, 10.0), (0.15, 0.2, 0.3), Standing::Practice),
            Self::Scuff => ((3.0, 4.0, 6.0), (0.3, 0.4, 0.6), Standing::Practice),
            Self::Abrade => ((3.0, 4.0, 6.0), (0.6, 0.8, 1.2), Standing::Judgement),
            Self::Touch => ((2.0, 3.0, 5.0), (0.0, 0.0, 0.0), Standing::Judgement),
            Self::SetUp => ((10.0, 15.0, 20.0), (0.0, 0.0, 0.0), Standing::Practice),
            Self::Set => ((30.0, 45.0, 90.0), (1.0, 1.5, 3.0), Standing::Judgement),
            Self::Travel => ((30.0, 60.0, 90.0), (0.0, 0.0, 0.0), Standing::Judgement),
        };
        let range = |(low, likely, high), by: f64| {
            let milli = |minutes: f64| whole(minutes * by * 1000.0);
            Range {
                low: milli(low),
                likely: milli(likely),
                high: milli(high),
            }
        };
        let time = StepTime {
            fixed: range(fixed, 1.0),
            rate: range(rate, SQ_FT),
        };
        (time, standing)
    }
}

/// To the nearest whole, within `u32`.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within u32 on the same line"
)]
fn whole(value: f64) -> u32 {
    value.round().clamp(0.0, f64::from(u32::MAX)) as u32
}

/// Low, likely and high, in thousandths of a minute (of a minute a square metre for a rate).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Range {
    /// As fast as it goes.
    pub low: u32,
    /// Most often.
    pub likely: u32,
    /// When it drags.
    pub high: u32,
}

impl Range {
    /// A range of minutes.
    pub fn of_minutes(low: f64, likely: f64, high: f64) -> Self {
        Self {
            low: whole(low * 1000.0),
            likely: whole(likely * 1000.0),
            high: whole(high * 1000.0),
        }
    }

    /// A rate in minutes a square foot.
    pub fn of_sq_ft(low: f64, likely: f64, high: f64) -> Self {
        Self::of_minutes(low * SQ_FT, likely * SQ_FT, high * SQ_FT)
    }

    /// Low, likely, high in minutes (or minutes a square metre).
    pub fn minutes(self) -> [f64; 3] {
        [self.low, self.likely, self.high].map(|milli| f64::from(milli) / 1000.0)
    }

    /// A rate as minutes a square foot.
    pub fn per_sq_ft(self) -> [f64; 3] {
        self.minutes().map(|rate| rate / SQ_FT)
    }

    fn rises(self) -> bool {
        self.low <= self.likely && self.likely <= self.high
    }
}

/// The time of one kind of step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct StepTime {
    /// However large the piece is.
    pub fixed: Range,
    /// By area.
    pub rate: Range,
}

/// Why step times cannot be as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum StepTimeError {
    /// Low above likely, or likely above high.
    #[error("The time to {} must rise from low over likely to high.", .0.words())]
    Order(Step),
    /// No time at all.
    #[error("The time to {} is nothing: give at least half a minute fixed or a rate.", .0.words())]
    Nothing(Step),
    /// More than anybody spends.
    #[error("The time to {} is more than two days fixed or ten hours a square metre: check the unit.", .0.words())]
    TooLong(Step),
    /// A rate where none counts.
    #[error("The time to {} does not depend on the area: give only its fixed part.", .0.words())]
    NoRate(Step),
}

impl StepTime {
    /// Whether it can stand for this step.
    ///
    /// # Errors
    /// [`StepTimeError`] for ranges that do not rise, and for figures nobody works by.
    pub fn check(self, step: Step) -> Result<(), StepTimeError> {
        if !self.fixed.rises() || !self.rate.rises() {
            return Err(StepTimeError::Order(step));
        }
        if self.fixed.likely < 500 && self.rate.likely == 0 {
            return Err(StepTimeError::Nothing(step));
        }
        if self.fixed.high > 2 * 24 * 60 * 1000 || self.rate.high > 600_000 {
            return Err(StepTimeError::TooLong(step));
        }
        if !step.has_rate() && self.rate.high > 0 {
            return Err(StepTimeError::NoRate(step));
        }
        Ok(())
    }

    /// How long it takes over an area, minutes.
    pub fn over(self, area: Area) -> Spread {
        let (fixed, rate) = (self.fixed.minutes(), self.rate.minutes());
        let at = |no: usize| fixed[no] + rate[no] * area.m2();
        Spread {
            low: at(0),
            likely: at(1),
            high: at(2),
        }
    }
}

/// A span of time as a range, in minutes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spread {
    /// As fast as it goes.
    pub low: f64,
    /// Most often.
    pub likely: f64,
    /// When it drags.
    pub high: f64,
}

impl std::ops::Add for Spread {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            likely: self.likely + other.likely,
            high: self.high + other.high,
        }
    }
}

/// The shop's step times: only those that differ from the start are kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct StepTimes(BTreeMap<Step, StepTime>);

impl StepTimes {
    /// The time of a step.
    pub fn of(&self, step: Step) -> StepTime {
        self.0.get(&step).copied().unwrap_or(step.starting().0)
    }

    /// How its figures came about.
    pub fn standing(&self, step: Step) -> Standing {
        if self.0.contains_key(&step) {
            Standing::ShopsOwn
        } else {
            step.starting().1
        }
    }

    /// Sets one; the starting one takes the shop's own away.
    ///
    /// # Errors
    /// As [`StepTime::check`].
    pub fn set(&mut self, step: Step, time: StepTime) -> Result<(), StepTimeError> {
        time.check(step)?;
        if time == step.starting().0 {
            self.0.remove(&step);
        } else {
            self.0.insert(step, time);
        }
        Ok(())
    }

    /// Takes the shop's own figure of a step away.
    pub fn reset(&mut self, step: Step) {
        self.0.remove(&step);
    }

    /// The shop's own, in the order of work.
    pub fn own(&self) -> impl Iterator<Item = (Step, StepTime)> {
        self.0.iter().map(|(step, time)| (*step, *time))
    }
}
