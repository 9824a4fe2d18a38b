//! Readings, the rule of readiness and the fit of an acclimation. The rule's figures are a judgement
//! made from published limits; there is no document to check them against.

use chrono::{DateTime, TimeDelta, TimeZone, Utc};
use tackfree::units::Temperature;
use tackfree::wood::moisture::{
    AcclimationError, Correction, Meter, MoistureContent, MoistureError, Reading, ReadingError,
    ReadyFor, ReadyRule, Reason, RuleError, SeasonBand, Verdict, fit_acclimation, judge,
    pin_meter_correction,
};

use super::{inches, mc, near};

fn day(days: f64) -> DateTime<Utc> {
    let first = Utc.with_ymd_and_hms(2024, 3, 4, 14, 0, 0).unwrap();
    #[allow(clippy::cast_possible_truncation)]
    let seconds = (days * 86_400.0) as i64;
    first + TimeDelta::seconds(seconds)
}

fn at(days: f64, place: &str, percent: f64) -> Reading {
    Reading {
        at: day(days),
        place: place.to_owned(),
        depth: Some(inches(0.375)),
        meter: Meter::Pin,
        correction: Correction::InMeter,
        percent: mc(percent),
    }
}

fn verdict(goal: ReadyFor, readings: &[Reading], now: f64) -> Verdict {
    let band = SeasonBand::given(mc(6.0), mc(10.0));
    judge(goal, readings, &ReadyRule::default(), Some(&band), day(now)).verdict
}

#[test]
fn two_readings_a_week_apart_within_half_a_point_are_steady() {
    let steady = [at(0.0, "top", 8.5), at(7.0, "top", 8.0)];
    for goal in ReadyFor::ALL {
        assert_eq!(verdict(goal, &steady, 7.0), Verdict::Ready);
    }
    // Monday at two to Monday at nine is a week too.
    let nearly = [at(0.0, "top", 8.5), at(6.8, "top", 8.0)];
    assert_eq!(verdict(ReadyFor::Finishing, &nearly, 7.0), Verdict::Ready);
    let moving = [at(0.0, "top", 8.6), at(7.0, "top", 8.0)];
    assert_eq!(verdict(ReadyFor::Finishing, &moving, 7.0), Verdict::NotYet);
    let soon = [at(0.0, "top", 8.5), at(5.0, "top", 8.4)];
    let answer = judge(
        ReadyFor::Milling,
        &soon,
        &ReadyRule::default(),
        None,
        day(5.0),
    );
    assert_eq!(answer.verdict, Verdict::NotYet);
    assert_eq!(
        answer.reasons,
        [Reason::TooSoon {
            place: "top".to_owned(),
            due: day(7.0)
        }]
    );
    assert_eq!(verdict(ReadyFor::Milling, &[], 0.0), Verdict::NotYet);
    // A reading that lies ahead of now says nothing yet.
    assert_eq!(verdict(ReadyFor::Milling, &steady, 3.0), Verdict::NotYet);
}

#[test]
fn above_ten_percent_with_care_and_above_twelve_not() {
    let held = |percent| [at(0.0, "top", percent), at(7.0, "top", percent)];
    for (percent, expected) in [
        (10.0, Verdict::Ready),
        (10.1, Verdict::WithCare),
        (12.0, Verdict::WithCare),
        (12.1, Verdict::NotYet),
    ] {
        assert_eq!(verdict(ReadyFor::Finishing, &held(percent), 7.0), expected);
    }
    // Setting also asks for the client's band. (By pad: pins do not read 5.5 % reliably.)
    let dry = held(5.5).map(|mut reading| {
        reading.meter = Meter::Pad;
        reading
    });
    assert_eq!(verdict(ReadyFor::Setting, &dry, 7.0), Verdict::WithCare);
    assert_eq!(verdict(ReadyFor::Finishing, &dry, 7.0), Verdict::Ready);
    let unknown = judge(
        ReadyFor::Setting,
        &held(8.0),
        &ReadyRule::default(),
        None,
        day(7.0),
    );
    assert_eq!(unknown.verdict, Verdict::WithCare);
    assert_eq!(unknown.reasons.last(), Some(&Reason::NoBand));
}

