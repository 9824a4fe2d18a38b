//! The same by commands, as text and as JSON.

use crate::bench::Bench;

const NOW: &str = "2026-11-25 09:00";

fn shelf() -> Bench {
    let b = Bench::new();
    b.ok(NOW, &["client", "Nell Harrow"]);
    b.ok(NOW, &["job", "Nell Harrow", "shelves"]);
    let recipe = "hardwax oil on all sides";
    let size = [
        "--size",
        "36 x 12",
        "--thickness",
        "1",
        "--species",
        "hard maple",
    ];
    let mut words = vec!["piece", "1", "long shelf", "--recipe", recipe];
    words.extend(size);
    b.ok(NOW, &words);
    b
}

#[test]
fn a_sheet_is_printed_kept_begun_and_finished() {
    let b = shelf();
    let paper = b.ok(NOW, &["daysheet"]);
    assert!(
        paper.contains("WED NOV 25 (8:00 am to 12:00 pm, 12:30 pm to 5:00 pm)"),
        "{paper}"
    );
    assert!(paper.contains("[  ]  1A long shelf: sand 80"), "{paper}");
    assert!(
        paper.lines().all(|line| line.chars().count() <= 80),
        "{paper}"
    );
    let json = b.json(NOW, &["daysheet"]);
    assert_eq!(json["lines"][0]["step"], "sand-80");
    assert_eq!(json["lines"][0]["ticket"], "1A");
    assert!(json["jobs"][0]["ends"].is_string());
    assert!(json["load"][0]["bench_minutes"].as_i64().unwrap() > 0);
    let said = b.ok(NOW, &["replan"]);
    assert!(said.contains("Kept the order of Wed Nov 25"), "{said}");
    b.ok(NOW, &["begin"]);
    let said = b.ok("2026-11-25 09:40", &["finish"]);
    assert!(said.contains("Ticked 80 grit"), "{said}");
    let said = b.json("2026-11-25 11:00", &["replan"]);
    let changes = said["changes"].as_array().unwrap();
    assert!(
        changes
            .iter()
            .any(|line| line.as_str().unwrap().contains("was")),
        "{said}"
    );
    b.ok("2026-11-25 11:00", &["begin", "1A"]);
    let said = b.ok("2026-11-25 11:00", &["finish", "--drop"]);
    assert!(said.contains("nothing was logged"), "{said}");
}

#[test]
fn hours_slots_and_step_times_are_shown_and_changed() {
    let b = shelf();
    b.ok(
        NOW,
        &[
            "hours",
            "--weekdays",
            "7:30-12, 12:30-16",
            "--sat",
            "8-12",
            "--rack",
            "6",
        ],
    );
    let json = b.json(NOW, &["hours"]);
    assert_eq!(json["week"][0]["hours"], "7:30-12:00, 12:30-16:00");
    assert_eq!(json["week"][5]["hours"], "8:00-12:00");
    assert_eq!(json["rack_places"], 6);
    b.ok(NOW, &["slot", "2pm", "measure", "Miller", "1h"]);
    b.ok(NOW, &["slot", "Fri away"]);
    let list = b.ok(NOW, &["slot"]);
    assert!(
        list.contains("Wed Nov 25: measure Miller, 2:00 pm to 3:00 pm"),
        "{list}"
    );
    assert!(list.contains("Fri Nov 27: day off: away"), "{list}");
    let code = b.json(NOW, &["slot"])[0]["code"]
        .as_str()
        .unwrap()
        .to_owned();
    b.ok(NOW, &["slot", "--remove", &code]);
    assert!(!b.ok(NOW, &["slot"]).contains("Miller"));
    b.ok(NOW, &["steptimes", "coat", "6 + 0.5 a sq ft"]);
    let times = b.json(NOW, &["steptimes"]);
    let coat = times
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["step"] == "coat")
        .unwrap();
    assert_eq!(coat["fixed_minutes"][1], 6.0);
    let bad = b.run(NOW, &["slot", "soon"]);
    assert_eq!(bad.code, 1);
    assert!(bad.err.contains("says no time"), "{}", bad.err);
}

#[test]
fn a_promise_is_quoted_pinned_and_listed() {
    let b = shelf();
    let json = b.json(NOW, &["promise", "1", "--what-if"]);
    let (even, nine) = (
        json["even"].as_str().unwrap(),
        json["nine_in_ten"].as_str().unwrap(),
    );
    assert!(even <= nine, "{json}");
    assert!(!json["what_ifs"].as_array().unwrap().is_empty());
    let said = b.ok(NOW, &["promise", "1", "--pin", "nine"]);
    assert!(said.contains("Promised job 1 shelves for"), "{said}");
    assert_eq!(b.json(NOW, &["jobs"])["jobs"][0]["promised"], nine);
    let kept = b.json(NOW, &["promise", "--kept"]);
    assert_eq!(kept["promises"][0]["state"], "open");
    let late = b.ok("2027-03-01 09:00", &["promise", "--kept"]);
    assert!(late.contains("at 9 in 10: 0 of 1 kept"), "{late}");
    let past = b.run(NOW, &["promise", "1", "--pin", "2026-11-01"]);
    assert_eq!(past.code, 1);
    assert!(past.err.contains("past"), "{}", past.err);
}
