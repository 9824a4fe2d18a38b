//! What touch tests teach, on simulated shops that anyone can run again.

use super::support::{clock, log_of, product, read, utc};
use chrono::{DateTime, Duration, Utc};
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::{
    DryingClock, Family, FilmStage, Found, Learned, ModelSettings, ShopAirClock, Span, TouchTest,
    Tuning, learn, look_again,
};

/// A small known generator (splitmix64, S. Vigna, public domain; from memory), so that every run
/// sees the same shops.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Between 0 and 1.
    fn even(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.even()
    }

    /// Normal, by adding twelve.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }
}

/// One shop: its air by day and night, its true speed against the law, and how its person tests.
struct Shop {
    dice: Dice,
    truth: f64,
    /// Scatter of single coats about it, on the logarithm.
    scatter: f64,
    /// Share of tests judged wrongly.
    slips: f64,
    log: Arc<tackfree::coating::AirLog>,
}

impl Shop {
    fn new(seed: u64, (truth, scatter): (f64, f64), slips: f64) -> Self {
        let mut dice = Dice(seed.wrapping_mul(0x1234_5678_9ABC_DEF1));
        let (day, night) = (dice.between(18.0, 25.0), dice.between(13.0, 19.0));
        let damp = dice.between(35.0, 65.0);
        let from = utc(2026, 3, 1, 0, 0);
        let rows: Vec<_> = (0..60 * 4)
            .map(|part| {
                let warm = part % 4 >= 2;
                let c = if warm { day } else { night } + dice.normal() * 0.7;
                let percent = (damp + dice.normal() * 4.0).clamp(10.0, 80.0);
                read(from + Duration::hours(part * 6), c, percent)
            })
            .collect();
        Self {
            dice,
            truth,
            scatter,
            slips,
            log: Arc::new(log_of(&rows)),
        }
    }

    /// Makes tests as a person does who follows the clock: looks when it says so, a little early or
    /// late; if the coat is soft, looks again when the clock says to; if it powders, the next coat
    /// goes on, the next day. Returns what was learned after so many tests.
    fn after(&mut self, tests: usize) -> Learned {
        let product = product(Family::OilBrushingVarnish);
        let opens = product.label.windows[0].opens;
        let mut seen: Vec<TouchTest> = Vec::new();
        let mut laid = utc(2026, 3, 2, 9, 0);
        let mut coat = 0;
        while seen.len() < tests {
            coat += 1;
            let speed = self.truth * (self.dice.normal() * self.scatter).exp();
            let clock = self.clock(&product, &seen);
            let mut at = clock.likely().reached(&product, laid, opens);
            loop {
                let late =
                    self.dice.between(-50.0, 150.0) * (at - laid).num_minutes() as f64 / 1000.0;
                at += Duration::minutes(whole(late));
                let had = clock.label_hours(&product, laid, at);
                let dry = had * speed >= opens.as_minutes() as f64 / 60.0;
                let slip = self.dice.even() < self.slips;
                let stage = if dry == slip {
                    FilmStage::Soft
                } else {
                    FilmStage::Recoat
                };
                seen.extend(clock.observe(&product, coat, laid, at, stage));
                if stage == FilmStage::Recoat || seen.len() == tests {
                    break;
                }
                let clock = self.clock(&product, &seen);
                at = look_again(laid, at, clock.likely().reached(&product, laid, opens));
            }
            laid = at.max(laid) + Duration::hours(20);
        }
        learn(&seen)
    }

    fn clock(&self, product: &tackfree::coating::Product, seen: &[TouchTest]) -> ShopAirClock {
        let learned = learn(seen);
        let tuning = Tuning {
            safe: learned,
            likely: learned,
        };
        let known = Arc::new(HashMap::from([(product.id, tuning)]));
        ShopAirClock::new(Arc::clone(&self.log), ModelSettings::default(), known)
    }
}

#[allow(
    clippy::cast_possible_truncation,
    reason = "minutes of a few days at most"
)]
fn whole(minutes: f64) -> i64 {
    minutes as i64
}

