//! The search for a good order, as a sheet asks for it: the one place that knows how.
//!
//! Orders are made by rule (the latest start that still keeps the promise, first) and tried again
//! with the promises moved a little by chance; the best is kept.

use super::to_plan::Built;
use super::worked::{Course, Truth};
use crate::plan::Instance;
use crate::shop::chance::Chance;
use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};

/// How much is searched: the same figures, the same answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Where chance begins.
    pub seed: u64,
    /// How much is tried: single moves; a whole order made anew counts as a hundred.
    pub rounds: u64,
    /// How often lags are raised where the sheet runs into them, at the most.
    pub refine: usize,
}

/// A whole order costs as many moves.
const MOVES_OF_AN_ORDER: u64 = 100;
/// How far a promise is moved when an order is tried, minutes either way.
const MOVED: f64 = 3.0 * 24.0 * 60.0;

/// Start and end of each step, by its place in the instance; none where it cannot be planned.
/// When `stop` is set the best so far is given back.
pub fn solve(built: &Built, effort: Effort, stop: &AtomicBool) -> Option<Vec<(i64, i64)>> {
    let instance = &built.instance;
    instance.check().ok()?;
    let course = Course::new(instance);
    let truth = Truth::as_planned(instance);
    let urgency = Urgency::of(instance);
    let mut chance = Chance::new(effort.seed);
    let (mut moved, mut best_moved) = (vec![0; instance.jobs.len()], vec![0; instance.jobs.len()]);
    let mut best = course.run(&urgency.rank(&moved), &truth);
    let mut least = cost(built, &best);
    for _ in 0..effort.rounds / MOVES_OF_AN_ORDER {
        // Nothing is better than no lateness but ending sooner, and that is not worth the wait.
        if stop.load(Ordering::Relaxed) || least.0 == 0 || moved.is_empty() {
            break;
        }
        moved.clone_from(&best_moved);
        for _ in 0..2 {
            let job = whole(chance.unit() * moved.len() as f64);
            if let Some(by) = usize::try_from(job).ok().and_then(|job| moved.get_mut(job)) {
                *by += whole((chance.unit() - 0.5) * 2.0 * MOVED);
            }
        }
        let times = course.run(&urgency.rank(&moved), &truth);
        let cost = cost(built, &times);
        if cost < least {
            (least, best) = (cost, times);
            best_moved.clone_from(&moved);
        }
    }
    Some(best)
}

/// Lateness first, then the sum of the jobs' ends.
fn cost(built: &Built, times: &[(i64, i64)]) -> (i64, i64) {
    let mut ends: HashMap<_, i64> = HashMap::new();
    for (op, (_, end)) in built.instance.ops.iter().zip(times) {
        let last = ends.entry(op.job).or_insert(*end);
        *last = (*last).max(*end);
    }
    (built.lateness(times), ends.values().sum())
}

/// The latest starts that keep promises.
struct Urgency {
    /// Per step: minutes from its latest start to its job's promised end.
    tail: Vec<i64>,
    /// Per step: its job, by place, and the promised end.
    due: Vec<(usize, i64)>,
}

impl Urgency {
    fn of(instance: &Instance) -> Self {
        let place: HashMap<_, _> = instance
            .ops
            .iter()
            .enumerate()
            .map(|(at, op)| (op.id, at))
            .collect();
        let mut tail: Vec<i64> = instance.ops.iter().map(|op| op.work.0).collect();
        // As often as a chain is long at the most; chains are short.
        for _ in 0..instance.ops.len() {
            let mut changed = false;
            for arc in &instance.arcs {
                if let (Some(from), Some(to)) = (place.get(&arc.from), place.get(&arc.to)) {
                    let least = tail[*to] + arc.min.0 + instance.ops[*from].work.0;
                    if least > tail[*from] {
                        tail[*from] = least;
                        changed = true;
                    }
                }
            }
            if !changed {
                break;
            }
        }
        let due = instance.ops.iter().map(|op| {
            let job = instance.jobs.iter().position(|job| job.id == op.job);
            job.map_or((0, 0), |job| (job, instance.jobs[job].due.0))
        });
        Self {
            due: due.collect(),
            tail,
        }
    }

    /// The rank of every step, with the promises of the jobs moved by so many minutes.
    fn rank(&self, moved: &[i64]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.tail.len()).collect();
        order.sort_by_key(|at| {
            let (job, due) = self.due[*at];
            (
                due + moved.get(job).copied().unwrap_or(0) - self.tail[*at],
                *at,
            )
        });
        let mut rank = vec![0; order.len()];
        for (no, at) in order.into_iter().enumerate() {
            rank[at] = no;
        }
        rank
    }
}

/// Rounded down.
#[allow(
    clippy::cast_possible_truncation,
    reason = "some days in minutes, and a number of jobs"
)]
fn whole(value: f64) -> i64 {
    value.floor() as i64
}
