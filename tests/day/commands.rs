//! The same by commands: the checks with a pass, work logged late, times corrected, the day closed.

use crate::bench::Bench;

/// A shelf sanded and moved along, ready for its first coat of oil.
fn shelf(now: &str) -> Bench {
    let b = Bench::new();
    b.ok(now, &["client", "Nell Harrow"]);
    b.ok(now, &["job", "Nell Harrow", "shelves"]);
    b.ok(
        now,
        &[
            "piece",
            "1",
            "long shelf",
            "--size",
            "36 x 12",
            "--thickness",
            "1",
            "--species",
            "hard maple",
            "--recipe",
            "hardwax oil on all sides",
        ],
    );
    for grit in ["80", "120", "150", "180"] {
        b.ok(now, &["tick", "1A", grit, "--faces", "all"]);
    }
    b.ok(now, &["wipe", "1A"]);
    b.ok(now, &["move", "1A"]);
    b
}

#[test]
fn a_pass_answers_with_its_checks_and_cautions() {
    let b = shelf("2026-11-24 09:00");
    let now = "2026-11-25 10:00";
    let only = b.ok(now, &["pass", "1A", "--air", "60F 92%", "--check"]);
    assert!(only.contains("Check, wait: wood "), "{only}");
    assert!(
        only.contains("Check, not known: 1A long shelf: wood moisture not measured"),
        "{only}"
    );
    assert!(only.contains("Mind: Oily rags can catch fire"), "{only}");
    assert!(only.contains("NFPA"), "{only}");
    assert!(
        b.ok(now, &["log", "1A"])
            .lines()
            .all(|line| !line.contains("hardwax")),
        "nothing logged"
    );

    let done = b.json(now, &["pass", "1A", "--air", "70F 45%"]);
    let stands: Vec<&str> = done["checks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|check| check["stands"].as_str().unwrap())
        .collect();
    assert_eq!(stands, ["ok", "ok", "ok", "not known"]);
    let cautions = done["cautions"].as_array().unwrap();
    assert!(cautions[0]["line"].as_str().unwrap().contains("Oily rags"));
    assert_eq!(cautions[0]["source"], "NFPA oily-rag tip sheet");
    let text = b.ok(
        "2026-11-27 10:00",
        &["pass", "1A", "--scuffed", "pad", "--at", "20"],
    );
    assert!(text.contains("Check, not known: "), "{text}");
    assert!(text.contains("bag"), "dust of the scuff: {text}");
}

#[test]
fn work_is_logged_late_in_two_digits_and_corrected_afterwards() {
    let b = shelf("2026-11-24 09:00");
    b.ok("2026-11-25 10:00", &["pass", "1A", "--at", "20"]);
    let log = b.json("2026-11-25 10:00", &["log", "1A"]);
    let last = log["lines"].as_array().unwrap().last().unwrap().clone();
    assert_eq!(last["at"], "2026-11-25T15:40:00Z", "20 minutes ago");
    let code = last["code"].as_str().unwrap();
    let text = b.ok("2026-11-25 10:00", &["log", "1A"]);
    assert!(text.contains(code), "{text}");
    assert!(text.contains("150 grit on 6 faces"), "{text}");

    let said = b.ok(
        "2026-11-25 10:05",
        &["retime", "1A", code, "--start", "8:50", "--at", "9:00"],
    );
    assert!(
        said.contains(
            "from Wed Nov 25 2026 9:40 am to Wed Nov 25 2026 8:50 am until Wed Nov 25 2026 9:00 am"
        ),
        "{said}"
    );
    let log = b.json("2026-11-25 10:05", &["log", "1A"]);
    let last = log["lines"].as_array().unwrap().last().unwrap().clone();
    assert_eq!(
        (&last["started"], &last["at"]),
        (
            &"2026-11-25T14:50:00Z".into(),
            &"2026-11-25T15:00:00Z".into()
        )
    );
    let held = b.refused(
        "2026-11-25 10:05",
        &["retime", "1A", "last", "--at", "2026-11-23 9:00"],
    );
    assert!(held.err.contains("before that"), "{}", held.err);
    let none = b.run(
        "2026-11-25 10:05",
        &["retime", "1A", "zzzzzz", "--at", "now"],
    );
    assert_eq!(none.code, 1);
    assert!(none.err.contains("tackfree log lists them"), "{}", none.err);
    b.ok("2026-11-25 10:06", &["undo"]);
    let log = b.json("2026-11-25 10:06", &["log", "1A"]);
    assert_eq!(
        log["lines"].as_array().unwrap().last().unwrap()["at"],
        "2026-11-25T15:40:00Z"
    );
    let journal = b.ok("2026-11-25 10:06", &["journal"]);
    assert!(
        journal.contains("Corrected the time of the coat of hardwax oil"),
        "{journal}"
    );
}

#[test]
fn the_day_is_listed_ticked_and_closed() {
    let b = shelf("2026-11-24 09:00");
    b.ok("2026-11-25 10:00", &["pass", "1A"]);
    let evening = "2026-11-25 17:30";
    let listed = b.ok(evening, &["day"]);
    assert!(
        listed.starts_with("DAY'S END, Wed Nov 25: not closed\n"),
        "{listed}"
    );
    assert!(
        listed.contains("[ ] oily rags: of hardwax oil, last 10:00 am; to do"),
        "{listed}"
    );
    assert!(listed.contains("NFPA"), "{listed}");

    let later = "2026-11-26 18:00";
    let held = b.run(later, &["close"]);
    assert_eq!((held.code, held.out.as_str()), (3, ""), "{held:?}");
    assert!(held.err.contains("from Wed Nov 25"), "{}", held.err);
    assert_eq!(b.json(later, &["day"])["rags_left_open"], "2026-11-25");
    let listed = b.ok(later, &["day"]);
    let words = "Wed Nov 25 is still open: oily rags of hardwax oil are not logged";
    assert!(listed.contains(words), "{listed}");
    let held = b.run(evening, &["close"]);
    assert_eq!((held.code, held.out.as_str()), (3, ""), "{held:?}");
    assert!(held.err.contains("hardwax oil"), "{}", held.err);
    let thin = b.run(evening, &["close", "--reason", "nah"]);
    assert_eq!(thin.code, 3, "{thin:?}");
    let how = b.run(evening, &["chore", "oily-rags"]);
    assert_eq!(how.code, 1);
    assert!(how.err.contains("laid flat outdoors"), "{}", how.err);
    let way = b.run(evening, &["chore", "oily-rags", "--how", "bin"]);
    assert!(way.err.contains("--how: \"bin\" is no way"), "{}", way.err);
    b.ok(evening, &["chore", "oily", "--how", "can", "--at", "20"]);
    assert_eq!(b.ok(evening, &["close"]), "Closed the day Wed Nov 25\n");
    let day = b.json(evening, &["day"]);
    assert_eq!(day["state"], "closed");
    assert_eq!(day["chores"][0]["how"], "water-can");
    assert_eq!(day["chores"][0]["at"], "2026-11-25T23:10:00Z");

    // The day before was left open; it closes by its own name.
    let before = b.json(evening, &["day", "--day", "yesterday"]);
    assert_eq!(before["state"], "open");
    let said = b.ok(evening, &["close", "--day", "yesterday"]);
    assert!(said.contains("not ticked: sawdust"), "{said}");
    b.ok(evening, &["undo"]);
    assert_eq!(b.json(evening, &["day", "--day", "tue"])["state"], "open");
    let left = b.json("2026-11-26 18:00", &["day"]);
    assert_eq!(left["rags_left_open"], serde_json::Value::Null);
    // It travels.
    let folder = b.path("out");
    let folder = folder.to_str().unwrap();
    b.ok(evening, &["export", folder]);
    let text = std::fs::read_to_string(b.path("out").join("day.csv")).unwrap();
    assert!(
        text.contains("2026-11-25,oily-rags,water-can,2026-11-25T23:10:00.000Z,"),
        "{text}"
    );
    let store = b.path("second.tackfree");
    let store = store.to_str().unwrap();
    b.ok(evening, &["import", folder, "--store", store]);
    assert_eq!(
        b.json(evening, &["day", "--store", store])["state"],
        "closed"
    );
}
