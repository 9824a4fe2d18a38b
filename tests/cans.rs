//! What to buy: the search against every plan there is.

use proptest::prelude::*;
use tackfree::coating::cans::{CanError, CanOffer, cheapest_cans};
use tackfree::units::{Money, Volume};

fn offer(ml: i64, cents: i64) -> CanOffer {
    CanOffer {
        holds: Volume::from_ul(ml * 1000),
        price: Money::from_cents(cents),
    }
}

/// The best of all plans, tried one by one: cents, microlitres held, cans.
fn brute(need: i64, offers: &[CanOffer]) -> (i64, i64, u32) {
    fn go(need: i64, offers: &[CanOffer], held: i64, cents: i64, cans: u32) -> (i64, i64, u32) {
        if held >= need {
            return (cents, held, cans);
        }
        let Some((first, rest)) = offers.split_first() else {
            return (i64::MAX, i64::MAX, u32::MAX);
        };
        let mut best = (i64::MAX, i64::MAX, u32::MAX);
        for n in 0.. {
            let more = held + i64::from(n) * first.holds.ul();
            let cost = cents + i64::from(n) * first.price.cents();
            best = best.min(go(need, rest, more, cost, cans + n));
            if more >= need {
                return best;
            }
        }
        best
    }
    go(need, offers, 0, 0, 0)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn the_search_finds_what_trying_all_finds(
        need in 1i64..9_000,
        sizes in prop::collection::vec((200i64..4_000, 0i64..9_000), 1..4),
    ) {
        let offers: Vec<CanOffer> = sizes.iter().map(|(ml, cents)| offer(*ml, *cents)).collect();
        let plan = cheapest_cans(Volume::from_ul(need * 1000), &offers).unwrap();
        let cans = plan.counts.iter().map(|count| count.cans).sum::<u32>();
        let found = (plan.price.cents(), plan.holds.ul(), cans);
        prop_assert_eq!(found, brute(need * 1000, &offers));
        let holds: i64 = plan.counts.iter().map(|c| c.offer.holds.ul() * i64::from(c.cans)).sum();
        prop_assert_eq!(holds, plan.holds.ul());
        prop_assert!(holds >= need * 1000);
    }
}

#[test]
fn a_larger_can_for_less_is_taken() {
    let offers = [offer(473, 1_500), offer(946, 2_400), offer(3_785, 6_000)];
    let plan = cheapest_cans(Volume::from_ml(2_000.0), &offers).unwrap();
    assert_eq!(plan.price, Money::from_cents(6_000));
    assert_eq!(plan.counts.len(), 1);
}

#[test]
fn what_cannot_be_bought_is_said() {
    let need = Volume::from_ml(500.0);
    assert_eq!(cheapest_cans(need, &[]), Err(CanError::NoSizes));
    assert_eq!(cheapest_cans(need, &[offer(0, 5)]), Err(CanError::Empty));
    assert_eq!(
        cheapest_cans(need, &[offer(5, -5)]),
        Err(CanError::Negative)
    );
    let lake = Volume::from_ml(1e9);
    assert!(matches!(
        cheapest_cans(lake, &[offer(946, 2_400)]),
        Err(CanError::TooMany { .. })
    ));
    assert!(
        cheapest_cans(Volume::from_ul(0), &[offer(946, 5)])
            .unwrap()
            .counts
            .is_empty()
    );
}
