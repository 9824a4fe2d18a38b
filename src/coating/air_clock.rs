//! The drying clock that reckons with the shop's air.
//!
//! It turns label time into moments by the law of [`super::model`] over the log of the shop's air.
//! The safe clock sits in the gates; its likely twin says when a touch test is worth making.

use super::air_log::AirLog;
use super::air_log_kinds::Assumed;
use super::air_log_sums::Told;
use super::drying::DryingClock;
use super::forecast::Forecast;
use super::id::ProductId;
use super::learning::Learned;
use super::model::{Care, Counts, DryingLaw, ModelSettings, PACE};
use super::product::{Product, Span};
use crate::units::moment::show_moment;
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::sync::Arc;

/// Past this many days more than the label asks, the clock looks no further: the film does not dry
/// in this air.
pub const LOOKS_AHEAD_DAYS: i64 = 3650;

/// Whether a moment the clock gave is only its horizon: the film does not get there in the air that
/// is known and expected.
pub fn beyond_sight(at: DateTime<Utc>, now: DateTime<Utc>) -> bool {
    // A coat long laid has the horizon of its own day, so a few weeks are allowed for.
    (at - now).num_days() > LOOKS_AHEAD_DAYS - 60
}

/// A moment a film is to reach, as people say it; `not in this air` where it never does.
pub fn show_reached(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    if beyond_sight(at, now) {
        "not in this air".to_owned()
    } else {
        show_moment(at, now, zone)
    }
}

/// What is known of one product beyond its label.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tuning {
    /// What touch tests have shown, against the safe law.
    pub safe: Learned,
    /// What touch tests have shown, against the likely law.
    pub likely: Learned,
}

/// Which of the two clocks.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum Twin {
    /// What the gates hold to.
    #[default]
    Safe,
    /// When a test is worth making.
    Likely,
}

/// When an amount of label time is reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// The moment; where the film never gets there, ten years after the label would have it.
    pub at: DateTime<Utc>,
    /// Whether it gets there at all in the air that is known and expected.
    pub in_sight: bool,
}

/// The clock. Cheap to clone; the log is shared.
#[derive(Debug, Clone)]
pub struct ShopAirClock {
    log: Arc<AirLog>,
    settings: ModelSettings,
    tuning: Arc<HashMap<ProductId, Tuning>>,
    forecast: Arc<Forecast>,
    told: Arc<[Told]>,
    twin: Twin,
    film: f64,
}

impl ShopAirClock {
    /// The safe clock over a log.
    pub fn new(
        log: Arc<AirLog>,
        settings: ModelSettings,
        tuning: Arc<HashMap<ProductId, Tuning>>,
    ) -> Self {
        Self {
            log,
            settings,
            tuning,
            forecast: Arc::default(),
            told: Arc::default(),
            twin: Twin::Safe,
            film: 1.0,
        }
    }

    /// The same clock with a typed forecast for the time after the last reading.
    #[must_use]
    pub fn with_forecast(&self, forecast: Forecast) -> Self {
        Self {
            told: forecast.told().into(),
            forecast: Arc::new(forecast),
            ..self.clone()
        }
    }

    /// The same clock for a coat whose film factor is `k` (see [`super::model::film_factor`]). It
    /// lengthens every stage up to the last window's opening; light use and cure are not changed.
    #[must_use]
    pub fn with_film(&self, k: f64) -> Self {
        let film = if k.is_finite() {
            k.clamp(1.0, 100.0)
        } else {
            1.0
        };
        Self {
            film,
            ..self.clone()
        }
    }

    /// The safe clock.
    #[must_use]
    pub fn safe(&self) -> Self {
        self.as_twin(Twin::Safe)
    }

    /// The likely clock.
    #[must_use]
    pub fn likely(&self) -> Self {
        self.as_twin(Twin::Likely)
    }

    fn as_twin(&self, twin: Twin) -> Self {
        Self {
            twin,
            ..self.clone()
        }
    }