#[test]
fn every_place_counts_and_the_wettest_decides() {
    let mut readings = vec![
        at(0.0, "top", 8.0),
        at(0.0, "Underside", 9.0),
        at(7.0, "top", 8.0),
        at(7.0, "underside ", 12.5),
    ];
    let answer = judge(
        ReadyFor::Milling,
        &readings,
        &ReadyRule::default(),
        None,
        day(7.0),
    );
    assert_eq!(answer.verdict, Verdict::NotYet);
    assert_eq!(answer.wettest, Some(mc(12.5)));
    let words: Vec<_> = answer.reasons.iter().map(Reason::words).collect();
    assert_eq!(
        words,
        [
            "underside: still moving, 9% to 12.5% in 7 days.",
            "underside: 12.5% is over the limit of 12%.",
            "top: steady, 8% to 8% in 7 days."
        ]
    );
    // A place that was read once on arrival and left is not forgotten: it is minded.
    readings.truncate(3);
    readings.push(at(14.0, "top", 8.1));
    assert_eq!(
        verdict(ReadyFor::Milling, &readings, 14.0),
        Verdict::WithCare
    );
    // Two meters are not compared with each other.
    let mut pad = at(7.0, "top", 8.0);
    pad.meter = Meter::Pad;
    assert_eq!(
        verdict(ReadyFor::Milling, &[at(0.0, "top", 8.0), pad], 7.0),
        Verdict::NotYet
    );
}

#[test]
fn a_wet_place_left_behind_stands_in_the_way_until_it_is_read_again() {
    // Nov 1: core 14 %, shell 9 %; Nov 9: shell 8.8 %. Over the 12 % that the rule stops at.
    let mut readings = vec![
        at(0.0, "core", 14.0),
        at(0.0, "shell", 9.0),
        at(8.0, "shell", 8.8),
    ];
    let judged = |readings: &[Reading], now: f64| {
        judge(
            ReadyFor::Milling,
            readings,
            &ReadyRule::default(),
            None,
            day(now),
        )
    };
    let answer = judged(&readings, 9.0);
    assert_eq!(answer.verdict, Verdict::NotYet);
    assert_eq!(answer.wettest, Some(mc(14.0)));
    let words: Vec<_> = answer.reasons.iter().map(Reason::words).collect();
    assert_eq!(
        words,
        [
            "shell: steady, 9% to 8.8% in 8 days.",
            "core: last read 14%, 9 days ago, over the limit of 12%; read there again."
        ]
    );
    // At 11 % it would go on, with care; it cannot be called steady.
    readings[0].percent = mc(11.0);
    let answer = judged(&readings, 9.0);
    assert_eq!(answer.verdict, Verdict::WithCare);
    assert_eq!(
        answer.reasons[1].words(),
        "core: last read 11%, 9 days ago; read there again to be sure."
    );
    // Read there since with another meter: the old one is not asked again.
    readings[0].percent = mc(14.0);
    for (days, percent) in [(1.0, 9.0), (8.0, 9.0)] {
        let mut pad = at(days, "Core", percent);
        pad.meter = Meter::Pad;
        readings.push(pad);
    }
    assert_eq!(judged(&readings, 9.0).verdict, Verdict::Ready);
}

