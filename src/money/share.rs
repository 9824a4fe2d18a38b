//! A part of a whole as an exact fraction: a third is a third.

use super::percent::Percent;
use crate::units::{Money, clean_line};
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};
use std::fmt;
use thiserror::Error;

/// A fraction above nothing and at most one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Share {
    part: i64,
    whole: i64,
}

/// Why a text is no share.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("\"{0}\" is no share of a total; write it like 50 %, 12.5 % or 1/3.")]
pub struct ShareError(
    /// What was typed.
    pub String,
);

const fn common(mut a: i64, mut b: i64) -> i64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl Share {
    /// `part / whole`; none unless it is above nothing and at most one.
    pub fn new(part: i64, whole: i64) -> Option<Self> {
        if part <= 0 || part > whole || whole > 10_000_000 {
            return None;
        }
        let shared = common(part, whole);
        Some(Self {
            part: part / shared,
            whole: whole / shared,
        })
    }

    /// From a per cent.
    pub fn of_percent(percent: Percent) -> Option<Self> {
        let millionths = (percent.fraction() * rust_decimal::Decimal::from(1_000_000)).to_i64()?;
        Self::new(millionths, 1_000_000)
    }

    /// This share of an amount, by the one rounding rule.
    pub fn of(self, amount: Money) -> Money {
        amount.share(self.part, self.whole)
    }

    /// The most whole cents that do not exceed this share: what a cap allows.
    pub fn at_most_of(self, amount: Money) -> Money {
        let cents = i128::from(amount.cents()) * i128::from(self.part);
        let down = cents.div_euclid(self.whole.into());
        Money::from_cents(i64::try_from(down).unwrap_or(0))
    }

    /// Whether some shares make up exactly the whole.
    pub fn are_all(shares: &[Self]) -> bool {
        let sum = shares.iter().try_fold((0_i128, 1_i128), |(a, b), share| {
            let (part, whole) = (i128::from(share.part), i128::from(share.whole));
            let above = a.checked_mul(whole)?.checked_add(part.checked_mul(b)?)?;
            Some((above, b.checked_mul(whole)?))
        });
        sum.is_some_and(|(above, below)| above == below)
    }

    /// Reads `1/3`, `50 %`, `12.5%`.
    ///
    /// # Errors
    /// What is none, or not above nothing and at most the whole.
    pub fn parse(text: &str) -> Result<Self, ShareError> {
        let wrong = || ShareError(clean_line(text).0.chars().take(40).collect());
        let text = text.trim();
        let Some((part, whole)) = text.split_once('/') else {
            let percent = Percent::parse(text).map_err(|_| wrong())?;
            return Self::of_percent(percent).ok_or_else(wrong);
        };
        let number = |text: &str| text.trim().parse::<i64>().ok();
        number(part)
            .zip(number(whole))
            .and_then(|(part, whole)| Self::new(part, whole))
            .ok_or_else(wrong)
    }
}

impl fmt::Display for Share {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A share that is a short per cent reads best as one.
        if 1_000_000 % self.whole == 0 {
            let millionths = self.part * (1_000_000 / self.whole);
            let percent = rust_decimal::Decimal::new(millionths, 4).normalize();
            return write!(f, "{percent} %");
        }
        write!(f, "{}/{}", self.part, self.whole)
    }
}

impl TryFrom<String> for Share {
    type Error = ShareError;
    fn try_from(text: String) -> Result<Self, ShareError> {
        Self::parse(&text)
    }
}

impl From<Share> for String {
    fn from(share: Share) -> Self {
        share.to_string()
    }
}
