//! The whole shop as plain files: what is written comes back exactly, what the gates would refuse
//! is refused, and bad input is answered in words.

#[path = "files/bad_input.rs"]
mod bad_input;
#[path = "files/format_1.rs"]
mod format_1;
#[path = "files/ids.rs"]
mod ids;
#[path = "files/shapes.rs"]
mod shapes;
#[path = "files/support.rs"]
mod support;
#[path = "files/tampered.rs"]
mod tampered;

use proptest::prelude::*;
use support::{NOW, ZONE, bring_in, contents, demo_store, exported, mint, utc};
use tackfree::coating::LabelHours;
use tackfree::desk::{Action, Books, Desk, PieceDraft, Row, Scope, Shop, Which};
use tackfree::shape::{
    EdgeProfile, FaceKey, Opening, OpeningKind, Place, Purpose, Shape, ShapeDraft,
};
use tackfree::shop::{Grit, PieceId, Stage, TouchVerdict};
use tackfree::store::Store;
use tackfree::store::files::{
    BENCH_NAMES, CAN_NAMES, FilesError, LATER, MONEY_NAMES, NAMES, WOOD_NAMES, export,
};
use tackfree::units::{Length, LengthStyle, TemperatureStyle, VolumeStyle, clean_line, clean_text};

fn shop(store: &Store) -> Shop {
    Shop::read(store, Scope::All, ZONE).unwrap()
}

/// Out, in, and out again: the same bytes, and the same shop.
fn goes_round(store: &Store) {
    let first = exported(store);
    let (second, report) = bring_in(first.path()).unwrap();
    assert_eq!(shop(store), shop(&second));
    assert_eq!(contents(first.path()), contents(exported(&second).path()));
    assert_eq!(report.pieces, shop(store).files.len());
}

#[test]
fn the_demo_goes_round() {
    let store = demo_store();
    goes_round(&store);
    let folder = exported(&store);
    let mut names: Vec<String> = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    let later = WOOD_NAMES.into_iter().chain(LATER).chain(CAN_NAMES);
    let mut wanted: Vec<&str> = NAMES.into_iter().chain(later).collect();
    wanted.extend(BENCH_NAMES);
    wanted.extend(MONEY_NAMES);
    wanted.extend(["air.csv", "layout.toml"]);
    wanted.sort_unstable();
    assert_eq!(names, wanted);
}

#[test]
fn an_empty_store_goes_round() {
    let store = Store::in_memory().unwrap();
    let (second, report) = bring_in(exported(&store).path()).unwrap();
    assert_eq!(report.clients, 0);
    assert_eq!(
        contents(exported(&store).path()),
        contents(exported(&second).path())
    );
}

