//! Plans an instance, so that anybody's instances can be run and judged.
//!
//!     cargo run --release --example plan_instance -- FILE.json --ms 50
//!     cargo run --release --example plan_instance -- FILE.json... --ms 50 --report OPTIMA.json
//!
//! Prints the schedule as `{"start": {"<op id>": minute}}`, every step that is not done. With
//! `--report` it prints instead, per instance, the lateness found beside the one on record, and the
//! gaps in sum. The clock is read here: the planner itself only asks whether to stop.

use serde_json::{Map, Value};
use std::process::ExitCode;
use std::time::{Duration, Instant};
use tackfree::plan::{Instance, Minute, Plan, SearchSettings, Sheet};

struct Asked {
    files: Vec<String>,
    budget: Duration,
    seed: u64,
    report: Option<String>,
}

fn main() -> ExitCode {
    match asked().and_then(|asked| run(&asked)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked {
        files: Vec::new(),
        budget: Duration::from_millis(50),
        seed: 1,
        report: None,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let mut value = || {
            words
                .next()
                .ok_or(format!("{word} needs a value behind it."))
        };
        let number = |text: String| {
            text.parse::<u64>()
                .map_err(|_| format!("\"{text}\" is no whole number."))
        };
        match word.as_str() {
            "--ms" => asked.budget = Duration::from_millis(number(value()?)?),
            "--seed" => asked.seed = number(value()?)?,
            "--report" => asked.report = Some(value()?),
            _ => asked.files.push(word),
        }
    }
    if asked.files.is_empty() {
        return Err("Which instance? plan_instance FILE.json [--ms 50] [--seed 1]".to_owned());
    }
    Ok(asked)
}

fn run(asked: &Asked) -> Result<(), String> {
    let Some(optima) = &asked.report else {
        for file in &asked.files {
            let sheet = planned(file, asked)?;
            let starts: Map<String, Value> = sheet
                .lines
                .iter()
                .map(|line| (line.op.0.to_string(), Value::from(line.start.0)))
                .collect();
            println!("{}", serde_json::json!({ "start": starts }));
        }
        return Ok(());
    };
    report(&json(optima)?, asked)
}

/// Gaps in per cent against the proven optimum, or the proven bound where there is none.
fn report(optima: &Value, asked: &Asked) -> Result<(), String> {
    let (mut zero, mut zero_reached, mut never_worse) = (0, 0, 0);
    let mut gaps: Vec<f64> = Vec::new();
    for file in &asked.files {
        let name = std::path::Path::new(file)
            .file_stem()
            .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
        let known = &optima[&name];
        if known["wt"].is_null() {
            println!("{name:12} has no schedule on record");
            continue;
        }
        let of = |field: &str| {
            known[field]
                .as_i64()
                .or_else(|| known.as_i64())
                .ok_or(format!("{name} is not on record."))
        };
        let (found, bound) = (of("wt")?, of("wt_bound").or_else(|_| of("wt"))?);
        let sheet = planned(file, asked)?;
        let against = if known["wt_optimal"].as_bool() == Some(false) {
            bound
        } else {
            found
        };
        never_worse += u32::from(sheet.lateness <= found);
        if against == 0 && found == 0 {
            zero += 1;
            zero_reached += u32::from(sheet.lateness == 0);
        } else {
            let (ours, best) = (sheet.lateness as f64, against.max(1) as f64);
            gaps.push(100.0 * (ours - best) / best);
        }
        let broken = if sheet.broken.is_empty() {
            ""
        } else {
            "  BROKEN"
        };
        println!(
            "{name:12} {:9} on record {found:9} bound {bound:9}{broken}",
            sheet.lateness
        );
    }
    gaps.sort_by(f64::total_cmp);
    let at = |part: f64| {
        let last = gaps.len().saturating_sub(1) as f64;
        // A place in a short list.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let place = (last * part).ceil() as usize;
        gaps.get(place).copied().unwrap_or(0.0)
    };
    println!(
        "no lateness reached in {zero_reached} of {zero}; of the {} others the gap is {:.1} % in the \
         median, {:.1} % at the 90th percentile; never worse than on record in {never_worse} of {}",
        gaps.len(),
        at(0.5),
        at(0.9),
        asked.files.len()
    );
    Ok(())
}

fn planned(file: &str, asked: &Asked) -> Result<Sheet, String> {
    let instance: Instance =
        serde_json::from_value(json(file)?).map_err(|error| format!("{file}: {error}"))?;
    let settings = SearchSettings {
        seed: asked.seed,
        iterations: u64::MAX,
        worth: Minute(0),
    };
    let begun = Instant::now();
    let mut over = || begun.elapsed() >= asked.budget;
    Plan::search(&instance, &settings, None, &mut over).map_err(|error| format!("{file}: {error}"))
}

fn json(file: &str) -> Result<Value, String> {
    let text = std::fs::read_to_string(file).map_err(|error| format!("{file}: {error}"))?;
    serde_json::from_str(&text).map_err(|error| format!("{file}: {error}"))
}
