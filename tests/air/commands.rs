//! The same by commands, through the real binary.

use crate::bench::Bench;
use std::fs;

const NOW: &str = "2026-11-25 14:00";

#[test]
fn readings_are_logged_listed_corrected_and_removed() {
    let bench = Bench::new();
    let empty = bench.ok(NOW, &["air"]);
    assert!(empty.starts_with("AIR: no reading so far"), "{empty}");
    assert_eq!(
        bench.ok(NOW, &["air", "68F", "45"]),
        "Logged shop air 68 F, 45%\n"
    );
    bench.ok(NOW, &["air", "58F 62", "--at", "7:30"]);
    bench.ok(NOW, &["air", "60", "60", "--at", "20 min ago"]);
    let doubt = bench.run(NOW, &["air", "68C", "45"]);
    assert_eq!(doubt.code, 1);
    assert!(
        doubt
            .err
            .contains("was 68 F meant? Log it in the right scale, F or C, or add --sure."),
        "{}",
        doubt.err
    );
    let dry = bench.run(NOW, &["air", "68", "0.45"]);
    assert_eq!(dry.code, 1);
    assert!(
        dry.err.contains("was it read as a fraction of one?") && dry.err.contains("add --sure"),
        "{}",
        dry.err
    );
    let late = bench.run(NOW, &["air", "68F", "45", "--at", "tomorrow 7:00"]);
    assert!(
        late.err
            .starts_with("--at: \"tomorrow 7:00\" has not come yet"),
        "{}",
        late.err
    );
    for text in ["26 nov 8:00", "11/26 8:00"] {
        let soon = bench.run(NOW, &["air", "68F", "45", "--at", text]);
        assert!(soon.err.contains("has not come yet"), "{}", soon.err);
    }
    // The time behind the reading, as people say it.
    let behind = bench.ok(NOW, &["air", "66,5F", "45", "at", "6:30"]);
    assert!(
        behind.starts_with("Logged shop air 66.5 F, 45% at 6:30 am\n"),
        "{behind}"
    );
    let twice = bench.run(NOW, &["air", "66F 45 at 6:30", "--at", "7:00"]);
    assert!(twice.err.contains("given twice"), "{}", twice.err);
    bench.ok(NOW, &["air", "--remove", "6:30"]);
    let fixed = bench.ok(NOW, &["air", "57F", "62", "--in-place-of", "7:30"]);
    assert!(fixed.starts_with("Corrected the shop air of 7:30 am from 58 F, 62% to 57 F, 62%"));
    let gone = bench.ok(NOW, &["air", "--remove", "13:40"]);
    assert!(
        gone.starts_with("Took out the shop air of 1:40 pm: 60 F, 60%"),
        "{gone}"
    );
    let none = bench.run(NOW, &["air", "--remove", "13:40"]);
    assert!(
        none.err
            .contains("There is no reading at 1:40 pm; the last before it is of 7:30 am")
    );
    let list = bench.ok(NOW, &["air"]);
    assert!(
        list.starts_with(
            "AIR now 68 F, 45%: read 2:00 pm\n\nReadings, newest first\n  2:00 pm  68 F, 45%\n"
        ),
        "{list}"
    );
    assert!(list.contains("Usual day, from 1 day\n  0:00"), "{list}");
    let json = bench.json(NOW, &["air"]);
    assert_eq!(json["basis"], "read");
    assert_eq!(json["temperature_c"], 20.0);
    assert_eq!(json["readings"].as_array().map(Vec::len), Some(2));
    assert_eq!(json["readings"][1]["at"], "2026-11-25T13:30:00Z");
    assert_eq!(json["usual"].as_array().map(Vec::len), Some(24));
    // Half a day later nothing holds any more.
    let night = bench.json("2026-11-26 03:00", &["air"]);
    assert_eq!(night["basis"], "usual");
}

