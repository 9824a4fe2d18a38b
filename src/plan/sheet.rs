//! The sheet: when each step is done, in which parts, what held it, and how each job ends.

use super::calendar::NEVER;
use super::instance::{Instance, JobId, Minute, OpId, Window};
use super::model::Model;
use super::why::Held;

/// The order in which the one pair of hands takes up the steps that are still to do.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Order(pub Vec<OpId>);

/// One step on the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// The step.
    pub op: OpId,
    /// Its job.
    pub job: JobId,
    /// When it starts.
    pub start: Minute,
    /// When the hands are free again.
    pub end: Minute,
    /// The times at the bench: several where it runs over a break or a night.
    pub parts: Vec<Window>,
    /// Minutes of set-up in it.
    pub setup: Minute,
    /// Minutes of abrading in it because a window was missed.
    pub extra: Minute,
    /// From when lags and releases let it start.
    pub ready: Minute,
    /// After this minute it costs extra work, if anything does.
    pub window_shuts: Option<Minute>,
    /// After this minute it is too late for the work before it, if it ever is.
    pub start_by: Option<Minute>,
    /// What kept it from starting sooner.
    pub held: Held,
}

/// How a job ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JobEnd {
    /// The job.
    pub job: JobId,
    /// The end of its last step.
    pub end: Minute,
    /// What was promised.
    pub due: Minute,
    /// What a minute of lateness weighs.
    pub weight: i64,
}

impl JobEnd {
    /// Minutes after the promise; zero when it is kept.
    pub fn late(&self) -> Minute {
        Minute((self.end.0 - self.due.0).max(0))
    }

    /// Minutes left to the promise; below zero when it is not kept.
    pub fn slack(&self) -> Minute {
        Minute(self.due.0 - self.end.0)
    }
}

/// Where no order keeps the rules: the sheet is the best there is, and says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Broken {
    /// A longest lag that is missed: what `from` left is spoilt when `to` starts.
    TooLate {
        /// The step before.
        from: OpId,
        /// The step after.
        to: OpId,
        /// By how much.
        by: Minute,
    },
    /// A step that ends after the calendar does.
    BeyondCalendar(OpId),
}

/// What to do when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The steps that are still to do, in the order of the hands.
    pub lines: Vec<Line>,
    /// Every job, in the order of the instance.
    pub jobs: Vec<JobEnd>,
    /// Weight times minutes of lateness, over all jobs.
    pub lateness: i64,
    /// The sum of the jobs' ends.
    pub ends: i64,
    /// What the sheet could not keep; empty on every instance that can be kept.
    pub broken: Vec<Broken>,
}

impl Sheet {
    /// The order of the hands.
    pub fn order(&self) -> Order {
        Order(self.lines.iter().map(|line| line.op).collect())
    }

    /// The line of a step that is still to do.
    pub fn line(&self, op: OpId) -> Option<&Line> {
        self.lines.iter().find(|line| line.op == op)
    }

    /// From the times of an order.
    pub(super) fn new(instance: &Instance, model: &Model, order: &[usize], times: &Times) -> Self {
        let mut lines = Vec::with_capacity(order.len());
        let mut broken = Vec::new();
        for (at, &step) in order.iter().enumerate() {
            let row = &model.steps[step];
            let (start, end) = (times.start[step], times.end[step]);
            let (mut window_shuts, mut start_by, mut extra) = (NEVER, NEVER, 0);
            let mut ready = row.release;
            for pred in model.preds(step) {
                let before = times.end[pred.from];
                ready = ready.max(before + pred.min);
                if pred.window < NEVER {
                    window_shuts = window_shuts.min(before + pred.window);
                    extra += if start - before > pred.window {
                        pred.extra
                    } else {
                        0
                    };
                }
                if pred.max < NEVER {
                    start_by = start_by.min(before + pred.max);
                    let by = Minute(start - before - pred.max);
                    if by.0 > 0 {
                        let (from, to) = (model.ids[pred.from], model.ids[step]);
                        broken.push(Broken::TooLate { from, to, by });
                    }
                }
            }
            let before = at.checked_sub(1).map(|before| order[before]);
            let setup = model.setup(step, before, start, times.end);
            if end > model.calendar.end() {
                broken.push(Broken::BeyondCalendar(model.ids[step]));
            }
            let some = |minute: i64| (minute < NEVER).then_some(Minute(minute));
            lines.push(Line {
                op: model.ids[step],
                job: instance.jobs[row.job].id,
                start: Minute(start),
                end: Minute(end),
                parts: model.calendar.parts(start, row.work + setup + extra),
                setup: Minute(setup),
                extra: Minute(extra),
                ready: Minute(ready),
                window_shuts: some(window_shuts),
                start_by: some(start_by),
                held: Held::find(model, order, at, times),
            });
        }
        let jobs = instance
            .jobs
            .iter()
            .zip(times.job_ends)
            .map(|(job, &end)| JobEnd {
                job: job.id,
                end: Minute(end),
                due: job.due,
                weight: job.weight,
            });
        let jobs: Vec<JobEnd> = jobs.collect();
        let late = |job: &JobEnd| job.weight.saturating_mul(job.late().0);
        Self {
            lateness: jobs.iter().map(late).fold(0, i64::saturating_add),
            ends: jobs.iter().map(|job| job.end.0).sum(),
            lines,
            jobs,
            broken,
        }
    }
}

/// Times of an order, by step, as the decoder left them.
pub(super) struct Times<'a> {
    pub(super) start: &'a [i64],
    pub(super) end: &'a [i64],
    pub(super) job_ends: &'a [i64],
}
