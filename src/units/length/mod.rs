//! Lengths, as whole nanometres, so that inch fractions and millimetres are both exact.

mod parse;
mod show;
#[cfg(test)]
mod tests;

pub use parse::{BareUnit, LengthError};
pub use show::LengthStyle;

use serde::{Deserialize, Serialize};

use super::exact::round_to_i64;

/// A length in whole nanometres. 1/64 in is 396,875 nm exactly (1 in = 25.4 mm, NIST Handbook 44,
/// Appendix C). Stored and sent as the number of nanometres.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Length(i64);

super::whole_number_sums!(Length);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);
    /// The longest length that is taken from a person: 100 ft.
    pub const MAX: Self = Self(100 * Self::NM_PER_FOOT);

    /// Nanometres in an inch.
    pub const NM_PER_INCH: i64 = 25_400_000;
    /// Nanometres in a foot.
    pub const NM_PER_FOOT: i64 = 12 * Self::NM_PER_INCH;
    const NM_PER_MM: i64 = 1_000_000;

    /// From whole nanometres.
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// Whole nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// `whole + num/den` inches, exactly: `from_inches(98, 3, 8)`. `None` when `den` is not above
    /// zero or the value is not a whole number of nanometres (1/3 in, say) or out of reach.
    pub const fn from_inches(whole: i64, num: i64, den: i64) -> Option<Self> {
        if den <= 0 {
            return None;
        }
        let (whole, num, den) = (whole as i128, num as i128, den as i128);
        let scaled = (whole * den + num).checked_mul(Self::NM_PER_INCH as i128);
        let Some(scaled) = scaled else { return None };
        let nm = scaled / den;
        if scaled % den != 0 || nm > i64::MAX as i128 || nm < i64::MIN as i128 {
            return None;
        }
        #[allow(
            clippy::cast_possible_truncation,
            reason = "the range was checked above"
        )]
        Some(Self(nm as i64))
    }

    /// From 64ths of an inch, exactly.
    pub const fn from_64ths(count: i64) -> Self {
        Self(count.saturating_mul(Self::NM_PER_INCH / 64))
    }

    /// From whole millimetres.
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm.saturating_mul(Self::NM_PER_MM))
    }

    /// From metres, to the nearest nanometre; for what geometry computes, not for what was typed.
    pub fn from_metres_rounded(metres: f64) -> Self {
        Self(round_to_i64(metres * 1e9))
    }

    /// Inches.
    pub fn inches(self) -> f64 {
        self.0 as f64 / Self::NM_PER_INCH as f64
    }

    /// Millimetres.
    pub fn mm(self) -> f64 {
        self.0 as f64 / Self::NM_PER_MM as f64
    }

    /// Metres.
    pub fn metres(self) -> f64 {
        self.0 as f64 / 1e9
    }
}
