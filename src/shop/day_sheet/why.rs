//! Why a step stands where it does: what held it until then, and why it and nothing else.

use super::floor::Floor;
use super::to_plan::{Built, OpIs};
use super::todo::PieceWork;
use crate::shop::id::{JobId, PieceId};
use crate::shop::sheet_kept::StepCode;
use chrono::{DateTime, Duration, Utc};

/// One reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// It is under way.
    UnderWay,
    /// Stain is wiped off before it sets.
    WipeOffNow,
    /// The coat below is dry then, not before.
    Dry(DateTime<Utc>),
    /// The wipe has flashed off, the step before is done, the test can be made.
    Free(DateTime<Utc>),
    /// The last coat has cured then.
    Cured(DateTime<Utc>),
    /// The bench opens.
    BenchOpens,
    /// Dust settles, or a coat of this piece becomes dust-free.
    Dust(PieceId),
    /// A place of the rack comes free.
    Rack,
    /// It would be cut off by a break or by closing time.
    WouldBeCut,
    /// Its window shuts.
    Shuts(DateTime<Utc>),
    /// Nothing else is ready before then.
    NothingElse(DateTime<Utc>),
    /// Nothing else is left to do.
    LastOfAll,
    /// Its job has the least to spare of those that could be worked at.
    LeastSlack(JobId, Duration),
    /// Its job is late already.
    Late(JobId),
    /// The product is set up already.
    SharesSetUp,
    /// It dries while the bench is shut.
    DriesOverNight(DateTime<Utc>),
    /// Its coat has the longest to dry of what could be done.
    LongestToGo,
}

/// The reasons of every step, in the order of `order` (steps by time).
pub fn reasons(
    floor: &Floor<'_>,
    works: &[PieceWork],
    built: &Built,
    times: &[(i64, i64)],
    order: &[usize],
) -> Vec<Vec<Why>> {
    let asked = Asked {
        floor,
        works,
        built,
        times,
        order,
    };
    (0..order.len()).map(|place| asked.of(place)).collect()
}

struct Asked<'a, 'f> {
    floor: &'a Floor<'f>,
    works: &'a [PieceWork],
    built: &'a Built,
    times: &'a [(i64, i64)],
    order: &'a [usize],
}

impl Asked<'_, '_> {
    fn of(&self, place: usize) -> Vec<Why> {
        let op = self.order[place];
        let step = &self.built.instance.ops[op];
        if step.done.is_some() {
            let under = self.floor.book.under_way;
            let is = under.is_some_and(|under| Some(under.key) == self.key(op));
            return vec![if is { Why::UnderWay } else { Why::WipeOffNow }];
        }
        let mut out = Vec::new();
        out.extend(self.held_until(place, op));
        out.extend(self.chosen(place, op));
        out
    }

    fn key(&self, op: usize) -> Option<crate::shop::sheet_kept::StepKey> {
        let OpIs::Todo(piece, at) = self.built.ops[op] else {
            return None;
        };
        Some(self.works[piece].todos[at].key)
    }

    fn at(&self, minute: i64) -> DateTime<Utc> {
        self.built.axis.at(minute)
    }

    /// What kept it from starting sooner, where the hands were free before it.
    fn held_until(&self, place: usize, op: usize) -> Option<Why> {
        let start = self.times[op].0;
        let before = place
            .checked_sub(1)
            .map(|before| self.times[self.order[before]].1);
        let hands = before.unwrap_or(i64::MIN).max(self.built.instance.now.0);
        if hands >= start {
            return None;
        }
        let free = self.built.free_from(self.times, op);
        if free > hands && start - free < 30 && self.is_open(free) {
            let step = self.key(op)?.step;
            return Some(match step {
                StepCode::Coat(..) | StepCode::Scuff(..) => Why::Dry(self.at(free)),
                StepCode::Set => Why::Cured(self.at(free)),
                _ => Why::Free(self.at(free)),
            });
        }
        let opens = self
            .built
            .instance
            .calendar
            .iter()
            .any(|window| window.open.0 == start);
        if opens {
            let could = self.is_open(hands.max(free)) && !self.built.instance.ops[op].split;
            return Some(if could {
                Why::WouldBeCut
            } else {
                Why::BenchOpens
            });
        }
        self.dust(op).or(Some(Why::Rack))
    }

    fn is_open(&self, at: i64) -> bool {
        let calendar = &self.built.instance.calendar;
        calendar
            .iter()
            .any(|window| window.open.0 <= at && at < window.close.0)
    }