/// Shops of 100 found within a tenth after eight tests, at least, by the scatter of single coats.
const FOUND: [(f64, usize); 4] = [(0.05, 95), (0.08, 90), (0.10, 75), (0.12, 65)];

/// Scatter of single coats in the shops below unless said: eight in a hundred (judgement).
const SCATTER: f64 = 0.08;

fn shops_within((truth, scatter): (f64, f64), slips: f64, tests: usize, share: f64) -> usize {
    (0..100)
        .filter(|seed| {
            let learned = Shop::new(*seed, (truth, scatter), slips).after(tests);
            (learned.median / truth - 1.0).abs() <= share
        })
        .count()
}

#[test]
fn eight_tests_find_a_slow_shop_s_speed_within_a_tenth() {
    let found = shops_within((0.7, SCATTER), 0.0, 8, 0.1);
    println!("within a tenth of 0.7: {found} of 100");
    assert!(found >= 90, "{found} of 100 shops");
}

#[test]
fn what_eight_tests_find_depends_on_how_much_single_coats_scatter() {
    // What the module and the developers' notes state. With a scatter of a tenth eight tests,
    // which are four or five coats, cannot do much better: the mean of so many coats alone lies
    // off by a tenth over the root of their number.
    for (scatter, least) in FOUND {
        let found = shops_within((0.7, scatter), 0.0, 8, 0.1);
        let more = shops_within((0.7, scatter), 0.0, 16, 0.1);
        println!("scatter {scatter}: {found} of 100 after 8 tests, {more} after 16");
        assert!(found >= least, "{found} of 100 shops at {scatter}");
        assert!(
            more >= found.min(90),
            "{more} after 16 tests, {found} after 8"
        );
    }
}

#[test]
fn other_shops_are_found_too_and_a_slip_now_and_then_spoils_little() {
    for (truth, slips, least) in [
        (0.85, 0.0, 90),
        (1.0, 0.0, 90),
        (1.2, 0.0, 80),
        (0.7, 0.05, 75),
    ] {
        let found = shops_within((truth, SCATTER), slips, 8, 0.1);
        println!("within a tenth of {truth}, {slips} slips: {found} of 100");
        assert!(
            found >= least,
            "{found} of 100 shops at {truth} with {slips} slips"
        );
    }
}

#[test]
fn without_tests_the_law_stands_as_it_is() {
    let none = learn(&[]);
    assert_eq!(none, Learned::default());
    assert!((none.middle() - 1.0).abs() < f64::EPSILON);
    assert!((none.cautious() - 1.0).abs() < f64::EPSILON);
    assert_eq!(none.words(), "the label's speed, no touch test yet");
    // Tests without meaning teach nothing.
    let nonsense = TouchTest {
        coat: 1,
        asked: f64::NAN,
        had: 0.0,
        found: Found::Dry,
    };
    assert_eq!(learn(&[nonsense]).tests, 0);
}

fn test(coat: u128, had: f64, found: Found) -> TouchTest {
    TouchTest {
        coat,
        asked: 8.0,
        had,
        found,
    }
}

#[test]
fn soft_slows_dry_quickens_and_brackets_close_in() {
    let soft = learn(&[test(1, 8.0, Found::Soft)]);
    assert!(soft.median < 0.9 && soft.tests == 1 && soft.coats == 1);
    let dry = learn(&[test(1, 6.0, Found::Dry)]);
    assert!(dry.median > 1.1);
    // A dry test at the label's time says only that the shop is not slow: no great move.
    let as_said = learn(&[test(1, 8.0, Found::Dry)]);
    assert!((1.0..1.35).contains(&as_said.median), "{}", as_said.median);
    let bracket = learn(&[
        test(1, 10.0, Found::Soft),
        test(1, 11.0, Found::Dry),
        test(2, 10.5, Found::Soft),
        test(2, 12.0, Found::Dry),
    ]);
    assert!(bracket.low < 8.0 / 11.0 && bracket.high > 8.0 / 11.5);
    assert!(bracket.high / bracket.low < soft.high / soft.low);
    assert_eq!(
        bracket.words(),
        "0.75 of the label's speed in the same air, from 4 tests on 2 coats"
    );
}

