//! The search for a good order: first ones by rules, then annealing, then tempering for as long as
//! it may.
//!
//! Simulated annealing after S. Kirkpatrick, C. D. Gelatt and M. P. Vecchi, "Optimization by
//! simulated annealing", Science 220 (1983) 671-680; exchange between temperatures (which needs to
//! know no end, so that it can be stopped at any time) after R. H. Swendsen and J.-S. Wang,
//! "Replica Monte Carlo simulation of spin-glasses", Physical Review Letters 57 (1986) 2607-2609.

use super::decode::Decoder;
use super::dispatch::Dispatcher;
use super::line_up::LineUp;
use super::model::{Model, SHARE};
use super::rng::Chance;
use super::tally::Cost;

/// First orders that are laid by rules.
const RULES: u64 = 150;
/// By how much a promise is moved for a first order, either way: three days.
const SHIFT: i64 = 3 * 1440;
/// Moves of the annealing, times the steps there are: so many are tried in much the same time.
const ANNEAL: u64 = 600_000;
/// Temperatures of the annealing, at its beginning and its end, in minutes of cost.
const ANNEAL_HOT: f64 = 2000.0;
const ANNEAL_COLD: f64 = 10.0;
/// Orders that are tempered side by side, and their temperatures.
const REPLICAS: u32 = 6;
const TEMPER_HOT: f64 = 4000.0;
const TEMPER_COLD: f64 = 150.0;
/// Moves of one order before neighbours may change temperatures.
const SWEEP: u64 = 100;
/// Moves between two questions whether to stop.
const ASK: u64 = 32;
/// What a minute of weighted lateness costs against a minute of a job's end.
const LATE: i64 = 4;
/// What a broken rule costs, by the minute.
const BROKEN: i64 = 1_000_000;

/// A search under way.
pub(super) struct Search<'a, 's> {
    model: &'a Model,
    seed: u64,
    chance: Chance,
    left: u64,
    stop: &'s mut dyn FnMut() -> bool,
    best: Vec<usize>,
    best_cost: Cost,
}

impl<'a, 's> Search<'a, 's> {
    /// A search of so many moves, or until `stop` says so.
    pub(super) fn new(
        model: &'a Model,
        seed: u64,
        moves: u64,
        stop: &'s mut dyn FnMut() -> bool,
    ) -> Self {
        Self {
            model,
            seed,
            chance: Chance::new(seed),
            left: moves,
            stop,
            best: Vec::with_capacity(model.len()),
            best_cost: Cost::WORST,
        }
    }

    /// The best order found and its cost, from `kept` on if there is one.
    pub(super) fn run(mut self, kept: Option<&[usize]>) -> (Vec<usize>, Cost) {
        let mut line_up = LineUp::new(self.model, self.seed);
        if let Some(kept) = kept {
            line_up.set(kept);
            self.note(&line_up);
        }
        if self.model.len() > 0 && self.rules(&mut line_up) && self.anneal(&mut line_up) {
            self.temper();
        }
        (self.best, self.best_cost)
    }

    fn note(&mut self, line_up: &LineUp<'_>) {
        if line_up.now.cost < self.best_cost {
            self.best_cost = line_up.now.cost;
            self.best.clear();
            self.best.extend_from_slice(&line_up.order);
        }
    }

    /// First orders by rules: by latest start with more or less patience, by latest end, then by
    /// latest start with the promises of the best one moved by chance. Whether to go on.
    fn rules(&mut self, line_up: &mut LineUp<'_>) -> bool {
        let jobs = self.model.jobs.len();
        let mut dispatcher = Dispatcher::new(self.model, &line_up.groups);
        let mut urgency = vec![0; self.model.len()];
        let (mut moved, mut best_moved) = (vec![0i64; jobs], vec![0i64; jobs]);
        let mut best = Cost::WORST;
        let patience = [0.0, 1.0, 0.5];
        for turn in 0..RULES.min(4 + self.left / 16) {
            moved.copy_from_slice(&best_moved);
            if turn > 3 {
                for _ in 0..=self.chance.below(2) {
                    let by = i64::try_from(self.chance.below(2 * 4320 + 1)).unwrap_or(SHIFT);
                    moved[self.chance.below(jobs)] += by - SHIFT;
                }
            }
            self.model.latest(&moved, &mut urgency, turn == 3);
            let patience = match usize::try_from(turn) {
                Ok(turn) if turn < patience.len() => patience[turn],
                _ => patience[self.chance.below(patience.len())],
            };
            let LineUp { groups, now, .. } = line_up;
            let order = dispatcher.run(self.model, groups, now, &urgency, patience);
            line_up.set(order);
            if line_up.now.cost <= best {
                best = line_up.now.cost;
                best_moved.copy_from_slice(&moved);
            }
            self.note(line_up);
            if turn % 8 == 7 && (self.stop)() {
                return false;
            }
        }
        true
    }

