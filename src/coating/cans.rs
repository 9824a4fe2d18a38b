//! Which cans to buy: the cheapest whole cans that hold what is needed.
//!
//! An exact search, not a rule of thumb: branch and bound over the sizes on offer, the dearest
//! per volume last. Of plans that cost the same the one with less left over is taken, then the one
//! with fewer cans, then the one with the larger cans.

use crate::units::{Money, Volume};
use thiserror::Error;

/// One size on offer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CanOffer {
    /// What the can holds.
    pub holds: Volume,
    /// What it costs.
    pub price: Money,
}

/// So many cans of one size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CanCount {
    /// The size.
    pub offer: CanOffer,
    /// How many.
    pub cans: u32,
}

/// What to buy.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CanPlan {
    /// The sizes taken, largest first; none where nothing is needed.
    pub counts: Vec<CanCount>,
    /// What they hold together.
    pub holds: Volume,
    /// What they cost together.
    pub price: Money,
}

/// Why there is no plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum CanError {
    /// Nothing is on offer.
    #[error("No can size is known for this product. Give at least one size with its price.")]
    NoSizes,
    /// A can that holds nothing.
    #[error("A can that holds nothing cannot be bought. Give the size printed on the can.")]
    Empty,
    /// A price below nothing.
    #[error("A can cannot cost less than nothing. Give the price paid for it.")]
    Negative,
    /// Far more than a shop uses.
    #[error(
        "That would take more than {most} cans. Check the area and the spread rate, or give a larger size."
    )]
    TooMany {
        /// The most that is planned for.
        most: u32,
    },
}

/// The most cans of the largest size in a plan: a shop of one buys no more at once, and the search
/// stays short.
const MOST: u32 = 50;

/// The cheapest whole cans that hold `need`.
///
/// # Errors
/// When no size is on offer, one is empty or costs less than nothing, or even the largest size
/// would be needed over 50 times.
pub fn cheapest_cans(need: Volume, offers: &[CanOffer]) -> Result<CanPlan, CanError> {
    if offers.is_empty() {
        return Err(CanError::NoSizes);
    }
    if offers.iter().any(|offer| offer.holds.ul() <= 0) {
        return Err(CanError::Empty);
    }
    if offers.iter().any(|offer| offer.price.cents() < 0) {
        return Err(CanError::Negative);
    }
    if need.ul() <= 0 {
        return Ok(CanPlan::default());
    }
    let largest = offers.iter().map(|offer| offer.holds.ul()).max();
    if largest.is_some_and(|largest| need.ul().div_euclid(largest) >= i64::from(MOST)) {
        return Err(CanError::TooMany { most: MOST });
    }
    let mut sizes = worth_looking_at(offers);
    // Best value first: the first plans found are good ones, and the bound cuts early.
    sizes.sort_by(|a, b| per_volume(a, b).then(b.holds.cmp(&a.holds)));
    let mut search = Search {
        counts: vec![0; sizes.len()],
        sizes,
        best: None,
    };
    search.go(0, need.ul(), 0);
    Ok(search.plan())
}

/// Sizes that no other beats outright: one that holds as much and costs no more.
fn worth_looking_at(offers: &[CanOffer]) -> Vec<CanOffer> {
    let mut out: Vec<CanOffer> = Vec::new();
    for (i, offer) in offers.iter().enumerate() {
        let beaten = offers.iter().enumerate().any(|(j, other)| {
            let same = other == offer;
            // Equal volume at a lower price; a larger can may leave more over, so it does not
            // beat a smaller one.
            !same && other.holds == offer.holds && other.price < offer.price || same && j < i
        });
        if !beaten {
            out.push(*offer);
        }
    }
    out
}

/// Price per volume compared without division.
fn per_volume(a: &CanOffer, b: &CanOffer) -> std::cmp::Ordering {
    let left = i128::from(a.price.cents()) * i128::from(b.holds.ul());
    let right = i128::from(b.price.cents()) * i128::from(a.holds.ul());
    left.cmp(&right)
}

/// How good a plan is, least first: cents, microlitres held, cans.
type Rank = (i64, i64, u32);

struct Search {
    sizes: Vec<CanOffer>,
    counts: Vec<u32>,
    best: Option<(Rank, Vec<u32>)>,
}

impl Search {
    /// Tries every count of the `at`-th size that can still lead to a better plan.
    fn go(&mut self, at: usize, need: i64, cents: i64) {
        let Some(size) = self.sizes.get(at).copied() else {
            return;
        };
        let enough =
            u32::try_from((need + size.holds.ul() - 1) / size.holds.ul()).unwrap_or(u32::MAX);
        for cans in (0..=enough).rev() {
            let left = need - i64::from(cans) * size.holds.ul();
            let spent = cents + i64::from(cans) * size.price.cents();
            self.counts[at] = cans;
            if left <= 0 {
                self.take(spent);
            } else if self.can_beat(at + 1, left, spent) {
                self.go(at + 1, left, spent);
            }
        }
        self.counts[at] = 0;
    }

    /// Whether the sizes from `at` on could still make a plan no dearer than the best: all of
    /// `left` at the best remaining price per volume, rounded down.
    fn can_beat(&self, at: usize, left: i64, spent: i64) -> bool {
        let Some(size) = self.sizes.get(at) else {
            return false;
        };
        let Some(((best, ..), _)) = &self.best else {
            return true;
        };
        let least = i128::from(size.price.cents()) * i128::from(left) / i128::from(size.holds.ul());
        i128::from(spent) + least <= i128::from(*best)
    }

    fn take(&mut self, cents: i64) {
        let sizes = self.sizes.iter().zip(&self.counts);
        let holds = sizes.map(|(size, cans)| size.holds.ul() * i64::from(*cans));
        let rank = (cents, holds.sum(), self.counts.iter().sum());
        if self.best.as_ref().is_none_or(|(best, _)| rank < *best) {
            self.best = Some((rank, self.counts.clone()));
        }
    }

    fn plan(self) -> CanPlan {
        let Some(((cents, holds, _), counts)) = self.best else {
            return CanPlan::default();
        };
        let taken = self.sizes.into_iter().zip(counts);
        let mut counts: Vec<CanCount> = taken
            .filter(|(_, cans)| *cans > 0)
            .map(|(offer, cans)| CanCount { offer, cans })
            .collect();
        counts.sort_by_key(|count| std::cmp::Reverse(count.offer.holds));
        CanPlan {
            counts,
            holds: Volume::from_ul(holds),
            price: Money::from_cents(cents),
        }
    }
}
