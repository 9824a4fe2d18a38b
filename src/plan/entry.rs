//! The way in: search for an order, or run a given one.

use super::decode::Decoder;
use super::instance::{Instance, JobId, Minute, OpId};
use super::instance_check::InstanceError;
use super::model::Model;
use super::search::Search;
use super::sheet::{Order, Sheet, Times};
use super::tally::Cost;
use std::collections::{HashMap, HashSet};
use std::sync::atomic::{AtomicBool, Ordering};

/// How the search is run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SearchSettings {
    /// Where chance begins: the same seed finds the same sheet.
    pub seed: u64,
    /// Most moves that are tried, by each thread. With none there are only first orders by rules.
    pub iterations: u64,
    /// How many searches run side by side, each with its own chance from the seed; at least one.
    pub threads: u8,
    /// How many minutes of earlier ends, summed over the jobs, are worth another order than the
    /// baseline, when lateness is the same.
    pub worth: Minute,
}

impl Default for SearchSettings {
    fn default() -> Self {
        Self {
            seed: 1,
            iterations: 50_000,
            threads: 1,
            worth: Minute(240),
        }
    }
}

/// The planner.
#[derive(Debug, Clone, Copy)]
pub struct Plan;

impl Plan {
    /// The best sheet found. With a baseline (the order of the sheet before) its order is kept
    /// unless another is less late, or ends sooner by more than `worth`. `stop` is asked now and
    /// then; once it says so the best sheet so far is given.
    ///
    /// # Errors
    /// [`InstanceError`] when the instance makes no sense.
    pub fn search(
        instance: &Instance,
        settings: &SearchSettings,
        baseline: Option<&Order>,
        stop: &mut dyn FnMut() -> bool,
    ) -> Result<Sheet, InstanceError> {
        let model = Model::new(instance)?;
        let kept = baseline.map(|order| merged(&model, order));
        let (best, cost) = side_by_side(&model, settings, kept.as_deref(), stop);
        let order = match kept {
            Some(kept) if !worth_it(&model, &kept, cost, settings) => kept,
            _ => best,
        };
        Ok(sheet(instance, &model, &order))
    }
}

/// Whether another order is better enough to leave the one that was kept.
fn worth_it(model: &Model, kept: &[usize], best: Cost, settings: &SearchSettings) -> bool {
    let mut decoder = Decoder::new(model);
    decoder.pass(model, kept, &places(kept));
    let kept = decoder.cost;
    (best.broken, best.late) < (kept.broken, kept.late)
        || best.ends < kept.ends.saturating_sub(settings.worth.0)
}

/// Runs the searches; the best order of the first of those that found the least cost.
fn side_by_side(
    model: &Model,
    settings: &SearchSettings,
    kept: Option<&[usize]>,
    stop: &mut dyn FnMut() -> bool,
) -> (Vec<usize>, Cost) {
    let stopped = AtomicBool::new(false);
    let moves = settings.iterations;
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..settings.threads)
            .map(|number| {
                let stopped = &stopped;
                let seed = settings.seed ^ (u64::from(number) << 56);
                scope.spawn(move || {
                    let mut stop = || stopped.load(Ordering::Relaxed);
                    Search::new(model, seed, moves, &mut stop).run(kept)
                })
            })
            .collect();
        let mut ask = || {
            let stop = stop();
            if stop {
                stopped.store(true, Ordering::Relaxed);
            }
            stop
        };
        let mut best = Search::new(model, settings.seed, moves, &mut ask).run(kept);
        while others.iter().any(|other| !other.is_finished()) && !ask() {
            std::thread::yield_now();
        }
        for other in others {
            // A search that came to grief has nothing to add to the others.
            if let Ok(found) = other.join()
                && found.1 < best.1
            {
                best = found;
            }
        }
        best
    })
}

/// The sheet of a given order: steps the order does not name come in as soon as what waits for
/// them, or at the end; names that are done or unknown are passed over.
///
/// # Errors
/// [`InstanceError`] when the instance makes no sense.
pub fn replay(instance: &Instance, order: &Order) -> Result<Sheet, InstanceError> {
    let model = Model::new(instance)?;
    let order = merged(&model, order);
    Ok(sheet(instance, &model, &order))
}

