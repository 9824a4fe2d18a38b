//! This shop's own pace at one kind of step: fixed set-up and rate, learned from its hours log.
//!
//! The estimator: minutes = times x fixed + size x rate, scattered by a quarter of itself. Prior: fixed
//! and rate independently normal, mean in the middle of the starting range, its ends one standard
//! deviation away (two shops in three lie within). Each logged piece moves both by weighted least squares (the
//! normal conjugate posterior), its variance taken from the pace found so far (three rounds). A
//! piece more than two and a half standard deviations off counts less (Huber 1964), so that one
//! afternoon with the telephone does not make a slow shop. Scatter and limit are judgement.

use super::step::{Start, StepKind};

/// Scatter of one piece's time about the shop's own pace, as a part of it. Judgement.
pub(super) const SCATTER: f64 = 0.25;
/// Beyond so many standard deviations a piece counts less.
const FAR: f64 = 2.5;
/// Half of a range that holds eight in ten, in standard deviations.
const TENTH: f64 = 1.281_55;
/// The newest pieces that count: a pace changes with tools and years.
const NEWEST: usize = 60;

/// What was logged on one piece, all of a kind of step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observed {
    /// How often it was set up for.
    pub times: f64,
    /// Size in the step's unit.
    pub size: f64,
    /// Minutes at work.
    pub minutes: f64,
}

/// A pace: what is known of fixed and rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Minutes of set-up for each time.
    pub fixed: f64,
    /// Minutes per unit of size.
    pub rate: f64,
    /// Variance of fixed, covariance, variance of rate.
    pub spread: (f64, f64, f64),
    /// Pieces it was learned from; none means the starting range.
    pub pieces: usize,
}

fn middle((low, high): (f64, f64)) -> f64 {
    f64::midpoint(low, high)
}

fn deviation((low, high): (f64, f64)) -> f64 {
    ((high - low) / 2.0).max(1e-6)
}

impl Pace {
    /// The prior.
    pub fn starting(start: &Start) -> Self {
        Self {
            fixed: middle(start.fixed),
            rate: middle(start.rate),
            spread: (
                deviation(start.fixed).powi(2),
                0.0,
                deviation(start.rate).powi(2),
            ),
            pieces: 0,
        }
    }

    /// Minutes this pace expects.
    pub fn minutes(&self, times: f64, size: f64) -> f64 {
        times * self.fixed + size * self.rate
    }

    /// A range of eight in ten for fixed and for rate, not below nothing.
    pub fn ranges(&self) -> ((f64, f64), (f64, f64)) {
        let about = |mean: f64, variance: f64| {
            let off = TENTH * variance.sqrt();
            ((mean - off).max(0.0), mean + off)
        };
        let (fixed, _, rate) = self.spread;
        (about(self.fixed, fixed), about(self.rate, rate))
    }

    /// Where it comes from, in words.
    pub fn words(&self, step: StepKind) -> String {
        match (self.pieces, step.start()) {
            (0, Some(start)) => start.source.to_owned(),
            (0, None) => "not estimated".to_owned(),
            (1, _) => "yours, from 1 piece".to_owned(),
            (pieces, _) => format!("yours, from {pieces} pieces"),
        }
    }
}

/// Learns a pace from pieces in the order they were logged; none for work nobody plans.
pub fn learn_pace(step: StepKind, logged: &[Observed]) -> Option<Pace> {
    let start = step.start()?;
    let prior = Pace::starting(&start);
    let usable = |seen: &&Observed| {
        let numbers = [seen.times, seen.size, seen.minutes];
        numbers.iter().all(|n| n.is_finite() && *n >= 0.0)
            && seen.minutes > 0.0
            && seen.times + seen.size > 0.0
    };
    let seen: Vec<&Observed> = logged.iter().filter(usable).collect();
    let seen = &seen[seen.len().saturating_sub(NEWEST)..];
    let mut pace = prior;
    for round in 0..3 {
        if !seen.is_empty() {
            pace = fit(&prior, &pace, seen, round > 0);
        }
    }
    pace.pieces = seen.len();
    Some(pace)
}

/// One round: weights from `so_far`, the rest anew from the prior.
fn fit(prior: &Pace, so_far: &Pace, seen: &[&Observed], limited: bool) -> Pace {
    // The normal equations: fixed with fixed, fixed with rate, rate with rate, and what each is
    // drawn towards.
    let (mut ff, mut fr, mut rr) = (prior.spread.0.recip(), 0.0, prior.spread.2.recip());
    let (mut to_fixed, mut to_rate) = (prior.fixed * ff, prior.rate * rr);
    for of in seen {
        let expects = so_far.minutes(of.times, of.size).max(1.0);
        let deviation = SCATTER * expects;
        let off = (of.minutes - expects).abs() / deviation;
        let limit = if limited && off > FAR { FAR / off } else { 1.0 };
        let weight = limit / deviation.powi(2);
        ff += weight * of.times * of.times;
        fr += weight * of.times * of.size;
        rr += weight * of.size * of.size;
        to_fixed += weight * of.times * of.minutes;
        to_rate += weight * of.size * of.minutes;
    }
    // Two by two, positive by construction: the prior's part is.
    let whole = ff * rr - fr * fr;
    let fixed = (rr * to_fixed - fr * to_rate) / whole;
    let rate = (ff * to_rate - fr * to_fixed) / whole;
    Pace {
        // No work is done in no time: a twentieth of the start is the least.
        fixed: fixed.max(prior.fixed / 20.0),
        rate: rate.max(prior.rate / 20.0),
        spread: (rr / whole, -fr / whole, ff / whole),
        pieces: seen.len(),
    }
}
