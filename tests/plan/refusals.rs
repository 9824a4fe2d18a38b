//! An instance that makes no sense is refused with a sentence that says what would do.

use super::made::shop;
use serde_json::{Value, json};
use tackfree::plan::{Instance, Plan, SearchSettings};

fn refusal(change: impl FnOnce(&mut Value)) -> String {
    let mut value = json!({
        "grid": 5, "now": 0, "horizon": 2000, "calendar": [[480, 720], [750, 990]],
        "rooms": [{"id": 0, "rack": 2}], "families": [{"id": 0, "setup": 10, "keep": 30}],
        "jobs": [{"id": 0, "weight": 1, "due": 900}],
        "ops": [
            {"id": 1, "job": 0, "work": 10, "room": 0, "split": false, "dust": true},
            {"id": 2, "job": 0, "work": 10, "room": 0, "split": false, "dust": false, "hold": 5},
        ],
        "arcs": [{"from": 1, "to": 2, "min": 0}],
    });
    change(&mut value);
    let instance: Instance = serde_json::from_value(value).expect("an instance");
    let settings = SearchSettings::default();
    match Plan::search(&instance, &settings, None, &mut || true) {
        Ok(_) => String::from("none"),
        Err(error) => error.to_string(),
    }
}

type Change = fn(&mut Value);

#[test]
fn each_fault_has_its_sentence() {
    assert_eq!(refusal(|_| {}), "none");
    let cases: Vec<(Change, &str)> = vec![
        (|v| v["grid"] = json!(0), "grid"),
        (|v| v["calendar"] = json!([[480, 480]]), "480 to 480"),
        (
            |v| v["calendar"] = json!([[480, 720], [700, 990]]),
            "700 to 990",
        ),
        (|v| v["calendar"] = json!([]), "no bench hours"),
        (|v| v["now"] = json!(5000), "no bench hours"),
        (|v| v["now"] = json!(1i64 << 40), "hundred years"),
        (|v| v["ops"][0]["work"] = json!(0), "work of step 1"),
        (
            |v| v["ops"][0]["settle"] = json!(-5),
            "settling of dust of step 1",
        ),
        (|v| v["ops"][1]["id"] = json!(1), "two steps called 1"),
        (|v| v["ops"][1]["job"] = json!(7), "job 7"),
        (|v| v["ops"][1]["family"] = json!(7), "family 7"),
        (
            |v| v["ops"][1]["done"] = json!([10, 5]),
            "time taken of step 2",
        ),
        (|v| v["arcs"][0]["to"] = json!(9), "step 9"),
        (|v| v["arcs"][0]["min"] = json!(-1), "step 1"),
        (|v| v["arcs"][0]["max"] = json!(-1), "longest lag"),
        (
            |v| v["arcs"] = json!([{"from": 1, "to": 2, "min": 0}, {"from": 2, "to": 1, "min": 0}]),
            "waits for itself",
        ),
        (|v| v["arcs"][0]["from"] = json!(2), "waits for itself"),
        (|v| v["rooms"][0]["rack"] = json!(0), "rack place"),
        (
            |v| v["rooms"] = json!([{"id": 0, "rack": 2}, {"id": 0, "rack": 2}]),
            "two rooms called 0",
        ),
        (|v| v["families"][0]["keep"] = json!(-1), "family 0"),
        (|v| v["jobs"][0]["weight"] = json!(-1), "weight of job 0"),
        (
            |v| {
                v["jobs"] =
                    json!([{"id": 0, "weight": 1, "due": 9}, {"id": 1, "weight": 1, "due": 9}]);
            },
            "job 1 has no steps",
        ),
    ];
    for (change, words) in cases {
        let said = refusal(change);
        assert!(said.contains(words), "{said:?} does not say {words:?}");
    }
}

#[test]
fn nothing_to_do_is_an_empty_sheet() {
    let mut value = shop(3);
    for op in value["ops"].as_array_mut().expect("steps") {
        op["done"] = json!([-100, -50]);
    }
    let instance: Instance = serde_json::from_value(value).expect("an instance");
    let settings = SearchSettings::default();
    let sheet = Plan::search(&instance, &settings, None, &mut || false).expect("a sheet");
    assert!(sheet.lines.is_empty());
    assert!(sheet.jobs.iter().all(|job| job.end.0 == -50));
}

#[test]
fn an_instance_survives_its_file() {
    for seed in 0..50 {
        let instance: Instance = serde_json::from_value(shop(seed)).expect("an instance");
        let text = serde_json::to_string(&instance).expect("json");
        assert_eq!(serde_json::from_str::<Instance>(&text).ok(), Some(instance));
    }
}
