//! What the air is thought to be later: typed in, or the shop's usual air by hour of day.
//!
//! A typed forecast speaks only of time after the last reading; where it says nothing the last
//! reading holds twelve hours and the usual air follows, as the log has it.

use super::air_clock::ShopAirClock;
use super::air_log_kinds::ShopAir;
use super::air_log_sums::Told;
use super::product::{Product, RecoatWindow, Span};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Air that is foretold from one moment to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct ForecastStep {
    /// From when.
    pub from: DateTime<Utc>,
    /// Until when, this moment not included.
    pub until: DateTime<Utc>,
    /// The air in between.
    pub air: ShopAir,
}

/// A typed forecast: steps in order of time, none over another.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Forecast {
    steps: Vec<ForecastStep>,
}

/// Why a forecast cannot be as typed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ForecastError {
    /// A step that ends before it starts.
    #[error("A forecast must end after it starts; type the later time second.")]
    Backwards,
    /// Two steps at one time.
    #[error("Two forecasts cover the same time; let one end where the next begins.")]
    Overlap,
}

impl Forecast {
    /// From steps in any order.
    ///
    /// # Errors
    /// [`ForecastError`] for a step that runs backwards, and for two that overlap.
    pub fn new(mut steps: Vec<ForecastStep>) -> Result<Self, ForecastError> {
        if steps.iter().any(|step| step.until <= step.from) {
            return Err(ForecastError::Backwards);
        }
        steps.sort_by_key(|step| step.from);
        let overlap = steps
            .iter()
            .zip(steps.iter().skip(1))
            .any(|(step, next)| next.from < step.until);
        if overlap {
            return Err(ForecastError::Overlap);
        }
        Ok(Self { steps })
    }

    /// The steps, earliest first.
    pub fn steps(&self) -> &[ForecastStep] {
        &self.steps
    }

    /// The step that covers a moment.
    pub fn at(&self, at: DateTime<Utc>) -> Option<&ForecastStep> {
        self.steps
            .iter()
            .find(|step| step.from <= at && at < step.until)
    }

    pub(super) fn told(&self) -> Vec<Told> {
        let told = self.steps.iter().map(|step| Told {
            from: step.from.timestamp(),
            until: step.until.timestamp(),
            air: step.air,
        });
        told.collect()
    }
}

/// A moment by the careful law and by the middle of the evidence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct SafeLikely {
    /// Safe: what the gates hold to.
    pub safe: DateTime<Utc>,
    /// Likely: when a touch test is worth making. Never after the safe one.
    pub likely: DateTime<Utc>,
}

/// The times of one window after a pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WindowTimes {
    /// The label's window.
    pub window: RecoatWindow,
    /// When it opens.
    pub opens: SafeLikely,
    /// When it shuts, if it does; this may lie before it opens, in a cold shop, and then the next
    /// coat wants an abraded film whenever it goes on.
    pub shuts: Option<DateTime<Utc>>,
}

/// When a pass will have reached each stage.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PassTimes {
    /// From when its drying counts.
    pub laid: DateTime<Utc>,
    /// Set to touch.
    pub touch: SafeLikely,
    /// Tack-free.
    pub tack_free: SafeLikely,
    /// The recoat windows, earliest first.
    pub windows: Vec<WindowTimes>,
    /// Dry to handle.
    pub handle: SafeLikely,
    /// Light use.
    pub light_use: SafeLikely,
    /// Full cure.
    pub full_cure: SafeLikely,
}

impl ShopAirClock {
    /// Safe and likely moment at which a coat laid at `laid` has had `span` of label time.
    pub fn times(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> SafeLikely {
        let safe = self.safe().reach(product, laid, span).at;
        let likely = self.likely().reach(product, laid, span).at;
        SafeLikely {
            safe,
            likely: likely.min(safe),
        }
    }

    /// Every stage of a pass laid, or planned for, at `laid`: past air from the log, later air
    /// from the typed forecast or the shop's usual air.
    pub fn pass_times(&self, product: &Product, laid: DateTime<Utc>) -> PassTimes {
        let times = |span| self.times(product, laid, span);
        let label = &product.label;
        let windows = label.windows.iter().map(|window| WindowTimes {
            window: *window,
            opens: times(window.opens),
            shuts: window
                .closes
                .map(|span| self.window_end(product, laid, span)),
        });
        PassTimes {
            laid,
            touch: times(label.touch),
            tack_free: times(label.tack_free),
            windows: windows.collect(),
            handle: times(label.handle),
            light_use: times(label.light_use),
            full_cure: times(label.full_cure),
        }
    }
}
