//! Which minute of a plan is when.

use crate::shop::hours::instant;
use chrono::{DateTime, Datelike, Days, Duration, Utc};
use chrono_tz::Tz;

/// Minutes between instants, from midnight before this week: an hour that the clocks leave out is
/// no hour here, one that comes twice is two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Axis {
    origin: DateTime<Utc>,
}

impl Axis {
    /// Starts lie on five minutes, as people say times.
    pub const GRID: i64 = 5;

    /// The axis of the week that `now` lies in.
    pub fn of(now: DateTime<Utc>, zone: Tz) -> Self {
        let today = now.with_timezone(&zone).date_naive();
        let back = u64::from(today.weekday().num_days_from_monday());
        let monday = today.checked_sub_days(Days::new(back)).unwrap_or(today);
        Self {
            origin: instant(monday, 0, zone),
        }
    }

    /// The minute at or after a moment, on the grid.
    pub fn up(self, at: DateTime<Utc>) -> i64 {
        let seconds = (at - self.origin).num_seconds();
        -(-seconds).div_euclid(60 * Self::GRID) * Self::GRID
    }

    /// The minute at or before a moment, on the grid.
    pub fn down(self, at: DateTime<Utc>) -> i64 {
        let seconds = (at - self.origin).num_seconds();
        seconds.div_euclid(60 * Self::GRID) * Self::GRID
    }

    /// When a minute is.
    pub fn at(self, minute: i64) -> DateTime<Utc> {
        let by = Duration::try_minutes(minute).unwrap_or_default();
        self.origin
            .checked_add_signed(by)
            .unwrap_or(DateTime::<Utc>::MAX_UTC)
    }

    /// A span rounded up to the grid.
    pub fn span_up(minutes: i64) -> i64 {
        -(-minutes).div_euclid(Self::GRID) * Self::GRID
    }

    /// A span rounded down to the grid.
    pub fn span_down(minutes: i64) -> i64 {
        minutes.div_euclid(Self::GRID) * Self::GRID
    }

    /// Minutes of work, rounded to the grid, at least one step of it.
    pub fn work(minutes: f64) -> i64 {
        // A step takes days at the most.
        #[allow(clippy::cast_possible_truncation)]
        let whole = (minutes.clamp(0.0, 1e6) / Self::GRID as f64).round() as i64 * Self::GRID;
        whole.max(Self::GRID)
    }
}
