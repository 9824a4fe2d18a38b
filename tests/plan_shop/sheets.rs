//! The sheet made from tickets: held against the shop's own rules by a judge that knows nothing of
//! the planner.

use crate::hand::{Hand, ZONE, date};
use crate::steps::{sheet, shop};
use chrono::{DateTime, Duration, Utc};
use std::collections::HashMap;
use std::sync::atomic::AtomicBool;
use tackfree::coating::{DryingClock, Recoat, recoat_state};
use tackfree::desk::typed::SlotDraft;
use tackfree::desk::{Action, Shop, day_sheet, kept_of, late_jobs};
use tackfree::shape::FaceKey;
use tackfree::shop::day_sheet::{Because, Change, Line, Sheet, Why};
use tackfree::shop::{
    BenchBook, CoatKind, DaySpan, ScuffMeans, SlotMeans, StepCode, Ticket, open_times,
};

/// Judges a sheet by the tickets, the drying clock and the bench hours alone.
pub fn judge(shop: &Shop, sheet: &Sheet) {
    hands_and_hours(shop, sheet);
    dry(shop, sheet);
    dust(shop, sheet);
}

/// One pair of hands, at the bench, no pass cut off.
fn hands_and_hours(shop: &Shop, sheet: &Sheet) {
    let day = sheet.now.with_timezone(&ZONE).date_naive();
    let book = &shop.plan;
    let open = open_times(&book.bench.week, &book.slots, day, 400, shop.settings.zone);
    let mut until = sheet.now;
    for line in &sheet.lines {
        assert!(line.start >= until || line.under_way, "hands: {line:?}");
        until = line.end;
        let pinned = line.under_way || line.key.step == StepCode::WipeOff;
        for part in &line.parts {
            let at_bench = open
                .iter()
                .any(|open| open.from <= part.from && part.to <= open.to);
            assert!(at_bench || pinned, "bench hours: {line:?}");
        }
        let whole = line.parts.len() == 1 && line.parts[0].from == line.start;
        let may_part = matches!(line.key.step, StepCode::Sand(_));
        assert!(whole || may_part, "cut off: {line:?}");
    }
    let mut keys: Vec<_> = sheet.lines.iter().map(|line| line.key).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), sheet.lines.len(), "a step twice");
}

/// What lies last on each face, and since when.
type OnFaces =
    HashMap<(tackfree::shop::PieceId, FaceKey), (tackfree::coating::ProductId, DateTime<Utc>)>;

/// Every coat goes on a film that is dry by the safe clock then, and nothing is set uncured.
fn dry(shop: &Shop, sheet: &Sheet) {
    let clock = shop.clock();
    let mut on: OnFaces = HashMap::new();
    for file in &shop.files {
        for face in Ticket::of(file).faces {
            if let Some(coat) = face.last_coat().filter(|coat| coat.recoat_tested.is_none()) {
                on.insert((file.piece.id, face.key), (coat.product, coat.dries_from()));
            }
        }
    }
    for line in &sheet.lines {
        let piece = line.key.piece;
        let file = shop.file(piece).unwrap();
        for face in &line.faces {
            let Some((product, laid)) = on.get(&(piece, *face)).copied() else {
                continue;
            };
            let product = shop.product(product).unwrap();
            match line.key.step {
                StepCode::Coat(..) | StepCode::Scuff(..) => {
                    let state = recoat_state(&clock, product, laid, None, line.start);
                    let open = matches!(state, Recoat::Open { .. } | Recoat::Missed { .. });
                    assert!(
                        open,
                        "wet: {line:?} over {} of {laid}: {state:?}",
                        product.name
                    );
                    if matches!(state, Recoat::Missed { .. })
                        && matches!(line.key.step, StepCode::Coat(..))
                    {
                        let abraded = sheet.lines.iter().any(|other| {
                            other.key.piece == piece && other.abrades && other.end <= line.start
                        });
                        assert!(line.extra > 0 || abraded, "not abraded: {line:?}");
                    }
                }
                StepCode::Set if Ticket::of(file).stage != tackfree::shop::Stage::Set => {
                    let cured = clock.reached(product, laid, file.schedule.cure_before_set);
                    assert!(line.start >= cured, "uncured: {line:?} until {cured}");
                }
                _ => {}
            }
        }
        if let (StepCode::Coat(..), Some(product)) = (line.key.step, line.product) {
            for face in &line.faces {
                on.insert((piece, *face), (product, line.end));
            }
        }
    }
}

