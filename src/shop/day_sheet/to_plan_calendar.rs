//! The calendar of an instance, the promised ends, the kept order, passes longer than any bench hours.

use super::floor::Floor;
use super::to_plan::{Building, OpIs};
use super::todo::PieceWork;
use crate::plan;
use crate::plan::{Minute, OpId};
use crate::shop::hours::{instant, open_times};
use chrono::{DateTime, NaiveDate, Utc};

impl Building<'_, '_> {
    /// Bench hours far enough ahead for all there is to do.
    pub(super) fn calendar(&mut self) {
        let instance = &self.out.instance;
        let todo = || instance.ops.iter().filter(|op| op.done.is_none());
        let work: i64 = todo().map(|op| op.work.0 + 60).sum();
        let longest = |minutes: i64| minutes.clamp(0, 400 * 24 * 60);
        let lags: i64 = {
            let mut by_job = std::collections::BTreeMap::new();
            for arc in &instance.arcs {
                if let Some(op) = todo().find(|op| op.id == arc.to) {
                    *by_job.entry(op.job).or_insert(0_i64) += arc.min.0;
                }
            }
            by_job.into_values().max().unwrap_or(0)
        };
        let release = todo().map(|op| op.release.0).max().unwrap_or(0) - instance.now.0;
        let (bench, slots) = (&self.floor.book.bench, &self.floor.book.slots);
        let first = self.floor.today();
        let mut days = 28;
        loop {
            let open = open_times(&bench.week, slots, first, days, self.floor.zone);
            let windows: Vec<plan::Window> = open
                .iter()
                .filter_map(|open| {
                    let from = self.axis.up(open.from).max(self.out.instance.now.0);
                    let to = self.axis.down(open.to);
                    (to > from).then_some(plan::Window {
                        open: Minute(from),
                        close: Minute(to),
                    })
                })
                .collect();
            let has: i64 = windows.iter().map(|w| w.close.0 - w.open.0).sum();
            let ahead = i64::from(days) * 24 * 60;
            let enough = has > 2 * work && ahead > longest(lags) + longest(release) + 14 * 24 * 60;
            if enough || days > 1500 {
                self.out.instance.calendar = windows;
                let end = first + chrono::Days::new(u64::from(days));
                self.out.instance.horizon = Minute(self.axis.up(instant(end, 0, self.floor.zone)));
                return;
            }
            days *= 2;
        }
    }

    /// The kept order of the day: each of its steps after the one before it.
    pub(super) fn chain(&mut self, chain: &[(usize, usize)]) {
        let op = |(piece, at): (usize, usize)| {
            let place = self
                .out
                .ops
                .iter()
                .position(|is| *is == OpIs::Todo(piece, at))?;
            let op = self.out.instance.ops.get(place)?;
            op.done.is_none().then_some(op.id)
        };
        let ids: Vec<OpId> = chain.iter().filter_map(|step| op(*step)).collect();
        for pair in ids.windows(2) {
            self.out.instance.arcs.push(plan::Arc {
                from: pair[0],
                to: pair[1],
                min: Minute(0),
                max: None,
                window: None,
                extra: Minute(0),
            });
        }
    }

    /// A pass that no time at the bench holds is parted like sanding, and that is said.
    pub(super) fn long_passes(&mut self, works: &[PieceWork]) {
        let longest = self
            .out
            .instance
            .calendar
            .iter()
            .map(|w| w.close.0 - w.open.0);
        let longest = longest.max().unwrap_or(0);
        for (op, is) in self.out.instance.ops.iter_mut().zip(&self.out.ops) {
            let setup = op.family.and_then(|id| {
                let of = self
                    .out
                    .instance
                    .families
                    .iter()
                    .find(|family| family.id == id);
                of.map(|family| family.setup.0)
            });
            let extra = self.out.instance.arcs.iter().filter(|arc| arc.to == op.id);
            let extra: i64 = extra.map(|arc| arc.extra.0).sum();
            let OpIs::Todo(piece, at) = *is else { continue };
            if op.done.is_none() && !op.split && op.work.0 + setup.unwrap_or(0) + extra > longest {
                op.split = true;
                let named = self
                    .floor
                    .files
                    .iter()
                    .find(|file| file.piece.id == works[piece].piece);
                let name = named.map_or("", |file| file.piece.name.as_str());
                self.out.doubts.push(format!(
                    "{} of {name} takes {} min, longer than any time at the bench without a break: \
                     lengthen the bench hours or correct the step times.",
                    works[piece].todos[at].key.step, op.work.0
                ));
            }
        }
    }

    pub(super) fn promises(&mut self) {
        for (no, id) in self.out.jobs.iter().enumerate() {
            let promised = self.floor.job(*id).and_then(|job| job.promised);
            let due = promised.map(|day| self.axis.down(due_at(self.floor, day)));
            self.out.instance.jobs.push(plan::Job {
                id: plan::JobId(i64::try_from(no).unwrap_or(i64::MAX)),
                weight: i64::from(due.is_some()),
                due: Minute(due.unwrap_or(self.out.instance.horizon.0)),
                release: self.out.instance.now,
            });
        }
    }
}

/// Until when a job promised for a day may be set: its last bench hour, or the end of the day where
/// it has none.
pub fn due_at(floor: &Floor<'_>, day: NaiveDate) -> DateTime<Utc> {
    let (bench, slots) = (&floor.book.bench, &floor.book.slots);
    open_times(&bench.week, slots, day, 1, floor.zone)
        .last()
        .map_or_else(|| instant(day, 24 * 60, floor.zone), |open| open.to)
}