#[test]
fn one_odd_test_among_many_moves_little() {
    let mut tests: Vec<_> = (0..6)
        .flat_map(|coat| [test(coat, 10.8, Found::Soft), test(coat, 12.0, Found::Dry)])
        .collect();
    let before = learn(&tests).median;
    tests.push(test(99, 2.0, Found::Dry));
    let after = learn(&tests).median;
    assert!((after / before - 1.0).abs() < 0.05, "{before} to {after}");
}

#[test]
fn a_coat_found_soft_after_it_was_found_dry_was_not_dry() {
    let mistaken = learn(&[test(1, 6.0, Found::Dry), test(1, 9.0, Found::Soft)]);
    let soft = learn(&[test(1, 9.0, Found::Soft)]);
    assert!((mistaken.median - soft.median).abs() < 1e-12);
}

#[test]
fn the_safe_time_follows_a_slow_shop_and_is_never_sooner_than_the_label() {
    let product = product(Family::OilBrushingVarnish);
    let laid = utc(2026, 3, 2, 9, 0);
    let rows = [
        read(laid, 23.0, 50.0),
        read(laid + Duration::hours(11), 23.0, 50.0),
    ];
    let log = Arc::new(log_of(&rows));
    let with = |tests: &[TouchTest]| {
        let learned = learn(tests);
        let tuning = Tuning {
            safe: learned,
            likely: learned,
        };
        let known = Arc::new(HashMap::from([(product.id, tuning)]));
        ShopAirClock::new(Arc::clone(&log), ModelSettings::default(), known)
    };
    let label = laid + Duration::hours(8);
    let at = |clock: &ShopAirClock| -> (DateTime<Utc>, DateTime<Utc>) {
        let times = clock.times(&product, laid, Span::hours(8));
        (times.safe, times.likely)
    };
    assert_eq!(at(&with(&[])), (label, label));
    let slow: Vec<_> = (0..6).map(|coat| test(coat, 9.0, Found::Soft)).collect();
    let (safe, likely) = at(&with(&slow));
    assert!(safe > laid + Duration::hours(9) && likely > laid + Duration::hours(9));
    let fast: Vec<_> = (0..6).map(|coat| test(coat, 6.0, Found::Dry)).collect();
    let quick = with(&fast);
    let (safe, likely) = at(&quick);
    assert_eq!(safe, label);
    assert!(likely < label);
    // Where the shop dries fast the window shuts sooner, never later.
    let end = quick.shuts(&product, laid, Span::hours(24));
    assert!(end < laid + Duration::hours(24));
    assert_eq!(
        with(&slow).shuts(&product, laid, Span::hours(24)),
        laid + Duration::hours(24)
    );
}

#[test]
fn a_thick_coat_is_asked_for_more_hours() {
    let product = product(Family::WaterBorne);
    let laid = utc(2026, 3, 2, 9, 0);
    let clock = clock(log_of(&[read(laid, 23.0, 50.0)])).with_film(2.25);
    let opens = product.label.windows[0].opens;
    let reach = clock.reach(&product, laid, opens);
    assert_eq!(
        (reach.at - laid).num_minutes(),
        opens.as_minutes() * 225 / 100
    );
    let seen = clock
        .observe(
            &product,
            1,
            laid,
            laid + Duration::hours(4),
            FilmStage::Touch,
        )
        .expect("a window");
    assert!((seen.asked - 6.75).abs() < 1e-9 && (seen.had - 4.0).abs() < 1e-9);
    assert_eq!(seen.found, Found::Soft);
    // Light use is a matter of days, not of one coat's thickness.
    let light = product.label.light_use;
    let plain = super::support::clock(log_of(&[read(laid, 23.0, 50.0)]));
    assert_eq!(
        clock.reached(&product, laid, light),
        plain.reached(&product, laid, light)
    );
}
