//! Per cents, and the two that are so often confused: markup on cost, margin of price.

use crate::units::{Money, clean_line};
use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;
use thiserror::Error;

/// Exact cents, rounded by the one rule of [`Money`]: to the nearest cent, half a cent away from
/// zero. What no amount can hold stays at the end of the type.
pub fn to_cents(cents: Decimal) -> Money {
    let whole = cents.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero);
    let end = if cents.is_sign_negative() {
        i64::MIN
    } else {
        i64::MAX
    };
    Money::from_cents(i64::try_from(whole).unwrap_or(end))
}

/// Why a text is not taken as a per cent.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PercentError {
    /// Nothing was typed.
    #[error("No per cent was given; write one like 30 % or 8.81 %.")]
    Empty,
    /// The text does not read.
    #[error("\"{0}\" does not read as a per cent; write it like 30 % or 8.81 %.")]
    Nonsense(String),
    /// Below nothing or beyond reason.
    #[error("\"{0}\" is not between 0 and 1000 %; check the number.")]
    Range(String),
    /// More digits than are kept.
    #[error("\"{0}\" has more than four digits after the point; leave the last out.")]
    TooFine(String),
    /// A margin that no price has.
    #[error(
        "A margin of {0} cannot be: it is a part of the price, so it lies below 100 %. Was a markup meant?"
    )]
    Margin(String),
}

fn shown(text: &str) -> String {
    let (clean, _) = clean_line(text);
    clean.chars().take(40).collect()
}

/// So many of a hundred, exactly; from 0 to 1000 %, with at most four decimals.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(try_from = "String", into = "String")]
pub struct Percent(Decimal);

impl Percent {
    /// Nothing.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// From hundredths of a per cent: 881 is 8.81 %.
    pub fn from_hundredths(hundredths: u32) -> Self {
        Self(Decimal::new(hundredths.min(100_000).into(), 2).normalize())
    }

    /// So many whole per cent.
    pub fn whole(percent: u32) -> Self {
        Self::from_hundredths(percent.saturating_mul(100))
    }

    /// As a part of one: 30 % is 0.3.
    pub fn fraction(self) -> Decimal {
        self.0 / Decimal::ONE_HUNDRED
    }

    /// As a part of one, near enough for what is reckoned by chance.
    pub fn as_f64(self) -> f64 {
        f64::try_from(self.fraction()).unwrap_or(0.0)
    }

    /// This much of an amount, rounded by the one rule.
    pub fn of(self, amount: Money) -> Money {
        to_cents(Decimal::from(amount.cents()) * self.fraction())
    }

    /// The sum, at most 1000 %.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self((self.0 + other.0).min(Decimal::ONE_THOUSAND))
    }

    /// Reads `30 %`, `30%`, `30`, `8.81`.
    ///
    /// # Errors
    /// [`PercentError`] tells nothing, nonsense, out of range and too fine apart.
    pub fn parse(text: &str) -> Result<Self, PercentError> {
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Err(PercentError::Empty);
        }
        let number = trimmed.strip_suffix('%').unwrap_or(trimmed).trim_end();
        let unsigned = number.strip_prefix(['-', '\u{2212}']);
        let digits = unsigned.unwrap_or(number).trim_start();
        let plain = digits.bytes().all(|b| b.is_ascii_digit() || b == b'.')
            && digits.bytes().any(|b| b.is_ascii_digit())
            && digits.bytes().filter(|b| *b == b'.').count() <= 1;
        if !plain {
            return Err(PercentError::Nonsense(shown(text)));
        }
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        if part.trim_end_matches('0').len() > 4 {
            return Err(PercentError::TooFine(shown(text)));
        }
        let out_of_range = || PercentError::Range(shown(text));
        if unsigned.is_some() || whole.trim_start_matches('0').len() > 4 {
            return Err(out_of_range());
        }
        let kept = &part[..part.len().min(4)];
        let value = Decimal::from_str(&format!("0{whole}.{kept}0")).map_err(|_| out_of_range())?;
        if value > Decimal::ONE_THOUSAND {
            return Err(out_of_range());
        }
        Ok(Self(value.normalize()))
    }
}

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0.normalize())
    }
}

