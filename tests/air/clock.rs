//! The clock in the gates: label hours as long as nothing is known, the shop's air from then on.

use crate::shop::{Trial, ZONE, air, hours, near, ready, utc};
use chrono::Duration;
use tackfree::coating::{AirLog, AirReading, Assumed, DryingClock, ForecastStep, Span};
use tackfree::desk::{
    Action, AirImport, AirSpan, AmountDraft, Books, DryingRules, FacePick, PassDraft,
};
use tackfree::shop::{Air, CoatKind};

const NOW: &str = "2026-11-25T20:00:00Z";
/// Oil varnish at 15 C and 50 %, against a label at 23 C: exp(-(50000/R)(1/288.15 - 1/296.15)).
const AT_15: f64 = 0.5691;

#[test]
fn with_nothing_logged_the_times_are_the_labels_hours_exactly() {
    let mut trial = Trial::at(NOW);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let (clock, varnish, laid) = (trial.clock(), trial.varnish(), trial.now);
    assert_eq!(clock.basis(), "label hours");
    for minutes in [1, 30, 360, 1440, 43_200] {
        let span = Span::minutes(minutes);
        let plain = laid + Duration::minutes(minutes);
        assert_eq!(clock.reached(&varnish, laid, span), plain);
        assert_eq!(clock.likely().reached(&varnish, laid, span), plain);
        assert_eq!(clock.shuts(&varnish, laid, span), plain);
    }
    assert_eq!(ready(trial.coat(shelf)), laid + Duration::hours(6));
    trial.now += Duration::hours(6);
    trial.coat(shelf).expect("the next coat");
}

#[test]
fn a_cold_shop_holds_the_next_coat_back_until_its_label_hours_are_full() {
    let mut trial = Trial::at(NOW);
    trial.log(15.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let laid = trial.now;
    assert_eq!(trial.clock().basis(), "the shop's air, safe hours");
    trial.now += Duration::hours(7);
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, laid + hours(6.0 / AT_15)), "{dry}");
    // It warms up to the label's own air: the rest goes hour by hour.
    trial.log(23.0, 50.0);
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, trial.now + hours(6.0 - 7.0 * AT_15)), "{dry}");
    trial.now = dry;
    trial.coat(shelf).expect("the next coat");
}

#[test]
fn a_reading_found_later_moves_the_coat_that_waits() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let laid = trial.now;
    trial.now += Duration::hours(5);
    assert_eq!(ready(trial.coat(shelf)), laid + Duration::hours(6));
    let cold = laid + Duration::hours(1);
    trial.log_at(cold, 15.0, 50.0);
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, cold + hours(5.0 / AT_15)), "{dry}");
    trial.done(&Action::Undo);
    assert_eq!(ready(trial.coat(shelf)), laid + Duration::hours(6));
}

#[test]
fn a_later_reading_never_changes_what_lies_before_it() {
    let mut trial = Trial::at(NOW);
    trial.log(15.0, 60.0);
    let laid = trial.now;
    let varnish = trial.varnish();
    trial.now += Duration::hours(20);
    // Twelve hours held, then the usual air.
    let before = trial.clock().label_hours(&varnish, laid, trial.now);
    trial.log(30.0, 30.0);
    assert_eq!(
        trial
            .clock()
            .label_hours(&varnish, laid, trial.now)
            .to_bits(),
        before.to_bits()
    );
    trial.now += Duration::days(9);
    trial.log(12.0, 80.0);
    let then = laid + Duration::hours(20);
    assert_eq!(
        trial.clock().label_hours(&varnish, laid, then).to_bits(),
        before.to_bits()
    );
}

