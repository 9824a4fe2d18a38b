//! Drying times: `45 min`, `2 h`, `3 days`.

use super::error::FieldError;
use super::words::{number_and_rest, quoted};
use crate::coating::Span;

/// The unit of a span of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpanUnit {
    /// Minutes.
    Minutes,
    /// Hours.
    Hours,
    /// Days of 24 hours.
    Days,
}

impl SpanUnit {
    fn minutes(self) -> f64 {
        match self {
            Self::Minutes => 1.0,
            Self::Hours => 60.0,
            Self::Days => 1440.0,
        }
    }

    pub(super) fn of_word(word: &str) -> Option<Self> {
        match word {
            "m" | "min" | "mins" | "minute" | "minutes" => Some(Self::Minutes),
            "h" | "hr" | "hrs" | "hour" | "hours" => Some(Self::Hours),
            "d" | "day" | "days" => Some(Self::Days),
            _ => None,
        }
    }
}

const CURE: &str = "type it like 45 min, 2 h, 1 h 30 min or 3 days.";

/// Reads a span; `bare` says what a number alone is, if it may stand alone.
///
/// # Errors
/// What does not read, and what would, at `field`.
pub fn read_span(
    field: &'static str,
    text: &str,
    bare: Option<SpanUnit>,
) -> Result<Span, FieldError> {
    let wrong = |why: &str| FieldError::new(field, format!("\"{}\" {why}: {CURE}", quoted(text)));
    let typed = text.to_lowercase();
    let mut rest = typed.trim();
    if rest.is_empty() {
        return Err(FieldError::new(field, format!("No time was given: {CURE}")));
    }
    if rest.starts_with(['-', '\u{2212}']) {
        return Err(wrong("is below zero"));
    }
    let mut minutes = 0.0;
    let mut last: Option<SpanUnit> = None;
    let mut lone = true;
    while !rest.is_empty() {
        let Some((value, after)) = number_and_rest(rest) else {
            return Err(wrong("does not read as a time"));
        };
        let end = after
            .find(|c: char| !c.is_alphabetic())
            .unwrap_or(after.len());
        let unit = match SpanUnit::of_word(&after[..end]) {
            Some(unit) => unit,
            None if after.is_empty() && lone => {
                bare.ok_or_else(|| wrong("does not say minutes, hours or days"))?
            }
            None => return Err(wrong("does not read as a time")),
        };
        // 1 day 4 h, but not 4 h 1 day: the second is more often a slip.
        if last.is_some_and(|last| unit.minutes() >= last.minutes()) {
            return Err(wrong("does not read as a time"));
        }
        minutes += value * unit.minutes();
        last = Some(unit);
        lone = false;
        rest = after[end..].trim_start_matches(['.', ' ', ',']);
    }
    if minutes > MOST_MINUTES {
        return Err(wrong("is more than ten years"));
    }
    // In range by the line above, so the conversion is exact.
    #[allow(clippy::cast_possible_truncation)]
    Ok(Span::minutes(minutes.round() as i64))
}

const MOST_MINUTES: f64 = 10.0 * 365.0 * 1440.0;

/// A span as it would be typed: `45 min`, `24 h`, `3 days`, `2 days 4 h`.
pub fn write_span(span: Span) -> String {
    let minutes = span.as_minutes();
    // Labels give hours up to two days.
    let days = if minutes >= 2880 { minutes / 1440 } else { 0 };
    let (hours, rest) = ((minutes - days * 1440) / 60, minutes % 60);
    let mut parts = Vec::new();
    if days > 0 {
        parts.push(format!("{days} days"));
    }
    if hours > 0 {
        parts.push(format!("{hours} h"));
    }
    if rest > 0 || parts.is_empty() {
        parts.push(format!("{rest} min"));
    }
    parts.join(" ")
}
