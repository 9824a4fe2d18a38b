//! The other figures of a label: density, solids, temperature, humidity.

use super::error::FieldError;
use super::words::{number, number_and_rest, quoted};
use crate::shop::Settings;
use crate::units::{Density, Humidity, Temperature, TemperatureStyle};

/// Reads a density: `0.86 g/mL`, `7.2 lb/gal`.
pub(super) fn read_density(text: &str) -> Result<Density, FieldError> {
    const FIELD: &str = "density";
    const CURE: &str = "type the label's figure, for example 7.2 lb/gal or 0.86 g/mL.";
    let wrong = |why: &str| FieldError::new(FIELD, format!("\"{}\" {why}: {CURE}", quoted(text)));
    let (value, unit) = number_and_rest(text).ok_or_else(|| wrong("does not read as a density"))?;
    let unit: String = unit
        .to_lowercase()
        .replace("per", "/")
        .split_whitespace()
        .collect();
    let density = match unit.as_str() {
        "g/ml" | "g/cc" | "g/cm3" | "g/cm³" | "kg/l" => Density::from_g_per_ml(value),
        "lb/gal" | "lbs/gal" | "lb/gallon" | "lbs/gallon" => Density::from_lb_per_gal(value),
        "" => return Err(wrong("has no unit")),
        _ => return Err(wrong("does not read as a density")),
    };
    // By judgement: no finish is lighter than half of water or heavier than three times it.
    density
        .filter(|density| (0.5..=3.0).contains(&density.g_per_ml()))
        .ok_or_else(|| wrong("is no density of a finish, which lies between 4 and 25 lb/gal"))
}

/// A density that reads back as the same.
pub(super) fn write_density(density: Density) -> String {
    let grams = density.g_per_ml();
    // A figure typed in lb/gal comes back as it was typed: found again by trying one to three
    // decimals.
    let pounds = grams * 3_785.411_784 / 453.592_37;
    for places in 0..=3 {
        let text = format!("{pounds:.places$}");
        let same = number(&text).and_then(Density::from_lb_per_gal) == Some(density);
        if same && grams.to_string().len() > 6 {
            return format!("{text} lb/gal");
        }
    }
    format!("{grams} g/mL")
}

/// Reads volume solids in per cent.
pub(super) fn read_solids(text: &str) -> Result<f64, FieldError> {
    const FIELD: &str = "solids";
    let typed = text.trim().trim_end_matches('%').trim_end();
    match number(typed) {
        Some(value) if (0.0..=100.0).contains(&value) => Ok(value),
        Some(_) => Err(FieldError::new(
            FIELD,
            format!(
                "{}% cannot be: volume solids lie between 0 and 100 per cent.",
                quoted(typed)
            ),
        )),
        None => Err(FieldError::new(
            FIELD,
            format!(
                "\"{}\" is no number of per cent: type it like 25.",
                quoted(text)
            ),
        )),
    }
}

/// Reads the coldest temperature of use.
pub(super) fn read_temperature(text: &str, settings: &Settings) -> Result<Temperature, FieldError> {
    const FIELD: &str = "min_temp";
    let wrong = |why: &str| {
        FieldError::new(
            FIELD,
            format!("\"{}\" {why}: type it like 55 F or 13 C.", quoted(text)),
        )
    };
    let typed = text.trim();
    let (sign, size) = match typed.strip_prefix(['-', '\u{2212}']) {
        Some(size) => (-1.0, size),
        None => (1.0, typed),
    };
    let (value, unit) =
        number_and_rest(size).ok_or_else(|| wrong("does not read as a temperature"))?;
    let unit = unit.trim_start_matches('°').trim().to_lowercase();
    let style = match unit.as_str() {
        "f" | "fahrenheit" => TemperatureStyle::Fahrenheit,
        "c" | "celsius" => TemperatureStyle::Celsius,
        "" => settings.temperature,
        _ => return Err(wrong("does not read as a temperature")),
    };
    let temperature = match style {
        TemperatureStyle::Fahrenheit => Temperature::from_f(sign * value),
        TemperatureStyle::Celsius => Temperature::from_c(sign * value),
    };
    if (-20_000..=50_000).contains(&temperature.milli_c()) {
        Ok(temperature)
    } else {
        Err(wrong("is outside -4 F to 122 F (-20 C to 50 C)"))
    }
}

/// A temperature that reads back as the same, in the shop's scale where that holds it.
pub(super) fn write_temperature(temperature: Temperature, settings: &Settings) -> String {
    let other = match settings.temperature {
        TemperatureStyle::Fahrenheit => TemperatureStyle::Celsius,
        TemperatureStyle::Celsius => TemperatureStyle::Fahrenheit,
    };
    let exact = |text: &String| read_temperature(text, settings) == Ok(temperature);
    [settings.temperature, other]
        .into_iter()
        .map(|style| temperature.show(style))
        .find(exact)
        .unwrap_or_else(|| format!("{} C", temperature.c()))
}

/// Reads the dampest air of use.
pub(super) fn read_humidity(text: &str) -> Result<Humidity, FieldError> {
    const FIELD: &str = "max_humidity";
    let typed = text.trim().trim_end_matches('%').trim_end();
    number(typed)
        .and_then(Humidity::from_percent)
        .ok_or_else(|| {
            let message = format!(
                "\"{}\" is no humidity: type 0 to 100, like 85.",
                quoted(text)
            );
            FieldError::new(FIELD, message)
        })
}