    /// How the figures are reckoned, in words: by the label's hours alone as long as nothing is
    /// known of the air.
    pub fn basis(&self) -> &'static str {
        let nothing_read = self.log.is_empty()
            && self.log.assumed() == Assumed::LabelConditions
            && self.told.is_empty();
        let learned = |tuning: &Tuning| tuning.safe.tests > 0;
        match self.twin {
            _ if nothing_read && self.tuning.values().any(learned) => "label hours and touch tests",
            _ if nothing_read => "label hours",
            Twin::Safe => "the shop's air, safe hours",
            Twin::Likely => "likely hours by shop air",
        }
    }

    /// Which of the two this is.
    pub fn twin(&self) -> Twin {
        self.twin
    }

    /// The log behind it.
    pub fn log(&self) -> &Arc<AirLog> {
        &self.log
    }

    /// The typed forecast; empty if there is none.
    pub fn forecast(&self) -> &Forecast {
        &self.forecast
    }

    /// What is known of a product.
    pub fn tuning(&self, product: ProductId) -> Tuning {
        self.tuning.get(&product).copied().unwrap_or_default()
    }

    /// The law by which this clock reckons a product.
    pub fn law(&self, product: &Product) -> DryingLaw {
        let care = match self.twin {
            Twin::Safe => self.settings.safe,
            Twin::Likely => Care::Likely,
        };
        self.settings.law(product.family, &product.label, care)
    }

    /// This shop's factor for a product: how fast it dries here against the law.
    pub fn factor(&self, product: &Product) -> f64 {
        let tuning = self.tuning(product.id);
        match self.twin {
            Twin::Safe => tuning.safe.cautious(),
            Twin::Likely => tuning.likely.middle(),
        }
    }

    /// Film factor for a span of this product's label.
    pub fn film_for(&self, product: &Product, span: Span) -> f64 {
        let last = product
            .label
            .windows
            .iter()
            .map(|window| window.opens)
            .max();
        if last.is_some_and(|opens| span <= opens) {
            self.film
        } else {
            1.0
        }
    }

    /// Effective label-hours from one moment to another by the law alone: not yet multiplied with
    /// this shop's factor, which is how touch tests are weighed. `SUM dt * min(f_max, f)`.
    pub fn label_hours(&self, product: &Product, from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
        let counts = Counts::Drying(self.law(product));
        let sum = self
            .log
            .sum(counts, &self.told, from.timestamp(), to.timestamp());
        hours(sum)
    }

    /// The hours that run a recoat window down: `SUM dt * max(1, fT)`.
    pub fn window_hours(&self, product: &Product, from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
        let counts = Counts::Window(self.law(product));
        let sum = self
            .log
            .sum(counts, &self.told, from.timestamp(), to.timestamp());
        hours(sum)
    }

    /// Effective label-hours of a coat so far as the screen shows them: with this shop's factor.
    pub fn effective(&self, product: &Product, from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
        self.label_hours(product, from, to) * self.factor(product)
    }

    /// When a coat laid at `laid` has had `span` of label time: the first moment at which
    /// `label_hours * factor >= span * k`, to the second. The safe clock is never sooner than the
    /// label's plain hours, whatever tests have shown.
    pub fn reach(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> Reach {
        let plain = later(laid, span.as_duration());
        let film = self.film_for(product, span);
        let goal = goal(span, film / self.factor(product));
        let horizon = later(plain, Duration::days(LOOKS_AHEAD_DAYS));
        let counts = Counts::Drying(self.law(product));
        let from = laid.timestamp();
        match self
            .log
            .reach(counts, &self.told, from, goal, horizon.timestamp())
        {
            Some(at) => {
                let at = later(laid, Duration::seconds(at - from));
                Reach {
                    at: match self.twin {
                        Twin::Safe => at.max(plain),
                        Twin::Likely => at,
                    },
                    in_sight: true,
                }
            }
            None => Reach {
                at: horizon,
                in_sight: false,
            },
        }
    }

    /// When a window of `span` after `laid` shuts: when `window_hours` reaches it, sooner still
    /// where tests have shown this shop to dry fast; never later than the plain clock.
    pub fn window_end(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc> {
        let plain = later(laid, span.as_duration());
        let counts = Counts::Window(self.law(product));
        let from = laid.timestamp();
        let goal = goal(span, self.factor(product).max(1.0).recip());
        self.log
            .reach(counts, &self.told, from, goal, plain.timestamp())
            .map_or(plain, |at| later(laid, Duration::seconds(at - from)))
            .min(plain)
    }
}

impl DryingClock for ShopAirClock {
    fn reached(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc> {
        self.reach(product, laid, span).at
    }

    fn shuts(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc> {
        self.window_end(product, laid, span)
    }

    fn basis(&self) -> &'static str {
        ShopAirClock::basis(self)
    }

    fn for_film(&self, k: f64) -> Option<Box<dyn DryingClock>> {
        Some(Box::new(self.with_film(k)))
    }
}

/// A later moment; past the calendar, its end.
fn later(at: DateTime<Utc>, by: Duration) -> DateTime<Utc> {
    at.checked_add_signed(by)
        .unwrap_or(DateTime::<Utc>::MAX_UTC)
}

/// A span times a factor, in billionths of a second.
#[allow(
    clippy::cast_possible_truncation,
    reason = "a hundred years of 1e9 each second, a thousandfold, lie far inside i128"
)]
fn goal(span: Span, factor: f64) -> i128 {
    let whole = i128::from(span.as_minutes()) * 60 * i128::from(PACE);
    if (factor - 1.0).abs() < f64::EPSILON {
        whole
    } else {
        (whole as f64 * factor).ceil() as i128
    }
}

/// Billionths of a second as hours.
fn hours(sum: i128) -> f64 {
    sum as f64 / PACE as f64 / 3600.0
}
