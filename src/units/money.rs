//! Money, in whole cents.

use serde::{Deserialize, Serialize};

use super::exact::divide_rounded;
use super::scan::quoted;

/// An amount in whole cents; negative when it is owed the other way. Stored and sent as cents.
///
/// There is **one rounding rule**: every amount that does not come out in whole cents is rounded,
/// at its own line, to the nearest cent, and half a cent goes away from zero. Totals add rounded
/// lines and are never rounded again.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Money(i64);

super::whole_number_sums!(Money);

/// Why a text is not taken as an amount of money.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Nothing was typed.
    #[error("No amount was given; write one like 42.50 or $1,250.")]
    Empty,
    /// The text does not read as an amount.
    #[error("\"{text}\" does not read as an amount of money; write it like 42.50 or $1,250.00.")]
    Nonsense {
        /// What was typed.
        text: String,
    },
    /// Parts of a cent.
    #[error("\"{text}\" has parts of a cent; write at most two digits after the point.")]
    TooFine {
        /// What was typed.
        text: String,
    },
    /// More than [`Money::MAX`].
    #[error("\"{text}\" is more than $100,000,000, the most taken here; check the number.")]
    TooMuch {
        /// What was typed.
        text: String,
    },
}

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The most that is taken from a person: $100,000,000.
    pub const MAX: Self = Self(10_000_000_000);

    /// From whole cents.
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents)
    }

    /// Whole cents.
    pub const fn cents(self) -> i64 {
        self.0
    }

    /// `self x part / whole`, by the one rounding rule (see [`Money`]): to the nearest cent, half a
    /// cent away from zero, computed exactly in between. A share of a whole of zero is nothing.
    #[must_use]
    pub fn share(self, part: i64, whole: i64) -> Self {
        if whole == 0 {
            return Self::ZERO;
        }
        let cents = divide_rounded(i128::from(self.0) * i128::from(part), whole.into());
        Self(i64::try_from(cents).unwrap_or(if cents < 0 { i64::MIN } else { i64::MAX }))
    }

    /// Reads an amount: `$42.50`, `42.5`, `42`, `.50`, `1,250.00`, `-$5`. Commas must part
    /// thousands.
    ///
    /// # Errors
    /// [`MoneyError`] tells nothing, nonsense, parts of a cent and too much apart.
    pub fn parse(text: &str) -> Result<Self, MoneyError> {
        let typed = || quoted(text);
        let nonsense = || MoneyError::Nonsense { text: typed() };
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Err(MoneyError::Empty);
        }
        let unsigned = trimmed.strip_prefix(['-', '\u{2212}']);
        let sign = if unsigned.is_some() { -1 } else { 1 };
        let unsigned = unsigned.unwrap_or(trimmed).trim_start();
        let number = unsigned.strip_prefix('$').unwrap_or(unsigned).trim_start();
        let (dollars, cents) = number.split_once('.').unwrap_or((number, ""));
        if dollars.is_empty() && cents.is_empty() {
            return Err(nonsense());
        }
        if !cents.bytes().all(|b| b.is_ascii_digit()) {
            return Err(nonsense());
        }
        let digits = without_commas(dollars).ok_or_else(nonsense)?;
        let (kept, finer) = cents.split_at(cents.len().min(2));
        if finer.bytes().any(|b| b != b'0') {
            return Err(MoneyError::TooFine { text: typed() });
        }
        if digits.trim_start_matches('0').len() > 12 {
            return Err(MoneyError::TooMuch { text: typed() });
        }
        let total: i64 = format!("{digits}{kept:0<2}")
            .parse()
            .map_err(|_| nonsense())?;
        if total > Self::MAX.0 {
            return Err(MoneyError::TooMuch { text: typed() });
        }
        Ok(Self(sign * total))
    }

    /// `$1,250.00`, `-$42.50`.
    pub fn show(self) -> String {
        let size = self.0.unsigned_abs();
        let dollars = (size / 100).to_string();
        let mut grouped = String::new();
        for (i, digit) in dollars.chars().enumerate() {
            if i > 0 && (dollars.len() - i).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        let sign = if self.0 < 0 { "-" } else { "" };
        format!("{sign}${grouped}.{:02}", size % 100)
    }
}

/// The digits of `1250` or `1,250`; `None` when commas do not part thousands.
fn without_commas(text: &str) -> Option<String> {
    let groups: Vec<&str> = text.split(',').collect();
    let well_grouped = match groups.as_slice() {
        [_] => true,
        [first, rest @ ..] => (1..=3).contains(&first.len()) && rest.iter().all(|g| g.len() == 3),
        [] => false,
    };
    let digits = groups.concat();
    (well_grouped && digits.bytes().all(|b| b.is_ascii_digit())).then_some(digits)
}
