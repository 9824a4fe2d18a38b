//! Every accepted way of writing a moment or a date, every refusal with its words, the clock
//! changes, and every way of showing.

use chrono::{DateTime, Duration, NaiveDate, TimeZone, Utc};
use chrono_tz::America::Chicago;

use super::*;

/// A local time in Chicago.
fn local(y: i32, mo: u32, d: u32, h: u32, mi: u32) -> DateTime<Utc> {
    let at = Chicago.with_ymd_and_hms(y, mo, d, h, mi, 0);
    at.earliest()
        .expect("a time that exists")
        .with_timezone(&Utc)
}

/// Friday 20 November 2026, 3:40 pm in Chicago.
fn now() -> DateTime<Utc> {
    local(2026, 11, 20, 15, 40)
}

fn read(text: &str) -> Result<DateTime<Utc>, MomentError> {
    parse_moment(text, now(), Chicago)
}

fn date(y: i32, m: u32, d: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(y, m, d).expect("a date that exists")
}

#[test]
fn every_accepted_moment_is_read() {
    let ago = |minutes| now() - Duration::minutes(minutes);
    for (text, expected) in [
        ("now", now()),
        (" NOW ", now()),
        ("10 min ago", ago(10)),
        ("10m ago", ago(10)),
        ("-10", ago(10)),
        ("-10 min", ago(10)),
        ("-2h", ago(120)),
        ("2h ago", ago(120)),
        ("1 h 30 min ago", ago(90)),
        ("1h30m ago", ago(90)),
        ("1.5 h ago", ago(90)),
        ("1/2 hour ago", ago(30)),
        ("2 days ago", ago(2880)),
        ("1 week ago", ago(7 * 1440)),
        ("7:30", local(2026, 11, 20, 7, 30)),
        ("7:30 am", local(2026, 11, 20, 7, 30)),
        ("7 am", local(2026, 11, 20, 7, 0)),
        ("12:30 am", local(2026, 11, 20, 0, 30)),
        ("12:30 pm", local(2026, 11, 20, 12, 30)),
        ("3:40pm", now()),
        ("15:40", now()),
        ("15:41", now()),
        ("15:42", local(2026, 11, 19, 15, 42)),
        ("16:00", local(2026, 11, 19, 16, 0)),
        ("today 7:30", local(2026, 11, 20, 7, 30)),
        ("yesterday 16:00", local(2026, 11, 19, 16, 0)),
        ("mon 8:00", local(2026, 11, 16, 8, 0)),
        ("Monday 8:00 AM", local(2026, 11, 16, 8, 0)),
        ("fri 8:00", local(2026, 11, 20, 8, 0)),
        ("fri 16:00", local(2026, 11, 13, 16, 0)),
        ("sat 8:00", local(2026, 11, 14, 8, 0)),
        ("2026-11-20 14:00", local(2026, 11, 20, 14, 0)),
        ("2026-11-20T14:00", local(2026, 11, 20, 14, 0)),
        ("Nov 19, 2:00 pm", local(2026, 11, 19, 14, 0)),
        ("Mar 21 14:00", local(2026, 3, 21, 14, 0)),
        ("11/19 14:00", local(2026, 11, 19, 14, 0)),
        ("11/19/2025 14:00", local(2025, 11, 19, 14, 0)),
        ("2026-11-20T14:00:00-06:00", local(2026, 11, 20, 14, 0)),
        ("2026-11-20T20:00:00Z", local(2026, 11, 20, 14, 0)),
    ] {
        assert_eq!(read(text), Ok(expected), "{text}");
    }
}

