//! The demo shop by commands: every reading verb, its text and the fields of its JSON.

use crate::bad_input::assert_narrow;
use crate::bench::Bench;
use serde_json::Value;
use std::process::Stdio;

const NOW: &str = "2026-11-25 14:00";

fn has(value: &Value, fields: &[&str]) {
    for field in fields {
        assert!(value.get(field).is_some(), "no {field} in {value}");
    }
}

fn first<'a>(value: &'a Value, list: &str) -> &'a Value {
    value[list]
        .as_array()
        .and_then(|list| list.first())
        .unwrap_or_else(|| panic!("no {list}"))
}

const PIECE: [&str; 6] = ["ticket", "id", "piece", "job_no", "job", "client"];

#[test]
fn every_reading_verb_prints_text_and_the_json_it_documents() {
    let bench = Bench::new();
    let read = |verb: &str| bench.json(NOW, &["--demo", verb]);
    for verb in [
        "ready", "rack", "tally", "bench", "clients", "jobs", "recipes", "products", "journal",
    ] {
        let text = bench.ok(NOW, &["--demo", verb]);
        assert_narrow(&text);
        assert!(text.lines().count() > 1, "{verb}: {text}");
    }
    let ready = read("ready");
    has(&ready, &["now", "basis", "pieces"]);
    has(first(&ready, "pieces"), &PIECE);
    has(
        first(&ready, "pieces"),
        &["stage", "shows", "waits_for", "until", "promised"],
    );
    let rack = read("rack");
    let row = first(&rack, "rows");
    has(row, &PIECE);
    has(
        row,
        &[
            "state",
            "coat_kind",
            "coat_no",
            "tack_free_at",
            "recoat_at",
            "window_shuts_at",
        ],
    );
    has(row, &["full_cure_at", "waits_for", "until"]);
    let tally = read("tally");
    has(&tally, &["job", "cost_cents", "rows", "jobs"]);
    has(
        first(&tally, "rows"),
        &["product", "product_id", "used_as", "coated_m2", "used_ml"],
    );
    has(
        first(&tally, "rows"),
        &["measured_ml", "estimated_ml", "planned_ml", "cost_cents"],
    );
}

#[test]
fn the_lists_print_the_json_they_document() {
    let bench = Bench::new();
    let read = |verb: &str| bench.json(NOW, &["--demo", verb]);
    let bench_json = read("bench");
    let stages: Vec<&str> = bench_json["stages"]
        .as_array()
        .expect("stages")
        .iter()
        .filter_map(|stage| stage["stage"].as_str())
        .collect();
    assert_eq!(
        stages,
        ["sanding", "sealing", "staining", "topcoats", "set"]
    );
    has(
        first(&read("clients"), "clients"),
        &["id", "name", "phone", "email", "address", "jobs"],
    );
    let job = [
        "id",
        "no",
        "title",
        "client",
        "site",
        "house_built",
        "promised",
        "taken",
        "pieces",
    ];
    has(first(&read("jobs"), "jobs"), &job);
    let recipe = [
        "id",
        "name",
        "groups",
        "wipe_down",
        "sealer",
        "scuff",
        "cure_before_set_min",
    ];
    has(first(&read("recipes"), "recipes"), &recipe);
    let products = read("products");
    has(
        first(&products, "products"),
        &["spread_m2_per_l", "solids_pct", "density_g_per_ml"],
    );
    has(
        first(&products, "products"),
        &["windows", "min_temp_c", "can_ml", "price_cents"],
    );
    has(
        first(&read("journal"), "lines"),
        &["no", "at", "words", "undone"],
    );
    let place = read("where");
    has(
        &place,
        &[
            "store",
            "layout",
            "read_only",
            "clients",
            "jobs",
            "pieces",
            "passes",
        ],
    );
    let path = place["store"].as_str().expect("a path");
    assert!(
        !std::path::Path::new(path).exists(),
        "the demo's store is gone at the end: {path}"
    );
    has(
        &bench.json(NOW, &["--demo", "shop"]),
        &["name", "length", "temperature", "volume", "zone"],
    );
}

#[test]
fn something_is_ready_drying_and_missed_in_the_demo() {
    let bench = Bench::new();
    let text = bench.ok(NOW, &["--demo", "ready"]);
    let ready = bench.json(NOW, &["--demo", "ready"]);
    let pieces = ready["pieces"].as_array().expect("pieces");
    for (shows, heading, always) in [
        ("ready", "Ready now", true),
        ("missed", "Window missed", true),
        ("held", "Held", false),
        ("drying", "Drying", true),
    ] {
        let count = pieces
            .iter()
            .filter(|piece| piece["shows"] == shows)
            .count();
        assert!(count > 0 || !always, "nothing {shows} in {ready}");
        let line = format!("{heading} ({count})");
        assert_eq!(
            text.lines().any(|found| found == line),
            count > 0,
            "{line} {text}"
        );
    }
    for piece in pieces {
        let drying = piece["shows"] == "drying";
        assert_eq!(drying, piece["until"].is_string(), "{piece}");
    }
    let rack = bench.ok(NOW, &["--demo", "rack"]);
    assert!(
        rack.starts_with("RACK, by the shop's air, safe hours\n") && rack.contains("window missed"),
        "{rack}"
    );
    let tally = bench.ok(NOW, &["--demo", "tally"]);
    assert!(
        tally.contains(" measured, ") && tally.contains(" estimated"),
        "{tally}"
    );
}

#[test]
fn every_ticket_of_the_demo_fits_its_paper() {
    let bench = Bench::new();
    let pieces = bench.json(NOW, &["--demo", "bench"]);
    let mut seen = 0;
    for stage in pieces["stages"].as_array().expect("stages") {
        for piece in stage["pieces"].as_array().expect("pieces") {
            let no = piece["ticket"].as_str().expect("a number");
            let paper = bench.ok(NOW, &["--demo", "ticket", no]);
            assert_narrow(&paper);
            assert!(paper.starts_with(&format!("SHOP TICKET {no} ")), "{paper}");
            for part in ["STAGES", "SANDING SHEET", "COATS", "SET LIST"] {
                assert!(paper.contains(&format!("\n{part} ---")), "{part} {paper}");
            }
            assert!(paper.contains("[ ]") || paper.contains("[x]"));
            let ticket = bench.json(NOW, &["--demo", "ticket", no]);
            has(
                &ticket,
                &[
                    "shape", "stages", "faces", "set_list", "amounts", "log", "cautions",
                ],
            );
            has(
                first(&ticket, "faces"),
                &["face", "grain", "group", "area_m2", "grits", "coats"],
            );
            for stage in ticket["stages"].as_array().expect("stages") {
                // What was passed through is never told as done.
                let asked = stage["state"] != "nothing asked";
                let line = format!(" -   {}", stage["stage"].as_str().unwrap_or_default());
                assert_eq!(asked, !paper.contains(&line), "{line} {paper}");
            }
            seen += 1;
        }
    }
    assert!(seen >= 16, "{seen} pieces");
}

#[test]
fn the_demo_can_be_worked_on_and_leaves_the_own_store_alone() {
    let bench = Bench::new();
    let done = bench.json(NOW, &["--demo", "client", "Nell Harrow"]);
    has(&done, &["done", "notes", "made", "called"]);
    assert_eq!(done["called"], "Nell Harrow");
    assert!(!bench.path("shop.tackfree").exists());
}

#[test]
fn a_reader_that_leaves_early_is_no_error() {
    let bench = Bench::new();
    let mut child = bench
        .command(NOW, &["--demo", "journal", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary runs");
    // Gone before the first byte.
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}
