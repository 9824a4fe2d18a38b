//! What the times of an order cost.

use super::calendar::NEVER;
use super::decode::Decoder;
use super::model::Model;

/// What a minute after the latest start weighs against a minute of an end in the pull.
const SLIP: i64 = 4;

/// What a sheet costs: the less the better, the first figure before the second and so on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    /// Minutes by which longest lags are missed or the calendar is overrun.
    pub(super) broken: i64,
    /// Weight times minutes of lateness.
    pub(super) late: i64,
    /// Sum of the jobs' ends.
    pub(super) ends: i64,
}

impl Cost {
    pub(super) const WORST: Self = Self {
        broken: i64::MAX,
        late: i64::MAX,
        ends: i64::MAX,
    };
}

impl Decoder {
    /// Minutes by which longest lags into a step are missed.
    fn missed_by(&self, model: &Model, step: usize) -> i64 {
        let preds = model.preds(step).iter();
        let over = preds.map(|pred| self.start[step] - self.end[pred.from] - pred.max);
        over.map(|over| over.max(0)).sum()
    }

    fn overrun(&self, model: &Model, order: &[usize]) -> i64 {
        let last = order.last().map_or(-NEVER, |&last| self.end[last]);
        (last - model.calendar.end()).max(0)
    }

    /// The pull of one step, see [`Decoder::pull`].
    #[inline]
    fn pull_of(&self, model: &Model, step: usize) -> i64 {
        let row = &model.steps[step];
        let slip = (self.start[step] - row.latest).max(0);
        (self.end[step] - model.from + SLIP * slip).wrapping_mul(row.share)
    }

    pub(super) fn tally(&mut self, model: &Model, order: &[usize]) {
        for (end, job) in self.job_end.iter_mut().zip(&model.jobs) {
            *end = job.done;
        }
        let mut broken = 0;
        self.pull = 0;
        for &step in order {
            let row = &model.steps[step];
            self.job_end[row.job] = self.job_end[row.job].max(self.end[step]);
            self.pull = self.pull.wrapping_add(self.pull_of(model, step));
            if row.bounds > 0 {
                broken += self.missed_by(model, step);
            }
        }
        let (mut late, mut ends) = (0i64, 0i64);
        for (job, &end) in model.jobs.iter().zip(&self.job_end) {
            late = late.saturating_add(job.late(end));
            ends = ends.saturating_add(end);
        }
        self.missed = broken;
        broken += self.overrun(model, order);
        self.cost = Cost { broken, late, ends };
    }

    pub(super) fn tally_local(
        &mut self,
        model: &Model,
        order: &[usize],
        (from, until): (usize, usize),
        old: &Self,
    ) {
        let Cost {
            mut late, mut ends, ..
        } = old.cost;
        (self.missed, self.pull) = (old.missed, old.pull);
        for &step in &order[from..until] {
            let row = &model.steps[step];
            if row.bounds > 0 {
                self.missed += self.missed_by(model, step) - old.missed_by(model, step);
            }
            if self.start[step] == old.start[step] && self.end[step] == old.end[step] {
                continue;
            }
            let more = self
                .pull_of(model, step)
                .wrapping_sub(old.pull_of(model, step));
            self.pull = self.pull.wrapping_add(more);
            if row.last {
                let job = &model.jobs[row.job];
                let before = self.job_end[row.job];
                let lasts = job.lasts.iter().map(|&last| self.end[last]);
                let end = lasts.fold(job.done, i64::max);
                self.job_end[row.job] = end;
                late = late.saturating_add(job.late(end) - job.late(before));
                ends = ends.saturating_add(end - before);
            }
        }
        let broken = self.missed + self.overrun(model, order);
        self.cost = Cost { broken, late, ends };
    }
}
