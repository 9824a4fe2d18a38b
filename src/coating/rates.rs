//! The shop's own spread rate, learned from weighed and measured passes.
//!
//! For one product, one way of putting it on, one place in the build and one wood:
//!
//! - theta = ln(own rate / label rate). Prior: normal about 0 (the label), standard deviation
//!   0.5, a factor of 1.65 either way: at the usual scatter it weighs like a tenth of a pass. The
//!   label is where one starts, not what one is held to. Judgement.
//! - A pass's own rate is theta plus a normal scatter, on the logarithm. The scatter is not known:
//!   it is weighed over the values of `SCATTERS`, with little belief in the ends.
//! - A pass whose use is small against the scale's step scatters more, by step over use.
//! - One pass in twenty is taken for a slip (a can set down wrong, a nought too many) with a
//!   factor of ten either way, so that one wild entry moves little.
//! - The posterior is summed over a fixed grid. The rate told is its median; the spread told is
//!   the span that holds 8 in 10.
//!
//! A pass that was struck out is simply not among those handed in.

use super::product::Family;
use crate::units::{Area, Mass, SpreadRate, Volume};
use serde::{Deserialize, Serialize};

/// Standard deviation of the prior on ln(own / label).
const PRIOR_SPREAD: f64 = 0.5;
/// How far the rates of different woods lie apart, on the logarithm: judgement, no source. Open
/// woods are said to take 5 to 20 % more (a maker's data sheet on loss factors).
const WOODS_DIFFER: f64 = 0.12;
/// Standard deviations on either side of the middle that hold 8 in 10 of a normal belief.
const EIGHT_IN_TEN: f64 = 1.281_55;
/// Scatter of single passes on the logarithm, and the belief in each beforehand.
const SCATTERS: [(f64, f64); 7] = [
    (0.05, 0.05),
    (0.08, 0.15),
    (0.12, 0.25),
    (0.16, 0.25),
    (0.22, 0.15),
    (0.30, 0.10),
    (0.45, 0.05),
];
/// Share of passes taken for slips.
const SLIPS: f64 = 0.05;
/// Scatter of a slip: ln 10.
const SLIP_SPREAD: f64 = std::f64::consts::LN_10;
/// The grid on theta: rates from 1/6 to 6 times the label's.
const GRID_FROM: f64 = -1.8;
/// Its step: one per cent.
const GRID_STEP: f64 = 0.01;
/// Its points.
const GRID_POINTS: u16 = 361;

/// How a product was put on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// With a rag or pad.
    Wiped,
    /// With a brush or roller.
    Brushed,
    /// Sprayed.
    Sprayed,
}

impl Method {
    /// All of them, the usual one first.
    pub const ALL: [Self; 3] = [Self::Wiped, Self::Brushed, Self::Sprayed];

    /// How products of a family are put on where nobody says otherwise: thin oils and stains are
    /// wiped, varnishes with body and water-borne ones brushed, lacquer sprayed. Common practice,
    /// no source.
    pub fn usual(family: Family) -> Self {
        match family {
            Family::OilBrushingVarnish | Family::WaterBorne | Family::Shellac => Self::Brushed,
            Family::Lacquer => Self::Sprayed,
            Family::OilWipingVarnish
            | Family::OilGelStain
            | Family::OilLiquidStain
            | Family::OilConditioner
            | Family::HardwaxOil
            | Family::TungOil
            | Family::MineralSpirits => Self::Wiped,
        }
    }

    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Wiped => "wiped",
            Self::Brushed => "brushed",
            Self::Sprayed => "sprayed",
        }
    }
}

/// Where in the build a pass lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ground {
    /// The first coat, on bare wood.
    BareWood,
    /// A later coat.
    Later,
}

/// One pass that was weighed or measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RatePass {
    /// The area it coated.
    pub area: Area,
    /// What it used.
    pub used: Volume,
    /// The smallest use the scale or the cup can tell, as volume; nothing where it is not known.
    pub step: Volume,
}

impl RatePass {
    /// The step of a use weighed by two readings of a scale of this step.
    pub fn scale_step(step: Mass, density: crate::units::Density) -> Volume {
        density.volume_of(step)
    }

    /// The rate of this pass alone.
    pub fn rate(&self) -> Option<SpreadRate> {
        SpreadRate::from_m2_per_l(self.area.m2() / self.used.litres())
    }
}

/// What was learned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedRate {
    /// The label's.
    pub label: SpreadRate,
    /// Own rate over the label's: the middle.
    pub middle: f64,
    /// The lower end of what holds 8 in 10.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// How many passes stand behind it.
    pub passes: usize,
}

