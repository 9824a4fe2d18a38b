//! What no sheet can beat.
//!
//! Each job for itself, with the whole bench and no other job in its way: its end is at least what
//! its own lags and the bench hours allow. And all jobs together: the work of the pair of hands
//! must fit the bench hours, whatever the lags, so that the earliest `k` ends of jobs leave room
//! for the work of `k` jobs (the smallest ones, as in W. E. Smith, "Various optimizers for
//! single-stage production", Naval Research Logistics Quarterly 3 (1956) 59-66). Taking bench hours
//! away can only raise either.

use super::calendar::NEVER;
use super::instance::Instance;
use super::instance_check::InstanceError;
use super::model::Model;

/// Figures that no sheet goes below.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    /// Of the weighted lateness.
    pub lateness: i64,
    /// Of the sum of the jobs' ends.
    pub ends: i64,
}

/// The bound of an instance, in the time it takes to read it.
///
/// # Errors
/// [`InstanceError`] when the instance makes no sense.
pub fn bound(instance: &Instance) -> Result<Bound, InstanceError> {
    let model = Model::new(instance)?;
    let mut ends = vec![-NEVER; model.len()];
    let mut job_ends: Vec<i64> = model.jobs.iter().map(|job| job.done).collect();
    let mut work = vec![0i64; model.jobs.len()];
    for &step in &model.topological {
        let row = &model.steps[step];
        let mut at = row.release;
        for pred in model.preds(step) {
            let end = match pred.from.checked_sub(model.len()) {
                Some(done) => model.done[done].1,
                None => ends[pred.from],
            };
            at = at.max(end + pred.min);
        }
        let (_, end) = if row.split {
            model.calendar.fit_split(at, row.work)
        } else {
            model.calendar.fit(at, row.work)
        };
        ends[step] = end;
        job_ends[row.job] = job_ends[row.job].max(end);
        work[row.job] += row.work;
    }
    let mut lateness = 0i64;
    for (job, &end) in model.jobs.iter().zip(&job_ends) {
        let late = job.weight.saturating_mul((end - job.due).max(0));
        lateness = lateness.saturating_add(late);
    }
    // The k-th end among the jobs is at least the k-th of these, and at least when the hands can
    // be through with the k smallest jobs.
    let mut alone = job_ends;
    alone.sort_unstable();
    work.sort_unstable();
    let (mut sum, mut together) = (0i64, 0i64);
    for (&end, &work) in alone.iter().zip(&work) {
        sum += work;
        let through = if sum > 0 {
            model.calendar.through(model.from, sum)
        } else {
            end
        };
        together = together.saturating_add(end.max(through));
    }
    Ok(Bound {
        lateness,
        ends: together,
    })
}
