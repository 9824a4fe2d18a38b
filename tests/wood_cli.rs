//! Wood by commands, through the real binary: noting, correcting, removing, reading, JSON, undo.

#[allow(dead_code, reason = "another test's bench, of which this uses a part")]
#[path = "cli/bench.rs"]
mod bench;

use bench::Bench;
use serde_json::Value;

const NOW: &str = "2026-11-25 14:00";
const LATER: &str = "2026-12-02 14:00";

fn has(value: &Value, fields: &[&str]) {
    for field in fields {
        assert!(value.get(field).is_some(), "no {field} in {value}");
    }
}

fn said(bench: &Bench, now: &str, args: &[&str]) -> String {
    let ended = bench.run(now, args);
    assert_eq!(
        (ended.code, ended.out.as_str()),
        (1, ""),
        "{args:?}: {ended:?}"
    );
    ended.err
}

#[test]
fn readings_are_noted_listed_corrected_and_removed() {
    let bench = Bench::with_top(NOW);
    let place = ["--place", "underside, left end"];
    let mut first = vec![
        "moisture",
        "1A",
        "9.4",
        "--depth",
        "3/8",
        "--correction",
        "-0.3",
    ];
    first.extend(place);
    let noted = bench.ok(NOW, &first);
    assert_eq!(
        noted,
        "Read 9.1% at underside, left end (pin meter, 3/8\" (9.5 mm) deep; -0.3 points for the \
         species) of 1A galley top\n"
    );
    let mut second = vec![
        "moisture",
        "1A",
        "9.0",
        "--meter",
        "pad",
        "--correction",
        "in the meter",
    ];
    second.extend(place);
    let made = bench.json(LATER, &second);
    let code = made["called"].as_str().expect("a code").to_owned();
    let list = bench.json(LATER, &["moisture", "1A"]);
    assert_eq!(list.as_array().map(Vec::len), Some(2));
    has(
        &list[0],
        &[
            "code",
            "id",
            "at",
            "place",
            "meter",
            "shown_pct",
            "content_pct",
            "depth_mm",
            "correction",
        ],
    );
    assert_eq!(list[1]["code"], code);
    assert_eq!(list[0]["content_pct"], 9.1);
    let fixed = bench.ok(LATER, &["moisture", "1A", "8.8", "--fix", &code]);
    assert!(
        fixed.starts_with("Corrected a reading of 1A galley top: 8.8%"),
        "{fixed}"
    );
    assert!(
        fixed.contains("pad meter; meter set to the species"),
        "{fixed}"
    );
    // Without a value nothing is noted.
    let error = said(&bench, NOW, &["moisture", "1A", "--place", "top"]);
    assert!(error.contains("What did the meter show?"), "{error}");
    let error = said(
        &bench,
        NOW,
        &["moisture", "1A", "9", "--place", "top", "--meter", "nose"],
    );
    assert!(error.contains("--meter:"), "{error}");
    let removed = bench.ok(LATER, &["remove", "reading", &code]);
    assert!(removed.starts_with("Removed the reading 8.8%"), "{removed}");
    let undone = bench.ok(LATER, &["undo"]);
    assert!(
        undone.starts_with("Undone: Removed the reading"),
        "{undone}"
    );
    assert!(bench.ok(LATER, &["moisture", "1A"]).contains(&code));
    let error = said(&bench, NOW, &["remove", "reading", "zzzzzz"]);
    assert!(error.contains("There is no such reading"), "{error}");
}

