//! What is kept about the planning of days: read back as written, undone to nothing, and the same
//! after an export and an import.

use crate::hand::{Hand, ZONE, date};
use crate::steps::{sheet, shop};
use chrono::Weekday;
use std::collections::BTreeMap;
use std::path::Path;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::typed::SlotDraft;
use tackfree::desk::{Action, DeskError, PromiseDraft, kept_of};
use tackfree::shop::{BenchBook, DaySpan, PlanBook, Range, SlotMeans, Step, StepCode, StepTime};
use tackfree::store::Store;
use tackfree::store::files::{BENCH_NAMES, export, import};

fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let entry = entry.unwrap();
            let name = entry.file_name().into_string().unwrap();
            (name, std::fs::read(entry.path()).unwrap())
        })
        .collect()
}

fn span(from: u16, to: u16) -> DaySpan {
    DaySpan::new(from * 60, to * 60).unwrap()
}

/// A shop with something of everything on record.
fn full() -> Hand {
    let mut hand = Hand::at("2026-11-20 08:00");
    hand.piece("shelf", "hardwax oil on all sides");
    let mut book = BenchBook {
        rack: Some(6),
        settle: 45,
        seed: 99,
        ..BenchBook::default()
    };
    book.week = book.week.with(Weekday::Sat, vec![span(8, 12)]).unwrap();
    let time = StepTime {
        fixed: Range::of_minutes(4.0, 5.5, 9.0),
        rate: Range::of_sq_ft(0.3, 0.5, 0.9),
    };
    book.times.set(Step::Coat, time).unwrap();
    hand.done(&Action::SaveBench(Box::new(book)));
    let slots = [
        (
            "2026-11-24",
            SlotMeans::Taken(span(14, 15)),
            "measure \"Miller\"",
        ),
        ("2026-11-26", SlotMeans::DayOff, ""),
        ("2026-11-25", SlotMeans::Added(span(18, 20)), "evening"),
    ];
    let drafts = slots.map(|(day, means, what)| SlotDraft {
        day: date(day),
        means,
        what: what.to_owned(),
    });
    hand.done(&Action::AddSlots(drafts.to_vec()));
    let made = sheet(&hand);
    hand.done(&Action::KeepSheet(Box::new(kept_of(&made, ZONE))));
    let (key, at) = (made.lines[0].key, hand.now);
    hand.done(&Action::StartStep { key, at });
    let job = hand.job;
    hand.done(&Action::PinPromise(PromiseDraft {
        job,
        date: date("2026-12-04"),
        odds: 912,
        even: date("2026-12-02"),
        nine: date("2026-12-04"),
        open_pieces: 1,
        basis: "400 runs".to_owned(),
    }));
    hand
}

#[test]
fn what_was_written_is_read_back_and_undone_to_nothing() {
    let mut hand = full();
    let plan = shop(&hand).plan;
    assert_eq!(plan.bench.rack, Some(6));
    assert_eq!(plan.bench.times.own().count(), 1);
    let days: Vec<String> = plan.slots.iter().map(|slot| slot.day.to_string()).collect();
    assert_eq!(days, ["2026-11-24", "2026-11-25", "2026-11-26"]);
    assert!(plan.kept.as_ref().is_some_and(|kept| kept.lines.len() > 8));
    assert!(matches!(
        plan.under_way.unwrap().key.step,
        StepCode::Sand(_)
    ));
    assert_eq!(plan.promises[0].odds, 912);
    assert_eq!(shop(&hand).jobs[0].promised, Some(date("2026-12-04")));
    for _ in 0..5 {
        hand.done(&Action::Undo);
    }
    assert_eq!(shop(&hand).plan, PlanBook::default());
    assert_eq!(shop(&hand).jobs[0].promised, None);
    for _ in 0..5 {
        hand.done(&Action::Redo);
    }
    assert_eq!(shop(&hand).plan, plan);
}

#[test]
fn files_carry_it_there_and_back() {
    let hand = full();
    let folder = tempfile::tempdir().unwrap();
    let first = folder.path().join("first");
    export(&hand.store, &first, ZONE).unwrap();
    let mut store = Store::in_memory().unwrap();
    let mut mint = Mint::new(uuid::Uuid::nil(), 9);
    import(&mut store, &first, hand.now, &mut mint, ZONE, &LabelHours).unwrap();
    let there = tackfree::desk::Shop::read(&store, tackfree::desk::Scope::All, ZONE).unwrap();
    assert_eq!(there.plan, shop(&hand).plan);
    let second = folder.path().join("second");
    export(&store, &second, ZONE).unwrap();
    assert_eq!(contents(&first), contents(&second));
    assert!(contents(&first).contains_key(BENCH_NAMES[0]));
    // A shop with nothing to say about it writes no such file.
    let plain = Hand::at("2026-11-20 08:00");
    let third = folder.path().join("third");
    export(&plain.store, &third, ZONE).unwrap();
    assert!(!contents(&third).contains_key(BENCH_NAMES[0]));
}

#[test]
fn a_bad_file_is_refused_with_its_place() {
    let hand = full();
    let folder = tempfile::tempdir().unwrap();
    let good = folder.path().join("good");
    export(&hand.store, &good, ZONE).unwrap();
    let text = std::fs::read_to_string(good.join(BENCH_NAMES[0])).unwrap();
    for (had, has, part) in [
        ("rack = 6", "rack = 0", "at least one place"),
        (
            "means = \"taken\"",
            "means = \"perhaps\"",
            "day-off, taken or added",
        ),
        ("14:00-15:00", "14:00-13:00 x", "bench hours"),
        ("odds = 912", "odds = 1912", "up to 1000"),
        ("step = \"coat\"", "step = \"varnish\"", "no kind of step"),
        ("step = \"sand-", "step = \"polish-", "no step"),
    ] {
        assert!(text.contains(had), "{had}: {text}");
        std::fs::write(good.join(BENCH_NAMES[0]), text.replacen(had, has, 1)).unwrap();
        let mut store = Store::in_memory().unwrap();
        let mut mint = Mint::new(uuid::Uuid::nil(), 9);
        let error = import(&mut store, &good, hand.now, &mut mint, ZONE, &LabelHours).unwrap_err();
        let said = error.to_string();
        assert!(
            said.contains("bench.toml") && said.contains(part),
            "{has}: {said}"
        );
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut hand = full();
    let slot = |day: &str, means, what: &str| SlotDraft {
        day: date(day),
        means,
        what: what.to_owned(),
    };
    let again = vec![slot("2026-11-26", SlotMeans::DayOff, "")];
    assert!(matches!(
        hand.try_to(&Action::AddSlots(again)),
        Err(DeskError::SlotThere(_))
    ));
    let past = vec![slot("2026-11-19", SlotMeans::DayOff, "")];
    assert!(matches!(
        hand.try_to(&Action::AddSlots(past)),
        Err(DeskError::SlotPast(_))
    ));
    assert!(
        hand.refused(&Action::AddSlots(Vec::new()))
            .contains("Fri away")
    );
    let book = BenchBook {
        rack: Some(0),
        ..BenchBook::default()
    };
    assert!(
        hand.refused(&Action::SaveBench(Box::new(book)))
            .contains("at least one place")
    );
    let id = shop(&hand).plan.slots[0].id;
    let said = hand.done(&Action::RemoveSlot(id)).words;
    assert!(said.contains("measure \"Miller\""), "{said}");
    assert_eq!(shop(&hand).plan.slots.len(), 2);
}
