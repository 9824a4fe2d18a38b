//! A first order by a rule: again and again the most urgent of the steps that could start next.
//!
//! Which steps could start next follows Giffler and Thompson, "Algorithms for solving
//! production-scheduling problems", Operations Research 8 (1960) 487-503: none is left waiting that
//! could be finished before the chosen one starts. Urgency is the latest start that still keeps the
//! promise, reckoned backwards over lags and bench hours.

use super::calendar::NEVER;
use super::decode::Decoder;
use super::groups::Groups;
use super::model::{Model, NONE};

/// Lays orders by a rule.
#[derive(Debug, Clone)]
pub(super) struct Dispatcher {
    /// How many steps outside the group, still to do, each group waits for.
    waits: Vec<usize>,
    left: Vec<usize>,
    ready: Vec<usize>,
    spans: Vec<i64>,
    order: Vec<usize>,
}

impl Dispatcher {
    pub(super) fn new(model: &Model, groups: &Groups) -> Self {
        let n = model.len();
        let mut waits = vec![0; n];
        for step in 0..n {
            let group = groups.number(step);
            let outside = |from: usize| from < n && groups.number(from) != group;
            let count = model.preds(step).iter().filter(|p| outside(p.from)).count();
            waits[group] += count;
        }
        Self {
            left: waits.clone(),
            waits,
            ready: Vec::with_capacity(n),
            spans: Vec::with_capacity(n),
            order: Vec::with_capacity(n),
        }
    }

    /// An order by `urgency` (the least first). `patience`, zero to one, says how long the hands
    /// wait for an urgent step: zero never, one until a step at hand would be done meanwhile.
    pub(super) fn run(
        &mut self,
        model: &Model,
        groups: &Groups,
        decoder: &mut Decoder,
        urgency: &[i64],
        patience: f64,
    ) -> &[usize] {
        decoder.clear(model);
        self.left.copy_from_slice(&self.waits);
        self.order.clear();
        self.ready.clear();
        for group in 0..model.len() {
            if !groups.steps(group).is_empty() && self.left[group] == 0 {
                self.ready.push(group);
            }
        }
        while !self.ready.is_empty() {
            let prev = self.order.last().copied().unwrap_or(NONE);
            let chosen = self.choose(model, groups, decoder, urgency, patience, prev);
            let group = self.ready.swap_remove(chosen);
            let steps = groups.steps(group);
            times(model, decoder, steps, prev, true);
            for &step in steps {
                self.order.push(step);
                for &next in model.succs(step) {
                    let other = groups.number(next);
                    if other != group {
                        self.left[other] -= 1;
                        if self.left[other] == 0 {
                            self.ready.push(other);
                        }
                    }
                }
            }
        }
        &self.order
    }

    fn choose(
        &mut self,
        model: &Model,
        groups: &Groups,
        decoder: &mut Decoder,
        urgency: &[i64],
        patience: f64,
        prev: usize,
    ) -> usize {
        let (mut soonest, mut done_first) = (NEVER, NEVER);
        self.spans.clear();
        for &group in &self.ready {
            let span = times(model, decoder, groups.steps(group), prev, false);
            soonest = soonest.min(span.0);
            done_first = done_first.min(span.1);
            self.spans.push(span.0);
        }
        let wait = (done_first - soonest) as f64 * patience;
        let mut best = (usize::MAX, i64::MAX, i64::MAX);
        for (k, (&group, &start)) in self.ready.iter().zip(&self.spans).enumerate() {
            if start > soonest && (start - soonest) as f64 >= wait {
                continue;
            }
            let first = groups.steps(group)[0];
            if (urgency[first], start) < (best.1, best.2) {
                best = (k, urgency[first], start);
            }
        }
        best.0.min(self.ready.len() - 1)
    }
}

/// How often the first of a group is sent later for a longest lag.
const MOST_REPAIRS: usize = 12;

/// Start of the first and end of the last of a group, one right after the other.
fn times(
    model: &Model,
    decoder: &mut Decoder,
    group: &[usize],
    prev: usize,
    keep: bool,
) -> (i64, i64) {
    if let [step] = *group {
        let times = decoder.earliest(model, step, prev);
        if keep {
            decoder.place(model, step, times);
        }
        return times;
    }
    decoder.chain(model, group, prev, keep, MOST_REPAIRS)
}