#[test]
fn the_site_is_said_in_one_way_at_a_time() {
    let bench = Bench::with_top(NOW);
    assert!(bench.ok(NOW, &["site", "1"]).contains("not noted"));
    let args = [
        "site",
        "1",
        "--winter",
        "70F 30",
        "--summer",
        "75F 55",
        "--radiant",
        "yes",
    ];
    let noted = bench.ok(NOW, &args);
    assert!(
        noted.contains("Mind: Floor heat dries a top from below"),
        "{noted}"
    );
    let shown = bench.json(NOW, &["site", "1"]);
    has(
        &shown,
        &[
            "job_no",
            "winter",
            "summer",
            "region",
            "span",
            "radiant_floor",
            "new_slab",
            "driest_pct",
            "wettest_pct",
            "basis",
        ],
    );
    assert_eq!(
        (&shown["winter"], &shown["radiant_floor"]),
        (&"70F 30".into(), &true.into())
    );
    bench.ok(NOW, &["site", "1", "--region", "dry southwest"]);
    let shown = bench.json(NOW, &["site", "1"]);
    assert_eq!(
        (shown["winter"].as_str(), shown["driest_pct"].as_f64()),
        (Some(""), Some(4.0))
    );
    bench.ok(NOW, &["site", "1", "--span", "9 to 6"]);
    assert_eq!(bench.json(NOW, &["site", "1"])["driest_pct"], 6.0);
    let error = said(&bench, NOW, &["site", "1", "--winter", "70F 30"]);
    assert!(error.contains("Winter air alone makes no year"), "{error}");
    bench.ok(NOW, &["site", "1", "--region", "none"]);
    assert!(bench.json(NOW, &["site", "1"])["driest_pct"].is_null());
}

/// The galley top with readings, a site and a fastening.
fn read_and_fastened() -> Bench {
    let bench = Bench::with_top(NOW);
    for (now, value) in [
        ("2026-11-10 09:00", "10.6"),
        ("2026-11-17 09:00", "9.4"),
        (NOW, "8.8"),
    ] {
        bench.ok(now, &["moisture", "1A", value, "--place", "top, middle"]);
    }
    bench.ok(NOW, &["site", "1", "--span", "6 to 10"]);
    bench.ok(
        NOW,
        &[
            "fasten",
            "1A",
            "--grain",
            "flat",
            "--stands",
            "corner, breadboard",
        ],
    );
    let fastened = bench.json(NOW, &["fasten", "1A"]);
    has(
        &fastened,
        &[
            "wood",
            "grain",
            "held",
            "screw",
            "spacing",
            "figure_eight",
            "stands",
        ],
    );
    bench
}

#[test]
fn the_sheet_prints_text_and_the_json_it_documents() {
    let bench = read_and_fastened();
    let text = bench.ok(NOW, &["wood", "1A", "--air", "68F 40"]);
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    assert!(text.contains("A full mitre of two such legs"), "{text}");
    assert!(
        text.contains("Its slots are those of the rows above"),
        "{text}"
    );
    let sheet = bench.json(NOW, &["wood", "1A", "--air", "68F 40"]);
    has(
        &sheet,
        &["ticket", "id", "piece", "job_no", "job", "client"],
    );
    has(
        &sheet,
        &[
            "wood",
            "wood_problem",
            "grain",
            "held",
            "site",
            "year",
            "today",
            "shop_air",
            "ready",
            "places",
            "movement",
            "movement_problem",
            "leave",
            "hold",
            "faces",
            "cup",
        ],
    );
    has(
        &sheet["wood"],
        &["name", "kind", "standing", "from_memory", "source", "note"],
    );
    has(
        &sheet["year"],
        &[
            "driest_pct",
            "wettest_pct",
            "target_pct",
            "assumed",
            "basis",
        ],
    );
    has(
        &sheet["shop_air"],
        &[
            "temperature_c",
            "humidity_pct",
            "basis",
            "noted",
            "emc_pct",
            "within_table",
        ],
    );
    // 68 F and 40 %: Wood Handbook Table 4-2 gives 7.7 % at 70 F, and eq. 4-5 between.
    let emc = sheet["shop_air"]["emc_pct"].as_f64().expect("a figure");
    assert!((emc - 7.7).abs() < 0.1, "{emc}");
    has(
        &sheet["places"][0],
        &["place", "meter", "readings", "curve", "curve_problem"],
    );
    has(
        &sheet["places"][0]["curve"],
        &["toward_pct", "start_pct", "days", "within_half_a_point"],
    );
    let error = said(&bench, NOW, &["wood", "1A", "--air", "lots"]);
    assert!(error.contains("does not read as shop air"), "{error}");
}

