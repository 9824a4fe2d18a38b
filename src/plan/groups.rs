//! Steps that are tied by longest lags and go together.

use super::calendar::NEVER;
use super::model::Model;

/// Every step is of one group; most are alone in theirs.
#[derive(Debug, Clone)]
pub(super) struct Groups {
    groups: Vec<Vec<usize>>,
    number: Vec<usize>,
}

impl Groups {
    pub(super) fn new(model: &Model) -> Self {
        let n = model.len();
        let mut number: Vec<usize> = (0..n).collect();
        for &step in &model.topological {
            for pred in model.preds(step) {
                if pred.max < NEVER && pred.from < n {
                    let (keep, gone) = (number[pred.from], number[step]);
                    for group in &mut number {
                        if *group == gone {
                            *group = keep;
                        }
                    }
                }
            }
        }
        let mut groups = vec![Vec::new(); n];
        for &step in &model.topological {
            groups[number[step]].push(step);
        }
        Self { groups, number }
    }

    /// The number of a step's group.
    #[inline]
    pub(super) fn number(&self, step: usize) -> usize {
        self.number[step]
    }

    /// The steps of a group by its number, the first one first.
    #[inline]
    pub(super) fn steps(&self, number: usize) -> &[usize] {
        &self.groups[number]
    }

    /// The steps that go with a step, itself among them.
    #[inline]
    pub(super) fn of(&self, step: usize) -> &[usize] {
        &self.groups[self.number[step]]
    }
}