    /// One annealing from the best order so far. Whether to go on.
    fn anneal(&mut self, line_up: &mut LineUp<'_>) -> bool {
        line_up.set(&self.best);
        line_up.begin_trials();
        let steps = self.model.len() as u64;
        let turns = self.left.min((ANNEAL / steps).max(2000)) / ASK;
        let cool = (ANNEAL_COLD / ANNEAL_HOT).powf(1.0 / turns.max(1) as f64);
        let mut heat = ANNEAL_HOT;
        for _ in 0..turns {
            self.sweep(line_up, ASK, heat);
            heat *= cool;
            if (self.stop)() {
                return false;
            }
        }
        true
    }

    /// Orders side by side at fixed temperatures, which neighbours exchange.
    fn temper(&mut self) {
        let mut replicas = Vec::new();
        let mut heats = Vec::new();
        let ratio = TEMPER_HOT / TEMPER_COLD;
        for number in 0..REPLICAS {
            let mut line_up = LineUp::new(self.model, self.chance.next());
            line_up.set(&self.best);
            line_up.begin_trials();
            replicas.push(line_up);
            let share = f64::from(number) / f64::from(REPLICAS - 1);
            heats.push(TEMPER_COLD * ratio.powf(share));
        }
        let mut parity = 0;
        while self.left > 0 {
            for (line_up, &heat) in replicas.iter_mut().zip(&heats) {
                self.sweep(line_up, SWEEP.min(self.left), heat);
                if (self.stop)() {
                    return;
                }
            }
            for cooler in (parity..replicas.len() - 1).step_by(2) {
                let [a, b] = [cooler, cooler + 1].map(|k| scalar(&replicas[k].now));
                let odds = (a - b) as f64 * (1.0 / heats[cooler] - 1.0 / heats[cooler + 1]);
                if odds >= 0.0 || self.chance.unit() < odds.exp() {
                    replicas.swap(cooler, cooler + 1);
                }
            }
            parity = 1 - parity;
        }
    }

    /// Tries so many moves at a temperature.
    fn sweep(&mut self, line_up: &mut LineUp<'_>, moves: u64, heat: f64) {
        self.left = self.left.saturating_sub(moves);
        let mut current = scalar(&line_up.now);
        for _ in 0..moves {
            let refit = line_up.chance.below(2) == 0;
            let change = if refit {
                line_up.refit()
            } else {
                line_up.shift()
            };
            let Some(changed) = change else {
                continue;
            };
            let reckoned = line_up.try_change(changed);
            let cost = scalar(&line_up.trial);
            let more = cost - current;
            if more <= 0 || (more as f64) < -heat * (1.0 - line_up.chance.unit()).ln() {
                line_up.keep(changed, reckoned);
                current = cost;
                self.note(line_up);
            } else {
                line_up.undo(changed, reckoned);
            }
        }
    }
}

/// What the annealing goes by: the cost in one figure, and the pull.
fn scalar(decoder: &Decoder) -> i64 {
    let Cost { broken, late, ends } = decoder.cost;
    broken
        .saturating_mul(BROKEN)
        .saturating_add(late.saturating_mul(LATE))
        .saturating_add(ends)
        .saturating_add(decoder.pull / SHARE)
        .clamp(i64::MIN / 4, i64::MAX / 4)
}
