//! Reading of moments in the past, for work that is logged after it was done.

use chrono::{DateTime, Days, Duration, NaiveDateTime, TimeZone, Utc};
use chrono_tz::Tz;

use super::show::show_moment;
use super::words::{self, Day, OutOfReach, Toward};
use crate::units::exact::Ratio;
use crate::units::scan::{Reader, Token, quoted};

/// A date without its year that comes within so many days is taken for that one, not for the one a
/// year ago: two months, judgement.
const SOON_DAYS: i64 = 62;

/// Why a text is not taken as a moment.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MomentError {
    /// Nothing was typed.
    #[error("No time was given; write one like now, 10 min ago, 7:30 or yesterday 16:00.")]
    Empty,
    /// The text does not read as a time.
    #[error(
        "\"{text}\" does not read as a time; write it like now, 10 min ago, 7:30, yesterday 16:00 or 2026-11-20 14:00."
    )]
    Nonsense {
        /// What was typed.
        text: String,
    },
    /// A day that no calendar has.
    #[error("There is no such day as in \"{text}\"; check the month and the day.")]
    NoSuchDay {
        /// What was typed.
        text: String,
    },
    /// A time that no clock shows.
    #[error(
        "There is no such time as in \"{text}\"; write 0:00 to 23:59, or 1:00 to 12:59 with am or pm."
    )]
    NoSuchTime {
        /// What was typed.
        text: String,
    },
    /// A local time that the clock change leaves out.
    #[error(
        "\"{text}\" was left out that night, when the clocks went forward; write the time an hour later."
    )]
    LeftOut {
        /// What was typed.
        text: String,
    },
    /// A time that has not come yet.
    #[error("\"{text}\" has not come yet (it is {now}); write when it happened.")]
    Future {
        /// What was typed.
        text: String,
        /// The present, as the shop's clock shows it.
        now: String,
    },
    /// A date without its year that is soon to come, and so hardly the last one.
    #[error(
        "\"{text}\" has not come yet (it is {now}); for the {last} before it write the year too."
    )]
    SoonToCome {
        /// What was typed.
        text: String,
        /// The present, as the shop's clock shows it.
        now: String,
        /// The last such date, with its year.
        last: String,
    },
    /// More than fifty years back.
    #[error("\"{text}\" is more than 50 years ago; check the year.")]
    TooOld {
        /// What was typed.
        text: String,
    },
}