#[test]
fn moments_are_refused_in_words() {
    let nonsense = |text: &str| {
        format!(
            "\"{text}\" does not read as a time; write it like now, 10 min ago, 7:30, yesterday 16:00 or 2026-11-20 14:00."
        )
    };
    let no_time = |text: &str| {
        format!(
            "There is no such time as in \"{text}\"; write 0:00 to 23:59, or 1:00 to 12:59 with am or pm."
        )
    };
    let future = |text: &str| {
        format!("\"{text}\" has not come yet (it is 3:40 pm); write when it happened.")
    };
    let too_old = |text: &str| format!("\"{text}\" is more than 50 years ago; check the year.");
    for (text, expected) in [
        (
            "  ",
            "No time was given; write one like now, 10 min ago, 7:30 or yesterday 16:00.".into(),
        ),
        ("soon", nonsense("soon")),
        ("7", nonsense("7")),
        ("7:3", nonsense("7:3")),
        ("10 ago", nonsense("10 ago")),
        ("--10", nonsense("--10")),
        ("yesterday", nonsense("yesterday")),
        ("someday 8:00", nonsense("someday 8:00")),
        ("24:00", no_time("24:00")),
        ("7:60", no_time("7:60")),
        ("13:00 pm", no_time("13:00 pm")),
        ("0 am", no_time("0 am")),
        (
            "2026-02-30 8:00",
            "There is no such day as in \"2026-02-30 8:00\"; check the month and the day.".into(),
        ),
        ("today 16:00", future("today 16:00")),
        ("tomorrow 8:00", future("tomorrow 8:00")),
        ("2026-11-20 15:42", future("2026-11-20 15:42")),
        ("2026-11-20T23:00:00Z", future("2026-11-20T23:00:00Z")),
        ("1926-11-20 14:00", too_old("1926-11-20 14:00")),
        ("-999999999999", too_old("-999999999999")),
    ] {
        assert_eq!(read(text).expect_err(text).to_string(), expected);
    }
}

#[test]
fn a_time_that_came_twice_is_the_later_once_that_has_come() {
    // Clocks went back at 2:00 on 1 November 2026: 1:30 came at 6:30 and at 7:30 UTC.
    let utc = |h, mi| Utc.with_ymd_and_hms(2026, 11, 1, h, mi, 0).unwrap();
    let (first, second) = (utc(6, 30), utc(7, 30));
    assert_eq!(read("2026-11-01 1:30"), Ok(second));
    assert_eq!(parse_moment("1:30", utc(7, 35), Chicago), Ok(second));
    assert_eq!(parse_moment("1:30", utc(15, 0), Chicago), Ok(second));
    // While it is the second 1:20, the second 1:30 has not come.
    assert_eq!(parse_moment("1:30", utc(7, 20), Chicago), Ok(first));
    assert_eq!(parse_moment("1:30", utc(6, 40), Chicago), Ok(first));
}

#[test]
fn a_time_that_the_clocks_jumped_over_is_refused() {
    // Clocks went forward from 2:00 to 3:00 on 8 March 2026.
    let refusal = read("2026-03-08 2:30").expect_err("left out");
    assert_eq!(
        refusal.to_string(),
        "\"2026-03-08 2:30\" was left out that night, when the clocks went forward; write the time an hour later."
    );
    // Before the jump it is still yesterday's time; after it, today's was left out.
    let before = local(2026, 3, 8, 1, 0);
    let yesterday = local(2026, 3, 7, 2, 30);
    assert_eq!(parse_moment("2:30", before, Chicago), Ok(yesterday));
    let after = local(2026, 3, 8, 9, 0);
    assert!(matches!(
        parse_moment("2:30", after, Chicago),
        Err(MomentError::LeftOut { .. })
    ));
}

#[test]
fn every_accepted_date_is_read() {
    let today = date(2026, 11, 20);
    for (text, expected) in [
        ("2026-12-05", date(2026, 12, 5)),
        ("12/5", date(2026, 12, 5)),
        ("12/5/2026", date(2026, 12, 5)),
        ("12/5/26", date(2026, 12, 5)),
        ("Dec 5", date(2026, 12, 5)),
        ("December 5th", date(2026, 12, 5)),
        ("Dec. 5, 2027", date(2027, 12, 5)),
        ("5 Dec", date(2026, 12, 5)),
        ("5 dec 2026", date(2026, 12, 5)),
        ("Sat Dec 5", date(2026, 12, 5)),
        ("11/20", today),
        ("11/19", date(2027, 11, 19)),
        ("Feb 29", date(2028, 2, 29)),
        ("today", today),
        ("tomorrow", date(2026, 11, 21)),
        ("yesterday", date(2026, 11, 19)),
        ("friday", date(2026, 11, 27)),
        ("sat", date(2026, 11, 21)),
        ("Thursday", date(2026, 11, 26)),
        ("+10d", date(2026, 11, 30)),
        ("+ 2 w", date(2026, 12, 4)),
        ("in 10 days", date(2026, 11, 30)),
        ("in 2 weeks", date(2026, 12, 4)),
        ("in 3 months", date(2027, 2, 20)),
    ] {
        assert_eq!(parse_date(text, today), Ok(expected), "{text}");
    }
}

