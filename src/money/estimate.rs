//! The estimate of a job: hours by simulation, materials in whole cans, lumber with waste, things
//! bought in, each a line with its own tax.

use super::hours::{HoursSpread, SEED, Work, simulate, work_words};
use super::line::{Line, LineKind, Totals, net_of, totals};
use super::needs::{CansBought, FinishNeed, Item, LumberNeed};
use super::pace::Pace;
use super::percent::{Markup, Percent};
use super::step::StepKind;
use super::tax::{TaxChoice, TaxPlace};
use crate::coating::cans::CanError;
use crate::units::Money;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use thiserror::Error;

/// The shop's markups on what it buys.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Markups {
    /// On finish.
    pub finish: Markup,
    /// On lumber.
    pub lumber: Markup,
    /// On things bought in: less on very dear ones (remodelling press: pull them out before the
    /// markup), which each item can say for itself.
    pub bought_in: Markup,
}

/// What an estimate is made from.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The work of all pieces.
    pub work: &'a [Work],
    /// The shop's pace at each step.
    pub paces: &'a BTreeMap<StepKind, Pace>,
    /// The hour as sold.
    pub hour: Money,
    /// The share of such jobs that the hours of the price are to cover.
    pub confidence: Percent,
    /// Finish needed.
    pub finish: &'a [FinishNeed],
    /// On top of the finish needed.
    pub allowance: Percent,
    /// Lumber needed.
    pub lumber: &'a [LumberNeed],
    /// Its waste, of what is bought.
    pub waste: Percent,
    /// Lines the person added.
    pub items: &'a [Item],
    /// Markups.
    pub markups: Markups,
    /// The least that is charged before tax.
    pub minimum: Money,
    /// Where it is taxed.
    pub place: Option<&'a TaxPlace>,
}

/// Why there is no estimate.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum EstimateError {
    /// A confidence that means nothing.
    #[error("A confidence of {0} means nothing here: say from 5 to 95 %.")]
    Confidence(Percent),
    /// Cans that cannot be planned.
    #[error("{product}: {error}")]
    Cans {
        /// The product.
        product: String,
        /// Why.
        error: CanError,
    },
    /// Waste that leaves nothing.
    #[error("Waste of {0} leaves nothing of what is bought: say less than 100 %.")]
    Waste(Percent),
}

/// One step's share of the likely hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepHours {
    /// The step.
    pub step: StepKind,
    /// Its part of the likely minutes; the parts add up to them.
    pub minutes: i64,
}

/// An estimate.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// Hours, in minutes.
    pub hours: HoursSpread,
    /// The likely minutes by step, adding up.
    pub steps: Vec<StepHours>,
    /// The minutes priced: those at the confidence asked.
    pub priced: i64,
    /// The cans.
    pub cans: Vec<CansBought>,
    /// The lines.
    pub lines: Vec<Line>,
    /// Their sums.
    pub totals: Totals,
    /// What the shop pays for materials and things bought in.
    pub bought: Money,
}

#[allow(
    clippy::cast_possible_truncation,
    reason = "minutes of one job, far below the end of i64; at the end `as` stays there"
)]
fn whole(minutes: f64) -> i64 {
    minutes.round() as i64
}

/// Splits whole minutes by weights so that the parts add up: each ends where its running share,
/// rounded, does.
fn shared_out(total: i64, weights: &[f64]) -> Vec<i64> {
    let sum: f64 = weights.iter().sum();
    let (mut running, mut before) = (0.0, 0);
    weights
        .iter()
        .map(|weight| {
            running += weight;
            let upto = if sum > 0.0 {
                whole(total as f64 * running / sum)
            } else {
                0
            };
            let part = upto - before;
            before = upto;
            part
        })
        .collect()
}

