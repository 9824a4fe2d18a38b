//! Stores that are not one, may not be written, do not fit on the disk or are damaged: each gets a
//! clear sentence, nothing is lost and nothing is half done.

#[path = "store/shop.rs"]
#[allow(dead_code, reason = "shared with the tests of good stores")]
mod shop;

#[path = "store/damage.rs"]
mod damage;

#[path = "store/kept.rs"]
mod kept;

use rusqlite::Connection;
use shop::{Trial, all_read, counter, dump};
use std::fs;
use std::path::Path;
use tackfree::desk::{Action, Books, BooksError, ClientDraft, DeskError, Which};
use tackfree::store::Store;

fn refused(path: &Path) -> BooksError {
    match Store::open(path) {
        Ok(_) => panic!("{} was opened", path.display()),
        Err(error) => error,
    }
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

fn client(name: &str) -> Action {
    let draft = ClientDraft {
        name: name.to_owned(),
        ..ClientDraft::default()
    };
    Action::SaveClient(Which::New, draft)
}

#[test]
fn a_file_that_is_no_database_is_left_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let long = "length,width\n98 3/8,25 1/2\n".repeat(1000);
    for (no, text) in ["x", "hello", "SQLite format 3", long.as_str()]
        .into_iter()
        .enumerate()
    {
        let path = folder.path().join(format!("list {no}.csv"));
        fs::write(&path, text).expect("written");
        assert_eq!(
            refused(&path),
            BooksError::NotAStore { path: shown(&path) },
            "{text:.20}"
        );
        assert_eq!(fs::read_to_string(&path).expect("still there"), text);
    }
    assert_eq!(
        fs::read_dir(folder.path()).expect("a folder").count(),
        4,
        "nothing beside them"
    );
}

#[test]
fn another_program_s_database_is_left_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, sql) in [
        ("a table", "CREATE TABLE client (id TEXT)"),
        ("an application", "PRAGMA application_id = 7"),
        ("a version", "PRAGMA user_version = 1"),
    ] {
        let path = folder.path().join(name);
        Connection::open(&path)
            .and_then(|conn| conn.execute_batch(sql))
            .expect("a database");
        let before = fs::read(&path).expect("a file");
        assert_eq!(
            refused(&path),
            BooksError::NotAStore { path: shown(&path) },
            "{name}"
        );
        assert_eq!(fs::read(&path).expect("a file"), before, "{name}");
    }
}

#[test]
fn an_empty_file_becomes_a_store() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("empty");
    fs::write(&path, "").expect("written");
    let store = Store::open(&path).expect("a store");
    assert_eq!(store.check(), Ok(Vec::new()));
}

#[test]
fn a_newer_layout_is_refused_untouched() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let trial = Trial::new(&path);
    let known = trial.store.layout();
    drop(trial);
    let conn = Connection::open(&path).expect("a connection");
    conn.pragma_update(None, "user_version", 77)
        .expect("a later layout");
    drop(conn);
    let before = fs::read(&path).expect("a file");
    assert_eq!(refused(&path), BooksError::Newer { found: 77, known });
    assert!(refused(&path).to_string().contains("newer tackfree"));
    assert_eq!(fs::read(&path).expect("a file"), before);
}

#[test]
fn a_folder_or_a_device_is_no_place_for_a_store() {
    let folder = tempfile::tempdir().expect("a folder");
    match refused(folder.path()) {
        BooksError::CannotOpen { path, detail } => {
            assert_eq!(path, shown(folder.path()));
            assert!(detail.contains("folder"), "{detail}");
        }
        other => panic!("{other:?}"),
    }
    let file = folder.path().join("file");
    fs::write(&file, "").expect("written");
    assert!(matches!(
        refused(&file.join("shop.store")),
        BooksError::CannotOpen { .. }
    ));
    assert!(matches!(
        refused(Path::new("")),
        BooksError::CannotOpen { .. }
    ));
    #[cfg(unix)]
    assert!(matches!(
        refused(Path::new("/dev/null")),
        BooksError::CannotOpen { .. }
    ));
}

#[test]
fn any_name_will_do() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in [
        "with space",
        "\u{d6}l & Wachs \u{6749}\u{677f}",
        ":memory:",
        "a?mode=ro#b%41",
        "file:x",
        "it's",
    ] {
        let path = folder.path().join(name).join(name);
        let mut trial = Trial::new(&path);
        trial.done(&client("Ada"));
        assert_eq!(trial.store.path(), path);
        drop(trial);
        assert!(path.is_file(), "{name}");
        let store = Store::open(&path).expect("again");
        assert_eq!(store.clients().expect("read").len(), 1, "{name}");
        drop(store);
        // The same through the way a read-only store is opened.
        close(&path, true);
        let store = Store::open(&path).expect("for reading");
        assert!(store.is_read_only());
        assert_eq!(store.clients().expect("read").len(), 1, "{name}");
        close(&path, false);
    }
}

