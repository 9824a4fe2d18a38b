//! The search for a good order: a first one by rules, then annealing.
//!
//! Simulated annealing after Kirkpatrick, Gelatt and Vecchi, "Optimization by simulated annealing",
//! Science 220 (1983) 671-680, on the worker's order, with steps taken out and put in elsewhere.

use super::calendar::NEVER;
use super::decode::{Cost, Decoder};
use super::dispatch::Dispatcher;
use super::model::Model;
use super::rng::Chance;

/// How the search is let run.
pub(super) struct Limits<'a> {
    pub(super) seed: u64,
    pub(super) iterations: u64,
    pub(super) stop: &'a mut dyn FnMut() -> bool,
}

fn env(name: &str, or: f64) -> f64 {
    std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(or)
}

pub(super) struct Search<'a> {
    model: &'a Model,
    dispatcher: Dispatcher,
    chance: Chance,
    order: Vec<usize>,
    place_of: Vec<usize>,
    /// From where a pass must begin when position `k` changes: no longest lag spans it.
    safe: Vec<usize>,
    now: Decoder,
    trial: Decoder,
    best: Vec<usize>,
    pub(super) best_cost: Cost,
    scratch: Vec<usize>,
    pub(super) evals: u64,
    late_weight: i64,
    mu: f64,
}

impl<'a> Search<'a> {
    pub(super) fn new(model: &'a Model, seed: u64) -> Self {
        let n = model.len();
        Self {
            model,
            dispatcher: Dispatcher::new(model),
            chance: Chance::new(seed),
            order: Vec::with_capacity(n),
            place_of: vec![0; n],
            safe: vec![0; n + 1],
            now: Decoder::new(model),
            trial: Decoder::new(model),
            best: Vec::with_capacity(n),
            best_cost: Cost::WORST,
            scratch: Vec::with_capacity(n),
            evals: 0,
            late_weight: env("LW", 4.0) as i64,
            mu: env("MU", 1.0),
        }
    }

    fn scalar(&self, decoder: &Decoder) -> i64 {
        let cost = decoder.cost;
        cost.broken
            .saturating_mul(1_000_000)
            .saturating_add(cost.late.saturating_mul(self.late_weight))
            .saturating_add(cost.ends)
            .saturating_add((decoder.smooth as f64 * self.mu) as i64)
    }

    /// Latest starts that keep promises moved by `offset` of each job.
    fn latest(&self, offset: &[i64], urgency: &mut [i64]) {
        let model = self.model;
        let mut finish = vec![NEVER; model.len()];
        for &step in model.topological.iter().rev() {
            let row = &model.steps[step];
            let by = finish[step].min(model.jobs[row.job].due + offset[row.job]);
            let start = model.calendar.fit_before(by, row.work, row.split);
            urgency[step] = start;
            for pred in model.preds(step) {
                if pred.from < model.len() {
                    finish[pred.from] = finish[pred.from].min(start - pred.min);
                }
            }
        }
    }

    fn renew(&mut self) {
        for (k, &step) in self.order.iter().enumerate() {
            self.place_of[step] = k;
        }
        self.renew_safe(0);
    }

    fn renew_safe(&mut self, from: usize) {
        let mut open = 0usize;
        let mut since = from;
        for k in from..self.order.len() {
            let row = &self.model.steps[self.order[k]];
            if open == 0 {
                since = k;
            }
            self.safe[k] = since;
            open += row.binds;
            if row.bound {
                for pred in self.model.preds(self.order[k]) {
                    if pred.max < NEVER && pred.from < self.model.len() {
                        open = open.saturating_sub(1);
                    }
                }
            }
        }
    }

    fn note(&mut self) {
        if self.now.cost < self.best_cost {
            self.best_cost = self.now.cost;
            self.best.clear();
            self.best.extend_from_slice(&self.order);
        }
    }

