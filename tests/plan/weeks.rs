//! Shop weeks of four sizes (`open/`), with what a general-purpose constraint solver found for them
//! on two cores in 18 seconds (`open/optima.json`): feasible, honestly counted, and never below a
//! bound that was proven.

use super::checker::{Verdict, Week};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::PathBuf;
use tackfree::plan::{Instance, Plan, SearchSettings, Sheet};

#[derive(Deserialize)]
struct Found {
    wt: Option<i64>,
    wt_bound: Option<i64>,
    wt_optimal: Option<bool>,
    flow: Option<i64>,
    flow_optimal: Option<bool>,
}

pub fn open() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/plan/open");
    let mut weeks = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the folder") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().expect("a name").to_string_lossy();
        if name != "optima" {
            let text = std::fs::read_to_string(&path).expect("a file");
            weeks.push((name.into_owned(), text));
        }
    }
    weeks.sort();
    assert_eq!(weeks.len(), 30);
    weeks
}

/// Plans with so many moves, and judges the starts.
pub fn judged(text: &str, iterations: u64) -> (Sheet, Verdict) {
    let instance: Instance = serde_json::from_str(text).expect("an instance");
    let settings = SearchSettings {
        iterations,
        ..SearchSettings::default()
    };
    let sheet = Plan::search(&instance, &settings, None, &mut || false).expect("a sheet");
    let starts = starts(&sheet);
    let verdict = Week::read(text).judge(&starts);
    (sheet, verdict)
}

pub fn starts(sheet: &Sheet) -> BTreeMap<i64, i64> {
    let lines = sheet.lines.iter();
    lines.map(|line| (line.op.0, line.start.0)).collect()
}

#[test]
fn every_week_can_be_worked_and_costs_what_is_said() {
    let text = include_str!("open/optima.json");
    let found: BTreeMap<String, Found> = serde_json::from_str(text).expect("optima");
    let (mut zero, mut reached) = (0, 0);
    for (name, text) in open() {
        let (sheet, verdict) = judged(&text, 4000);
        assert_eq!(verdict.faults, Vec::<String>::new(), "{name}");
        assert!(sheet.broken.is_empty(), "{name}");
        assert_eq!(sheet.lateness, verdict.lateness, "{name}");
        assert_eq!(sheet.ends, verdict.ends, "{name}");
        for line in &sheet.lines {
            assert_eq!(line.end.0, verdict.end[&line.op.0], "{name}");
        }
        let best = &found[&name];
        if let Some(bound) = best.wt_bound {
            assert!(sheet.lateness >= bound, "{name} is below what was proven");
        }
        if best.wt == Some(sheet.lateness)
            && best.wt_optimal == Some(true)
            && best.flow_optimal == Some(true)
        {
            assert!(
                Some(sheet.ends) >= best.flow,
                "{name} ends before what was proven"
            );
        }
        if best.wt == Some(0) {
            zero += 1;
            reached += i32::from(sheet.lateness == 0);
        }
    }
    // Most promises that can all be kept are kept with few moves; how many with many, and how
    // near to the proven bounds the late ones come, is measured by `cargo bench --bench plan`.
    assert_eq!(zero, 7);
    assert!(reached >= 6, "{reached} of {zero}");
}

#[test]
fn a_first_order_without_search_can_be_worked_too() {
    for (name, text) in open() {
        let (sheet, verdict) = judged(&text, 0);
        assert_eq!(verdict.faults, Vec::<String>::new(), "{name}");
        assert_eq!(sheet.lateness, verdict.lateness, "{name}");
    }
}
