//! Slots, bench hours and step times as people type them.

use chrono::NaiveDate;
use tackfree::desk::typed::{
    read_hours, read_interruptions, read_slot, read_step_time, write_hours, write_step_time,
};
use tackfree::shop::{SlotMeans, Step};

/// Wednesday.
fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

fn said(text: &str) -> String {
    let drafts = read_slot(text, today()).unwrap_or_else(|error| panic!("{text}: {error}"));
    let one = |draft: &tackfree::desk::typed::SlotDraft| {
        let means = match draft.means {
            SlotMeans::DayOff => "off".to_owned(),
            SlotMeans::Taken(span) => format!("taken {}", span.typed()),
            SlotMeans::Added(span) => format!("added {}", span.typed()),
        };
        format!("{} {means} {}", draft.day, draft.what)
            .trim()
            .to_owned()
    };
    drafts.iter().map(one).collect::<Vec<_>>().join("; ")
}

#[test]
fn slots_read_as_people_say_them() {
    for (typed, wants) in [
        ("Fri away", "2026-11-27 off"),
        ("away Friday", "2026-11-27 off"),
        ("tomorrow off dentist", "2026-11-26 off dentist"),
        (
            "2pm measure Miller 1h",
            "2026-11-25 taken 14:00-15:00 measure Miller",
        ),
        ("measure at 2 pm", "2026-11-25 taken 14:00-15:00 measure"),
        (
            "2pm measure Miller 90 min",
            "2026-11-25 taken 14:00-15:30 measure Miller",
        ),
        (
            "site visit Tue 9-11",
            "2026-12-01 taken 9:00-11:00 site visit",
        ),
        ("Wed 1-3 lumber", "2026-11-25 taken 13:00-15:00 lumber"),
        (
            "Dec 5 9 am to noon fair",
            "2026-12-05 taken 9:00-12:00 fair",
        ),
        ("Sat open 8-12", "2026-11-28 added 8:00-12:00"),
        ("evening Thu 18-20", "2026-11-26 added 18:00-20:00"),
        ("Thu evening 6-8 pm", "2026-11-26 added 18:00-20:00"),
        (
            "10:30-11:15 call inspector",
            "2026-11-25 taken 10:30-11:15 call inspector",
        ),
        (
            "away Dec 24 to Dec 26",
            "2026-12-24 off; 2026-12-25 off; 2026-12-26 off",
        ),
    ] {
        assert_eq!(said(typed), wants, "{typed}");
    }
}

#[test]
fn what_does_not_read_says_what_would() {
    for (typed, part) in [
        ("", "Nothing was typed"),
        ("measure Miller", "says no time"),
        ("Sat open", "from when to when"),
        ("2020-01-02 away", "gone by"),
        ("Thu to Fri away 9-11", "Several days"),
        ("Dec 24 to Dec 20 away", "before the first"),
        ("open away Fri 8-12", "both open and away"),
    ] {
        let error = read_slot(typed, today()).unwrap_err();
        assert!(error.message.contains(part), "{typed}: {}", error.message);
        assert_eq!(error.field, "slot");
    }
}

#[test]
fn hours_go_there_and_back() {
    for (typed, wants) in [
        ("8-12, 12:30-5", "8:00-12:00, 12:30-17:00"),
        ("8 am - noon, 1 pm to 4:30 pm", "8:00-12:00, 13:00-16:30"),
        ("7:30-16", "7:30-16:00"),
        ("none", "none"),
        ("22-midnight", "22:00-24:00"),
    ] {
        let read = read_hours("mon", typed).unwrap();
        assert_eq!(write_hours(&read), wants, "{typed}");
        assert_eq!(read_hours("mon", &write_hours(&read)).unwrap(), read);
    }
    for typed in ["8", "25-26", "soon", "8-12 and more", "8-12,"] {
        assert!(read_hours("mon", typed).is_err(), "{typed}");
    }
}

#[test]
fn step_times_and_interruptions_read() {
    let time = read_step_time("5-7-10 + 0.4-0.55-0.8 a sq ft").unwrap();
    assert_eq!(
        write_step_time(time, Step::Coat),
        "5-7-10 + 0.4-0.55-0.8 a sq ft"
    );
    let plain = read_step_time("15 min").unwrap();
    assert_eq!(write_step_time(plain, Step::SetUp), "15");
    for typed in ["", "five", "5-7", "7 + a sq ft", "-7"] {
        assert!(read_step_time(typed).is_err(), "{typed}");
    }
    let often = read_interruptions("2 a day, 10-20-60 min").unwrap();
    assert_eq!((often.in_ten_days, often.minutes.likely), (20, 20_000));
    assert_eq!(read_interruptions("none").unwrap().in_ten_days, 0);
    assert!(read_interruptions("often").is_err());
}
