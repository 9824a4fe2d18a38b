//! Bench hours: by weekday with breaks, days off, evenings added, and time taken by other work.
//!
//! A person says hours as the wall clock shows them; the planner counts minutes between instants.
//! Where the two part (clocks go forward or back) the wall clock decides, so that a bench opens at
//! eight on the Monday after as on the Friday before.

use super::id::SlotId;
use chrono::{DateTime, Datelike, Days, Duration, NaiveDate, NaiveTime, TimeZone, Utc, Weekday};
use chrono_tz::Tz;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Minutes of a day.
const DAY: u16 = 24 * 60;

/// From one time of day to a later one, in whole minutes after midnight on the wall clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "(u16, u16)", into = "(u16, u16)")]
pub struct DaySpan {
    from: u16,
    to: u16,
}

impl DaySpan {
    /// From `from` until `to`; `None` unless it ends after it begins, on the same day (midnight
    /// at its end included).
    pub fn new(from: u16, to: u16) -> Option<Self> {
        (from < to && to <= DAY).then_some(Self { from, to })
    }

    /// Where it begins, in minutes after midnight.
    pub fn from(self) -> u16 {
        self.from
    }

    /// Where it ends, in minutes after midnight.
    pub fn to(self) -> u16 {
        self.to
    }

    /// How long it is by the wall clock, minutes.
    pub fn minutes(self) -> u16 {
        self.to - self.from
    }

    /// `8:00 am to 12:00 pm`.
    pub fn words(self) -> String {
        format!("{} to {}", clock(self.from), clock(self.to))
    }

    /// As it would be typed: `8:00-12:00`.
    pub fn typed(self) -> String {
        let one = |at: u16| format!("{}:{:02}", at / 60, at % 60);
        format!("{}-{}", one(self.from), one(self.to))
    }
}

impl TryFrom<(u16, u16)> for DaySpan {
    type Error = &'static str;
    fn try_from((from, to): (u16, u16)) -> Result<Self, Self::Error> {
        Self::new(from, to).ok_or("hours must end after they begin, within one day")
    }
}

impl From<DaySpan> for (u16, u16) {
    fn from(span: DaySpan) -> Self {
        (span.from, span.to)
    }
}

/// A time of day as people say it.
fn clock(minutes: u16) -> String {
    let at = u32::from(minutes % DAY);
    NaiveTime::from_hms_opt(at / 60, at % 60, 0)
        .map_or_else(String::new, |time| time.format("%-I:%M %P").to_string())
}

/// Why hours cannot be as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum HoursError {
    /// Two spans of one day over each other.
    #[error("The bench hours of {} overlap: let one end before the next begins.", long_day(*.0))]
    Overlap(Weekday),
    /// No hours at all.
    #[error("There are no bench hours in the whole week: give at least one day some.")]
    None,
}

/// A weekday, in full.
pub fn long_day(day: Weekday) -> &'static str {
    match day {
        Weekday::Mon => "Monday",
        Weekday::Tue => "Tuesday",
        Weekday::Wed => "Wednesday",
        Weekday::Thu => "Thursday",
        Weekday::Fri => "Friday",
        Weekday::Sat => "Saturday",
        Weekday::Sun => "Sunday",
    }
}

/// The weekdays from Monday.
pub const WEEK: [Weekday; 7] = [
    Weekday::Mon,
    Weekday::Tue,
    Weekday::Wed,
    Weekday::Thu,
    Weekday::Fri,
    Weekday::Sat,
    Weekday::Sun,
];

/// The hours of a week, Monday first; a break is the gap between two spans.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Vec<DaySpan>>", into = "Vec<Vec<DaySpan>>")]
pub struct WeekHours([Vec<DaySpan>; 7]);

impl WeekHours {
    /// From seven days, Monday first, spans in any order. Spans that touch become one.
    ///
    /// # Errors
    /// [`HoursError`] for spans over each other, and for a week without any.
    pub fn new(mut days: [Vec<DaySpan>; 7]) -> Result<Self, HoursError> {
        for (day, spans) in WEEK.into_iter().zip(&mut days) {
            spans.sort_unstable();
            if spans.windows(2).any(|pair| pair[1].from < pair[0].to) {
                return Err(HoursError::Overlap(day));
            }
            *spans = joined(std::mem::take(spans));
        }
        if days.iter().all(Vec::is_empty) {
            return Err(HoursError::None);
        }
        Ok(Self(days))
    }

    /// Where a shop starts: Monday to Friday, 8 to 12 and 12:30 to 5 (common practice, no source).
    pub fn starting() -> Self {
        let day = [(480, 720), (750, 1020)].map(|(from, to)| DaySpan { from, to });
        let mut days: [Vec<DaySpan>; 7] = Default::default();
        for spans in days.iter_mut().take(5) {
            *spans = day.to_vec();
        }
        Self(days)
    }

    /// The hours of a weekday.
    pub fn day(&self, day: Weekday) -> &[DaySpan] {
        &self.0[day.num_days_from_monday() as usize]
    }

