//! Reading of dates, for promises and plans.

use chrono::{Datelike, Days, Months, NaiveDate};

use super::words::{self, OutOfReach, Toward};
use crate::units::scan::quoted;

/// Why a text is not taken as a date.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DateError {
    /// Nothing was typed.
    #[error("No date was given; write one like Dec 5, 12/5, friday or +10d.")]
    Empty,
    /// The text does not read as a date.
    #[error(
        "\"{text}\" does not read as a date; write it like Dec 5, 12/5, 2026-12-05, friday, in 2 weeks or +10d."
    )]
    Nonsense {
        /// What was typed.
        text: String,
    },
    /// A day that no calendar has.
    #[error("There is no such day as \"{text}\"; check the month and the day.")]
    NoSuchDay {
        /// What was typed.
        text: String,
    },
    /// A weekday that does not go with the date.
    #[error("\"{text}\" does not fit: that date is {shown}; write the weekday or the date alone.")]
    WrongWeekday {
        /// What was typed.
        text: String,
        /// The date with its own weekday and year.
        shown: String,
    },
    /// More than fifty years away.
    #[error("\"{text}\" is more than 50 years away; check the year.")]
    TooFar {
        /// What was typed.
        text: String,
    },
    /// Before today, where only today or later will do.
    #[error(
        "A promise cannot lie in the past: \"{text}\" is {date} and today is {today}; write today's date or a later one."
    )]
    Past {
        /// What was typed.
        text: String,
        /// The date as it was understood.
        date: String,
        /// Today.
        today: String,
    },
}

/// Reads a date.
///
/// Taken: `2026-12-05`, `12/5` (month first), `12/5/2026`, `12/5/26`, `Dec 5`, `Dec 5 2026`,
/// `5 Dec`, `Fri Dec 5`, `today`, `tomorrow`, `yesterday`, `friday`, `+10d`, `+2w`, `in 10 days`,
/// `in 2 weeks`, `in 3 months`.
///
/// A date without its year is the next such date, today included. A weekday is the next such day
/// after today. A weekday beside a date must fit it.
///
/// # Errors
/// [`DateError`] tells nothing, nonsense, a day that there is not, a weekday that does not fit and
/// a date more than 50 years away apart.
pub fn parse_date(text: &str, today: NaiveDate) -> Result<NaiveDate, DateError> {
    let typed = || quoted(text);
    let words = words::plain_words(text);
    if words.is_empty() {
        return Err(DateError::Empty);
    }
    let too_far = || DateError::TooFar { text: typed() };
    let date = match ahead(&words, today) {
        Some(date) => date.map_err(|_| too_far())?,
        None => spoken(text, &words, today)?,
    };
    if (date.year() - today.year()).abs() > 50 {
        return Err(too_far());
    }
    Ok(date)
}

/// Reads a date as [`parse_date`] does and refuses one before today.
///
/// # Errors
/// Those of [`parse_date`], and [`DateError::Past`].
pub fn parse_future_date(text: &str, today: NaiveDate) -> Result<NaiveDate, DateError> {
    let date = parse_date(text, today)?;
    if date < today {
        return Err(DateError::Past {
            text: quoted(text),
            date: with_year(date),
            today: with_year(today),
        });
    }
    Ok(date)
}

/// Reads a day as [`parse_date`] does, but of those that fit the last one gone by, today
/// included: `fri` is the last Friday. `None` when it does not read, or when no calendar has it.
pub fn parse_past_date(text: &str, today: NaiveDate) -> Option<NaiveDate> {
    let day = words::day(&words::plain_words(text), today)?.ok()?;
    words::resolve(day, today, Toward::Past)
}

fn with_year(date: NaiveDate) -> String {
    date.format("%a %b %-d %Y").to_string()
}

fn spoken(text: &str, words: &str, today: NaiveDate) -> Result<NaiveDate, DateError> {
    let typed = || quoted(text);
    let (named, rest) = match words.split_once(' ') {
        Some((first, rest)) if words::weekday(first).is_some() => (words::weekday(first), rest),
        _ => (None, words),
    };
    let day = words::day(rest, today)
        .ok_or_else(|| DateError::Nonsense { text: typed() })?
        .map_err(|_| DateError::NoSuchDay { text: typed() })?;
    let date = words::resolve(day, today, Toward::Future)
        .ok_or_else(|| DateError::TooFar { text: typed() })?;
    if named.is_some_and(|weekday| weekday != date.weekday()) {
        return Err(DateError::WrongWeekday {
            text: typed(),
            shown: with_year(date),
        });
    }
    Ok(date)
}

/// `+10d`, `in 2 weeks`. `None` when the words are not of this kind.
fn ahead(words: &str, today: NaiveDate) -> Option<Result<NaiveDate, OutOfReach>> {
    let span = words
        .strip_prefix('+')
        .or_else(|| words.strip_prefix("in "))?
        .trim_start();
    let unit_at = span.find(|c: char| !c.is_ascii_digit())?;
    let (count, unit) = span.split_at(unit_at);
    let count = words::number(count)?;
    let date = match unit.trim_start() {
        "d" | "day" | "days" => today.checked_add_days(Days::new(count.into())),
        "w" | "wk" | "week" | "weeks" => today.checked_add_days(Days::new(u64::from(count) * 7)),
        "month" | "months" => today.checked_add_months(Months::new(count)),
        _ => return None,
    };
    Some(date.ok_or(OutOfReach))
}
