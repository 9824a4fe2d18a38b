//! Times as data loggers write them.

use chrono::{DateTime, Duration, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, TimeZone, Utc};
use chrono_tz::Tz;
use serde::{Deserialize, Serialize};

/// Which of two numbers in `11/5/2026` is the month.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DateOrder {
    /// Month first, as in the United States.
    MonthFirst,
    /// Day first.
    DayFirst,
}

/// A time out of a file, before the order of day and month is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum When {
    /// With its own offset, or seconds since 1970.
    Instant(DateTime<Utc>),
    /// A local time.
    Local(NaiveDateTime),
    /// A local time whose first two numbers are day and month in either order.
    Slashed {
        first: u32,
        second: u32,
        year: i32,
        time: NaiveTime,
        written: Written,
    },
}

/// A date as it stands in the file, for the question about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Written {
    numbers: [u32; 3],
    digits: [usize; 3],
    mark: char,
}

impl std::fmt::Display for Written {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let ([one, two, three], [a, b, c], mark) = (self.numbers, self.digits, self.mark);
        write!(f, "{one:0a$}{mark}{two:0b$}{mark}{three:0c$}")
    }
}

/// Reads a time from one cell, or from a date's and a time's cell joined by a space.
pub(super) fn read_when(text: &str) -> Option<When> {
    let text = text.trim();
    if let Ok(at) = DateTime::parse_from_rfc3339(text) {
        return Some(When::Instant(at.with_timezone(&Utc)));
    }
    if text.len() >= 9 && text.chars().all(|c| c.is_ascii_digit()) {
        let number = text.parse::<i64>().ok()?;
        // From 1e11 on it can only be milliseconds: as seconds that is the year 5138.
        let seconds = if number >= 100_000_000_000 {
            number / 1000
        } else {
            number
        };
        return DateTime::from_timestamp(seconds, 0).map(When::Instant);
    }
    let split = text.find([' ', 'T', ',', '\u{a0}'])?;
    let (date, rest) = text.split_at(split);
    let rest = rest.trim_start_matches(|c: char| c == 'T' || c == ',' || c.is_whitespace());
    // A zone written behind the time ("+00:00", "Z"): let the standard reader have it.
    if let Some(at) = with_offset(date, rest) {
        return Some(When::Instant(at));
    }
    let time = clock(rest)?;
    let parts: Vec<&str> = date.split(['-', '/', '.']).collect();
    let &[one, two, three] = parts.as_slice() else {
        return None;
    };
    let number = |text: &str| text.parse::<u32>().ok();
    let (first, second, third) = (number(one)?, number(two)?, number(three)?);
    if one.len() == 4 {
        let date = NaiveDate::from_ymd_opt(i32::try_from(first).ok()?, second, third)?;
        return Some(When::Local(date.and_time(time)));
    }
    let year = match three.len() {
        4 => i32::try_from(third).ok()?,
        2 => 2000 + i32::try_from(third).ok()?,
        _ => return None,
    };
    if date.contains('.') {
        // Dotted dates are day first wherever they are written.
        let date = NaiveDate::from_ymd_opt(year, second, first)?;
        return Some(When::Local(date.and_time(time)));
    }
    Some(When::Slashed {
        first,
        second,
        year,
        time,
        written: Written {
            numbers: [first, second, third],
            digits: [one.len(), two.len(), three.len()],
            mark: if date.contains('/') { '/' } else { '-' },
        },
    })
}

fn with_offset(date: &str, rest: &str) -> Option<DateTime<Utc>> {
    let joined = format!("{date}T{}", rest.replace(' ', ""));
    DateTime::parse_from_rfc3339(&joined)
        .or_else(|_| DateTime::parse_from_str(&joined, "%Y-%m-%dT%H:%M:%S%z"))
        .or_else(|_| DateTime::parse_from_str(&joined, "%Y-%m-%dT%H:%M%z"))
        .ok()
        .map(|at| at.with_timezone(&Utc))
}

/// `14:00`, `14:00:15`, `14:00:15.000`, `2:00 PM`, `02:00:15 p.m.`.
fn clock(text: &str) -> Option<NaiveTime> {
    let lower = text.to_lowercase().replace('.', " ");
    let lower = lower.trim();
    let letters: String = lower.chars().filter(char::is_ascii_alphabetic).collect();
    let half = match letters.as_str() {
        "" => None,
        "am" => Some(0),
        "pm" => Some(12),
        _ => return None,
    };
    let digits = lower
        .split(|c: char| c.is_whitespace() || c.is_ascii_alphabetic())
        .next()?;
    let mut parts = digits.split(':').map(str::parse::<u32>);
    let (hour, minute) = (parts.next()?.ok()?, parts.next()?.ok()?);
    let second = parts.next().transpose().ok()?.unwrap_or(0);
    let hour = match half {
        None => hour,
        Some(add) if (1..=12).contains(&hour) => hour % 12 + add,
        Some(_) => return None,
    };
    NaiveTime::from_hms_opt(hour, minute, second)
}

/// The local times of a file turned to instants in the order in which they stand, so that the hour
/// that comes twice when clocks go back is told apart.
#[derive(Debug, Clone)]
pub(super) struct Placing {
    zone: Tz,
    fixed: Option<FixedOffset>,
    last: Option<DateTime<Utc>>,
    /// Times that the clock change leaves out, taken an hour later.
    pub(super) left_out: usize,
}

impl Placing {
    pub(super) fn new(zone: Tz, offset_minutes: Option<i32>) -> Self {
        Self {
            zone,
            fixed: offset_minutes.and_then(|minutes| FixedOffset::east_opt(minutes * 60)),
            last: None,
            left_out: 0,
        }
    }

    /// The instant of a time; none for a day that no calendar has.
    pub(super) fn place(&mut self, when: When, order: DateOrder) -> Option<DateTime<Utc>> {
        let at = match when {
            When::Instant(at) => at,
            When::Local(local) => self.local(local)?,
            When::Slashed {
                first,
                second,
                year,
                time,
                ..
            } => {
                let (month, day) = match order {
                    DateOrder::MonthFirst => (first, second),
                    DateOrder::DayFirst => (second, first),
                };
                self.local(NaiveDate::from_ymd_opt(year, month, day)?.and_time(time))?
            }
        };
        self.last = Some(at);
        Some(at)
    }

    fn local(&mut self, local: NaiveDateTime) -> Option<DateTime<Utc>> {
        if let Some(fixed) = self.fixed {
            let at = fixed.from_local_datetime(&local).single()?;
            return Some(at.with_timezone(&Utc));
        }
        match self.zone.from_local_datetime(&local) {
            chrono::LocalResult::Single(at) => Some(at.with_timezone(&Utc)),
            chrono::LocalResult::Ambiguous(early, late) => {
                let (early, late) = (early.with_timezone(&Utc), late.with_timezone(&Utc));
                // The second time round where the first would not come after the row before.
                let again = self
                    .last
                    .is_some_and(|last| early <= last && last < late + Duration::hours(1));
                Some(if again { late } else { early })
            }
            chrono::LocalResult::None => {
                self.left_out += 1;
                let later = local.checked_add_signed(Duration::hours(1))?;
                let at = self.zone.from_local_datetime(&later).earliest()?;
                Some(at.with_timezone(&Utc))
            }
        }
    }
}
