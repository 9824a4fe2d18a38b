//! Lines of a price, each with its own tax, and what they add up to.

use super::percent::{Percent, to_cents};
use crate::units::Money;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

/// What a line is for: tax is set by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// Work in the shop.
    ShopWork,
    /// Work at the site: measuring, setting, the way there.
    SiteWork,
    /// Finish, in whole cans.
    Finish,
    /// Lumber.
    Lumber,
    /// Bought ready made: sinks, brackets, slabs.
    BoughtIn,
    /// Anything else.
    Other,
}

impl LineKind {
    /// All, in the order of an estimate.
    pub const ALL: [Self; 6] = [
        Self::ShopWork,
        Self::SiteWork,
        Self::Finish,
        Self::Lumber,
        Self::BoughtIn,
        Self::Other,
    ];

    /// The word in files and commands.
    pub fn word(self) -> &'static str {
        match self {
            Self::ShopWork => "shop-work",
            Self::SiteWork => "site-work",
            Self::Finish => "finish",
            Self::Lumber => "lumber",
            Self::BoughtIn => "bought-in",
            Self::Other => "other",
        }
    }
}

/// One line of a price. Its tax is never kept: it follows from the line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Line {
    /// What it is for.
    pub kind: LineKind,
    /// In words, for the client.
    pub what: String,
    /// Before tax, in whole cents.
    pub net: Money,
    /// The tax rate on it.
    pub rate: Percent,
}

impl Line {
    /// The tax on it, rounded here by the one rule.
    pub fn tax(&self) -> Money {
        self.rate.of(self.net)
    }
}

/// Lines added up. No rounding happens here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Totals {
    /// Before tax.
    pub net: Money,
    /// Tax.
    pub tax: Money,
}

impl Totals {
    /// Both together.
    pub fn total(self) -> Money {
        self.net + self.tax
    }
}

/// Adds lines up.
pub fn totals(lines: &[Line]) -> Totals {
    Totals {
        net: lines.iter().map(|line| line.net).sum(),
        tax: lines.iter().map(Line::tax).sum(),
    }
}

/// So many at so much each, rounded by the one rule.
pub fn net_of(count: Decimal, each: Money) -> Money {
    count
        .checked_mul(Decimal::from(each.cents()))
        .map_or(Money::from_cents(i64::MAX), to_cents)
}
