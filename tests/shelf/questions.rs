//! What is asked in words before it is believed; who is sure is believed, and told once more.

use crate::rig::{NOW, Shelf, asked, from, grams, ml, refused, sure};
use tackfree::desk::{
    Action, AmountDraft, Books, CanAction, CanPick, CanTake, DrawnDraft, JobDraft, Made, MixDraft,
    MixPart, TakeAmount, Which,
};
use tackfree::shop::{CanStanding, CoatKind, EmptyWeight, JarFor, Keeps, Known};
use tackfree::units::{Mass, Volume};

fn weighed(before: f64, after: f64) -> AmountDraft {
    AmountDraft::Weighed {
        before: grams(before),
        after: grams(after),
    }
}

#[test]
fn a_weight_that_went_up_is_asked_about() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let weigh = |mass, at, sure| CanAction::Weigh {
        can,
        mass,
        at,
        sure,
    };
    let at = shelf.now();
    shelf.done(weigh(grams(900.0), at, false));
    shelf.later(1.0);
    let at = shelf.now();
    let words = asked(shelf.act(weigh(grams(912.0), at, false)));
    assert!(
        words.starts_with(
            "can 1 weighs 912 g now and weighed 900 g 9:00 am: a can does not grow heavier"
        ),
        "{words}"
    );
    // Nothing of it was written; a scale's step is no rise.
    assert_eq!(
        shelf.can(can).weighed.map(|(_, mass)| mass),
        Some(grams(900.0))
    );
    shelf.done(weigh(grams(901.0), at, false));
    let done = shelf.done(weigh(grams(912.0), at, true));
    assert!(
        done.notes.iter().any(|note| note.contains("grow heavier")),
        "{done:?}"
    );
    assert_eq!(
        shelf.can(can).weighed.map(|(_, mass)| mass),
        Some(grams(912.0))
    );
}

#[test]
fn a_weighing_below_the_empty_can_or_above_the_full_one_is_asked_about() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let at = shelf.now();
    let weigh = |g, sure| CanAction::Weigh {
        can,
        mass: grams(g),
        at,
        sure,
    };
    let low = asked(shelf.act(weigh(95.0, false)));
    assert!(
        low.starts_with("95 g is less than the empty can 1 weighs (130 g)"),
        "{low}"
    );
    let high = asked(shelf.act(weigh(1_500.0, false)));
    assert!(high.contains("in can 1, which holds 32 fl oz"), "{high}");
    shelf.done(weigh(95.0, true));
    assert_eq!(shelf.can(can).standing, CanStanding::Empty);
}

#[test]
fn a_use_ten_times_the_expected_or_a_tenth_of_it_is_asked_about() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let piece = shelf.trial.shelf();
    let expected = {
        let shop = shelf.trial.shop();
        let file = shop.file(piece).expect("the piece");
        let faces = file.piece.shape.faces(file.piece.construction);
        let area = faces.iter().map(|face| face.area).sum();
        shelf.trial.varnish().label.spread.volume_for(area)
    };
    let ten = AmountDraft::Volume(expected * 11);
    let words = asked(shelf.pass(piece, ten, from(&[can])));
    assert!(words.contains("is 10 times or more the"), "{words}");
    assert!(words.contains("at the label's spread rate"), "{words}");
    let tenth = AmountDraft::Volume(Volume::from_ul(expected.ul() / 11));
    let words = asked(shelf.pass(piece, tenth, from(&[can])));
    assert!(words.contains("is a tenth or less of the"), "{words}");
    // Asked also where no can is named.
    let none = DrawnDraft {
        cans: CanPick::NoCan,
        ..DrawnDraft::default()
    };
    asked(shelf.pass(piece, ten, none.clone()));
    // Nine times is told, not asked.
    let done = shelf
        .pass(piece, AmountDraft::Volume(expected * 9), none)
        .expect("a pass");
    assert!(
        done.notes.iter().any(|note| note.contains("far from")),
        "{done:?}"
    );
    shelf.trial.done(&Action::Undo);
    let done = shelf.pass(piece, ten, sure(from(&[can]))).expect("a pass");
    assert!(
        done.notes
            .iter()
            .any(|note| note.contains("10 times or more")),
        "{done:?}"
    );
    assert!(
        done.words.ends_with("measured, from can 1"),
        "{}",
        done.words
    );
}