#[test]
fn the_clocks_going_back_neither_gives_nor_takes_an_hour() {
    // 10 pm on 31 October; at 2 am on 1 November the clocks go back.
    let mut trial = Trial::at("2026-11-01T03:00:00Z");
    trial.log(15.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let laid = trial.now;
    trial.now += Duration::hours(9);
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, laid + hours(6.0 / AT_15)), "{dry}");
    let read = |text| tackfree::desk::typed::read_air_time(text, trial.now, ZONE);
    // 1:30 came twice, and both are past: the later one is meant.
    assert_eq!(read("1:30"), Ok(utc("2026-11-01T07:30:00Z")));
    // The hour that spring leaves out is told.
    let spring = utc("2026-03-08T15:00:00Z");
    let error = tackfree::desk::typed::read_air_time("2:30", spring, ZONE);
    let error = error.expect_err("left out");
    assert!(error.message.contains("was left out that night"), "{error}");
}

#[test]
fn a_window_never_ends_later_than_by_the_plain_clock() {
    for (c, percent) in [
        (5.0, 90.0),
        (12.0, 60.0),
        (23.0, 50.0),
        (31.0, 30.0),
        (40.0, 20.0),
    ] {
        let mut trial = Trial::at(NOW);
        trial.log(c, percent);
        let (clock, varnish, laid) = (trial.clock(), trial.varnish(), trial.now);
        for twin in [clock.safe(), clock.likely()] {
            let plain = laid + Duration::hours(24);
            let shuts = twin.shuts(&varnish, laid, Span::hours(24));
            assert!(shuts <= plain, "{c} C: {shuts}");
            assert!(c <= 23.0 || shuts < plain, "{c} C runs it down faster");
        }
    }
}

#[test]
fn a_thick_coat_that_was_measured_waits_longer() {
    let mut trial = Trial::at(NOW);
    let (one, two) = (trial.shelf(), trial.shelf());
    trial.coat(one).expect("a coat");
    let shop = trial.shop();
    let usual = shop.passes[0].amount.volume;
    let twice = tackfree::units::Volume::from_ul(usual.ul() * 2);
    trial
        .coat_with(two, AmountDraft::Volume(twice))
        .expect("a thick coat");
    let laid = trial.now;
    trial.now += Duration::hours(1);
    assert_eq!(ready(trial.coat(one)), laid + Duration::hours(6));
    // Oil film: twice the film, twice the time (n = 1).
    assert!(near(ready(trial.coat(two)), laid + Duration::hours(12)));
    let film = trial.line(two).film.expect("a film");
    assert!((film.thickness - 2.0).abs() < 0.001 && (film.asked - 12.0).abs() < 0.01);
    assert!(
        film.hours_words()
            .contains("thick film takes 2.00 times as long")
    );
    // Corrected to an estimate, nothing is known of its film any more.
    let thick = trial
        .shop()
        .passes
        .iter()
        .map(|pass| pass.id)
        .max()
        .expect("a pass");
    trial.done(&Action::CorrectPass {
        pass: thick,
        amount: AmountDraft::Estimate,
    });
    assert_eq!(ready(trial.coat(two)), laid + Duration::hours(6));
}

#[test]
fn the_air_noted_with_a_pass_is_a_reading() {
    let mut trial = Trial::at(NOW);
    let shelf = trial.shelf();
    let noted = air(15.0, 50.0);
    let draft = PassDraft {
        picks: vec![FacePick {
            piece: shelf,
            faces: None,
        }],
        kind: CoatKind::Topcoat,
        product: None,
        started: trial.now,
        ended: trial.now,
        amount: AmountDraft::Estimate,
        air: Some(Air {
            temperature: noted.temperature,
            humidity: noted.humidity,
        }),
        scuffed_first: None,
        drawn: tackfree::desk::DrawnDraft::default(),
    };
    trial.done(&Action::LogPass(draft));
    let last = trial.shop().air.last().expect("a reading");
    assert_eq!((last.at, last.air), (trial.now, noted));
    assert!(near(
        ready(trial.coat(shelf)),
        trial.now + hours(6.0 / AT_15)
    ));
    trial.done(&Action::Undo);
    assert!(trial.shop().air.is_empty());
}

