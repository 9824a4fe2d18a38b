//! Hours: the pace learned from a log, the sum by simulation, the price at a confidence, slippage.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

use std::collections::BTreeMap;
use tackfree::coating::cans::CanOffer;
use tackfree::money::{
    Asked, EstimateError, FinishNeed, Item, LineKind, LumberNeed, Made, Markup, Markups, Observed,
    Pace, Percent, StepKind, StepSlip, TaxChoice, TaxPlace, Work, estimate, learn_pace, simulate,
    slippage,
};
use tackfree::units::{Money, Volume};

fn cents(cents: i64) -> Money {
    Money::from_cents(cents)
}

fn percent(text: &str) -> Percent {
    Percent::parse(text).unwrap()
}

/// A generator of its own for the tests: Lehmer, 48271 modulo 2^31 - 1 (Park and Miller 1988).
struct Dice(u64);

impl Dice {
    fn unit(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }

    /// Nearly normal: the sum of twelve.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

/// What a shop of this pace would log, scattered by a quarter.
fn logged(fixed: f64, rate: f64, pieces: usize, dice: &mut Dice) -> Vec<Observed> {
    (0..pieces)
        .map(|_| {
            // So many coats over a top of so many square feet.
            let times = 1.0 + (dice.unit() * 4.0).floor();
            let size = times * (5.0 + 60.0 * dice.unit());
            let scatter = (0.25 * dice.normal() - 0.031_25).exp();
            Observed {
                times,
                size,
                minutes: (times * fixed + size * rate) * scatter,
            }
        })
        .collect()
}

#[test]
fn without_a_log_the_starting_range_stands_and_says_so() {
    let pace = learn_pace(StepKind::Topcoat, &[]).unwrap();
    assert_eq!((pace.fixed, pace.pieces), (22.5, 0));
    assert!((pace.rate - 0.6).abs() < 1e-12);
    let (fixed, rate) = pace.ranges();
    // 15 to 30 and 0.4 to 0.8 hold two in three; eight in ten are 1.2816 times as far off.
    assert!((fixed.0 - 12.888).abs() < 1e-3 && (fixed.1 - 32.112).abs() < 1e-3);
    assert!((rate.0 - 0.343_7).abs() < 1e-3 && (rate.1 - 0.856_3).abs() < 1e-3);
    assert!(pace.words(StepKind::Topcoat).contains("starting range"));
    assert_eq!(learn_pace(StepKind::Rework, &[]), None);
}

/// Fixed and rate are told apart: a shop far from the starting range is found from its log, and the
/// range about it narrows as pieces come in.
#[test]
fn a_shops_own_fixed_part_and_rate_are_found() {
    let mut dice = Dice(2_026);
    let all = logged(34.0, 1.0, 60, &mut dice);
    let mut widths = Vec::new();
    for count in [0, 3, 12, 60] {
        let pace = learn_pace(StepKind::Topcoat, &all[..count]).unwrap();
        assert_eq!(pace.pieces, count);
        widths.push(pace.spread.2);
    }
    assert!(
        widths.windows(2).all(|pair| pair[1] < pair[0]),
        "{widths:?}"
    );
    let pace = learn_pace(StepKind::Topcoat, &all).unwrap();
    assert!((pace.fixed - 34.0).abs() < 6.0, "{}", pace.fixed);
    assert!((pace.rate - 1.0).abs() < 0.15, "{}", pace.rate);
    assert!(pace.words(StepKind::Topcoat).contains("60 pieces"));
}

/// Of many invented shops drawn from the prior, eight in ten truths lie in the range of eight in ten.
#[test]
fn the_range_holds_eight_truths_in_ten() {
    let mut dice = Dice(77);
    let (mut inside, shops) = (0, 400);
    for _ in 0..shops {
        let fixed = (22.5 + 7.5 * dice.normal()).max(2.0);
        let rate = (0.6 + 0.2 * dice.normal()).max(0.05);
        let seen = logged(fixed, rate, 5, &mut dice);
        let pace = learn_pace(StepKind::Topcoat, &seen).unwrap();
        let (_, (low, high)) = pace.ranges();
        inside += u32::from(low <= rate && rate <= high);
    }
    let share = f64::from(inside) / f64::from(shops);
    assert!((0.72..=0.88).contains(&share), "{share}");
}

#[test]
fn one_odd_afternoon_does_not_make_a_slow_shop() {
    let mut dice = Dice(5);
    let mut seen = logged(22.0, 0.6, 12, &mut dice);
    let before = learn_pace(StepKind::Topcoat, &seen).unwrap();
    let telephone = seen[3].minutes * 12.0;
    seen.push(Observed {
        minutes: telephone,
        ..seen[3]
    });
    let after = learn_pace(StepKind::Topcoat, &seen).unwrap();
    let minutes = |pace: &Pace| pace.minutes(1.0, 30.0);
    assert!(minutes(&after) < 1.25 * minutes(&before), "{after:?}");
    // What says nothing moves nothing.
    let empty = [f64::NAN, -1.0, 0.0].map(|minutes| Observed {
        times: 1.0,
        size: 3.0,
        minutes,
    });
    assert_eq!(learn_pace(StepKind::Topcoat, &empty).unwrap().pieces, 0);
}

fn paces() -> BTreeMap<StepKind, Pace> {
    StepKind::ALL
        .into_iter()
        .filter_map(|step| Some((step, learn_pace(step, &[])?)))
        .collect()
}

fn top() -> Vec<Work> {
    let work = |step, times, size| Work { step, times, size };
    vec![
        work(StepKind::Sand, 4.0, 160.0),
        work(StepKind::SandEdges, 4.0, 10.0),
        work(StepKind::Stain, 1.0, 22.0),
        work(StepKind::Topcoat, 3.0, 120.0),
        work(StepKind::Scuff, 2.0, 80.0),
        work(StepKind::Set, 1.0, 20.0),
        work(StepKind::Rework, 1.0, 9.0),
    ]
}

#[test]
fn ranges_nest_and_the_seed_is_fixed() {
    let one = simulate(&top(), &paces(), 7);
    assert_eq!(one, simulate(&top(), &paces(), 7));
    let spread = one.spread();
    let order = [
        spread.most.0,
        spread.half.0,
        spread.likely,
        spread.half.1,
        spread.most.1,
    ];
    assert!(order.windows(2).all(|pair| pair[0] < pair[1]), "{order:?}");
    assert!(
        !one.means.contains_key(&StepKind::Rework),
        "nobody plans it"
    );
    // The mean of the sum is the sum of the means: fixed and rate in the middle of their ranges.
    let by_hand: f64 = top()
        .iter()
        .filter_map(|work| Some(paces().get(&work.step)?.minutes(work.times, work.size)))
        .sum();
    let mean: f64 = one.means.values().sum();
    assert!((mean / by_hand - 1.0).abs() < 0.03, "{mean} {by_hand}");
    // Another seed lands close by.
    let other = simulate(&top(), &paces(), 8).spread();
    assert!((other.likely / spread.likely - 1.0).abs() < 0.03);
}

/// For one step of one piece without a doubt about its pace the quantiles are those of the scatter
/// alone, a log-normal: median x exp(+-1.2816 x 0.25) hold eight in ten.
#[test]
fn the_quantiles_are_those_of_the_closed_form() {
    let sure = Pace {
        fixed: 0.0,
        rate: 10.0,
        spread: (0.0, 0.0, 0.0),
        pieces: 99,
    };
    let paces = BTreeMap::from([(StepKind::Topcoat, sure)]);
    let work = [Work {
        step: StepKind::Topcoat,
        times: 1.0,
        size: 10.0,
    }];
    let spread = simulate(&work, &paces, 3).spread();
    let median = 100.0 * (-0.031_25_f64).exp();
    for (found, meant) in [
        (spread.likely, median),
        (spread.most.0, median * (-0.320_4_f64).exp()),
        (spread.most.1, median * 0.320_4_f64.exp()),
        (spread.half.0, median * (-0.168_6_f64).exp()),
        (spread.half.1, median * 0.168_6_f64.exp()),
    ] {
        assert!((found / meant - 1.0).abs() < 0.02, "{found} {meant}");
    }
}

struct Job {
    paces: BTreeMap<StepKind, Pace>,
    work: Vec<Work>,
    finish: Vec<FinishNeed>,
    lumber: Vec<LumberNeed>,
    items: Vec<Item>,
    place: TaxPlace,
    minimum: Money,
}

impl Job {
    fn new() -> Self {
        let quart = CanOffer {
            holds: Volume::from_ml(946.353),
            price: cents(2_450),
        };
        Self {
            paces: paces(),
            work: top(),
            finish: vec![FinishNeed {
                name: "Topcoat".to_owned(),
                need: Volume::from_ml(1_700.0),
                offers: vec![quart],
            }],
            lumber: vec![LumberNeed {
                name: "Hard maple".to_owned(),
                net: "26.4".parse().unwrap(),
                each: cents(875),
            }],
            items: vec![Item {
                kind: LineKind::BoughtIn,
                what: "Steel bracket".to_owned(),
                count: "4".parse().unwrap(),
                each: cents(3_110),
                markup: Some(Markup::new(percent("20"))),
                tax: TaxChoice::AsPlace,
            }],
            place: TaxPlace {
                name: "Alder County".to_owned(),
                rate: percent("4.5"),
                taxed: vec![LineKind::BoughtIn],
                source: "invented".to_owned(),
            },
            minimum: cents(0),
        }
    }

