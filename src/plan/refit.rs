//! Takes a run of a job, and what is in its way, out of the order and puts each step back where it
//! fits.
//!
//! The gaps are judged by the times before the change, so they are rough; the pass that follows
//! makes them good. After G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt and G. Dueck, "Record
//! breaking optimization results using the ruin and recreate principle", Journal of Computational
//! Physics 159 (2000) 139-171.

use super::calendar::NEVER;
use super::line_up::LineUp;
use super::model::NONE;

/// Most steps that are taken from a job at once, when not all of it goes.
const RUN: usize = 6;
/// How often all that is done in the same time goes, not only runs of some jobs.
const ALL_OF_A_TIME: f64 = 0.25;
/// How often it begins with a job that is late.
const OF_A_LATE_JOB: f64 = 0.5;
/// One gap in so many is passed over.
const BLINKS: usize = 32;
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
        if self.chance.unit() < ALL_OF_A_TIME {
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
        let late = self.now.cost.late;
        if late > 0 && self.chance.unit() < OF_A_LATE_JOB {
            let mut pick =
                i64::try_from(self.chance.below(usize::try_from(late).unwrap_or(1))).unwrap_or(0);
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

    fn gap(&mut self, step: usize, at: i64, before: usize) -> Option<Gap> {
        let model = self.model;
        let (order, starts, ends) = (&self.order, &self.trial.start, &self.trial.end);
        let group = self.groups.of(step);
        let head = &model.steps[group[0]];
        let last = &model.steps[*group.last()?];
        let lag = |member: &usize| {
            let preds = model.preds(*member).iter();
            let lag = preds.filter(|pred| group.contains(&pred.from));
            lag.map(|pred| pred.min).max().unwrap_or(0) + model.steps[*member].work
        };
        let more: i64 = group[1..].iter().map(lag).sum();
        let (dusty, wet) = (head.dust, head.wet.max(last.wet));
        // A gap before a step that has started by then is none.
        let first = order
            .partition_point(|&step| starts[step] <= at)
            .min(before);
        let (mut dust_until, mut wet_until) = (-NEVER, -NEVER);
        let leave = |step: usize, dust_until: &mut i64, wet_until: &mut i64| {
            let row = &model.steps[step];
            if row.room == head.room {
                if row.dust {
                    *dust_until = (*dust_until).max(ends[step] + row.settle);
                }
                if row.wet > 0 {
                    *wet_until = (*wet_until).max(ends[step] + row.wet);
                }
            }
        };
        for place in (0..first).rev() {
            if place + 1 < first && starts[order[place + 1]] + self.air <= at {
                break;
            }
            leave(order[place], &mut dust_until, &mut wet_until);
        }
        if dusty {
            wet_until = wet_until.max(model.wet_until[head.room]);
        }
        if wet > 0 {
            dust_until = dust_until.max(model.dust_until[head.room]);
        }
        let mut best: Option<Gap> = None;
        for place in first..=before {
            let prev = place.checked_sub(1).map(|prev| order[prev]);
            let next_start = order.get(place).map_or(NEVER, |&next| starts[next]);
            let mut from = at.max(prev.map_or(at, |prev| ends[prev]));
            if dusty {
                from = from.max(wet_until);
            }
            if wet > 0 {
                from = from.max(dust_until);
            }
            let at_least = from + head.work + more - next_start;
            if best.as_ref().is_none_or(|best| at_least < best.push) {
                let mut work = head.work + more;
                if head.family != NONE && prev.is_none_or(|p| model.steps[p].family != head.family)
                {
                    work += head.setup;
                }
                if head.windowed {
                    let preds = model.preds(group[0]).iter();
                    let shut = preds.filter(|pred| from - ends[pred.from] > pred.window);
                    work += shut.map(|pred| pred.extra).sum::<i64>();
                }
                let (start, end) = if head.split {
                    model.calendar.fit_split(from, work)
                } else {
                    model.calendar.fit(from, work)
                };
                let mut push = (end - next_start).max(0);
                if push == 0 && (dusty || wet > 0) {
                    let until = end + if dusty { head.settle } else { wet };
                    let clash = order[place..]
                        .iter()
                        .take_while(|&&other| starts[other] < until)
                        .find(|&&other| {
                            let row = &model.steps[other];
                            let meets = (dusty && row.wet > 0) || (wet > 0 && row.dust);
                            row.room == head.room && meets
                        });
                    push = clash.map_or(0, |&other| until - starts[other]);
                }
                // Now and then a gap is passed over.
                let seen = best.is_none() || self.chance.below(BLINKS) > 0;
                if seen && best.as_ref().is_none_or(|best| push < best.push) {
                    let start = start.min(next_start);
                    best = Some(Gap {
                        place,
                        start,
                        end,
                        push,
                    });
                    if push == 0 {
                        break;
                    }
                }
            }
            if let Some(&next) = order.get(place) {
                leave(next, &mut dust_until, &mut wet_until);
            }
        }
        best
    }
}

/// A place in the order, with rough times, and by how much it pushes what follows.
struct Gap {
    place: usize,
    start: i64,
    end: i64,
    push: i64,
}
