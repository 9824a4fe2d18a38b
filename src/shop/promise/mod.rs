//! When a job can be set, as odds: the work is simulated over drying, step times and interruptions.
//!
//! Lives here: the simulation and what it assumes. The sheet gives the order; in each run the hands
//! do, whenever they are free, the first step of that order that can be done. May not live here:
//! what is kept of promises (`promise_record`), the store, a clock, chance without a seed.
//!
//! Assumed, and said with every quote:
//! - drying lies between the likely and the safe clock, with a tail a fifth beyond the safe one: the
//!   same way over the whole run by half (the air turns out otherwise than foretold), by half coat
//!   by coat; touch tests tell when a coat is dry;
//! - a kind of step goes fast or slow through a whole run, inside its range, and each step differs by
//!   up to a seventh on top;
//! - interruptions come at the shop's rate and lengthen the step they fall into.

mod what_if;

pub use what_if::{Answered, WhatIf, what_ifs};

use super::day_sheet::{Course, Effort, Floor, Made, OpIs, Truth, lags_of, make};
use super::id::JobId;
use crate::coating::DryingClock;
use crate::shop::chance::{Chance, triangular};
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};

/// When a job was set in each run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Odds {
    /// The days, earliest first, with the number of runs that ended on each.
    days: BTreeMap<NaiveDate, u32>,
    /// The moments, earliest first.
    ends: Vec<DateTime<Utc>>,
    runs: u32,
}

/// 9 in 10, in thousandths.
pub const NINE: u16 = 900;
/// Even, in thousandths.
pub const EVEN: u16 = 500;

impl Odds {
    /// How many runs.
    pub fn runs(&self) -> u32 {
        self.runs
    }

    /// The odds of being set on this day or before, thousandths.
    pub fn of(&self, day: NaiveDate) -> u16 {
        let by: u32 = self.days.range(..=day).map(|(_, runs)| runs).sum();
        u16::try_from(u64::from(by) * 1000 / u64::from(self.runs.max(1))).unwrap_or(1000)
    }

    /// The moment by which it was set in this share of the runs, thousandths.
    pub fn moment(&self, odds: u16) -> Option<DateTime<Utc>> {
        let place = (self.ends.len() * usize::from(odds)).div_ceil(1000);
        self.ends.get(place.max(1) - 1).copied()
    }

    /// The first day with at least these odds.
    pub fn day(&self, odds: u16) -> Option<NaiveDate> {
        let found = self.days.keys().find(|day| self.of(**day) >= odds);
        found.or_else(|| self.days.keys().next_back()).copied()
    }

    /// Every day some run ended on, with the odds by then, thousandths.
    pub fn table(&self) -> Vec<(NaiveDate, u16)> {
        self.days.keys().map(|day| (*day, self.of(*day))).collect()
    }
}

/// Simulates the shop `runs` times and says when `job` was set. `likely` is the likely twin of the
/// floor's clock. None where the job holds: its sheet has no end.
pub fn odds(
    floor: &Floor<'_>,
    likely: &dyn DryingClock,
    job: JobId,
    (runs, effort): (u32, Effort),
    stop: &AtomicBool,
) -> Option<Odds> {
    let made = make(floor, effort, stop);
    made.sheet
        .jobs
        .iter()
        .find(|outlook| outlook.job == job)?
        .end?;
    let mut chance = Chance::new(effort.seed ^ 0x5EED_0F0D_D500);
    let mut days = BTreeMap::new();
    let mut moments = Vec::new();
    let mut done = 0;
    for end in ends(floor, likely, &made, job, runs, &mut chance) {
        if stop.load(Ordering::Relaxed) && done >= 50 {
            break;
        }
        *days.entry(floor.day_of(end)).or_insert(0) += 1;
        moments.push(end);
        done += 1;
    }
    moments.sort_unstable();
    (done > 0).then_some(Odds {
        days,
        ends: moments,
        runs: done,
    })
}

/// Minutes of a wait by the likely clock and by the safe one.
type Wait = (f64, f64);

