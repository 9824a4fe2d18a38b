//! A moisture reading as typed.

use super::error::{FieldError, keep};
use super::size::read_length;
use super::words::{pick, plain, quoted};
use super::work::read_when;
use crate::desk::WoodRefusal;
use crate::shop::Settings;
use crate::wood::moisture::{Correction, Meter, MoistureContent, Reading, ReadingError};
use chrono::{DateTime, Utc};

/// A moisture reading, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReadingTyped {
    /// What the meter showed, in per cent: `8.5`.
    pub value: String,
    /// Where on the piece: `underside, left end`.
    pub place: String,
    /// How deep the pins went; may be empty.
    pub depth: String,
    /// `pin`, `pad` or `oven`.
    pub meter: String,
    /// `not noted`, `in the meter`, or points to add: `+0.7`.
    pub correction: String,
    /// When; empty is now.
    pub at: String,
}

fn meters() -> Vec<(Meter, String)> {
    Meter::ALL
        .into_iter()
        .map(|meter| (meter, meter.words().to_owned()))
        .collect()
}

impl ReadingTyped {
    /// A reading as it would be typed.
    pub fn of(reading: &Reading, settings: &Settings) -> Self {
        let zone = settings.zone;
        Self {
            value: reading.percent.show(),
            place: reading.place.clone(),
            depth: reading.depth.map_or_else(String::new, |depth| {
                super::size::write_length(depth, settings)
            }),
            meter: reading.meter.words().to_owned(),
            correction: match reading.correction {
                Correction::NotNoted => "not noted".to_owned(),
                Correction::InMeter => "in the meter".to_owned(),
                Correction::Added { tenths } => format!("{:+.1}", f64::from(tenths) / 10.0),
            },
            at: reading
                .at
                .with_timezone(&zone)
                .format("%Y-%m-%d %H:%M")
                .to_string(),
        }
    }
}

/// Reads a reading. A moment left as it was written from `before` stays exact to the millisecond.
///
/// # Errors
/// Everything that does not read, each at its field.
pub fn read_reading(
    typed: &ReadingTyped,
    before: Option<&Reading>,
    settings: &Settings,
    now: DateTime<Utc>,
) -> Result<Reading, Vec<FieldError>> {
    let mut errors = Vec::new();
    let percent = keep(
        MoistureContent::parse(&typed.value).map_err(|error| FieldError::said("value", &error)),
        &mut errors,
    );
    let depth = match typed.depth.trim() {
        "" => Some(None),
        text => keep(read_length("depth", text, settings).map(Some), &mut errors),
    };
    let meter = match typed.meter.trim() {
        "" => Some(Meter::Pin),
        text => keep(pick("meter", text, &meters()), &mut errors),
    };
    let correction = keep(read_correction(&typed.correction), &mut errors);
    let same = before.filter(|before| ReadingTyped::of(before, settings).at == typed.at);
    let at = match same {
        Some(before) => Some(before.at),
        None => keep(read_when(&typed.at, now, settings.zone), &mut errors),
    };
    let place = typed.place.clone();
    if place.trim().is_empty() {
        errors.push(FieldError::said("place", &ReadingError::NoPlace));
    }
    let whole = percent.zip(depth).zip(meter).zip(correction).zip(at);
    let Some(((((percent, depth), meter), correction), at)) = whole.filter(|_| errors.is_empty())
    else {
        return Err(errors);
    };
    Ok(Reading {
        at,
        place,
        depth,
        meter,
        correction,
        percent,
    })
}

/// Reads whether the figure was corrected for the species: nothing or `not noted`, `in the meter`,
/// or the points that are added to what the meter shows.
fn read_correction(text: &str) -> Result<Correction, FieldError> {
    let wrong = || {
        FieldError::new(
            "correction",
            format!(
                "\"{}\" does not read as a species correction; say not noted, in the meter, or the \
                 points to add, like +0.7.",
                quoted(text)
            ),
        )
    };
    let words = plain(text);
    if words.is_empty() || words == "no" || "not noted".starts_with(&words) {
        return Ok(Correction::NotNoted);
    }
    if words == "yes" || words == "meter" || "in the meter".starts_with(&words) {
        return Ok(Correction::InMeter);
    }
    let typed = text.trim();
    let digits = typed.strip_prefix(['+', '-']).unwrap_or(typed);
    let points = super::words::number(digits).filter(|points| *points <= 20.0);
    let points = points.ok_or_else(wrong)?;
    let sign = if typed.starts_with('-') { -1.0 } else { 1.0 };
    #[allow(clippy::cast_possible_truncation)] // at most 200 tenths
    let tenths = (sign * points * 10.0).round() as i16;
    Ok(Correction::Added { tenths })
}

/// The field that a refusal about wood belongs to.
pub(super) fn field_of_wood(refusal: &WoodRefusal) -> &'static str {
    match refusal {
        WoodRefusal::Reading(ReadingError::NoPlace) => "place",
        WoodRefusal::Reading(ReadingError::Depth { .. }) => "depth",
        WoodRefusal::Reading(ReadingError::Correction { .. }) => "correction",
        WoodRefusal::Ahead => "at",
        WoodRefusal::Air(_) => "winter",
        WoodRefusal::LookUp(_) => "wood",
        WoodRefusal::Fastener(error) => match error.what {
            "A screw" => "screw",
            "A figure-eight" => "eight",
            _ => "spacing",
        },
        WoodRefusal::Own { .. } | WoodRefusal::InUse { .. } => "name",
        WoodRefusal::Rule(_) => "within",
    }
}
