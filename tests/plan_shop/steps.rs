//! Steps begun and finished from the sheet: the gates let in what the sheet said, to the end.

use crate::hand::{Hand, clock};
use chrono::{DateTime, Duration, Utc};
use std::sync::atomic::AtomicBool;
use tackfree::desk::{Action, AmountDraft, DeskError, Scope, Shop, StepEnd, day_sheet};
use tackfree::shop::day_sheet::Sheet;
use tackfree::shop::{SetItem, Stage, StepCode, Ticket, What};

pub fn sheet(hand: &Hand) -> Sheet {
    day_sheet(&shop(hand), hand.now, 200, &AtomicBool::new(false)).sheet
}

pub fn shop(hand: &Hand) -> Shop {
    Shop::read(&hand.store, Scope::All, crate::hand::ZONE).unwrap()
}

fn end(at: DateTime<Utc>) -> Action {
    Action::FinishStep(StepEnd {
        at,
        amount: AmountDraft::Estimate,
        drawn: tackfree::desk::DrawnDraft::default(),
        verdict: None,
    })
}

/// Works off the sheet line by line until nothing is left, making it anew after each step. Every
/// line is begun when the sheet says and must be let in then.
fn worked_off(hand: &mut Hand) -> usize {
    let mut steps = 0;
    while let Some(line) = sheet(hand).lines.first().cloned() {
        assert!(steps < 120, "it does not end: {line:?}");
        hand.now = hand.now.max(line.start);
        let at = hand.now;
        hand.done(&Action::StartStep { key: line.key, at });
        // While it is under way it stands first and keeps its start.
        hand.now += Duration::minutes(1);
        let under = sheet(hand).lines[0].clone();
        assert_eq!((under.key, under.start), (line.key, at));
        assert!(under.under_way);
        hand.now = hand.now.max(line.end);
        let at = hand.now;
        hand.done(&end(at));
        if line.key.step == StepCode::Set {
            for item in SetItem::ALL {
                let piece = line.key.piece;
                hand.done(&Action::SetList {
                    piece,
                    item,
                    done: true,
                });
            }
        }
        steps += 1;
    }
    steps
}

#[test]
fn every_ready_made_recipe_can_be_worked_off_its_sheet() {
    for (recipe, least) in [
        ("hardwax oil on all sides", 8),
        ("clear wiped film", 12),
        ("gel stain under a wiped film", 14),
        ("water-borne clear", 11),
    ] {
        let mut hand = Hand::at("2026-11-20 08:00");
        let a = hand.piece("long shelf", recipe);
        let b = hand.piece("short shelf", recipe);
        let steps = worked_off(&mut hand);
        assert!(steps >= 2 * least, "{recipe}: {steps} steps");
        let shop = shop(&hand);
        for piece in [a, b] {
            let file = shop.file(piece).unwrap();
            let ticket = Ticket::of(file);
            assert_eq!(
                (ticket.stage, ticket.finished.is_some()),
                (Stage::Set, true)
            );
            assert!(
                ticket.faces.iter().all(|face| face.film_coats() > 0),
                "{recipe}: sealed on all sides"
            );
        }
    }
}

#[test]
fn a_step_is_logged_as_the_bench_logs_it_and_undone_in_one() {
    let mut hand = Hand::at("2026-11-20 08:00");
    let piece = hand.piece("long shelf", "hardwax oil on all sides");
    let line = sheet(&hand).lines[0].clone();
    let key = line.key;
    assert!(matches!(key.step, StepCode::Sand(_)), "{key:?}");
    hand.done(&Action::StartStep { key, at: hand.now });
    // One pair of hands.
    let again = hand.desk().perform(&Action::StartStep {
        key,
        at: clock("2026-11-20 08:00"),
    });
    assert!(
        matches!(again, Err(DeskError::StepUnderWay(_))),
        "{again:?}"
    );
    hand.now += Duration::minutes(12);
    let at = hand.now;
    hand.done(&end(at));
    let log = |hand: &Hand| shop(hand).file(piece).unwrap().events.clone();
    let ticks = log(&hand);
    assert_eq!(ticks.len(), line.faces.len());
    assert!(
        ticks
            .iter()
            .all(|event| matches!(event.what, What::Tick { .. }) && event.at == at)
    );
    // The finish is one action.
    hand.done(&Action::Undo);
    assert!(log(&hand).is_empty());
    assert_eq!(shop(&hand).plan.under_way.map(|under| under.key), Some(key));
    hand.done(&Action::DropStep);
    assert_eq!(shop(&hand).plan.under_way, None);
    assert!(log(&hand).is_empty());
    let none = hand.desk().perform(&end(at));
    assert!(matches!(none, Err(DeskError::NoStep)), "{none:?}");
}

#[test]
fn only_the_next_step_can_be_begun_and_not_before_it_is_dry() {
    let mut hand = Hand::at("2026-11-20 08:00");
    let piece = hand.piece("long shelf", "hardwax oil on all sides");
    let lines = sheet(&hand).lines;
    let coats: Vec<_> = lines
        .iter()
        .filter(|line| line.key.piece == piece && matches!(line.key.step, StepCode::Coat(..)))
        .collect();
    let refused = hand.desk().perform(&Action::StartStep {
        key: coats[0].key,
        at: clock("2026-11-20 08:00"),
    });
    assert!(
        matches!(refused, Err(DeskError::OtherStep { .. })),
        "{refused:?}"
    );
    // Up to the first coat and then the scuff before it is dry.
    loop {
        let line = sheet(&hand).lines[0].clone();
        hand.now = hand.now.max(line.start);
        let at = hand.now;
        hand.done(&Action::StartStep { key: line.key, at });
        hand.now = line.end;
        let at = hand.now;
        hand.done(&end(at));
        if matches!(line.key.step, StepCode::Coat(..)) {
            break;
        }
    }
    let next = sheet(&hand).lines[0].clone();
    assert!(next.start > hand.now + Duration::hours(2), "{next:?}");
    hand.now += Duration::minutes(30);
    let at = hand.now;
    let wet = hand
        .desk()
        .perform(&Action::StartStep { key: next.key, at });
    assert!(matches!(wet, Err(DeskError::Refused { .. })), "{wet:?}");
    assert_eq!(shop(&hand).plan.under_way, None);
}
