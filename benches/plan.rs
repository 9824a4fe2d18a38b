//! How near the planner comes to what a constraint solver proved, with how much time, against the
//! yardstick of the best order by rules alone.
//!
//! `cargo bench --bench plan`: prints a table; nothing here passes or fails.

use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;
use std::time::{Duration, Instant};
use tackfree::plan::{Instance, Minute, Order, Plan, Replayer, SearchSettings};

#[derive(Deserialize)]
struct Found {
    wt: Option<i64>,
    wt_optimal: Option<bool>,
}

fn late(instance: &Instance, ms: u64, iterations: u64) -> i64 {
    let settings = SearchSettings {
        iterations,
        threads: 2,
        worth: Minute(0),
        ..SearchSettings::default()
    };
    let begin = Instant::now();
    let mut stop = || begin.elapsed() >= Duration::from_millis(ms);
    let sheet = Plan::search(instance, &settings, None, &mut stop);
    sheet.map_or(i64::MAX, |sheet| sheet.lateness)
}

/// Sheets a second, of one order run again and again.
fn replays(instance: &Instance) -> f64 {
    let all = instance.ops.iter().map(|op| op.id).collect();
    let Ok(mut replayer) = Replayer::new(instance, &Order(all)) else {
        return 0.0;
    };
    let begin = Instant::now();
    let mut sum = 0;
    for _ in 0..20_000 {
        sum += replayer.run().map(|(_, end)| end.0).sum::<i64>();
    }
    std::hint::black_box(sum);
    20_000.0 / begin.elapsed().as_secs_f64()
}

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan/open");
    let text = include_str!("../tests/plan/open/optima.json");
    let known: BTreeMap<String, Found> = serde_json::from_str(text).unwrap_or_default();
    println!(
        "{:<10} {:>9} {:>9} {:>9} {:>9} {:>9} {:>11}",
        "week", "rules", "50 ms", "1 s", "5 s", "solver", "sheets/s"
    );
    for (name, found) in &known {
        let text = std::fs::read_to_string(folder.join(name).with_extension("json"));
        let Ok(instance) = serde_json::from_str::<Instance>(&text.unwrap_or_default()) else {
            continue;
        };
        let rules = late(&instance, 60_000, 0);
        let [short, second, long] = [50, 1000, 5000].map(|ms| late(&instance, ms, u64::MAX));
        let solver = match (found.wt, found.wt_optimal) {
            (Some(wt), Some(true)) => format!("{wt} *"),
            (Some(wt), _) => format!("{wt}  "),
            _ => String::from("none  "),
        };
        let speed = replays(&instance);
        println!(
            "{name:<10} {rules:>9} {short:>9} {second:>9} {long:>9} {solver:>9} {speed:>11.0}"
        );
    }
    println!("* proven to be the least");
}
