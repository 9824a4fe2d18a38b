//! Readings of the shop's air: logged now and later, out of order, in doubt, corrected, undone.

use crate::shop::{Trial, ZONE, air, utc};
use chrono::Duration;
use tackfree::coating::{ForecastStep, ReadingError};
use tackfree::desk::typed::{read_ahead, read_air_time, read_shop_air, write_shop_air};
use tackfree::desk::{Action, AirSource, Books, DeskError};
use tackfree::shop::Settings;
use tackfree::units::TemperatureStyle;

const NOW: &str = "2026-11-25T20:00:00Z";

#[test]
fn a_reading_is_typed_as_a_number_pair() {
    let mut settings = Settings::starting(ZONE);
    for (text, c, percent) in [
        ("68F 45", 20.0, 45.0),
        ("20C 45%", 20.0, 45.0),
        ("68 45", 20.0, 45.0),
        ("68 F, 45 %", 20.0, 45.0),
        ("59f 62.5", 15.0, 62.5),
        ("68C 45", 68.0, 45.0),
    ] {
        assert_eq!(
            read_shop_air(text, &settings),
            Ok(air(c, percent)),
            "{text}"
        );
    }
    settings.temperature = TemperatureStyle::Celsius;
    assert_eq!(read_shop_air("20 45", &settings), Ok(air(20.0, 45.0)));
    for text in ["", "68", "68F 145", "warm 45", "68F 45 7"] {
        let error = read_shop_air(text, &settings).expect_err(text);
        assert_eq!(error.field, "air", "{text}");
    }
    for (c, percent) in [(20.0, 45.0), (17.123, 61.4), (-3.5, 80.0)] {
        let air = air(c, percent);
        for style in [TemperatureStyle::Celsius, TemperatureStyle::Fahrenheit] {
            settings.temperature = style;
            let text = write_shop_air(air, &settings);
            assert_eq!(read_shop_air(&text, &settings), Ok(air), "{text}");
        }
    }
}

#[test]
fn times_are_typed_as_they_are_said() {
    let now = utc(NOW);
    let read = |text| read_air_time(text, now, ZONE);
    assert_eq!(read(""), Ok(now));
    assert_eq!(read("at 7:30"), Ok(utc("2026-11-25T13:30:00Z")));
    assert_eq!(read("20 min ago"), Ok(utc("2026-11-25T19:40:00Z")));
    let tomorrow = read("tomorrow 7:00").expect_err("tomorrow");
    assert!(tomorrow.message.contains("has not come yet"), "{tomorrow}");
    let ahead = |text| read_ahead("until", text, now, ZONE);
    assert_eq!(ahead("tomorrow 7:00"), Ok(utc("2026-11-26T13:00:00Z")));
    assert!(ahead("today 7:00").is_err());
}

#[test]
fn readings_logged_late_stand_in_their_place() {
    let mut trial = Trial::at(NOW);
    let done = trial.log(20.0, 45.0);
    assert_eq!(done.words, "Logged shop air 68 F, 45%");
    assert_eq!(done.notes, Vec::<String>::new());
    let early = trial.now - Duration::minutes(390);
    let done = trial.log_at(early, 15.0, 60.0);
    assert_eq!(done.words, "Logged shop air 59 F, 60% at 7:30 am");
    assert!(done.notes[0].contains("what dried after 7:30 am is reckoned anew"));
    // The other way round the log is the same.
    let mut other = Trial::at(NOW);
    other.log_at(early, 15.0, 60.0);
    other.log(20.0, 45.0);
    assert_eq!(trial.shop().air, other.shop().air);
    assert_eq!(trial.shop().air.len(), 2);
    let newest = trial.store.air_newest(1).expect("readings");
    assert_eq!(newest[0].source, AirSource::Typed);
}

#[test]
fn the_same_reading_twice_leaves_one_line_and_another_corrects_it() {
    let mut trial = Trial::at(NOW);
    trial.log(20.0, 45.0);
    let lines = trial.lines();
    let done = trial.log(20.0, 45.0);
    assert!(done.words.ends_with("is logged already"), "{}", done.words);
    assert_eq!(trial.lines(), lines);
    let done = trial.log(18.0, 50.0);
    let words = "Corrected the shop air of 2:00 pm from 68 F, 45% to 64.4 F, 50%";
    assert_eq!(
        (done.words.as_str(), trial.words().as_str()),
        (words, words)
    );
    assert_eq!(trial.shop().air.len(), 1);
}

#[test]
fn tomorrows_air_is_refused_in_words() {
    let mut trial = Trial::at(NOW);
    let at = trial.now + Duration::hours(17);
    let (air, sure) = (air(20.0, 45.0), true);
    let error = trial
        .perform(&Action::LogAir { at, air, sure })
        .expect_err("tomorrow");
    assert!(matches!(
        error,
        DeskError::Reading(ReadingError::Future { .. })
    ));
    let words = "Thu 7:00 am has not come yet (it is 2:00 pm); write when the air was read.";
    assert_eq!(error.to_string(), words);
    // A clock a few seconds ahead is no tomorrow.
    let at = trial.now + Duration::seconds(30);
    trial.done(&Action::LogAir {
        at,
        air,
        sure: false,
    });
    assert_eq!(trial.shop().air.last().map(|last| last.at), Some(trial.now));
}