/// No dust is made while a coat in the shop is open to it, and none hangs when one is laid.
fn dust(shop: &Shop, sheet: &Sheet) {
    let clock = shop.clock();
    let bench = &shop.plan.bench;
    let settle = |line: &Line| match line.key.step {
        StepCode::Sand(_) => Some(bench.settle),
        StepCode::Scuff(..) if line.means != Some(ScuffMeans::BrownPaper) => {
            Some(bench.settle_scuff)
        }
        _ => None,
    };
    for wet in sheet
        .lines
        .iter()
        .filter(|line| matches!(line.key.step, StepCode::Coat(..)))
    {
        let product = shop.product(wet.product.unwrap()).unwrap();
        let label = &product.label;
        let both = label.touch.as_minutes() + label.tack_free.as_minutes();
        let span = tackfree::coating::Span::minutes(both / 2);
        let free = clock.reached(product, wet.end, span);
        for dusty in &sheet.lines {
            let Some(settle) = settle(dusty) else {
                continue;
            };
            let clean = dusty.end + Duration::minutes(settle.into());
            let apart = dusty.start >= free || wet.start >= clean;
            assert!(apart, "dust: {dusty:?} and {wet:?} (until {free})");
        }
    }
}

fn two_jobs() -> Hand {
    let mut hand = Hand::at("2026-11-20 08:00");
    for (name, recipe) in [
        ("counter", "clear wiped film"),
        ("vanity", "water-borne clear"),
        ("shelf", "hardwax oil on all sides"),
        ("bar", "gel stain under a wiped film"),
    ] {
        hand.piece(name, recipe);
    }
    hand
}

#[test]
fn a_sheet_keeps_every_rule_of_the_shop() {
    let mut hand = two_jobs();
    judge(&shop(&hand), &sheet(&hand));
    // Coats on the wood, dust in the air, a rack of two.
    let (a, b) = {
        let shop = shop(&hand);
        (shop.files[0].piece.id, shop.files[2].piece.id)
    };
    hand.through_sanding(b);
    hand.through_sanding(a);
    hand.now += Duration::hours(1);
    hand.pass(&[b], CoatKind::Topcoat);
    hand.now += Duration::minutes(15);
    hand.pass(&[a], CoatKind::Seal);
    hand.now += Duration::minutes(40);
    let book = BenchBook {
        rack: Some(2),
        ..BenchBook::default()
    };
    hand.done(&Action::SaveBench(Box::new(book)));
    let made = sheet(&hand);
    judge(&shop(&hand), &made);
    assert!(made.doubts.is_empty(), "{:?}", made.doubts);
}

#[test]
fn two_runs_give_the_same_sheet_and_a_thread_may_make_it() {
    fn may_travel<T: Send + 'static>(_: &T) {}
    let hand = two_jobs();
    let (shop, now) = (shop(&hand), hand.now);
    may_travel(&shop);
    let one = day_sheet(&shop, now, 300, &AtomicBool::new(false)).sheet;
    let shop = shop.clone();
    let beside =
        std::thread::spawn(move || day_sheet(&shop, now, 300, &AtomicBool::new(false)).sheet);
    assert_eq!(one, beside.join().unwrap());
}

#[test]
fn a_day_off_and_taken_time_are_kept_and_never_help() {
    let mut hand = Hand::at("2026-11-20 08:00");
    hand.piece("shelf", "hardwax oil on all sides");
    let before = sheet(&hand).jobs[0].end.unwrap();
    let slot = |day: &str, means| SlotDraft {
        day: date(day),
        means,
        what: "away".to_owned(),
    };
    let taken = DaySpan::new(9 * 60, 16 * 60).unwrap();
    hand.done(&Action::AddSlots(vec![
        slot("2026-11-23", SlotMeans::DayOff),
        slot("2026-11-20", SlotMeans::Taken(taken)),
    ]));
    let after = sheet(&hand);
    judge(&shop(&hand), &after);
    assert!(after.jobs[0].end.unwrap() >= before);
    assert!(after.lines.iter().all(|line| {
        line.parts
            .iter()
            .all(|part| part.from.with_timezone(&ZONE).date_naive() != date("2026-11-23"))
    }));
}

#[test]
fn weeks_in_which_clocks_change_are_right() {
    for start in ["2026-03-05 08:00", "2026-10-29 08:00"] {
        let mut hand = Hand::at(start);
        for recipe in ["clear wiped film", "hardwax oil on all sides"] {
            hand.piece("shelf", recipe);
        }
        let made = sheet(&hand);
        judge(&shop(&hand), &made);
        let span = made.lines.last().unwrap().end - made.lines[0].start;
        assert!(span > Duration::days(5), "{start}: over the change");
        for line in &made.lines {
            let local = line.start.with_timezone(&ZONE).format("%H:%M").to_string();
            assert!(
                ("08:00".."17:00").contains(&local.as_str()),
                "{start}: {local}"
            );
        }
    }
}

