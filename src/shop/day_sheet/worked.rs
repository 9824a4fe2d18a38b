//! How work goes when, whenever the hands are free, the first step in rank that can be done is
//! done. A sheet is a plan; this is what becomes of it when drying and steps take other times.

use crate::plan::{Instance, Window};
use std::collections::HashMap;

/// An instance made ready to be worked through many times.
#[derive(Debug, Clone)]
pub struct Course<'a> {
    instance: &'a Instance,
    preds: Vec<Vec<(usize, usize)>>,
    succs: Vec<Vec<usize>>,
    release: Vec<i64>,
    setup: Vec<Option<(usize, i64, i64)>>,
    rack: HashMap<i64, usize>,
    grid: i64,
}

/// What things took in truth.
#[derive(Debug, Clone)]
pub struct Truth {
    /// Minutes of work by step.
    pub work: Vec<i64>,
    /// Minutes of waiting by arc.
    pub min: Vec<i64>,
}

impl Truth {
    /// As planned.
    pub fn as_planned(instance: &Instance) -> Self {
        Self {
            work: instance.ops.iter().map(|op| op.work.0).collect(),
            min: instance.arcs.iter().map(|arc| arc.min.0).collect(),
        }
    }
}

/// Where the work stands on the way.
struct Day {
    free: i64,
    last: Option<(usize, i64)>,
    times: Vec<Option<(i64, i64)>>,
    waits: Vec<usize>,
}

impl<'a> Course<'a> {
    /// Makes it ready.
    pub fn new(instance: &'a Instance) -> Self {
        let place: HashMap<_, _> = instance
            .ops
            .iter()
            .enumerate()
            .map(|(at, op)| (op.id, at))
            .collect();
        let jobs: HashMap<_, _> = instance
            .jobs
            .iter()
            .map(|job| (job.id, job.release.0))
            .collect();
        let families: HashMap<_, _> = instance
            .families
            .iter()
            .enumerate()
            .map(|(at, family)| (family.id, (at, family.setup.0, family.keep.0)))
            .collect();
        let count = instance.ops.len();
        let (mut preds, mut succs) = (vec![Vec::new(); count], vec![Vec::new(); count]);
        for (no, arc) in instance.arcs.iter().enumerate() {
            if let (Some(from), Some(to)) = (place.get(&arc.from), place.get(&arc.to)) {
                preds[*to].push((*from, no));
                succs[*from].push(*to);
            }
        }
        let release = instance.ops.iter().map(|op| {
            let job = jobs.get(&op.job).copied().unwrap_or(i64::MIN);
            op.release.0.max(job).max(instance.now.0)
        });
        Self {
            preds,
            succs,
            release: release.collect(),
            setup: instance
                .ops
                .iter()
                .map(|op| families.get(&op.family?).copied())
                .collect(),
            rack: instance
                .rooms
                .iter()
                .filter_map(|room| Some((room.id.0, usize::try_from(room.rack?).ok()?)))
                .collect(),
            grid: instance.grid.0.max(1),
            instance,
        }
    }

    /// The same with starts on any minute: hands do not wait for a round time.
    #[must_use]
    pub fn by_the_minute(self) -> Self {
        Self { grid: 1, ..self }
    }

    /// Start and end of every step, when of those that can start first the first in `rank` does.
    pub fn run(&self, rank: &[usize], truth: &Truth) -> Vec<(i64, i64)> {
        let ops = &self.instance.ops;
        let mut day = Day {
            free: self.instance.now.0,
            last: None,
            times: ops
                .iter()
                .map(|op| op.done.map(|(start, end)| (start.0, end.0)))
                .collect(),
            waits: vec![0; ops.len()],
        };
        for (at, preds) in self.preds.iter().enumerate() {
            let open = preds.iter().filter(|(from, _)| day.times[*from].is_none());
            day.waits[at] = open.count();
        }
        let mut ready: Vec<usize> = (0..ops.len())
            .filter(|at| day.times[*at].is_none() && day.waits[*at] == 0)
            .collect();
        while !ready.is_empty() {
            let mut best: Option<(i64, usize, usize)> = None;
            for (place, at) in ready.iter().enumerate() {
                let start = self.earliest(*at, &day, truth);
                let key = (start, rank[*at], place);
                if best.is_none_or(|best| key < best) {
                    best = Some(key);
                }
            }
            let Some((start, _, place)) = best else { break };
            let at = ready.swap_remove(place);
            let end = self.end(at, start, &day, truth);
            day.times[at] = Some((start, end));
            day.free = end;
            day.last = Some((at, end));
            for next in &self.succs[at] {
                day.waits[*next] -= 1;
                if day.waits[*next] == 0 && day.times[*next].is_none() {
                    ready.push(*next);
                }
            }
        }
        day.times
            .into_iter()
            .map(|times| times.unwrap_or((day.free, day.free)))
            .collect()
    }

