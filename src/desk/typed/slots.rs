//! Bench hours and changes of single days as people type them: `8-12, 12:30-5`; `Fri away`, `2pm
//! measure Miller 1h`, `site visit Tue 9-11`, `Sat open 8-12`, `away Dec 21 to Dec 24`.

use super::error::FieldError;
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

enum Time {
    Span(DaySpan),
    From(u16),
}

fn take_word(rest: &mut Vec<&str>, words: &[&str]) -> Option<String> {
    let at = rest
        .iter()
        .position(|word| words.contains(&word.to_lowercase().as_str()))?;
    Some(rest.remove(at).to_lowercase())
}

/// `1h`, `90 min`, `1.5 h`.
fn take_length(rest: &mut Vec<&str>) -> Option<u16> {
    for at in (0..rest.len()).rev() {
        let alone = super::span::read_span("slot", rest[at], None);
        let pair = rest.get(at + 1).and_then(|unit| {
            super::span::read_span("slot", &format!("{} {unit}", rest[at]), None).ok()
        });
        let (span, used) = match (pair, alone) {
            (Some(span), _) => (span, 2),
            (None, Ok(span)) => (span, 1),
            (None, Err(_)) => continue,
        };
        let minutes = u16::try_from(span.as_minutes()).ok().filter(|m| *m > 0)?;
        rest.drain(at..at + used);
        return Some(minutes);
    }
    None
}

/// Takes the first time, or time from and to, out of the words.
fn take_time(rest: &mut Vec<&str>) -> Option<Time> {
    for at in 0..rest.len() {
        let words: Vec<String> = rest[at..]
            .iter()
            .take(5)
            .map(|word| word.to_lowercase())
            .collect();
        for used in (1..=words.len()).rev() {
            let text = words[..used].join(" ");
            let found = tokens(&text);
            if let Some((span, all)) = range(&found)
                && all == found.len()
            {
                rest.drain(at..at + used);
                return Some(Time::Span(span));
            }
        }
        for used in (1..=2.min(words.len())).rev() {
            let found = tokens(&words[..used].join(" "));
            if let Some((time, all)) = time(&found)
                && all == found.len()
                && time.said
            {
                let before = at
                    .checked_sub(1)
                    .filter(|before| rest[*before].eq_ignore_ascii_case("at"));
                rest.drain(before.unwrap_or(at)..at + used);
                return Some(Time::From(time.minutes));
            }
        }
    }
    None
}

/// Numbers, colons, words and dashes apart: `12:30-5pm` is `12 : 30 - 5 pm`.
fn tokens(text: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut kind = ' ';
    for c in text.chars() {
        let now = match c {
            '0'..='9' => '9',
            'a'..='z' => 'a',
            '-' | '\u{2013}' => '-',
            ':' => ':',
            _ => ' ',
        };
        if now == ' ' {
            kind = ' ';
            continue;
        }
        match out.last_mut() {
            Some(last) if kind == now => last.push(c),
            _ => out.push(if now == '-' {
                "-".to_owned()
            } else {
                c.to_string()
            }),
        }
        kind = now;
    }
    out
}

#[derive(Clone, Copy)]
struct TimeRead {
    minutes: u16,
    /// Whether am, pm, noon or minutes were said.
    said: bool,
    /// Whether am or pm was said.
    half: bool,
}

/// A time of day at the front; how many tokens it takes.
fn time(tokens: &[String]) -> Option<(TimeRead, usize)> {
    match tokens.first()?.as_str() {
        "noon" => return Some((fixed(720), 1)),
        "midnight" => return Some((fixed(1440), 1)),
        _ => {}
    }
    let mut hour: u16 = tokens[0].parse().ok().filter(|_| tokens[0].len() <= 2)?;
    let (mut minute, mut used, mut said) = (0_u16, 1, false);
    if tokens.get(1).map(String::as_str) == Some(":") {
        minute = tokens
            .get(2)?
            .parse()
            .ok()
            .filter(|_| tokens[2].len() == 2)?;
        (used, said) = (3, true);
    }
    let half = match tokens.get(used).map(String::as_str) {
        Some("am" | "a") => Some(0),
        Some("pm" | "p") => Some(12),
        _ => None,
    };
    if let Some(add) = half {
        if !(1..=12).contains(&hour) {
            return None;
        }
        hour = hour % 12 + add;
        used += 1;
    }
    let minutes = hour * 60 + minute;
    (minute < 60 && minutes <= 24 * 60).then_some((
        TimeRead {
            minutes,
            said: said || half.is_some(),
            half: half.is_some(),
        },
        used,
    ))
}

fn fixed(minutes: u16) -> TimeRead {
    TimeRead {
        minutes,
        said: true,
        half: true,
    }
}

/// From and to at the front; how many tokens they take.
fn range(tokens: &[String]) -> Option<(DaySpan, usize)> {
    let (mut from, used) = time(tokens)?;
    if !matches!(tokens.get(used)?.as_str(), "-" | "to" | "until") {
        return None;
    }
    let (mut to, more) = time(&tokens[used + 1..])?;
    let all = used + 1 + more;
    let noon = 12 * 60;
    // 1-3 and 2 to 4: nobody's bench opens before five without am said.
    if !from.half && !to.half && from.minutes < 5 * 60 && to.minutes < noon {
        from.minutes += noon;
        to.minutes += noon;
    } else if !from.half
        && to.half
        && to.minutes > noon
        && from.minutes + noon < to.minutes
        && from.minutes < 7 * 60
    {
        from.minutes += noon;
    } else if !to.half && to.minutes <= from.minutes && to.minutes + noon > from.minutes {
        to.minutes += noon;
    }
    DaySpan::new(from.minutes, to.minutes).map(|span| (span, all))
}
