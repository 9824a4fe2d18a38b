//! Times corrected afterwards: what follows from them, and what is refused.

use crate::hand::{Hand, clock, picks};
use chrono::Duration;
use tackfree::desk::{Action, AmountDraft};
use tackfree::shop::{
    Chore, CoatKind, Grit, PassId, PieceId, ScuffMeans, Stage, Waiting, What, together,
};

const OIL: &str = "hardwax oil on all sides";

/// A shelf with its first coat laid at nine in the morning, and the moment it may have its second.
fn coated() -> (Hand, PieceId, PassId, chrono::DateTime<chrono::Utc>) {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-25 09:00");
    let pass = hand.pass(&[shelf], CoatKind::Topcoat);
    let Waiting::Dry { ready: until, .. } = hand.waits(shelf) else {
        panic!("{:?}", hand.waits(shelf));
    };
    (hand, shelf, pass, until)
}

fn times(pass: PassId, started: &str, ended: &str) -> Action {
    Action::CorrectPassTime {
        pass,
        started: clock(started),
        ended: clock(ended),
    }
}

#[test]
fn a_coat_moved_later_makes_the_next_wait_and_earlier_lets_it_go() {
    let (mut hand, shelf, pass, ready) = coated();
    let second = |hand: &mut Hand| {
        let mut draft = hand.pass_draft(&[shelf], CoatKind::Topcoat);
        draft.started = hand.now;
        draft.scuffed_first = Some(ScuffMeans::Pad);
        hand.try_to(&Action::LogPass(draft))
    };
    // At the moment it is dry by the time that was logged, but it was laid two hours later.
    hand.now = ready;
    hand.done(&times(pass, "2026-11-25 10:50", "2026-11-25 11:00"));
    assert!(second(&mut hand).is_err(), "two hours are missing");
    let Waiting::Dry { ready: until, .. } = hand.waits(shelf) else {
        panic!("{:?}", hand.waits(shelf));
    };
    assert_eq!(until, ready + Duration::hours(2));
    // It was laid an hour earlier than first logged after all.
    let done = hand.done(&times(pass, "2026-11-25 07:50", "2026-11-25 08:00"));
    assert_eq!(
        done.words,
        "Corrected the time of the coat of hardwax oil on 1A long shelf from Wed Nov 25 2026 \
         10:50 am until Wed Nov 25 2026 11:00 am to Wed Nov 25 2026 7:50 am until Wed Nov 25 2026 \
         8:00 am"
    );
    assert!(
        done.notes
            .iter()
            .any(|note| note.starts_with("1A long shelf now: ")),
        "{:?}",
        done.notes
    );
    assert_eq!(hand.journal(), done.words, "the journal keeps both times");
    let stored = hand.shop().passes[0].clone();
    assert_eq!(stored.ended, clock("2026-11-25 08:00"));
    hand.now = ready - Duration::minutes(59);
    assert!(second(&mut hand).is_ok());
}

#[test]
fn a_second_coat_that_came_too_early_by_the_new_time_is_told() {
    let (mut hand, shelf, pass, ready) = coated();
    hand.now = ready + Duration::minutes(10);
    hand.scuffed_pass(&[shelf], ScuffMeans::Pad);
    let done = hand.done(&times(pass, "2026-11-25 11:50", "2026-11-25 12:00"));
    assert!(
        done.notes
            .iter()
            .any(|note| note.contains("look at it before the next step")),
        "{:?}",
        done.notes
    );
}

#[test]
fn a_pass_over_two_pieces_takes_both_along_and_its_scuffs() {
    let mut hand = Hand::at("2026-11-23 09:00");
    let (a, b) = (
        hand.piece("long shelf", OIL),
        hand.piece("short shelf", OIL),
    );
    for piece in [a, b] {
        hand.through_sanding(piece);
    }
    hand.goes_on("2026-11-24 09:00");
    hand.pass(&[a, b], CoatKind::Topcoat);
    hand.goes_on("2026-11-25 15:00");
    hand.scuffed_pass(&[a, b], ScuffMeans::Pad);
    let before = hand.shop();
    // By the line of one piece: the pass keeps its ten minutes.
    let line = hand.last_line(b);
    hand.goes_on("2026-11-25 16:00");
    hand.done(&Action::CorrectTime {
        piece: b,
        lines: vec![line],
        at: clock("2026-11-25 14:00"),
    });
    let shop = hand.shop();
    for piece in [a, b] {
        let events = &shop.file(piece).unwrap().events;
        let [scuff, coat] = &events[events.len() - 2..] else {
            panic!("two lines");
        };
        assert_eq!(coat.at, clock("2026-11-25 14:00"));
        assert!(
            matches!(coat.what, What::Coat { started, .. } if started == clock("2026-11-25 13:50"))
        );
        assert_eq!(scuff.at, clock("2026-11-25 13:50"), "scuffed just before");
        assert!(matches!(scuff.what, What::Scuff { .. }));
    }
    let amounts = |shop: &tackfree::desk::Shop| {
        shop.passes
            .iter()
            .map(|pass| pass.amount)
            .collect::<Vec<_>>()
    };
    assert_eq!(amounts(&before), amounts(&shop), "only the time");
    hand.done(&Action::Undo);
    assert_eq!(hand.shop().files, before.files);
    assert_eq!(hand.shop().passes, before.passes);
}