    /// Set-up that a step needs when it starts at `start`.
    fn setup(&self, at: usize, start: i64, day: &Day) -> i64 {
        let Some((family, setup, keep)) = self.setup[at] else {
            return 0;
        };
        let same = day.last.is_some_and(|(last, end)| {
            self.setup[last].is_some_and(|(of, _, _)| of == family) && start - end <= keep
        });
        if same { 0 } else { setup }
    }

    /// Extra minutes where a window has shut by then.
    fn extra(&self, at: usize, start: i64, day: &Day) -> i64 {
        let missed = self.preds[at].iter().filter_map(|(from, no)| {
            let arc = &self.instance.arcs[*no];
            let end = day.times[*from]?.1;
            let shut = arc.window.is_some_and(|window| start - end > window.0);
            shut.then_some(arc.extra.0)
        });
        missed.sum()
    }

    fn earliest(&self, at: usize, day: &Day, truth: &Truth) -> i64 {
        let op = &self.instance.ops[at];
        let mut start = self.release[at].max(day.free);
        for (from, no) in &self.preds[at] {
            if let Some((_, end)) = day.times[*from] {
                start = start.max(end + truth.min[*no]);
            }
        }
        for (other, times) in self.instance.ops.iter().zip(&day.times) {
            let Some((_, end)) = times else { continue };
            if other.room == op.room {
                if op.dust && other.wet.0 > 0 {
                    start = start.max(end + other.wet.0);
                }
                if op.wet.0 > 0 && other.dust {
                    start = start.max(end + other.settle.0);
                }
            }
        }
        if op.hold.0 > 0
            && let Some(places) = self.rack.get(&op.room.0)
        {
            start = start.max(self.place_free(op.room.0, *places, day));
        }
        let planned = op.work.0 + self.setup(at, start, day) + self.extra(at, start, day);
        fit(
            &self.instance.calendar,
            self.on_grid(start),
            planned,
            op.split,
        )
    }

    /// When a place of a rack comes free.
    fn place_free(&self, room: i64, places: usize, day: &Day) -> i64 {
        let held = self.instance.ops.iter().zip(&day.times);
        let mut until: Vec<i64> = held
            .filter(|(op, _)| op.room.0 == room && op.hold.0 > 0)
            .filter_map(|(op, times)| Some((*times)?.1 + op.hold.0))
            .collect();
        until.sort_unstable();
        let over = until.len().checked_sub(places);
        over.and_then(|over| until.get(over))
            .copied()
            .unwrap_or(i64::MIN)
    }

    fn on_grid(&self, at: i64) -> i64 {
        -(-at).div_euclid(self.grid) * self.grid
    }

    fn end(&self, at: usize, start: i64, day: &Day, truth: &Truth) -> i64 {
        let op = &self.instance.ops[at];
        let work = truth.work[at] + self.setup(at, start, day) + self.extra(at, start, day);
        if op.split {
            split_end(&self.instance.calendar, start, work)
        } else {
            // Whoever is in the middle of a pass finishes it.
            start + work
        }
    }
}

/// The first moment from `at` on at which `work` minutes fit a window; with `split` any at the
/// bench. Past the calendar, its end.
fn fit(calendar: &[Window], at: i64, work: i64, split: bool) -> i64 {
    let first = calendar.partition_point(|window| window.close.0 <= at);
    for window in &calendar[first..] {
        let start = at.max(window.open.0);
        if split || start + work <= window.close.0 {
            return start;
        }
    }
    // A pass longer than any window is begun at the start of one and finished whatever the clock.
    let longest = calendar[first..].iter().find(|window| window.open.0 >= at);
    longest.map_or(at, |window| window.open.0)
}

/// When work that may be left and gone on with ends.
pub fn split_end(calendar: &[Window], start: i64, work: i64) -> i64 {
    let mut left = work;
    let first = calendar.partition_point(|window| window.close.0 <= start);
    let mut end = start + work;
    for window in &calendar[first..] {
        let from = start.max(window.open.0);
        let here = window.close.0 - from;
        if left <= here {
            return from + left;
        }
        left -= here;
        end = window.close.0 + left;
    }
    end
}
