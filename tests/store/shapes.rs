//! Every outline and every purpose of an opening is kept, undone and done again; and a store from
//! before they were there is brought up with its history.

use crate::shop::{Dumper, Trial, inches, light_folder, opening};
use rusqlite::{Connection, params};
use std::path::Path;
use tackfree::coating::id::Mint;
use tackfree::desk::{Action, Books, Scope, Which};
use tackfree::shape::{Outline, Purpose, Shape};
use tackfree::shop::{PieceId, ready_products, ready_recipes};
use tackfree::store::Store;

#[path = "shapes_made.rs"]
mod made;
use made::shapes;

#[test]
fn every_shape_is_kept_undone_and_done_again() {
    let folder = light_folder();
    let path = folder.path().join("shop");
    let mut trial = Trial::new(&path);
    let client = trial.add_client("Nell Harrow");
    let job = trial.add_job(client, "kitchen");
    let shapes = shapes();
    let draft = trial.piece_draft(job, "top", shapes[0].clone());
    let id = trial.add_piece(draft);
    let dumper = Dumper::new(&path);
    let mut states = vec![dumper.dump()];
    for shape in &shapes[1..] {
        let draft = trial.piece_draft(job, "top", shape.clone());
        trial.done(&Action::SavePiece(Which::This(id), draft));
        states.push(dumper.dump());
        let files = Store::open(&path).unwrap().pieces(Scope::One(id)).unwrap();
        assert_eq!(files[0].piece.shape, *shape);
    }
    for state in states.iter().rev().skip(1) {
        trial.done(&Action::Undo);
        assert_eq!(&dumper.dump(), state);
    }
    for state in &states[1..] {
        trial.done(&Action::Redo);
        assert_eq!(&dumper.dump(), state);
    }
}

const JOB: &str = "019a0000-0000-7000-8000-000000000001";
const CLIENT: &str = "019a0000-0000-7000-8000-000000000002";
const RECIPE: &str = "019a0000-0000-7000-8000-000000000003";
const PIECE: &str = "019a0000-0000-7000-8000-000000000004";

/// A store of the first layout, as the program of that time left it: a piece with a hole, added,
/// and then renamed, both in the journal with the images of that layout.
fn first_layout(path: &Path) {
    let conn = Connection::open(path).unwrap();
    conn.execute_batch(include_str!("../../src/store/migrations/001_start.sql"))
        .unwrap();
    conn.pragma_update(None, "application_id", 0x746b_6672)
        .unwrap();
    conn.pragma_update(None, "user_version", 1).unwrap();
    let mut mint = Mint::new(uuid::Uuid::nil(), 7);
    let products = ready_products(&mut mint, 0);
    let recipe = ready_recipes(&products, &mut mint, 0).remove(0);
    let schedule = serde_json::to_string(&recipe.schedule).unwrap();
    conn.execute(
        "INSERT INTO client VALUES (?1, 'Nell Harrow', '', '', '', '')",
        [CLIENT],
    )
    .unwrap();
    conn.execute(
        "INSERT INTO job VALUES (?1, 1, ?2, 'kitchen', '', NULL, NULL, '', '2026-01-05')",
        [JOB, CLIENT],
    )
    .unwrap();
    conn.execute(
        "INSERT INTO recipe VALUES (?1, 'wiped', ?2)",
        [RECIPE, &schedule],
    )
    .unwrap();
    conn.execute(
        "INSERT INTO piece VALUES (?1, ?2, 0, 'galley top', 'counter', 'hard maple', \
         'edge_grain', 'rectangle', 2498725000, 647700000, NULL, 38100000, 'eased', 3175000, \
         50800000, ?3, NULL, 'sanding', 0)",
        [PIECE, JOB, RECIPE],
    )
    .unwrap();
    conn.execute(
        "INSERT INTO opening VALUES (?1, 'hole', 1, 0, 1000000000, 500000000, NULL, NULL, NULL, \
         34925000)",
        [PIECE],
    )
    .unwrap();
    let image = |table: &str, key: &str| -> String {
        let columns: Vec<String> = conn
            .prepare("SELECT name FROM pragma_table_info(?1) ORDER BY cid")
            .unwrap()
            .query_map([table], |row| row.get(0))
            .unwrap()
            .collect::<Result<_, _>>()
            .unwrap();
        let pairs: Vec<String> = columns
            .iter()
            .map(|name| format!("'{name}', \"{name}\""))
            .collect();
        let sql = format!(
            "SELECT json_object({}) FROM {table} WHERE {key} = '{PIECE}'",
            pairs.join(", ")
        );
        conn.query_row(&sql, [], |row| row.get(0)).unwrap()
    };
    let keep = |no: i64, pos: i64, table: &str, key: &str, before: Option<&str>, after: &str| {
        conn.execute(
            "INSERT INTO image VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            params![no, pos, table, key, before, after],
        )
        .unwrap();
    };
    for (no, words) in [
        (1, "Added piece 1A top"),
        (2, "Changed piece 1A galley top"),
    ] {
        conn.execute(
            "INSERT INTO journal VALUES (?1, ?2, ?3, 'do', NULL, 0)",
            params![no, 1_790_000_000_000_i64 + no, words],
        )
        .unwrap();
    }
    let (piece, hole) = (image("piece", "id"), image("opening", "piece"));
    let first = piece.replace("galley top", "top");
    let key = format!("[\"{PIECE}\"]");
    keep(1, 1, "piece", &key, None, &first);
    keep(
        1,
        2,
        "opening",
        &format!("[\"{PIECE}\",\"hole\",1]"),
        None,
        &hole,
    );
    keep(2, 1, "piece", &key, Some(&first), &piece);
}

#[test]
fn a_store_from_before_is_brought_up_and_its_history_still_undoes() {
    let folder = light_folder();
    let path = folder.path().join("shop");
    first_layout(&path);
    let mut trial = Trial::over(Store::open(&path).expect("it is brought up"));
    trial.now = opening();
    let name = |trial: &Trial| -> Option<(String, Shape)> {
        let files = trial.store.pieces(Scope::All).unwrap();
        files
            .first()
            .map(|file| (file.piece.name.clone(), file.piece.shape.clone()))
    };
    let (named, shape) = name(&trial).expect("the piece is there");
    assert_eq!(named, "galley top");
    assert_eq!(
        shape.outline(),
        &Outline::Rectangle {
            length: inches(98, 3, 8),
            width: inches(25, 1, 2),
        }
    );
    assert_eq!(shape.openings()[0].purpose, Purpose::Plain);
    assert!(!shape.band_round_openings());

    // Something new on top of the old history.
    let files = trial.store.pieces(Scope::All).unwrap();
    let old = &files[0].piece;
    let mut draft = trial.piece_draft(old.job, "galley top", shapes()[4].clone());
    draft.recipe = old.recipe;
    let id: PieceId = old.id;
    trial.done(&Action::SavePiece(Which::This(id), draft));
    assert_eq!(name(&trial).unwrap().1, shapes()[4]);

    trial.done(&Action::Undo);
    assert_eq!(name(&trial).unwrap().1, shape);
    trial.done(&Action::Undo);
    assert_eq!(name(&trial).unwrap().0, "top");
    trial.done(&Action::Undo);
    assert_eq!(name(&trial), None);
    for _ in 0..3 {
        trial.done(&Action::Redo);
    }
    assert_eq!(
        name(&trial).unwrap(),
        ("galley top".to_owned(), shapes()[4].clone())
    );
    // And it opens again as it is.
    drop(trial);
    assert!(Store::open(&path).is_ok());
}
