//! The words for days and times that moments and dates share.

use chrono::{Datelike, Days, NaiveDate, NaiveTime, Weekday};

/// A day as it was said, before it is known which one is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Day {
    /// A date with its year.
    Exact(NaiveDate),
    /// A month and a day of it.
    Yearless { month: u32, day: u32 },
    /// A weekday.
    Weekday(Weekday),
}

/// Which way a day without a year, or a weekday, is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Toward {
    /// The last such day, today included.
    Past,
    /// The next such day: a date today included, a weekday not.
    Future,
}

/// A day was said that no calendar has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct NoSuchDay;

/// A span that reaches past what the calendar holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct OutOfReach;

/// Lower case, commas as spaces, single spaces.
pub(super) fn plain_words(text: &str) -> String {
    let text = text.to_lowercase().replace(',', " ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Reads `2026-12-05`, `12/5`, `12/5/2026`, `dec 5`, `5 dec 2026`, `friday`, `today`,
/// `tomorrow`, `yesterday`. `None` when the words are something else.
pub(super) fn day(words: &str, today: NaiveDate) -> Option<Result<Day, NoSuchDay>> {
    let exact = |date: Option<NaiveDate>| Some(date.map(Day::Exact).ok_or(NoSuchDay));
    match words {
        "today" => return exact(Some(today)),
        "tomorrow" => return exact(today.checked_add_days(Days::new(1))),
        "yesterday" => return exact(today.checked_sub_days(Days::new(1))),
        _ => {}
    }
    if let Some(weekday) = weekday(words) {
        return Some(Ok(Day::Weekday(weekday)));
    }
    let dashed: Vec<&str> = words.split('-').collect();
    if let [year, month, day] = dashed.as_slice()
        && year.len() == 4
    {
        let (year, month, day) = (number(year)?, number(month)?, number(day)?);
        return Some(dated(Some(year), month, day));
    }
    let slashed: Vec<&str> = words.split('/').collect();
    match slashed.as_slice() {
        [month, day] => return Some(dated(None, number(month)?, number(day)?)),
        [month, day, year] => {
            return Some(dated(Some(full_year(year)?), number(month)?, number(day)?));
        }
        _ => {}
    }
    let spaced: Vec<&str> = words.split(' ').collect();
    let (first, second, year) = match spaced.as_slice() {
        [first, second] => (first, second, None),
        [first, second, year] => (first, second, Some(full_year(year)?)),
        _ => return None,
    };
    let (month, day) = match (month(first), month(second)) {
        (Some(month), None) => (month, second),
        (None, Some(month)) => (month, first),
        _ => return None,
    };
    let ordinal = ["st", "nd", "rd", "th"]
        .into_iter()
        .find_map(|ending| day.strip_suffix(ending));
    Some(dated(year, month, number(ordinal.unwrap_or(day))?))
}

/// The date that a spoken day means, seen from `today`; `None` past the calendar's end.
pub(super) fn resolve(day: Day, today: NaiveDate, toward: Toward) -> Option<NaiveDate> {
    match day {
        Day::Exact(date) => Some(date),
        Day::Weekday(weekday) => {
            let back = u64::from(today.weekday().days_since(weekday));
            match toward {
                Toward::Past => today.checked_sub_days(Days::new(back)),
                Toward::Future => today.checked_add_days(Days::new(7 - back)),
            }
        }
        // 29 February can be eight years off (1896 to 1904, 2096 to 2104).
        Day::Yearless { month, day } => (0..=8).find_map(|step| {
            let year = match toward {
                Toward::Past => today.year() - step,
                Toward::Future => today.year() + step,
            };
            NaiveDate::from_ymd_opt(year, month, day).filter(|date| match toward {
                Toward::Past => *date <= today,
                Toward::Future => *date >= today,
            })
        }),
    }
}

fn dated(year: Option<u32>, month: u32, day: u32) -> Result<Day, NoSuchDay> {
    // Any leap year tells whether some year has this day.
    let sample = NaiveDate::from_ymd_opt(2024, month, day).ok_or(NoSuchDay)?;
    match year {
        None => Ok(Day::Yearless {
            month: sample.month(),
            day: sample.day(),
        }),
        Some(year) => i32::try_from(year)
            .ok()
            .and_then(|year| NaiveDate::from_ymd_opt(year, month, day))
            .map(Day::Exact)
            .ok_or(NoSuchDay),
    }
}

/// A year in two digits (of this century) or four.
fn full_year(text: &str) -> Option<u32> {
    match text.len() {
        2 => Some(2000 + number(text)?),
        4 => number(text),
        _ => None,
    }
}

/// A whole number of at most nine digits, and nothing else.
pub(super) fn number(text: &str) -> Option<u32> {
    let digits = !text.is_empty() && text.len() <= 9 && text.bytes().all(|b| b.is_ascii_digit());
    digits.then(|| text.parse().ok()).flatten()
}

/// A weekday by its name or its first three or more letters.
pub(super) fn weekday(word: &str) -> Option<Weekday> {
    const NAMES: [(&str, Weekday); 7] = [
        ("monday", Weekday::Mon),
        ("tuesday", Weekday::Tue),
        ("wednesday", Weekday::Wed),
        ("thursday", Weekday::Thu),
        ("friday", Weekday::Fri),
        ("saturday", Weekday::Sat),
        ("sunday", Weekday::Sun),
    ];
    let word = word.strip_suffix('.').unwrap_or(word);
    NAMES
        .into_iter()
        .find(|(name, _)| word.len() >= 3 && name.starts_with(word))
        .map(|(_, weekday)| weekday)
}

fn month(word: &str) -> Option<u32> {
    const NAMES: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let word = word.strip_suffix('.').unwrap_or(word);
    (1..)
        .zip(NAMES)
        .find(|(_, name)| word.len() >= 3 && name.starts_with(word))
        .map(|(month, _)| month)
}

/// A time of day that was said but no clock shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct NoSuchTime;

/// Splits a time of day off the end of the words: `mon 7:30 am` is `mon` and 7:30. `None` when
/// they do not end in one; a bare number is no time, since it could be anything.
pub(super) fn time_at_end(words: &str) -> Option<(&str, Result<NaiveTime, NoSuchTime>)> {
    let (rest, half) = [("am", 0), ("pm", 12)]
        .into_iter()
        .find_map(|(mark, add)| {
            let rest = words.strip_suffix(mark)?.trim_end();
            rest.ends_with(|c: char| c.is_ascii_digit())
                .then_some((rest, Some(add)))
        })
        .unwrap_or((words, None));
    let (before, clock) = rest.rsplit_once([' ', 't']).unwrap_or(("", rest));
    let (hour, minute) = match (clock.split_once(':'), half) {
        (Some((hour, minute)), _) if minute.len() == 2 => (number(hour)?, number(minute)?),
        (None, Some(_)) => (number(clock)?, 0),
        _ => return None,
    };
    let hour = match half {
        None => Some(hour),
        Some(add) => (1..=12).contains(&hour).then_some(hour % 12 + add),
    };
    let time = hour.and_then(|hour| NaiveTime::from_hms_opt(hour, minute, 0));
    Some((before.trim_end(), time.ok_or(NoSuchTime)))
}