    /// The piece whose coat or dust held it.
    fn dust(&self, op: usize) -> Option<Why> {
        let (start, step) = (self.times[op].0, &self.built.instance.ops[op]);
        self.built
            .instance
            .ops
            .iter()
            .enumerate()
            .find_map(|(other, o)| {
                let end = self.times[other].1;
                if o.room != step.room || other == op {
                    return None;
                }
                let wet = step.dust && o.wet.0 > 0 && end + o.wet.0 == start;
                let dusty = step.wet.0 > 0 && o.dust && end + o.settle.0 == start;
                if !(wet || dusty) {
                    return None;
                }
                let piece = match self.built.ops[other] {
                    OpIs::Todo(piece, _) => self.works.get(piece).map(|work| work.piece),
                    OpIs::Past => None,
                };
                Some(Why::Dust(piece.or_else(|| Some(self.key(op)?.piece))?))
            })
    }

    /// Why it and nothing else.
    fn chosen(&self, place: usize, op: usize) -> Vec<Why> {
        let start = self.times[op].0;
        let facts = self.built.facts(self.times, self.order, op);
        let mut out = Vec::new();
        // The scuff goes before the coat whose window runs down.
        let shuts = facts.shuts.or_else(|| self.shuts_next(op));
        if let Some(shuts) = shuts
            && start <= shuts
            && shuts - start < 24 * 60
        {
            out.push(Why::Shuts(self.at(shuts)));
        }
        let later = &self.order[place + 1..];
        if later.is_empty() {
            out.push(Why::LastOfAll);
            return out;
        }
        // A step that waits for one on this list is no choice at this moment.
        let could: Vec<usize> = later
            .iter()
            .copied()
            .filter(|other| self.built.free_from(self.times, *other) <= start)
            .collect();
        if could.is_empty() {
            let next = later
                .iter()
                .filter(|other| !self.follows(op, **other))
                .map(|other| self.built.free_from(self.times, *other))
                .min();
            if let Some(next) = next.filter(|next| *next > start) {
                out.push(Why::NothingElse(self.at(next)));
            }
            return out;
        }
        let family = self.built.instance.ops[op].family;
        if family.is_some() && facts.setup == 0 {
            out.push(Why::SharesSetUp);
        }
        out.extend(self.by_slack(op, &could));
        if let Some(dry) = facts.next_from
            && out.len() < 2
            && !self.is_open(dry - 1)
        {
            out.push(Why::DriesOverNight(self.at(dry)));
        }
        if out.is_empty() && facts.next_from.is_some() {
            out.push(Why::LongestToGo);
        }
        out
    }

    /// The window that the next step of the piece has to keep.
    fn shuts_next(&self, op: usize) -> Option<i64> {
        let OpIs::Todo(piece, at) = self.built.ops[op] else {
            return None;
        };
        let step = self.works[piece].todos[at].key.step;
        if !matches!(step, StepCode::Scuff(..)) {
            return None;
        }
        let next = self
            .built
            .ops
            .iter()
            .position(|is| *is == OpIs::Todo(piece, at + 1))?;
        self.built.facts(self.times, self.order, next).shuts
    }

    /// Whether `other` comes after `op` on the same piece.
    fn follows(&self, op: usize, other: usize) -> bool {
        match (self.built.ops[op], self.built.ops[other]) {
            (OpIs::Todo(piece, at), OpIs::Todo(other, later)) => piece == other && later > at,
            _ => false,
        }
    }

    fn slack(&self, op: usize) -> Option<(JobId, i64)> {
        let id = self.built.instance.ops[op].job;
        let job = self.built.instance.jobs.iter().find(|job| job.id == id)?;
        if job.weight == 0 {
            return None;
        }
        let of_job = self.built.instance.ops.iter().zip(self.times);
        let end = of_job
            .filter(|(op, _)| op.job == id)
            .map(|(_, (_, end))| *end)
            .max()?;
        let at = usize::try_from(id.0).ok()?;
        Some((*self.built.jobs.get(at)?, job.due.0 - end))
    }

    fn by_slack(&self, op: usize, could: &[usize]) -> Option<Why> {
        let (job, slack) = self.slack(op)?;
        if slack < 0 {
            return Some(Why::Late(job));
        }
        let least = could
            .iter()
            .filter_map(|other| self.slack(*other))
            .filter(|(other, _)| *other != job)
            .all(|(_, other)| other >= slack);
        let others = could
            .iter()
            .any(|other| self.slack(*other).is_none_or(|(other, _)| other != job));
        (least && others).then(|| Why::LeastSlack(job, Duration::minutes(slack)))
    }
}
