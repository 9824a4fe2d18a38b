//! The search for a good order, as a sheet asks for it.

use super::to_plan::Built;
use super::worked::{Course, Truth};
use crate::plan::Instance;
use std::sync::atomic::AtomicBool;

/// How much is searched: the same figures, the same answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Where chance begins.
    pub seed: u64,
    /// How many orders are tried.
    pub rounds: u64,
    /// How often lags are raised where the sheet runs into them, at the most.
    pub refine: usize,
}

/// Start and end of each step, by its place in the instance.
pub fn solve(built: &Built, effort: Effort, stop: &AtomicBool) -> Option<Vec<(i64, i64)>> {
    let _ = (effort, stop);
    let instance = &built.instance;
    instance.check().ok()?;
    Some(Course::new(instance).run(&urgency(instance), &Truth::as_planned(instance)))
}

/// Rank by the latest start that still keeps the promise, lags and work reckoned backwards.
fn urgency(instance: &Instance) -> Vec<usize> {
    let count = instance.ops.len();
    let place = |id| instance.ops.iter().position(|op| op.id == id);
    let mut latest: Vec<i64> = instance
        .ops
        .iter()
        .map(|op| {
            let job = instance.jobs.iter().find(|job| job.id == op.job);
            job.map_or(0, |job| job.due.0) - op.work.0
        })
        .collect();
    for _ in 0..count {
        let mut changed = false;
        for arc in &instance.arcs {
            if let (Some(from), Some(to)) = (place(arc.from), place(arc.to)) {
                let bound = latest[to] - arc.min.0 - instance.ops[from].work.0;
                if bound < latest[from] {
                    latest[from] = bound;
                    changed = true;
                }
            }
        }
        if !changed {
            break;
        }
    }
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by_key(|at| (latest[*at], *at));
    let mut rank = vec![0; count];
    for (no, at) in order.into_iter().enumerate() {
        rank[at] = no;
    }
    rank
}