fn places(order: &[usize]) -> Vec<usize> {
    let mut places = vec![0; order.len()];
    for (place, &step) in order.iter().enumerate() {
        places[step] = place;
    }
    places
}

fn sheet(instance: &Instance, model: &Model, order: &[usize]) -> Sheet {
    let mut decoder = Decoder::new(model);
    decoder.pass(model, order, &places(order));
    let times = Times {
        start: &decoder.start,
        end: &decoder.end,
        job_ends: decoder.job_ends(),
    };
    Sheet::new(instance, model, order, &times)
}

/// All steps to do, as far as can be in the order given.
fn merged(model: &Model, order: &Order) -> Vec<usize> {
    let todo = model.ids.iter().take(model.len()).enumerate();
    let index: HashMap<OpId, usize> = todo.map(|(step, id)| (*id, step)).collect();
    let named = order.0.iter().filter_map(|id| index.get(id).copied());
    let mut merged = Vec::with_capacity(model.len());
    let mut taken = HashSet::new();
    for step in named.chain(model.topological.iter().copied()) {
        // What it waits for comes first, the deepest before all.
        let mut stack = vec![step];
        while let Some(&top) = stack.last() {
            let missing = |from: &usize| *from < model.len() && !taken.contains(from);
            let waits = model.preds(top).iter().map(|pred| pred.from).find(missing);
            if let Some(from) = waits {
                stack.push(from);
                continue;
            }
            stack.pop();
            if taken.insert(top) {
                merged.push(top);
            }
        }
    }
    merged
}

/// Runs one order again and again with other figures, quickly: for simulation.
#[derive(Debug, Clone)]
pub struct Replayer {
    model: Model,
    order: Vec<usize>,
    place_of: Vec<usize>,
    decoder: Decoder,
    index: HashMap<OpId, usize>,
    jobs: Vec<JobId>,
}

impl Replayer {
    /// Makes ready to run `order`.
    ///
    /// # Errors
    /// [`InstanceError`] when the instance makes no sense.
    pub fn new(instance: &Instance, order: &Order) -> Result<Self, InstanceError> {
        let model = Model::free(instance)?;
        let order = merged(&model, order);
        let todo = model.ids.iter().take(model.len()).enumerate();
        Ok(Self {
            index: todo.map(|(step, id)| (*id, step)).collect(),
            place_of: places(&order),
            decoder: Decoder::new(&model),
            jobs: instance.jobs.iter().map(|job| job.id).collect(),
            order,
            model,
        })
    }

    /// From now on the step takes so much work (at least a minute). A step that is not to do is
    /// passed over.
    pub fn set_work(&mut self, op: OpId, work: Minute) {
        if let Some(&step) = self.index.get(&op) {
            self.model.steps[step].work = work.0.max(1);
        }
    }

    /// From now on the coat of the step is open to dust, and on the rack, for so long.
    pub fn set_drying(&mut self, op: OpId, wet: Minute, hold: Minute) {
        if let Some(&step) = self.index.get(&op) {
            let row = &mut self.model.steps[step];
            // A coat stays a coat and a pass without one stays without: what waits is settled.
            row.wet = if row.wet > 0 { wet.0.max(1) } else { 0 };
            row.hold = if row.hold > 0 { hold.0.max(1) } else { 0 };
        }
    }

    /// From now on the shortest lag of an arc is this; its longest lag and its window move along.
    pub fn set_lag(&mut self, from: OpId, to: OpId, min: Minute) {
        self.model.set_lag(from, to, min.0.max(0));
    }

    /// The ends of the jobs with the figures as they stand, in the order of the instance.
    pub fn run(&mut self) -> impl Iterator<Item = (JobId, Minute)> + '_ {
        self.decoder.pass(&self.model, &self.order, &self.place_of);
        let ends = self.decoder.job_ends().iter().map(|&end| Minute(end));
        self.jobs.iter().copied().zip(ends)
    }

    /// When a step starts and ends by the last run.
    pub fn times(&self, op: OpId) -> Option<(Minute, Minute)> {
        let step = *self.index.get(&op)?;
        let (start, end) = (self.decoder.start[step], self.decoder.end[step]);
        Some((Minute(start), Minute(end)))
    }
}