#[test]
fn a_time_that_breaks_the_order_is_refused_in_words() {
    let mut hand = Hand::at("2026-11-25 08:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.sand(shelf);
    hand.goes_on("2026-11-25 09:00");
    hand.wipe(shelf);
    let wipe = hand.last_line(shelf);
    hand.goes_on("2026-11-25 09:30");
    hand.move_on(shelf);
    let moved = hand.last_line(shelf);
    hand.goes_on("2026-11-25 10:00");
    let pass = hand.pass(&[shelf], CoatKind::Topcoat);
    let coat = hand.last_line(shelf);
    hand.goes_on("2026-11-25 12:00");
    let before = hand.shop();

    let said = hand.refused(&times(pass, "2026-11-25 08:30", "2026-11-25 08:40"));
    assert!(
        said.contains("top: last worked 9:00 am; the time typed lies before that"),
        "a coat before its wipe-down: {said}"
    );
    let line = |line, at: &str| Action::CorrectTime {
        piece: shelf,
        lines: vec![line],
        at: clock(at),
    };
    let said = hand.refused(&line(wipe, "2026-11-25 10:30"));
    assert!(
        said.contains(
            "top: what was logged after it is of 9:50 am; the time typed lies after that"
        ),
        "a wipe-down after its coat: {said}"
    );
    let said = hand.refused(&line(coat, "2026-11-25 12:30"));
    assert!(said.contains("still to come"), "{said}");
    let said = hand.refused(&times(pass, "2026-11-25 11:00", "2026-11-25 10:50"));
    assert!(said.contains("ends before it starts"), "{said}");
    let said = hand.refused(&line(moved, "2026-11-25 08:50"));
    assert!(
        said.contains("last worked 9:00 am"),
        "a move before the work it rests on: {said}"
    );
    let said = hand.refused(&line(wipe, "2026-11-25 09:40"));
    assert!(
        said.contains("what was logged after it is of 9:30 am"),
        "after the move: {said}"
    );
    let said = hand.refused(&line(wipe, "2026-11-25 09:00"));
    assert!(said.contains("the time it has already"), "{said}");
    assert_eq!(hand.shop().files, before.files, "nothing of it was kept");
    assert_eq!(hand.shop().passes, before.passes);

    // What does hold together goes through.
    hand.done(&line(moved, "2026-11-25 09:05"));
    hand.done(&line(wipe, "2026-11-25 09:02"));
    assert_eq!(hand.ticket(shelf).stage, Stage::Topcoats);
}

#[test]
fn ticks_of_one_go_are_corrected_together() {
    let mut hand = Hand::at("2026-11-25 08:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.sand(shelf);
    let file = hand.shop().file(shelf).unwrap().clone();
    let first = file.events[0].id;
    let lines = together(&file, first);
    assert_eq!(lines.len(), 6, "one for each face");
    hand.goes_on("2026-11-25 09:00");
    let at = clock("2026-11-25 07:40");
    let done = hand.done(&Action::CorrectTime {
        piece: shelf,
        lines,
        at,
    });
    assert!(done.words.contains("80 grit on 6 faces"), "{}", done.words);
    let ticket = hand.ticket(shelf);
    assert!(ticket.faces.iter().all(|face| face.ticks[&Grit(80)] == at));
    let two = vec![file.events[0].id, file.events[6].id];
    let said = hand.refused(&Action::CorrectTime {
        piece: shelf,
        lines: two,
        at,
    });
    assert!(said.contains("one line"), "{said}");
}

#[test]
fn the_days_chores_follow_a_corrected_time() {
    let (mut hand, _, pass, _) = coated();
    assert!(hand.end("2026-11-25").rags().is_some());
    hand.goes_on("2026-11-25 12:00");
    hand.done(&times(pass, "2026-11-24 19:00", "2026-11-24 19:30"));
    assert!(hand.end("2026-11-25").rags().is_none());
    assert_eq!(
        hand.end("2026-11-24").rags().map(|rags| rags.chore),
        Some(Chore::OilyRags)
    );
}

#[test]
fn an_amount_corrected_and_a_time_corrected_leave_each_other_alone() {
    let (mut hand, shelf, pass, _) = coated();
    hand.goes_on("2026-11-25 12:00");
    hand.done(&times(pass, "2026-11-25 08:00", "2026-11-25 08:20"));
    let amount = AmountDraft::Volume(tackfree::units::Volume::from_ul(40_000));
    hand.done(&Action::CorrectPass { pass, amount });
    let shop = hand.shop();
    assert_eq!(shop.passes[0].ended, clock("2026-11-25 08:20"));
    assert_eq!(shop.passes[0].amount.volume.ul(), 40_000);
    let at = clock("2026-11-25 09:00");
    hand.done(&Action::Touch {
        picks: picks(&[shelf]),
        verdict: tackfree::shop::TouchVerdict::TouchDry,
        at,
    });
    let said = hand.refused(&times(pass, "2026-11-25 09:30", "2026-11-25 09:40"));
    assert!(
        said.contains("what was logged after it is of 9:00 am"),
        "{said}"
    );
}
