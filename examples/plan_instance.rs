//! Plans an instance from a file and prints when each step starts, as JSON.
//!
//! `cargo run --release --example plan_instance -- FILE.json --ms 50`
//!
//! With `--against OPTIMA.json` it runs any number of files and prints how near each sheet comes to
//! the weighted lateness that file names for it, instead of the starts.

use clap::Parser;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};
use tackfree::plan::{Broken, Instance, Minute, Plan, SearchSettings, Sheet};

/// Plans an instance and prints its schedule.
#[derive(Parser)]
struct Args {
    /// Instances.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// How long to look, in milliseconds.
    #[arg(long, default_value_t = 50)]
    ms: u64,
    /// Where chance begins.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Searches side by side.
    #[arg(long, default_value_t = 2)]
    threads: u8,
    /// Most moves of each search, for a run that can be repeated exactly.
    #[arg(long, default_value_t = u64::MAX)]
    iterations: u64,
    /// A file of known results to compare with.
    #[arg(long)]
    against: Option<PathBuf>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Known {
    Optimum(i64),
    Found {
        wt: Option<i64>,
        wt_bound: Option<i64>,
        wt_optimal: Option<bool>,
    },
}

fn main() -> ExitCode {
    match run(&Args::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn run(args: &Args) -> Result<(), String> {
    if let Some(known) = &args.against {
        return compare(args, known);
    }
    for file in &args.files {
        let sheet = plan(args, file)?;
        for broken in &sheet.broken {
            match broken {
                Broken::TooLate { from, to, by } => eprintln!(
                    "step {} starts {} minutes too late after step {}: no better order was found",
                    to.0, by.0, from.0
                ),
                Broken::BeyondCalendar(op) => {
                    eprintln!("step {} is done only after the calendar ends", op.0);
                }
            }
        }
        let starts = sheet.lines.iter();
        let starts: BTreeMap<String, i64> = starts
            .map(|line| (line.op.0.to_string(), line.start.0))
            .collect();
        println!("{}", serde_json::json!({ "start": starts }));
    }
    Ok(())
}

fn read(file: &Path) -> Result<String, String> {
    std::fs::read_to_string(file).map_err(|error| format!("{}: {error}", file.display()))
}

fn plan(args: &Args, file: &Path) -> Result<Sheet, String> {
    let said = |error: &dyn std::fmt::Display| format!("{}: {error}", file.display());
    // Reading counts: the budget is what whoever waits for it sees.
    let begin = Instant::now();
    let instance: Instance = serde_json::from_str(&read(file)?).map_err(|error| said(&error))?;
    let settings = SearchSettings {
        seed: args.seed,
        iterations: args.iterations,
        threads: args.threads,
        worth: Minute(0),
    };
    let budget = Duration::from_millis(args.ms);
    let mut stop = || begin.elapsed() >= budget;
    Plan::search(&instance, &settings, None, &mut stop).map_err(|error| said(&error))
}

fn compare(args: &Args, known: &Path) -> Result<(), String> {
    let known: BTreeMap<String, Known> =
        serde_json::from_str(&read(known)?).map_err(|error| error.to_string())?;
    let (mut zeros, mut reached) = (0, 0);
    let (mut open, mut not_worse) = (0, 0);
    let mut gaps = Vec::new();
    println!(
        "{:<12} {:>9} {:>9} {:>9}  gap",
        "instance", "late", "known", "bound"
    );
    for file in &args.files {
        let name = file.file_stem().unwrap_or_default().to_string_lossy();
        let Some(known) = known.get(name.as_ref()) else {
            continue;
        };
        let sheet = plan(args, file)?;
        let late = sheet.lateness;
        let (wt, bound, optimal) = match known {
            Known::Optimum(wt) => (Some(*wt), Some(*wt), true),
            Known::Found {
                wt,
                wt_bound,
                wt_optimal,
            } => (*wt, *wt_bound, *wt_optimal == Some(true)),
        };
        let word = match wt {
            Some(0) if optimal => {
                zeros += 1;
                reached += i32::from(late == 0);
                String::from(if late == 0 { "reached" } else { "missed" })
            }
            Some(wt) if optimal => {
                gaps.push((late - wt) as f64 / wt as f64 * 100.0);
                format!("{:.2} %", gaps.last().copied().unwrap_or_default())
            }
            _ => {
                open += 1;
                not_worse += i32::from(wt.is_none_or(|wt| late <= wt));
                wt.map_or(String::new(), |wt| {
                    format!("{:+} against the solver", late - wt)
                })
            }
        };
        let shown =
            |figure: Option<i64>| figure.map_or(String::from("-"), |figure| figure.to_string());
        let broken = if sheet.broken.is_empty() {
            ""
        } else {
            " BROKEN"
        };
        println!(
            "{name:<12} {late:>9} {:>9} {:>9}  {word}{broken}",
            shown(wt),
            shown(bound)
        );
    }
    gaps.sort_by(f64::total_cmp);
    if let Some(last) = gaps.len().checked_sub(1) {
        let (median, ninth) = (gaps[last / 2], gaps[(last * 9).div_ceil(10)]);
        println!(
            "late at best: {} instances, median gap {median:.2} %, 90th percentile {ninth:.2} %",
            gaps.len()
        );
    }
    println!("on time at best: {reached} of {zeros} reached");
    println!("not solved to the end: {not_worse} of {open} no worse than what the solver found");
    Ok(())
}