#[test]
fn the_sheet_gives_movement_gaps_faces_and_cup_as_json() {
    let bench = read_and_fastened();
    let sheet = bench.json(NOW, &["wood", "1A", "--air", "68F 40"]);
    has(
        &sheet["movement"]["width"],
        &["size_mm", "dry_mm", "damp_mm", "words", "basis"],
    );
    let leave = &sheet["leave"];
    has(
        leave,
        &[
            "back_mm",
            "front_mm",
            "ends_mm",
            "rows",
            "along",
            "figure_eight_degrees",
            "mitre_mm",
            "sinks",
        ],
    );
    has(
        &leave["rows"][0],
        &[
            "from_back_mm",
            "from_held_mm",
            "slot_mm",
            "outward_mm",
            "round_hole_mm",
        ],
    );
    has(
        &sheet["faces"][0],
        &[
            "face",
            "coats",
            "keeps_out_pct",
            "standing",
            "inferred",
            "coats_not_counted",
            "not_exposed",
        ],
    );
    has(
        &sheet["cup"],
        &[
            "from_pct", "to_pct", "least_mm", "most_mm", "line", "basis", "one_more",
        ],
    );
}

#[test]
fn the_clients_page_is_printed_as_text_html_and_json() {
    let bench = Bench::with_top(NOW);
    bench.ok(NOW, &["moisture", "1A", "8", "--place", "top"]);
    bench.ok(NOW, &["site", "1", "--span", "6 to 10"]);
    let text = bench.ok(NOW, &["client-page", "1A"]);
    assert!(
        text.starts_with("YOUR GALLEY TOP THROUGH THE YEAR\n"),
        "{text}"
    );
    assert!(text.contains("\nWhy the gap is there\n"), "{text}");
    let html = bench.ok(NOW, &["client-page", "1A", "--html"]);
    assert!(html.starts_with("<!DOCTYPE html>\n"), "{html}");
    assert!(html.trim_end().ends_with("</html>"), "{html}");
    let json = bench.json(NOW, &["client-page", "1A"]);
    has(&json, &["ticket", "id", "piece", "printed_at", "lines"]);
    // A wood that is not known is asked for.
    bench.ok(
        NOW,
        &[
            "piece",
            "1",
            "galley shelf",
            "--size",
            "40 x 10",
            "--thickness",
            "1",
            "--species",
            "moonwood",
            "--construction",
            "edge",
            "--recipe",
            "gel stain under a wiped film",
        ],
    );
    let error = said(&bench, NOW, &["client-page", "1B"]);
    assert!(
        error.contains("No wood in the table is called \"moonwood\""),
        "{error}"
    );
}

