//! Bench hours and changes of single days as people type them: `8-12, 12:30-5`; `Fri away`, `2pm
//! measure Miller 1h`, `site visit Tue 9-11`, `Sat open 8-12`, `away Dec 21 to Dec 24`.

use super::error::FieldError;
use super::slots_time::{Time, range, take_length, take_time, take_word, tokens};
use super::words::quoted;
use crate::shop::{DaySpan, SlotMeans};
use crate::units::moment::parse_date;
use chrono::{Days, NaiveDate};

/// A slot as typed, its day known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SlotDraft {
    /// The day.
    pub day: NaiveDate,
    /// What it does to the bench hours.
    pub means: SlotMeans,
    /// What it is for.
    pub what: String,
}

/// The longest time off that is typed in one go, in days.
const LONGEST_OFF: i64 = 60;
/// How long something takes whose length was not said, minutes (a judgement).
const UNSAID: u16 = 60;

/// Reads the bench hours of a day: `8-12, 12:30-5`, `8 am to noon`, `none`.
///
/// Hours without am or pm are on the 24-hour clock, but an end that would lie before its beginning
/// is meant after noon.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_hours(field: &'static str, text: &str) -> Result<Vec<DaySpan>, FieldError> {
    let typed = text.trim().to_lowercase();
    if matches!(typed.as_str(), "none" | "off" | "closed" | "-") {
        return Ok(Vec::new());
    }
    let mut out = Vec::new();
    for part in typed.split([',', ';']).map(str::trim) {
        let found = range(&tokens(part)).filter(|(_, used)| *used == tokens(part).len());
        let (span, _) = found.ok_or_else(|| {
            let message = format!(
                "\"{}\" does not read as bench hours: type them like 8-12, 12:30-17 or none.",
                quoted(part)
            );
            FieldError::new(field, message)
        })?;
        out.push(span);
    }
    Ok(out)
}

/// Bench hours as they would be typed.
pub fn write_hours(spans: &[DaySpan]) -> String {
    if spans.is_empty() {
        return "none".to_owned();
    }
    let spans: Vec<String> = spans.iter().map(|span| span.typed()).collect();
    spans.join(", ")
}

/// Reads one or more slots from one line; several days off give one each.
///
/// # Errors
/// What does not read, at `slot`.
pub fn read_slot(text: &str, today: NaiveDate) -> Result<Vec<SlotDraft>, FieldError> {
    let wrong = |why: String| FieldError::new("slot", why);
    let plain = text.replace(',', " ");
    let said: Vec<&str> = plain.split_whitespace().collect();
    if said.is_empty() {
        return Err(wrong(
            "Nothing was typed: say it like \"Fri away\", \"2pm measure Miller 1h\" or \
             \"Sat open 8-12\"."
                .to_owned(),
        ));
    }
    let (mut rest, first, last) = days(&said, today)?;
    if first < today {
        return Err(wrong(format!(
            "{} is gone by: say a day from today on.",
            first.format("%a %b %-d")
        )));
    }
    let length = take_length(&mut rest);
    let time = take_time(&mut rest);
    let (off, open) = (
        take_word(&mut rest, &["away", "off", "closed", "holiday"]),
        take_word(&mut rest, &["open", "bench", "evening", "extra", "added"]),
    );
    let what = rest.join(" ");
    let span = match time {
        None => None,
        Some(Time::Span(span)) => Some(span),
        Some(Time::From(from)) => {
            let to = from.saturating_add(length.unwrap_or(UNSAID)).min(24 * 60);
            DaySpan::new(from, to)
        }
    };
    let means = match (span, &open, &off) {
        (Some(span), Some(_), None) => SlotMeans::Added(span),
        (Some(span), None, _) => SlotMeans::Taken(span),
        (None, None, Some(_)) => SlotMeans::DayOff,
        (None, Some(_), _) => {
            return Err(wrong(format!(
                "\"{}\" does not say from when to when: type it like \"Sat open 8-12\".",
                quoted(text)
            )));
        }
        (Some(_), Some(_), Some(_)) => {
            return Err(wrong(format!(
                "\"{}\" says both open and away: say one.",
                quoted(text)
            )));
        }
        (None, None, None) => {
            return Err(wrong(format!(
                "\"{}\" says no time: type it like \"2pm measure Miller 1h\", or away for the \
                 whole day.",
                quoted(text)
            )));
        }
    };
    let what = match (what.as_str(), off) {
        ("", Some(word)) if means != SlotMeans::DayOff => word,
        _ => what,
    };
    let count = (last - first).num_days();
    if count > 0 && means != SlotMeans::DayOff {
        return Err(wrong(
            "Several days in one go can only be days off: type the others one by one.".to_owned(),
        ));
    }
    if !(0..=LONGEST_OFF).contains(&count) {
        return Err(wrong(format!(
            "Time off runs from a day to a later one, up to {LONGEST_OFF} days in one go."
        )));
    }
    let days = (0..=count.unsigned_abs()).filter_map(|no| first.checked_add_days(Days::new(no)));
    Ok(days
        .map(|day| SlotDraft {
            day,
            means,
            what: what.clone(),
        })
        .collect())
}

/// The words without the day or days they name; today where they name none.
fn days<'a>(
    said: &[&'a str],
    today: NaiveDate,
) -> Result<(Vec<&'a str>, NaiveDate, NaiveDate), FieldError> {
    let find = |words: &[&'a str]| -> Option<(usize, usize, NaiveDate)> {
        (1..=3).rev().find_map(|len| {
            (0..=words.len().checked_sub(len)?).find_map(|at| {
                let text = words[at..at + len].join(" ");
                let date = parse_date(&text, today).ok()?;
                Some((at, len, date))
            })
        })
    };
    // A weekday that is today's means today.
    let as_meant = |word: &str, date: NaiveDate| {
        let same = today.format("%A").to_string().to_lowercase();
        let is_today = word.len() >= 3 && same.starts_with(&word.to_lowercase());
        if is_today { today } else { date }
    };
    let mut rest = said.to_vec();
    let Some((at, len, first)) = find(&rest) else {
        return Ok((rest, today, today));
    };
    let first = as_meant(rest[at], first);
    rest.drain(at..at + len);
    let mut last = first;
    if let Some(word) = rest.get(at)
        && matches!(
            word.to_lowercase().as_str(),
            "to" | "until" | "till" | "through"
        )
        && let Some((0, len, date)) = find(&rest[at + 1..])
    {
        last = date;
        rest.drain(at..=at + len);
    }
    if last < first {
        return Err(FieldError::new(
            "slot",
            "The last day off lies before the first: say the earlier one first.",
        ));
    }
    Ok((rest, first, last))
}