    fn made(&self, confidence: &str) -> Result<Made, EstimateError> {
        estimate(&Asked {
            work: &self.work,
            paces: &self.paces,
            hour: cents(7_121),
            confidence: percent(confidence),
            finish: &self.finish,
            allowance: percent("12"),
            lumber: &self.lumber,
            waste: percent("30"),
            items: &self.items,
            markups: Markups {
                finish: Markup::new(percent("30")),
                lumber: Markup::new(percent("25")),
                bought_in: Markup::new(percent("30")),
            },
            minimum: self.minimum,
            place: Some(&self.place),
        })
    }
}

#[test]
fn an_estimate_by_hand() {
    let made = Job::new().made("70").unwrap();
    let line = |kind| made.lines.iter().find(|line| line.kind == kind).unwrap();
    // 1,700 mL and 12 % are 1,904 mL: three quarts, 73.50, and 30 % on it.
    assert_eq!(made.cans[0].cans[0].cans, 3);
    assert_eq!(line(LineKind::Finish).net, cents(9_555));
    // 26.4 / 0.70 = 37.714... board feet, bought as 37.72, at 8.75: 330.05; 25 % on it: 412.56(25).
    assert_eq!(line(LineKind::Lumber).net, cents(41_256));
    assert!(line(LineKind::Lumber).what.contains("37.72 board feet"));
    // Four at 31.10: 124.40; its own 20 %: 149.28; tax 4.5 %: 6.72 (6.7176).
    assert_eq!(line(LineKind::BoughtIn).net, cents(14_928));
    assert_eq!(made.totals.tax, cents(672));
    assert_eq!(made.bought, cents(7_350 + 33_005 + 12_440));
    // The minutes priced are those of the lines, and the steps make the likely hours.
    let (shop, site) = (line(LineKind::ShopWork).net, line(LineKind::SiteWork).net);
    let hours = cents(7_121).share(made.priced, 60);
    assert!((shop + site - hours).cents().abs() <= 1);
    let likely: i64 = made.steps.iter().map(|step| step.minutes).sum();
    assert!((likely as f64 - made.hours.likely).abs() <= 0.5);
    let net: Money = made.lines.iter().map(|line| line.net).sum();
    assert_eq!(made.totals.net, net);
}

#[test]
fn more_confidence_costs_more_and_nonsense_is_refused() {
    let job = Job::new();
    let total = |confidence| job.made(confidence).unwrap().totals.total();
    assert!(total("50") < total("70") && total("70") < total("90"));
    for nonsense in ["0", "4", "96", "100"] {
        assert!(
            matches!(job.made(nonsense), Err(EstimateError::Confidence(_))),
            "{nonsense}"
        );
    }
    let mut job = Job::new();
    job.finish[0].offers.clear();
    let said = job.made("70").unwrap_err().to_string();
    assert!(said.starts_with("Topcoat: "), "{said}");
}

#[test]
fn the_least_charge_fills_up_and_no_more() {
    let mut job = Job::new();
    let before = job.made("70").unwrap();
    job.minimum = before.totals.net + cents(1_234);
    let after = job.made("70").unwrap();
    assert_eq!(after.totals.net, job.minimum);
    assert_eq!(after.lines.last().unwrap().net, cents(1_234));
    job.minimum = before.totals.net - cents(1);
    assert_eq!(job.made("70").unwrap().totals, before.totals);
}

#[test]
fn slippage_by_hand_names_its_cause() {
    let step = |step, estimated, actual, done| StepSlip {
        step,
        estimated,
        actual,
        done,
    };
    let slip = slippage(
        vec![
            step(StepKind::Sand, 300, 420, true),
            step(StepKind::Stain, 60, 45, true),
            step(StepKind::Topcoat, 240, 100, false),
            step(StepKind::Scuff, 40, 55, false),
            step(StepKind::Rework, 0, 30, false),
        ],
        cents(6_000),
    );
    // Sand 120 over, stain 15 under, topcoats still as estimated, scuffs 15 over already, 30 again.
    assert_eq!((slip.estimated, slip.actual, slip.over), (640, 650, 150));
    assert_eq!(slip.dollars, cents(15_000));
    assert_eq!(slip.percent, Some("23.4".parse().unwrap()));
    assert_eq!(slip.cause.unwrap().step, StepKind::Sand);
    let none = slippage(vec![step(StepKind::Sand, 100, 90, true)], cents(6_000));
    assert_eq!((none.cause, none.dollars), (None, cents(-1_000)));
}
