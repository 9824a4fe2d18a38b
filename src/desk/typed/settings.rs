//! The shop's settings as typed.

use super::error::{FieldError, keep};
use super::words::{pick, plain, quoted};
use crate::shop::{LookChoice, Settings};
use crate::units::{LengthStyle, TemperatureStyle, VolumeStyle};
use chrono_tz::{TZ_VARIANTS, Tz};
use serde::Serialize;

/// The settings, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct SettingsTyped {
    /// The shop's name.
    pub shop_name: String,
    /// The shop's address.
    pub shop_address: String,
    /// `1/16 in`, `1/32 in` or `mm`.
    pub length: String,
    /// `F` or `C`.
    pub temperature: String,
    /// `oz` or `mL`.
    pub volume: String,
    /// A zone by its name in the IANA list: `America/Chicago`.
    pub zone: String,
    /// `auto`, `dark`, `light` or `plain`.
    pub look: String,
}

fn length_words() -> Vec<(LengthStyle, String)> {
    [
        (LengthStyle::Sixteenths, "1/16 in"),
        (LengthStyle::ThirtySeconds, "1/32 in"),
        (LengthStyle::Millimetres, "mm"),
    ]
    .map(|(style, word)| (style, word.to_owned()))
    .into()
}

fn temperature_words() -> Vec<(TemperatureStyle, String)> {
    [
        (TemperatureStyle::Fahrenheit, "F"),
        (TemperatureStyle::Celsius, "C"),
    ]
    .map(|(style, word)| (style, word.to_owned()))
    .into()
}

fn volume_words() -> Vec<(VolumeStyle, String)> {
    [
        (VolumeStyle::FluidOunces, "oz"),
        (VolumeStyle::Millilitres, "mL"),
    ]
    .map(|(style, word)| (style, word.to_owned()))
    .into()
}

fn word_of<T: PartialEq>(value: &T, words: Vec<(T, String)>) -> String {
    words
        .into_iter()
        .find(|(one, _)| one == value)
        .map_or_else(String::new, |(_, word)| word)
}

fn look_words() -> Vec<(LookChoice, String)> {
    LookChoice::ALL
        .map(|(look, word)| (look, word.to_owned()))
        .into()
}

impl SettingsTyped {
    /// The settings as they would be typed.
    pub fn of(settings: &Settings) -> Self {
        Self {
            shop_name: settings.shop_name.clone(),
            shop_address: settings.shop_address.clone(),
            length: word_of(&settings.length, length_words()),
            temperature: word_of(&settings.temperature, temperature_words()),
            volume: word_of(&settings.volume, volume_words()),
            zone: settings.zone.name().to_owned(),
            look: word_of(&settings.look, look_words()),
        }
    }
}

/// Reads the settings.
///
/// # Errors
/// Every field that does not read.
pub fn read_settings(typed: &SettingsTyped) -> Result<Settings, Vec<FieldError>> {
    let mut errors = Vec::new();
    let length = keep(pick("length", &typed.length, &length_words()), &mut errors);
    let degrees = pick("temperature", &typed.temperature, &temperature_words());
    let temperature = keep(degrees, &mut errors);
    let volume = keep(pick("volume", &typed.volume, &volume_words()), &mut errors);
    let zone = keep(read_zone(&typed.zone), &mut errors);
    let look = keep(pick("look", &typed.look, &look_words()), &mut errors);
    match (length, temperature, volume, zone, look) {
        (Some(length), Some(temperature), Some(volume), Some(zone), Some(look)) => Ok(Settings {
            shop_name: typed.shop_name.clone(),
            shop_address: typed.shop_address.clone(),
            length,
            temperature,
            volume,
            zone,
            look,
        }),
        _ => Err(errors),
    }
}

/// A zone by its whole name, capitals or not, or by its city alone: `chicago`.
fn read_zone(text: &str) -> Result<Tz, FieldError> {
    let typed = plain(text);
    let city = |zone: &Tz| zone.name().rsplit('/').next().map(plain);
    let whole = TZ_VARIANTS.iter().find(|zone| plain(zone.name()) == typed);
    let by_city = || {
        let mut found = TZ_VARIANTS
            .iter()
            .filter(|zone| city(zone).as_deref() == Some(typed.as_str()));
        let first = found.next()?;
        found.next().is_none().then_some(first)
    };
    whole.or_else(by_city).copied().ok_or_else(|| {
        let message = format!(
            "\"{}\" is no time zone: type its name from the IANA list, for example America/Chicago.",
            quoted(text)
        );
        FieldError::new("zone", message)
    })
}