#[test]
fn dates_are_refused_in_words() {
    let today = date(2026, 11, 20);
    let nonsense = |text: &str| {
        format!(
            "\"{text}\" does not read as a date; write it like Dec 5, 12/5, 2026-12-05, friday, in 2 weeks or +10d."
        )
    };
    for (text, expected) in [
        (
            "",
            "No date was given; write one like Dec 5, 12/5, friday or +10d.".into(),
        ),
        ("soon", nonsense("soon")),
        ("+10", nonsense("+10")),
        ("in 2 years", nonsense("in 2 years")),
        ("12/5/6", nonsense("12/5/6")),
        ("5 6", nonsense("5 6")),
        (
            "2/30",
            "There is no such day as \"2/30\"; check the month and the day.".into(),
        ),
        (
            "2/29/2027",
            "There is no such day as \"2/29/2027\"; check the month and the day.".into(),
        ),
        (
            "Fri Dec 5",
            "\"Fri Dec 5\" does not fit: that date is Sat Dec 5 2026; write the weekday or the date alone.".into(),
        ),
        (
            "2077-01-01",
            "\"2077-01-01\" is more than 50 years away; check the year.".into(),
        ),
        (
            "+999999999w",
            "\"+999999999w\" is more than 50 years away; check the year.".into(),
        ),
        (
            "yesterday",
            "A promise cannot lie in the past: \"yesterday\" is Thu Nov 19 2026 and today is Fri Nov 20 2026; write today's date or a later one.".into(),
        ),
    ] {
        let refusal = parse_future_date(text, today).expect_err(text);
        assert_eq!(refusal.to_string(), expected);
    }
    assert_eq!(parse_future_date("today", today), Ok(today));
}

#[test]
fn moments_dates_and_spans_show_as_people_say_them() {
    let shown = |at| show_moment(at, now(), Chicago);
    assert_eq!(shown(now()), "3:40 pm");
    assert_eq!(shown(local(2026, 11, 20, 0, 5)), "12:05 am");
    assert_eq!(shown(local(2026, 11, 19, 15, 40)), "Thu 3:40 pm");
    assert_eq!(shown(local(2026, 11, 26, 23, 59)), "Thu 11:59 pm");
    assert_eq!(shown(local(2026, 11, 14, 0, 0)), "Sat 12:00 am");
    assert_eq!(shown(local(2026, 12, 5, 15, 40)), "Dec 5, 3:40 pm");
    assert_eq!(shown(local(2025, 12, 5, 15, 40)), "Dec 5 2025, 3:40 pm");
    let today = date(2026, 11, 20);
    assert_eq!(show_date(date(2026, 12, 5), today), "Sat Dec 5");
    assert_eq!(show_date(date(2025, 12, 5), today), "Fri Dec 5 2025");
    for (seconds, expected) in [
        (0, "0 min"),
        (40 * 60, "40 min"),
        (3599, "1 h"),
        (130 * 60, "2 h 10 min"),
        (86_399, "1 day"),
        (86_400 + 1800, "1 day 1 h"),
        (76 * 3600, "3 days 4 h"),
        (-130 * 60, "-2 h 10 min"),
        (-10, "0 min"),
    ] {
        assert_eq!(show_span(Duration::seconds(seconds)), expected);
    }
}

#[test]
fn a_date_soon_to_come_is_not_filed_a_year_back() {
    for text in ["nov 26 8:00", "26 nov 8:00", "11/26 8:00", "jan 21 8:00"] {
        let said = read(text).expect_err(text).to_string();
        assert!(
            said.contains("has not come yet (it is 3:40 pm)") && said.contains("write the year"),
            "{said}"
        );
    }
    let said = read("nov 26 8:00").expect_err("ahead").to_string();
    assert!(said.contains("for the Nov 26 2025 before it"), "{said}");
    // With its year, or farther off than two months, it is the last one.
    assert_eq!(read("nov 26 2025 8:00"), Ok(local(2025, 11, 26, 8, 0)));
    assert_eq!(read("jan 22 8:00"), Ok(local(2026, 1, 22, 8, 0)));
    assert_eq!(read("nov 20 8:00"), Ok(local(2026, 11, 20, 8, 0)));
}
