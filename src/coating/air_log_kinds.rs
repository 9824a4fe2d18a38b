//! What the air log holds and answers: readings, the air of a moment and how it is known.

use crate::units::moment::show_moment;
use crate::units::{Humidity, Temperature, TemperatureStyle};
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Temperature and humidity of the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct ShopAir {
    /// Temperature.
    pub temperature: Temperature,
    /// Relative humidity.
    pub humidity: Humidity,
}

/// One row of the log. Kept to the whole second.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct AirReading {
    /// When.
    pub at: DateTime<Utc>,
    /// What was read.
    pub air: ShopAir,
}

/// Why a reading is not taken.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ReadingError {
    /// A reading that has not been taken yet.
    #[error("{at} has not come yet (it is {now}); write when the air was read.")]
    Future {
        /// When it says it was taken.
        at: String,
        /// The present, as the shop's clock shows it.
        now: String,
    },
    /// A temperature that no shop has.
    #[error(
        "{shown} is outside -20 C to 50 C (-4 F to 122 F), which no shop air is; check whether it \
         is in F or in C."
    )]
    Unlikely {
        /// The temperature in both scales.
        shown: String,
    },
}

impl AirReading {
    /// A reading that may be logged at `now`: not more than a minute ahead (clocks differ; it is
    /// then taken as now), and of a temperature that a shop can have.
    ///
    /// # Errors
    /// [`ReadingError`] for one from the future and for one between whose scales somebody has
    /// mixed.
    pub fn checked(
        at: DateTime<Utc>,
        air: ShopAir,
        now: DateTime<Utc>,
        zone: Tz,
    ) -> Result<Self, ReadingError> {
        if at - now > Duration::minutes(1) {
            return Err(ReadingError::Future {
                at: show_moment(at, now, zone),
                now: show_moment(now, now, zone),
            });
        }
        if !likely_shop_air(air.temperature) {
            return Err(ReadingError::Unlikely {
                shown: both_scales(air.temperature),
            });
        }
        Ok(Self {
            at: at.min(now),
            air,
        })
    }
}

/// Whether a shop can be at this temperature: -20 to 50 C. Judgement; the same limits as typed
/// shop air has.
pub(super) fn likely_shop_air(temperature: Temperature) -> bool {
    (-20_000..=50_000).contains(&temperature.milli_c())
}

/// `68 C (154.4 F)`.
pub(super) fn both_scales(temperature: Temperature) -> String {
    format!(
        "{} ({})",
        temperature.show(TemperatureStyle::Celsius),
        temperature.show(TemperatureStyle::Fahrenheit)
    )
}

/// What is taken for the air before the first reading, when nothing can be learned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Assumed {
    /// The label's own conditions: its hours count as plain hours.
    #[default]
    LabelConditions,
    /// This air, stated by the shop.
    Air(ShopAir),
}

/// Where the air of a moment comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AirBasis {
    /// The reading taken at `at`, which still holds.
    Read {
        /// When it was taken.
        at: DateTime<Utc>,
    },
    /// The usual air of that hour, since the last reading is over twelve hours old.
    Usual {
        /// The last reading.
        last: DateTime<Utc>,
        /// On how many days of the four weeks before it the usual air rests.
        days: u16,
    },
    /// A forecast that was typed in.
    Forecast,
    /// Nothing was ever read before: the shop's stated air, or the label's conditions.
    Assumed,
}

/// The air at a moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct AirAt {
    /// The air; none where the label's conditions are assumed.
    pub air: Option<ShopAir>,
    /// Where it comes from.
    pub basis: AirBasis,
}

/// What became of a reading put into the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Inserted {
    /// A new row.
    Added,
    /// The log held the same already.
    Same,
    /// The log held another air at that second, which the new one took the place of.
    Replaced(ShopAir),
}

/// What became of many readings put into the log together.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Merged {
    /// New rows.
    pub added: usize,
    /// Rows that the log, or the same import, held already.
    pub same: usize,
    /// Rows left out because the log holds another air at that second.
    pub differ: usize,
}

/// How the air of a span is known, in seconds of it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Coverage {
    /// By readings that hold.
    pub read: i64,
    /// By the usual air.
    pub usual: i64,
    /// Assumed, before the first reading.
    pub assumed: i64,
}

/// One row inside: whole seconds since 1970.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Row {
    pub(super) at: i64,
    pub(super) air: ShopAir,
}

impl Row {
    pub(super) fn of(reading: &AirReading) -> Self {
        Self {
            at: reading.at.timestamp(),
            air: reading.air,
        }
    }

    pub(super) fn reading(self) -> AirReading {
        AirReading {
            at: instant(self.at),
            air: self.air,
        }
    }
}

/// The instant of whole seconds; beyond the calendar, its end.
pub(super) fn instant(seconds: i64) -> DateTime<Utc> {
    DateTime::from_timestamp(seconds, 0).unwrap_or(if seconds < 0 {
        DateTime::<Utc>::MIN_UTC
    } else {
        DateTime::<Utc>::MAX_UTC
    })
}
