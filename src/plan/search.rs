//! The search for a good order: a first one by rules, then annealing.
//!
//! Simulated annealing after Kirkpatrick, Gelatt and Vecchi, "Optimization by simulated annealing",
//! Science 220 (1983) 671-680, on the worker's order, with steps taken out and put in elsewhere.

use super::calendar::NEVER;
use super::decode::{Cost, Decoder};
use super::dispatch::Dispatcher;
use super::entry::SearchSettings;
use super::model::Model;
use super::rng::Chance;

fn env(name: &str, or: f64) -> f64 {
    std::env::var(name)
        .ok()
        .and_then(|v| v.parse().ok())
        .unwrap_or(or)
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
    nu: f64,
    old: Vec<usize>,
    out: Vec<(i64, usize)>,
    is_out: Vec<bool>,
    job_key: Vec<i64>,
    lmax: usize,
    wh: f64,
    pr: f64,
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
            nu: env("NU", 4.0),
            old: Vec::with_capacity(n),
            out: Vec::with_capacity(n),
            is_out: vec![false; n],
            job_key: vec![0; model.jobs.len()],
            wh: env("WH", 0.25),
            lmax: env("LM", 6.0) as usize,
            pr: env("PR", 0.3),
        }
    }

    fn scalar(&self, decoder: &Decoder) -> i64 {
        let cost = decoder.cost;
        cost.broken
            .saturating_mul(1_000_000)
            .saturating_add(cost.late.saturating_mul(self.late_weight))
            .saturating_add(cost.ends)
            .saturating_add((decoder.smooth as f64 * self.mu) as i64)
            .saturating_add((decoder.slip as f64 * self.nu) as i64)
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
            let order = self
                .dispatcher
                .run(self.model, &mut self.now, &urgency, patience);
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
        let (low, high) = (
            low.max(first.saturating_sub(reach)),
            high.min(first + size + reach),
        );
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

    /// Takes some steps out and puts each back where it fits.
    fn ruin(&mut self) -> Option<(usize, usize)> {
        let n = self.order.len();
        self.old.clear();
        self.old.extend_from_slice(&self.order);
        self.out.clear();
        self.is_out.fill(false);
        // What goes: a run of one job, and what other jobs have in the same time.
        let seed = self.order[self.chance.below(n)];
        let job = self.model.steps[seed].job;
        let row = &self.model.by_job[job];
        let at = row.iter().position(|&step| step == seed)?;
        let len = match self.chance.below(4) {
            0 => row.len(),
            1 => 12,
            _ => 1 + self.chance.below(self.lmax),
        };
        let (mut from, mut to) = (n, 0);
        let mut picks: usize = 0;
        for &step in row[at..].iter().take(len) {
            for &member in self.dispatcher.group(step) {
                if !self.is_out[member] {
                    self.is_out[member] = true;
                    from = from.min(self.place_of[member]);
                    to = to.max(self.place_of[member]);
                    picks += 1;
                }
            }
        }
        let others = self.chance.below(4);
        let jobs = self.model.jobs.len();
        let from = from.saturating_sub(self.chance.below(8));
        let to = (to + self.chance.below(8)).min(n - 1);
        let span = to - from + 1;
        let whole = self.chance.unit() < self.wh;
        if whole {
            for k in from..=to {
                for &member in self.dispatcher.group(self.order[k]) {
                    self.is_out[member] = true;
                }
            }
        }
        for _ in 0..if whole { 0 } else { others } {
            let other = self.model.steps[self.order[from + self.chance.below(span)]].job;
            let _ = jobs;
            let most = 1 + self.chance.below(self.lmax);
            let mut took = 0;
            let skip = self.chance.below(2) * self.chance.below(span);
            for k in from + skip..=to {
                let step = self.order[k];
                if self.model.steps[step].job == other && !self.is_out[step] && took < most {
                    for &member in self.dispatcher.group(step) {
                        if !self.is_out[member] {
                            self.is_out[member] = true;
                            took += 1;
                            picks += 1;
                        }
                    }
                }
            }
        }
        if picks == 0 {
            return None;
        }
        // In which order they come back: by where they were, jobs sooner or later by chance.
        for key in &mut self.job_key {
            *key = self.chance.below(40) as i64;
        }
        if whole {
            self.job_key[job] = -1_000_000;
        }
        let mode = if whole {
            self.chance.below(4)
        } else {
            self.chance.below(3)
        };
        for k in 0..n {
            let step = self.old[k];
            if self.is_out[step] {
                let key = self.job_key[self.model.steps[step].job];
                let key = match mode {
                    0 => key * 100_000 + k as i64,
                    1 => key + k as i64,
                    2 => key / 4 + k as i64,
                    _ => {
                        if key < 0 {
                            key + k as i64
                        } else {
                            k as i64
                        }
                    }
                };
                self.out.push((key, step));
            }
        }
        self.out.sort_unstable();
        let is_out = &self.is_out;
        let mut good = true;
        self.order.retain(|&step| !is_out[step]);
        for k in 0..self.out.len() {
            let step = self.out[k].1;
            if self.dispatcher.group(step).last() == Some(&step) && !self.insert(step) {
                good = false;
                break;
            }
        }
        for k in 0..self.out.len() {
            let step = self.out[k].1;
            self.trial.start[step] = self.now.start[step];
            self.trial.end[step] = self.now.end[step];
        }
        if !good {
            self.order.clear();
            self.order.extend_from_slice(&self.old);
            return None;
        }
        let first = (0..n).find(|&k| self.order[k] != self.old[k])?;
        let last = (first..n).rev().find(|&k| self.order[k] != self.old[k])? + 1;
        self.scratch.clear();
        self.scratch.extend_from_slice(&self.old[first..last]);
        for k in first..last {
            self.place_of[self.order[k]] = k;
        }
        Some((first, last))
    }

    /// Puts a step (with what is tied to it) where it fits, by the times as they stand.
    fn insert(&mut self, step: usize) -> bool {
        let model = self.model;
        let group = self.dispatcher.group(step);
        let head = group[0];
        let row = &model.steps[head];
        let n_all = model.len();
        let mut at = row.release;
        let mut waits = 0; // preds that are still in the order ahead
        for &member in group {
            for pred in model.preds(member) {
                if group.contains(&pred.from) {
                    continue;
                }
                at = at.max(self.trial.end[pred.from] + pred.min);
                if pred.from < n_all {
                    if self.is_out[pred.from] {
                        return false;
                    }
                    waits += 1;
                }
            }
        }
        let mut work: i64 = row.work;
        let mut tail_work = 0;
        for &member in &group[1..] {
            let lag = model
                .preds(member)
                .iter()
                .find(|p| group.contains(&p.from))
                .map_or(0, |p| p.min);
            tail_work += lag + model.steps[member].work;
        }
        let (mut dust_until, mut wet_until) =
            (model.dust_until[row.room], model.wet_until[row.room]);
        let last = *group.last().unwrap_or(&step);
        let last_row = &model.steps[last];
        work += 0;
        let mut best = (i64::MAX, self.order.len(), 0i64, 0i64);
        let mut prev = usize::MAX;
        let len = self.order.len();
        let mut k = 0;
        loop {
            // a spot before position k, after prev
            let next = if k < len { self.order[k] } else { usize::MAX };
            if waits == 0 {
                let next_start = if k < len {
                    self.trial.start[next]
                } else {
                    NEVER
                };
                let mut t = at;
                if prev != usize::MAX {
                    t = t.max(self.trial.end[prev]);
                }
                if t < next_start || best.0 == i64::MAX {
                    if row.dust {
                        t = t.max(wet_until);
                    }
                    if last_row.wet > 0 || row.wet > 0 {
                        t = t.max(dust_until);
                    }
                    let setup = if row.family != super::model::NONE
                        && (prev == usize::MAX || model.steps[prev].family != row.family)
                    {
                        row.setup
                    } else {
                        0
                    };
                    let mut w = work + setup;
                    if row.windowed {
                        for pred in model.preds(head) {
                            if t - self.trial.end[pred.from] > pred.window {
                                w += pred.extra;
                            }
                        }
                    }
                    let (s, e) = if row.split {
                        model.calendar.fit_split(t, w)
                    } else {
                        model.calendar.fit(t, w + tail_work)
                    };
                    let mut push = (e - next_start).max(0);
                    if push == 0 && (row.dust || last_row.wet > 0) {
                        let until = if row.dust {
                            e + row.settle
                        } else {
                            e + last_row.wet
                        };
                        let mut j = k;
                        while j < len {
                            let o = self.order[j];
                            if self.trial.start[o] >= until {
                                break;
                            }
                            let orow = &model.steps[o];
                            if orow.room == row.room
                                && ((row.dust && orow.wet > 0) || (last_row.wet > 0 && orow.dust))
                            {
                                push = until - self.trial.start[o];
                                break;
                            }
                            j += 1;
                        }
                    }
                    let blink = self.chance.next() & 31 == 0;
                    if !blink || best.0 == i64::MAX {
                        if push < best.0 {
                            best = (push, k, s, e);
                        }
                        if push == 0 {
                            break;
                        }
                    }
                }
            }
            if k >= len {
                break;
            }
            // may not go past one that waits for it
            if model.preds(next).iter().any(|p| group.contains(&p.from)) {
                break;
            }
            if waits > 0 {
                for &member in group {
                    for pred in model.preds(member) {
                        if pred.from == next {
                            waits -= 1;
                        }
                    }
                }
            }
            let nrow = &model.steps[next];
            if nrow.room == row.room {
                if nrow.dust {
                    dust_until = dust_until.max(self.trial.end[next] + nrow.settle);
                }
                if nrow.wet > 0 {
                    wet_until = wet_until.max(self.trial.end[next] + nrow.wet);
                }
            }
            prev = next;
            k += 1;
        }
        let (push, k, s, e) = best;
        if push == i64::MAX {
            return false;
        }
        // Rough times: the pass that follows makes them good.
        for (j, &member) in group.iter().enumerate() {
            self.order.insert(k + j, member);
            self.is_out[member] = false;
            self.trial.start[member] = s;
            self.trial.end[member] = e;
        }
        true
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
            let ruin = self.chance.unit() < self.pr;
            let moved = if ruin { self.ruin() } else { self.propose() };
            let Some((from, to)) = moved else {
                continue;
            };
            self.evals += 1;
            let start = self.safe[from];
            self.trial
                .pass(self.model, &self.order, &self.place_of, start);
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

    pub(super) fn keyed(
        &mut self,
        rounds: u64,
        hot: f64,
        cold: f64,
        stop: &mut dyn FnMut() -> bool,
    ) -> bool {
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
            if round % every == every - 1 {
                heat *= cool;
                if stop() {
                    return false;
                }
            }
            urg2.copy_from_slice(&urgency);
            let mut pat2 = patience;
            let scale = [30usize, 200, 1000, 3000][self.chance.below(4)];
            let by = self.chance.below(2 * scale + 1) as i64 - scale as i64;
            match self.chance.below(8) {
                0 => {
                    let j = self.chance.below(jobs);
                    for &s in &self.model.by_job[j] {
                        urg2[s] += by;
                    }
                }
                1 => {
                    let s = self.chance.below(n);
                    let j = self.model.steps[s].job;
                    let row = &self.model.by_job[j];
                    let at = row.iter().position(|&x| x == s).unwrap();
                    for &s in &row[at..] {
                        urg2[s] += by;
                    }
                }
                2 => {
                    let s = self.chance.below(n);
                    let j = self.model.steps[s].job;
                    let row = &self.model.by_job[j];
                    let at = row.iter().position(|&x| x == s).unwrap();
                    for &s in &row[..at] {
                        urg2[s] += by;
                    }
                }
                3 if self.chance.below(4) == 0 => {
                    pat2 = self.chance.unit();
                }
                _ => {
                    let s = self.chance.below(n);
                    urg2[s] += by;
                }
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
        let mut latest = vec![0; self.model.len()];
        self.latest(&vec![0; self.model.jobs.len()], &mut latest);
        self.now.latest = latest.clone();
        self.trial.latest = latest;
        let mut kept_cost = Cost::WORST;
        if let Some(kept) = kept {
            self.order.clear();
            self.order.extend_from_slice(kept);
            self.renew();
            self.now.pass(self.model, &self.order, &self.place_of, 0);
            kept_cost = self.now.cost;
            self.note();
        }
        self.construct(env("TRIES", 50.0) as usize, stop);
        if std::env::var("V").is_ok() {
            eprintln!("constructed {:?}", self.best_cost);
        }
        let mut rounds = env("R0", 20000.0) as u64;
        let mut left = settings.iterations;
        while left > 0 {
            self.back_to_best();
            let now = rounds.min(left);
            if !self.anneal(now, env("HOT", 2000.0), env("COLD", 5.0), stop) {
                break;
            }
            left -= now;
            if std::env::var("V").is_ok() {
                eprintln!("{rounds} {:?} evals {}", self.best_cost, self.evals);
            }
            rounds = (rounds as f64 * env("GROW", 1.5)) as u64;
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
