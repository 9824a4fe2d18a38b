//! Drying times and recoat windows in words.

use super::product::{RecoatWindow, Span};

/// A span in words: `45 minutes`, `2 hours`, `1 day`, `6 days`, `2 hours 30 minutes`. Hours up to
/// two days, as labels have it, unless they are whole days.
pub fn span_words(span: Span) -> String {
    let minutes = span.as_minutes();
    let many = |n: i64, word: &str| {
        let end = if n == 1 { "" } else { "s" };
        format!("{n} {word}{end}")
    };
    let days = if minutes >= 2880 || minutes == 1440 {
        minutes / 1440
    } else {
        0
    };
    let parts = [
        (days, "day"),
        ((minutes - days * 1440) / 60, "hour"),
        (minutes % 60, "minute"),
    ];
    let words: Vec<String> = parts
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, word)| many(n, word))
        .collect();
    if words.is_empty() {
        return "no time".to_owned();
    }
    words.join(" ")
}

/// Recoat windows in words: `within 2 hours, or after 6 days`; `from 6 hours to 1 day`; `after 1
/// day, scuffed`.
pub fn windows_words(windows: &[RecoatWindow]) -> String {
    let parts: Vec<String> = windows
        .iter()
        .map(|window| {
            let opens = span_words(window.opens);
            let times = match (window.opens.as_minutes(), window.closes) {
                (0, Some(closes)) => format!("within {}", span_words(closes)),
                (0, None) => "at any time".to_owned(),
                (_, Some(closes)) => format!("from {opens} to {}", span_words(closes)),
                (_, None) => format!("after {opens}"),
            };
            let scuff = if window.scuff { ", scuffed" } else { "" };
            format!("{times}{scuff}")
        })
        .collect();
    parts.join(", or ")
}

/// What comes after the last window: nothing where it stays open.
pub fn after_windows(windows: &[RecoatWindow]) -> &'static str {
    match windows.last() {
        Some(window) if window.closes.is_some() => ", later abrade first",
        _ => "",
    }
}