/// Reads the moment at which something happened.
///
/// Taken: `now`; `10 min ago`, `2h ago`, `1 h 30 min ago`, `-10` (minutes ago), `-2h`; `7:30`,
/// `7:30 am`, `3:40pm`, `7 am`; `today 7:30`, `yesterday 16:00`, `mon 8:00`; `2026-11-20 14:00`,
/// `Nov 20 2:00 pm`, `11/20 14:00`; RFC 3339 with its own offset. Times without am or pm are on
/// the 24-hour clock.
///
/// What was not said is taken as the last time that fits: `7:30` is today, or yesterday if that
/// still lies ahead; `mon 8:00` is the last Monday, a week back if 8:00 today still lies ahead; a
/// date without its year is the last such date, unless the next one lies within two months: then
/// that is what was written, and it has not come yet. A time up to one minute ahead is taken as `now`
/// (the shop's clock and the wall's may differ); so the answer never lies after `now`.
///
/// Where clocks go back, a time that came twice is the later one, or the earlier one while the
/// later has not come yet.
///
/// # Errors
/// [`MomentError`] tells nothing, nonsense, a day or time that there is not, a time left out by
/// the clock change, one that has not come yet, a date soon to come and one more than 50 years back apart.
pub fn parse_moment(
    text: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, MomentError> {
    let typed = || quoted(text);
    let words = words::plain_words(text);
    if words.is_empty() {
        return Err(MomentError::Empty);
    }
    let at = if words == "now" {
        now
    } else if let Ok(at) = DateTime::parse_from_rfc3339(text.trim()) {
        at.with_timezone(&Utc)
    } else if let Some(ago) = ago(&words) {
        ago.ok()
            .and_then(|ago| now.checked_sub_signed(ago))
            .ok_or_else(|| MomentError::TooOld { text: typed() })?
    } else {
        on_the_clock(text, &words, now, zone)?
    };
    if at > soon(now) {
        return Err(MomentError::Future {
            text: typed(),
            now: show_moment(now, now, zone),
        });
    }
    if now.signed_duration_since(at) > Duration::days(50 * 365) {
        return Err(MomentError::TooOld { text: typed() });
    }
    Ok(at.min(now))
}

/// A day (or none) and a time of day.
fn on_the_clock(
    text: &str,
    words: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, MomentError> {
    let typed = || quoted(text);
    let nonsense = || MomentError::Nonsense { text: typed() };
    let today = now.with_timezone(&zone).date_naive();
    let (day_words, time) = words::time_at_end(words).ok_or_else(nonsense)?;
    let time = time.map_err(|_| MomentError::NoSuchTime { text: typed() })?;
    let no_day = || MomentError::NoSuchDay { text: typed() };
    // How many days back the next fitting day lies, should the first still be ahead.
    let (date, again) = if day_words.is_empty() {
        (today, 1)
    } else {
        let day = words::day(day_words, today)
            .ok_or_else(nonsense)?
            .map_err(|_| no_day())?;
        let again = if matches!(day, Day::Weekday(_)) { 7 } else { 0 };
        let date = words::resolve(day, today, Toward::Past).ok_or_else(no_day)?;
        let soon = words::resolve(day, today, Toward::Future)
            .is_some_and(|next| next > today && (next - today).num_days() <= SOON_DAYS);
        if soon && matches!(day, Day::Yearless { .. }) {
            return Err(MomentError::SoonToCome {
                text: typed(),
                now: show_moment(now, now, zone),
                last: date.format("%b %-d %Y").to_string(),
            });
        }
        (date, again)
    };
    let local = date.and_time(time);
    let limit = soon(now);
    let found = instant(local, zone, limit);
    // A time that the clocks will jump over tonight lies ahead too, and may be yesterday's.
    let ahead = match found {
        Some(at) => at > limit,
        None => local > limit.with_timezone(&zone).naive_local(),
    };
    let found = if ahead && again > 0 {
        let earlier = local.checked_sub_days(Days::new(again));
        earlier.and_then(|local| instant(local, zone, limit))
    } else {
        found
    };
    found.ok_or_else(|| MomentError::LeftOut { text: typed() })
}

/// One minute after `now`: how far the shop's clock and the wall's may differ.
fn soon(now: DateTime<Utc>) -> DateTime<Utc> {
    now.checked_add_signed(Duration::minutes(1)).unwrap_or(now)
}

/// The instant of a local time: of two the later one, unless it lies after `limit`. `None` if the
/// clocks jumped over it.
fn instant(local: NaiveDateTime, zone: Tz, limit: DateTime<Utc>) -> Option<DateTime<Utc>> {
    let found = zone.from_local_datetime(&local);
    let later = found.latest().filter(|at| *at <= limit);
    later
        .or_else(|| found.earliest())
        .map(|at| at.with_timezone(&Utc))
}

/// `10 min ago`, `-10`, `-1 h 30 min`. `None` when the words are not of this kind.
fn ago(words: &str) -> Option<Result<Duration, OutOfReach>> {
    let (span, minutes_alone) = match words.strip_suffix("ago") {
        Some(span) => (span, false),
        None => (words.strip_prefix(['-', '\u{2212}'])?, true),
    };
    let mut reader = Reader::new(span);
    // A date such as 2026-11-20 does not start with a minus, so what does is a span or nothing.
    if reader.peek() == Some(&Token::Hyphen) {
        return None;
    }
    let terms = reader.terms(span_unit).ok()?;
    let mut seconds = 0_i128;
    for (value, unit) in terms {
        let size = match unit {
            Some(size) => size,
            None if minutes_alone => 60,
            None => return None,
        };
        let term = value.times(Ratio::whole_number(size)).map(Ratio::rounded);
        seconds = seconds.saturating_add(term.unwrap_or(i128::MAX));
    }
    let ago = i64::try_from(seconds).ok().and_then(Duration::try_seconds);
    Some(ago.ok_or(OutOfReach))
}

/// Seconds of a unit of time.
fn span_unit(reader: &mut Reader<'_>) -> Option<i128> {
    const WORDS: [(i128, &[&str]); 4] = [
        (60, &["m", "min", "mins", "minute", "minutes"]),
        (3600, &["h", "hr", "hrs", "hour", "hours"]),
        (86_400, &["d", "day", "days"]),
        (604_800, &["w", "wk", "week", "weeks"]),
    ];
    WORDS
        .into_iter()
        .find(|(_, words)| reader.eat_word(words))
        .map(|(seconds, _)| seconds)
}
