//! The arcs and the rooms of a model, while it is made.

use super::calendar::NEVER;
use super::instance::{Instance, Minute, Op, OpId, RoomId};
use super::model::{NONE, Pred, Step};
use std::collections::HashMap;

/// The arcs by the step they lead to, and the steps to do by the one they follow.
pub(super) struct Arcs {
    pub(super) preds: Vec<Pred>,
    pred_of: Vec<(usize, usize)>,
    pub(super) succs: Vec<usize>,
    succ_of: Vec<(usize, usize)>,
}

impl Arcs {
    pub(super) fn new(instance: &Instance, ids: &[OpId], todo: usize) -> Self {
        let index: HashMap<OpId, usize> = ids.iter().enumerate().map(|(k, id)| (*id, k)).collect();
        let mut into = vec![Vec::new(); todo];
        let mut out = vec![Vec::new(); todo];
        for arc in &instance.arcs {
            let (Some(&from), Some(&to)) = (index.get(&arc.from), index.get(&arc.to)) else {
                continue;
            };
            if to >= todo {
                continue;
            }
            let longest = |span: Option<Minute>| span.map_or(NEVER, |span| span.0);
            into[to].push(Pred {
                from,
                min: arc.min.0,
                max: longest(arc.max),
                window: longest(arc.window),
                extra: arc.extra.0,
            });
            if from < todo {
                out[from].push(to);
            }
        }
        let (preds, pred_of) = rows(into);
        let (succs, succ_of) = rows(out);
        Self {
            preds,
            pred_of,
            succs,
            succ_of,
        }
    }

    fn preds(&self, step: usize) -> &[Pred] {
        &self.preds[self.pred_of[step].0..self.pred_of[step].1]
    }

    fn succs(&self, step: usize) -> &[usize] {
        &self.succs[self.succ_of[step].0..self.succ_of[step].1]
    }

    pub(super) fn topological(&self, todo: usize) -> Vec<usize> {
        let ahead = |step: usize| self.preds(step).iter().filter(|p| p.from < todo).count();
        let mut waits: Vec<usize> = (0..todo).map(ahead).collect();
        let mut order: Vec<usize> = (0..todo).filter(|&step| waits[step] == 0).collect();
        let mut at = 0;
        while at < order.len() {
            for &next in self.succs(order[at]) {
                waits[next] -= 1;
                if waits[next] == 0 {
                    order.push(next);
                }
            }
            at += 1;
        }
        order
    }

    /// Tells each step what of its own job waits for it, and what must follow it soon.
    pub(super) fn tie(&self, steps: &mut [Step]) {
        for step in 0..steps.len() {
            for pred in self.preds(step) {
                if pred.from >= steps.len() {
                    continue;
                }
                if steps[pred.from].job == steps[step].job {
                    steps[pred.from].last = false;
                }
                if pred.max < NEVER {
                    steps[pred.from].binds += 1;
                }
            }
        }
    }
}

/// One row after the other, and where each begins and ends.
fn rows<T>(all: Vec<Vec<T>>) -> (Vec<T>, Vec<(usize, usize)>) {
    let mut flat = Vec::new();
    let mut spans = Vec::with_capacity(all.len());
    for row in all {
        let from = flat.len();
        flat.extend(row);
        spans.push((from, flat.len()));
    }
    (flat, spans)
}

/// The rooms, with what hangs in the air and stands on the racks as things are.
pub(super) struct Rooms {
    pub(super) names: HashMap<RoomId, usize>,
    racks: HashMap<RoomId, (usize, usize)>,
    pub(super) dust_until: Vec<i64>,
    pub(super) wet_until: Vec<i64>,
    pub(super) places: Vec<i64>,
}

impl Rooms {
    pub(super) fn new(instance: &Instance, todo: &[&Op], done: &[&Op]) -> Self {
        let mut names = HashMap::new();
        for op in todo.iter().chain(done) {
            let next = names.len();
            names.entry(op.room).or_insert(next);
        }
        let mut dust_until = vec![-NEVER; names.len()];
        let mut wet_until = vec![-NEVER; names.len()];
        for op in done {
            let room = names.get(&op.room).copied().unwrap_or_default();
            let end = op.done.map_or(-NEVER, |(_, end)| end.0);
            if op.dust {
                dust_until[room] = dust_until[room].max(end + op.settle.0);
            }
            if op.wet.0 > 0 {
                wet_until[room] = wet_until[room].max(end + op.wet.0);
            }
        }
        let (mut racks, mut places) = (HashMap::new(), Vec::new());
        for room in &instance.rooms {
            let holds = |op: &&&Op| op.room == room.id && op.hold.0 > 0;
            let free = |op: &&Op| op.done.map_or(-NEVER, |(_, end)| end.0 + op.hold.0);
            let mut taken: Vec<i64> = done.iter().filter(holds).map(free).collect();
            let most = todo.iter().filter(holds).count() + taken.len();
            let Some(rack) = room.rack.and_then(|rack| usize::try_from(rack).ok()) else {
                continue;
            };
            if rack >= most || rack == 0 {
                continue;
            }
            taken.resize(taken.len().max(rack), -NEVER);
            taken.sort_unstable();
            racks.insert(room.id, (places.len(), rack));
            places.extend_from_slice(&taken[taken.len() - rack..]);
        }
        Self {
            names,
            racks,
            dust_until,
            wet_until,
            places,
        }
    }

    pub(super) fn step(&self, instance: &Instance, op: &Op, arcs: &Arcs, k: usize) -> Step {
        let family = instance
            .families
            .iter()
            .enumerate()
            .find(|(_, family)| Some(family.id) == op.family);
        let rack = self.racks.get(&op.room).filter(|_| op.hold.0 > 0);
        let preds = arcs.preds(k);
        Step {
            work: op.work.0,
            release: op.release.0,
            settle: op.settle.0,
            wet: op.wet.0,
            hold: op.hold.0,
            setup: family.map_or(0, |(_, family)| family.setup.0),
            keep: family.map_or(0, |(_, family)| family.keep.0),
            family: family.map_or(NONE, |(index, _)| index),
            room: self.names.get(&op.room).copied().unwrap_or_default(),
            rack: rack.map_or(NONE, |&(from, _)| from),
            places: rack.map_or(0, |&(_, places)| places),
            job: 0,
            split: op.split,
            dust: op.dust,
            windows: preds.iter().filter(|pred| pred.window < NEVER).count(),
            bounds: preds.iter().filter(|pred| pred.max < NEVER).count(),
            binds: 0,
            pred: arcs.pred_of[k],
            succ: arcs.succ_of[k],
            share: 0,
            latest: 0,
            last: true,
        }
    }
}
