//! Moments and dates as the files write them: absolute, or relative to the moment of reading.

use super::words::minutes;
use chrono::{
    DateTime, Datelike, Days, Duration, NaiveDate, NaiveTime, SecondsFormat, SubsecRound, TimeZone,
    Utc,
};
use chrono_tz::Tz;

/// The most that a relative time reaches back or ahead, in days.
const MOST_DAYS: u64 = 36_525;

/// RFC 3339 in UTC with milliseconds.
pub(super) fn moment(at: DateTime<Utc>) -> String {
    at.to_rfc3339_opts(SecondsFormat::Millis, true)
}

/// RFC 3339; or `now`, `now-3h20m`, or `-2d 07:40`: so many days back, at that time of day in
/// `zone` (an hour later where the clocks jumped over it).
pub(super) fn read_moment(
    text: &str,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<DateTime<Utc>, String> {
    let text = text.trim();
    let at = match DateTime::parse_from_rfc3339(text) {
        Ok(at) => Some(at.with_timezone(&Utc)),
        Err(_) if text == "now" => Some(now),
        Err(_) => match text.strip_prefix("now-") {
            Some(span) => {
                minutes(span).and_then(|back| now.checked_sub_signed(Duration::try_minutes(back)?))
            }
            None => on_a_day(text, now, zone),
        },
    };
    at.map(|at| at.trunc_subsecs(3))
        .filter(|at| (1900..=9999).contains(&at.year()))
        .ok_or_else(|| {
            format!(
                "\"{text}\" does not read as a time; write it like 2026-11-20T14:00:00.000Z, \
             now-3h20m or -2d 07:40."
            )
        })
}

/// `-2d 07:40`.
fn on_a_day(text: &str, now: DateTime<Utc>, zone: Tz) -> Option<DateTime<Utc>> {
    let (day, time) = text.split_once(' ')?;
    let time = NaiveTime::parse_from_str(time.trim(), "%H:%M").ok()?;
    let date = days_off(day, now.with_timezone(&zone).date_naive())?;
    let local = date.and_time(time);
    let there = zone.from_local_datetime(&local).earliest();
    let later = || {
        zone.from_local_datetime(&(local + Duration::hours(1)))
            .earliest()
    };
    there.or_else(later).map(|at| at.with_timezone(&Utc))
}

/// `-2d`, `+9d`: so many days from `today`.
fn days_off(text: &str, today: NaiveDate) -> Option<NaiveDate> {
    let (back, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+')?),
    };
    let digits = digits
        .strip_suffix('d')
        .filter(|digits| digits.bytes().all(|b| b.is_ascii_digit()))?;
    let days = Days::new(digits.parse().ok().filter(|days| *days <= MOST_DAYS)?);
    if back {
        today.checked_sub_days(days)
    } else {
        today.checked_add_days(days)
    }
}

/// `2026-12-05`.
pub(super) fn date(date: NaiveDate) -> String {
    date.format("%Y-%m-%d").to_string()
}

/// A date as written by [`date`], or `today`, `+9d`, `-9d`.
pub(super) fn read_date(text: &str, today: NaiveDate) -> Result<NaiveDate, String> {
    let text = text.trim();
    let plain = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok();
    plain
        .or_else(|| (text == "today").then_some(today))
        .or_else(|| days_off(text, today))
        .filter(|date| (1900..=9999).contains(&date.year()))
        .ok_or_else(|| {
            format!(
                "\"{text}\" does not read as a date; write it like 2026-12-05, today, +9d or -3d."
            )
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn utc(text: &str) -> DateTime<Utc> {
        DateTime::parse_from_rfc3339(text)
            .unwrap()
            .with_timezone(&Utc)
    }

    #[test]
    fn times_are_absolute_or_relative() {
        let zone = chrono_tz::America::New_York;
        let now = utc("2026-03-09T04:30:00.123Z");
        let read = |text: &str| read_moment(text, now, zone).map(moment);
        assert_eq!(
            read("2026-01-02T03:04:05.678Z").as_deref(),
            Ok("2026-01-02T03:04:05.678Z")
        );
        assert_eq!(
            read("2026-01-02T03:04:05-05:00").as_deref(),
            Ok("2026-01-02T08:04:05.000Z")
        );
        assert_eq!(read("now").as_deref(), Ok("2026-03-09T04:30:00.123Z"));
        assert_eq!(read("now-3h20m").as_deref(), Ok("2026-03-09T01:10:00.123Z"));
        // It is 0:30 on the 9th in the zone; the clocks went forward at 2:00 on the 8th.
        assert_eq!(read("-2d 07:40").as_deref(), Ok("2026-03-07T12:40:00.000Z"));
        assert_eq!(read("-1d 07:40").as_deref(), Ok("2026-03-08T11:40:00.000Z"));
        assert_eq!(read("-1d 02:30").as_deref(), Ok("2026-03-08T07:30:00.000Z"));
        for nonsense in [
            "",
            "yesterday",
            "-2d",
            "-2d 25:00",
            "now+1h",
            "now-",
            "-99999999d 07:00",
            "2d 07:00",
        ] {
            assert!(read(nonsense).is_err(), "{nonsense}");
        }
    }

    #[test]
    fn dates_are_absolute_or_relative() {
        let today = NaiveDate::from_ymd_opt(2026, 11, 20).unwrap();
        let read = |text: &str| read_date(text, today).map(date);
        assert_eq!(read("2026-12-05").as_deref(), Ok("2026-12-05"));
        assert_eq!(read("today").as_deref(), Ok("2026-11-20"));
        assert_eq!(read("+9d").as_deref(), Ok("2026-11-29"));
        assert_eq!(read("-20d").as_deref(), Ok("2026-10-31"));
        for nonsense in ["", "9d", "+9", "+9w", "12/5", "2026-13-05", "+-9d"] {
            assert!(read(nonsense).is_err(), "{nonsense}");
        }
    }
}
