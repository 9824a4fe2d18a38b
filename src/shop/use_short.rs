//! Running short: what jobs still need of the stain batch they were begun with.

use super::id::JobId;
use super::use_needs::Need;
use crate::coating::ProductId;
use crate::units::{Volume, VolumeStyle};
use std::collections::BTreeMap;

/// The batch that a job's stain was begun with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobBatch {
    /// The job.
    pub job: JobId,
    /// The stain.
    pub product: ProductId,
    /// The batch, as it is marked on its cans.
    pub batch: String,
    /// What all its cans together have left; of one batch the same for every job.
    pub left: Volume,
}

/// A batch that does not last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Short {
    /// The job, or the jobs that share the batch and together ask too much.
    pub jobs: Vec<JobId>,
    /// The stain.
    pub product: ProductId,
    /// The batch.
    pub batch: String,
    /// What it has left.
    pub left: Volume,
    /// What they still need.
    pub needed: Volume,
}

impl Short {
    /// What is missing.
    pub fn missing(&self) -> Volume {
        self.needed - self.left
    }

    /// `Miller island: stain batch B-204 has 310 mL left, 420 mL still needed: 110 mL short.`
    pub fn words(&self, called: impl Fn(JobId) -> String, style: VolumeStyle) -> String {
        let who: Vec<String> = self.jobs.iter().map(|job| called(*job)).collect();
        let together = if who.len() > 1 { " together" } else { "" };
        format!(
            "{}{together}: stain batch {} has {} left, {} still needed: {} short.",
            who.join(" and "),
            self.batch,
            self.left.show(style),
            self.needed.show(style),
            self.missing().show(style)
        )
    }
}

/// Every batch that does not last: for the job alone, or for the jobs that share it though it
/// would do for each. In the order of the batches; worst of a batch first.
pub fn short(needs: &[Need], batches: &[JobBatch]) -> Vec<Short> {
    let mut by_batch: BTreeMap<(ProductId, &str), Vec<(&JobBatch, Volume)>> = BTreeMap::new();
    for of in batches {
        let stain = |need: &&Need| need.job == of.job && need.product == of.product;
        let needed: Volume = needs.iter().filter(stain).map(|need| need.volume).sum();
        if needed > Volume::ZERO {
            by_batch
                .entry((of.product, &of.batch))
                .or_default()
                .push((of, needed));
        }
    }
    let mut out = Vec::new();
    for ((product, batch), jobs) in by_batch {
        // Told twice what is left, the smaller counts: it is the later weighing or the safer one.
        let Some(left) = jobs.iter().map(|(of, _)| of.left).min() else {
            continue;
        };
        let say = |jobs: Vec<JobId>, needed| Short {
            jobs,
            product,
            batch: batch.to_owned(),
            left,
            needed,
        };
        let mut alone: Vec<Short> = jobs
            .iter()
            .filter(|(_, needed)| *needed > left)
            .map(|(of, needed)| say(vec![of.job], *needed))
            .collect();
        alone.sort_by_key(|short| std::cmp::Reverse(short.needed));
        let together: Volume = jobs.iter().map(|(_, needed)| *needed).sum();
        if alone.is_empty() && together > left {
            out.push(say(jobs.iter().map(|(of, _)| of.job).collect(), together));
        }
        out.extend(alone);
    }
    out
}
