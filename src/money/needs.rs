//! What a job needs besides hours: finish in whole cans, lumber with its waste, things bought in.

use super::line::{LineKind, net_of};
use super::percent::{Markup, Percent, buy_for};
use super::tax::TaxChoice;
use crate::coating::cans::{CanCount, CanError, CanOffer, cheapest_cans};
use crate::units::{Money, Volume};
use rust_decimal::{Decimal, RoundingStrategy};

/// Finish of one product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FinishNeed {
    /// The product.
    pub name: String,
    /// What the work is planned to use.
    pub need: Volume,
    /// Can sizes on offer.
    pub offers: Vec<CanOffer>,
}

/// Whole cans of one product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CansBought {
    /// The product.
    pub name: String,
    /// The need with what is added to it.
    pub need: Volume,
    /// The cans.
    pub cans: Vec<CanCount>,
    /// Their cost.
    pub cost: Money,
}

impl FinishNeed {
    /// The cheapest whole cans for the need and an allowance on top of it (10 to 15 % is common
    /// practice, no source).
    ///
    /// # Errors
    /// As for [`cheapest_cans`].
    pub fn cans(&self, allowance: Percent) -> Result<CansBought, CanError> {
        let more = Decimal::from(self.need.ul()) * (Decimal::ONE + allowance.fraction());
        let need = i64::try_from(more.ceil()).map_or(self.need, Volume::from_ul);
        let plan = cheapest_cans(need, &self.offers)?;
        Ok(CansBought {
            name: self.name.clone(),
            need,
            cans: plan.counts,
            cost: plan.price,
        })
    }
}

/// Lumber of one wood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LumberNeed {
    /// The wood.
    pub name: String,
    /// Board feet in the finished pieces.
    pub net: Decimal,
    /// What one board foot costs.
    pub each: Money,
}

impl LumberNeed {
    /// Board feet to buy at this waste, to two places up, so that none is missing; none where the
    /// waste leaves nothing.
    pub fn board_feet(&self, waste: Percent) -> Option<Decimal> {
        let gross = buy_for(self.net, waste)?;
        Some(gross.round_dp_with_strategy(2, RoundingStrategy::AwayFromZero))
    }

    /// What they cost.
    pub fn cost(&self, waste: Percent) -> Option<Money> {
        Some(net_of(self.board_feet(waste)?, self.each))
    }
}

/// A line the person adds: bought in, or anything with a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// What it is for.
    pub kind: LineKind,
    /// What it is.
    pub what: String,
    /// How many, exact.
    pub count: Decimal,
    /// What one costs the shop.
    pub each: Money,
    /// Its own markup; none takes the shop's for its kind.
    pub markup: Option<Markup>,
    /// How it is taxed.
    pub tax: TaxChoice,
}

impl Item {
    /// What it costs the shop.
    pub fn cost(&self) -> Money {
        net_of(self.count, self.each)
    }
}
