//! The search for a good order, as a sheet asks for it: the one place that calls the planner.

use super::to_plan::Built;
use crate::plan::{Broken, Plan, SearchSettings};
use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};

/// How much is searched: the same figures, the same answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Where chance begins.
    pub seed: u64,
    /// How many moves are tried.
    pub rounds: u64,
    /// How often lags are raised where the sheet runs into them, at the most.
    pub refine: usize,
}

/// Start and end of each step, by its place in the instance; none where it cannot be planned: the
/// instance makes no sense, or its work runs past the end of the calendar. When `stop` is set the
/// best so far is given back.
pub fn solve(built: &Built, effort: Effort, stop: &AtomicBool) -> Option<Vec<(i64, i64)>> {
    let instance = &built.instance;
    let settings = SearchSettings {
        seed: effort.seed,
        iterations: effort.rounds,
        ..SearchSettings::default()
    };
    let mut halt = || stop.load(Ordering::Relaxed);
    let sheet = Plan::search(instance, &settings, None, &mut halt).ok()?;
    let past = |broken: &Broken| matches!(broken, Broken::BeyondCalendar(_));
    if sheet.broken.iter().any(past) {
        return None;
    }
    let lines: HashMap<_, _> = sheet.lines.iter().map(|line| (line.op, line)).collect();
    let times = instance.ops.iter().map(|op| {
        op.done
            .map(|(start, end)| (start.0, end.0))
            .or_else(|| lines.get(&op.id).map(|line| (line.start.0, line.end.0)))
    });
    times.collect()
}
