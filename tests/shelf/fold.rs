//! What is folded from a can's log, against weighings worked out by hand.

use chrono::{DateTime, Duration, NaiveDate, Utc};
use tackfree::coating::Product;
use tackfree::coating::film::film;
use tackfree::coating::id::Mint;
use tackfree::shop::{
    Age, Amount, AmountBasis, Came, Can, CanId, CanLine, CanLineId, CanWhat, CoatKind, Draw, Drawn,
    Keeps, KeepsDay, Known, Loss, Pass, PassId, Weights, fold_cans, ready_products, split_money,
    split_volume,
};
use tackfree::units::{Area, Density, Mass, Money, SpreadRate, Volume};
use uuid::Uuid;

fn at(hours: i64) -> DateTime<Utc> {
    DateTime::from_timestamp(1_790_000_000, 0).expect("a moment") + Duration::hours(hours)
}

fn product(density: f64) -> Product {
    let mut mint = Mint::new(Uuid::nil(), 3);
    let mut product = ready_products(&mut mint, 1_000).remove(1);
    product.label.density = Density::from_g_per_ml(density).expect("a density");
    product
}

fn can(product: &Product, empty: Option<f64>) -> Can {
    Can {
        id: CanId(Uuid::from_u128(500)),
        no: 1,
        product: product.id,
        size: Volume::from_ul(1_200_000),
        held: Volume::from_ul(1_200_000),
        batch: "A".to_owned(),
        came: Came::Bought {
            on: at(-48).date_naive(),
            price: Money::from_cents(3_001),
        },
        keeps: Keeps::default(),
        empty: empty.map(Mass::from_g),
        place: String::new(),
    }
}

fn line(no: u128, hours: i64, what: CanWhat) -> CanLine {
    CanLine {
        id: CanLineId(Uuid::from_u128(no)),
        can: CanId(Uuid::from_u128(500)),
        at: at(hours),
        what,
    }
}

fn pass(no: u128, hours: i64, of: &Product, volume: Volume, weights: Option<Weights>) -> Pass {
    Pass {
        id: PassId(Uuid::from_u128(no)),
        kind: CoatKind::Topcoat,
        product: of.id,
        started: at(hours),
        ended: at(hours),
        amount: Amount {
            volume,
            basis: AmountBasis::Measured,
        },
        air: None,
        drawn: Drawn {
            draws: vec![Draw {
                can: CanId(Uuid::from_u128(500)),
                volume,
                weights,
            }],
            lost: None,
            method: None,
        },
    }
}

/// Weighing vectors: before and after in g, density in g/mL, area in m2, volume solids in per cent;
/// then mL, m2/L, ft2/gal, wet and dry film in um, to the digits printed. Reckoned by hand from the
/// identities volume = mass / density, spread = area / volume, wet film = 1000 / spread and dry film =
/// wet film times volume solids; common practice, no source.
#[test]
fn weighing_vectors_hold_through_a_can() {
    let rows = [
        (
            1042.0, 884.0, 0.900, 1.95, 30.0, "175.56", "11.108", "452.6", "90.0", 27.0,
        ),
        (
            968.5, 905.0, 0.842, 1.20, 25.87, "75.42", "15.912", "648.3", "62.8", 16.3,
        ),
        (
            1250.0, 1130.0, 1.031, 1.30, 24.4, "116.39", "11.169", "455.1", "89.5", 21.9,
        ),
    ];
    for (before, after, density, m2, solids, ml, m2_per_l, ft2_per_gal, wet, dry) in rows {
        let of = product(density);
        let weights = Weights {
            before: Mass::from_g(before),
            after: Mass::from_g(after),
        };
        let used = of.label.density.volume_of(weights.before - weights.after);
        let can = can(&of, Some(128.0));
        let one = pass(900, 0, &of, used, Some(weights));
        let book = fold_cans(&[can], &[], &[one], std::slice::from_ref(&of));
        let state = &book.cans[0];
        let took = state.sums.on_wood.volume;
        assert_eq!(format!("{:.2}", took.ml()), ml);
        let area = Area::from_m2(m2);
        let rate = SpreadRate::from_m2_per_l(m2 / took.litres()).expect("a rate");
        assert_eq!(format!("{:.3}", rate.m2_per_l()), m2_per_l);
        assert_eq!(format!("{:.1}", rate.sq_ft_per_gal()), ft2_per_gal);
        let film = film(took, area, solids).expect("a film");
        assert_eq!(format!("{:.1}", film.wet_um), wet);
        // The printed dry film is reckoned from figures printed already: half a digit more.
        assert!((film.dry_um - dry).abs() < 0.06, "{film:?}");
        // What is left is what the scale says, whatever was in it by subtraction.
        let left = of.label.density.volume_of(Mass::from_g(after - 128.0));
        assert!((state.left.volume - left).ul().abs() <= 2);
        assert_eq!(state.known, Known::Weighed(at(0)));
    }
}

