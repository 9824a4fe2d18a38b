//! From tickets to a planning instance.

use super::axis::Axis;
use super::floor::Floor;
use super::lags::PieceLags;
use super::todo::{Before, Lag, PieceWork, Todo};
use crate::plan;
use crate::plan::{FamilyId, Instance, Minute, OpId, RoomId};
use crate::shop::event::ScuffMeans;
use crate::shop::id::JobId;
use crate::shop::sheet_kept::StepCode;
use crate::shop::step_times::Step;
use chrono::{DateTime, Duration, Utc};

/// The one room of the shop.
const SHOP: RoomId = RoomId(0);
/// The clients' houses: no dust of the shop falls there.
const SITE: RoomId = RoomId(1);
/// A split step has no part shorter than this, minutes (common practice, no source).
const SHORTEST_PART: i64 = 10;

/// What stands behind a step of the instance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OpIs {
    /// A step of a piece, by their places.
    Todo(usize, usize),
    /// A coat on the wood, or dust in the air.
    Past,
}

/// An instance and what stands behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Built {
    /// What is planned.
    pub instance: Instance,
    /// Which minute is when.
    pub axis: Axis,
    /// What each step is: by its name, from zero.
    pub ops: Vec<OpIs>,
    /// What each job is: by its name, from zero.
    pub jobs: Vec<JobId>,
    /// The wait behind each arc: piece, step, and which of what it waits for.
    pub lag_of: Vec<Option<(usize, usize, usize)>>,
    /// What does not fit the bench hours as it should, in words.
    pub doubts: Vec<String>,
}

/// Whether a piece's steps stop where a film does not dry: how many can be planned.
pub fn planned(lags: &PieceLags) -> usize {
    let never = lags.iter().position(|lagged| lagged.never);
    never.unwrap_or(lags.len())
}

/// A step that stands where it is: under way, or not to be put off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pin {
    /// The piece, by its place.
    pub piece: usize,
    /// The step, by its place.
    pub step: usize,
    /// When it starts.
    pub start: DateTime<Utc>,
    /// When it is thought to end.
    pub end: DateTime<Utc>,
    /// Whether it is under way.
    pub under_way: bool,
}

/// Builds the instance over what is left to do. Steps of `chain` are done in its order.
pub fn build(
    floor: &Floor<'_>,
    works: &[PieceWork],
    lags: &[PieceLags],
    pins: &[Pin],
    chain: &[(usize, usize)],
) -> Built {
    let axis = Axis::of(floor.now, floor.zone);
    let busy = pins.iter().map(|pin| pin.end).max();
    let now = busy.map_or(floor.now, |end| end.max(floor.now));
    let mut building = Building {
        floor,
        axis,
        pins,
        out: Built {
            instance: Instance {
                grid: Minute(Axis::GRID),
                now: Minute(axis.up(now)),
                horizon: Minute(0),
                min_chunk: Minute(SHORTEST_PART),
                calendar: Vec::new(),
                rooms: vec![plan::Room {
                    id: SHOP,
                    rack: floor.book.bench.rack,
                }],
                families: Vec::new(),
                jobs: Vec::new(),
                ops: Vec::new(),
                arcs: Vec::new(),
            },
            axis,
            ops: Vec::new(),
            jobs: Vec::new(),
            lag_of: Vec::new(),
            doubts: Vec::new(),
        },
        families: Vec::new(),
    };
    for (place, (work, lags)) in works.iter().zip(lags).enumerate() {
        building.piece(place, work, lags);
    }
    building.chain(chain);
    building.calendar();
    building.long_passes(works);
    building.promises();
    building.out
}

pub(super) struct Building<'a, 'f> {
    pub(super) floor: &'a Floor<'f>,
    pub(super) axis: Axis,
    pins: &'a [Pin],
    pub(super) out: Built,
    families: Vec<FamilyKey>,
}

/// Steps that share a set-up: those of a product, those at a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum FamilyKey {
    Product(crate::coating::ProductId),
    Site(JobId),
}