    /// First orders by rules.
    pub(super) fn construct(&mut self, tries: usize, stop: &mut dyn FnMut() -> bool) {
        let jobs = self.model.jobs.len();
        let mut urgency = vec![0; self.model.len()];
        let mut offset = vec![0i64; jobs];
        let mut best_offset = offset.clone();
        let mut best = Cost::WORST;
        for turn in 0..tries {
            offset.copy_from_slice(&best_offset);
            if turn > 0 {
                for _ in 0..=self.chance.below(2) {
                    let job = self.chance.below(jobs);
                    offset[job] += (self.chance.below(8641) as i64) - 4320;
                }
            }
            self.latest(&offset, &mut urgency);
            let patience = [0.0, 1.0, 0.5][if turn < 3 { turn } else { self.chance.below(3) }];
            let order = self.dispatcher.run(self.model, &mut self.now, &urgency, patience);
            self.order.clear();
            self.order.extend_from_slice(order);
            self.renew();
            self.now.pass(self.model, &self.order, &self.place_of, 0);
            self.evals += 1;
            if self.now.cost <= best {
                best = self.now.cost;
                best_offset.copy_from_slice(&offset);
            }
            self.note();
            if turn % 8 == 7 && stop() {
                break;
            }
        }
    }

    fn back_to_best(&mut self) {
        self.order.clear();
        let best = std::mem::take(&mut self.best);
        self.order.extend_from_slice(&best);
        self.best = best;
        self.renew();
        self.now.pass(self.model, &self.order, &self.place_of, 0);
        self.trial = self.now.clone();
    }

    /// Where a group may go: after the last step it waits for, before the first that waits for it.
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

    /// Moves a step somewhere else; from which position on things changed, and up to which.
    fn propose(&mut self) -> Option<(usize, usize)> {
        let n = self.order.len();
        let step = self.order[self.chance.below(n)];
        let group = self.dispatcher.group(step);
        let single = [step];
        let group: &[usize] = if group.len() > 1 && self.chance.below(8) > 0 {
            group
        } else {
            &single
        };
        let (low, high) = self.range(group);
        let first = group.iter().map(|&s| self.place_of[s]).min()?;
        let size = group.len();
        if high < low + size {
            return None;
        }
        // Places before which the group can go, counted in the order as it stands.
        let reach = match self.chance.below(4) {
            0 => n,
            1 => 16,
            _ => 5,
        };
        let (low, high) = (low.max(first.saturating_sub(reach)), high.min(first + size + reach));
        if high <= low {
            return None;
        }
        let target = low + self.chance.below(high - low + 1);
        if target >= first && target <= first + size {
            return None;
        }
        let from = first.min(target);
        let last = group.iter().map(|&s| self.place_of[s]).max()?;
        let to = (last + 1).max(target);
        self.scratch.clear();
        self.scratch.extend_from_slice(&self.order[from..to]);
        // Rebuild from..to with the group at `target`.
        let mut at = from;
        let mut put = false;
        for (k, &other) in self.scratch.iter().enumerate() {
            if from + k == target {
                for &member in group {
                    self.order[at] = member;
                    at += 1;
                }
                put = true;
            }
            if !group.contains(&other) {
                self.order[at] = other;
                at += 1;
            }
        }
        if !put {
            for &member in group {
                self.order[at] = member;
                at += 1;
            }
        }
        for k in from..to {
            self.place_of[self.order[k]] = k;
        }
        Some((from, to))
    }

    fn undo(&mut self, from: usize, to: usize) {
        self.order[from..to].copy_from_slice(&self.scratch);
        for k in from..to {
            self.place_of[self.order[k]] = k;
        }
    }

    /// Annealing over `rounds` moves from the temperature `hot` down to `cold`.
    pub(super) fn anneal(
        &mut self,
        rounds: u64,
        hot: f64,
        cold: f64,
        stop: &mut dyn FnMut() -> bool,
    ) -> bool {
        let mut heat = hot;
        let every = 64;
        let cool = (cold / hot).powf(every as f64 / rounds.max(1) as f64);
        let mut current = self.scalar(&self.now);
        for round in 0..rounds {
            if round % every == every - 1 {
                heat *= cool;
                if stop() {
                    return false;
                }
            }
            let Some((from, to)) = self.propose() else {
                continue;
            };
            self.evals += 1;
            let start = self.safe[from];
            self.trial.pass(self.model, &self.order, &self.place_of, start);
            let cost = self.scalar(&self.trial);
            let more = cost - current;
            let take = more <= 0 || (more as f64) < -heat * (1.0 - self.chance.unit()).ln();
            if take {
                self.now.take(&self.trial, &self.order, start);
                self.renew_safe(start);
                current = cost;
                self.note();
            } else {
                self.undo(from, to);
                self.trial.take(&self.now, &self.order, start);
            }
        }
        true
    }

