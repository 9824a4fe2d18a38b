//! The other figures of a label: density, solids, VOC, film, temperature, humidity.

use super::error::FieldError;
use super::words::{number, number_and_rest, quoted};
use crate::coating::Voc;
use crate::shop::Settings;
use crate::units::{Density, Humidity, Length, Temperature, TemperatureStyle};

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

/// Reads a temperature of a label.
pub(super) fn read_temperature(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<Temperature, FieldError> {
    let wrong = |why: &str| {
        FieldError::new(
            field,
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
    let exact = |text: &String| read_temperature("", text, settings) == Ok(temperature);
    [settings.temperature, other]
        .into_iter()
        .map(|style| temperature.show(style))
        .find(exact)
        .unwrap_or_else(|| format!("{} C", temperature.c()))
}

/// Reads a humidity of a label.
pub(super) fn read_humidity(field: &'static str, text: &str) -> Result<Humidity, FieldError> {
    let typed = text.trim().trim_end_matches('%').trim_end();
    number(typed)
        .and_then(Humidity::from_percent)
        .ok_or_else(|| {
            let message = format!(
                "\"{}\" is no humidity: type 0 to 100, like 85.",
                quoted(text)
            );
            FieldError::new(field, message)
        })
}

/// Reads VOC: `446 g/L`, `3.7 lb/gal`; a number alone is g/L.
pub(super) fn read_voc(text: &str) -> Result<Voc, FieldError> {
    let wrong = |why: &str| {
        let text = quoted(text);
        let message = format!("\"{text}\" {why}: type the label's figure, like 446 g/L.");
        FieldError::new("voc", message)
    };
    let (value, unit) = number_and_rest(text).ok_or_else(|| wrong("does not read as a VOC"))?;
    let unit: String = unit.to_lowercase().split_whitespace().collect();
    let voc = match unit.as_str() {
        "" | "g/l" => Voc::from_g_per_l(value),
        "lb/gal" | "lbs/gal" => Voc::from_lb_per_gal(value),
        _ => return Err(wrong("does not read as a VOC")),
    };
    voc.ok_or_else(|| wrong("is more than any finish weighs"))
}

/// A VOC that reads back as the same.
pub(super) fn write_voc(voc: Voc) -> String {
    format!("{} g/L", voc.g_per_l())
}

/// Nanometres in a mil, a thousandth of an inch.
const NM_PER_MIL: f64 = 25_400.0;

/// Reads the thickness of a film: `2.7 mil`, `69 um`.
pub(super) fn read_film(field: &'static str, text: &str) -> Result<Length, FieldError> {
    let wrong = |why: &str| {
        let text = quoted(text);
        let message = format!("\"{text}\" {why}: type it like 2.7 mil or 69 um.");
        FieldError::new(field, message)
    };
    let (value, unit) = number_and_rest(text).ok_or_else(|| wrong("does not read as a film"))?;
    let nm = match unit.to_lowercase().as_str() {
        "mil" | "mils" => value * NM_PER_MIL,
        "um" | "\u{b5}m" | "\u{3bc}m" | "micron" | "microns" | "micrometre" | "micrometres"
        | "micrometer" | "micrometers" => value * 1000.0,
        "" => return Err(wrong("does not say mil or um")),
        _ => return Err(wrong("does not read as a film")),
    };
    // By judgement: from a thousandth of a millimetre to 5 mm, wider than any coat.
    if !(1_000.0..=5_000_000.0).contains(&nm) {
        return Err(wrong("is no film of a finish"));
    }
    // In range by the line above, so the conversion is exact.
    #[allow(clippy::cast_possible_truncation)]
    Ok(Length::from_nm(nm.round() as i64))
}

/// A film that reads back as the same: in mil where three decimals hold it, else in micrometres.
pub(super) fn write_film(film: Length) -> String {
    let nm = film.nm() as f64;
    for places in 0..=3 {
        let text = format!("{:.places$} mil", nm / NM_PER_MIL);
        if read_film("", &text) == Ok(film) {
            return text;
        }
    }
    format!("{} um", nm / 1000.0)
}
