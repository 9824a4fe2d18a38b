//! The tally by job, client, product and month: as text, as JSON and as a table, each the same
//! figures, cells guarded, money to the cent.

#[allow(dead_code)] // Shared with the other tests of the commands.
#[path = "cli/bench.rs"]
mod bench;

use bench::Bench;
use serde_json::Value;

const NOW: &str = "2026-11-25 14:00";

fn demo(args: &[&str]) -> String {
    let mut all = vec!["--demo"];
    all.extend(args);
    Bench::new().ok(NOW, &all)
}

fn demo_json(args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.push("--json");
    serde_json::from_str(&demo(&all)).expect("JSON")
}

fn rows(csv: &str) -> Vec<std::collections::HashMap<String, String>> {
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().expect("a header").clone();
    reader
        .records()
        .map(|record| {
            let record = record.expect("a row");
            header
                .iter()
                .map(str::to_owned)
                .zip(record.iter().map(str::to_owned))
                .collect()
        })
        .collect()
}

fn cents(dollars: &str) -> i64 {
    let (whole, part) = dollars.split_once('.').expect("dollars and cents");
    assert_eq!(part.len(), 2, "{dollars}");
    whole.parse::<i64>().expect("dollars") * 100 + part.parse::<i64>().expect("cents")
}

#[test]
fn every_way_of_adding_up_comes_to_the_same_cents() {
    let sum = |by: &str| -> (i64, f64, f64) {
        let json = demo_json(&["tally", "--by", by]);
        let mut out = (0, 0.0, 0.0);
        for group in json["groups"].as_array().expect("groups") {
            for row in group["rows"].as_array().expect("rows") {
                out.0 += row["cost_cents"].as_i64().expect("cents");
                out.1 += row["used_ml"].as_f64().expect("used");
                out.2 += row["lost_ml"].as_f64().expect("lost");
            }
        }
        out
    };
    let by_job = sum("job");
    assert!(by_job.0 > 10_000, "{by_job:?}");
    for by in ["client", "product", "month"] {
        let other = sum(by);
        assert_eq!(other.0, by_job.0, "{by}");
        assert!((other.1 - by_job.1).abs() < 0.05, "{by}");
        assert!((other.2 - by_job.2).abs() < 0.01, "{by}");
    }
    assert!(by_job.2 > 10.0, "the rags of the demo were weighed");
}

#[test]
fn the_table_says_what_the_json_says() {
    for by in ["job", "client", "product", "month"] {
        let table = rows(&demo(&["tally", "--by", by, "--csv"]));
        let json = demo_json(&["tally", "--by", by]);
        let mut told = Vec::new();
        for group in json["groups"].as_array().expect("groups") {
            for row in group["rows"].as_array().expect("rows") {
                told.push((group["group"].clone(), row.clone()));
            }
        }
        let products: Vec<_> = table.iter().filter(|row| row["used_as"] != "jar").collect();
        assert_eq!(products.len(), told.len(), "{by}");
        for (row, (group, json)) in products.iter().zip(&told) {
            assert_eq!(row["group"].as_str(), group.as_str().expect("a name"));
            assert_eq!(
                cents(&row["cost"]),
                json["cost_cents"].as_i64().expect("cents")
            );
            assert_eq!(row["planned_ml"].is_empty(), json["planned_ml"].is_null());
            if by == "month" {
                assert!(json["planned_ml"].is_null());
            }
            let used: f64 = row["used_ml"].parse().expect("a number");
            assert!((used - json["used_ml"].as_f64().expect("used")).abs() < 0.001);
        }
    }
}

