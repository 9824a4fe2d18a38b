//! The search for a good order: first ones by rules, then annealing, again and again and longer each
//! time, from the best found.
//!
//! Simulated annealing after S. Kirkpatrick, C. D. Gelatt and M. P. Vecchi, "Optimization by
//! simulated annealing", Science 220 (1983) 671-680, on the order of the hands.

use super::decode::{Cost, Decoder};
use super::dispatch::Dispatcher;
use super::entry::SearchSettings;
use super::line_up::LineUp;
use super::model::{Model, SHARE};

/// A minute of weighted lateness against a minute of the jobs' ends while annealing. The best is
/// kept by lateness alone, then ends.
const LATE_WEIGHS: i64 = 4;
/// What a rule that is broken weighs while annealing: more than any sheet is late.
const BROKEN_WEIGHS: i64 = 1_000_000;
/// How many first orders are made by rule.
const FIRST_ORDERS: usize = 50;
/// How far a promise is moved when a first order is tried, minutes either way.
const MOVED: i64 = 3 * 24 * 60;
/// Moves of the first annealing; each later one has half as many again.
const FIRST_MOVES: u64 = 20_000;
/// Temperature at the start of an annealing and at its end, in minutes.
const HOT: f64 = 2_000.0;
const COLD: f64 = 5.0;
/// The share of moves that take a step out and put it back where it fits best.
const REFITS: f64 = 0.5;
/// Moves between two looks at the temperature and at whether to stop.
const EVERY: u32 = 64;

/// A search under way.
pub(super) struct Search<'a> {
    model: &'a Model,
    line_up: LineUp<'a>,
    best: Vec<usize>,
    best_cost: Cost,
}

impl<'a> Search<'a> {
    pub(super) fn new(model: &'a Model, seed: u64) -> Self {
        Self {
            model,
            line_up: LineUp::new(model, seed),
            best: Vec::with_capacity(model.len()),
            best_cost: Cost::WORST,
        }
    }

    /// What annealing goes down: one figure of minutes.
    fn height(decoder: &Decoder) -> i64 {
        let cost = decoder.cost;
        cost.broken
            .saturating_mul(BROKEN_WEIGHS)
            .saturating_add(cost.late.saturating_mul(LATE_WEIGHS))
            .saturating_add(cost.ends)
            .saturating_add(decoder.pull / SHARE)
    }

    fn note(&mut self) {
        if self.line_up.now.cost < self.best_cost {
            self.best_cost = self.line_up.now.cost;
            self.best.clear();
            self.best.extend_from_slice(&self.line_up.order);
        }
    }

    /// First orders by rules, promises moved by chance.
    fn construct(&mut self, stop: &mut dyn FnMut() -> bool) {
        let jobs = self.model.jobs.len();
        let mut dispatcher = Dispatcher::new(self.model, &self.line_up.groups);
        let mut urgency = vec![0; self.model.len()];
        let mut offset = vec![0_i64; jobs];
        let mut best_offset = offset.clone();
        let mut best = Cost::WORST;
        for turn in 0..FIRST_ORDERS {
            offset.copy_from_slice(&best_offset);
            if turn > 3 {
                for _ in 0..=self.line_up.chance.below(2) {
                    let job = self.line_up.chance.below(jobs);
                    offset[job] += minutes_either_way(&mut self.line_up);
                }
            }
            self.model.latest(&offset, &mut urgency, turn == 3);
            let rule = if turn < 3 {
                turn
            } else {
                self.line_up.chance.below(3)
            };
            let patience = [0.0, 1.0, 0.5][rule];
            let LineUp { groups, now, .. } = &mut self.line_up;
            let order = dispatcher.run(self.model, groups, now, &urgency, patience);
            self.line_up.set(order);
            if self.line_up.now.cost <= best {
                best = self.line_up.now.cost;
                best_offset.copy_from_slice(&offset);
            }
            self.note();
            if turn % 8 == 7 && stop() {
                break;
            }
        }
    }

    /// One annealing of so many moves; false when it was stopped.
    fn anneal(&mut self, moves: u64, stop: &mut dyn FnMut() -> bool) -> bool {
        let mut heat = HOT;
        let cool = (COLD / HOT).powf(f64::from(EVERY) / moves.max(1) as f64);
        let mut current = Self::height(&self.line_up.now);
        let mut till_look = EVERY;
        for _ in 0..moves {
            till_look -= 1;
            if till_look == 0 {
                till_look = EVERY;
                heat *= cool;
                if stop() {
                    return false;
                }
            }
            let change = if self.line_up.chance.unit() < REFITS {
                self.line_up.refit()
            } else {
                self.line_up.shift()
            };
            let Some(changed) = change else {
                continue;
            };
            let reckoned = self.line_up.try_change(changed);
            let height = Self::height(&self.line_up.trial);
            let more = height - current;
            let dared = -heat * (1.0 - self.line_up.chance.unit()).ln();
            if more <= 0 || (more as f64) < dared {
                self.line_up.keep(changed, reckoned);
                current = height;
                self.note();
            } else {
                self.line_up.undo(changed, reckoned);
            }
        }
        true
    }

    /// The best order found, or the one kept where no other is worth it.
    pub(super) fn run(
        &mut self,
        settings: &SearchSettings,
        kept: Option<&[usize]>,
        stop: &mut dyn FnMut() -> bool,
    ) -> Vec<usize> {
        if self.model.len() == 0 {
            return Vec::new();
        }
        let mut kept_cost = Cost::WORST;
        if let Some(kept) = kept {
            self.line_up.set(kept);
            kept_cost = self.line_up.now.cost;
            self.note();
        }
        self.construct(stop);
        let mut moves = FIRST_MOVES;
        let mut left = settings.iterations;
        while left > 0 {
            self.line_up.set(&self.best);
            self.line_up.begin_trials();
            let now = moves.min(left);
            if !self.anneal(now, stop) {
                break;
            }
            left -= now;
            moves = moves.saturating_add(moves / 2);
        }
        let worth_it = (self.best_cost.broken, self.best_cost.late)
            < (kept_cost.broken, kept_cost.late)
            || self.best_cost.ends < kept_cost.ends.saturating_sub(settings.worth.0);
        match kept {
            Some(kept) if !worth_it => kept.to_vec(),
            _ => self.best.clone(),
        }
    }
}

/// By how much a promise is moved.
fn minutes_either_way(line_up: &mut LineUp<'_>) -> i64 {
    let span = usize::try_from(2 * MOVED + 1).unwrap_or(1);
    i64::try_from(line_up.chance.below(span)).map_or(0, |minutes| minutes - MOVED)
}