#[test]
fn a_can_with_less_left_than_was_taken_is_asked_about() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let (at, reason) = (shelf.now(), "spilled".to_owned());
    shelf.done(CanAction::Lose {
        can,
        volume: ml(900),
        reason,
        at,
        sure: false,
    });
    let piece = shelf.trial.shelf();
    let amount = AmountDraft::Volume(ml(60));
    let words = asked(shelf.pass(piece, amount, from(&[can])));
    assert!(
        words.starts_with(
            "can 1 had 1.6 fl oz left (by subtraction), and 2 fl oz was taken from it."
        ),
        "{words}"
    );
    shelf
        .pass(piece, amount, sure(from(&[can])))
        .expect("a pass");
    let state = shelf.can(can);
    assert_eq!(state.left.volume, Volume::ZERO);
    assert_eq!(state.standing, CanStanding::Empty);
    // More came out than was in it by reckoning: it is on the books as found.
    assert_eq!(state.sums.found.volume, Volume::from_ul(946_353 - 960_000));
    let job = JarFor::Job(shelf.trial.job);
    let jar = CanAction::Jar {
        can,
        volume: ml(10),
        to: job,
        at,
        sure: false,
    };
    asked(shelf.act(jar));
}

#[test]
fn a_can_past_its_shelf_life_is_asked_about() {
    let mut shelf = Shelf::new();
    let product = shelf.trial.varnish();
    let mut draft = shelf.draft(&product, ml(946), "V-0");
    draft.on = draft.on - chrono::Days::new(400);
    draft.keeps = Keeps {
        sealed: Some(365),
        open: None,
    };
    let can = shelf.receive(draft);
    let piece = shelf.trial.shelf();
    let words = asked(shelf.pass(piece, AmountDraft::Estimate, from(&[can])));
    assert!(
        words.starts_with("can 1 is past its shelf life, which by the day it came ended"),
        "{words}"
    );
    shelf
        .pass(piece, AmountDraft::Estimate, sure(from(&[can])))
        .expect("a pass");
    // Told, not asked, when it is only opened: nothing hangs on that.
    shelf.trial.done(&Action::Undo);
    let at = shelf.now();
    let done = shelf.done(CanAction::Open { can, at });
    assert!(done.notes[0].contains("past its shelf life"), "{done:?}");
}

#[test]
fn another_batch_of_stain_in_one_job_is_asked_about() {
    let mut shelf = Shelf::new();
    let stain = shelf.stains();
    let draft = shelf.draft(&stain, ml(946), "K-1");
    let (one, two) = {
        let other = shelf.draft(&stain, ml(946), "K-2");
        (shelf.receive(draft), shelf.receive(other))
    };
    let pieces = [shelf.trial.shelf(), shelf.trial.shelf()];
    let log = |shelf: &mut Shelf, piece, drawn| {
        let draft = shelf.pass_draft(piece, CoatKind::Stain, AmountDraft::Estimate, drawn);
        shelf.trial.perform(&Action::LogPass(draft))
    };
    let both = asked(log(&mut shelf, pieces[0], from(&[one, two])));
    assert!(
        both.contains("different batches of stain in one pass"),
        "{both}"
    );
    log(&mut shelf, pieces[0], from(&[one])).expect("the first pass");
    let words = asked(log(&mut shelf, pieces[1], from(&[two])));
    assert!(
        words.starts_with("can 2 is batch K-2, and job 1 was stained from batch K-1 so far"),
        "{words}"
    );
    // Another job has not begun yet.
    let client = shelf.trial.shop().clients[0].id;
    let draft = JobDraft {
        client,
        title: "bar".to_owned(),
        site: String::new(),
        house_built: None,
        promised: None,
        notes: String::new(),
    };
    let action = Action::SaveJob(Which::New, draft);
    let Made::Job(job) = shelf.trial.done(&action).made else {
        panic!("a job");
    };
    shelf.trial.job = job;
    let other = shelf.trial.shelf();
    log(&mut shelf, other, from(&[two])).expect("another job");
    log(&mut shelf, pieces[1], sure(from(&[two]))).expect("who is sure");
}

