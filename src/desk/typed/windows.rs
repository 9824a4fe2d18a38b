//! Recoat windows in one plain line: `6 h to 24 h`; `within 2 h; after 6 days`.

use super::error::FieldError;
use super::span::{SpanUnit, read_span, write_span};
use super::words::quoted;
use crate::coating::{RecoatWindow, Span};

const FIELD: &str = "windows";
const CURE: &str = "type it like 6 h to 24 h, after 24 h, or within 2 h; after 6 days.";

/// Reads recoat windows, in order, parted by `;` or `or`.
///
/// `within 2 h` is open at once and shuts; `6 h to 24 h` opens and shuts; `after 6 days` (or
/// `6 days on`, or `6 days` alone) opens and stays open. `scuff` anywhere in a window says that
/// the coat below is to be scuffed even inside it.
///
/// # Errors
/// What does not read, and what would, at `windows`.
pub fn read_windows(text: &str) -> Result<Vec<RecoatWindow>, FieldError> {
    let typed = text
        .to_lowercase()
        .replace(" or later", " on")
        .replace(", or ", ";")
        .replace(" or ", ";");
    let parts: Vec<&str> = typed
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect();
    if parts.is_empty() {
        return Err(FieldError::new(
            FIELD,
            format!("No recoat time was given: {CURE}"),
        ));
    }
    parts.into_iter().map(window).collect()
}

fn window(part: &str) -> Result<RecoatWindow, FieldError> {
    let mut words: Vec<&str> = part
        .split_whitespace()
        .map(|word| word.trim_end_matches([',', ':']))
        .filter(|word| !word.is_empty())
        .collect();
    let before = words.len();
    words.retain(|word| !matches!(*word, "scuff" | "scuffed"));
    let scuff = words.len() < before;
    let (lead, rest) = match words.split_first() {
        Some((first, rest)) => (*first, rest),
        None => ("", &words[..]),
    };
    let whole = words.join(" ");
    let rest = rest.join(" ");
    let (opens, closes) = match lead {
        "within" | "until" | "before" | "to" => (Span::minutes(0), Some(time(&rest, None)?)),
        "up" => {
            let rest = rest.strip_prefix("to ").ok_or_else(|| nonsense(part))?;
            (Span::minutes(0), Some(time(rest, None)?))
        }
        "after" => (time(&rest, None)?, None),
        "from" => open_or_both(&rest, " to ")?,
        "between" => match both(&rest, " and ") {
            Some(both) => both?,
            None => return Err(nonsense(part)),
        },
        _ => open_or_both(&whole, " to ")?,
    };
    Ok(RecoatWindow {
        opens,
        closes,
        scuff,
    })
}

fn nonsense(part: &str) -> FieldError {
    let part = quoted(part);
    FieldError::new(
        FIELD,
        format!("\"{part}\" does not read as a recoat time: {CURE}"),
    )
}

fn time(text: &str, bare: Option<SpanUnit>) -> Result<Span, FieldError> {
    read_span(FIELD, text, bare)
}

type Times = (Span, Option<Span>);

/// `6 h to 24 h`, `6 h on`, `6 h`.
fn open_or_both(text: &str, between: &str) -> Result<Times, FieldError> {
    if let Some(both) = both(text, between) {
        return both;
    }
    let open_end = ["on", "onward", "onwards"]
        .into_iter()
        .find_map(|word| text.strip_suffix(word))
        .filter(|rest| rest.ends_with(' '));
    Ok((time(open_end.unwrap_or(text), None)?, None))
}

/// Two times with this word between them, if it is there.
fn both(text: &str, between: &str) -> Option<Result<Times, FieldError>> {
    let (from, to) = text.split_once(between)?;
    // 6 to 24 h: the unit behind counts for both.
    let unit = to
        .rsplit(' ')
        .next()
        .map(|word| word.trim_start_matches(|c: char| !c.is_alphabetic()));
    let unit = unit.and_then(SpanUnit::of_word);
    let read = || Ok((time(from, unit)?, Some(time(to, None)?)));
    Some(read())
}

/// Windows as they would be typed.
pub fn write_windows(windows: &[RecoatWindow]) -> String {
    let parts: Vec<String> = windows
        .iter()
        .map(|window| {
            let scuff = if window.scuff { "scuff " } else { "" };
            let opens = write_span(window.opens);
            match (window.opens.as_minutes(), window.closes) {
                (0, Some(closes)) => format!("{scuff}within {}", write_span(closes)),
                (_, Some(closes)) => format!("{scuff}{opens} to {}", write_span(closes)),
                (_, None) => format!("{scuff}after {opens}"),
            }
        })
        .collect();
    parts.join("; ")
}
