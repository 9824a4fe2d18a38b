//! Promises: odds, what-ifs, pinning, and the share that was kept.

use crate::hand::{Hand, ZONE, date};
use crate::steps::shop;
use chrono::{Duration, NaiveDate};
use std::sync::atomic::AtomicBool;
use tackfree::desk::{Action, PromiseAnswer, PromiseAsk, promise};
use tackfree::shop::promise::WhatIf;
use tackfree::shop::{
    CoatKind, JobId, OddsBand, Promise, PromiseId, PromiseState, SetItem, shares,
};

fn ask(hand: &Hand, ask: PromiseAsk, what_if: bool) -> PromiseAnswer {
    promise(&shop(hand), hand.now, ask, what_if, &AtomicBool::new(false)).expect("an answer")
}

#[test]
fn odds_rise_and_the_same_shop_gives_the_same_answer() {
    let mut hand = Hand::at("2026-11-20 08:00");
    for name in ["one", "two", "three"] {
        hand.piece(name, "clear wiped film");
    }
    let job = PromiseAsk::Job(hand.job);
    let answer = ask(&hand, job, false);
    assert_eq!(answer, ask(&hand, job, false));
    let table = answer.odds.table();
    assert!(
        table.windows(2).all(|pair| pair[0].1 <= pair[1].1),
        "{table:?}"
    );
    assert_eq!(table.last().map(|(_, odds)| *odds), Some(1000));
    assert!(answer.even <= answer.nine);
    assert!(answer.odds.of(answer.nine) >= 900 && answer.odds.of(answer.even) >= 500);
    let day = |at: chrono::DateTime<chrono::Utc>| at.with_timezone(&ZONE).date_naive();
    assert!(answer.even_by <= answer.nine_by && day(answer.nine_by) == answer.nine);
    assert_eq!(answer.open_pieces, 3);
    // Another like it comes after what is there.
    let another = ask(&hand, PromiseAsk::AnotherLike(hand.job), false);
    assert!(
        another.nine >= answer.nine,
        "{:?} {:?}",
        another.nine,
        answer.nine
    );
    assert_eq!(another.open_pieces, 6);
}

#[test]
fn a_job_that_holds_or_is_done_has_no_date() {
    let hand = Hand::at("2026-11-20 08:00");
    let none = promise(
        &shop(&hand),
        hand.now,
        PromiseAsk::Job(hand.job),
        false,
        &AtomicBool::new(false),
    );
    assert_eq!(none, None);
}

#[test]
fn what_ifs_are_reckoned_not_guessed() {
    let mut hand = Hand::at("2026-11-20 08:00");
    hand.piece("one", "clear wiped film");
    let answer = ask(&hand, PromiseAsk::Job(hand.job), true);
    let of = |what| answer.what_ifs.iter().find(|one| one.what == what).copied();
    let fewer = of(WhatIf::FewerCoats).expect("four coats can be three");
    assert!(fewer.even <= answer.even, "{fewer:?} {answer:?}");
    assert!(of(WhatIf::Saturday).is_some());
    assert!(
        answer
            .what_ifs
            .iter()
            .any(|one| matches!(one.what, WhatIf::Recipe(_)))
    );
}

/// An earlier finish never makes a promise later by more than a day: the search may find another
/// order, and its tolerance is stated as that.
#[test]
fn an_earlier_finish_never_makes_a_promise_later_than_the_tolerance() {
    let tolerance = Duration::days(1);
    let answered = |minutes: i64| {
        let mut hand = Hand::at("2026-11-20 08:00");
        let a = hand.piece("one", "clear wiped film");
        hand.piece("two", "hardwax oil on all sides");
        hand.through_sanding(a);
        hand.now += Duration::minutes(40 + minutes);
        hand.pass(&[a], CoatKind::Seal);
        hand.goes_on("2026-11-20 14:00");
        ask(&hand, PromiseAsk::Job(hand.job), false)
    };
    let mut last: Option<PromiseAnswer> = None;
    for minutes in [240, 120, 30] {
        let answer = answered(minutes);
        if let Some(last) = &last {
            assert!(answer.nine <= last.nine + tolerance, "{answer:?} {last:?}");
            assert!(answer.even <= last.even + tolerance);
        }
        last = Some(answer);
    }
}

