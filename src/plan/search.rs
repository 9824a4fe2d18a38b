//! The search for a good order: a first one by rules, then annealing.
//!
//! Simulated annealing after S. Kirkpatrick, C. D. Gelatt and M. P. Vecchi, "Optimization by
//! simulated annealing", Science 220 (1983) 671-680, on the order of the hands.

use super::decode::{Cost, Decoder};
use super::dispatch::Dispatcher;
use super::entry::SearchSettings;
use super::line_up::LineUp;
use super::model::{Model, SHARE};

fn env(name: &str, or: f64) -> f64 {
    std::env::var(name)
        .ok()
        .and_then(|v| v.parse().ok())
        .unwrap_or(or)
}

pub(super) struct Search<'a> {
    model: &'a Model,
    line_up: LineUp<'a>,
    best: Vec<usize>,
    best_cost: Cost,
    lw: i64,
    mu: f64,
    pr: f64,
    tried: u64,
}

impl<'a> Search<'a> {
    pub(super) fn new(model: &'a Model, seed: u64) -> Self {
        Self {
            model,
            line_up: LineUp::new(model, seed),
            best: Vec::with_capacity(model.len()),
            best_cost: Cost::WORST,
            lw: env("LW", 4.0) as i64,
            mu: env("MU", 1.0),
            pr: env("PR", 0.5),
            tried: 0,
        }
    }

    fn scalar(&self, decoder: &Decoder) -> i64 {
        let cost = decoder.cost;
        cost.broken
            .saturating_mul(1_000_000)
            .saturating_add(cost.late.saturating_mul(self.lw))
            .saturating_add(cost.ends)
            .saturating_add((decoder.pull as f64 * self.mu) as i64 / SHARE)
    }

    fn note(&mut self) {
        if self.line_up.now.cost < self.best_cost {
            self.best_cost = self.line_up.now.cost;
            self.best.clear();
            self.best.extend_from_slice(&self.line_up.order);
        }
    }

    /// First orders by rules, promises moved by chance.
    fn construct(&mut self, tries: usize, stop: &mut dyn FnMut() -> bool) {
        let jobs = self.model.jobs.len();
        let mut dispatcher = Dispatcher::new(self.model, &self.line_up.groups);
        let mut urgency = vec![0; self.model.len()];
        let mut offset = vec![0i64; jobs];
        let mut best_offset = offset.clone();
        let mut best = Cost::WORST;
        for turn in 0..tries {
            offset.copy_from_slice(&best_offset);
            if turn > 3 {
                for _ in 0..=self.line_up.chance.below(2) {
                    let job = self.line_up.chance.below(jobs);
                    offset[job] += (self.line_up.chance.below(8641) as i64) - 4320;
                }
            }
            self.model.latest(&offset, &mut urgency, turn == 3);
            let patience = [0.0, 1.0, 0.5][if turn < 3 {
                turn
            } else {
                self.line_up.chance.below(3)
            }];
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

    /// Annealing over `rounds` moves from the temperature `hot` down to `cold`.
    fn anneal(&mut self, rounds: u64, hot: f64, cold: f64, stop: &mut dyn FnMut() -> bool) -> bool {
        let mut heat = hot;
        let every = 64;
        let cool = (cold / hot).powf(every as f64 / rounds.max(1) as f64);
        let mut current = self.scalar(&self.line_up.now);
        for round in 0..rounds {
            if round % every == every - 1 {
                heat *= cool;
                if stop() {
                    return false;
                }
            }
            let moved = if self.line_up.chance.unit() < self.pr {
                self.line_up.refit()
            } else {
                self.line_up.shift()
            };
            let Some(changed) = moved else {
                continue;
            };
            self.tried += 1;
            let reckoned = self.line_up.try_change(changed);
            let cost = self.scalar(&self.line_up.trial);
            let more = cost - current;
            let take = more <= 0 || (more as f64) < -heat * (1.0 - self.line_up.chance.unit()).ln();
            if take {
                self.line_up.keep(changed, reckoned);
                current = cost;
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
        self.construct(env("TRIES", 50.0) as usize, stop);
        if std::env::var("V").is_ok() {
            eprintln!("constructed {:?}", self.best_cost);
        }
        let mut rounds = env("R0", 20000.0) as u64;
        let mut left = settings.iterations;
        while left > 0 {
            let best = std::mem::take(&mut self.best);
            self.line_up.set(&best);
            self.best = best;
            assert_eq!(self.line_up.now.cost, self.best_cost);
            self.line_up.begin_trials();
            let now = rounds.min(left);
            if !self.anneal(now, env("HOT", 2000.0), env("COLD", 5.0), stop) {
                break;
            }
            left -= now;
            if std::env::var("V").is_ok() {
                eprintln!("{rounds} {:?} evals {}", self.best_cost, self.tried);
            }
            rounds = (rounds as f64 * env("GROW", 1.5)) as u64;
        }
        if std::env::var("V").is_ok() {
            eprintln!("tried {}", self.tried);
        }
        let worth_it = (self.best_cost.broken, self.best_cost.late)
            < (kept_cost.broken, kept_cost.late)
            || self.best_cost.ends < kept_cost.ends - settings.worth.0;
        match kept {
            Some(kept) if !worth_it => kept.to_vec(),
            _ => self.best.clone(),
        }
    }
}
