//! An instance made ready for the decoder: whole numbers in rows, names turned into indexes.

use super::calendar::{Calendar, NEVER};
use super::instance::{Instance, Op, OpId};
use super::instance_check::InstanceError;
use super::model_parts::{Arcs, Rooms};
use std::collections::HashMap;

/// No family, no rack.
pub(super) const NONE: usize = usize::MAX;

/// What binds a step to one before it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pred {
    pub(super) from: usize,
    pub(super) min: i64,
    pub(super) max: i64,
    pub(super) window: i64,
    pub(super) extra: i64,
}

/// A step that is still to do.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub(super) work: i64,
    pub(super) release: i64,
    pub(super) settle: i64,
    pub(super) wet: i64,
    pub(super) hold: i64,
    pub(super) setup: i64,
    pub(super) keep: i64,
    pub(super) family: usize,
    pub(super) room: usize,
    /// Where the places of its rack begin, and how many they are; none is [`NONE`].
    pub(super) rack: usize,
    pub(super) places: usize,
    pub(super) job: usize,
    pub(super) split: bool,
    pub(super) dust: bool,
    /// How many arcs into it have a window.
    pub(super) windows: usize,
    /// How many arcs into it have a longest lag.
    pub(super) bounds: usize,
    /// How many steps still to do must start soon after it.
    pub(super) binds: usize,
    pub(super) pred: (usize, usize),
    pub(super) succ: (usize, usize),
    /// What it weighs in the pull of the search, in [`SHARE`] parts of its job's weight.
    pub(super) share: i64,
    /// Its latest start that keeps the promise of its job, by lags and bench hours alone.
    pub(super) latest: i64,
    /// Whether no other step of its job waits for it.
    pub(super) last: bool,
}

/// What a step that is done left in its room.
#[derive(Debug, Clone, Copy)]
pub(super) struct Left {
    pub(super) room: usize,
    pub(super) dust: bool,
    pub(super) settle: i64,
    pub(super) wet: i64,
    pub(super) hold: i64,
}

#[derive(Debug, Clone)]
pub(super) struct JobRow {
    pub(super) weight: i64,
    pub(super) due: i64,
    /// The latest end among its steps that are done.
    pub(super) done: i64,
    /// The steps to do that no other step of the job waits for.
    pub(super) lasts: Vec<usize>,
}

impl JobRow {
    /// Weight times minutes late, when it ends at `end`.
    #[inline]
    pub(super) fn late(&self, end: i64) -> i64 {
        self.weight.saturating_mul((end - self.due).max(0))
    }
}

/// In how many parts a job's weight is shared out among its steps.
pub(super) const SHARE: i64 = 1024;

/// An instance made ready: steps to do are `0..len()`, done ones follow.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub(super) calendar: Calendar,
    pub(super) steps: Vec<Step>,
    pub(super) jobs: Vec<JobRow>,
    preds: Vec<Pred>,
    succs: Vec<usize>,
    /// Start and end of the steps that are done.
    pub(super) done: Vec<(i64, i64)>,
    /// What they left in the rooms.
    pub(super) left: Vec<Left>,
    /// When the hands are first free.
    pub(super) from: i64,
    pub(super) ids: Vec<OpId>,
    /// When dust has settled, and when coats are dust-free, in each room, as things stand.
    pub(super) dust_until: Vec<i64>,
    pub(super) wet_until: Vec<i64>,
    /// When each place of the racks comes free, as things stand, ascending within a rack.
    pub(super) places: Vec<i64>,
    /// Steps to do of each job, in an order that respects the arcs.
    pub(super) by_job: Vec<Vec<usize>>,
    /// Steps to do, in an order that respects the arcs.
    pub(super) topological: Vec<usize>,
}

impl Model {
    pub(super) fn new(instance: &Instance) -> Result<Self, InstanceError> {
        instance.check()?;
        Ok(Self::with(instance, on_grid(instance)))
    }

    /// Ready for figures that will be changed, on the grid or off it.
    pub(super) fn free(instance: &Instance) -> Result<Self, InstanceError> {
        instance.check()?;
        Ok(Self::with(instance, instance.grid.0 == 1))
    }