/// Makes the estimate.
///
/// # Errors
/// A confidence outside 5 to 95 %, cans that cannot be planned, waste of everything.
pub fn estimate(asked: &Asked<'_>) -> Result<Made, EstimateError> {
    let confidence = asked.confidence;
    if !(0.05..=0.95).contains(&confidence.as_f64()) {
        return Err(EstimateError::Confidence(confidence));
    }
    let simulated = simulate(asked.work, asked.paces, SEED);
    let hours = simulated.spread();
    let weights: Vec<f64> = simulated.means.values().copied().collect();
    let likely = shared_out(whole(hours.likely), &weights);
    let priced = whole(simulated.quantile(confidence.as_f64()));
    let priced_parts = shared_out(priced, &weights);
    let named = |parts: Vec<i64>| simulated.means.keys().copied().zip(parts);
    let mut by_line: BTreeMap<LineKind, i64> = BTreeMap::new();
    for (step, minutes) in named(priced_parts) {
        *by_line.entry(step.line()).or_default() += minutes;
    }
    let line = |kind: LineKind, what: String, net: Money, tax: TaxChoice| Line {
        kind,
        what,
        net,
        rate: tax.rate(kind, asked.place),
    };
    let mut lines = Vec::new();
    for (kind, minutes) in by_line.into_iter().filter(|(_, minutes)| *minutes > 0) {
        let net = asked.hour.share(minutes, 60);
        let place = if kind == LineKind::SiteWork {
            "at the site"
        } else {
            "in the shop"
        };
        let what = format!(
            "Work {place}, {} at {}/h",
            work_words(minutes),
            asked.hour.show()
        );
        lines.push(line(kind, what, net, TaxChoice::AsPlace));
    }
    let (mut cans, mut bought) = (Vec::new(), Money::ZERO);
    for need in asked.finish.iter().filter(|need| need.need.ul() > 0) {
        let plan = need
            .cans(asked.allowance)
            .map_err(|error| EstimateError::Cans {
                product: need.name.clone(),
                error,
            })?;
        bought += plan.cost;
        let count: u32 = plan.cans.iter().map(|size| size.cans).sum();
        let many = crate::units::counted(count as usize, "can", "cans");
        let net = asked.markups.finish.price(plan.cost);
        let what = format!("{}, {many}", need.name);
        lines.push(line(LineKind::Finish, what, net, TaxChoice::AsPlace));
        cans.push(plan);
    }
    for need in asked.lumber.iter().filter(|need| need.net > Decimal::ZERO) {
        let missing = || EstimateError::Waste(asked.waste);
        let feet = need.board_feet(asked.waste).ok_or_else(missing)?;
        let cost = net_of(feet, need.each);
        bought += cost;
        let what = format!("{}, {} board feet", need.name, feet.normalize());
        let net = asked.markups.lumber.price(cost);
        lines.push(line(LineKind::Lumber, what, net, TaxChoice::AsPlace));
    }
    for item in asked.items {
        let cost = item.cost();
        bought += cost;
        let usual = match item.kind {
            LineKind::Finish => asked.markups.finish,
            LineKind::Lumber => asked.markups.lumber,
            LineKind::BoughtIn => asked.markups.bought_in,
            LineKind::ShopWork | LineKind::SiteWork | LineKind::Other => Markup::default(),
        };
        let net = item.markup.unwrap_or(usual).price(cost);
        let what = if item.count == Decimal::ONE {
            item.what.clone()
        } else {
            format!("{}, {}", item.what, item.count.normalize())
        };
        lines.push(line(item.kind, what, net, item.tax));
    }
    let short = asked.minimum - totals(&lines).net;
    if short > Money::ZERO && !lines.is_empty() {
        let what = format!("Up to the least charge of {}", asked.minimum.show());
        lines.push(line(LineKind::Other, what, short, TaxChoice::AsPlace));
    }
    let steps = named(likely)
        .map(|(step, minutes)| StepHours { step, minutes })
        .collect();
    Ok(Made {
        hours,
        steps,
        priced,
        cans,
        totals: totals(&lines),
        lines,
        bought,
    })
}
