//! Touch tests: the coat's own times, what the product learns, and learning anew.

use crate::shop::{Trial, hours, near, ready, utc};
use chrono::Duration;
use rusqlite::Connection;
use tackfree::desk::{Action, AmountDraft, Books, DeskError};
use tackfree::shop::{Blocker, DryStage, TouchVerdict};
use tackfree::store::Store;

const NOW: &str = "2026-11-25T20:00:00Z";

#[test]
fn a_dry_test_opens_the_window_early_and_teaches() {
    let mut trial = Trial::at(NOW);
    trial.log(15.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(4);
    ready(trial.coat(shelf));
    let done = trial.test(shelf, TouchVerdict::DryToRecoat);
    let product = trial.varnish();
    let learned = trial.clock().tuning(product.id).safe;
    assert_eq!((learned.tests, learned.coats), (1, 1));
    assert!(learned.median > 1.0, "{learned:?}");
    let note = format!("{} dries here at {}.", product.name, learned.words());
    assert!(done.notes.contains(&note), "{:?}", done.notes);
    let film = trial.line(shelf).film.expect("a film");
    assert_eq!(film.stage, DryStage::Recoat);
    assert_eq!(film.stage_words(), "dry to recoat by touch test");
    trial.coat(shelf).expect("the next coat");
}

#[test]
fn a_soft_test_holds_the_coat_says_when_to_look_again_and_teaches() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(7);
    let done = trial.test(shelf, TouchVerdict::StillSoft);
    assert!(
        done.notes.iter().any(|note| note.contains("test again")),
        "{:?}",
        done.notes
    );
    let Err(DeskError::Refused { refusals, .. }) = trial.coat(shelf) else {
        panic!("a soft coat was coated over");
    };
    assert!(matches!(refusals[0].blockers[0], Blocker::Soft { .. }));
    let line = trial.line(shelf);
    let film = line.film.expect("a film");
    // Soft says only that it is not dry to recoat; by what the test taught it is set to touch.
    assert_eq!(film.stage_words(), "set to touch, still soft by touch test");
    let again = film.look_again.expect("a time");
    assert_eq!(line.row.waiting.until(), Some(again));
    let ahead: Vec<DryStage> = film.to_come(trial.now).map(|one| one.stage).collect();
    assert_eq!(
        ahead,
        [
            DryStage::TackFree,
            DryStage::Recoat,
            DryStage::Handle,
            DryStage::LightUse,
            DryStage::FullCure
        ]
    );
    assert!(again >= trial.now + Duration::minutes(84), "{again}");
    let words = film
        .touch_words(trial.now, crate::shop::ZONE)
        .expect("words");
    assert!(
        words.starts_with("touch test 9:00 pm: still soft, test again"),
        "{words}"
    );
    let factor = trial.clock().tuning(trial.varnish().id).safe;
    assert!(factor.median < 1.0, "{factor:?}");
    // A dry one later brackets the coat.
    trial.now += Duration::hours(2);
    trial.test(shelf, TouchVerdict::DryToRecoat);
    let both = trial.clock().tuning(trial.varnish().id).safe;
    assert_eq!((both.tests, both.coats), (2, 1));
    assert!(both.high - both.low < factor.high - factor.low);
    assert!((6.0 / 9.0..1.0).contains(&both.median), "{both:?}");
    trial.coat(shelf).expect("the next coat");
    // The next coat is held to what was learned.
    let laid = trial.now;
    trial.now += Duration::hours(1);
    let dry = ready(trial.coat(shelf));
    assert!(near(dry, laid + hours(6.0 / both.median)), "{dry}");
}

#[test]
fn undone_tests_teach_nothing_and_a_reset_can_be_undone() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(8);
    let product = trial.varnish();
    let tuning = |trial: &Trial| trial.clock().tuning(product.id);
    let fresh = tuning(&trial);
    assert_eq!(
        trial.perform(&Action::LearnAfresh(product.id)),
        Err(DeskError::NothingLearned {
            product: product.name.clone()
        })
    );
    trial.test(shelf, TouchVerdict::StillSoft);
    let learned = tuning(&trial);
    assert_ne!(learned, fresh);
    trial.done(&Action::Undo);
    assert_eq!(tuning(&trial), fresh);
    trial.done(&Action::Redo);
    assert_eq!(tuning(&trial), learned);
    trial.now += Duration::minutes(1);
    let done = trial.done(&Action::LearnAfresh(product.id));
    assert_eq!(
        done.words,
        format!(
            "Began to learn {} anew: 1 touch test no longer count",
            product.name
        )
    );
    assert_eq!(tuning(&trial), fresh);
    trial.now += Duration::hours(1);
    trial.test(shelf, TouchVerdict::DryToRecoat);
    assert_eq!(tuning(&trial).safe.tests, 1);
    trial.done(&Action::Undo);
    trial.done(&Action::Undo);
    assert_eq!(tuning(&trial), learned);
}

#[test]
fn one_pass_over_several_pieces_is_one_film() {
    let mut trial = Trial::at(NOW);
    trial.log(23.0, 50.0);
    let shelves = [trial.shelf(), trial.shelf(), trial.shelf()];
    let picks: Vec<_> = shelves
        .iter()
        .map(|piece| tackfree::desk::FacePick {
            piece: *piece,
            faces: None,
        })
        .collect();
    trial.done(&Action::LogPass(tackfree::desk::PassDraft {
        picks: picks.clone(),
        kind: tackfree::shop::CoatKind::Topcoat,
        product: None,
        started: trial.now,
        ended: trial.now,
        amount: AmountDraft::Estimate,
        air: None,
        scuffed_first: None,
        drawn: tackfree::desk::DrawnDraft::default(),
    }));
    trial.now += Duration::hours(7);
    let (verdict, at) = (TouchVerdict::StillSoft, trial.now);
    trial.done(&Action::Touch { picks, verdict, at });
    let learned = trial.clock().tuning(trial.varnish().id).safe;
    assert_eq!((learned.tests, learned.coats), (1, 1));
}