/// One piece with every sort of line that the demo lacks.
#[test]
fn every_sort_of_line_goes_round() {
    let mut store = demo_store();
    let mut mint = mint(&store);
    let (sample, recipe, job) = {
        let shop = shop(&store);
        let file = shop.find_piece("7C").unwrap();
        (file.piece.clone(), file.piece.recipe, file.piece.job)
    };
    let (id, at) = (sample.id, utc(NOW));
    let mut drafted = ShapeDraft::from(sample.shape.clone());
    drafted.openings.push(Opening {
        no: 1,
        place: Place {
            x: Length::from_mm(100),
            y: Length::from_mm(70),
        },
        what: OpeningKind::Hole {
            diameter: Length::from_nm(12_345_678),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    });
    let piece = |shape: Shape| PieceDraft {
        job,
        name: sample.name.clone(),
        kind: sample.kind,
        species: sample.species.clone(),
        construction: sample.construction,
        shape,
        recipe,
    };
    let tick = |faces: &[FaceKey], grit| Action::Tick {
        piece: id,
        faces: faces.to_vec(),
        grit: Grit(grit),
        at,
    };
    let actions = [
        tick(&[FaceKey::Top, FaceKey::Front], 80),
        tick(&[FaceKey::Top], 120),
        Action::Untick {
            piece: id,
            face: FaceKey::Top,
            grit: Grit(120),
            at,
        },
        Action::DeclareHidden {
            piece: id,
            face: FaceKey::Back,
            reason: "=glued there, \"so\"".into(),
        },
        Action::WithdrawHidden {
            piece: id,
            face: FaceKey::Back,
        },
        Action::SavePiece(Which::This(id), piece(Shape::try_from(drafted).unwrap())),
        tick(&[FaceKey::Hole(1)], 80),
        Action::SavePiece(Which::This(id), piece(sample.shape.clone())),
        Action::MoveBack(shop(&store).find_piece("3A").unwrap().piece.id),
        Action::MoveBack(shop(&store).find_piece("6A").unwrap().piece.id),
        Action::Touch {
            picks: vec![pick(&store, "2A")],
            verdict: TouchVerdict::StillSoft,
            at,
        },
    ];
    for action in &actions {
        let mut desk = Desk {
            books: &mut store,
            now: at,
            mint: &mut mint,
            zone: ZONE,
        };
        desk.perform(action).unwrap();
    }
    assert_eq!(
        shop(&store).find_piece("6A").unwrap().piece.stage,
        Stage::Topcoats
    );
    goes_round(&store);
}

fn pick(store: &Store, ticket: &str) -> tackfree::desk::FacePick {
    let piece: PieceId = shop(store).find_piece(ticket).unwrap().piece.id;
    tackfree::desk::FacePick { piece, faces: None }
}

#[test]
fn what_is_done_after_an_import_comes_after_what_was_imported() {
    let store = demo_store();
    let folder = exported(&store);
    let mut second = Store::in_memory().unwrap();
    // The machine that imports has a clock a month behind.
    let behind = utc(NOW) - chrono::Duration::days(30);
    let mut mint = mint(&second);
    let early = tackfree::store::files::import(
        &mut second,
        folder.path(),
        behind,
        &mut mint,
        ZONE,
        &LabelHours,
    );
    assert!(
        matches!(early, Err(FilesError::At { .. })),
        "work still to come is refused"
    );
    tackfree::store::files::import(
        &mut second,
        folder.path(),
        utc(NOW),
        &mut mint,
        ZONE,
        &LabelHours,
    )
    .unwrap();
    assert!(mint.next(behind.timestamp_millis()) > store.last_id().unwrap());
}

#[test]
fn the_journal_has_one_line_and_undo_takes_all_back() {
    let (mut second, report) = bring_in(exported(&demo_store()).path()).unwrap();
    let lines = second.journal(10).unwrap();
    assert_eq!(lines.len(), 1);
    assert_eq!(lines[0].words, report.words);
    second.undo(utc(NOW)).unwrap();
    assert!(second.clients().unwrap().is_empty() && second.products().unwrap().is_empty());
    second.redo(utc(NOW)).unwrap();
    assert_eq!(shop(&second), shop(&demo_store_like(&second)));
}

fn demo_store_like(store: &Store) -> Store {
    bring_in(exported(store).path()).unwrap().0
}

#[test]
fn a_folder_with_something_in_it_is_left_alone() {
    let store = demo_store();
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("mine.txt"), "keep").unwrap();
    let refused = export(&store, folder.path(), ZONE).unwrap_err();
    assert!(
        matches!(refused, FilesError::FolderTaken { .. }),
        "{refused}"
    );
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    let file = folder.path().join("mine.txt");
    assert!(matches!(
        export(&store, &file, ZONE),
        Err(FilesError::FolderTaken { .. })
    ));
    let nowhere = folder.path().join("a").join("b");
    assert!(matches!(
        export(&store, &nowhere, ZONE),
        Err(FilesError::CannotWrite { .. })
    ));
}

#[cfg(unix)]
#[test]
fn what_is_written_is_for_its_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = exported(&demo_store());
    let mode =
        |path: &std::path::Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(folder.path()), 0o700);
    for name in NAMES.into_iter().chain(WOOD_NAMES) {
        assert_eq!(mode(&folder.path().join(name)), 0o600, "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn any_names_and_any_styles_go_round(
        name in "[=+@'-]{0,2}.{1,20}", notes in "(?s).{0,60}", address in ".{0,30}",
        style in 0_usize..3, offset in 0_i64..500_000,
    ) {
        let mut store = demo_store();
        let mut shop = shop(&store);
        store.begin().unwrap();
        let client = &mut shop.clients[2];
        (client.name, client.notes) = (clean_line(&name).0, clean_text(&notes).0);
        client.address = clean_line(&address).0;
        if client.name.is_empty() {
            client.name = "'=1".to_owned();
        }
        store.put(Row::Client(client)).unwrap();
        let settings = &mut shop.settings;
        settings.length =
            [LengthStyle::Sixteenths, LengthStyle::ThirtySeconds, LengthStyle::Millimetres][style];
        settings.temperature = TemperatureStyle::Celsius;
        settings.volume = VolumeStyle::Millilitres;
        settings.shop_address = clean_line(&address).0;
        store.put(Row::Settings(settings)).unwrap();
        // A thickness off every tape: what is odd must come back as odd.
        let mut piece = shop.files[3].piece.clone();
        let mut draft = ShapeDraft::from(piece.shape.clone());
        draft.thickness = Length::from_nm(draft.thickness.nm() + offset);
        piece.shape = Shape::try_from(draft).unwrap();
        store.put(Row::Piece(&piece)).unwrap();
        store.commit(utc(NOW), "Changed").unwrap();
        goes_round(&store);
    }
}
