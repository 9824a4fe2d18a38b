//! A wood of the shop's own, and the rule of readiness, as typed.

use super::error::{FieldError, keep};
use super::words::{number, quoted};
use crate::wood::moisture::{MoistureContent, ReadyRule};
use crate::wood::species::OwnWood;

/// A wood of the shop's own, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WoodTyped {
    /// Its name.
    pub name: String,
    /// Its botanical name; may be empty.
    pub botanical: String,
    /// Radial and tangential shrinkage, green to ovendry, in per cent: `4.8 / 9.9`.
    pub shrinkage: String,
    /// Radial and tangential change per point of moisture: `0.00165 / 0.00353`.
    pub change: String,
    /// Specific gravity at 12 %.
    pub gravity: String,
    /// Where the figures are from.
    pub source: String,
}

fn write_pair(pair: Option<(f64, f64)>) -> String {
    pair.map_or_else(String::new, |(radial, tangential)| {
        format!("{radial} / {tangential}")
    })
}

impl WoodTyped {
    /// A wood as it would be typed.
    pub fn of(wood: &OwnWood) -> Self {
        Self {
            name: wood.name.clone(),
            botanical: wood.botanical.clone(),
            shrinkage: write_pair(wood.shrinkage),
            change: write_pair(wood.coefficients),
            gravity: wood.gravity.map_or_else(String::new, |of| of.to_string()),
            source: wood.source.clone(),
        }
    }
}

/// Reads a wood.
///
/// # Errors
/// Everything that does not read, each at its field.
pub fn read_wood(typed: &WoodTyped) -> Result<OwnWood, Vec<FieldError>> {
    let mut errors = Vec::new();
    let shrinkage = keep(
        read_pair("shrinkage", &typed.shrinkage, "4.8 / 9.9"),
        &mut errors,
    );
    let coefficients = keep(
        read_pair("change", &typed.change, "0.00165 / 0.00353"),
        &mut errors,
    );
    let gravity = match typed.gravity.trim() {
        "" => None,
        text => {
            let read = number(text).ok_or_else(|| {
                let text = quoted(text);
                let message =
                    format!("\"{text}\" does not read as a specific gravity; write it like 0.63.");
                FieldError::new("gravity", message)
            });
            keep(read, &mut errors)
        }
    };
    match (shrinkage, coefficients) {
        (Some(shrinkage), Some(coefficients)) if errors.is_empty() => Ok(OwnWood {
            name: typed.name.clone(),
            botanical: typed.botanical.clone(),
            shrinkage,
            coefficients,
            gravity,
            source: typed.source.clone(),
        }),
        _ => Err(errors),
    }
}

/// Two figures, radial first: `4.8 / 9.9`, `4.8 9.9`.
fn read_pair(
    field: &'static str,
    text: &str,
    like: &str,
) -> Result<Option<(f64, f64)>, FieldError> {
    let typed = text.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let parts: Vec<&str> = typed
        .split(|c: char| c == '/' || c.is_whitespace())
        .filter(|part| !part.is_empty())
        .collect();
    let figures: Vec<f64> = parts.iter().filter_map(|part| number(part)).collect();
    match (figures.as_slice(), parts.len()) {
        ([radial, tangential], 2) => Ok(Some((*radial, *tangential))),
        _ => Err(FieldError::new(
            field,
            format!(
                "\"{}\" is not two figures; write the radial and the tangential one, like {like}.",
                quoted(text)
            ),
        )),
    }
}

/// The rule of readiness, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RuleTyped {
    /// Days between the two readings.
    pub days: String,
    /// Points they may differ by.
    pub within: String,
    /// Care above this moisture content.
    pub care: String,
    /// Stop above this one.
    pub stop: String,
    /// Days that a reading speaks for the piece.
    pub fresh: String,
}

impl RuleTyped {
    /// A rule as it would be typed.
    pub fn of(rule: &ReadyRule) -> Self {
        Self {
            days: rule.days_apart.to_string(),
            within: rule.within.to_string(),
            care: rule.care_over.show(),
            stop: rule.stop_over.show(),
            fresh: rule.fresh_days.to_string(),
        }
    }
}

/// Reads a rule.
///
/// # Errors
/// Everything that does not read, each at its field.
pub fn read_rule(typed: &RuleTyped) -> Result<ReadyRule, Vec<FieldError>> {
    let mut errors = Vec::new();
    let whole = |field: &'static str, text: &str| {
        let days = text.trim().parse::<u16>().ok().filter(|days| *days <= 3650);
        days.ok_or_else(|| {
            let text = quoted(text);
            FieldError::new(
                field,
                format!("\"{text}\" is no number of days; write a whole one, like 7."),
            )
        })
    };
    let days_apart = keep(whole("days", &typed.days), &mut errors);
    let fresh_days = keep(whole("fresh", &typed.fresh), &mut errors);
    let within = number(&typed.within).ok_or_else(|| {
        let text = quoted(&typed.within);
        FieldError::new(
            "within",
            format!("\"{text}\" is no number of points, like 0.5."),
        )
    });
    let within = keep(within, &mut errors);
    let content = |field: &'static str, text: &str| {
        MoistureContent::parse(text).map_err(|error| FieldError::said(field, &error))
    };
    let care_over = keep(content("care", &typed.care), &mut errors);
    let stop_over = keep(content("stop", &typed.stop), &mut errors);
    let whole = days_apart
        .zip(within)
        .zip(care_over)
        .zip(stop_over)
        .zip(fresh_days);
    let Some(((((days_apart, within), care_over), stop_over), fresh_days)) = whole else {
        return Err(errors);
    };
    Ok(ReadyRule {
        days_apart,
        within,
        care_over,
        stop_over,
        fresh_days,
    })
}