impl Building<'_, '_> {
    fn piece(&mut self, place: usize, work: &PieceWork, lags: &PieceLags) {
        let count = planned(lags);
        if count == 0 {
            // Its coats may be open to dust all the same.
            if work.laid.is_empty() {
                return;
            }
        }
        let job = self.job(work.job);
        let laid: Vec<OpId> = work.laid.iter().map(|laid| self.laid(job, laid)).collect();
        self.dust(job, work);
        let mut todos: Vec<OpId> = Vec::new();
        for (at, todo) in work.todos.iter().enumerate().take(count) {
            let id = self.todo(job, (place, at), todo, &lags[at]);
            for (no, after) in todo.after.iter().enumerate() {
                let (from, window) = match after.from {
                    Before::Todo(before) => (todos[before], lags[at].window[no]),
                    Before::Laid(past) => {
                        let end = work.laid[past].dries_from;
                        let shuts = after.shuts.map(|shuts| (shuts - end).num_minutes());
                        (laid[past], shuts)
                    }
                };
                let window = window
                    .filter(|_| matches!(todo.key.step, StepCode::Coat(..)))
                    .map(|minutes| Minute(Axis::span_down(minutes)));
                let drying = matches!(after.lag, Lag::Recoat(_) | Lag::Flash(_) | Lag::Cure(..));
                self.out.lag_of.push(drying.then_some((place, at, no)));
                self.out.instance.arcs.push(plan::Arc {
                    from,
                    to: id,
                    min: Minute(Axis::span_up(lags[at].min[no])),
                    max: None,
                    window,
                    extra: Minute(window.map_or(0, |_| self.abrading(work, at))),
                });
            }
            todos.push(id);
        }
    }

    fn op(&mut self, op: plan::Op, is: OpIs) -> OpId {
        let id = op.id;
        self.out.instance.ops.push(op);
        self.out.ops.push(is);
        id
    }

    fn next_id(&self) -> OpId {
        OpId(i64::try_from(self.out.ops.len()).unwrap_or(i64::MAX))
    }

    /// What a coat on the wood still needs: clean air and a place.
    fn laid(&mut self, job: plan::JobId, laid: &super::todo::Laid) -> OpId {
        let end = self.axis.up(laid.dries_from);
        let start = self.axis.down(laid.started).min(end);
        let reach = |span| {
            let gates = &self.floor.gates;
            let product = gates.product(laid.product)?;
            let at = gates.of_coat(&laid.coat, |clock| {
                clock.reached(product, laid.dries_from, span)
            });
            Some(self.axis.up(at) - end)
        };
        let label = self
            .floor
            .product(laid.product)
            .map(|product| &product.label);
        let wet = label.and_then(|label| reach(super::lags::dust_free(label)));
        let hold = label.and_then(|label| {
            reach(
                label
                    .windows
                    .first()
                    .map_or(label.handle, |window| window.opens),
            )
        });
        let tested = laid.coat.recoat_tested.is_some();
        let span = |minutes: Option<i64>| {
            let minutes = if tested { 0 } else { minutes.unwrap_or(0) };
            // Beyond a season it is dust-free or sanded back.
            Minute(minutes.clamp(0, 120 * 24 * 60))
        };
        let op = plan::Op {
            id: self.next_id(),
            job,
            work: Minute(end - start),
            room: SHOP,
            split: false,
            dust: false,
            settle: Minute(0),
            wet: span(wet),
            hold: span(hold),
            family: None,
            release: Minute(start),
            done: Some((Minute(start), Minute(end))),
        };
        self.op(op, OpIs::Past)
    }

    /// Dust that still hangs in the air.
    fn dust(&mut self, job: plan::JobId, work: &PieceWork) {
        let settle = i64::from(self.floor.book.bench.settle);
        let Some(at) = work
            .dusty
            .filter(|at| *at + Duration::minutes(settle) > self.floor.now)
        else {
            return;
        };
        let end = Minute(self.axis.up(at));
        let op = plan::Op {
            id: self.next_id(),
            job,
            work: Minute(0),
            room: SHOP,
            split: false,
            dust: true,
            settle: Minute(Axis::span_up(settle)),
            wet: Minute(0),
            hold: Minute(0),
            family: None,
            release: end,
            done: Some((end, end)),
        };
        self.op(op, OpIs::Past);
    }

