//! The shop's own spread rate: what simulated finishers teach, and how little one wild entry does.

use tackfree::coating::rates::{RatePass, learn_rate};
use tackfree::units::{Area, SpreadRate, Volume};

/// A small seeded generator (`SplitMix64`, Steele, Lea and Flood 2014), so that anybody's run is the
/// same run.
struct Seeded(u64);

impl Seeded {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 up to, not including, 1.
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A normal deviate (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        let (u, v) = (1.0 - self.share(), self.share());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }
}

fn label() -> SpreadRate {
    SpreadRate::from_sq_ft_per_gal(500.0).unwrap()
}

/// How single passes scatter about the truth, as a share of it.
#[derive(Clone, Copy)]
enum Scatter {
    /// Evenly within 15 % either way.
    Even,
    /// Normally, with a standard deviation of 15 %.
    Normal,
}

impl Scatter {
    fn draw(self, random: &mut Seeded) -> f64 {
        match self {
            Self::Even => 1.0 + 0.15 * (2.0 * random.share() - 1.0),
            Self::Normal => (1.0 + 0.15 * random.normal()).max(0.1),
        }
    }
}

/// Ten passes of a finisher who spreads 1.3 times the label, weighed to the gram.
fn passes(random: &mut Seeded, scatter: Scatter) -> Vec<RatePass> {
    (0..10)
        .map(|_| {
            let area = Area::from_m2(0.5 + 3.0 * random.share());
            let rate = label().m2_per_l() * 1.3 * scatter.draw(random);
            RatePass {
                area,
                used: Volume::from_ml(area.m2() / rate * 1000.0),
                step: Volume::from_ml(1.0),
            }
        })
        .collect()
}

/// Of how many of 100 finishers the truth is met within `tolerance`: by the learned rate, and by
/// the plain mean of the logarithms, which no honest estimator beats by much when the scatter is
/// normal and nothing is wild.
fn met(seed: u64, scatter: Scatter, wild: bool, tolerance: f64) -> (usize, usize) {
    let mut random = Seeded(seed);
    let (mut learned, mut plain) = (0, 0);
    for _ in 0..100 {
        let mut log = passes(&mut random, scatter);
        if wild {
            log[4].used = Volume::from_ul(log[4].used.ul() * 10);
        }
        let near = |ratio: f64| (ratio / 1.3 - 1.0).abs() <= tolerance;
        let logs = log.iter().filter_map(RatePass::rate);
        let mean: f64 = logs
            .map(|rate| (rate.m2_per_l() / label().m2_per_l()).ln())
            .sum::<f64>()
            / 10.0;
        learned += usize::from(near(learn_rate(label(), &log).middle));
        plain += usize::from(near(mean.exp()));
    }
    (learned, plain)
}

#[test]
fn ten_passes_teach_the_rate() {
    for seed in 1..=3 {
        let (learned, _) = met(seed, Scatter::Even, false, 0.07);
        assert!(learned >= 90, "{learned} of 100 with seed {seed}");
    }
}

#[test]
fn one_entry_off_by_ten_does_not_capsize_it() {
    for seed in 1..=3 {
        for scatter in [Scatter::Even, Scatter::Normal] {
            let (learned, _) = met(seed, scatter, true, 0.12);
            assert!(learned >= 90, "{learned} of 100 with seed {seed}");
        }
    }
}

#[test]
fn normal_scatter_is_met_as_often_as_the_plain_mean_meets_it() {
    // The mean of ten normal deviates of 15 % lies within 7 % of the truth in 86 of 100: that much
    // can be known from ten passes, and no more.
    let (learned, plain) = (1..=5).fold((0, 0), |(a, b), seed| {
        let (learned, plain) = met(seed, Scatter::Normal, false, 0.07);
        (a + learned, b + plain)
    });
    assert!(learned + 20 >= plain, "{learned} against {plain} of 500");
    assert!(learned >= 410, "{learned} of 500");
}

#[test]
fn with_no_pass_it_is_the_labels() {
    let learned = learn_rate(label(), &[]);
    assert_eq!(learned.passes, 0);
    assert_eq!(learned.rate(), label());
    assert!(learned.low < 1.0 && learned.high > 1.0);
}

#[test]
fn a_pass_too_small_for_the_scale_says_little() {
    let small = RatePass {
        area: Area::from_m2(0.02),
        used: Volume::from_ml(1.0),
        step: Volume::from_ml(1.0),
    };
    let large = RatePass {
        area: Area::from_m2(2.0),
        used: Volume::from_ml(100.0),
        step: Volume::from_ml(1.0),
    };
    // Both read 20 m2/L; the small one moves the label's rate less.
    let far = |pass| (learn_rate(label(), &[pass]).middle - 1.0).abs();
    assert!(far(small) < far(large));
}

#[test]
fn what_says_nothing_is_not_counted() {
    let none = RatePass {
        area: Area::from_m2(1.0),
        used: Volume::from_ul(0),
        step: Volume::from_ul(0),
    };
    assert_eq!(learn_rate(label(), &[none]).passes, 0);
}