fn ends<'a>(
    floor: &'a Floor<'_>,
    likely: &dyn DryingClock,
    made: &'a Made,
    job: JobId,
    runs: u32,
    chance: &'a mut Chance,
) -> impl Iterator<Item = DateTime<Utc>> + 'a {
    let instance = &made.built.instance;
    let course = Course::new(instance).by_the_minute();
    let rank = rank(&made.times);
    let waits = waits(floor, likely, made);
    let mine: Vec<usize> = (0..instance.ops.len())
        .filter(|op| match made.built.ops[*op] {
            OpIs::Todo(piece, _) => made.works[piece].job == job,
            OpIs::Past => false,
        })
        .collect();
    (0..runs).filter_map(move |_| {
        let truth = draw(floor, made, &waits, chance);
        let times = course.run(&rank, &truth);
        let end = mine.iter().map(|op| times[*op].1).max()?;
        Some(made.built.axis.at(end))
    })
}

/// The order of the sheet.
fn rank(times: &[(i64, i64)]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..times.len()).collect();
    order.sort_by_key(|op| (times[*op], *op));
    let mut rank = vec![0; times.len()];
    for (no, op) in order.into_iter().enumerate() {
        rank[op] = no;
    }
    rank
}

/// The waits of the instance's arcs by both clocks.
fn waits(floor: &Floor<'_>, likely: &dyn DryingClock, made: &Made) -> Vec<Wait> {
    let hopeful = Floor {
        gates: super::Gates {
            clock: likely,
            ..floor.gates
        },
        ..*floor
    };
    let quick = lags_of(&hopeful, made);
    let arcs = made.built.instance.arcs.iter();
    arcs.enumerate()
        .map(|(no, arc)| {
            let of = made.built.lag_of.get(no).copied().flatten();
            // To the minute, not to the grid of the sheet.
            let safe = of.and_then(|(piece, at, after)| {
                made.lags
                    .get(piece)?
                    .get(at)?
                    .min
                    .get(after)
                    .map(|min| *min as f64)
            });
            let safe = safe.unwrap_or(arc.min.0 as f64);
            let quick = of.and_then(|(piece, at, after)| {
                quick
                    .get(piece)?
                    .get(at)?
                    .min
                    .get(after)
                    .map(|min| *min as f64)
            });
            (quick.unwrap_or(safe).min(safe), safe)
        })
        .collect()
}

/// What one run takes in truth.
fn draw(floor: &Floor<'_>, made: &Made, waits: &[Wait], chance: &mut Chance) -> Truth {
    let instance = &made.built.instance;
    let mut truth = Truth::as_planned(instance);
    let air = chance.unit();
    for (min, (quick, safe)) in truth.min.iter_mut().zip(waits) {
        if safe > quick {
            let own = chance.unit();
            let way = |u| triangular((0.0, 0.6, 1.2), u);
            let far = f64::midpoint(way(air), way(own));
            *min = whole(quick + far * (safe - quick));
        }
    }
    let mut pace: BTreeMap<super::Step, f64> = BTreeMap::new();
    let bench = &floor.book.bench;
    let often = f64::from(bench.interruptions.in_ten_days) / 10.0;
    let [low, usual, high] = bench.interruptions.minutes.minutes();
    // A bench day of eight hours, by which interruptions are counted.
    let per_minute = often / 480.0;
    for (op, is) in made.built.ops.iter().enumerate() {
        let OpIs::Todo(piece, at) = *is else { continue };
        if instance.ops[op].done.is_some() {
            continue;
        }
        let todo = &made.works[piece].todos[at];
        let spread = floor.spread(todo);
        let u = *pace
            .entry(floor.step_kind(todo))
            .or_insert_with(|| chance.unit());
        let base = triangular((spread.low, spread.likely, spread.high), u);
        let minutes = base * (1.0 + (chance.unit() - 0.5) * 2.0 / 7.0);
        let lost: f64 = (0..chance.count(minutes * per_minute))
            .map(|_| triangular((low, usual, high), chance.unit()))
            .sum();
        truth.work[op] = whole(minutes + lost).max(1);
    }
    truth
}

/// To the nearest whole minute.
#[allow(
    clippy::cast_possible_truncation,
    reason = "held within a million on the same line"
)]
fn whole(minutes: f64) -> i64 {
    minutes.clamp(0.0, 1e6).round() as i64
}
