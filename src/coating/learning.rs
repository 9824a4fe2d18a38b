//! What touch tests teach: how fast one product dries in this shop against the law.
//!
//! A test seldom hits the moment: "still soft" says that the stage comes later, "dry" that it came
//! before. Each coat so gives a bracket, and the estimator weighs the brackets:
//!
//! - theta = ln(this shop's factor). Prior: normal about 0 (the law as it stands), its standard
//!   deviation a factor of 1.5 either way, the law's stated uncertainty.
//! - A coat's own factor is theta plus a normal scatter (film, wood, thumb). It dried when
//!   `hours * factor = asked`, so a coat found soft at `h1` and dry at `h2` has the likelihood
//!   `P(asked/h2 <= factor < asked/h1)`.
//! - One coat in fifty is taken for a slip, so that a single odd one moves little.
//! - The posterior is summed over a fixed grid; median, and the span that holds 8 in 10, come
//!   from it. The method is a grid posterior with interval-censored data; the figures for prior,
//!   scatter and slips are judgement.
//!
//! How well that finds a shop's speed depends on how much single coats scatter. Of 100 simulated
//! shops at 0.7 of the label, eight tests (four or five coats) bring 96 within a tenth where coats
//! scatter by 5 %, 90 at 8 %, 76 at 10 %, 70 at 12 %; sixteen tests 100, 97, 94 and 89. Few coats
//! cannot do much better: their mean alone lies off by the scatter over the root of their number.
//! `tests/drying/learning.rs` measures these figures.

use super::air_clock::{ShopAirClock, Twin};
use super::product::{Product, Span};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Standard deviation of the prior on ln(factor): ln 1.5.
const PRIOR_SPREAD: f64 = 0.405_5;
/// Scatter of single coats about the shop's factor, on the logarithm. Judgement.
const COAT_SCATTER: f64 = 0.10;
/// Share of coats whose tests are taken for slips. Judgement.
const SLIPS: f64 = 0.02;
/// The grid: factors from e^-1.8 (0.17) to e^1.8 (6.0) in steps of half a per cent, as wide on
/// either side, so that a test that says nothing moves nothing.
const GRID_FROM: f64 = -1.8;
/// Step of the grid.
const GRID_STEP: f64 = 0.005;
/// Points of the grid.
const GRID_POINTS: u16 = 721;

/// What a test found the film to have reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FilmStage {
    /// Not dry to recoat.
    Soft,
    /// Set to touch, not dry to recoat.
    Touch,
    /// Tack-free, not dry to recoat.
    TackFree,
    /// Dry to recoat.
    Recoat,
    /// Dry to handle.
    Handle,
}

/// What a test says of one stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Found {
    /// The stage is still to come.
    Soft,
    /// The stage has been reached.
    Dry,
}

/// One touch test as the estimator takes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TouchTest {
    /// Which coat: tests of one coat bracket it together. Any number that differs between coats.
    pub coat: u128,
    /// Label-hours the stage asks, film factor included.
    pub asked: f64,
    /// Effective label-hours the coat had had by the law, without this shop's factor.
    pub had: f64,
    /// What was found.
    pub found: Found,
}

impl TouchTest {
    /// Whether it says anything: hours that are no numbers, or below a minute, do not.
    pub fn counts(&self) -> bool {
        self.asked.is_finite() && self.had.is_finite() && self.asked > 0.0 && self.had > 1.0 / 60.0
    }
}

/// This shop's factor for a product, as far as tests show it. Above 1: faster than the law.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Learned {
    /// Median of the posterior.
    pub median: f64,
    /// One in ten lies below this.
    pub low: f64,
    /// One in ten lies above this.
    pub high: f64,
    /// How many tests stand behind it.
    pub tests: usize,
    /// On how many coats.
    pub coats: usize,
}

impl Default for Learned {
    /// No test: the law as it stands.
    fn default() -> Self {
        Self {
            median: 1.0,
            // The prior's own: exp(-+1.2816 ln 1.5).
            low: 0.595,
            high: 1.681,
            tests: 0,
            coats: 0,
        }
    }
}

impl Learned {
    /// The factor of the likely time: the median; exactly 1 without a test.
    pub fn middle(&self) -> f64 {
        if self.tests == 0 { 1.0 } else { self.median }
    }

    /// The factor of the safe time: a slow shop is believed at the median, a fast one only as far
    /// as nine in ten would have it. Exactly 1 without a test.
    pub fn cautious(&self) -> f64 {
        if self.tests == 0 {
            1.0
        } else if self.median <= 1.0 {
            self.median
        } else {
            self.low.max(1.0)
        }
    }

    /// In words: `0.72 of the label's speed, from 6 tests on 4 coats`.
    pub fn words(&self) -> String {
        if self.tests == 0 {
            return "the label's speed, no touch test yet".to_owned();
        }
        let many = |n: usize, word: &str| {
            let end = if n == 1 { "" } else { "s" };
            format!("{n} {word}{end}")
        };
        format!(
            "{:.2} of the label's speed in the same air, from {} on {}",
            self.median,
            many(self.tests, "test"),
            many(self.coats, "coat")
        )
    }
}

/// The bracket that the tests of one coat and one stage leave: ln of the factor, open ends
/// infinite.
#[derive(Debug, Clone, Copy)]
struct Bracket {
    least: f64,
    most: f64,
}

