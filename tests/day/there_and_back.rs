//! For any line of any log: corrected and corrected back gives the same shop, and any time that is
//! let in leaves a log that the gates let in again.

use crate::hand::{Hand, ZONE, clock};
use chrono::Duration;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::Action;
use tackfree::shop::{CoatKind, ScuffMeans, What, together};
use tackfree::store::Store;
use tackfree::store::files::{export, import};

fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, std::fs::read(entry.path()).unwrap())
        })
        .collect()
}

fn exported(hand: &Hand) -> (tempfile::TempDir, BTreeMap<String, Vec<u8>>) {
    let folder = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir());
    let folder = folder.unwrap();
    export(&hand.store, &folder.path().join("shop"), ZONE).unwrap();
    let all = contents(&folder.path().join("shop"));
    (folder, all)
}

/// Two shelves through two coats, one pass over both, a wipe-down, moves, a touch test.
fn worked() -> Hand {
    let mut hand = Hand::at("2026-11-20 08:00");
    let a = hand.piece("long shelf", "hardwax oil on all sides");
    let b = hand.piece("short shelf", "hardwax oil on all sides");
    for (no, piece) in [a, b].into_iter().enumerate() {
        hand.goes_on(["2026-11-20 09:00", "2026-11-20 11:00"][no]);
        hand.sand(piece);
        hand.now += Duration::minutes(20);
        hand.wipe(piece);
        hand.now += Duration::minutes(10);
        hand.move_on(piece);
    }
    hand.goes_on("2026-11-21 09:00");
    hand.pass(&[a, b], CoatKind::Topcoat);
    hand.goes_on("2026-11-23 09:00");
    hand.scuffed_pass(&[a, b], ScuffMeans::Pad);
    hand.goes_on("2026-11-25 09:00");
    hand
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn there_and_back_is_where_it_was(piece in 0_usize..2, line in 0_usize..64, minutes in -4000_i64..4000) {
        let mut hand = worked();
        let (_first, before) = exported(&hand);
        let shop = hand.shop();
        let file = &shop.files[piece];
        let event = &file.events[line % file.events.len()];
        let (lines, was) = (together(file, event.id), event.at);
        let to = |at| Action::CorrectTime { piece: file.piece.id, lines: lines.clone(), at };
        let there = hand.try_to(&to(was + Duration::minutes(minutes)));
        let (folder, between) = exported(&hand);
        if there.is_err() {
            prop_assert_eq!(&between, &before, "a refusal changes nothing");
            return Ok(());
        }
        prop_assert_ne!(&between, &before);
        // A whole shop is let in again only if every log holds together.
        let mut second = Store::in_memory().unwrap();
        let mut mint = Mint::new(uuid::Uuid::nil(), 3);
        let folder = folder.path().join("shop");
        import(&mut second, &folder, hand.now, &mut mint, ZONE, &LabelHours).unwrap();
        hand.done(&to(was));
        prop_assert_eq!(exported(&hand).1, before);
    }

    /// Recounted from the raw log: whatever is let in, times rise along it on every face.
    #[test]
    fn on_every_face_times_rise_along_the_log(deeds in proptest::collection::vec((0_usize..2, 0_usize..64, -3000_i64..3000), 1..6)) {
        let mut hand = worked();
        for (piece, line, minutes) in deeds {
            let shop = hand.shop();
            let file = &shop.files[piece];
            let event = &file.events[line % file.events.len()];
            let at = event.at + Duration::minutes(minutes);
            let lines = together(file, event.id);
            let _ = hand.try_to(&Action::CorrectTime { piece: file.piece.id, lines, at });
        }
        let end = clock("2026-11-25 09:10");
        for file in &hand.shop().files {
            for face in &hand.ticket(file.piece.id).faces {
                let mut last = None;
                for event in &file.events {
                    let (from, on) = match &event.what {
                        What::Tick { face: on, .. } => (event.at, *on == face.key),
                        What::Wipe { faces } | What::Scuff { faces, .. } => {
                            (event.at, faces.contains(&face.key))
                        }
                        What::Coat { faces, started, .. } => {
                            (*started, faces.iter().any(|(on, _)| *on == face.key))
                        }
                        What::Moved { .. } => (event.at, true),
                        other => panic!("{other:?}"),
                    };
                    if !on {
                        continue;
                    }
                    // A move says nothing against work logged late, begun before it.
                    let is_move = matches!(event.what, What::Moved { .. });
                    prop_assert!(last.is_none_or(|last| last <= from), "{:?}", event.what);
                    prop_assert!(from <= event.at && event.at <= end);
                    if !is_move {
                        last = Some(event.at);
                    }
                }
            }
        }
    }
}