    /// The same week with other hours on one day.
    ///
    /// # Errors
    /// As [`WeekHours::new`].
    pub fn with(&self, day: Weekday, spans: Vec<DaySpan>) -> Result<Self, HoursError> {
        let mut days = self.0.clone();
        days[day.num_days_from_monday() as usize] = spans;
        Self::new(days)
    }
}

impl TryFrom<Vec<Vec<DaySpan>>> for WeekHours {
    type Error = String;
    fn try_from(days: Vec<Vec<DaySpan>>) -> Result<Self, String> {
        let days: [Vec<DaySpan>; 7] = days.try_into().map_err(|_| "a week has seven days")?;
        Self::new(days).map_err(|error| error.to_string())
    }
}

impl From<WeekHours> for Vec<Vec<DaySpan>> {
    fn from(week: WeekHours) -> Self {
        week.0.into()
    }
}

/// What a slot does to the bench hours of its day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SlotMeans {
    /// No bench hours at all that day, except those added.
    DayOff,
    /// Work that is not in the program, or time away: no bench meanwhile.
    Taken(DaySpan),
    /// Hours added: an evening, a Saturday morning.
    Added(DaySpan),
}

/// A change of the bench hours of one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// Its identifier.
    pub id: SlotId,
    /// The day, on the shop's calendar.
    pub day: NaiveDate,
    /// What it does.
    pub means: SlotMeans,
    /// What it is for, one line: `measure Miller`; may be empty.
    pub what: String,
}

impl Slot {
    /// `Fri Dec 5: away`, without the day: `measure Miller, 2:00 pm to 3:00 pm`.
    pub fn words(&self) -> String {
        let name = |plain: &str| match self.what.as_str() {
            "" => plain.to_owned(),
            what => what.to_owned(),
        };
        match self.means {
            SlotMeans::DayOff => format!("day off: {}", name("away")),
            SlotMeans::Taken(span) => format!("{}, {}", name("taken"), span.words()),
            SlotMeans::Added(span) => format!("bench hours added, {}", span.words()),
        }
    }
}

/// The bench hours of one day, slots taken into account, earliest first.
pub fn hours_of(week: &WeekHours, slots: &[Slot], day: NaiveDate) -> Vec<DaySpan> {
    let of_day = || slots.iter().filter(|slot| slot.day == day);
    let off = of_day().any(|slot| slot.means == SlotMeans::DayOff);
    let mut open = if off {
        Vec::new()
    } else {
        week.day(day.weekday()).to_vec()
    };
    open.extend(of_day().filter_map(|slot| match slot.means {
        SlotMeans::Added(span) => Some(span),
        _ => None,
    }));
    open.sort_unstable();
    let mut open = joined(open);
    for slot in of_day() {
        if let SlotMeans::Taken(taken) = slot.means {
            open = open
                .into_iter()
                .flat_map(|span| {
                    [
                        DaySpan::new(span.from, span.to.min(taken.from)),
                        DaySpan::new(span.from.max(taken.to), span.to),
                    ]
                })
                .flatten()
                .collect();
        }
    }
    open
}

/// Spans in order, those that touch or overlap put together.
fn joined(spans: Vec<DaySpan>) -> Vec<DaySpan> {
    let mut out: Vec<DaySpan> = Vec::new();
    for span in spans {
        match out.last_mut() {
            Some(last) if span.from <= last.to => last.to = last.to.max(span.to),
            _ => out.push(span),
        }
    }
    out
}

/// A time at the bench without a break, between two instants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Open {
    /// When it begins.
    pub from: DateTime<Utc>,
    /// When it ends.
    pub to: DateTime<Utc>,
}

/// Every time at the bench on `days` days from `first`, earliest first.
pub fn open_times(
    week: &WeekHours,
    slots: &[Slot],
    first: NaiveDate,
    days: u32,
    zone: Tz,
) -> Vec<Open> {
    let mut out: Vec<Open> = Vec::new();
    for no in 0..u64::from(days) {
        let Some(day) = first.checked_add_days(Days::new(no)) else {
            break;
        };
        for span in hours_of(week, slots, day) {
            let (from, to) = (instant(day, span.from, zone), instant(day, span.to, zone));
            let from = out.last().map_or(from, |last| from.max(last.to));
            match out.last_mut() {
                Some(last) if last.to == from && to > from => last.to = to,
                _ if to > from => out.push(Open { from, to }),
                // All of it lies in the hour that the clocks leave out.
                _ => {}
            }
        }
    }
    out
}

/// The instant of a time of day: of two the earlier; where the clocks leave it out, the moment
/// they do.
pub fn instant(day: NaiveDate, minutes: u16, zone: Tz) -> DateTime<Utc> {
    let midnight = day.and_time(NaiveTime::MIN);
    let local = midnight
        .checked_add_signed(Duration::minutes(minutes.into()))
        .unwrap_or(midnight);
    // A zone may leave out a whole day when it changes sides of the date line.
    (0..=27 * 12)
        .filter_map(|step| local.checked_add_signed(Duration::minutes(5 * step)))
        .find_map(|local| zone.from_local_datetime(&local).earliest())
        .map_or_else(
            || Utc.from_utc_datetime(&local),
            |at| at.with_timezone(&Utc),
        )
}
