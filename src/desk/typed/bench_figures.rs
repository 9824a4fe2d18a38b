//! Figures that days are planned by, as typed: `7 + 0.55 a sq ft`, `2 a day, 10-20-60 min`.

use super::error::FieldError;
use super::words::{number, quoted};
use crate::shop::{Interruptions, Range, Step, StepTime};

/// Reads a whole number of places or minutes.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_bench_figure(field: &'static str, text: &str) -> Result<u32, FieldError> {
    let typed = text.trim().trim_end_matches("min").trim();
    let digits = !typed.is_empty() && typed.bytes().all(|b| b.is_ascii_digit());
    typed.parse().ok().filter(|_| digits).ok_or_else(|| {
        let message = format!(
            "\"{}\" is no whole number: type one, like 30.",
            quoted(text)
        );
        FieldError::new(field, message)
    })
}

/// Reads the time of a step: fixed minutes, or a rate, or both; each figure alone or as
/// low-likely-high.
///
/// # Errors
/// What does not read, at `time`.
pub fn read_step_time(text: &str) -> Result<StepTime, FieldError> {
    let wrong = || {
        let message = format!(
            "\"{}\" does not read as the time of a step: type it like 7, 7 + 0.55 a sq ft, or \
             5-7-10 + 0.4-0.55-0.8 a sq ft.",
            quoted(text)
        );
        FieldError::new("time", message)
    };
    let nothing = Range::of_minutes(0.0, 0.0, 0.0);
    let (mut fixed, mut rate) = (nothing, nothing);
    for part in text.to_lowercase().split('+') {
        let part = part.replace("minutes", "").replace("min", "");
        let part = part.trim();
        let by_metre = ["a m2", "per m2", "/m2", "/ m2"];
        let by_foot = [
            "a sq ft",
            "per sq ft",
            "/sq ft",
            "/ sq ft",
            "a sqft",
            "/ft2",
        ];
        let cut = |ends: &[&str]| {
            let found = ends.iter().find_map(|end| part.strip_suffix(end));
            found.map(str::trim)
        };
        if let Some(figures) = cut(&by_foot) {
            let [low, likely, high] = three(figures).ok_or_else(wrong)?;
            rate = Range::of_sq_ft(low, likely, high);
        } else if let Some(figures) = cut(&by_metre) {
            let [low, likely, high] = three(figures).ok_or_else(wrong)?;
            rate = Range::of_minutes(low, likely, high);
        } else {
            let [low, likely, high] = three(part).ok_or_else(wrong)?;
            fixed = Range::of_minutes(low, likely, high);
        }
    }
    Ok(StepTime { fixed, rate })
}

/// One figure for all three, or three with hyphens.
fn three(text: &str) -> Option<[f64; 3]> {
    let figures: Option<Vec<f64>> = text.split('-').map(number).collect();
    match figures?.as_slice() {
        [one] => Some([*one; 3]),
        [low, likely, high] => Some([*low, *likely, *high]),
        _ => None,
    }
}

/// A step's time as it would be typed.
pub fn write_step_time(time: StepTime, step: Step) -> String {
    let figures = |[low, likely, high]: [f64; 3]| {
        let one = |figure: f64| {
            let text = format!("{figure:.2}");
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        };
        let (low, likely, high) = (one(low), one(likely), one(high));
        if low == likely && likely == high {
            likely
        } else {
            format!("{low}-{likely}-{high}")
        }
    };
    let fixed = figures(time.fixed.minutes());
    if step.has_rate() && time.rate.high > 0 {
        format!("{fixed} + {} a sq ft", figures(time.rate.per_sq_ft()))
    } else {
        fixed
    }
}

/// Reads interruptions: `2 a day, 10-20-60 min`, `15 in ten days, 20 min`, `none`.
///
/// # Errors
/// What does not read, at `interruptions`.
pub fn read_interruptions(text: &str) -> Result<Interruptions, FieldError> {
    let typed = text.trim().to_lowercase();
    if typed == "none" {
        return Ok(Interruptions {
            in_ten_days: 0,
            minutes: Range::of_minutes(0.0, 0.0, 0.0),
        });
    }
    let wrong = || {
        let message = format!(
            "\"{}\" does not read as interruptions: type them like 2 a day, 10-20-60 min.",
            quoted(text)
        );
        FieldError::new("interruptions", message)
    };
    let (often, long) = typed.split_once(',').ok_or_else(wrong)?;
    let often = often.trim();
    let in_ten = match (
        often.strip_suffix("a day"),
        often.strip_suffix("in ten days"),
    ) {
        (Some(figure), _) => number(figure).map(|figure| figure * 10.0),
        (None, Some(figure)) => number(figure),
        (None, None) => None,
    };
    let in_ten = in_ten
        .filter(|figure| (0.0..=1000.0).contains(figure))
        .ok_or_else(wrong)?;
    let long = long.trim().trim_end_matches("min").trim();
    let [low, likely, high] = three(long).ok_or_else(wrong)?;
    // Within a thousand, by the line above.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let in_ten_days = in_ten.round() as u32;
    Ok(Interruptions {
        in_ten_days,
        minutes: Range::of_minutes(low, likely, high),
    })
}
