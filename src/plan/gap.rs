//! Where a group of steps fits into an order by its rough times.

use super::calendar::NEVER;
use super::line_up::LineUp;
use super::model::{NONE, Step};

impl LineUp<'_> {
    /// The first gap for a group that may start at `at` and must stand before a position, or the
    /// place where it pushes least.
    pub(super) fn gap(&mut self, step: usize, at: i64, before: usize) -> Option<Gap> {
        let load = Load::of(self, step);
        let starts = &self.trial.start;
        // A gap before a step that has started by then is none.
        let first = self.order.partition_point(|&step| starts[step] <= at);
        let first = first.min(before);
        let mut air = self.air_before(first, at, load.head.room);
        let mut best: Option<Gap> = None;
        for place in first..=before {
            let next = self.order.get(place).copied();
            let next_start = next.map_or(NEVER, |next| self.trial.start[next]);
            let prev = place.checked_sub(1).map(|prev| self.order[prev]);
            let mut from = at.max(prev.map_or(at, |prev| self.trial.end[prev]));
            if load.head.dust {
                from = from.max(air.wet_until);
            }
            if load.wet > 0 {
                from = from.max(air.dust_until);
            }
            let at_least = from + load.work - next_start;
            if best.as_ref().is_none_or(|best| at_least < best.push) {
                let (start, end) = self.fit(&load, from, prev);
                let push = match (end - next_start).max(0) {
                    0 => self.clash(&load, end, place),
                    push => push,
                };
                // Now and then a gap is passed over.
                let seen = best.is_none() || self.chance.below(32) > 0;
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
            if let Some(next) = next {
                self.leave(next, load.head.room, &mut air);
            }
        }
        best
    }

    /// What is in the air of a room before position `first`, as far as it matters at `at`.
    fn air_before(&self, first: usize, at: i64, room: usize) -> RoughAir {
        let mut air = RoughAir {
            dust_until: self.model.dust_until[room],
            wet_until: self.model.wet_until[room],
        };
        for place in (0..first).rev() {
            // The one before has ended when this one starts.
            if place + 1 < first && self.trial.start[self.order[place + 1]] + self.air <= at {
                break;
            }
            self.leave(self.order[place], room, &mut air);
        }
        air
    }

    #[inline]
    fn leave(&self, step: usize, room: usize, air: &mut RoughAir) {
        let row = &self.model.steps[step];
        if row.room == room {
            if row.dust {
                air.dust_until = air.dust_until.max(self.trial.end[step] + row.settle);
            }
            if row.wet > 0 {
                air.wet_until = air.wet_until.max(self.trial.end[step] + row.wet);
            }
        }
    }

    /// Start and end of a load from `from` on.
    fn fit(&self, load: &Load<'_>, from: i64, prev: Option<usize>) -> (i64, i64) {
        let model = self.model;
        let mut work = load.work;
        if load.head.family != NONE
            && prev.is_none_or(|prev| model.steps[prev].family != load.head.family)
        {
            work += load.head.setup;
        }
        if load.head.windows > 0 {
            let preds = model.preds(load.first).iter();
            let shut = preds.filter(|pred| from - self.trial.end[pred.from] > pred.window);
            work += shut.map(|pred| pred.extra).sum::<i64>();
        }
        if load.head.split {
            model.calendar.fit_split(from, work)
        } else {
            model.calendar.fit(from, work)
        }
    }

    /// By how much the air of a load that ends at `end` pushes what comes from `place` on.
    fn clash(&self, load: &Load<'_>, end: i64, place: usize) -> i64 {
        if !load.head.dust && load.wet == 0 {
            return 0;
        }
        let until = end
            + load
                .wet
                .max(if load.head.dust { load.head.settle } else { 0 });
        let starts = &self.trial.start;
        let soon = |&&other: &&usize| starts[other] < until;
        let meets = |&&other: &&usize| {
            let row = &self.model.steps[other];
            let meets = (load.head.dust && row.wet > 0) || (load.wet > 0 && row.dust);
            row.room == load.head.room && meets
        };
        let rest = self.order[place..].iter();
        let other = rest.take_while(soon).find(meets);
        other.map_or(0, |&other| until - starts[other])
    }
}

/// A group as one piece of work.
struct Load<'a> {
    first: usize,
    head: &'a Step,
    /// Work and lags from its start to its end.
    work: i64,
    wet: i64,
}

impl<'a> Load<'a> {
    fn of(line_up: &LineUp<'a>, step: usize) -> Self {
        let model = line_up.model;
        let group = line_up.groups.of(step);
        let (mut work, mut wet) = (0, 0);
        for &member in group {
            let preds = model.preds(member).iter();
            let lags = preds.filter(|pred| group.contains(&pred.from));
            work += lags.map(|pred| pred.min).max().unwrap_or(0) + model.steps[member].work;
            wet = wet.max(model.steps[member].wet);
        }
        Self {
            first: group[0],
            head: &model.steps[group[0]],
            work,
            wet,
        }
    }
}

/// Until when there is dust in a room, and a coat open to it.
struct RoughAir {
    dust_until: i64,
    wet_until: i64,
}

/// A place in the order, with rough times, and by how much it pushes what follows.
pub(super) struct Gap {
    pub(super) place: usize,
    pub(super) start: i64,
    pub(super) end: i64,
    push: i64,
}