    fn todo(
        &mut self,
        job: plan::JobId,
        (piece, at): (usize, usize),
        todo: &Todo,
        lagged: &super::lags::Lagged,
    ) -> OpId {
        let bench = &self.floor.book.bench;
        let step = todo.key.step;
        let work = Axis::work(self.floor.spread(todo).likely);
        let dust = match step {
            StepCode::Sand(_) => Some(bench.settle),
            StepCode::Scuff(..) if todo.means != Some(ScuffMeans::BrownPaper) => {
                Some(bench.settle_scuff)
            }
            _ => None,
        };
        let family = match step {
            StepCode::Coat(..) => todo.product.map(FamilyKey::Product),
            StepCode::Set => Some(FamilyKey::Site(self.out.jobs[index(job)])),
            _ => None,
        };
        let family = family.map(|key| self.family(key));
        let release = todo.ready.map_or(i64::MIN, |ready| self.axis.up(ready));
        let pin = self
            .pins
            .iter()
            .find(|pin| (pin.piece, pin.step) == (piece, at));
        let done = pin.map(|pin| (self.axis.down(pin.start), self.axis.up(pin.end)));
        let op = plan::Op {
            id: self.next_id(),
            job,
            work: Minute(work),
            room: if step == StepCode::Set { SITE } else { SHOP },
            split: matches!(step, StepCode::Sand(_)),
            dust: dust.is_some(),
            settle: Minute(Axis::span_up(dust.map_or(0, i64::from))),
            wet: Minute(Axis::span_up(lagged.wet)),
            hold: Minute(Axis::span_up(lagged.hold)),
            family,
            release: Minute(release.max(self.out.instance.now.0)),
            done: done.map(|(start, end)| (Minute(start), Minute(end))),
        };
        self.op(op, OpIs::Todo(piece, at))
    }

    /// Minutes that a missed window adds to a coat: abrading instead of the scuff.
    fn abrading(&self, work: &PieceWork, at: usize) -> i64 {
        let todo = &work.todos[at];
        let times = &self.floor.book.bench.times;
        let area = crate::units::Area::from_m2(todo.flat.m2() + todo.edge.m2());
        let abrade = times.of(Step::Abrade).over(area).likely;
        let before = at.checked_sub(1).map(|before| work.todos[before].key.step);
        let scuff = match before {
            Some(StepCode::Scuff(..)) => times.of(Step::Scuff).over(area).likely,
            _ => 0.0,
        };
        Axis::work((abrade - scuff).max(1.0))
    }

    fn family(&mut self, key: FamilyKey) -> FamilyId {
        let place = self.families.iter().position(|known| *known == key);
        let place = place.unwrap_or_else(|| {
            let bench = &self.floor.book.bench;
            let (step, keep) = match key {
                FamilyKey::Product(_) => (Step::SetUp, i64::from(bench.keep)),
                // Whoever stays on site needs no second way.
                FamilyKey::Site(_) => (Step::Travel, 15),
            };
            let likely = bench.times.of(step).over(crate::units::Area::ZERO).likely;
            let id = FamilyId(i64::try_from(self.families.len()).unwrap_or(i64::MAX));
            self.out.instance.families.push(plan::Family {
                id,
                setup: Minute(Axis::work(likely)),
                keep: Minute(Axis::span_up(keep)),
            });
            self.families.push(key);
            self.families.len() - 1
        });
        FamilyId(i64::try_from(place).unwrap_or(i64::MAX))
    }

    fn job(&mut self, id: JobId) -> plan::JobId {
        let place = self.out.jobs.iter().position(|known| *known == id);
        let place = place.unwrap_or_else(|| {
            self.out.jobs.push(id);
            self.out.jobs.len() - 1
        });
        plan::JobId(i64::try_from(place).unwrap_or(i64::MAX))
    }
}

fn index(job: plan::JobId) -> usize {
    usize::try_from(job.0).unwrap_or(0)
}