#[test]
fn a_mix_names_its_parts_and_costs_what_went_in() {
    let mut shelf = Shelf::new();
    let stain = shelf.stains();
    let (a, b) = (
        shelf.draft(&stain, ml(473), "K-1"),
        shelf.draft(&stain, ml(473), "K-2"),
    );
    let (one, two) = (shelf.receive(a), shelf.receive(b));
    let at = shelf.now();
    let mix = |parts: Vec<MixPart>| CanAction::Mix {
        draft: MixDraft {
            parts,
            size: None,
            empty: None,
            place: "bench".to_owned(),
        },
        at,
        sure: false,
    };
    let all = |can| MixPart { can, volume: None };
    let some = |can, volume| MixPart {
        can,
        volume: Some(volume),
    };
    assert!(refused(shelf.act(mix(vec![all(one)]))).contains("two cans or more"));
    assert!(refused(shelf.act(mix(vec![all(one), all(one)]))).contains("named twice"));
    asked(shelf.act(mix(vec![some(one, ml(500)), all(two)])));
    let done = shelf.done(mix(vec![all(one), some(two, ml(100))]));
    let Made::Can(mixed) = done.made else {
        panic!("a can");
    };
    assert!(
        done.words
            .ends_with("into can 3 of brown gel stain, batch K-1 + K-2")
            || done.words.contains("batch K-1 + K-2")
    );
    let state = shelf.can(mixed);
    assert_eq!(state.came.volume, ml(573));
    // All of the one and 100 of 473 of the other, at 28.99 each.
    assert_eq!(state.came.cost.cents(), 2_899 + 613);
    assert_eq!(shelf.can(one).standing, CanStanding::Empty);
    assert_eq!(shelf.can(two).left.volume, ml(373));
    // The whole of it is one action.
    shelf.trial.done(&Action::Undo);
    assert!(shelf.trial.shop().cans.can(mixed).is_none());
    assert_eq!(shelf.can(one).left.volume, ml(473));
}

#[test]
fn the_open_can_is_the_usual_one_and_its_last_weight_the_weight_before() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let pieces = [
        shelf.trial.shelf(),
        shelf.trial.shelf(),
        shelf.trial.shelf(),
    ];
    let usual = DrawnDraft::default;
    let after = AmountDraft::WeighedAfter(grams(830.0));
    let words = refused(shelf.pass(pieces[0], after, usual()));
    assert!(
        words.starts_with("can 1 was not weighed yet: type both weights"),
        "{words}"
    );
    let at = shelf.now();
    let mass = grams(860.0);
    shelf.done(CanAction::Weigh {
        can,
        mass,
        at,
        sure: false,
    });
    let done = shelf.pass(pieces[0], after, usual()).expect("a pass");
    assert!(
        done.words.ends_with("weighed, from can 1"),
        "{}",
        done.words
    );
    let state = shelf.can(can);
    assert_eq!(state.known, Known::Weighed(shelf.now()));
    assert_eq!(state.weighed.map(|(_, mass)| mass), Some(grams(830.0)));
    // 30 g of it went, at the product's density.
    let took = shelf.trial.varnish().label.density.volume_of(grams(30.0));
    assert_eq!(state.sums.on_wood.volume, took);
    // Drawn on by estimate since: the last weight is no weight before.
    shelf
        .pass(pieces[1], AmountDraft::Estimate, usual())
        .expect("an estimate");
    let last = AmountDraft::WeighedAfter(grams(790.0));
    let words = refused(shelf.pass(pieces[2], last, usual()));
    assert!(words.contains("drawn on since it was weighed"), "{words}");
    // A second open can: none is the usual one any more, and that is said.
    shelf.varnish();
    let done = shelf
        .pass(pieces[2], AmountDraft::Estimate, usual())
        .expect("a pass");
    assert!(
        done.notes
            .iter()
            .any(|note| note.starts_with("No can is named, and several")),
        "{done:?}"
    );
    let words = refused(shelf.pass(pieces[2], last, usual()));
    assert!(words.contains("needs a can whose last weight"), "{words}");
}

