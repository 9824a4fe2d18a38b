//! From an order of steps to their times: each starts as early as the order lets it.
//!
//! Given the order of the worker, every rule is a lower bound on a start: a dusty step waits until
//! the coats before it are dust-free and a wet one until the dust before it has settled, a coat
//! waits until enough of those before it have left the rack. A longest lag that is missed sends
//! its first step later, and the pass goes on from there again.

use super::air::Air;
use super::calendar::NEVER;
use super::model::{Model, NONE};
use super::tally::Cost;

/// How many positions lie between two snapshots of the rooms.
const STRIDE: usize = 4;
/// How often one pass goes back for a longest lag before it lets it be missed.
const MOST_REPAIRS: usize = 24;

/// Times of an order, and room to reckon them in. Nothing is allocated after it is made.
#[derive(Debug, Clone)]
pub(super) struct Decoder {
    /// Starts and ends by step; done ones follow those to do.
    pub(super) start: Vec<i64>,
    pub(super) end: Vec<i64>,
    /// No start before, for the sake of a longest lag after it.
    delay: Vec<i64>,
    delayed: Vec<usize>,
    /// Longest lags that cannot be kept in this order, by their second step.
    let_go: Vec<usize>,
    air: Air,
    before: Air,
    snapshots: Vec<Air>,
    pub(super) job_end: Vec<i64>,
    /// What the last pass came to.
    pub(super) cost: Cost,
    /// What the annealing is drawn by besides the cost: how early the steps of each job end on the
    /// whole, and how far they start after what their promise would need. So work on a job that
    /// does not yet change its end tells too.
    pub(super) pull: i64,
    /// Minutes by which longest lags are missed.
    pub(super) missed: i64,
}

impl Decoder {
    pub(super) fn new(model: &Model) -> Self {
        let n = model.len();
        let mut start = vec![0; n];
        let mut end = vec![0; n];
        start.extend(model.done.iter().map(|&(start, _)| start));
        end.extend(model.done.iter().map(|&(_, end)| end));
        Self {
            start,
            end,
            delay: vec![-NEVER; n],
            delayed: Vec::with_capacity(n),
            let_go: Vec::with_capacity(n),
            air: Air::of(model),
            before: Air::of(model),
            snapshots: vec![Air::of(model); n / STRIDE + 1],
            job_end: vec![0; model.jobs.len()],
            cost: Cost::WORST,
            pull: 0,
            missed: 0,
        }
    }

    /// Begins with nothing placed.
    pub(super) fn clear(&mut self, model: &Model) {
        self.air.dust_until.copy_from_slice(&model.dust_until);
        self.air.wet_until.copy_from_slice(&model.wet_until);
        self.air.places.copy_from_slice(&model.places);
        self.forget_delays();
    }

    fn forget_delays(&mut self) {
        for step in self.delayed.drain(..) {
            self.delay[step] = -NEVER;
        }
        self.let_go.clear();
    }

    /// Set-up and extra work of a step that would start at `at`.
    #[inline]
    pub(super) fn added(&self, model: &Model, step: usize, prev: usize, at: i64) -> i64 {
        let row = &model.steps[step];
        let mut added = 0;
        if row.family != NONE {
            let warm = prev != NONE
                && model.steps[prev].family == row.family
                && at - self.end[prev] <= row.keep;
            if !warm {
                added += row.setup;
            }
        }
        if row.windows > 0 {
            for pred in model.preds(step) {
                if at - self.end[pred.from] > pred.window {
                    added += pred.extra;
                }
            }
        }
        added
    }

    /// The earliest start and its end after `prev` in the order.
    #[inline]
    pub(super) fn earliest(&self, model: &Model, step: usize, prev: usize) -> (i64, i64) {
        let row = &model.steps[step];
        let mut at = row.release.max(self.delay[step]);
        if prev != NONE {
            at = at.max(self.end[prev]);
        }
        for pred in model.preds(step) {
            at = at.max(self.end[pred.from] + pred.min);
        }
        if row.dust {
            at = at.max(self.air.wet_until[row.room]);
        }
        if row.wet > 0 {
            at = at.max(self.air.dust_until[row.room]);
        }
        let rack_free = if row.rack == NONE {
            -NEVER
        } else {
            self.air.places[row.rack]
        };
        let mut added = self.added(model, step, prev, at);
        loop {
            let work = row.work + added;
            let (start, end) = if row.split {
                model.calendar.fit_split(at, work)
            } else {
                model.calendar.fit(at.max(rack_free - work), work)
            };
            let now_added = self.added(model, step, prev, start);
            if now_added != added {
                added = now_added;
                at = start;
            } else if end < rack_free {
                at = start + 1;
            } else {
                return (start, end);
            }
        }
    }

    /// Puts a step at its time: what it leaves in the air and on the rack.
    #[inline]
    pub(super) fn place(&mut self, model: &Model, step: usize, times: (i64, i64)) {
        self.start[step] = times.0;
        self.end[step] = times.1;
        self.air.leave(model, step, self.end[step]);
    }

