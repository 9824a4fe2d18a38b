//! Takes a run of a job, and what is in its way, out of the order and puts each step back where it
//! fits.
//!
//! The gaps are judged by the times before the change, so they are rough; the pass that follows
//! makes them good. After G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt and G. Dueck, "Record
//! breaking optimization results using the ruin and recreate principle", Journal of Computational
//! Physics 159 (2000) 139-171.

use super::line_up::LineUp;

/// Most steps that are taken from a job at once, when not all of it goes.
const RUN: usize = 6;
/// A job before all others.
const FIRST: i64 = -1_000_000;

impl LineUp<'_> {
    /// Takes steps out and puts them back. Gives from which position on up to which the order has
    /// changed.
    pub(super) fn refit(&mut self) -> Option<(usize, usize)> {
        let job = self.take_out()?;
        self.order_of_return(job);
        let is_out = &self.is_out;
        self.order.retain(|&step| !is_out[step]);
        let mut fits = true;
        for k in 0..self.out.len() {
            let step = self.out[k].1;
            // A group comes back with its last step, when all that it waits for is there.
            if fits && self.groups.of(step).last() == Some(&step) {
                fits = self.put_in(step);
            }
        }
        for k in 0..self.out.len() {
            let step = self.out[k].1;
            self.is_out[step] = false;
            self.trial.start[step] = self.now.start[step];
            self.trial.end[step] = self.now.end[step];
        }
        if !fits {
            self.order.clear();
            self.order.extend_from_slice(&self.old);
            return None;
        }
        let differs = |&place: &usize| self.order[place] != self.old[place];
        let from = (0..self.order.len()).find(differs)?;
        let to = (from..self.order.len()).rev().find(differs)? + 1;
        self.renew_places(from, to);
        Some((from, to))
    }

    /// Chooses what goes: a run of one job, and some or all of what is done in the same time.
    fn take_out(&mut self) -> Option<usize> {
        let n = self.order.len();
        let seed = self.seed_step();
        let job = self.model.steps[seed].job;
        let row = &self.model.by_job[job];
        let at = row.iter().position(|&step| step == seed)?;
        let run = match self.chance.below(4) {
            0 => row.len(),
            1 => 2 * RUN,
            _ => 1 + self.chance.below(RUN),
        };
        let (mut from, mut to) = (n, 0);
        for &step in row[at..].iter().take(run) {
            for &member in self.groups.of(step) {
                self.is_out[member] = true;
                from = from.min(self.place_of[member]);
                to = to.max(self.place_of[member]);
            }
        }
        let from = from.saturating_sub(self.chance.below(8));
        let to = (to + self.chance.below(8)).min(n - 1);
        if self.chance.below(4) == 0 {
            for place in from..=to {
                for &member in self.groups.of(self.order[place]) {
                    self.is_out[member] = true;
                }
            }
        } else {
            self.take_others(from, to);
        }
        Some(job)
    }

    /// A step to begin with: any, or one of a late job, the later the likelier.
    fn seed_step(&mut self) -> usize {
        let late = usize::try_from(self.now.cost.late).unwrap_or(0);
        if late > 0 && self.chance.below(10) < 7 {
            let mut pick = i64::try_from(self.chance.below(late)).unwrap_or(0);
            for (number, job) in self.model.jobs.iter().enumerate() {
                pick -= job.late(self.now.job_ends()[number]);
                let row = &self.model.by_job[number];
                if pick < 0 && !row.is_empty() {
                    return row[self.chance.below(row.len())];
                }
            }
        }
        self.order[self.chance.below(self.order.len())]
    }

    /// Up to three runs of jobs that have steps in `from..=to`.
    fn take_others(&mut self, from: usize, to: usize) {
        let span = to - from + 1;
        for _ in 0..self.chance.below(4) {
            let job = self.model.steps[self.order[from + self.chance.below(span)]].job;
            let mut left = 1 + self.chance.below(RUN);
            let skip = self.chance.below(2) * self.chance.below(span);
            for place in from + skip..=to {
                let step = self.order[place];
                if left > 0 && self.model.steps[step].job == job && !self.is_out[step] {
                    for &member in self.groups.of(step) {
                        self.is_out[member] = true;
                    }
                    left -= 1;
                }
            }
        }
    }

    /// In which order they come back: by where they stood, some jobs sooner than others.
    fn order_of_return(&mut self, first: usize) {
        for key in &mut self.job_key {
            *key = i64::try_from(self.chance.below(40)).unwrap_or(0);
        }
        let way = self.chance.below(4);
        if way > 0 {
            self.job_key[first] = FIRST;
        }
        self.out.clear();
        for (place, &step) in self.old.iter().enumerate() {
            if self.is_out[step] {
                let key = self.job_key[self.model.steps[step].job];
                let place = i64::try_from(place).unwrap_or(0);
                let key = match way {
                    1 => key * 100_000 + place,
                    2 if key != FIRST => place,
                    3 if key != FIRST => key / 4 + place,
                    _ => key + place,
                };
                self.out.push((key, step));
            }
        }
        self.out.sort_unstable();
    }

    /// Puts a group in at the first gap that holds it, or where it pushes least. Not done, with
    /// `false`, when what it waits for is out still.
    fn put_in(&mut self, step: usize) -> bool {
        let Some((at, push_to)) = self.first_place(step) else {
            return false;
        };
        let Some(gap) = self.gap(step, at, push_to) else {
            return false;
        };
        let group = self.groups.of(step);
        for (k, &member) in group.iter().enumerate() {
            self.order.insert(gap.place + k, member);
            self.is_out[member] = false;
            self.trial.start[member] = gap.start;
            self.trial.end[member] = gap.end;
        }
        true
    }

    /// Where a step stands in the order that is being put together, by its rough start.
    fn rough_place(&self, step: usize) -> Option<usize> {
        let start = self.trial.start[step];
        let starts = |&other: &usize| self.trial.start[other] < start;
        let near = self.order.partition_point(starts);
        let rest = self.order[near..].iter().position(|&other| other == step)?;
        Some(near + rest)
    }

    /// From when on the group may start, and the position it must stand before.
    fn first_place(&self, step: usize) -> Option<(i64, usize)> {
        let model = self.model;
        let group = self.groups.of(step);
        let mut at = model.steps[group[0]].release;
        let mut before = self.order.len();
        for &member in group {
            for &next in model.succs(member) {
                if !self.is_out[next] {
                    before = before.min(self.rough_place(next)?);
                }
            }
        }
        for &member in group {
            for pred in model.preds(member) {
                if group.contains(&pred.from) {
                    continue;
                }
                at = at.max(self.trial.end[pred.from] + pred.min);
                if pred.from >= model.len() {
                    continue;
                }
                // What it waits for may have come back behind what waits for it.
                let out = self.is_out[pred.from];
                if out || (before < self.order.len() && self.rough_place(pred.from)? >= before) {
                    return None;
                }
            }
        }
        Some((at, before))
    }
}