#[test]
fn a_loss_weighed_at_once_is_not_on_the_wood() {
    let of = product(0.9);
    let used = Volume::from_ul(175_556);
    let mut one = pass(900, 0, &of, used, None);
    one.drawn.lost = Some(Loss::weighed(Mass::from_g(9.0), of.label.density));
    assert_eq!(one.on_wood(), Volume::from_ul(165_556));
    let half = Volume::from_ul(87_778);
    assert_eq!(one.on_wood_of(half), Volume::from_ul(82_778));
    let can = can(&of, None);
    let book = fold_cans(&[can], &[], &[one], std::slice::from_ref(&of));
    let sums = book.cans[0].sums;
    assert_eq!(sums.rag.volume, Volume::from_ul(10_000));
    assert_eq!(sums.on_wood.volume, Volume::from_ul(165_556));
    // 30.01 for 1,200 mL: 4.39 for 175.556 mL, of which 25 cents in the rag.
    assert_eq!(sums.on_wood.cost + sums.rag.cost, Money::from_cents(439));
    assert_eq!(sums.rag.cost, Money::from_cents(25));
}

#[test]
fn the_order_of_times_counts_not_that_of_writing() {
    let of = product(1.0);
    let can = can(&of, Some(100.0));
    // Weighed at 5 h; a pass of 3 h is logged afterwards: the weighing has it already.
    let weighed = line(800, 5, CanWhat::Weighed(Mass::from_g(1_000.0)));
    let late = pass(901, 3, &of, Volume::from_ul(50_000), None);
    let book = fold_cans(
        std::slice::from_ref(&can),
        std::slice::from_ref(&weighed),
        &[late],
        std::slice::from_ref(&of),
    );
    let state = &book.cans[0];
    assert_eq!(state.left.volume, Volume::from_ul(900_000));
    assert_eq!(state.sums.found.volume, Volume::from_ul(250_000));
    assert_eq!(state.opened, Some(at(3)));
    let after = pass(902, 6, &of, Volume::from_ul(50_000), None);
    let book = fold_cans(&[can], &[weighed], &[after], &[of]);
    let state = &book.cans[0];
    assert_eq!(state.left.volume, Volume::from_ul(850_000));
    assert_eq!(state.known, Known::Subtracted(Some(at(5))));
}

#[test]
fn the_earlier_end_of_the_shelf_life_counts() {
    let day = |text: &str| text.parse::<NaiveDate>().expect("a day");
    let keeps = Keeps {
        sealed: Some(365),
        open: Some(90),
    };
    let until = |opened| keeps.until(day("2026-01-01"), opened).map(KeepsDay::day);
    assert_eq!(until(None), Some(day("2027-01-01")));
    assert_eq!(until(Some(day("2026-02-01"))), Some(day("2026-05-02")));
    assert_eq!(until(Some(day("2026-12-01"))), Some(day("2027-01-01")));
    let of = product(1.0);
    let mut can = can(&of, None);
    can.keeps = keeps;
    can.came = Came::Bought {
        on: day("2026-01-01"),
        price: Money::ZERO,
    };
    let book = fold_cans(&[can], &[], &[], &[of]);
    let age = |text| book.cans[0].age(day(text), chrono_tz::UTC);
    assert!(matches!(age("2026-12-01"), Age::Good(_)));
    assert!(matches!(age("2026-12-02"), Age::Soon(_)));
    assert!(matches!(age("2027-01-01"), Age::Soon(_)));
    assert!(matches!(age("2027-01-02"), Age::Past(_)));
}

proptest::proptest! {
    #[test]
    fn parts_add_up_whatever_their_weights(
        total in -1_000_000_i64..1_000_000,
        weights in proptest::collection::vec(0_i64..10_000_000, 1..12),
    ) {
        let money = split_money(Money::from_cents(total), &weights);
        proptest::prop_assert_eq!(money.iter().sum::<Money>(), Money::from_cents(total));
        let volume = split_volume(Volume::from_ul(total), &weights);
        proptest::prop_assert_eq!(volume.iter().sum::<Volume>(), Volume::from_ul(total));
        let whole: i64 = weights.iter().sum();
        for (part, weight) in money.iter().zip(&weights) {
            if whole > 0 {
                let fair = i128::from(total) * i128::from(*weight) / i128::from(whole);
                proptest::prop_assert!((i128::from(part.cents()) - fair).abs() <= 2);
            }
        }
    }
}
