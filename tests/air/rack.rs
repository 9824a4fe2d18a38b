//! The Rack's lines: stages, safe and likely times, windows, hours, reasons.

use crate::shop::{Trial, ZONE, hours, near};
use chrono::Duration;
use tackfree::coating::{Held, Recoat};
use tackfree::desk::{Action, AmountDraft, FacePick, PassDraft};
use tackfree::shape::FaceKey;
use tackfree::shop::{
    ABRADES_WITH, CoatKind, DryStage, Film, PieceId, RackState, Ticket, TouchVerdict, Waiting,
};
use tackfree::units::{Temperature, TemperatureStyle};

const NOW: &str = "2026-11-25T20:00:00Z";
/// Safe speed at 15 C: exp(-(50000/R)(1/288.15 - 1/296.15)).
const SAFE: f64 = 0.5691;

impl Trial {
    /// A reading so many hours from now, logged when that moment has come.
    fn log_at_hours(&mut self, hours: i64, c: f64) {
        let now = self.now;
        self.now += Duration::hours(hours);
        self.log(c, 50.0);
        self.now = now;
    }
}

fn likely() -> f64 {
    (-35_000.0_f64 / 8.314_462_618 * (1.0 / 288.15 - 1.0 / 296.15)).exp()
}

#[test]
fn a_cold_coat_says_its_stage_its_times_and_why_it_is_slow() {
    let mut trial = Trial::at(NOW);
    trial.log(15.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    let laid = trial.now;
    trial.now += Duration::hours(4);
    let line = trial.line(shelf);
    let film = line.film.as_ref().expect("a film");
    assert_eq!(line.coat_words(), "coat 1");
    assert_eq!(
        (line.row.state, film.stage),
        (RackState::Wet, DryStage::Wet)
    );
    let touch = film.milestone(DryStage::Touch).expect("touch").times;
    assert!(near(touch.safe, laid + hours(3.0 / SAFE)), "{touch:?}");
    assert!(
        near(touch.likely, laid + hours(3.0 / likely())),
        "{touch:?}"
    );
    let recoat = film.milestone(DryStage::Recoat).expect("recoat").times;
    assert!(near(recoat.safe, laid + hours(6.0 / SAFE)), "{recoat:?}");
    assert!(
        near(recoat.likely, laid + hours(6.0 / likely())),
        "{recoat:?}"
    );
    assert_eq!(line.row.recoat, Some(recoat.safe));
    assert!((film.had - 4.0 * SAFE).abs() < 0.001 && (film.asked - 6.0).abs() < 1e-9);
    assert_eq!(film.hours_words(), "2.3 of 6 label-hours to recoat");
    let slow = film.slow_words(trial.now, ZONE, TemperatureStyle::Fahrenheit);
    assert_eq!(slow, "59 F since 2:00 pm: about 55 % speed");
    let stages: Vec<DryStage> = film.milestones.iter().map(|m| m.stage).collect();
    assert_eq!(stages, DryStage::TO_COME);
    assert!(matches!(film.window.state, Recoat::Wait { ready } if ready == recoat.safe));
    assert_eq!(
        film.window_words(trial.now, ZONE),
        "window shuts Thu 2:00 pm"
    );
    let words = film
        .milestone(DryStage::Recoat)
        .expect("recoat")
        .words(trial.now, ZONE);
    assert!(
        words.starts_with("dry to recoat Thu 12:3") && words.contains(", likely "),
        "{words}"
    );
}

#[test]
fn a_missed_window_says_what_to_do() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(25);
    let line = trial.line(shelf);
    assert_eq!(line.row.state, RackState::Missed);
    let film = line.film.expect("a film");
    assert_eq!(
        film.window_words(trial.now, ZONE),
        "window shut 2:00 pm: abrade with 320 fine paper before the next coat"
    );
    assert!(matches!(film.window.state, Recoat::Missed { .. }));
}

