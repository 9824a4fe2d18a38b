//! Reading of moments still to come, for forecasts and plans.

use super::show::show_moment;
use super::words::{self, Day, Toward};
use crate::units::scan::quoted;
use chrono::{DateTime, Datelike, Days, Duration, TimeZone, Utc};
use chrono_tz::Tz;

/// Why a text is not taken as a moment to come.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AheadError {
    /// Nothing was typed.
    #[error("No time was given; write one like now, 18:00, 6 pm, tomorrow 7:00 or in 8 h.")]
    Empty,
    /// The text does not read as a time to come.
    #[error(
        "\"{text}\" does not read as a time to come; write it like now, 18:00, 6 pm, tomorrow 7:00, fri 8:00, in 8 h or 2026-12-05 14:00."
    )]
    Nonsense {
        /// What was typed.
        text: String,
    },
    /// No such day or time, or one that the clock change leaves out.
    #[error("There is no such day or time as \"{text}\"; check the date and the hour.")]
    NoSuch {
        /// What was typed.
        text: String,
    },
    /// Gone by.
    #[error("\"{text}\" is gone by (it is {now}); write a time to come.")]
    Past {
        /// What was typed.
        text: String,
        /// The present, as the shop's clock shows it.
        now: String,
    },
    /// More than a year ahead.
    #[error("\"{text}\" is more than a year ahead; check the date.")]
    TooFar {
        /// What was typed.
        text: String,
    },
}

/// Reads a moment to come.
///
/// Taken: `now`; `in 8 h`, `+8h`, `in 2 days`; `18:00`, `6 pm` (today, or tomorrow if that is gone
/// by); `tomorrow 7:00`, `fri 8:00` (the next such day, today if the hour is still to come), `Dec 5
/// 14:00`, `2026-12-05 14:00`; RFC 3339. Where clocks go back, a time that comes twice is the
/// earlier one.
///
/// # Errors
/// [`AheadError`] tells nothing, nonsense, a day or time that there is not, one gone by and one
/// more than a year ahead apart.
pub fn parse_ahead(text: &str, now: DateTime<Utc>, zone: Tz) -> Result<DateTime<Utc>, AheadError> {
    let typed = || quoted(text);
    let words = words::plain_words(text);
    if words.is_empty() {
        return Err(AheadError::Empty);
    }
    let too_far = || AheadError::TooFar { text: typed() };
    let at = if words == "now" {
        now
    } else if let Ok(at) = DateTime::parse_from_rfc3339(text.trim()) {
        at.with_timezone(&Utc)
    } else if let Some(span) = words
        .strip_prefix('+')
        .or_else(|| words.strip_prefix("in "))
    {
        let minutes = minutes(span).ok_or_else(|| AheadError::Nonsense { text: typed() })?;
        let span = Duration::try_minutes(minutes).ok_or_else(too_far)?;
        now.checked_add_signed(span).ok_or_else(too_far)?
    } else {
        on_the_clock(text, &words, now, zone)?
    };
    // The shop's clock and the wall's may differ.
    if now - at > Duration::minutes(1) {
        return Err(AheadError::Past {
            text: typed(),
            now: show_moment(now, now, zone),
        });
    }
    if at - now > Duration::days(366) {
        return Err(too_far());
    }
    Ok(at.max(now))
}

/// `8 h`, `90 min`, `2 days`, in minutes.
fn minutes(span: &str) -> Option<i64> {
    let span = span.trim();
    let unit_at = span.find(|c: char| !c.is_ascii_digit())?;
    let (count, unit) = span.split_at(unit_at);
    let size = match unit.trim() {
        "m" | "min" | "minute" | "minutes" => 1,
        "h" | "hr" | "hour" | "hours" => 60,
        "d" | "day" | "days" => 24 * 60,
        _ => return None,
    };
    Some(i64::from(words::number(count)?) * size)
}

fn on_the_clock(
    text: &str,
    words: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, AheadError> {
    let nonsense = || AheadError::Nonsense { text: quoted(text) };
    let no_such = || AheadError::NoSuch { text: quoted(text) };
    let local = now.with_timezone(&zone);
    let (day, time) = words::time_at_end(words).ok_or_else(nonsense)?;
    let time = time.map_err(|_| no_such())?;
    let today = local.date_naive();
    let gone = today.and_time(time) < local.naive_local() - Duration::minutes(1);
    let date = if day.is_empty() {
        let days = Days::new(u64::from(gone));
        today.checked_add_days(days).ok_or_else(no_such)?
    } else {
        let day = words::day(day, today)
            .ok_or_else(nonsense)?
            .map_err(|_| no_such())?;
        match day {
            Day::Weekday(weekday) if weekday == today.weekday() && !gone => today,
            day => words::resolve(day, today, Toward::Future).ok_or_else(no_such)?,
        }
    };
    zone.from_local_datetime(&date.and_time(time))
        .earliest()
        .map(|at| at.with_timezone(&Utc))
        .ok_or_else(no_such)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_to_come_are_the_next_that_fit() {
        let zone = chrono_tz::America::Chicago;
        // Wednesday 25 November 2026, 2 pm.
        let now: DateTime<Utc> = "2026-11-25T20:00:00Z".parse().unwrap();
        let read = |text: &str| {
            parse_ahead(text, now, zone).map(|at| at.with_timezone(&zone).to_rfc3339())
        };
        for (text, wants) in [
            ("now", "2026-11-25T14:00:00-06:00"),
            ("6 pm", "2026-11-25T18:00:00-06:00"),
            ("7:00", "2026-11-26T07:00:00-06:00"),
            ("tomorrow 7:00", "2026-11-26T07:00:00-06:00"),
            ("wed 18:00", "2026-11-25T18:00:00-06:00"),
            ("wed 8:00", "2026-12-02T08:00:00-06:00"),
            ("fri 8 am", "2026-11-27T08:00:00-06:00"),
            ("in 8 h", "2026-11-25T22:00:00-06:00"),
            ("+90min", "2026-11-25T15:30:00-06:00"),
            ("Dec 5 14:00", "2026-12-05T14:00:00-06:00"),
        ] {
            assert_eq!(read(text).as_deref(), Ok(wants), "{text}");
        }
        let wrong = |text: &str| parse_ahead(text, now, zone).unwrap_err();
        assert!(matches!(wrong(""), AheadError::Empty));
        assert!(matches!(wrong("soon"), AheadError::Nonsense { .. }));
        assert!(matches!(wrong("25:00"), AheadError::NoSuch { .. }));
        assert!(matches!(wrong("today 8:00"), AheadError::Past { .. }));
        assert!(matches!(wrong("in 900 days"), AheadError::TooFar { .. }));
        // The night on which the clocks jump over 2:30.
        let spring: DateTime<Utc> = "2026-03-08T05:00:00Z".parse().unwrap();
        let jumped = parse_ahead("2:30", spring, zone);
        assert!(
            matches!(jumped, Err(AheadError::NoSuch { .. })),
            "{jumped:?}"
        );
    }
}
