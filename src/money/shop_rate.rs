//! The shop's hour: what it must bring in, from the owner's own figures.

use super::percent::{Margin, Percent, to_cents};
use crate::units::Money;
use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What a year of this shop costs and how many of its hours can be billed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct RateFigures {
    /// What the owner means to be paid in a year.
    pub pay: Money,
    /// Taxes and insurance that follow the pay, as a part of it.
    pub tax: Percent,
    /// Fixed overhead of a year: rent, power, insurance, van, telephone.
    pub overhead: Money,
    /// What is laid by in a year for tools.
    pub tools: Money,
    /// Hours worked in a year.
    pub hours: u32,
    /// How much of them can be billed.
    pub billable: Percent,
    /// Profit kept of the price.
    pub profit: Margin,
}

impl RateFigures {
    /// Where a shop starts until it types its own: the median yearly pay of a cabinetmaker (US
    /// labour statistics, $46,020), the self-employed's 15.3 % on 92.35 % of it (the factor from
    /// memory), a year of 1,912 hours (a trade magazine's burden example), a share of billable
    /// hours within the 50 to 65 % of common practice. Overhead, tools and profit: judgement, no
    /// source.
    pub fn starting() -> Self {
        Self {
            pay: Money::from_cents(4_602_000),
            tax: Percent::from_hundredths(1413),
            overhead: Money::from_cents(1_800_000),
            tools: Money::from_cents(300_000),
            hours: 1912,
            billable: Percent::whole(60),
            profit: Margin::new(Percent::whole(10)).unwrap_or_default(),
        }
    }
}

/// Why there is no rate.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum RateError {
    /// No hour to carry the costs.
    #[error(
        "No billable hours are left to carry the costs: give the hours of a year (up to 8784) and how much of them can be billed (up to 100 %)."
    )]
    NoHours,
    /// An amount below nothing.
    #[error("{0} cannot be below nothing: type what it costs in a year.")]
    Negative(&'static str),
}

/// The shop's hour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShopRate {
    /// Hours of a year that can be billed.
    pub billable_hours: Decimal,
    /// Pay with what follows it, in each of them.
    pub pay: Money,
    /// Overhead recovered in each of them: by the hour, not as a share of materials, so that dear
    /// wood does not carry more rent than cheap wood.
    pub overhead: Money,
    /// Tool reserve in each of them.
    pub tools: Money,
    /// All of it, reckoned from the sum and rounded once.
    pub break_even: Money,
    /// Break-even / (1 - profit), reckoned from the exact sum and rounded once.
    pub sell: Money,
}

/// An amount spread over hours, rounded by the one rule; none for no hours.
pub fn per_hour(amount: Money, hours: Decimal) -> Option<Money> {
    let each = Decimal::from(amount.cents()).checked_div(hours)?;
    (hours > Decimal::ZERO).then(|| to_cents(each))
}

impl ShopRate {
    /// The break-even hour of a sole owner is (pay + what follows it + overhead + tool reserve) /
    /// billable hours (common practice, no source), the hour as sold that / (1 - profit).
    ///
    /// # Errors
    /// No billable hours, or an amount below nothing.
    pub fn of(figures: &RateFigures) -> Result<Self, RateError> {
        for (what, amount) in [
            ("The pay", figures.pay),
            ("The overhead", figures.overhead),
            ("The tool reserve", figures.tools),
        ] {
            if amount < Money::ZERO {
                return Err(RateError::Negative(what));
            }
        }
        let share = figures.billable.fraction();
        let billable_hours = Decimal::from(figures.hours) * share;
        if billable_hours <= Decimal::ZERO || share > Decimal::ONE || figures.hours > 8784 {
            return Err(RateError::NoHours);
        }
        let pay = Decimal::from(figures.pay.cents()) * (Decimal::ONE + figures.tax.fraction());
        let (overhead, tools) = (
            Decimal::from(figures.overhead.cents()),
            Decimal::from(figures.tools.cents()),
        );
        let exact = (pay + overhead + tools) / billable_hours;
        let each = |sum: Decimal| to_cents(sum / billable_hours);
        Ok(Self {
            billable_hours: billable_hours
                .round_dp_with_strategy(1, RoundingStrategy::MidpointAwayFromZero),
            pay: each(pay),
            overhead: each(overhead),
            tools: each(tools),
            break_even: to_cents(exact),
            sell: to_cents(figures.profit.price_exact(exact)),
        })
    }
}
