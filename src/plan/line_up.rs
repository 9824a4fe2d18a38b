//! An order under search: where each step stands, its times, and the times of a change on trial.

use super::calendar::NEVER;
use super::decode::Decoder;
use super::groups::Groups;
use super::model::Model;
use super::rng::Chance;

/// The order under search.
pub(super) struct LineUp<'a> {
    pub(super) model: &'a Model,
    pub(super) groups: Groups,
    pub(super) chance: Chance,
    pub(super) order: Vec<usize>,
    pub(super) place_of: Vec<usize>,
    /// From where a pass must begin when position `k` changes: no longest lag spans it.
    safe: Vec<usize>,
    /// The times of the order before the change on trial.
    pub(super) now: Decoder,
    /// The times on trial; like `now` while there is no change.
    pub(super) trial: Decoder,
    /// The order before the change on trial.
    pub(super) old: Vec<usize>,
    /// Steps taken out, with the key by which they come back.
    pub(super) out: Vec<(i64, usize)>,
    pub(super) is_out: Vec<bool>,
    pub(super) job_key: Vec<i64>,
    /// How long, after the end of any step, dust hangs or a coat is open to it, at most.
    pub(super) air: i64,
}

impl<'a> LineUp<'a> {
    pub(super) fn new(model: &'a Model, seed: u64) -> Self {
        let n = model.len();
        let hangs = model.steps.iter().map(|row| row.settle.max(row.wet));
        Self {
            groups: Groups::new(model),
            chance: Chance::new(seed),
            order: Vec::with_capacity(n),
            place_of: vec![0; n],
            safe: vec![0; n + 1],
            now: Decoder::new(model),
            trial: Decoder::new(model),
            old: Vec::with_capacity(n),
            out: Vec::with_capacity(n),
            is_out: vec![false; n],
            job_key: vec![0; model.jobs.len()],
            air: hangs.max().unwrap_or(0),
            model,
        }
    }

    /// Takes up a whole order and reckons its times.
    pub(super) fn set(&mut self, order: &[usize]) {
        self.order.clear();
        self.order.extend_from_slice(order);
        self.renew_places(0, order.len());
        self.renew_safe(0, order.len());
        self.now.pass(self.model, &self.order, &self.place_of);
    }

    /// Makes ready for changes on trial.
    pub(super) fn begin_trials(&mut self) {
        self.trial.clone_from(&self.now);
        self.old.clear();
        self.old.extend_from_slice(&self.order);
    }

    pub(super) fn renew_places(&mut self, from: usize, to: usize) {
        for place in from..to {
            self.place_of[self.order[place]] = place;
        }
    }

    /// From `from`, which no longest lag spans, up to the first position from `to` on that none
    /// spans either.
    fn renew_safe(&mut self, from: usize, to: usize) {
        let (mut open, mut since) = (0usize, from);
        for place in from..self.order.len() {
            if open == 0 {
                since = place;
                if place >= to {
                    break;
                }
            }
            self.safe[place] = since;
            let row = &self.model.steps[self.order[place]];
            open += row.binds;
            if row.bounds > 0 {
                let preds = self.model.preds(self.order[place]).iter();
                let tied = |from: usize| from < self.model.len();
                let closed = preds.filter(|pred| pred.max < NEVER && tied(pred.from));
                open = open.saturating_sub(closed.count());
            }
        }
    }

    /// Reckons the times of a change in the positions `from..to`. Gives from where to where times
    /// may have changed.
    pub(super) fn try_change(&mut self, (from, to): (usize, usize)) -> (usize, usize) {
        let start = self.safe[from];
        let (model, now) = (self.model, &self.now);
        let (order, places) = (&self.order, &self.place_of);
        let until = self
            .trial
            .pass_local(model, order, places, (start, to), now);
        (start, until)
    }

    /// Keeps the change on trial.
    pub(super) fn keep(&mut self, (from, to): (usize, usize), reckoned: (usize, usize)) {
        self.now.take(&self.trial, &self.order, reckoned);
        self.renew_safe(reckoned.0, to);
        self.old[from..to].copy_from_slice(&self.order[from..to]);
    }

    /// Takes the change on trial back.
    pub(super) fn undo(&mut self, (from, to): (usize, usize), reckoned: (usize, usize)) {
        self.order[from..to].copy_from_slice(&self.old[from..to]);
        self.renew_places(from, to);
        self.trial.take(&self.now, &self.order, reckoned);
    }

    /// Between which positions a group may stand: after the last step it waits for, before the
    /// first that waits for it.
    fn range(&self, group: &[usize]) -> (usize, usize) {
        let (mut low, mut high) = (0, self.order.len());
        for &step in group {
            for pred in self.model.preds(step) {
                if pred.from < self.model.len() && !group.contains(&pred.from) {
                    low = low.max(self.place_of[pred.from] + 1);
                }
            }
            for &next in self.model.succs(step) {
                if !group.contains(&next) {
                    high = high.min(self.place_of[next]);
                }
            }
        }
        (low, high)
    }

    /// Moves a step, with what is tied to it, somewhere else. Gives from which position on up to
    /// which the order has changed.
    pub(super) fn shift(&mut self) -> Option<(usize, usize)> {
        let n = self.order.len();
        let step = self.order[self.chance.below(n)];
        let single = [step];
        let tied = self.groups.of(step).len() > 1;
        let alone = !tied || self.chance.below(8) == 0;
        let reach = match self.chance.below(4) {
            0 => n,
            1 => 16,
            _ => 5,
        };
        let group = if alone { &single } else { self.groups.of(step) };
        let (low, high) = self.range(group);
        let places = || group.iter().map(|&step| self.place_of[step]);
        let (first, last) = (places().min()?, places().max()?);
        let low = low.max(first.saturating_sub(reach));
        let high = high.min(last + 1 + reach);
        if high < low + group.len() {
            return None;
        }
        let target = low + self.chance.below(high - low + 1);
        if target >= first && target <= last + 1 {
            return None;
        }
        let (from, to) = (first.min(target), (last + 1).max(target));
        let mut at = from;
        for place in from..=to {
            if place == target {
                for &member in group {
                    self.order[at] = member;
                    at += 1;
                }
            }
            if place < to && !group.contains(&self.old[place]) {
                self.order[at] = self.old[place];
                at += 1;
            }
        }
        self.renew_places(from, to);
        Some((from, to))
    }
}
