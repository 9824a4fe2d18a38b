//! Money of what is in a can, to the cent.
//!
//! One rule, everywhere: of a whole that costs `P`, what has gone when `v` of `V` is out costs
//! `P * v / V`, rounded to the cent (half away from zero); each part costs the difference of two
//! such sums. So parts always add up to what was paid, whatever their number and order.

use crate::units::{Money, Volume};

/// Splits money over parts by weight, by the running difference. Weights that are all zero count
/// as equal; no parts get nothing.
pub fn split_money(total: Money, weights: &[i64]) -> Vec<Money> {
    running(weights, |out, whole| total.share(out, whole).cents())
        .into_iter()
        .map(Money::from_cents)
        .collect()
}

/// Splits a volume over parts by weight, by the same rule.
pub fn split_volume(total: Volume, weights: &[i64]) -> Vec<Volume> {
    // Money's rule of rounding on another whole number.
    let whole = Money::from_cents(total.ul());
    running(weights, |out, of| whole.share(out, of).cents())
        .into_iter()
        .map(Volume::from_ul)
        .collect()
}

fn running(weights: &[i64], share: impl Fn(i64, i64) -> i64) -> Vec<i64> {
    let even = weights.iter().all(|weight| *weight <= 0);
    let weight = |weight: &i64| if even { 1 } else { (*weight).max(0) };
    let whole: i64 = weights.iter().map(weight).sum();
    let (mut out, mut gone) = (0, 0);
    weights
        .iter()
        .map(|of| {
            out += weight(of);
            let now = share(out, whole);
            let part = now - gone;
            gone = now;
            part
        })
        .collect()
}

/// What is in a can, as volume and as money, while it goes out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pot {
    held: Volume,
    price: Money,
    left: Volume,
    spent: Money,
}

impl Pot {
    /// Full.
    pub fn of(held: Volume, price: Money) -> Self {
        Self {
            held,
            price,
            left: held,
            spent: Money::ZERO,
        }
    }

    /// What is left.
    pub fn left(&self) -> Volume {
        self.left
    }

    /// What that is worth.
    pub fn worth(&self) -> Money {
        self.price - self.spent
    }

    /// Takes out so much (a negative amount puts it back); what it costs.
    pub fn take(&mut self, volume: Volume) -> Money {
        self.left -= volume;
        let spent = self
            .price
            .share((self.held - self.left).ul(), self.held.ul());
        let cost = spent - self.spent;
        self.spent = spent;
        cost
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dollar_in_three_is_still_a_dollar() {
        let parts = split_money(Money::from_cents(100), &[1, 1, 1]);
        assert_eq!(
            parts.iter().map(|part| part.cents()).collect::<Vec<_>>(),
            [33, 34, 33]
        );
        assert_eq!(
            split_money(Money::from_cents(7), &[0, 0])
                .iter()
                .sum::<Money>(),
            Money::from_cents(7)
        );
        assert!(split_money(Money::from_cents(7), &[]).is_empty());
    }

    #[test]
    fn a_pot_that_is_put_back_gives_its_money_back() {
        let mut pot = Pot::of(Volume::from_ul(946_353), Money::from_cents(2_899));
        let out = [100_001, 333_333, -50_000, 7, 563_012].map(|ul| pot.take(Volume::from_ul(ul)));
        assert_eq!(pot.left(), Volume::ZERO);
        assert_eq!(out.iter().sum::<Money>(), Money::from_cents(2_899));
        assert_eq!(pot.worth(), Money::ZERO);
    }
}
