//! A figure that is only known to lie between two values.

use serde::{Deserialize, Serialize};

/// A range, both ends included; the low end is never above the high one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(from = "Ends<T>", into = "Ends<T>")]
#[serde(bound(
    serialize = "T: Copy + PartialOrd + Serialize",
    deserialize = "T: Copy + PartialOrd + Deserialize<'de>"
))]
pub struct Between<T> {
    low: T,
    high: T,
}

/// How a range is written down; read in either order.
#[derive(Serialize, Deserialize)]
struct Ends<T> {
    low: T,
    high: T,
}

impl<T: Copy + PartialOrd> From<Ends<T>> for Between<T> {
    fn from(ends: Ends<T>) -> Self {
        Self::new(ends.low, ends.high)
    }
}

impl<T> From<Between<T>> for Ends<T> {
    fn from(range: Between<T>) -> Self {
        Self {
            low: range.low,
            high: range.high,
        }
    }
}

impl<T: Copy + PartialOrd> Between<T> {
    /// From two values in either order.
    pub fn new(one: T, other: T) -> Self {
        if other < one {
            Self {
                low: other,
                high: one,
            }
        } else {
            Self {
                low: one,
                high: other,
            }
        }
    }

    /// A single value.
    pub fn only(value: T) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    /// The low end.
    pub fn low(self) -> T {
        self.low
    }

    /// The high end.
    pub fn high(self) -> T {
        self.high
    }

    /// Whether both ends are the same.
    pub fn is_single(self) -> bool {
        self.low == self.high
    }

    /// Whether a value lies inside, ends included.
    pub fn contains(self, value: T) -> bool {
        self.low <= value && value <= self.high
    }

    /// The smallest range that holds both.
    #[must_use]
    pub fn joined(self, other: Self) -> Self {
        Self {
            low: if other.low < self.low {
                other.low
            } else {
                self.low
            },
            high: if other.high > self.high {
                other.high
            } else {
                self.high
            },
        }
    }

    /// Both ends through a function; put in order again.
    pub fn map<U: Copy + PartialOrd>(self, by: impl Fn(T) -> U) -> Between<U> {
        Between::new(by(self.low), by(self.high))
    }
}
