//! Quantities as text that reads back exactly.

use crate::coating::{Span, Voc};
use crate::units::{
    Area, BareUnit, Density, Humidity, Length, LengthStyle, Mass, Money, SpreadRate, Temperature,
    Volume, VolumeStyle,
};

/// 1/64 in, in nanometres.
const NM_PER_64TH: i64 = 396_875;

/// `n` units of a `10^-places` as a decimal, without trailing zeros: `(118294, 3)` is `118.294`.
pub(super) fn decimal(n: i64, places: u32) -> String {
    let sign = if n < 0 { "-" } else { "" };
    let one = 10_u64.pow(places);
    let (whole, part) = (n.unsigned_abs() / one, n.unsigned_abs() % one);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let part = format!("{part:0width$}", width = places as usize);
    format!("{sign}{whole}.{}", part.trim_end_matches('0'))
}

/// Reads back what [`decimal`] writes; none when it is something else, finer, or too great.
pub(super) fn undecimal(text: &str, places: u32) -> Option<i64> {
    let (minus, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let plain = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || !plain(whole) || !plain(part) || part.len() > places as usize {
        return None;
    }
    let n: i64 = format!("{whole}{part:0<width$}", width = places as usize)
        .parse()
        .ok()?;
    Some(if minus { -n } else { n })
}

/// The number before one of these units.
fn before<'t>(text: &'t str, units: &[&str]) -> Option<&'t str> {
    let text = text.trim();
    units
        .iter()
        .find_map(|unit| text.strip_suffix(unit))
        .map(str::trim_end)
}

/// `98 3/8 in` on the tape, `2498.725 mm` off it or in a shop that measures in millimetres.
pub(super) fn length(length: Length, style: LengthStyle) -> String {
    let nm = length.nm();
    if style == LengthStyle::Millimetres || nm % NM_PER_64TH != 0 || nm < 0 {
        return format!("{} mm", decimal(nm, 6));
    }
    let (mut part, mut of) = (nm / NM_PER_64TH % 64, 64);
    let whole = nm / NM_PER_64TH / 64;
    while part > 0 && part % 2 == 0 {
        part /= 2;
        of /= 2;
    }
    match (whole, part) {
        (_, 0) => format!("{whole} in"),
        (0, _) => format!("{part}/{of} in"),
        _ => format!("{whole} {part}/{of} in"),
    }
}

/// Any length as it may be typed.
pub(super) fn read_length(text: &str) -> Result<Length, String> {
    let bare = text.trim().ends_with(|c: char| c.is_ascii_digit());
    if bare {
        return Err(format!("\"{text}\" has no unit; write in or mm behind it."));
    }
    Length::parse(text, BareUnit::Inches).map_err(|error| error.to_string())
}

/// `118.294 mL`, to the microlitre.
pub(super) fn volume(volume: Volume) -> String {
    format!("{} mL", decimal(volume.ul(), 3))
}

/// Millilitres to the microlitre, or any volume as it may be typed.
pub(super) fn read_volume(text: &str) -> Result<Volume, String> {
    if let Some(ul) = before(text, &["mL", "ml"])
        .and_then(|n| undecimal(n, 3))
        .filter(|ul| *ul >= 0)
    {
        return Ok(Volume::from_ul(ul));
    }
    if text.trim().ends_with(|c: char| c.is_ascii_digit()) {
        return Err(format!(
            "\"{text}\" has no unit; write mL, fl oz, qt or gal behind it."
        ));
    }
    Volume::parse(text, VolumeStyle::Millilitres).map_err(|error| error.to_string())
}

/// `812.345 g`, to the milligram.
pub(super) fn mass(mass: Mass) -> String {
    format!("{} g", decimal(mass.mg(), 3))
}

/// Grams to the milligram, or any weight as it may be typed.
pub(super) fn read_mass(text: &str) -> Result<Mass, String> {
    if let Some(mg) = before(text, &["g"])
        .and_then(|n| undecimal(n, 3))
        .filter(|mg| *mg >= 0)
    {
        return Ok(Mass::from_mg(mg));
    }
    Mass::parse(text).map_err(|error| error.to_string())
}

/// Square metres to the square micrometre, the number alone.
pub(super) fn area(area: Area) -> String {
    decimal(area.um2(), 12)
}

/// Reads back what [`area`] writes; an area above nothing.
pub(super) fn read_area(text: &str) -> Option<Area> {
    undecimal(text, 12)
        .filter(|um2| *um2 > 0)
        .map(Area::from_um2)
}

/// `30 min`, `6 h`, `3 d`: the largest unit that leaves nothing over.
pub(super) fn span(span: Span) -> String {
    match span.as_minutes() {
        0 => "0 min".to_owned(),
        minutes if minutes % 1440 == 0 => format!("{} d", minutes / 1440),
        minutes if minutes % 60 == 0 => format!("{} h", minutes / 60),
        minutes => format!("{minutes} min"),
    }
}

/// Minutes in spans such as `30 min`, `6 h`, `1 d 12 h`, `3h20m`; none when it is something else.
pub(super) fn minutes(text: &str) -> Option<i64> {
    let (mut total, mut rest) = (0_i64, text.trim());
    if rest.is_empty() {
        return None;
    }
    while !rest.is_empty() {
        let digits = rest.find(|c: char| !c.is_ascii_digit())?;
        let (count, after) = rest.split_at(digits);
        let after = after.trim_start();
        let letters = after
            .find(|c: char| !c.is_ascii_alphabetic())
            .unwrap_or(after.len());
        let (unit, after) = after.split_at(letters);
        let size = match unit {
            "min" | "m" => 1,
            "h" => 60,
            "d" | "day" | "days" => 1440,
            _ => return None,
        };
        let count: i64 = count.parse().ok().filter(|count| *count < 10_000_000)?;
        total = total.checked_add(count * size)?;
        rest = after.trim_start();
    }
    Some(total)
}