#[test]
fn a_pass_from_two_cans_says_how_much_of_each_and_rags_are_weighed() {
    let mut shelf = Shelf::new();
    let (one, two) = (shelf.varnish(), shelf.varnish());
    let piece = shelf.trial.shelf();
    let total = weighed(900.0, 860.0);
    let words = refused(shelf.pass(piece, total, from(&[one, two])));
    assert!(words.contains("say for each what it weighed"), "{words}");
    let take = |can, amount| CanTake {
        can,
        amount: Some(amount),
    };
    let drawn = DrawnDraft {
        cans: CanPick::These(vec![
            take(
                one,
                TakeAmount::Weighed {
                    before: Some(grams(900.0)),
                    after: grams(888.0),
                },
            ),
            take(two, TakeAmount::Volume(ml(11))),
        ]),
        lost: Some(grams(3.0)),
        ..DrawnDraft::default()
    };
    let much = DrawnDraft {
        lost: Some(grams(400.0)),
        ..drawn.clone()
    };
    let words = refused(shelf.pass(piece, AmountDraft::Estimate, much));
    assert!(
        words.contains("in rag and tray is not less than"),
        "{words}"
    );
    shelf
        .pass(piece, AmountDraft::Estimate, drawn)
        .expect("a pass");
    let shop = shelf.trial.shop();
    let pass = &shop.passes[0];
    let density = shelf.trial.varnish().label.density;
    let first = density.volume_of(grams(12.0));
    assert_eq!(pass.amount.volume, first + ml(11));
    assert_eq!(pass.drawn.draws[0].volume, first);
    assert_eq!(
        pass.on_wood(),
        first + ml(11) - density.volume_of(grams(3.0))
    );
    let (a, b) = (shelf.can(one), shelf.can(two));
    assert_eq!(
        (a.sums.rag.volume + b.sums.rag.volume),
        density.volume_of(Mass::from_mg(3_000))
    );
}

#[test]
fn what_cannot_be_is_said_in_words() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let at = shelf.now();
    assert!(refused(shelf.act(CanAction::Open { can, at })).starts_with("can 1 is open since"));
    shelf.done(CanAction::Discard {
        can,
        reason: "skinned over".to_owned(),
        at,
    });
    let mass = grams(500.0);
    let weigh = CanAction::Weigh {
        can,
        mass,
        at,
        sure: true,
    };
    assert!(refused(shelf.act(weigh)).contains("was thrown away"));
    let piece = shelf.trial.shelf();
    let words = asked(shelf.pass(piece, AmountDraft::Estimate, from(&[can])));
    assert!(words.contains("was thrown away"), "{words}");
    // That it was thrown away was a mistake.
    let line = shelf
        .trial
        .shop()
        .cans
        .lines
        .iter()
        .map(|line| line.id)
        .max();
    shelf.done(CanAction::Strike(line.expect("a line")));
    assert_eq!(shelf.can(can).standing, CanStanding::Open);
    let early = at - chrono::Days::new(3);
    let weigh = CanAction::Weigh {
        can,
        mass,
        at: early,
        sure: true,
    };
    assert!(refused(shelf.act(weigh)).contains("came only"));
}

#[test]
fn without_an_empty_weight_the_first_weighing_reckons_one() {
    let mut shelf = Shelf::new();
    let product = shelf.trial.varnish();
    let can = shelf.receive(shelf.draft(&product, ml(900), ""));
    let at = shelf.now();
    let full = product.label.density.mass_of(ml(900)) + grams(140.0);
    let weigh = |mass, at| CanAction::Weigh {
        can,
        mass,
        at,
        sure: false,
    };
    let done = shelf.done(weigh(full, at));
    assert!(
        done.notes.iter().any(|note| note.contains("not known")),
        "{done:?}"
    );
    assert_eq!(
        shelf.can(can).empty,
        Some(EmptyWeight::Reckoned(grams(140.0)))
    );
    assert_eq!(shelf.can(can).left.volume, ml(900));
    shelf.later(2.0);
    let at = shelf.now();
    shelf.done(weigh(full - grams(86.0), at));
    let gone = product.label.density.volume_of(grams(86.0));
    assert!((shelf.can(can).left.volume - (ml(900) - gone)).ul().abs() <= 2);
    assert_eq!(NOW, crate::rig::NOW);
}

#[test]
fn throwing_away_says_how_it_is_done_safely() {
    let mut shelf = Shelf::new();
    let can = shelf.varnish();
    let piece = shelf.trial.shelf();
    let at = shelf.now();
    let done = shelf.done(CanAction::Discard {
        can,
        reason: "skinned over".to_owned(),
        at,
    });
    let said = done.notes.join(" ");
    for word in [
        "drain",
        "label",
        "safety data sheet",
        "local rules",
        "40 CFR 261.21",
        "Oily rags",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
    assert!(
        shelf
            .trial
            .store
            .cans(tackfree::desk::Scope::One(piece))
            .expect("cans")
            .cans
            .is_empty()
    );
}
