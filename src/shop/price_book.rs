//! The shop's own figures for pricing.

use crate::money::{DepositCap, Markup, Markups, Percent, RateFigures, TaxPlace, starting_caps};
use crate::units::Money;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What the shop prices by: all of it the person's to change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PriceBook {
    /// The figures of its hour.
    pub rate: RateFigures,
    /// The share of jobs that the hours of a price are to cover.
    pub confidence: Percent,
    /// Markups on what it buys.
    pub markups: Markups,
    /// On top of the finish that the work is planned to use.
    pub allowance: Percent,
    /// The least that is charged for a job, before tax.
    pub minimum: Money,
    /// What a board foot costs, of a wood not listed.
    pub board_foot: Money,
    /// The same of listed woods, by lower-case name.
    pub woods: BTreeMap<String, Money>,
    /// Days after its date that an invoice falls due.
    pub terms_days: u32,
    /// Days that an estimate holds.
    pub valid_days: u32,
    /// Places and their sales tax.
    pub places: Vec<TaxPlace>,
    /// Places and their caps on deposits.
    pub caps: Vec<DepositCap>,
}

impl Default for PriceBook {
    /// Where a shop starts. Finish with 12 % on top: 10 to 15 % is common practice, no source; the
    /// rest is judgement. No sales tax until a place is entered: local rules decide.
    fn default() -> Self {
        let dollars = |dollars: i64| Money::from_cents(dollars * 100);
        Self {
            rate: RateFigures::starting(),
            confidence: Percent::whole(70),
            markups: Markups {
                finish: Markup::new(Percent::whole(30)),
                lumber: Markup::new(Percent::whole(30)),
                bought_in: Markup::new(Percent::whole(20)),
            },
            allowance: Percent::whole(12),
            minimum: dollars(350),
            board_foot: dollars(9),
            woods: BTreeMap::new(),
            terms_days: 14,
            valid_days: 30,
            places: Vec::new(),
            caps: starting_caps(),
        }
    }
}

fn same(name: &str, text: &str) -> bool {
    name.trim().to_lowercase() == text.trim().to_lowercase()
}

impl PriceBook {
    /// What a board foot of a wood costs.
    pub fn board_foot(&self, wood: &str) -> Money {
        let listed = self.woods.get(&wood.trim().to_lowercase());
        listed.copied().unwrap_or(self.board_foot)
    }

    /// The place of that name and its tax.
    pub fn place(&self, name: &str) -> Option<&TaxPlace> {
        self.places.iter().find(|place| same(&place.name, name))
    }

    /// The caps that a place has.
    pub fn cap(&self, place: &str) -> Option<&DepositCap> {
        self.caps.iter().find(|cap| same(&cap.place, place))
    }
}