/// Reads a drying time.
pub(super) fn read_span(text: &str) -> Result<Span, String> {
    minutes(text).map(Span::minutes).ok_or_else(|| {
        format!("\"{text}\" does not read as a span; write it like 30 min, 6 h or 3 d.")
    })
}

/// A number alone, finite.
fn number(text: &str) -> Option<f64> {
    let plain = text
        .bytes()
        .all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'e' | b'+'));
    text.parse::<f64>()
        .ok()
        .filter(|value| plain && value.is_finite())
}

/// `15.3 m2/L`, with every digit it takes.
pub(super) fn spread(rate: SpreadRate) -> String {
    format!("{} m2/L", rate.m2_per_l())
}

/// Square metres per litre, or a spread rate as it may be typed.
pub(super) fn read_spread(text: &str) -> Result<SpreadRate, String> {
    if let Some(value) = before(text, &["m2/L"]).and_then(number) {
        return SpreadRate::from_m2_per_l(value)
            .ok_or_else(|| format!("\"{text}\": a spread rate must be above zero."));
    }
    SpreadRate::parse(text).map_err(|error| error.to_string())
}

/// `0.86 g/mL`, with every digit it takes.
pub(super) fn density(density: Density) -> String {
    format!("{} g/mL", density.g_per_ml())
}

/// Grams per millilitre, or pounds per US gallon.
pub(super) fn read_density(text: &str) -> Result<Density, String> {
    let metric = before(text, &["g/mL", "g/ml"])
        .and_then(number)
        .and_then(Density::from_g_per_ml);
    let us = || {
        before(text, &["lb/gal"])
            .and_then(number)
            .and_then(Density::from_lb_per_gal)
    };
    metric
        .or_else(us)
        .ok_or_else(|| format!("\"{text}\" does not read as a density; write it like 0.86 g/mL."))
}

/// `446 g/L`, to the milligram per litre.
pub(super) fn voc(voc: Voc) -> String {
    format!("{} g/L", decimal(voc.mg_per_l().into(), 3))
}

/// Grams per litre.
pub(super) fn read_voc(text: &str) -> Result<Voc, String> {
    before(text, &["g/L", "g/l"])
        .and_then(number)
        .and_then(Voc::from_g_per_l)
        .ok_or_else(|| format!("\"{text}\" does not read as a VOC; write it like 446 g/L."))
}

/// `68.58 um`, to the nanometre.
pub(super) fn film(film: Length) -> String {
    format!("{} um", decimal(film.nm(), 3))
}

/// Micrometres to the nanometre, up to 5 mm.
pub(super) fn read_film(text: &str) -> Result<Length, String> {
    before(text, &["um"])
        .and_then(|n| undecimal(n, 3))
        .filter(|nm| (1..=5_000_000).contains(nm))
        .map(Length::from_nm)
        .ok_or_else(|| format!("\"{text}\" does not read as a film; write it like 69 um."))
}

/// `25 %`, with every digit it takes.
pub(super) fn percent(value: f64) -> String {
    format!("{value} %")
}

/// Reads per cent.
pub(super) fn read_percent(text: &str) -> Result<f64, String> {
    before(text, &["%"])
        .and_then(number)
        .ok_or_else(|| format!("\"{text}\" does not read as per cent; write it like 25 %."))
}

/// `21.111 C`, to the thousandth of a degree.
pub(super) fn temperature(temperature: Temperature) -> String {
    format!("{} C", decimal(temperature.milli_c().into(), 3))
}

/// Celsius to the thousandth, or Fahrenheit.
pub(super) fn read_temperature(text: &str) -> Result<Temperature, String> {
    let nonsense =
        || format!("\"{text}\" does not read as a temperature; write it like 20 C or 68 F.");
    let exact = before(text, &["C"]).and_then(|n| undecimal(n, 3));
    let temperature = match exact.map(i32::try_from) {
        Some(Ok(milli)) => Temperature::from(milli),
        Some(Err(_)) => return Err(nonsense()),
        None => before(text, &["F"])
            .and_then(number)
            .map(Temperature::from_f)
            .ok_or_else(nonsense)?,
    };
    // Wider than any shop and any label, so that only slips of the unit are caught.
    if !(-60_000..=150_000).contains(&temperature.milli_c()) {
        return Err(format!(
            "\"{text}\" is no temperature of a shop; check the unit."
        ));
    }
    Ok(temperature)
}

/// `45.5 %`, to the tenth.
pub(super) fn humidity(humidity: Humidity) -> String {
    format!("{} %", decimal(humidity.tenths().into(), 1))
}

/// Reads a relative humidity.
pub(super) fn read_humidity(text: &str) -> Result<Humidity, String> {
    before(text, &["%"])
        .and_then(|n| undecimal(n, 1))
        .and_then(|tenths| i32::try_from(tenths).ok())
        .and_then(Humidity::from_tenths)
        .ok_or_else(|| format!("\"{text}\" does not read as a humidity; write it like 45 %."))
}

/// `$28.00`.
pub(super) fn money(money: Money) -> String {
    money.show()
}

/// Reads an amount of money.
pub(super) fn read_money(text: &str) -> Result<Money, String> {
    Money::parse(text).map_err(|error| error.to_string())
}

#[cfg(test)]
#[path = "words_tests.rs"]
mod tests;
