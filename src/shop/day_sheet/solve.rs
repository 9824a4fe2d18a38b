//! The search for a good order, as a sheet asks for it: the one place that calls the planner.

use super::to_plan::Built;
use crate::plan::{Broken, Order, Plan, SearchSettings, Sheet, replay};
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
    times_of(
        built,
        &Plan::search(instance, &settings, None, &mut halt).ok()?,
    )
}

/// The same order of the hands once more, with the figures as they stand now.
pub fn again(built: &Built, times: &[(i64, i64)]) -> Option<Vec<(i64, i64)>> {
    let ops = built.instance.ops.iter().zip(times);
    let mut todo: Vec<_> = ops.filter(|(op, _)| op.done.is_none()).collect();
    todo.sort_by_key(|(_, (start, end))| (*start, *end));
    let order = Order(todo.into_iter().map(|(op, _)| op.id).collect());
    times_of(built, &replay(&built.instance, &order).ok()?)
}

fn times_of(built: &Built, sheet: &Sheet) -> Option<Vec<(i64, i64)>> {
    let past = |broken: &Broken| matches!(broken, Broken::BeyondCalendar(_));
    if sheet.broken.iter().any(past) {
        return None;
    }
    let lines: HashMap<_, _> = sheet.lines.iter().map(|line| (line.op, line)).collect();
    let times = built.instance.ops.iter().map(|op| {
        op.done
            .map(|(start, end)| (start.0, end.0))
            .or_else(|| lines.get(&op.id).map(|line| (line.start.0, line.end.0)))
    });
    times.collect()
}
