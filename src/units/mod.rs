//! Units: the quantities of the shop as types, read from what a person types and shown in the
//! shop's own units. Pure: no clock, no files, no screen.
//!
//! Here live the newtypes ([`Length`], [`Area`], [`Volume`], [`Mass`], [`Density`],
//! [`SpreadRate`], [`Temperature`], [`Humidity`], [`Money`]), reading and showing of moments and
//! dates ([`moment`]) and the cleaning of foreign text ([`clean`]). What a quantity *means* (a
//! coat, a face, a price) lives in the rooms above.
//!
//! Whole-number quantities add and subtract without wrapping or panicking: at the far end of
//! `i64`, thousands of times beyond anything a shop holds, they stay at the end.

mod air;
mod area;
pub mod clean;
mod count;
mod exact;
mod length;
mod mass;
pub mod moment;
mod money;
mod scan;
mod spread;
#[cfg(test)]
mod tests;
mod volume;

pub use air::{AirError, Humidity, Temperature, TemperatureStyle, parse_air, parse_any_air};
pub use area::{Area, AreaStyle};
pub use clean::{clean_line, clean_text, display_width};
pub use count::counted;
pub use length::{BareUnit, Length, LengthError, LengthStyle};
pub use mass::{Density, Mass, MassError};
pub use moment::{
    AheadError, DateError, MomentError, parse_ahead, parse_date, parse_future_date, parse_moment,
    show_date, show_moment, show_span,
};
pub use money::{Money, MoneyError};
pub use spread::{SpreadError, SpreadRate};
pub use volume::{Volume, VolumeError, VolumeStyle};

/// Sums and differences of a whole-number newtype, staying at the end of `i64` instead of
/// wrapping.
macro_rules! whole_number_sums {
    ($name:ident) => {
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }
        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }
        }
        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(self.0.saturating_neg())
            }
        }
        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }
        impl std::ops::SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                *self = *self - other;
            }
        }
        impl std::ops::Mul<i64> for $name {
            type Output = Self;
            fn mul(self, times: i64) -> Self {
                Self(self.0.saturating_mul(times))
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self(0), |total, part| total + part)
            }
        }
        impl<'a> std::iter::Sum<&'a $name> for $name {
            fn sum<I: Iterator<Item = &'a Self>>(parts: I) -> Self {
                parts.copied().sum()
            }
        }
    };
}
use whole_number_sums;