#[test]
fn each_line_says_why() {
    let mut hand = Hand::at("2026-11-20 08:00");
    let piece = hand.piece("shelf", "clear wiped film");
    hand.through_sanding(piece);
    hand.now += Duration::hours(1);
    hand.pass(&[piece], CoatKind::Seal);
    let made = sheet(&hand);
    let first = &made.lines[0];
    // Alone in the shop it waits for its seal coat, and nothing else is to be done meanwhile.
    assert!(
        first
            .why
            .iter()
            .any(|why| matches!(why, Why::Dry(at) if *at == first.start)),
        "{first:?}"
    );
    // Abrading is in a line where its window will have shut by then, and nowhere else.
    for line in &made.lines {
        if let Some(shuts) = line.shuts {
            assert_eq!(line.extra > 0, line.start > shuts, "{line:?}");
        }
    }
    let said = |why: fn(&Why) -> bool| made.lines.iter().any(|line| line.why.iter().any(why));
    assert!(said(|why| matches!(why, Why::Shuts(_))));
    assert!(said(|why| matches!(
        why,
        Why::NothingElse(_) | Why::WouldBeCut
    )));
    assert_eq!(made.lines.last().unwrap().why.last(), Some(&Why::LastOfAll));
}

#[test]
fn a_late_job_is_said_to_be_late_by_how_much_because_of_what_and_cures_are_true() {
    let mut hand = two_jobs();
    let other = {
        let shop = shop(&hand);
        shop.jobs[0].clone()
    };
    // Promised for the day after tomorrow: nothing dries that fast.
    let promise = |hand: &mut Hand, day: &str| {
        let draft = tackfree::desk::JobDraft {
            client: other.client,
            title: other.title.clone(),
            site: other.site.clone(),
            house_built: None,
            promised: Some(date(day)),
            notes: String::new(),
        };
        hand.done(&Action::SaveJob(
            tackfree::desk::Which::This(other.id),
            draft,
        ));
    };
    promise(&mut hand, "2026-11-22");
    let stop = AtomicBool::new(false);
    let (read, now) = (shop(&hand), hand.now);
    let made = day_sheet(&read, now, 200, &stop);
    let late = late_jobs(&read, now, &made, 200, &stop);
    assert_eq!(late.len(), 1);
    assert_eq!(Some(late[0].late), made.sheet.jobs[0].late());
    assert!(
        matches!(late[0].because, Some(Because::Itself { .. })),
        "{late:?}"
    );
    let Some(own) = late[0].cures.last() else {
        panic!("{late:?}")
    };
    let Change::OwnPromise(day) = own.change else {
        panic!("{own:?}")
    };
    // The last cure named is true: promised for that day it is in time.
    promise(&mut hand, &day.to_string());
    assert_eq!(sheet(&hand).jobs[0].late(), None);
    // And so are added hours.
    for cure in &late[0].cures {
        if let Change::Hours(day, span) = cure.change {
            let mut hand = two_jobs();
            promise(&mut hand, "2026-11-22");
            let means = SlotMeans::Added(span);
            let what = String::new();
            hand.done(&Action::AddSlots(vec![SlotDraft { day, means, what }]));
            assert!(sheet(&hand).jobs[0].end < made.sheet.jobs[0].end);
        }
    }
}

#[test]
fn the_kept_order_of_the_day_stays_when_a_step_ran_late() {
    let mut hand = two_jobs();
    let first = sheet(&hand);
    hand.done(&Action::KeepSheet(Box::new(kept_of(&first, ZONE))));
    let line = first.lines[0].clone();
    let at = hand.now;
    hand.done(&Action::StartStep { key: line.key, at });
    hand.now = line.end + Duration::minutes(25);
    let at = hand.now;
    hand.done(&Action::FinishStep(tackfree::desk::StepEnd {
        at,
        amount: tackfree::desk::AmountDraft::Estimate,
        drawn: tackfree::desk::DrawnDraft::default(),
        verdict: None,
    }));
    let again = sheet(&hand);
    assert!(again.kept_order);
    judge(&shop(&hand), &again);
    let today = |sheet: &Sheet| -> Vec<_> {
        let day = date("2026-11-20");
        let of_day = |line: &&Line| line.start.with_timezone(&ZONE).date_naive() == day;
        sheet
            .lines
            .iter()
            .filter(of_day)
            .map(|line| line.key)
            .collect()
    };
    let (was, is) = (today(&first), today(&again));
    let rest: Vec<_> = was
        .iter()
        .skip(1)
        .filter(|key| is.contains(key))
        .copied()
        .collect();
    let kept: Vec<_> = is.iter().filter(|key| was.contains(key)).copied().collect();
    assert_eq!(kept, rest, "the rest of the day is left in order");
    // A done step is on no sheet any more.
    assert!(!is.contains(&line.key));
}
