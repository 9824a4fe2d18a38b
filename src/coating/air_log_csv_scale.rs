//! What a logger's file as a whole says of scale, humidity and order of its dates, or what has to
//! be asked of them.

use super::air_log_csv::LoggerQuestion;
use super::air_log_csv_head::words;
use super::air_log_csv_rows::Raw;
use super::air_log_csv_time::{DateOrder, When};
use super::air_log_kinds::{both_scales, likely_shop_air};
use crate::units::Temperature;

/// How a file writes temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FileScale {
    /// Fahrenheit.
    Fahrenheit,
    /// Celsius.
    Celsius,
    /// Kelvin.
    Kelvin,
}

impl FileScale {
    /// The temperature of a number in this scale; C = K - 273.15.
    pub fn temperature(self, degrees: f64) -> Temperature {
        match self {
            Self::Fahrenheit => Temperature::from_f(degrees),
            Self::Celsius => Temperature::from_c(degrees),
            Self::Kelvin => Temperature::from_c(degrees - 273.15),
        }
    }
}

/// How a file writes relative humidity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FileHumidity {
    /// `45` is 45 %.
    Percent,
    /// `0.45` is 45 %.
    Fraction,
}

impl FileHumidity {
    /// A number of the file in percent.
    pub fn percent(self, number: f64) -> f64 {
        match self {
            Self::Percent => number,
            Self::Fraction => number * 100.0,
        }
    }
}

/// The temperature scale a header or a cell names.
pub(super) fn scale(cell: &str) -> Option<FileScale> {
    let words = words(cell);
    let named = |names: &[&str]| words.iter().any(|word| names.contains(&word.as_str()));
    let fahrenheit = named(&["f", "degf", "fahrenheit", "tempf"]);
    let celsius = named(&["c", "degc", "celsius", "centigrade", "tempc"]);
    let kelvin = named(&["k", "kelvin", "tempk"]);
    match (fahrenheit, celsius, kelvin) {
        (true, false, false) => Some(FileScale::Fahrenheit),
        (false, true, false) => Some(FileScale::Celsius),
        (false, false, true) => Some(FileScale::Kelvin),
        _ => None,
    }
}

pub(super) fn settle_scale(
    rows: &[Raw],
    answered: Option<FileScale>,
    stated: Option<FileScale>,
) -> Result<FileScale, LoggerQuestion> {
    if let Some(answered) = answered {
        return Ok(answered);
    }
    let bare = || rows.iter().filter(|row| row.scale.is_none());
    let Some(stated) = stated else {
        if bare().next().is_none() {
            return Ok(FileScale::Fahrenheit);
        }
        let ends =
            |(least, most): (f64, f64), row: &Raw| (least.min(row.degrees), most.max(row.degrees));
        let (least, most) = bare().fold((f64::INFINITY, f64::NEG_INFINITY), ends);
        return Err(LoggerQuestion::Scale { least, most });
    };
    let unlikely = |row: &&Raw| !likely_shop_air(stated.temperature(row.degrees));
    let (odd, all) = (bare().filter(unlikely).count(), bare().count());
    match bare().find(unlikely) {
        Some(first) if odd * 2 > all => Err(LoggerQuestion::ScaleDoubtful {
            shown: both_scales(stated.temperature(first.degrees)),
        }),
        _ => Ok(stated),
    }
}

/// How the humidity is written, or the question: numbers that never pass one are percents of no
/// shop's air.
pub(super) fn settle_humidity(
    rows: &[Raw],
    answered: Option<FileHumidity>,
) -> Result<FileHumidity, LoggerQuestion> {
    if let Some(answered) = answered {
        return Ok(answered);
    }
    let ends =
        |(least, most): (f64, f64), row: &Raw| (least.min(row.humidity), most.max(row.humidity));
    let (least, most) = rows.iter().fold((f64::INFINITY, f64::NEG_INFINITY), ends);
    if least >= 0.0 && most > 0.0 && most <= 1.0 {
        return Err(LoggerQuestion::HumidityDoubtful { least, most });
    }
    Ok(FileHumidity::Percent)
}

pub(super) fn settle_order(
    rows: &[Raw],
    answered: Option<DateOrder>,
) -> Result<DateOrder, LoggerQuestion> {
    if let Some(answered) = answered {
        return Ok(answered);
    }
    let mut undecided = None;
    for row in rows {
        if let When::Slashed {
            first,
            second,
            written,
            ..
        } = row.when
        {
            if first > 12 {
                return Ok(DateOrder::DayFirst);
            }
            if second > 12 {
                return Ok(DateOrder::MonthFirst);
            }
            if first != second && undecided.is_none() {
                undecided = Some(written.to_string());
            }
        }
    }
    match undecided {
        Some(sample) => Err(LoggerQuestion::Order { sample }),
        None => Ok(DateOrder::MonthFirst),
    }
}
