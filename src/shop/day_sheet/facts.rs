//! What an instance and its times say of one step.

use super::to_plan::{Built, OpIs};

/// Facts of one step on a sheet, in minutes of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Facts {
    /// Set-up in it.
    pub setup: i64,
    /// Abrading in it.
    pub extra: i64,
    /// The latest start that spares the abrading.
    pub shuts: Option<i64>,
    /// From when the next step of its piece may start, where that is not at once.
    pub next_from: Option<i64>,
}

impl Built {
    /// Weighted minutes of lateness of these times.
    pub fn lateness(&self, times: &[(i64, i64)]) -> i64 {
        let end_of = |id| {
            let of_job = self.instance.ops.iter().zip(times);
            of_job
                .filter(|(op, _)| op.job == id)
                .map(|(_, (_, end))| *end)
                .max()
        };
        let late = self.instance.jobs.iter().map(|job| {
            let end = end_of(job.id).unwrap_or(0);
            job.weight * (end - job.due.0).max(0)
        });
        late.sum()
    }

    /// When a step may start by what binds it to others: the latest end with its wait, and its own
    /// release.
    pub fn free_from(&self, times: &[(i64, i64)], op: usize) -> i64 {
        let id = self.instance.ops[op].id;
        let arcs = self.instance.arcs.iter().filter(|arc| arc.to == id);
        let after = arcs.filter_map(|arc| Some(times.get(self.place(arc.from)?)?.1 + arc.min.0));
        let release = self.instance.ops[op].release.0.max(self.instance.now.0);
        after.max().unwrap_or(release).max(release)
    }

    /// The place of a step.
    pub fn place(&self, id: crate::plan::OpId) -> Option<usize> {
        // Names count from zero.
        usize::try_from(id.0).ok()
    }

    /// The facts of a step; `order` lists the steps by time.
    pub fn facts(&self, times: &[(i64, i64)], order: &[usize], op: usize) -> Facts {
        let step = &self.instance.ops[op];
        let (start, end) = times[op];
        let mut facts = Facts::default();
        if step.done.is_none()
            && let Some(family) = self
                .instance
                .families
                .iter()
                .find(|family| Some(family.id) == step.family)
        {
            let before = order.iter().position(|other| *other == op);
            let before = before.and_then(|place| order.get(place.checked_sub(1)?));
            let same = before.is_some_and(|before| {
                self.instance.ops[*before].family == step.family
                    && start - times[*before].1 <= family.keep.0
            });
            facts.setup = if same { 0 } else { family.setup.0 };
        }
        for arc in self.instance.arcs.iter().filter(|arc| arc.to == step.id) {
            let (Some(from), Some(window)) = (self.place(arc.from), arc.window) else {
                continue;
            };
            let shuts = times[from].1 + window.0;
            if start > shuts {
                facts.extra += arc.extra.0;
            }
            facts.shuts = Some(facts.shuts.map_or(shuts, |was| was.min(shuts)));
        }
        let OpIs::Todo(piece, at) = self.ops[op] else {
            return facts;
        };
        let next = self
            .ops
            .iter()
            .position(|is| *is == OpIs::Todo(piece, at + 1));
        facts.next_from = next
            .map(|next| self.free_from(times, next))
            .filter(|from| *from > end);
        facts
    }
}