#[test]
fn the_wrong_scale_is_questioned_and_a_person_may_insist() {
    let mut trial = Trial::at(NOW);
    let at = trial.now;
    let log = |trial: &mut Trial, c: f64, sure| {
        let air = air(c, 45.0);
        trial.perform(&Action::LogAir { at, air, sure })
    };
    let said = |result: Result<tackfree::desk::Done, DeskError>| match result {
        Ok(done) => panic!("{done:?}"),
        Err(error) => error.to_string(),
    };
    let hot = said(log(&mut trial, 68.0, false));
    assert!(
        hot.starts_with(
            "68 C (154.4 F) is no usual shop air; was 68 F meant? Log it in the right scale"
        ),
        "{hot}"
    );
    // 20 typed in a shop of Fahrenheit.
    let cold = said(log(&mut trial, (20.0 - 32.0) / 1.8, false));
    assert!(
        cold.starts_with("20 F (-6.7 C) is no usual shop air; was 20 C meant?"),
        "{cold}"
    );
    assert_eq!(trial.shop().air.len(), 0);
    log(&mut trial, (20.0 - 32.0) / 1.8, true).expect("an unheated shop");
    assert_eq!(trial.shop().air.len(), 1);
    log(&mut trial, 52.0, true).expect("a hot one");
    let never = said(log(&mut trial, 154.0, true));
    assert!(
        never.contains("No shop is worked in at that temperature"),
        "{never}"
    );
}

#[test]
fn readings_are_corrected_removed_and_all_of_it_undone() {
    let mut trial = Trial::at(NOW);
    let first = trial.now - Duration::hours(3);
    trial.log_at(first, 20.0, 45.0);
    trial.log(21.0, 45.0);
    let before = trial.shop().air;
    let moved = first + Duration::minutes(20);
    let correct = |reading, at| Action::CorrectAir {
        reading,
        at,
        air: air(16.0, 50.0),
        sure: false,
    };
    let done = trial.done(&correct(first, moved));
    assert_eq!(
        done.words,
        "Corrected the shop air of 11:00 am from 68 F, 45% to 60.8 F, 50% at 11:20 am"
    );
    let after = trial.shop().air;
    assert_eq!(after.first().map(|row| row.at), Some(moved));
    let taken = trial
        .perform(&correct(moved, trial.now))
        .expect_err("taken");
    assert!(
        taken
            .to_string()
            .starts_with("At 2:00 pm there is another reading")
    );
    let gone = trial.perform(&correct(first, first)).expect_err("gone");
    assert!(matches!(gone, DeskError::NoReading { .. }), "{gone}");
    trial.done(&Action::RemoveAir(moved));
    assert_eq!(
        trial.words(),
        "Took out the shop air of 11:20 am: 60.8 F, 50%"
    );
    assert_eq!(trial.shop().air.len(), 1);
    trial.done(&Action::Undo);
    assert_eq!(trial.shop().air, after);
    trial.done(&Action::Undo);
    assert_eq!(trial.shop().air, before);
    trial.done(&Action::Redo);
    assert_eq!(trial.shop().air, after);
}

#[test]
fn a_forecast_is_typed_over_an_older_one_and_taken_away() {
    let mut trial = Trial::at(NOW);
    trial.log(20.0, 45.0);
    let at = |hours| trial.now + Duration::hours(hours);
    let step = |from, until, c| {
        let air = air(c, 50.0);
        Action::Foretell(ForecastStep { from, until, air })
    };
    let (whole, inner) = (step(at(0), at(10), 12.0), step(at(4), at(6), 18.0));
    let (past, backwards) = (step(at(-9), at(-3), 12.0), step(at(5), at(3), 12.0));
    let done = trial.done(&whole);
    assert_eq!(
        done.words,
        "Foretold shop air 53.6 F, 50% from 2:00 pm to Thu 12:00 am"
    );
    trial.done(&inner);
    let shop = trial.shop();
    let steps: Vec<_> = shop.forecast.steps().to_vec();
    let spans: Vec<_> = steps
        .iter()
        .map(|step| {
            let from = (step.from - trial.now).num_hours();
            (from, (step.until - trial.now).num_hours())
        })
        .collect();
    assert_eq!(spans, [(0, 4), (4, 6), (6, 10)]);
    assert_eq!(steps[1].air, air(18.0, 50.0));
    let error = trial.perform(&past).expect_err("gone by");
    assert_eq!(error, DeskError::ForecastPast);
    assert!(trial.perform(&backwards).is_err());
    trial.done(&Action::ClearForecast);
    assert!(trial.shop().forecast.steps().is_empty());
    assert_eq!(
        trial.perform(&Action::ClearForecast),
        Err(DeskError::NothingForetold)
    );
    trial.done(&Action::Undo);
    assert_eq!(trial.shop().forecast.steps(), steps);
}
