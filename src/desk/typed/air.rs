//! What is typed about the shop's air: a reading, when it was read, a forecast's time.

use super::error::FieldError;
use super::work::read_when;
use crate::coating::ShopAir;
use crate::shop::Settings;
use crate::units::{parse_ahead, parse_any_air};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// Reads a reading of the shop's air: `68F 45`, `20C 45%`, `68 45` (the shop's scale). A
/// temperature no shop has is left to the desk's question.
///
/// # Errors
/// What does not read, and what would, at `air`.
pub fn read_shop_air(text: &str, settings: &Settings) -> Result<ShopAir, FieldError> {
    parse_any_air(text, settings.temperature)
        .map(|(temperature, humidity)| ShopAir {
            temperature,
            humidity,
        })
        .map_err(|error| FieldError::said("air", &error))
}

/// Air as it would be typed, exactly.
pub fn write_shop_air(air: ShopAir, settings: &Settings) -> String {
    let shown = crate::desk::show_air(air, settings);
    match read_shop_air(&shown, settings) {
        Ok(again) if again == air => shown,
        // Shown to the tenth of a degree; kept to the thousandth.
        _ => format!("{} C, {}", air.temperature.c(), air.humidity.show()),
    }
}

/// Reads when the air was read: nothing is now; else as any time of work (`7:30`, `20 min ago`),
/// also with `at` before it.
///
/// # Errors
/// What does not read, or has not come yet, at `at`.
pub fn read_air_time(
    text: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, FieldError> {
    let text = text.trim();
    let bare = text
        .get(..3)
        .filter(|start| start.eq_ignore_ascii_case("at "))
        .and_then(|_| text.get(3..))
        .unwrap_or(text);
    read_when(bare, now, zone)
}

/// Reads a time to come: nothing is now.
///
/// # Errors
/// What does not read, or is gone by, at `field`.
pub fn read_ahead(
    field: &'static str,
    text: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, FieldError> {
    if text.trim().is_empty() {
        return Ok(now);
    }
    parse_ahead(text, now, zone).map_err(|error| FieldError::said(field, &error))
}