#[test]
fn a_pinned_promise_is_on_record_and_kept_when_the_last_piece_is_set() {
    let mut hand = Hand::at("2026-11-02 08:00");
    let piece = hand.piece("shelf", "hardwax oil on all sides");
    let answer = ask(&hand, PromiseAsk::Job(hand.job), false);
    let words = hand
        .done(&Action::PinPromise(answer.draft(answer.nine)))
        .words;
    assert!(words.starts_with("Promised job 1 kitchen for"), "{words}");
    let record = shop(&hand).plan.promises[0].clone();
    assert_eq!(
        (record.date, record.nine, record.even),
        (answer.nine, answer.nine, answer.even)
    );
    assert!(
        record.basis.contains("400 runs over 1 open piece"),
        "{}",
        record.basis
    );
    assert_eq!(record.state(None, date("2026-11-02")), PromiseState::Open);
    hand.through_sanding(piece);
    hand.now += Duration::hours(1);
    hand.pass(&[piece], CoatKind::Topcoat);
    for _ in 0..2 {
        hand.now += Duration::days(2);
        hand.scuffed_pass(&[piece], tackfree::shop::ScuffMeans::Pad);
    }
    hand.now += Duration::days(4);
    hand.move_on(piece);
    for item in SetItem::ALL {
        hand.done(&Action::SetList {
            piece,
            item,
            done: true,
        });
    }
    let set = shop(&hand).set_on(hand.job).expect("set");
    let kept = set <= record.date;
    let wants = if kept {
        PromiseState::Kept
    } else {
        PromiseState::Missed
    };
    assert_eq!(record.state(Some(set), set), wants);
    let share = tackfree::desk::promise_shares(&shop(&hand), hand.now);
    assert_eq!((share[0].decided, share[0].kept), (1, u32::from(kept)));
}

#[test]
fn shares_are_counted_by_the_odds_quoted() {
    let job = |no: u128| JobId(uuid::Uuid::from_u128(no));
    let day = |no: u32| NaiveDate::from_ymd_opt(2026, 11, no).unwrap();
    let promise = |no: u128, of: u128, odds: u16, on: u32| Promise {
        id: PromiseId(uuid::Uuid::from_u128(no)),
        job: job(of),
        at: crate::hand::clock("2026-11-01 09:00"),
        date: day(on),
        odds,
        even: day(on),
        nine: day(on),
        open_pieces: 1,
        basis: String::new(),
    };
    let all = [
        promise(1, 1, 930, 10), // kept
        promise(2, 2, 900, 10), // missed
        promise(3, 3, 520, 10), // kept
        promise(4, 4, 950, 28), // open
        promise(5, 5, 910, 5),  // made anew by the next
        promise(6, 5, 900, 12), // kept
    ];
    let set = |of: JobId| match of.0.as_u128() {
        1 => Some(day(10)),
        2 => Some(day(11)),
        3 => Some(day(2)),
        5 => Some(day(12)),
        _ => None,
    };
    let shares = shares(&all, set, day(20));
    let found: Vec<_> = shares
        .iter()
        .map(|share| (share.band, share.decided, share.kept))
        .collect();
    assert_eq!(found, [(OddsBand::Even, 1, 1), (OddsBand::NineInTen, 3, 2)]);
    assert!((shares[1].quoted - 2.73).abs() < 1e-9, "{shares:?}");
    assert!(
        shares[1].words().starts_with("at 9 in 10: 2 of 3 kept"),
        "{}",
        shares[1].words()
    );
}
