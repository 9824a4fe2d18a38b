//! Exact fractions for reading numbers, and the few roundings between `f64` and whole numbers.

/// An exact fraction in lowest terms; the part below the line is always positive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ratio {
    above: i128,
    below: i128,
}

const fn common(mut a: i128, mut b: i128) -> i128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.abs()
}

impl Ratio {
    /// `above / below`; `None` when `below` is zero or negative.
    pub(super) const fn new(above: i128, below: i128) -> Option<Self> {
        if below <= 0 {
            return None;
        }
        let shared = common(above, below);
        Some(Self {
            above: above / shared,
            below: below / shared,
        })
    }

    /// A whole number.
    pub(super) const fn whole_number(n: i128) -> Self {
        Self { above: n, below: 1 }
    }

    /// The sum; `None` past the reach of `i128`.
    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let left = self.above.checked_mul(other.below)?;
        let right = other.above.checked_mul(self.below)?;
        Self::new(
            left.checked_add(right)?,
            self.below.checked_mul(other.below)?,
        )
    }

    /// The product; `None` past the reach of `i128`.
    pub(super) fn times(self, other: Self) -> Option<Self> {
        Self::new(
            self.above.checked_mul(other.above)?,
            self.below.checked_mul(other.below)?,
        )
    }

    /// The value when it is a whole number.
    pub(super) fn as_whole(self) -> Option<i128> {
        (self.below == 1).then_some(self.above)
    }

    /// The nearest whole number, halves away from zero.
    pub(super) fn rounded(self) -> i128 {
        divide_rounded(self.above, self.below)
    }

    /// The nearest `f64`.
    pub(super) fn as_f64(self) -> f64 {
        self.above as f64 / self.below as f64
    }

    /// Whether the value lies below the whole number `n`.
    pub(super) fn is_below(self, n: i128) -> bool {
        self.above.div_euclid(self.below) < n
    }
}

/// `above / below` to the nearest whole number, halves away from zero. `below` must not be zero.
pub(super) fn divide_rounded(above: i128, below: i128) -> i128 {
    let (size, divisor) = (above.unsigned_abs(), below.unsigned_abs());
    let (quotient, rest) = (size / divisor, size % divisor);
    // `rest >= divisor - rest` says "at least half" without doubling past the type's end.
    let quotient = quotient + u128::from(rest != 0 && rest >= divisor - rest);
    let quotient = i128::try_from(quotient).unwrap_or(i128::MAX);
    if (above < 0) == (below < 0) {
        quotient
    } else {
        -quotient
    }
}

/// The nearest whole number, halves away from zero; what does not fit stays at the end of the
/// type, and "not a number" is 0.
#[allow(
    clippy::cast_possible_truncation,
    reason = "`as` from f64 stops at the ends of i64, as this function promises"
)]
pub(super) fn round_to_i64(value: f64) -> i64 {
    value.round() as i64
}

/// A number with at most `places` decimals and no trailing zeros: `4.2`, `4`, `0.25`.
pub(super) fn trimmed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".into()
    } else {
        text.into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_round_away_from_zero() {
        for (above, below, expected) in [(1, 2, 1), (-1, 2, -1), (3, 2, 2), (5, 4, 1), (7, -2, -4)]
        {
            assert_eq!(divide_rounded(above, below), expected, "{above}/{below}");
        }
        assert_eq!(divide_rounded(i128::MIN, -1), i128::MAX);
    }

    #[test]
    fn trimmed_numbers_keep_no_idle_zeros() {
        assert_eq!(trimmed(4.04, 1), "4");
        assert_eq!(trimmed(-0.04, 1), "0");
        assert_eq!(trimmed(100.0, 0), "100");
        assert_eq!(trimmed(0.25, 2), "0.25");
    }
}
