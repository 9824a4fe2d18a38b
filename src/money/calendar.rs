//! The day until which a sale agreed at the buyer's home can be cancelled.
//!
//! 16 CFR 429.1: until midnight of the third business day after the sale. 16 CFR 429.0(f): a
//! business day is any calendar day except Sunday or **any federal holiday**; the section then
//! names examples, not a closed list, so that a holiday added later (Juneteenth, 2021) counts.
//! Saturdays are business days.
//!
//! Federal holidays are those of 5 U.S.C. 6103(a). One that falls on a Saturday is kept on the
//! Friday before (6103(b)), one on a Sunday on the Monday after (Executive Order 11582, section 3):
//! the rule does not say whether the day itself or the day it is kept is meant, so neither counts
//! as a business day here. That can only move the date later, which is the buyer's side.
//! Inauguration Day is a holiday of the capital's area alone (6103(c)) and is left out.

use chrono::{Datelike, Days, NaiveDate, Weekday};

/// A federal holiday of a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Holiday {
    /// Its name in the law.
    pub name: &'static str,
    /// The day itself.
    pub day: NaiveDate,
    /// The day on which it is kept.
    pub kept: NaiveDate,
}

fn nth(year: i32, month: u32, weekday: Weekday, nth: u8) -> Option<NaiveDate> {
    NaiveDate::from_weekday_of_month_opt(year, month, weekday, nth)
}

fn last_monday_of_may(year: i32) -> Option<NaiveDate> {
    nth(year, 5, Weekday::Mon, 5).or_else(|| nth(year, 5, Weekday::Mon, 4))
}

fn kept(day: NaiveDate) -> NaiveDate {
    let moved = match day.weekday() {
        Weekday::Sat => day.pred_opt(),
        Weekday::Sun => day.succ_opt(),
        _ => None,
    };
    moved.unwrap_or(day)
}

/// The federal holidays whose own day lies in a year, by date; those of today's law, so that years
/// before 1986 have too many.
pub fn federal_holidays(year: i32) -> Vec<Holiday> {
    let on = |month, day| NaiveDate::from_ymd_opt(year, month, day);
    let juneteenth = if year >= 2021 { on(6, 19) } else { None };
    let all = [
        ("New Year's Day", on(1, 1)),
        (
            "Birthday of Martin Luther King, Jr.",
            nth(year, 1, Weekday::Mon, 3),
        ),
        ("Washington's Birthday", nth(year, 2, Weekday::Mon, 3)),
        ("Memorial Day", last_monday_of_may(year)),
        ("Juneteenth National Independence Day", juneteenth),
        ("Independence Day", on(7, 4)),
        ("Labor Day", nth(year, 9, Weekday::Mon, 1)),
        ("Columbus Day", nth(year, 10, Weekday::Mon, 2)),
        ("Veterans Day", on(11, 11)),
        ("Thanksgiving Day", nth(year, 11, Weekday::Thu, 4)),
        ("Christmas Day", on(12, 25)),
    ];
    all.into_iter()
        .filter_map(|(name, day)| {
            let day = day?;
            Some(Holiday {
                name,
                day,
                kept: kept(day),
            })
        })
        .collect()
}

/// Whether a day is a business day of 16 CFR 429.0(f).
pub fn is_business_day(day: NaiveDate) -> bool {
    let year = day.year();
    // New Year's Day on a Saturday is kept in the year before.
    let holiday = [year, year + 1]
        .into_iter()
        .flat_map(federal_holidays)
        .any(|holiday| holiday.day == day || holiday.kept == day);
    day.weekday() != Weekday::Sun && !holiday
}

/// The third business day after the day of signing: the sale can be cancelled until its midnight.
pub fn notice_until(signed: NaiveDate) -> NaiveDate {
    let mut day = signed;
    let mut left = 3;
    while left > 0 {
        let Some(next) = day.checked_add_days(Days::new(1)) else {
            return day;
        };
        day = next;
        left -= i32::from(is_business_day(day));
    }
    day
}