#[test]
fn tests_from_before_the_first_reading_count_until_the_air_is_known() {
    let mut trial = Trial::at(NOW);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(8);
    trial.test(shelf, TouchVerdict::StillSoft);
    let id = trial.varnish().id;
    assert_eq!(trial.clock().tuning(id).safe.tests, 1);
    assert_eq!(trial.clock().basis(), "label hours and touch tests");
    // What they were made in is not known; now the log says what slows a film.
    trial.log(15.0, 50.0);
    assert_eq!(trial.clock().tuning(id).safe.tests, 0);
}

/// A store of the first layout, with a touch test in it.
#[test]
fn an_older_store_brings_its_tests_along() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.tackfree");
    let conn = Connection::open(&path).expect("a file");
    conn.execute_batch(include_str!("../../src/store/migrations/001_start.sql"))
        .expect("the first layout");
    let at = utc(NOW).timestamp_millis();
    let ids = ["01", "02", "03", "04", "05", "06", "07", "08"]
        .map(|n| format!("01a2144b-0000-7000-8000-0000000000{n}"));
    let [client, job, recipe, product, piece, pass, coat, touch] = &ids;
    let furnished = Trial::at(NOW);
    let varnish = furnished.varnish();
    let label = serde_json::to_string(&varnish.label).expect("figures");
    let schedule = serde_json::to_string(&furnished.store.recipes().expect("recipes")[0].schedule)
        .expect("a schedule");
    conn.execute_batch(&format!(
        "INSERT INTO client VALUES ('{client}', 'Ada', '', '', '', '');
         INSERT INTO job VALUES ('{job}', 1, '{client}', 'shelf', '', NULL, NULL, '', '2026-11-01');
         INSERT INTO recipe VALUES ('{recipe}', 'one', '{schedule}');
         INSERT INTO product VALUES ('{product}', 'varnish', 'topcoat', 'oil-wiping-varnish', 'label',
           '{label}', 946353, 2500);
         INSERT INTO piece VALUES ('{piece}', '{job}', 1, 'shelf', 'shelf', 'maple', 'edge_grain',
           'rectangle', 762000000, 254000000, NULL, 25400000, 'square', NULL, NULL, '{recipe}',
           '{schedule}', 'topcoats', 0);
         INSERT INTO pass VALUES ('{pass}', 'topcoat', '{product}', {at}, {at}, 1000, 'estimated',
           NULL, NULL, NULL, NULL);
         INSERT INTO event (id, piece, at_ms, kind, pass, coat, product, started_ms, used_ul)
           VALUES ('{coat}', '{piece}', {at}, 'coat', '{pass}', 'topcoat', '{product}', {at}, 1000);
         INSERT INTO event (id, piece, at_ms, kind, verdict)
           VALUES ('{touch}', '{piece}', {at} + 28800000, 'touch', 'still-soft');
         INSERT INTO event_face VALUES ('{coat}', 0, 'top', 100000, 0);
         INSERT INTO event_face VALUES ('{touch}', 0, 'top', NULL, 0);
         PRAGMA application_id = {}; PRAGMA user_version = 1;",
        0x746b_6672
    ))
    .expect("an old shop");
    drop(conn);
    let store = Store::open(&path).expect("brought up");
    let tested = store.tested_products().expect("products");
    assert_eq!(tested.len(), 1);
    let tests = store.touch_tests(tested[0], None, 10).expect("tests");
    assert_eq!(tests.len(), 1);
    assert_eq!(tests[0].verdict, TouchVerdict::StillSoft);
    assert_eq!(tests[0].at - tests[0].laid, Duration::hours(8));
    assert_eq!(tests[0].spread, None);
    assert!(store.check().expect("checked").is_empty());
}

#[test]
fn a_test_that_does_not_count_says_why() {
    let mut trial = Trial::at(NOW);
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(1);
    trial.log(23.0, 50.0);
    trial.now += Duration::hours(7);
    let varnish = trial.varnish().id;
    let done = trial.test(shelf, TouchVerdict::StillSoft);
    let said = done
        .notes
        .iter()
        .any(|note| note.contains("does not count") && note.contains("before the first reading"));
    assert!(said, "{:?}", done.notes);
    let over = trial.shop().passed_over(varnish);
    assert_eq!((over.before_air, over.no_hours), (1, 0));
    assert_eq!(
        over.words(),
        [
            "1 touch test does not count: its coat was laid before the first reading of the shop's air"
        ]
    );
    let film = trial.line(shelf).film.expect("a film");
    assert_eq!(
        film.learned_words(),
        "the label's speed, no touch test that counts"
    );
    // Just laid: the next coat has had no hours.
    trial.test(shelf, TouchVerdict::DryToRecoat);
    trial.coat(shelf).expect("the next coat");
    let done = trial.test(shelf, TouchVerdict::StillSoft);
    assert!(
        !done
            .notes
            .iter()
            .any(|note| note.contains("before the first")),
        "{:?}",
        done.notes
    );
    let over = trial.shop().passed_over(varnish);
    assert_eq!((over.before_air, over.no_hours), (2, 1));
}
