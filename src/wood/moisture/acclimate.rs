//! The curve of a piece coming to the air it stands in, fitted to its readings.

use chrono::{DateTime, TimeDelta, Utc};

use super::content::MoistureContent;
use super::reading::Reading;

/// Readings nearer to the air's figure than this say nothing of the pace: meters are no finer.
const NEAR: f64 = 0.3;
/// The readings may stray this far from the curve, as root mean square, before it is given up.
const STRAY: f64 = 0.5;
/// What lies further ahead than this is not said.
const FARTHEST_DAYS: f64 = 365.0;
const SECONDS_PER_DAY: f64 = 86_400.0;

/// A fitted curve, M(t) = E + (M0 - E) exp(-t / tau): an estimate (common practice, no source; wood
/// follows it only roughly, the faces ahead of the core).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acclimation {
    /// E, what the air holds wood at.
    pub toward: MoistureContent,
    /// M0, the curve at the first reading.
    pub start: MoistureContent,
    /// When the first reading was taken.
    pub since: DateTime<Utc>,
    /// tau in days: the time in which the distance falls to 37 %.
    pub days: f64,
    /// How far the readings stray from the curve, in points (root mean square).
    pub stray: f64,
    /// How many readings it rests on.
    pub readings: usize,
}

/// Why no curve is drawn.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AcclimationError {
    /// Fewer than three readings that tell.
    #[error(
        "A curve needs three readings at one place that are still more than 0.3 points from {toward}; there are {found}."
    )]
    TooFew {
        /// How many there are.
        found: usize,
        /// What the air holds wood at.
        toward: String,
    },
    /// All within three days.
    #[error("The readings span {days} days; a curve needs at least three.")]
    TooShort {
        /// Whole days.
        days: i64,
    },
    /// At the end already.
    #[error(
        "The piece is within 0.3 points of {toward}, what this air holds it at; no curve is needed."
    )]
    There {
        /// What the air holds wood at.
        toward: String,
    },
    /// Some readings lie above the air's figure and some below.
    #[error(
        "The readings lie on both sides of {toward}, what this air would hold the piece at; the air has changed, or a reading is off."
    )]
    BothSides {
        /// What the air holds wood at.
        toward: String,
    },
    /// Not moving toward the air's figure.
    #[error(
        "The readings do not move toward {toward}, what this air would hold the piece at; check the air log and the meter."
    )]
    NotToward {
        /// What the air holds wood at.
        toward: String,
    },
    /// Too scattered.
    #[error(
        "The readings stray {points:.1} points from any smooth curve; read again at the same place."
    )]
    Scattered {
        /// Root mean square, points.
        points: f64,
    },
}

fn days_between(from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
    (to - from).as_seconds_f64() / SECONDS_PER_DAY
}

/// Fits the curve to the readings of one place (the caller picks them) toward what the air holds
/// wood at: least squares on the logarithm of the distance still to go.
///
/// # Errors
/// [`AcclimationError`] when the readings do not carry a curve, with the reason.
pub fn fit_acclimation(
    readings: &[Reading],
    toward: MoistureContent,
) -> Result<Acclimation, AcclimationError> {
    let shown = || toward.show();
    let mut sorted: Vec<&Reading> = readings.iter().collect();
    sorted.sort_by_key(|reading| reading.at);
    let (Some(first), Some(last)) = (sorted.first(), sorted.last()) else {
        return Err(AcclimationError::TooFew {
            found: 0,
            toward: shown(),
        });
    };
    let gap = |reading: &Reading| toward.points_to(reading.content());
    if gap(last).abs() <= NEAR {
        return Err(AcclimationError::There { toward: shown() });
    }
    let telling: Vec<(f64, f64)> = sorted
        .iter()
        .map(|reading| (days_between(first.at, reading.at), gap(reading)))
        .filter(|(_, gap)| gap.abs() > NEAR)
        .collect();
    if telling.len() < 3 {
        return Err(AcclimationError::TooFew {
            found: telling.len(),
            toward: shown(),
        });
    }
    let side = gap(last).signum();
    if telling.iter().any(|(_, gap)| gap * side < 0.0) {
        return Err(AcclimationError::BothSides { toward: shown() });
    }
    let span = last.at - first.at;
    if span < TimeDelta::days(3) {
        return Err(AcclimationError::TooShort {
            days: span.num_days(),
        });
    }
    let (intercept, slope) = line(telling.iter().map(|(t, gap)| (*t, gap.abs().ln())));
    // Slower than a year and a half to 37 % is no movement a meter could have seen in weeks.
    if !slope.is_finite() || slope > -1.0 / 550.0 {
        return Err(AcclimationError::NotToward { toward: shown() });
    }
    let curve = |t: f64| side * (intercept + slope * t).exp();
    let squares: f64 = telling
        .iter()
        .map(|(t, gap)| (gap - curve(*t)).powi(2))
        .sum();
    let stray = (squares / telling.len() as f64).sqrt();
    if stray > STRAY {
        return Err(AcclimationError::Scattered { points: stray });
    }
    Ok(Acclimation {
        toward,
        start: MoistureContent::from_percent_clamped(toward.percent() + curve(0.0)),
        since: first.at,
        days: -1.0 / slope,
        stray,
        readings: telling.len(),
    })
}

/// Intercept and slope of the straight line nearest to the points.
fn line(points: impl Iterator<Item = (f64, f64)> + Clone) -> (f64, f64) {
    let count = points.clone().count() as f64;
    let (sum_x, sum_y) = points
        .clone()
        .fold((0.0, 0.0), |(x, y), point| (x + point.0, y + point.1));
    let (mean_x, mean_y) = (sum_x / count, sum_y / count);
    let (across, along) = points.fold((0.0, 0.0), |(across, along), (x, y)| {
        (
            across + (x - mean_x) * (y - mean_y),
            along + (x - mean_x).powi(2),
        )
    });
    let slope = across / along;
    (mean_y - slope * mean_x, slope)
}

impl Acclimation {
    /// The curve at a moment.
    pub fn at(&self, moment: DateTime<Utc>) -> MoistureContent {
        let left = (-days_between(self.since, moment) / self.days).exp();
        let gap = self.toward.points_to(self.start) * left;
        MoistureContent::from_percent_clamped(self.toward.percent() + gap)
    }

    /// When the curve comes within so many points of its end; `None` when that lies more than a
    /// year after the first reading or `points` is not above zero.
    pub fn within(&self, points: f64) -> Option<DateTime<Utc>> {
        if points.is_nan() || points <= 0.0 {
            return None;
        }
        let gap = self.toward.points_to(self.start).abs();
        let days = self.days * (gap / points).max(1.0).ln();
        if days > FARTHEST_DAYS {
            return None;
        }
        #[allow(clippy::cast_possible_truncation, reason = "at most a year of seconds")]
        let seconds = (days * SECONDS_PER_DAY).round() as i64;
        self.since.checked_add_signed(TimeDelta::seconds(seconds))
    }

    /// What the curve is, in words.
    pub fn words(&self) -> String {
        format!(
            "estimated from {} readings: from {} toward {}, the distance falling to 37 % every {:.0} \
             days; readings stray {:.1} points from the curve",
            self.readings,
            self.start.show(),
            self.toward.show(),
            self.days,
            self.stray
        )
    }
}