#[test]
fn a_reading_that_may_be_off_goes_on_with_care() {
    let steady = |change: &dyn Fn(&mut Reading)| {
        let mut readings = [at(0.0, "top", 8.0), at(7.0, "top", 8.0)];
        readings.iter_mut().for_each(change);
        judge(
            ReadyFor::Milling,
            &readings,
            &ReadyRule::default(),
            None,
            day(7.0),
        )
    };
    assert_eq!(steady(&|_| {}).verdict, Verdict::Ready);
    let unnoted = steady(&|reading| reading.correction = Correction::NotNoted);
    assert_eq!(unnoted.verdict, Verdict::WithCare);
    assert_eq!(
        unnoted.reasons.last().map(Reason::words).as_deref(),
        Some("top: 8% was noted without a species correction and may be off; note the correction.")
    );
    // Pins read from 6 % on (from memory), a pad from 4 % (Wood Handbook p. 13-3).
    let low = steady(&|reading| reading.percent = mc(5.0));
    assert_eq!(low.verdict, Verdict::WithCare);
    assert!(
        low.reasons[1]
            .words()
            .contains("outside what the meter reads reliably")
    );
    // A weighed sample asks no correction.
    let oven = steady(&|reading| {
        reading.meter = Meter::Oven;
        reading.correction = Correction::NotNoted;
    });
    assert_eq!(oven.verdict, Verdict::Ready);
}

#[test]
fn an_old_reading_no_longer_speaks_for_the_piece() {
    let steady = [at(0.0, "top", 8.5), at(7.0, "top", 8.0)];
    assert_eq!(verdict(ReadyFor::Milling, &steady, 21.0), Verdict::Ready);
    assert_eq!(verdict(ReadyFor::Milling, &steady, 22.0), Verdict::NotYet);
}

#[test]
fn the_rule_can_be_set_and_says_itself() {
    let rule = ReadyRule {
        days_apart: 3,
        within: 0.2,
        ..ReadyRule::default()
    };
    let readings = [at(0.0, "top", 8.5), at(3.0, "top", 8.2)];
    let answer = judge(ReadyFor::Milling, &readings, &rule, None, day(3.0));
    assert_eq!(answer.verdict, Verdict::NotYet);
    assert!(
        rule.words()
            .starts_with("two readings 3 days apart (to the nearest day) within 0.2 points")
    );
    assert!(
        rule.words()
            .contains("every place counts by its last reading"),
        "{}",
        rule.words()
    );
    let other = ReadyRule {
        fresh_days: 9,
        ..rule
    };
    assert_ne!(rule.words(), other.words());
    assert!(
        other
            .words()
            .contains("the newest reading speaks for 9 days")
    );
    assert!(rule.words().contains("a judgement"));
    assert_eq!(rule.check(), Ok(()));
    let with = |change: &dyn Fn(&mut ReadyRule)| {
        let mut rule = rule;
        change(&mut rule);
        rule.check()
    };
    assert_eq!(with(&|r| r.days_apart = 0), Err(RuleError::NoTime));
    assert_eq!(with(&|r| r.fresh_days = 0), Err(RuleError::NoFresh));
    assert_eq!(with(&|r| r.within = f64::NAN), Err(RuleError::Within));
    assert_eq!(with(&|r| r.stop_over = mc(9.0)), Err(RuleError::Limits));
}

#[test]
fn a_reading_notes_its_correction_and_is_refused_when_it_cannot_be() {
    let mut reading = at(0.0, "underside, left end", 9.0);
    assert_eq!(reading.check(), Ok(()));
    assert_eq!(
        reading.words(),
        "9% at underside, left end (pin meter, 3/8\" (9.5 mm) deep; meter set to the species)"
    );
    reading.correction = Correction::Added { tenths: -5 };
    assert_eq!(reading.content(), mc(8.5));
    reading.correction = Correction::Added { tenths: -95 };
    assert!(matches!(
        reading.check(),
        Err(ReadingError::Correction { .. })
    ));
    reading.correction = Correction::NotNoted;
    assert!(reading.words().contains("species correction not noted"));
    reading.depth = Some(inches(-0.1));
    assert!(matches!(reading.check(), Err(ReadingError::Depth { .. })));
    reading.place = " ".to_owned();
    assert_eq!(reading.check(), Err(ReadingError::NoPlace));
}