impl LearnedRate {
    /// The shop's own rate; the label's while no pass stands behind it.
    pub fn rate(&self) -> SpreadRate {
        SpreadRate::from_m2_per_l(self.label.m2_per_l() * self.middle).unwrap_or(self.label)
    }
}

/// What is held before the first pass: a normal belief about ln(own / label).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prior {
    /// Its middle.
    pub centre: f64,
    /// Its standard deviation.
    pub spread: f64,
}

impl Prior {
    /// The label, a factor of 1.65 either way.
    pub const LABEL: Self = Self {
        centre: 0.0,
        spread: PRIOR_SPREAD,
    };

    /// What other woods taught, taken over to one wood: their middle, their own uncertainty, and
    /// that woods differ by about an eighth (judgement). Never surer of itself than that, never
    /// less sure than the label.
    pub fn from_other_woods(learned: &LearnedRate) -> Self {
        if learned.passes == 0 {
            return Self::LABEL;
        }
        let own = (learned.high / learned.low).ln() / (2.0 * EIGHT_IN_TEN);
        Self {
            centre: learned.middle.ln(),
            spread: own.hypot(WOODS_DIFFER).min(PRIOR_SPREAD),
        }
    }
}

/// Learns the shop's own rate from the label's. Passes without area or use say nothing and are not
/// counted.
pub fn learn_rate(label: SpreadRate, passes: &[RatePass]) -> LearnedRate {
    learn_rate_from(Prior::LABEL, label, passes)
}

/// Learns the shop's own rate from a belief of its own, told against the label's.
pub fn learn_rate_from(prior: Prior, label: SpreadRate, passes: &[RatePass]) -> LearnedRate {
    let seen: Vec<(f64, f64)> = passes
        .iter()
        .filter_map(|pass| {
            let ratio = pass.rate()?.m2_per_l() / label.m2_per_l();
            let step = pass.step.litres() / pass.used.litres();
            (ratio.is_finite() && ratio > 0.0).then(|| (ratio.ln(), step.clamp(0.0, 1.0)))
        })
        .collect();
    if seen.is_empty() {
        return LearnedRate {
            label,
            middle: prior.centre.exp(),
            low: (prior.centre - EIGHT_IN_TEN * prior.spread).exp(),
            high: (prior.centre + EIGHT_IN_TEN * prior.spread).exp(),
            passes: 0,
        };
    }
    let thetas: Vec<f64> = (0..GRID_POINTS)
        .map(|n| GRID_FROM + f64::from(n) * GRID_STEP)
        .collect();
    let weights = posterior(prior, &thetas, &seen);
    let at = |share: f64| quantile(&thetas, &weights, share).exp();
    LearnedRate {
        label,
        middle: at(0.5),
        low: at(0.1),
        high: at(0.9),
        passes: seen.len(),
    }
}

/// Weight of each grid point, the scatter summed out; not normalised.
fn posterior(prior: Prior, thetas: &[f64], seen: &[(f64, f64)]) -> Vec<f64> {
    let mut logs: Vec<Vec<f64>> = Vec::with_capacity(SCATTERS.len());
    for (scatter, belief) in SCATTERS {
        logs.push(
            thetas
                .iter()
                .map(|theta| {
                    let held = -0.5 * ((theta - prior.centre) / prior.spread).powi(2);
                    let likely: f64 = seen
                        .iter()
                        .map(|(x, step)| {
                            let spread = (scatter * scatter + step * step).sqrt();
                            let good = (1.0 - SLIPS) * normal(x - theta, spread);
                            let slip = SLIPS * normal(x - theta, SLIP_SPREAD);
                            (good + slip).ln()
                        })
                        .sum();
                    held + likely + belief.ln()
                })
                .collect(),
        );
    }
    let top = logs.iter().flatten().copied().fold(f64::MIN, f64::max);
    (0..thetas.len())
        .map(|n| logs.iter().map(|row| (row[n] - top).exp()).sum())
        .collect()
}

/// The normal density.
fn normal(x: f64, spread: f64) -> f64 {
    (-0.5 * (x / spread).powi(2)).exp() / (spread * std::f64::consts::TAU.sqrt())
}

/// The theta below which `share` of the weight lies, between grid points by straight line.
fn quantile(thetas: &[f64], weights: &[f64], share: f64) -> f64 {
    let total: f64 = weights.iter().sum();
    let mut below = 0.0;
    for (theta, weight) in thetas.iter().zip(weights) {
        if below + weight >= share * total {
            let within = (share * total - below) / weight;
            return theta + (within - 0.5) * GRID_STEP;
        }
        below += weight;
    }
    thetas.last().copied().unwrap_or(0.0)
}
