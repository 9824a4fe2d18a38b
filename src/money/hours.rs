//! The hours of a job as a sum by simulation: likely, half and eight in ten.

use super::pace::{Pace, SCATTER};
use super::random::Random;
use super::step::StepKind;
use std::collections::BTreeMap;

/// Trials of a simulation.
pub const TRIALS: usize = 4000;
/// The seed: fixed, so that the same job has the same hours on any day and machine.
pub const SEED: u64 = 0x7461_636b;

/// One kind of step on one piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Work {
    /// Which.
    pub step: StepKind,
    /// How often it is set up for; a part of one where pieces share a set-up.
    pub times: f64,
    /// Size in the step's unit.
    pub size: f64,
}

/// Hours in minutes: likely, and ranges about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoursSpread {
    /// As likely to be more as to be less.
    pub likely: f64,
    /// Half of such jobs lie in here.
    pub half: (f64, f64),
    /// Eight in ten.
    pub most: (f64, f64),
}

/// Time at work in hours and minutes, never in days: `27 h 5 min`.
pub fn work_words(minutes: i64) -> String {
    let (sign, size) = (if minutes < 0 { "-" } else { "" }, minutes.unsigned_abs());
    match (size / 60, size % 60) {
        (0, minutes) => format!("{sign}{minutes} min"),
        (hours, 0) => format!("{sign}{hours} h"),
        (hours, minutes) => format!("{sign}{hours} h {minutes} min"),
    }
}

/// A job's hours as simulated.
#[derive(Debug, Clone, PartialEq)]
pub struct Simulated {
    /// Every trial's minutes, rising.
    sums: Vec<f64>,
    /// Mean minutes of each step.
    pub means: BTreeMap<StepKind, f64>,
}

/// Sums the work of a job. The pace of a step is drawn once a trial (it is the same shop on every
/// piece), its scatter for every piece; steps without a pace are left out.
pub fn simulate(work: &[Work], paces: &BTreeMap<StepKind, Pace>, seed: u64) -> Simulated {
    let mut random = Random::new(seed);
    let steps: Vec<(StepKind, Pace, Vec<&Work>)> = paces
        .iter()
        .map(|(step, pace)| {
            let of: Vec<&Work> = work.iter().filter(|work| work.step == *step).collect();
            (*step, *pace, of)
        })
        .filter(|(_, _, of)| !of.is_empty())
        .collect();
    let mut totals: BTreeMap<StepKind, f64> = BTreeMap::new();
    let mut sums = Vec::with_capacity(TRIALS);
    for _ in 0..TRIALS {
        let mut sum = 0.0;
        for (step, pace, of) in &steps {
            let (fixed, rate) = drawn(pace, &mut random);
            let mut minutes = 0.0;
            for work in of {
                // A factor of mean one, never below nothing.
                let scatter = (SCATTER * random.normal() - SCATTER * SCATTER / 2.0).exp();
                minutes += (work.times * fixed + work.size * rate) * scatter;
            }
            *totals.entry(*step).or_default() += minutes;
            sum += minutes;
        }
        sums.push(sum);
    }
    sums.sort_by(f64::total_cmp);
    let means = totals
        .into_iter()
        .map(|(step, sum)| (step, sum / TRIALS as f64))
        .collect();
    Simulated { sums, means }
}

/// Fixed and rate drawn from what is known of them, at least a twentieth of their mean.
fn drawn(pace: &Pace, random: &mut Random) -> (f64, f64) {
    let (ff, fr, rr) = pace.spread;
    let first = ff.max(0.0).sqrt();
    let cross = if first > 0.0 { fr / first } else { 0.0 };
    let second = (rr - cross * cross).max(0.0).sqrt();
    let (a, b) = (random.normal(), random.normal());
    let least = |value: f64, mean: f64| value.max(mean / 20.0);
    (
        least(pace.fixed + first * a, pace.fixed),
        least(pace.rate + cross * a + second * b, pace.rate),
    )
}

impl Simulated {
    /// The minutes that such a share of trials does not exceed.
    pub fn quantile(&self, share: f64) -> f64 {
        let last = self.sums.len().saturating_sub(1);
        let at = share.clamp(0.0, 1.0) * last as f64;
        let below = at.floor();
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between nought and the count of trials"
        )]
        let low = below as usize;
        let value = |i: usize| self.sums.get(i.min(last)).copied().unwrap_or(0.0);
        value(low) + (at - below) * (value(low + 1) - value(low))
    }

    /// Likely, half, eight in ten.
    pub fn spread(&self) -> HoursSpread {
        HoursSpread {
            likely: self.quantile(0.5),
            half: (self.quantile(0.25), self.quantile(0.75)),
            most: (self.quantile(0.1), self.quantile(0.9)),
        }
    }
}