    /// The rooms as they are before position `at`.
    fn rewind(&mut self, model: &Model, order: &[usize], at: usize) {
        let slot = at / STRIDE;
        self.air.take(&self.snapshots[slot]);
        for &step in &order[slot * STRIDE..at] {
            self.air.leave(model, step, self.end[step]);
        }
    }

    /// Times of the whole order. `place_of` tells where a step is in it.
    pub(super) fn pass(&mut self, model: &Model, order: &[usize], place_of: &[usize]) {
        self.forget_delays();
        self.clear(model);
        self.go(model, order, place_of, 0, None);
        self.tally(model, order);
    }

    /// Times of an order that differs from that of `old` only in the positions `from..to`, where
    /// no longest lag spans `from`, and this decoder stood as `old` does. Gives the position from
    /// which on nothing has changed.
    pub(super) fn pass_local(
        &mut self,
        model: &Model,
        order: &[usize],
        place_of: &[usize],
        (from, to): (usize, usize),
        old: &Self,
    ) -> usize {
        self.forget_delays();
        self.rewind(model, order, from);
        let until = self.go(model, order, place_of, from, Some((to, old)));
        self.tally_local(model, order, (from, until), old);
        until
    }

    fn go(
        &mut self,
        model: &Model,
        order: &[usize],
        place_of: &[usize],
        from: usize,
        old: Option<(usize, &Self)>,
    ) -> usize {
        let mut repairs = 0;
        let mut at = from;
        // The last position that a changed end reaches by an arc.
        let mut reach = 0;
        while at < order.len() {
            if at.is_multiple_of(STRIDE) {
                let snapshot = &mut self.snapshots[at / STRIDE];
                if let Some((to, old)) = old
                    && at > to
                    && at > reach
                    && self.end[order[at - 1]] == old.end[order[at - 1]]
                    && self.air == old.snapshots[at / STRIDE]
                {
                    return at;
                }
                snapshot.take(&self.air);
            }
            let step = order[at];
            let prev = if at == 0 { NONE } else { order[at - 1] };
            let times = self.earliest(model, step, prev);
            if model.steps[step].bounds > 0
                && let Some(first) = self.missed(model, step, times.0)
            {
                repairs += 1;
                if repairs > MOST_REPAIRS {
                    self.let_go.push(step);
                    self.delay[first] = -NEVER;
                    repairs = 0;
                }
                at = place_of[first];
                self.rewind(model, order, at);
                continue;
            }
            self.place(model, step, times);
            if let Some((_, old)) = old
                && times.1 != old.end[step]
            {
                for &next in model.succs(step) {
                    reach = reach.max(place_of[next]);
                }
            }
            at += 1;
        }
        at
    }

    /// Start of the first and end of the last of `chain`, one right after the other from where the
    /// decoder stands, so that they keep their longest lags if they can. The rooms are left as they
    /// were unless `keep` is set.
    pub(super) fn chain(
        &mut self,
        model: &Model,
        chain: &[usize],
        prev: usize,
        keep: bool,
        repairs: usize,
    ) -> (i64, i64) {
        self.before.take(&self.air);
        self.forget_delays();
        let mut left = repairs;
        let (mut at, mut last) = (0, prev);
        while at < chain.len() {
            let step = chain[at];
            let times = self.earliest(model, step, last);
            if model.steps[step].bounds > 0
                && left > 0
                && self.missed(model, step, times.0).is_some()
            {
                left -= 1;
                self.air.take(&self.before);
                (at, last) = (0, prev);
                continue;
            }
            self.place(model, step, times);
            last = step;
            at += 1;
        }
        if !keep {
            self.air.take(&self.before);
        }
        self.forget_delays();
        (self.start[chain[0]], self.end[last])
    }

    /// The step that must start later so that `step`, at `start`, keeps its longest lag.
    fn missed(&mut self, model: &Model, step: usize, start: i64) -> Option<usize> {
        for pred in model.preds(step) {
            let over = start - self.end[pred.from] - pred.max;
            if over <= 0 || pred.from >= model.len() || self.let_go.contains(&step) {
                continue;
            }
            self.delayed.push(pred.from);
            self.delay[pred.from] = model.calendar.snap(self.start[pred.from] + over);
            return Some(pred.from);
        }
        None
    }

    /// Ends of the jobs after the last pass.
    pub(super) fn job_ends(&self) -> &[i64] {
        &self.job_end
    }

    /// Takes over the times and rooms of another in the positions `from..until` of the order.
    pub(super) fn take(&mut self, other: &Self, order: &[usize], (from, until): (usize, usize)) {
        for &step in &order[from..until] {
            self.start[step] = other.start[step];
            self.end[step] = other.end[step];
        }
        for slot in from / STRIDE..until.div_ceil(STRIDE).min(self.snapshots.len()) {
            self.snapshots[slot].take(&other.snapshots[slot]);
        }
        self.cost = other.cost;
        self.pull = other.pull;
        self.missed = other.missed;
        self.job_end.copy_from_slice(&other.job_end);
    }
}