#[test]
fn wiped_and_brushed_stand_side_by_side() {
    let json = demo_json(&["tally", "--by", "product"]);
    let groups = json["groups"].as_array().expect("groups");
    let varnish = groups
        .iter()
        .find(|group| group["group"] == "clear wiping varnish")
        .expect("the varnish");
    let row = &varnish["rows"][0];
    let films = row["films"].as_array().expect("films");
    let methods: Vec<_> = films.iter().map(|film| film["method"].as_str()).collect();
    assert_eq!(methods, [Some("wiped"), Some("brushed")]);
    for film in films {
        // Wet film in um is on the wood in mL over the area in m2; dry film, wet by volume solids.
        let number = |name: &str| film[name].as_f64().expect("a number");
        let wet = number("on_wood_ml") / number("coated_m2");
        assert!((number("wet_um") - wet).abs() < 0.01, "{film}");
        assert!(
            (number("dry_um") / number("wet_um") - 0.25).abs() < 0.001,
            "{film}"
        );
    }
    let text = demo(&["tally", "--by", "product"]);
    assert!(
        text.contains("wiped") && text.contains("; brushed"),
        "{text}"
    );
    assert!(text.contains("batch V-8790, V-8816"), "{text}");
    assert!(text.contains("the shelf ("), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    // A stain makes no film.
    assert!(!text.contains("stain: one coat"), "{text}");
    // By volume solids of 25 per cent, as the demo's label says.
    let products = demo_json(&["products", "clear wiping varnish"]);
    assert_eq!(products["products"][0]["solids_pct"], 25.0);
}

#[test]
fn one_job_tells_the_film_on_every_face() {
    let json = demo_json(&["tally", "5", "--by", "job"]);
    assert_eq!(json["groups"].as_array().map(Vec::len), Some(1));
    let faces = json["faces"].as_array().expect("faces");
    let top = faces
        .iter()
        .find(|face| face["face"] == "top" && face["used_as"] == "topcoat")
        .expect("the top");
    assert_eq!(top["coats"], 4);
    let thin = demo_json(&["tally", "5", "--by", "job"]);
    assert_eq!(thin["faces"], json["faces"]);
    let text = demo(&["tally", "5", "--by", "job"]);
    assert!(text.contains("5A     top"), "{text}");
    let bad = Bench::new().run(NOW, &["--demo", "tally", "5", "--by", "month"]);
    assert_eq!(bad.code, 1);
    assert!(bad.err.contains("say --by job"), "{}", bad.err);
}

#[test]
fn cells_that_could_be_formulas_are_guarded() {
    let bench = Bench::new();
    bench.ok(NOW, &["can", "receive", "clear wiping varnish"]);
    for name in ["=2+3", "+1", "-1", "@cmd", "'=1"] {
        bench.ok(NOW, &["client", "--", name]);
        bench.ok(
            NOW,
            &["can", "jar", "1", "1 fl oz", &format!("--client={name}")],
        );
    }
    let csv = bench.ok(NOW, &["tally", "--by", "client", "--csv"]);
    let names: Vec<String> = rows(&csv).iter().map(|row| row["group"].clone()).collect();
    assert_eq!(names, ["'=2+3", "'+1", "'-1", "'@cmd", "''=1"]);
    let json = bench.json(NOW, &["tally", "--by", "client"]);
    assert_eq!(json["groups"][0]["group"], "=2+3");
    assert_eq!(json["groups"][0]["jars_ml"], 29.574);
}

#[test]
fn a_tally_of_nothing_is_empty_and_valid() {
    let bench = Bench::new();
    for by in ["job", "client", "product", "month"] {
        let json = bench.json(NOW, &["tally", "--by", by]);
        assert_eq!(json["groups"], Value::Array(Vec::new()), "{by}");
        let csv = bench.ok(NOW, &["tally", "--by", by, "--csv"]);
        assert_eq!(csv.lines().count(), 1, "{csv}");
        let text = bench.ok(NOW, &["tally", "--by", by]);
        assert!(text.contains("Nothing used"), "{text}");
    }
}

#[test]
fn costs_come_from_the_cans_where_they_are_named() {
    let json = demo_json(&["tally", "1", "--by", "job"]);
    let rows = json["groups"][0]["rows"].as_array().expect("rows");
    let stain = rows
        .iter()
        .find(|row| row["used_as"] == "stain")
        .expect("stain");
    assert_eq!(stain["cost_at_price_cents"], 0);
    assert_eq!(stain["batches"], serde_json::json!(["K-2190 + K-2195"]));
    // The mix: a pint at 16.50 and what was left of another at 4.50, for 603.176 mL.
    let used = stain["used_ml"].as_f64().expect("used");
    let fair = used / 603.176 * 2_100.0;
    let cost = stain["cost_cents"].as_i64().expect("cents");
    #[allow(clippy::cast_precision_loss)] // some hundred cents
    let off = (cost as f64 - fair).abs();
    assert!(off <= 3.0, "{cost} against {fair}");
    let seal = rows
        .iter()
        .find(|row| row["used_as"] == "seal")
        .expect("seal");
    // Two of its passes name no can: they are reckoned by the can price.
    assert!(seal["cost_at_price_cents"].as_i64().expect("cents") > 0);
    assert!(seal["no_can_ml"].as_f64().expect("volume") > 0.0);
}