    pub(super) fn keyed(&mut self, rounds: u64, hot: f64, cold: f64, stop: &mut dyn FnMut() -> bool) -> bool {
        let n = self.model.len();
        let jobs = self.model.jobs.len();
        let mut urgency = vec![0; n];
        self.latest(&vec![0; jobs], &mut urgency);
        let mut urg2 = urgency.clone();
        let mut patience = 0.5f64;
        let mut current = i64::MAX;
        let mut heat = hot;
        let every = 16;
        let cool = (cold / hot).powf(every as f64 / rounds.max(1) as f64);
        for round in 0..rounds {
            if round % every == every - 1 { heat *= cool; if stop() { return false; } }
            urg2.copy_from_slice(&urgency);
            let mut pat2 = patience;
            let scale = [30usize, 200, 1000, 3000][self.chance.below(4)];
            let by = self.chance.below(2 * scale + 1) as i64 - scale as i64;
            match self.chance.below(8) {
                0 => { let j = self.chance.below(jobs); for &s in &self.model.by_job[j] { urg2[s] += by; } }
                1 => { let s = self.chance.below(n); let j = self.model.steps[s].job; let row = &self.model.by_job[j]; let at = row.iter().position(|&x| x == s).unwrap(); for &s in &row[at..] { urg2[s] += by; } }
                2 => { let s = self.chance.below(n); let j = self.model.steps[s].job; let row = &self.model.by_job[j]; let at = row.iter().position(|&x| x == s).unwrap(); for &s in &row[..at] { urg2[s] += by; } }
                3 if self.chance.below(4) == 0 => { pat2 = self.chance.unit(); }
                _ => { let s = self.chance.below(n); urg2[s] += by; }
            }
            let order = self.dispatcher.run(self.model, &mut self.now, &urg2, pat2);
            self.order.clear();
            self.order.extend_from_slice(order);
            self.renew();
            self.now.pass(self.model, &self.order, &self.place_of, 0);
            self.evals += 1;
            let cost = self.scalar(&self.now);
            let more = cost.saturating_sub(current);
            if more <= 0 || (more as f64) < -heat * (1.0 - self.chance.unit()).ln() {
                current = cost;
                std::mem::swap(&mut urgency, &mut urg2);
                patience = pat2;
            }
            self.note();
        }
        true
    }

    pub(super) fn run(&mut self, limits: &mut Limits<'_>) {
        if self.model.len() == 0 {
            self.now.pass(self.model, &self.order, &self.place_of, 0);
            self.note();
            return;
        }
        self.construct(env("TRIES", 50.0) as usize, limits.stop);
        if std::env::var("V").is_ok() { eprintln!("constructed {:?}", self.best_cost); }
        let kr = env("KR", 0.0) as u64;
        if kr > 0 { self.keyed(kr, env("KH", 8000.0), env("KC", 50.0), limits.stop); 
            if std::env::var("V").is_ok() { eprintln!("keyed {:?} evals {}", self.best_cost, self.evals); }
        }
        let mut rounds = env("R0", 20000.0) as u64;
        loop {
            self.back_to_best();
            if !self.anneal(rounds, env("HOT", 2000.0), env("COLD", 5.0), limits.stop) {
                break;
            }
            if std::env::var("V").is_ok() { eprintln!("{rounds} {:?} evals {}", self.best_cost, self.evals); }
            rounds = (rounds as f64 * env("GROW", 1.5)) as u64;
            if self.evals > limits.iterations { break; }
        }
    }

    pub(super) fn best(&self) -> &[usize] {
        &self.best
    }
}

/// For measuring only.
pub fn raw(instance: &super::Instance, seed: u64, stop: &mut dyn FnMut() -> bool) -> (i64, i64, i64, u64, Vec<(i64,i64)>) {
    let model = Model::new(instance).expect("good");
    let mut search = Search::new(&model, seed);
    search.run(&mut Limits { seed, iterations: u64::MAX, stop });
    search.back_to_best();
    let c = search.best_cost;
    let starts = (0..model.len()).map(|k| (model.ids[k].0, search.now.start[k])).collect();
    (c.broken, c.late, c.ends, search.evals, starts)
}
