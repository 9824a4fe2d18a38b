//! Moments and dates as a person types and reads them. Instants are UTC inside and local outside;
//! what time it is comes in as a value, since nothing here reads a clock.

mod ahead;
mod date;
mod instant;
mod show;
#[cfg(test)]
mod tests;
mod words;

pub use ahead::{AheadError, parse_ahead};
pub use date::{DateError, parse_date, parse_future_date, parse_past_date};
pub use instant::{MomentError, parse_moment};
pub use show::{show_date, show_moment, show_span};