#[test]
fn a_forecast_and_the_shops_rules_reach_the_gates() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let laid = trial.now;
    trial.done(&Action::Foretell(ForecastStep {
        from: laid + Duration::hours(2),
        until: laid + Duration::days(3),
        air: air(15.0, 50.0),
    }));
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, laid + hours(2.0 + 4.0 / AT_15)), "{dry}");
    let mut rules = DryingRules::default();
    rules.law.safe = tackfree::coating::Care::Strict;
    trial.done(&Action::SetDrying(rules));
    assert!(trial.words().starts_with("Set drying: strict safe times"));
    // 66 kJ/mol at 15 C.
    let strict = (-66_000.0_f64 / 8.314_462_618 * (1.0 / 288.15 - 1.0 / 296.15)).exp();
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, laid + hours(2.0 + 4.0 / strict)), "{dry}");
    trial.done(&Action::Undo);
    trial.done(&Action::Undo);
    assert_eq!(ready(trial.coat(shelf)), laid + Duration::hours(6));
}

/// A long log: what is read of it is enough to answer as the whole log would, and no more.
#[test]
fn a_long_log_is_not_read_whole_and_answers_as_if_it_were() {
    let mut trial = Trial::at("2026-03-01T12:00:00Z");
    // Two and a half hours apart for 420 days, with a pause of four days before the first coat.
    let start = trial.now - Duration::days(200);
    let readings: Vec<AirReading> = (0..4032)
        .map(|step: i64| {
            let hour = step as f64 * 2.5;
            let c = 17.0 + 6.0 * (hour / 24.0 * std::f64::consts::TAU).sin();
            AirReading {
                at: start + Duration::minutes(step * 150),
                air: air(c, 55.0 + 20.0 * (hour * 0.01).sin()),
            }
        })
        .filter(|reading| {
            let before = trial.now - reading.at;
            before < Duration::zero() || before > Duration::days(4)
        })
        .collect();
    let put = |trial: &mut Trial, until| {
        let report = tackfree::coating::LoggerReport {
            readings: readings
                .iter()
                .copied()
                .filter(|reading| reading.at <= until)
                .collect(),
            ..tackfree::coating::LoggerReport::default()
        };
        let file = "log.csv".to_owned();
        trial.done(&Action::ImportAir(AirImport { file, report }));
    };
    let now = trial.now;
    put(&mut trial, now);
    // Where nothing dries, five weeks up to the last reading are read and no more.
    let idle = trial.shop().air;
    let (first, last) = (
        idle.first().expect("first").at,
        idle.last().expect("last").at,
    );
    assert!(
        (35..=36).contains(&(last - first).num_days()),
        "{first} to {last}"
    );
    let old = trial.shelf();
    trial.coat(old).expect("a coat");
    let laid = trial.now;
    // Long left lying, and a new one beside it.
    trial.now += Duration::days(215);
    let now = trial.now;
    put(&mut trial, now);
    let fresh = trial.shelf();
    trial.coat(fresh).expect("a coat");
    let shop = trial.shop();
    let mut whole = AirLog::new(ZONE, Assumed::LabelConditions);
    whole.merge(
        trial
            .store
            .air(AirSpan {
                from: start,
                to: None,
            })
            .expect("the log")
            .iter()
            .map(|row| row.reading),
    );
    assert!(
        shop.air.len() < whole.len(),
        "{} of {}",
        shop.air.len(),
        whole.len()
    );
    let by_whole = tackfree::coating::ShopAirClock::new(
        std::sync::Arc::new(whole),
        shop.drying.law,
        std::sync::Arc::clone(&shop.tuning),
    );
    let (clock, varnish) = (shop.clock(), trial.varnish());
    for coat in [laid, trial.now] {
        for span in [
            Span::hours(3),
            Span::hours(6),
            Span::days(3),
            Span::days(30),
        ] {
            let (part, all) = (
                clock.reach(&varnish, coat, span),
                by_whole.reach(&varnish, coat, span),
            );
            assert_eq!(part, all, "{coat} {span:?}");
            assert_eq!(
                clock.window_end(&varnish, coat, span),
                by_whole.window_end(&varnish, coat, span)
            );
        }
    }
}