#[test]
fn meters_are_trusted_only_where_the_handbook_trusts_them() {
    // Wood Handbook p. 13-3 (read): dielectric meters 4 to about 30 %. Conductance meters from
    // 6 %: from memory.
    let mut reading = at(0.0, "top", 5.0);
    assert!(reading.is_unreliable());
    reading.meter = Meter::Pad;
    assert!(!reading.is_unreliable());
    reading.percent = mc(3.9);
    assert!(reading.is_unreliable());
    reading.meter = Meter::Oven;
    assert!(!reading.is_unreliable());
    // Same page (read): half a point for every 10 F, added for colder wood.
    let correction = pin_meter_correction(Temperature::from_f(50.0), Temperature::from_f(70.0));
    near(correction, 1.0, 1e-3);
}

#[test]
fn a_moisture_content_is_read_as_it_is_typed() {
    for (typed, percent) in [("8.5", 8.5), ("8.5%", 8.5), (" 12 % ", 12.0), ("0", 0.0)] {
        assert_eq!(MoistureContent::parse(typed), Ok(mc(percent)));
    }
    assert_eq!(MoistureContent::parse(" "), Err(MoistureError::Empty));
    for typed in ["-1", "201"] {
        let refused = MoistureContent::parse(typed);
        assert!(
            matches!(refused, Err(MoistureError::OutOfRange { .. })),
            "{typed}"
        );
    }
    for typed in ["dry", "8,5", "1e1", "inf", "NaN", "8.5.1", "%"] {
        let refused = MoistureContent::parse(typed);
        assert!(
            matches!(refused, Err(MoistureError::Nonsense { .. })),
            "{typed}"
        );
    }
}

/// Readings off a true curve from 12 % toward 7 %, falling to 37 % every 10 days.
fn curve(days: &[f64]) -> Vec<Reading> {
    let at_day = |d: f64| at(d, "top", 7.0 + 5.0 * (-d / 10.0).exp());
    days.iter().map(|d| at_day(*d)).collect()
}

#[test]
fn a_true_curve_is_found_again() {
    let found = fit_acclimation(&curve(&[0.0, 3.0, 7.0, 14.0]), mc(7.0)).unwrap();
    near(found.days, 10.0, 0.05);
    near(found.start.percent(), 12.0, 0.01);
    near(
        found.at(day(20.0)).percent(),
        7.0 + 5.0 * (-2.0_f64).exp(),
        0.01,
    );
    // Within half a point after 10 ln 10 = 23.03 days.
    let there = found.within(0.5).unwrap();
    near((there - day(0.0)).as_seconds_f64() / 86_400.0, 23.03, 0.1);
    assert_eq!(found.within(0.0), None);
    assert!(found.words().starts_with("estimated from 4 readings"));
    assert_eq!(found.within(1e-30), None);
}

#[test]
fn readings_that_carry_no_curve_are_refused_with_words() {
    let refuse = |readings: &[Reading], toward| {
        let refused = fit_acclimation(readings, mc(toward)).unwrap_err();
        assert!(refused.to_string().ends_with('.'));
        refused
    };
    let good = curve(&[0.0, 3.0, 7.0]);
    assert!(matches!(
        refuse(&[], 7.0),
        AcclimationError::TooFew { found: 0, .. }
    ));
    assert!(matches!(
        refuse(&good[..2], 7.0),
        AcclimationError::TooFew { found: 2, .. }
    ));
    let short = curve(&[0.0, 1.0, 2.0]);
    assert!(matches!(
        refuse(&short, 7.0),
        AcclimationError::TooShort { days: 2 }
    ));
    let there = curve(&[0.0, 10.0, 40.0]);
    assert!(matches!(
        refuse(&there, 7.0),
        AcclimationError::There { .. }
    ));
    assert!(matches!(
        refuse(&good, 11.2),
        AcclimationError::BothSides { .. }
    ));
    assert!(matches!(
        refuse(&good, 14.0),
        AcclimationError::NotToward { .. }
    ));
    let jumps = [
        at(0.0, "top", 14.0),
        at(4.0, "top", 8.0),
        at(8.0, "top", 13.0),
        at(12.0, "top", 8.0),
    ];
    assert!(matches!(
        refuse(&jumps, 7.0),
        AcclimationError::Scattered { .. }
    ));
}