#[test]
fn woods_are_listed_with_their_standing_and_your_own_come_and_go() {
    let bench = Bench::with_top(NOW);
    let all = bench.json(NOW, &["woods"]);
    let all = all.as_array().expect("a list");
    has(
        &all[0],
        &[
            "name",
            "also",
            "botanical",
            "kind",
            "radial_per_point",
            "radial_standing",
            "tangential_per_point",
            "tangential_standing",
            "shrinkage_radial_pct",
            "shrinkage_tangential_pct",
            "shrinkage_standing",
            "gravity",
            "gravity_standing",
            "standing",
            "from_memory",
            "your_own",
            "source",
            "note",
        ],
    );
    // Every row says where it is from, and the text marks every one from memory.
    let text = bench.ok(NOW, &["woods"]);
    let from_memory = |row: &&Value| {
        row["standing"]
            .as_str()
            .is_some_and(|words| words.starts_with("from memory"))
    };
    let marked = text.matches("MEMORY:").count();
    assert_eq!(all.iter().filter(from_memory).count(), marked, "{text}");
    assert!(marked > 10);
    assert!(
        all.iter()
            .all(|row| !row["source"].as_str().unwrap_or("").is_empty())
    );
    assert!(
        bench
            .ok(NOW, &["woods", "teak"])
            .contains("MEMORY: from memory")
    );
    assert!(
        bench
            .ok(NOW, &["woods", "red oak, commercial"])
            .contains("Stands for a commercial group of species.")
    );

    let add = [
        "own-wood",
        "Mill run elm",
        "--shrinkage",
        "4.2 / 8.1",
        "--source",
        "the mill",
    ];
    bench.ok(NOW, &add);
    let own = bench.json(NOW, &["woods", "mill run"]);
    assert_eq!(
        (&own[0]["your_own"], &own[0]["shrinkage_radial_pct"]),
        (&true.into(), &4.2.into())
    );
    bench.ok(
        NOW,
        &[
            "own-wood",
            "mill run elm",
            "--gravity",
            "0.5",
            "--rename",
            "Millrun elm",
        ],
    );
    bench.ok(NOW, &["fasten", "1A", "--wood", "millrun"]);
    let error = said(&bench, NOW, &["remove", "wood", "Millrun elm"]);
    assert!(error.contains("1A galley top is of Millrun elm"), "{error}");
    bench.ok(NOW, &["fasten", "1A", "--wood", ""]);
    bench.ok(NOW, &["remove", "wood", "millrun elm"]);
    let error = said(&bench, NOW, &["woods", "millrun"]);
    assert!(error.contains("add it as a wood of your own"), "{error}");
    let error = said(&bench, NOW, &["own-wood", "Bad elm", "--shrinkage", "4.2"]);
    assert!(
        error.contains("--shrinkage:") && error.contains("not two figures"),
        "{error}"
    );
}

#[test]
fn fasteners_too_close_and_figures_the_wrong_way_round_are_asked_about() {
    let bench = Bench::with_top(NOW);
    let error = said(&bench, NOW, &["fasten", "1A", "--spacing", "0.01"]);
    assert!(
        error.contains("at least 2 in and at most 100 ft"),
        "{error}"
    );
    bench.ok(NOW, &["fasten", "1A", "--spacing", "2"]);
    let asked = bench.ok(NOW, &["own-wood", "Yard elm", "--shrinkage", "9.9 / 4.8"]);
    assert!(
        asked.contains("is radial first, tangential second?"),
        "{asked}"
    );
    let plain = bench.ok(NOW, &["own-wood", "Mill elm", "--shrinkage", "4.8 / 9.9"]);
    assert!(!plain.contains("radial first"), "{plain}");
}

#[test]
fn the_rule_of_readiness_is_shown_and_changed() {
    let bench = Bench::with_top(NOW);
    assert!(
        bench
            .ok(NOW, &["steady"])
            .contains("two readings 7 days apart (to the nearest day) within 0.5 points")
    );
    bench.ok(NOW, &["steady", "--days", "10", "--within", "0.3"]);
    let rule = bench.json(NOW, &["steady"]);
    has(
        &rule,
        &[
            "days_apart",
            "within_points",
            "care_over_pct",
            "stop_over_pct",
            "fresh_days",
            "words",
        ],
    );
    assert_eq!(
        (&rule["days_apart"], &rule["within_points"]),
        (&10.into(), &0.3.into())
    );
    // What is changed is shown, and a reading that never speaks cannot be.
    let changed = bench.ok(NOW, &["steady", "--fresh", "9"]);
    assert!(changed.contains("speaks for 9 days"), "{changed}");
    let error = said(&bench, NOW, &["steady", "--fresh", "0"]);
    assert!(error.contains("at least one day"), "{error}");
    let error = said(&bench, NOW, &["steady", "--stop", "8"]);
    assert!(
        error.contains("must not lie below the limit for care"),
        "{error}"
    );
}
