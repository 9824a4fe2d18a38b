//! Files that were damaged, or changed behind the store's back.

use crate::shop::{Trial, all_read, counter, dump};
use rusqlite::Connection;
use std::fs;
use std::path::Path;
use tackfree::desk::{Action, BooksError, DeskError};
use tackfree::store::Store;

/// Changes rows behind the store's back, as a damaged or doctored file would have them.
fn doctored(path: &Path, sql: &str) -> BooksError {
    let conn = Connection::open(path).expect("a connection");
    conn.execute_batch(&format!(
        "UPDATE pen SET journal = 1; {sql}; UPDATE pen SET journal = NULL"
    ))
    .expect("doctored");
    drop(conn);
    let store = Store::open(path).expect("it opens");
    all_read(&store).expect_err("it does not read")
}

#[test]
fn a_row_that_cannot_be_is_named() {
    let folder = tempfile::tempdir().expect("a folder");
    for (no, sql) in [
        "UPDATE opening SET x_nm = -5",
        "UPDATE piece SET thickness_nm = 0",
        "UPDATE piece SET schedule = '{}'",
        "UPDATE piece SET kind = 'boat'",
        "UPDATE job SET taken = 'soon'",
        "UPDATE product SET label = '[]'",
        "UPDATE event_face SET face = 'hole-0x'",
        "UPDATE event SET at_ms = 9223372036854775807",
        "DELETE FROM event_face",
        "UPDATE setting SET zone = 'Nowhere/Else'",
    ]
    .into_iter()
    .enumerate()
    {
        let path = folder.path().join(format!("{no}.store"));
        let mut trial = Trial::new(&path);
        let id = trial.add_client("Ada");
        let job = trial.add_job(id, "kitchen");
        let draft = trial.piece_draft(job, "counter", counter());
        let piece = trial.add_piece(draft);
        let faces = vec![tackfree::shape::FaceKey::Top];
        let (grit, at) = (tackfree::shop::Grit(80), trial.now);
        trial.done(&Action::Tick {
            piece,
            faces,
            grit,
            at,
        });
        drop(trial);
        match doctored(&path, sql) {
            BooksError::Damaged { detail } => {
                let mut words = detail.split(|c: char| !c.is_ascii_hexdigit() && c != '-');
                let named = words.any(|word| uuid::Uuid::parse_str(word).is_ok());
                // The settings are one row without an identifier.
                assert!(named || sql.contains("setting"), "{sql}: {detail}");
            }
            other => panic!("{sql}: {other:?}"),
        }
    }
}

#[test]
fn garbage_in_the_middle_of_the_file_is_damage() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    drop(Trial::new(&path));
    let whole = fs::read(&path).expect("a file");
    assert!(whole.len() > 3 * 4096);
    let mut bytes = whole.clone();
    bytes[4096..].fill(0x5a);
    fs::write(&path, &bytes).expect("written");
    let error = match Store::open(&path) {
        Ok(store) => all_read(&store).expect_err("it does not read"),
        Err(error) => error,
    };
    assert!(matches!(error, BooksError::Damaged { .. }), "{error:?}");
    // Cut short.
    fs::write(&path, &whole[..2 * 4096]).expect("written");
    let error = match Store::open(&path) {
        Ok(store) => all_read(&store).expect_err("it does not read"),
        Err(error) => error,
    };
    assert!(matches!(error, BooksError::Damaged { .. }), "{error:?}");
}

#[test]
fn a_row_changed_past_the_journal_is_not_overwritten_by_undo() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    trial.add_client("Ada");
    let conn = Connection::open(&path).expect("a connection");
    conn.execute_batch(
        "UPDATE pen SET journal = 1; UPDATE client SET name = 'Eve'; UPDATE pen SET journal = NULL",
    )
    .expect("doctored");
    let before = dump(&path);
    let error = trial
        .perform(&Action::Undo)
        .expect_err("not as it was left");
    assert!(
        matches!(error, DeskError::Books(BooksError::Other { .. })),
        "{error:?}"
    );
    assert_eq!(dump(&path), before);
}

#[test]
fn no_write_slips_past_the_journal() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    drop(Trial::new(&path));
    let conn = Connection::open(&path).expect("a connection");
    for sql in ["DELETE FROM recipe", "UPDATE setting SET shop_name = 'x'"] {
        assert!(conn.execute_batch(sql).is_err(), "{sql}");
    }
}

#[test]
fn triggers_that_were_dropped_come_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    trial.add_client("Ada");
    drop(trial);
    let conn = Connection::open(&path).expect("a connection");
    conn.execute_batch("DROP TRIGGER image_of_client_insert")
        .expect("dropped");
    drop(conn);
    let before = dump(&path);
    let mut trial = Trial::over(Store::open(&path).expect("again"));
    trial.add_client("Bo");
    trial.done(&Action::Undo);
    assert_eq!(dump(&path), before);
}
