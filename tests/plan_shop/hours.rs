//! Bench hours: breaks, slots, and the weeks in which the clocks change.

use chrono::{DateTime, Duration, NaiveDate, Utc, Weekday};
use tackfree::shop::{
    DaySpan, HoursError, Slot, SlotId, SlotMeans, WeekHours, hours_of, instant, open_times,
};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn span(from: u16, to: u16) -> DaySpan {
    DaySpan::new(from * 60, to * 60).unwrap()
}

fn slot(day: &str, means: SlotMeans) -> Slot {
    Slot {
        id: SlotId(uuid::Uuid::nil()),
        day: date(day),
        means,
        what: String::new(),
    }
}

#[test]
fn slots_take_and_add() {
    let week = WeekHours::starting();
    // A Wednesday.
    let day = date("2026-11-25");
    let of = |slots: &[Slot]| -> Vec<String> {
        hours_of(&week, slots, day)
            .iter()
            .map(|span| span.typed())
            .collect()
    };
    assert_eq!(of(&[]), ["8:00-12:00", "12:30-17:00"]);
    let off = slot("2026-11-25", SlotMeans::DayOff);
    assert!(of(std::slice::from_ref(&off)).is_empty());
    // Taken across the break; the other day's slot does not count.
    let taken = slot("2026-11-25", SlotMeans::Taken(span(11, 14)));
    let other = slot("2026-11-26", SlotMeans::DayOff);
    assert_eq!(of(&[taken.clone(), other]), ["8:00-11:00", "14:00-17:00"]);
    // An evening joins the afternoon; on a day off it stands alone.
    let added = slot("2026-11-25", SlotMeans::Added(span(17, 19)));
    assert_eq!(
        of(std::slice::from_ref(&added)),
        ["8:00-12:00", "12:30-19:00"]
    );
    assert_eq!(of(&[off, added.clone()]), ["17:00-19:00"]);
    assert_eq!(of(&[taken, added]), ["8:00-11:00", "14:00-19:00"]);
}

#[test]
fn a_week_without_hours_and_hours_over_each_other_are_refused() {
    let week = WeekHours::starting();
    let over = week.with(Weekday::Tue, vec![span(8, 12), span(11, 13)]);
    assert_eq!(over, Err(HoursError::Overlap(Weekday::Tue)));
    assert_eq!(WeekHours::new(Default::default()), Err(HoursError::None));
    // Spans that touch are one: a pass may run over the seam.
    let joined = week
        .with(Weekday::Tue, vec![span(12, 17), span(8, 12)])
        .unwrap();
    assert_eq!(joined.day(Weekday::Tue), [span(8, 17)]);
    assert_eq!(DaySpan::new(600, 600), None);
    assert_eq!(DaySpan::new(600, 1441), None);
}

/// From Friday's closing to Monday's opening, 17:00 to 8:00, are 63 hours; an hour less where the
/// clocks go forward between, an hour more where they go back (8 March and 1 November 2026 in the
/// United States: 15 U.S.C. 260a, second Sunday of March and first Sunday of November).
#[test]
fn the_wall_clock_opens_the_bench_when_clocks_change() {
    let zone = chrono_tz::America::Chicago;
    let week = WeekHours::starting();
    for (friday, hours) in [("2026-03-06", 62), ("2026-10-30", 64), ("2026-11-06", 63)] {
        let open = open_times(&week, &[], date(friday), 4, zone);
        assert_eq!(open.len(), 4, "{friday}");
        assert_eq!(
            open[2].from - open[1].to,
            Duration::hours(hours),
            "{friday}"
        );
        let local = open[2].from.with_timezone(&zone);
        assert_eq!(local.format("%a %H:%M").to_string(), "Mon 08:00");
    }
    // Hours over the change itself are as long as they are, not as the clock says.
    let night = week.with(Weekday::Sun, vec![span(1, 4)]).unwrap();
    for (sunday, hours) in [("2026-03-08", 2), ("2026-11-01", 4), ("2026-11-08", 3)] {
        let open = open_times(&night, &[], date(sunday), 1, zone);
        assert_eq!(
            open[0].to - open[0].from,
            Duration::hours(hours),
            "{sunday}"
        );
    }
    // Hours inside the one that is left out are none.
    let gone = week.with(Weekday::Sun, vec![span(2, 3)]).unwrap();
    assert!(open_times(&gone, &[], date("2026-03-08"), 1, zone).is_empty());
    let at = instant(date("2026-03-08"), 150, zone);
    assert_eq!(at, "2026-03-08T08:00:00Z".parse::<DateTime<Utc>>().unwrap());
}
