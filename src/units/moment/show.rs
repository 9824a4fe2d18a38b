//! Showing of moments, dates and spans.

use chrono::{DateTime, Datelike, Duration, NaiveDate, Utc};
use chrono_tz::Tz;

use crate::units::exact::divide_rounded;

/// A moment on the shop's clock: `3:40 pm` on the same local day as `now`, `Thu 3:40 pm` within 6
/// days either way, else `Dec 5, 3:40 pm`, with the year (`Dec 5 2025, 3:40 pm`) if it is another.
pub fn show_moment(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    let (local, today) = (
        at.with_timezone(&zone),
        now.with_timezone(&zone).date_naive(),
    );
    let days = local.date_naive().signed_duration_since(today).num_days();
    let form = match days.abs() {
        0 => "%-I:%M %P",
        1..=6 => "%a %-I:%M %P",
        _ if local.year() == today.year() => "%b %-d, %-I:%M %P",
        _ => "%b %-d %Y, %-I:%M %P",
    };
    local.format(form).to_string()
}

/// A date: `Fri Dec 5`, with its year if that is not today's: `Fri Dec 5 2025`.
pub fn show_date(date: NaiveDate, today: NaiveDate) -> String {
    let form = if date.year() == today.year() {
        "%a %b %-d"
    } else {
        "%a %b %-d %Y"
    };
    date.format(form).to_string()
}

/// A span: `40 min`, `2 h 10 min`, `3 days 4 h`. To the nearest minute, from a day up to the
/// nearest hour; a minus in front of a negative one.
pub fn show_span(span: Duration) -> String {
    let minutes = divide_rounded(span.num_seconds().into(), 60);
    let sign = if minutes < 0 { "-" } else { "" };
    let minutes = minutes.abs();
    let hours = divide_rounded(minutes, 60);
    let day = |days| if days == 1 { "day" } else { "days" };
    let text = if minutes >= 24 * 60 {
        match (hours / 24, hours % 24) {
            (days, 0) => format!("{days} {}", day(days)),
            (days, rest) => format!("{days} {} {rest} h", day(days)),
        }
    } else {
        match (minutes / 60, minutes % 60) {
            (0, rest) => format!("{rest} min"),
            (hours, 0) => format!("{hours} h"),
            (hours, rest) => format!("{hours} h {rest} min"),
        }
    };
    format!("{sign}{text}")
}
