//! What kept a step from starting sooner.

use super::calendar::NEVER;
use super::instance::{Minute, OpId};
use super::model::{Model, NONE};
use super::sheet::Times;

/// What kept a step from starting sooner, in the order of the sheet: the last thing to let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Nothing: it starts as soon as there is anything to plan.
    Free,
    /// It, or its job, is not there before.
    Release {
        /// From when it may start.
        until: Minute,
    },
    /// The hands are at another step.
    Hands {
        /// Which.
        with: OpId,
        /// Until when.
        until: Minute,
    },
    /// What a step before it left has to dry, or just to be done.
    Lag {
        /// The step.
        after: OpId,
        /// Until when.
        until: Minute,
    },
    /// It makes dust, and a coat in the room is still open to dust.
    WetCoat {
        /// The step that laid the coat.
        coat: OpId,
        /// Until when.
        until: Minute,
    },
    /// It lays a coat, and dust still hangs in the room.
    Dust {
        /// The step that made it.
        from: OpId,
        /// Until when.
        until: Minute,
    },
    /// No place on the rack is free before the coat would have to go there.
    Rack {
        /// The step whose piece leaves its place.
        by: OpId,
        /// When it leaves.
        until: Minute,
    },
    /// The bench is closed, or what is left of its hours is too short.
    Bench {
        /// When the hours begin that it starts in.
        until: Minute,
    },
    /// It would go sooner, but the step after it could not follow in time.
    Follower {
        /// The step that must follow soon.
        follower: OpId,
    },
}

impl Held {
    pub(super) fn find(model: &Model, order: &[usize], at: usize, times: &Times) -> Self {
        let step = order[at];
        let row = &model.steps[step];
        let start = times.start[step];
        let (mut floor, mut held) = (model.from, Self::Free);
        let mut raise = |until: i64, why: Self| {
            if until > floor {
                (floor, held) = (until, why);
            }
        };
        let release = Minute(row.release);
        raise(row.release, Self::Release { until: release });
        for pred in model.preds(step) {
            let until = times.end[pred.from] + pred.min;
            let after = model.ids[pred.from];
            raise(
                until,
                Self::Lag {
                    after,
                    until: Minute(until),
                },
            );
        }
        for other in earlier(model, order, at) {
            if other.room != row.room {
                continue;
            }
            let end = times.end[other.step];
            let id = model.ids[other.step];
            if row.dust && other.wet > 0 {
                let until = Minute(end + other.wet);
                raise(until.0, Self::WetCoat { coat: id, until });
            }
            if row.wet > 0 && other.dust {
                let until = Minute(end + other.settle);
                raise(until.0, Self::Dust { from: id, until });
            }
        }
        if let Some(before) = at.checked_sub(1).map(|before| order[before]) {
            let until = Minute(times.end[before]);
            let with = model.ids[before];
            raise(until.0, Self::Hands { with, until });
        }
        if start <= floor {
            return held;
        }
        held = Self::rack(model, order, at, times, floor).unwrap_or(held);
        let bench = model.calendar.opening(start);
        if bench > floor && bench == start {
            let until = Minute(bench);
            return Self::Bench { until };
        }
        if matches!(held, Self::Rack { .. }) {
            return held;
        }
        let follows = |next: &&usize| {
            let tied = |pred: &super::model::Pred| pred.from == step && pred.max < NEVER;
            model.preds(**next).iter().any(tied)
        };
        match model.succs(step).iter().find(follows) {
            Some(&next) => Self::Follower {
                follower: model.ids[next],
            },
            None => held,
        }
    }

    /// The piece that leaves the rack just when this one comes, when the rack is full until then.
    fn rack(model: &Model, order: &[usize], at: usize, times: &Times, floor: i64) -> Option<Self> {
        let step = order[at];
        let row = &model.steps[step];
        if row.rack == NONE {
            return None;
        }
        let end = times.end[step];
        // On a coarse grid it may come somewhat after the place is free.
        let free = |other: &Left| times.end[other.step] + other.hold;
        earlier(model, order, at)
            .filter(|other| other.room == row.room && other.hold > 0)
            .filter(|other| free(other) <= end && free(other) > floor + (end - times.start[step]))
            .max_by_key(free)
            .map(|other| Self::Rack {
                by: model.ids[other.step],
                until: Minute(free(&other)),
            })
    }
}

/// What a step leaves behind.
struct Left {
    step: usize,
    room: usize,
    dust: bool,
    settle: i64,
    wet: i64,
    hold: i64,
}

/// The steps before position `at`, done ones among them.
fn earlier<'a>(model: &'a Model, order: &'a [usize], at: usize) -> impl Iterator<Item = Left> + 'a {
    let todo = order[..at].iter().map(|&step| {
        let row = &model.steps[step];
        Left {
            step,
            room: row.room,
            dust: row.dust,
            settle: row.settle,
            wet: row.wet,
            hold: row.hold,
        }
    });
    let done = model.left.iter().enumerate().map(|(k, left)| Left {
        step: model.len() + k,
        room: left.room,
        dust: left.dust,
        settle: left.settle,
        wet: left.wet,
        hold: left.hold,
    });
    done.chain(todo)
}
