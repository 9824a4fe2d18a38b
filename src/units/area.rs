//! Areas.

use serde::{Deserialize, Serialize};

use super::exact::round_to_i64;

/// An area in square metres. Comes out of geometry, so it is a measured kind of number (`f64`).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Area(f64);

/// How the shop writes areas and spread rates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum AreaStyle {
    /// `17.4 sq ft`, `625 sq ft/gal`.
    #[default]
    SquareFeet,
    /// `1.62 m2`, `15.3 m2/L`.
    SquareMetres,
}

impl Area {
    /// No area.
    pub const ZERO: Self = Self(0.0);
    /// Square metres in a square inch: 0.0254 m squared.
    const M2_PER_SQ_IN: f64 = 0.000_645_16;
    /// Square metres in a square foot (NIST Handbook 44, Appendix C).
    pub(super) const M2_PER_SQ_FT: f64 = 0.092_903_04;

    /// From square metres.
    pub const fn from_m2(m2: f64) -> Self {
        Self(m2)
    }

    /// From square inches.
    pub fn from_sq_in(sq_in: f64) -> Self {
        Self(sq_in * Self::M2_PER_SQ_IN)
    }

    /// From square feet.
    pub fn from_sq_ft(sq_ft: f64) -> Self {
        Self(sq_ft * Self::M2_PER_SQ_FT)
    }

    /// From whole square micrometres, the form in which an area is stored.
    pub fn from_um2(um2: i64) -> Self {
        Self(um2 as f64 / 1e12)
    }

    /// Square metres.
    pub const fn m2(self) -> f64 {
        self.0
    }

    /// Square inches.
    pub fn sq_in(self) -> f64 {
        self.0 / Self::M2_PER_SQ_IN
    }

    /// Square feet.
    pub fn sq_ft(self) -> f64 {
        self.0 / Self::M2_PER_SQ_FT
    }

    /// The nearest whole number of square micrometres.
    pub fn um2(self) -> i64 {
        round_to_i64(self.0 * 1e12)
    }

    /// `17.4 sq ft` or `1.62 m2`; one decimal more below one. What would round to nothing is shown
    /// as `under 0.01 sq ft`.
    pub fn show(self, style: AreaStyle) -> String {
        let (value, places, unit) = match style {
            AreaStyle::SquareFeet => (self.sq_ft(), 1, "sq ft"),
            AreaStyle::SquareMetres => (self.0, 2, "m2"),
        };
        if value == 0.0 {
            return format!("0 {unit}");
        }
        let places = places + usize::from(value.abs() < 1.0);
        let least = if places == 3 { 0.001 } else { 0.01 };
        if value.abs() < least / 2.0 {
            return format!("under {least} {unit}");
        }
        format!("{value:.places$} {unit}")
    }
}

impl std::ops::Add for Area {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl std::ops::Sub for Area {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl std::ops::AddAssign for Area {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl std::ops::Mul<f64> for Area {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self(self.0 * times)
    }
}

impl std::iter::Sum for Area {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::ZERO, |total, part| total + part)
    }
}

impl<'a> std::iter::Sum<&'a Area> for Area {
    fn sum<I: Iterator<Item = &'a Self>>(parts: I) -> Self {
        parts.copied().sum()
    }
}