#[test]
fn under_the_labels_temperature_nothing_is_promised() {
    let mut trial = Trial::at(NOW);
    trial.log(4.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(2);
    let film = trial.line(shelf).film.expect("a film");
    let recoat = film.milestone(DryStage::Recoat).expect("recoat");
    assert!(!recoat.in_sight);
    assert_eq!(
        recoat.words(trial.now, ZONE),
        "dry to recoat: not in this air"
    );
    let Err(error) = trial.coat(shelf) else {
        panic!("a wet coat was coated over");
    };
    let reasons = error.lines(trial.now, ZONE);
    assert_eq!(
        reasons[1],
        "- top: coat dry to recoat once the shop is warmer or drier, or by a touch test"
    );
    let slow = film.slow_words(trial.now, ZONE, TemperatureStyle::Celsius);
    assert!(slow.ends_with("does not dry"), "{slow}");
    assert_eq!(film.stage, DryStage::Wet);
}

#[test]
fn a_test_says_more_than_the_clock() {
    let mut trial = Trial::at(NOW);
    trial.log(15.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(2);
    trial.test(shelf, TouchVerdict::TackFree);
    let line = trial.line(shelf);
    let film = line.film.expect("a film");
    assert_eq!(film.stage_words(), "tack-free by touch test");
    assert_eq!(line.row.state, RackState::TackFree);
    assert_eq!(line.row.tack_free, Some(trial.now));
    let ahead: Vec<DryStage> = film.to_come(trial.now).map(|m| m.stage).collect();
    assert_eq!(ahead.first(), Some(&DryStage::Recoat));
    trial.done(&Action::Undo);
    let film = trial.line(shelf).film.expect("a film");
    assert_eq!(film.stage, DryStage::Wet);
}

#[test]
fn a_coat_long_tack_free_found_soft_stays_tack_free() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::days(12);
    let before = trial.line(shelf).film.expect("a film");
    trial.test(shelf, TouchVerdict::StillSoft);
    let line = trial.line(shelf);
    let film = line.film.expect("a film");
    assert_eq!(film.stage, DryStage::TackFree);
    assert_eq!(film.stage_words(), "tack-free, still soft by touch test");
    assert_eq!(line.row.state, RackState::TackFree);
    // Not the touch's moment, and everything after dry to recoat comes after it.
    let touch = |film: &Film| film.milestone(DryStage::Touch).expect("touch").times.safe;
    assert!(touch(&before) < trial.now && touch(&film) < trial.now);
    let recoat = film.milestone(DryStage::Recoat).expect("recoat").times.safe;
    assert_eq!(Some(recoat), film.look_again);
    for stage in [DryStage::Handle, DryStage::LightUse] {
        let later = film.milestone(stage).expect("a stage").times.safe;
        assert!(later >= recoat, "{stage:?}: {later} before {recoat}");
    }
}

/// A coat on every face, and four days later another on the top alone.
fn with_a_fresh_top() -> (Trial, PieceId) {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::days(4);
    let draft = PassDraft {
        picks: vec![FacePick {
            piece: shelf,
            faces: Some(vec![FaceKey::Top]),
        }],
        kind: CoatKind::Topcoat,
        product: None,
        started: trial.now,
        ended: trial.now,
        amount: AmountDraft::Estimate,
        air: None,
        drawn: tackfree::desk::DrawnDraft::default(),
        scuffed_first: Some(ABRADES_WITH),
    };
    trial.done(&Action::LogPass(draft));
    (trial, shelf)
}

#[test]
fn a_line_speaks_of_one_film_throughout() {
    // The window of what was left behind is missed; the fresh top's is not.
    let (trial, shelf) = with_a_fresh_top();
    let line = trial.line(shelf);
    assert_eq!(line.row.state, RackState::Missed);
    let Waiting::Abrade { shut, .. } = line.row.waiting else {
        panic!("{:?}", line.row.waiting);
    };
    assert_eq!(line.row.shuts, Some(shut));
    assert_ne!(line.row.face, Some(FaceKey::Top));
    let film = line.film.expect("a film");
    assert!(matches!(film.window.state, Recoat::Missed { since } if since == shut));
    assert_eq!(film.laid, trial.now - Duration::days(4));
}

#[test]
fn a_test_is_of_the_film_the_line_shows_unless_faces_are_named() {
    let (mut trial, shelf) = with_a_fresh_top();
    let tested = |trial: &Trial| -> Vec<FaceKey> {
        let shop = trial.shop();
        let ticket = Ticket::of(shop.file(shelf).expect("the shelf"));
        let faces = ticket.faces.iter();
        let touched =
            faces.filter(|face| face.last_coat().is_some_and(|coat| coat.touch.is_some()));
        touched.map(|face| face.key).collect()
    };
    let varnish = trial.varnish().id;
    trial.test(shelf, TouchVerdict::DryToRecoat);
    let mut others = trial.faces(shelf);
    others.retain(|face| *face != FaceKey::Top);
    assert_eq!(tested(&trial), others);
    let learned = trial.clock().tuning(varnish).safe;
    assert_eq!((learned.tests, learned.coats), (1, 1));
    trial.done(&Action::Undo);
    let at = trial.now;
    trial.done(&Action::Touch {
        picks: vec![FacePick {
            piece: shelf,
            faces: Some(vec![FaceKey::Top]),
        }],
        verdict: TouchVerdict::TouchDry,
        at,
    });
    assert_eq!(tested(&trial), [FaceKey::Top]);
}

#[test]
fn a_night_under_the_label_s_temperature_is_told_when_it_is_over() {
    let mut trial = Trial::at("2026-11-24T18:00:00Z");
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    // Under the varnish's least temperature from 2 pm to 7 am.
    for (hours, c) in [(2, 5.0), (8, 5.0), (19, 20.0), (22, 20.0)] {
        trial.log_at_hours(hours, c);
    }
    trial.now += Duration::hours(22);
    let line = trial.line(shelf);
    let film = line.film.expect("a film");
    let cost = film.cost.expect("a stretch");
    let laid = trial.now - Duration::hours(22);
    assert_eq!(
        (cost.from, cost.until),
        (laid + Duration::hours(2), laid + Duration::hours(19))
    );
    assert!((cost.lost - 17.0).abs() < 1e-9, "{cost:?}");
    let least = trial.varnish().label.min_temp;
    let slow = film.slow_words(trial.now, ZONE, TemperatureStyle::Celsius);
    let words = format!(
        "no drying Tue 2:00 pm to 7:00 am: under the label's {}",
        least.show(TemperatureStyle::Celsius)
    );
    assert!(slow.ends_with(&words), "{slow}");
    // Once it is dry to recoat nothing of it matters any more.
    trial.now += Duration::hours(12);
    assert_eq!(trial.line(shelf).film.expect("a film").cost, None);
}

#[test]
fn a_cold_night_that_only_slowed_it_is_told_with_its_coldest() {
    let mut trial = Trial::at("2026-11-24T18:00:00Z");
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    let least = trial.varnish().label.min_temp.c();
    trial.coat(shelf).expect("a coat");
    for (hours, c) in [(1, least + 2.0), (5, least + 1.0), (6, 23.0)] {
        trial.log_at_hours(hours, c);
    }
    trial.now += Duration::minutes(6 * 60 + 10);
    let film = trial.line(shelf).film.expect("a film");
    let cost = film.cost.expect("a stretch");
    assert_eq!(cost.held, Held::Cold(Temperature::from_c(least + 1.0)));
    assert!(!film.speed.is_slow() && film.is_slow());
    let slow = film.slow_words(trial.now, ZONE, TemperatureStyle::Celsius);
    assert!(
        slow.starts_with("slowest 1:00 pm to 6:00 pm: down to "),
        "{slow}"
    );
}