#[test]
fn a_loggers_file_is_asked_about_and_brought_in() {
    let bench = Bench::new();
    let file = bench.path("november.csv");
    let path = file.display().to_string();
    let text =
        "when;T;RH\n03/11/2026 08:00;61;50\n04/11/2026 08:00;62;51\n04/11/2026 08:00;62;51\n";
    fs::write(&file, text).expect("a file");
    let asked = bench.run(NOW, &["logger", &path]);
    assert_eq!(asked.code, 1, "{asked:?}");
    assert!(asked.err.contains("Answer with --"), "{}", asked.err);
    let answers = [
        "logger",
        &path,
        "--columns",
        "1,2,3",
        "--scale",
        "F",
        "--dates",
        "day-first",
    ];
    let done = bench.ok(NOW, &answers);
    assert!(
        done.starts_with(
            "Brought in 2 readings of the shop's air from november.csv, Nov 3, 8:00 am to Nov 4, \
             8:00 am\n"
        ),
        "{done}"
    );
    assert!(done.contains("Mind: 1 row was there already."), "{done}");
    let wrong = bench.run(NOW, &["logger", &path, "--columns", "0,2,3"]);
    assert!(
        wrong.err.contains("number the columns from 1"),
        "{}",
        wrong.err
    );
    let none = bench.run(NOW, &["logger", "nowhere.csv"]);
    assert!(
        none.err.contains("nowhere.csv cannot be read"),
        "{}",
        none.err
    );
    bench.ok(NOW, &["undo"]);
    assert_eq!(
        bench.json(NOW, &["air"])["readings"]
            .as_array()
            .map(Vec::len),
        Some(0)
    );
}

#[test]
fn forecast_learning_and_rules_have_verbs() {
    let bench = Bench::new();
    let told = bench.ok(NOW, &["forecast", "55F", "60", "--until", "tomorrow 7:00"]);
    assert_eq!(
        told,
        "Foretold shop air 55 F, 60% from 2:00 pm to Thu 7:00 am\n"
    );
    let list = bench.ok(NOW, &["forecast"]);
    assert!(list.contains("2:00 pm to Thu 7:00 am: 55 F, 60%"), "{list}");
    let no_end = bench.run(NOW, &["forecast", "55F", "60"]);
    assert!(no_end.err.contains("Say until when"), "{}", no_end.err);
    assert_eq!(
        bench.ok(NOW, &["forecast", "--clear"]),
        "Took the forecast away\n"
    );
    let rules = bench.ok(NOW, &["drying", "--care", "strict", "--most", "1.2"]);
    assert!(rules.starts_with("Set drying: strict safe times, up to 1.20 of the label's speed"));
    let json = bench.json(NOW, &["drying"]);
    assert_eq!(
        (json["care"].as_str(), json["most_speed"].as_f64()),
        (Some("strict"), Some(1.2))
    );
    assert_eq!(bench.run(NOW, &["drying", "--most", "3"]).code, 1);
    let learned = bench.ok(NOW, &["learned"]);
    assert!(
        learned.contains("every product is taken at its label's speed"),
        "{learned}"
    );
    let none = bench.run(NOW, &["learned", "clear wiping varnish", "--afresh"]);
    assert!(none.err.contains("nothing to forget"), "{}", none.err);
}

#[test]
fn the_rack_tells_all_it_knows_and_in_one_line() {
    let bench = Bench::new();
    let rack = bench.ok(NOW, &["--demo", "rack"]);
    for wants in [
        "  2B bar top, coat 2: ready now\n      dry to recoat; 7.7 label-hours so far\n",
        "window shut 7:43 am: abrade with 320 fine paper before the next coat",
        "  1C window counter, coat 3: tacky\n      set to touch; 4.2 of 6 label-hours to recoat\n",
        "tack-free 2:49 pm; dry to recoat 3:49 pm",
        "18.7 of 25.1 label-hours to recoat, thick film takes 1.05",
    ] {
        assert!(rack.contains(wants), "{wants}: {rack}");
    }
    let ready = rack.find("ready now").expect("ready");
    assert!(ready < rack.find("window missed").expect("missed"));
    let line = bench.ok(NOW, &["--demo", "rack", "--line"]);
    assert_eq!(
        line,
        "ready 2B 2C 1A, window missed 2A, held 4B, 1C dry to recoat in 1 h 50 min\n"
    );
    let json = bench.json(NOW, &["--demo", "rack"]);
    assert_eq!(
        json["line"].as_str().map(|text| format!("{text}\n")),
        Some(line)
    );
    let film = &json["rows"][0]["film"];
    assert_eq!(film["stage"], "dry-to-recoat");
    assert_eq!(film["window"]["state"], "open");
    assert_eq!(film["stages"].as_array().map(Vec::len), Some(6));
    assert_eq!(film["air_basis"], "read");
}