/// Closes a file or folder to writing, or opens it again. Its mode is all that can be tested: the
/// superuser, as whom tests may run, may write in spite of it.
fn close(path: &Path, closed: bool) {
    let mut permissions = fs::metadata(path).expect("there").permissions();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = permissions.mode();
        permissions.set_mode(if closed { mode & !0o222 } else { mode | 0o200 });
    }
    #[cfg(not(unix))]
    permissions.set_readonly(closed);
    fs::set_permissions(path, permissions).expect("changed");
}

#[test]
fn a_read_only_store_can_be_read_and_says_so_at_the_first_write() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    trial.done(&client("Ada"));
    let whole = all_read(&trial.store).expect("read");
    drop(trial);
    for closed in [path.as_path(), folder.path()] {
        close(closed, true);
        let mut trial = Trial::over(Store::open(&path).expect("for reading"));
        assert!(trial.store.is_read_only());
        assert_eq!(all_read(&trial.store).expect("read"), whole);
        assert_eq!(
            trial.store.journal(1).expect("read")[0].words,
            "Added client Ada"
        );
        assert_eq!(trial.store.check(), Ok(Vec::new()));
        assert!(trial.store.version().is_ok());
        let error = BooksError::ReadOnly { path: shown(&path) };
        for action in [client("Bo"), Action::Undo, Action::Redo] {
            assert_eq!(trial.perform(&action), Err(DeskError::Books(error.clone())));
        }
        trial.store.rollback();
        assert_eq!(all_read(&trial.store).expect("read"), whole);
        let beside = fs::read_dir(folder.path()).expect("a folder").count();
        assert_eq!(beside, 1, "no file was made beside it");
        close(closed, false);
    }
    let mut trial = Trial::over(Store::open(&path).expect("for writing"));
    assert!(!trial.store.is_read_only());
    trial.done(&client("Bo"));
}

#[test]
fn a_read_only_store_shows_what_is_still_in_the_write_ahead_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    trial.done(&client("Ada"));
    close(&path, true);
    // The first is still open: its writes are not all in the main file yet.
    let reader = Store::open(&path).expect("for reading");
    assert!(reader.is_read_only());
    assert_eq!(reader.clients().expect("read").len(), 1);
    trial.done(&client("Bo"));
    assert_eq!(reader.clients().expect("read").len(), 2);
}

#[test]
fn no_store_can_be_made_where_nothing_may_be_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("new").join("shop.store");
    close(folder.path(), true);
    assert_eq!(
        refused(&path),
        BooksError::ReadOnly {
            path: shown(folder.path())
        }
    );
    close(folder.path(), false);
    assert!(!path.exists());
    // Nor made of an empty file that is closed.
    let path = folder.path().join("empty");
    fs::write(&path, "").expect("written");
    close(&path, true);
    assert_eq!(refused(&path), BooksError::ReadOnly { path: shown(&path) });
    close(&path, false);
}

#[cfg(unix)]
#[test]
fn a_new_store_is_its_maker_s_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop").join("shop.store");
    let mut trial = Trial::new(&path);
    trial.done(&client("Ada"));
    let mode = |path: &Path| fs::metadata(path).expect("there").permissions().mode() & 0o777;
    assert_eq!(mode(&folder.path().join("shop")), 0o700);
    for file in fs::read_dir(folder.path().join("shop")).expect("a folder") {
        let file = file.expect("a file").path();
        assert_eq!(mode(&file), 0o600, "{}", file.display());
    }
}

#[test]
fn a_full_disk_is_said_and_leaves_nothing_half_done() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let id = trial.add_client("Ada");
    let job = trial.add_job(id, "kitchen");
    // No page more than there are.
    trial.store.set_most_pages(1).expect("a limit");
    let mut written = 0;
    let mut before = dump(&path);
    let full = loop {
        let lines = trial.store.journal(usize::MAX).expect("read").len();
        let draft = trial.piece_draft(job, "counter", counter());
        match trial.perform(&Action::SavePiece(Which::New, draft)) {
            Ok(_) => {
                written += 1;
                before = dump(&path);
            }
            Err(error) => {
                assert_eq!(trial.store.journal(usize::MAX).expect("read").len(), lines);
                break error;
            }
        }
        assert!(written < 500, "the limit holds");
    };
    assert_eq!(full, DeskError::Books(BooksError::Full));
    assert!(full.to_string().contains("Free some space"));
    assert_eq!(dump(&path), before);
    assert_eq!(trial.store.check(), Ok(Vec::new()));
    // Again and again, in the same words; reading goes on.
    let draft = trial.piece_draft(job, "counter", counter());
    let save = Action::SavePiece(Which::New, draft);
    assert_eq!(trial.perform(&save), Err(full));
    assert_eq!(dump(&path), before);
    // With room again it goes on where it stood, in the same program.
    trial.store.set_most_pages(1_000_000).expect("a limit");
    trial.done(&save);
    trial.done(&Action::Undo);
    assert_eq!(dump(&path), before);
    drop(trial);
    let store = Store::open(&path).expect("again");
    assert_eq!(store.check(), Ok(Vec::new()));
}
