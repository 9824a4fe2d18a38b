//! A day is not closed over oily rags that nobody logged.

use crate::hand::{Hand, clock, date};
use chrono::Duration;
use proptest::prelude::*;
use tackfree::desk::{Action, DeskError};
use tackfree::shop::{Chore, CoatKind, DayState, RagWay};

const OIL: &str = "hardwax oil on all sides";

fn oil_day() -> Hand {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-25 15:00");
    hand.pass(&[shelf], CoatKind::Topcoat);
    hand.goes_on("2026-11-25 17:00");
    hand
}

fn close(reason: Option<&str>) -> Action {
    Action::CloseDay {
        day: date("2026-11-25"),
        reason: reason.map(str::to_owned),
    }
}

#[test]
fn oily_rags_hold_the_day_until_they_are_logged() {
    let mut hand = oil_day();
    let said = hand.refused(&close(None));
    for word in [
        "Wed Nov 25 is not closed",
        "hardwax oil",
        "last 3:00 pm",
        "laid flat outdoors",
        "can of water",
        "by themselves",
        "NFPA",
        "reason",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
    assert_eq!(hand.end("2026-11-25").state(), DayState::Open);
    assert!(hand.shop().days.closed.is_empty(), "nothing was kept");
    let at = clock("2026-11-25 16:40");
    hand.done(&Action::TickChore {
        day: date("2026-11-25"),
        chore: Chore::OilyRags,
        way: Some(RagWay::WaterCan),
        at,
    });
    let done = hand.done(&close(None));
    assert_eq!(done.words, "Closed the day Wed Nov 25");
    let end = hand.end("2026-11-25");
    assert_eq!(end.state(), DayState::Closed);
    assert_eq!(end.closed.unwrap().reason, None);
    let again = hand.refused(&close(None));
    assert!(again.contains("Wed Nov 25 was closed 5:00 pm"), "{again}");
    hand.done(&Action::Undo);
    assert_eq!(hand.end("2026-11-25").state(), DayState::Open);
}

#[test]
fn closing_all_the_same_needs_the_reason_in_writing_and_keeps_it() {
    let mut hand = oil_day();
    for thin in ["", "  ", "ok", "norags", "x y"] {
        let said = hand.refused(&close(Some(thin)));
        assert!(said.contains("two words or more"), "{thin:?}: {said}");
    }
    let done = hand.done(&close(Some("brushed on, no rags used")));
    assert_eq!(
        done.words,
        "Closed the day Wed Nov 25 with oily rags not logged: brushed on, no rags used"
    );
    assert!(
        done.notes.iter().any(|note| note.contains("NFPA")),
        "{:?}",
        done.notes
    );
    let end = hand.end("2026-11-25");
    assert_eq!(end.state(), DayState::Closed);
    assert_eq!(
        end.closed.unwrap().reason.as_deref(),
        Some("brushed on, no rags used")
    );
}

#[test]
fn what_is_logged_for_the_day_after_it_was_closed_opens_it_again() {
    let mut hand = oil_day();
    let other = hand.piece("short shelf", OIL);
    hand.through_sanding(other);
    hand.done(&close(Some("rags at the site, in their can")));
    hand.goes_on("2026-11-26 08:00");
    let mut draft = hand.pass_draft(&[other], CoatKind::Topcoat);
    draft.started = clock("2026-11-25 18:00");
    draft.ended = clock("2026-11-25 18:30");
    hand.done(&Action::LogPass(draft));
    let end = hand.end("2026-11-25");
    assert_eq!(end.state(), DayState::OpenAgain);
    assert!(end.is_open());
    assert!(hand.refused(&close(None)).contains("is not closed"));
}

#[test]
fn a_day_without_oil_closes_and_says_what_was_not_ticked() {
    let mut hand = Hand::at("2026-11-25 09:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    let done = hand.done(&close(None));
    assert_eq!(done.words, "Closed the day Wed Nov 25; not ticked: sawdust");
    let ahead = Action::CloseDay {
        day: date("2026-11-26"),
        reason: None,
    };
    assert!(hand.refused(&ahead).contains("still to come"));
}

/// What a hand may do in the evening.
#[derive(Debug, Clone)]
enum Deed {
    Oil,
    Tick(i64),
    Close,
    Wait(i64),
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        Just(Deed::Oil),
        (0_i64..90).prop_map(Deed::Tick),
        Just(Deed::Close),
        (1_i64..60).prop_map(Deed::Wait),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Counted anew beside the program: a close without a reason goes through only if rags were
    /// logged as safe at or after the last oil.
    #[test]
    fn no_day_closes_silently_over_oily_rags(deeds in proptest::collection::vec(deed(), 1..14)) {
        let mut hand = Hand::at("2026-11-24 09:00");
        let mut pieces = Vec::new();
        let oils = deeds.iter().filter(|deed| matches!(deed, Deed::Oil)).count();
        for no in 0..oils {
            let piece = hand.piece(&format!("shelf {no}"), OIL);
            hand.through_sanding(piece);
            pieces.push(piece);
        }
        hand.goes_on("2026-11-25 10:00");
        let day = date("2026-11-25");
        let (mut oil, mut safe, mut closed) = (None, None, None);
        for deed in deeds {
            match deed {
                Deed::Wait(minutes) => hand.now += Duration::minutes(minutes),
                Deed::Oil => {
                    let Some(piece) = pieces.pop() else { continue };
                    oil = Some(hand.now);
                    hand.pass(&[piece], CoatKind::Topcoat);
                }
                Deed::Tick(ago) => {
                    let at = hand.now - Duration::minutes(ago);
                    let way = Some(RagWay::FlatOutdoors);
                    let action = Action::TickChore { day, chore: Chore::OilyRags, way, at };
                    let may = oil.is_some_and(|oil| at >= oil);
                    prop_assert_eq!(hand.try_to(&action).is_ok(), may);
                    if may {
                        safe = Some(at);
                    }
                }
                Deed::Close => {
                    let loose = oil.is_some_and(|oil| safe.is_none_or(|safe| safe < oil));
                    let stands = closed.is_some_and(|closed| !loose || oil < Some(closed));
                    let at = hand.now;
                    match hand.try_to(&Action::CloseDay { day, reason: None }) {
                        Ok(_) => {
                            prop_assert!(!loose && !stands);
                            closed = Some(at);
                        }
                        Err(DeskError::RagsOpen { .. }) => prop_assert!(loose && !stands),
                        Err(DeskError::DayIsClosed { .. }) => prop_assert!(stands),
                        Err(other) => prop_assert!(false, "{other:?}"),
                    }
                }
            }
        }
    }
}

#[test]
fn oily_rags_of_a_day_before_hold_the_next_day_too() {
    let mut hand = oil_day();
    hand.goes_on("2026-11-26 18:00");
    let next = |reason: Option<&str>| Action::CloseDay {
        day: date("2026-11-26"),
        reason: reason.map(str::to_owned),
    };
    // A reason for the one day is none for the other.
    for reason in [None, Some("nothing was oiled today")] {
        let said = hand.refused(&next(reason));
        for word in [
            "Thu Nov 26 is not closed",
            "from Wed Nov 25",
            "hardwax oil",
            "NFPA",
            "--day 2026-11-25",
        ] {
            assert!(said.contains(word), "{word}: {said}");
        }
    }
    assert!(hand.shop().days.closed.is_empty(), "nothing was kept");
    hand.done(&close(Some("brushed on, no rags used")));
    let done = hand.done(&next(None));
    assert_eq!(done.words, "Closed the day Thu Nov 26");
}