    fn with(instance: &Instance, on_grid: bool) -> Self {
        let calendar = Calendar::new(instance, on_grid);
        let (todo, done): (Vec<&Op>, Vec<&Op>) =
            instance.ops.iter().partition(|op| op.done.is_none());
        let ids: Vec<OpId> = todo.iter().chain(&done).map(|op| op.id).collect();
        let times = |op: &&Op| op.done.map(|(start, end)| (start.0, end.0));
        let done_times: Vec<(i64, i64)> = done.iter().filter_map(times).collect();
        // Hands that are in the middle of a step are free when it ends.
        let busy = done_times.iter().map(|&(_, end)| end).max();
        let from = calendar.snap(busy.map_or(instance.now.0, |end| end.max(instance.now.0)));
        let arcs = Arcs::new(instance, &ids, todo.len());
        let rooms = Rooms::new(instance, &todo, &done);
        let mut jobs: Vec<JobRow> = Vec::with_capacity(instance.jobs.len());
        let mut job_index = HashMap::new();
        for job in &instance.jobs {
            job_index.insert(job.id, (jobs.len(), job.release.0));
            jobs.push(JobRow {
                weight: job.weight,
                due: job.due.0,
                done: -NEVER,
                lasts: Vec::new(),
            });
        }
        for (op, &(_, end)) in done.iter().zip(&done_times) {
            let (job, _) = job_index.get(&op.job).copied().unwrap_or_default();
            jobs[job].done = jobs[job].done.max(end);
        }
        let mut steps = Vec::with_capacity(todo.len());
        for (k, op) in todo.iter().enumerate() {
            let (job, release) = job_index.get(&op.job).copied().unwrap_or_default();
            let release = op.release.0.max(release).max(from);
            steps.push(Step {
                release: calendar.snap(release),
                job,
                ..rooms.step(instance, op, &arcs, k)
            });
        }
        let topological = arcs.topological(todo.len());
        arcs.tie(&mut steps);
        let mut by_job = vec![Vec::new(); jobs.len()];
        for &step in &topological {
            by_job[steps[step].job].push(step);
        }
        for (k, step) in steps.iter_mut().enumerate() {
            let job = &mut jobs[step.job];
            let count = i64::try_from(by_job[step.job].len()).unwrap_or(1).max(1);
            step.share = (SHARE * job.weight / count).clamp(1, 64 * SHARE);
            if step.last {
                job.lasts.push(k);
            }
        }
        let left = |op: &&Op| Left {
            room: rooms.names.get(&op.room).copied().unwrap_or_default(),
            dust: op.dust,
            settle: op.settle.0,
            wet: op.wet.0,
            hold: op.hold.0,
        };
        let mut model = Self {
            left: done.iter().map(left).collect(),
            from,
            calendar,
            steps,
            jobs,
            preds: arcs.preds,
            succs: arcs.succs,
            done: done_times,
            ids,
            dust_until: rooms.dust_until,
            wet_until: rooms.wet_until,
            places: rooms.places,
            by_job,
            topological,
        };
        let mut latest = vec![0; model.len()];
        model.latest(&vec![0; model.jobs.len()], &mut latest, false);
        for (step, latest) in model.steps.iter_mut().zip(latest) {
            step.latest = latest;
        }
        model
    }

    /// Latest starts (or ends) that keep promises moved by `offset` of each job.
    pub(super) fn latest(&self, offset: &[i64], latest: &mut [i64], ends: bool) {
        let mut finish = vec![NEVER; self.len()];
        for &step in self.topological.iter().rev() {
            let row = &self.steps[step];
            let by = finish[step].min(self.jobs[row.job].due + offset[row.job]);
            let start = self.calendar.fit_before(by, row.work, row.split);
            latest[step] = if ends { by } else { start };
            for pred in self.preds(step) {
                if pred.from < self.len() {
                    finish[pred.from] = finish[pred.from].min(start - pred.min);
                }
            }
        }
    }

    /// How many steps are still to do.
    pub(super) fn len(&self) -> usize {
        self.steps.len()
    }

    /// Set-up of a step that starts at `at` after `prev` in the order, by the ends so far.
    #[inline]
    pub(super) fn setup(&self, step: usize, prev: Option<usize>, at: i64, ends: &[i64]) -> i64 {
        let row = &self.steps[step];
        let warm = prev.is_some_and(|prev| {
            self.steps[prev].family == row.family && at - ends[prev] <= row.keep
        });
        if row.family == NONE || warm {
            0
        } else {
            row.setup
        }
    }

    #[inline]
    pub(super) fn preds(&self, step: usize) -> &[Pred] {
        let (from, to) = self.steps[step].pred;
        &self.preds[from..to]
    }

    /// Gives the arcs between two steps another shortest lag; their limits move along.
    pub(super) fn set_lag(&mut self, from: OpId, to: OpId, min: i64) {
        let place = |id: OpId| self.ids.iter().position(|other| *other == id);
        let (Some(from), Some(to)) = (place(from), place(to)) else {
            return;
        };
        let Some(row) = self.steps.get(to) else {
            return;
        };
        for pred in &mut self.preds[row.pred.0..row.pred.1] {
            if pred.from == from {
                let later = min - pred.min;
                pred.min = min;
                for limit in [&mut pred.max, &mut pred.window] {
                    if *limit < NEVER {
                        *limit = (*limit + later).max(min);
                    }
                }
            }
        }
    }

    /// The steps to do that an arc leads to.
    #[inline]
    pub(super) fn succs(&self, step: usize) -> &[usize] {
        let (from, to) = self.steps[step].succ;
        &self.succs[from..to]
    }
}

/// Whether every figure is a multiple of the grid, so that no start needs rounding.
fn on_grid(instance: &Instance) -> bool {
    let grid = instance.grid.0;
    let windows = instance.calendar.iter();
    let windows = windows.flat_map(|window| [window.open.0, window.close.0]);
    let ops = instance.ops.iter().flat_map(|op| {
        let done = op.done.map_or(0, |(_, end)| end.0);
        [
            op.work.0,
            op.settle.0,
            op.wet.0,
            op.hold.0,
            op.release.0,
            done,
        ]
    });
    let arcs = instance.arcs.iter();
    let arcs = arcs.flat_map(|arc| [arc.min.0, arc.max.map_or(0, |max| max.0), arc.extra.0]);
    let families = instance.families.iter().map(|family| family.setup.0);
    let jobs = instance.jobs.iter().map(|job| job.release.0);
    let others = [instance.now.0, instance.min_chunk.0];
    let all = windows.chain(ops).chain(arcs).chain(families).chain(jobs);
    all.chain(others).all(|figure| figure % grid == 0)
}