impl TryFrom<String> for Percent {
    type Error = PercentError;
    fn try_from(text: String) -> Result<Self, PercentError> {
        Self::parse(&text)
    }
}

impl From<Percent> for String {
    fn from(percent: Percent) -> Self {
        percent.to_string()
    }
}

/// What is put on top of a cost, as a part **of the cost**. Not to be confused with [`Margin`].
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Markup(Percent);

/// What of a price is not cost, as a part **of the price**; below 100 %. Not to be confused with
/// [`Markup`].
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(try_from = "Percent", into = "Percent")]
pub struct Margin(Percent);

impl TryFrom<Percent> for Margin {
    type Error = PercentError;
    fn try_from(percent: Percent) -> Result<Self, PercentError> {
        Self::new(percent)
    }
}

impl From<Margin> for Percent {
    fn from(margin: Margin) -> Self {
        margin.0
    }
}

fn tenths(fraction: Decimal) -> Decimal {
    (fraction * Decimal::ONE_HUNDRED)
        .round_dp_with_strategy(1, RoundingStrategy::MidpointAwayFromZero)
}

impl Markup {
    /// A markup of so much of the cost.
    pub fn new(percent: Percent) -> Self {
        Self(percent)
    }

    /// So much of the cost.
    pub fn percent(self) -> Percent {
        self.0
    }

    /// `price = cost x (1 + markup)`, rounded by the one rule.
    pub fn price(self, cost: Money) -> Money {
        to_cents(Decimal::from(cost.cents()) * (Decimal::ONE + self.0.fraction()))
    }

    /// The margin this comes to, `markup / (1 + markup)`, in per cent to a tenth.
    pub fn as_margin_percent(self) -> Decimal {
        let markup = self.0.fraction();
        tenths(markup / (Decimal::ONE + markup))
    }

    /// `markup 50 % (margin 33.3 %)`: both, so that neither is taken for the other.
    pub fn words(self) -> String {
        format!("markup {} (margin {} %)", self.0, self.as_margin_percent())
    }
}

impl Margin {
    /// A margin of so much of the price.
    ///
    /// # Errors
    /// [`PercentError::Margin`] from 100 % on: no price has it.
    pub fn new(percent: Percent) -> Result<Self, PercentError> {
        if percent.fraction() < Decimal::ONE {
            Ok(Self(percent))
        } else {
            Err(PercentError::Margin(percent.to_string()))
        }
    }

    /// So much of the price.
    pub fn percent(self) -> Percent {
        self.0
    }

    /// `price = cost / (1 - margin)`, rounded by the one rule.
    pub fn price(self, cost: Money) -> Money {
        to_cents(self.price_exact(Decimal::from(cost.cents())))
    }

    pub(super) fn price_exact(self, cost: Decimal) -> Decimal {
        cost / (Decimal::ONE - self.0.fraction())
    }

    /// The markup this comes to, `margin / (1 - margin)`, in per cent to a tenth.
    pub fn as_markup_percent(self) -> Decimal {
        let margin = self.0.fraction();
        tenths(margin / (Decimal::ONE - margin))
    }

    /// `margin 10 % (markup 11.1 %)`.
    pub fn words(self) -> String {
        format!("margin {} (markup {} %)", self.0, self.as_markup_percent())
    }

    /// The margin at which a cost was sold, in per cent to a tenth; none for a price of nothing.
    pub fn found_percent(cost: Money, price: Money) -> Option<Decimal> {
        let gain = Decimal::from((price - cost).cents());
        gain.checked_div(Decimal::from(price.cents())).map(tenths)
    }
}

/// What to buy for a net need at this waste: `net / (1 - waste)`, never `net x (1 + waste)`. None
/// where the waste leaves nothing.
pub fn buy_for(net: Decimal, waste: Percent) -> Option<Decimal> {
    let left = Decimal::ONE - waste.fraction();
    (left > Decimal::ZERO)
        .then(|| net.checked_div(left))
        .flatten()
}
