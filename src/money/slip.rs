//! Estimated against actual: what a job slipped by, in hours, dollars and per cent, and which step
//! caused it.

use super::step::StepKind;
use crate::units::Money;
use rust_decimal::{Decimal, RoundingStrategy};

/// One step of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StepSlip {
    /// The step.
    pub step: StepKind,
    /// Estimated minutes.
    pub estimated: i64,
    /// Logged minutes.
    pub actual: i64,
    /// Whether the step is done on every piece.
    pub done: bool,
}

impl StepSlip {
    /// Minutes the step will have taken as far as is known: what was logged once it is done, else
    /// the greater of that and the estimate. Work that is done and was never logged counts as
    /// estimated: there are no hours to hold against it.
    pub fn heads_for(&self) -> i64 {
        if self.done && self.actual > 0 {
            self.actual
        } else {
            self.actual.max(self.estimated)
        }
    }

    /// Minutes over the estimate, below nothing when under it.
    pub fn over(&self) -> i64 {
        self.heads_for() - self.estimated
    }
}

/// What a job slipped by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slip {
    /// The steps, in the order of the work.
    pub steps: Vec<StepSlip>,
    /// Estimated minutes.
    pub estimated: i64,
    /// Logged minutes.
    pub actual: i64,
    /// Minutes over the estimate.
    pub over: i64,
    /// The same at the shop's hour.
    pub dollars: Money,
    /// The same of the estimate, in per cent to a tenth; none where nothing was estimated.
    pub percent: Option<Decimal>,
    /// The step that slipped most; none where none did.
    pub cause: Option<StepSlip>,
}

/// Adds the steps up at an hour's price.
pub fn slippage(steps: Vec<StepSlip>, hour: Money) -> Slip {
    let sum = |of: fn(&StepSlip) -> i64| steps.iter().map(of).sum::<i64>();
    let (estimated, actual, over) = (
        sum(|step| step.estimated),
        sum(|step| step.actual),
        sum(StepSlip::over),
    );
    let percent = (Decimal::from(over) * Decimal::ONE_HUNDRED)
        .checked_div(Decimal::from(estimated))
        .map(|percent| percent.round_dp_with_strategy(1, RoundingStrategy::MidpointAwayFromZero));
    let cause = steps
        .iter()
        .filter(|step| step.over() > 0)
        // The first of equals: the work before it slipped first.
        .rev()
        .max_by_key(|step| step.over())
        .copied();
    Slip {
        estimated,
        actual,
        over,
        dollars: hour.share(over, 60),
        percent,
        cause,
        steps,
    }
}