/// Learns a factor from tests in the order in which they were made. To start over, hand in none.
/// Tests with hours that are no numbers or below a minute say nothing and are not counted.
pub fn learn(tests: &[TouchTest]) -> Learned {
    let mut coats: BTreeMap<u128, Vec<&TouchTest>> = BTreeMap::new();
    let mut count = 0;
    for test in tests.iter().filter(|test| test.counts()) {
        coats.entry(test.coat).or_default().push(test);
        count += 1;
    }
    if count == 0 {
        return Learned::default();
    }
    let brackets: Vec<Bracket> = coats.values().map(|tests| bracket(tests)).collect();
    let mut weights: Vec<(f64, f64)> = (0..GRID_POINTS)
        .map(|point| GRID_FROM + GRID_STEP * f64::from(point))
        .map(|theta| (theta, log_weight(theta, &brackets)))
        .collect();
    let best = weights.iter().fold(f64::MIN, |best, (_, w)| best.max(*w));
    for (_, weight) in &mut weights {
        *weight = (*weight - best).exp();
    }
    let total: f64 = weights.iter().map(|(_, weight)| weight).sum();
    let quantile = |share: f64| {
        let mut sum = 0.0;
        for (theta, weight) in &weights {
            if sum + weight >= share * total {
                // Inside the cell of this grid point.
                let part = (share * total - sum) / weight.max(f64::MIN_POSITIVE);
                // To the ten-thousandth: what is finer is the grid's own.
                return ((theta + GRID_STEP * (part - 0.5)).exp() * 1e4).round() / 1e4;
            }
            sum += weight;
        }
        1.0
    };
    Learned {
        median: quantile(0.5),
        low: quantile(0.1),
        high: quantile(0.9),
        tests: count,
        coats: coats.len(),
    }
}

/// Tests of one coat. A soft one takes back every dry one that had had no more hours: what was
/// taken for dry was not.
fn bracket(tests: &[&TouchTest]) -> Bracket {
    let mut bracket = Bracket {
        least: f64::NEG_INFINITY,
        most: f64::INFINITY,
    };
    for test in tests {
        let factor = (test.asked / test.had).ln();
        match test.found {
            Found::Soft => {
                bracket.most = bracket.most.min(factor);
                if bracket.least >= bracket.most {
                    bracket.least = f64::NEG_INFINITY;
                }
            }
            Found::Dry if factor < bracket.most => bracket.least = bracket.least.max(factor),
            Found::Dry => {}
        }
    }
    bracket
}

fn log_weight(theta: f64, brackets: &[Bracket]) -> f64 {
    let prior = -0.5 * (theta / PRIOR_SPREAD).powi(2);
    let seen = brackets.iter().map(|bracket| {
        let above = normal((theta - bracket.least) / COAT_SCATTER);
        let below = normal((theta - bracket.most) / COAT_SCATTER);
        ((1.0 - SLIPS) * (above - below).max(0.0) + SLIPS).ln()
    });
    prior + seen.sum::<f64>()
}

/// Normal distribution function, to 1.5e-7: Abramowitz and Stegun, Handbook of Mathematical
/// Functions, 7.1.26 (from memory; checked against known values in the tests).
fn normal(x: f64) -> f64 {
    if x.is_infinite() {
        return if x > 0.0 { 1.0 } else { 0.0 };
    }
    let z = x.abs() / std::f64::consts::SQRT_2;
    let t = (1.0 + 0.327_591_1 * z).recip();
    let poly = t
        * (0.254_829_592
            + t * (-0.284_496_736
                + t * (1.421_413_741 + t * (-1.453_152_027 + t * 1.061_405_429))));
    let half = 0.5 * poly * (-z * z).exp();
    if x >= 0.0 { 1.0 - half } else { half }
}

impl ShopAirClock {
    /// The estimator's tests out of one touch test of a coat laid at `laid`, made at `at`, by this
    /// clock's law (ask the safe and the likely clock for one each). `coat` names the coat; its
    /// film factor is the clock's (see [`ShopAirClock::with_film`]).
    ///
    /// Dry to recoat or to handle says that the stage is past; touch and tack-free say so of
    /// theirs too, but stages of a label are too rough to be mixed, so only "dry to recoat"
    /// counts: found or not yet found.
    pub fn observe(
        &self,
        product: &Product,
        coat: u128,
        laid: DateTime<Utc>,
        at: DateTime<Utc>,
        stage: FilmStage,
    ) -> Option<TouchTest> {
        // A window that is open at once is for laying wet on wet; dry to recoat comes with the next.
        let windows = &product.label.windows;
        let opens = windows
            .iter()
            .map(|w| w.opens)
            .find(|o| *o > Span::minutes(0))?;
        let found = if stage >= FilmStage::Recoat {
            Found::Dry
        } else {
            Found::Soft
        };
        let asked = opens.as_minutes() as f64 / 60.0 * self.film_for(product, opens);
        Some(TouchTest {
            coat,
            asked,
            had: self.label_hours(product, laid, at),
            found,
        })
    }
}

/// When to look again at a coat that a test at `at` found soft: the clock's own time if that is
/// still to come, else a fifth of the time gone since it was laid, half an hour at least.
/// Judgement.
pub fn look_again(laid: DateTime<Utc>, at: DateTime<Utc>, ready: DateTime<Utc>) -> DateTime<Utc> {
    let wait = ((at - laid) / 5).max(Span::minutes(30).as_duration());
    ready.max(at.checked_add_signed(wait).unwrap_or(at))
}

impl Twin {
    /// Both clocks.
    pub const BOTH: [Self; 2] = [Self::Safe, Self::Likely];
}
