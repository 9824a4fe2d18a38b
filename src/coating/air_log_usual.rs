//! The shop's usual air by hour of the local day.

use super::air_log::HOLDS;
use super::air_log_kinds::{Row, ShopAir};
use crate::units::{Humidity, Temperature};
use chrono::{DateTime, Offset, TimeZone, Utc};
use chrono_tz::Tz;

/// How far back the usual air looks, in seconds: four weeks, long enough to smooth a cold snap and
/// short enough to follow the season. Judgement.
pub const LEARNS_FROM: i64 = 28 * DAY;
/// Seconds of a day.
pub(super) const DAY: i64 = 86_400;
/// The log is looked at every half hour.
const STEP: i64 = 1800;

/// The usual air: for each hour of the local day the plain mean of what the log said at every half
/// hour of the four weeks before, where a reading held. An hour that no reading covers has the
/// mean of all others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsualDay {
    hours: [ShopAir; 24],
    days: u16,
}

impl UsualDay {
    /// The usual air of the local hour 0 to 23; hours beyond start over.
    pub fn hour(&self, hour: usize) -> ShopAir {
        self.hours[hour % 24]
    }

    /// All hours, midnight first.
    pub fn hours(&self) -> &[ShopAir; 24] {
        &self.hours
    }

    /// On how many different days it rests.
    pub fn days(&self) -> u16 {
        self.days
    }

    /// The usual air at an instant (seconds since 1970).
    pub(super) fn at(&self, seconds: i64, zone: Tz) -> ShopAir {
        self.hour(local_hour(seconds, HourGrid::of(seconds, zone), zone))
    }

    /// Learned from `rows`, whose last is `last`: no later one is looked at.
    pub(super) fn learned(rows: &[Row], last: Row, zone: Tz) -> Self {
        let (mut sums, mut all, mut days) = ([Sum::default(); 24], Sum::default(), 0_u16);
        let (mut day, mut offset, mut seen) = (i64::MAX, 0, i64::MAX);
        let mut at = last.at;
        let mut earlier = rows.iter().rev();
        let mut held = earlier.next();
        while at > last.at - LEARNS_FROM {
            while held.is_some_and(|held| held.at > at) {
                held = earlier.next();
            }
            let Some(held) = held else { break };
            let end = held.at + HOLDS;
            if at >= end {
                // Nothing held here: go on to the last half hour that this reading covers.
                at -= ((at - end) / STEP + 1) * STEP;
                continue;
            }
            if at.div_euclid(DAY) != day {
                day = at.div_euclid(DAY);
                offset = offset_at(at, zone);
            }
            let local = at + offset;
            if local.div_euclid(DAY) != seen {
                seen = local.div_euclid(DAY);
                days += 1;
            }
            sums[hour_of(local)].add(held.air);
            all.add(held.air);
            at -= STEP;
        }
        let usual = all.mean().unwrap_or(last.air);
        Self {
            hours: sums.map(|sum| sum.mean().unwrap_or(usual)),
            days,
        }
    }
}

#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    milli_c: i64,
    tenths: i64,
    count: i64,
}

impl Sum {
    fn add(&mut self, air: ShopAir) {
        self.milli_c += i64::from(air.temperature.milli_c());
        self.tenths += i64::from(air.humidity.tenths());
        self.count += 1;
    }

    /// Mean, to the thousandth of a degree and the tenth of a per cent.
    fn mean(self) -> Option<ShopAir> {
        if self.count == 0 {
            return None;
        }
        let mean = |sum: i64| i32::try_from(sum.div_euclid(self.count)).ok();
        Some(ShopAir {
            temperature: Temperature::from(mean(self.milli_c)?),
            humidity: Humidity::from_tenths(mean(self.tenths)?)?,
        })
    }
}

/// Seconds that local time is ahead of UTC.
pub(super) fn offset_at(seconds: i64, zone: Tz) -> i64 {
    let Some(at) = DateTime::<Utc>::from_timestamp(seconds, 0) else {
        return 0;
    };
    let offset = zone.offset_from_utc_datetime(&at.naive_utc());
    i64::from(offset.fix().local_minus_utc())
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a remainder of a day over 3600 lies between 0 and 23"
)]
fn hour_of(local: i64) -> usize {
    (local.rem_euclid(DAY) / 3600) as usize
}

/// How the hours of one UTC day lie on the local clock.
#[derive(Debug, Clone, Copy)]
pub(super) enum HourGrid {
    /// One offset the whole day.
    Plain(i64),
    /// The clocks change on this day: looked up by quarters of an hour, on which every zone's
    /// change falls since clocks were set by zones.
    Changing,
}

impl HourGrid {
    /// The grid of the UTC day of an instant.
    pub(super) fn of(seconds: i64, zone: Tz) -> Self {
        let start = seconds.div_euclid(DAY) * DAY;
        let offset = offset_at(start, zone);
        if offset == offset_at(start + DAY, zone) {
            Self::Plain(offset)
        } else {
            Self::Changing
        }
    }
}

/// The local hour of an instant.
pub(super) fn local_hour(seconds: i64, grid: HourGrid, zone: Tz) -> usize {
    match grid {
        HourGrid::Plain(offset) => hour_of(seconds + offset),
        HourGrid::Changing => {
            let quarter = seconds.div_euclid(900) * 900;
            hour_of(quarter + offset_at(quarter, zone))
        }
    }
}

/// The next instant after `seconds` at which the local hour may change, not past the UTC day.
pub(super) fn next_hour(seconds: i64, grid: HourGrid) -> i64 {
    let day_end = (seconds.div_euclid(DAY) + 1) * DAY;
    let next = match grid {
        HourGrid::Plain(offset) => {
            let local = seconds + offset;
            seconds + 3600 - local.rem_euclid(3600)
        }
        HourGrid::Changing => (seconds.div_euclid(900) + 1) * 900,
    };
    next.min(day_end)
}
