//! Two programs on one store: one writes at a time, both see everything.

use crate::shop::{Trial, counter, dump};
use std::path::Path;
use std::sync::mpsc;
use std::time::Duration;
use tackfree::desk::{Action, Books, BooksError, ClientDraft, DeskError, Scope, Which};
use tackfree::store::Store;

fn second(path: &Path) -> Trial {
    Trial::over(Store::open(path).expect("the store opens twice"))
}

#[test]
fn each_sees_what_the_other_did() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let (mut one, mut two) = (Trial::new(&path), second(&path));
    let seen = two.store.version().expect("a number");
    assert_eq!(two.store.version(), Ok(seen));
    let client = one.add_client("Ada");
    let seen_now = two.store.version().expect("a number");
    assert_ne!(seen_now, seen);
    assert_eq!(two.store.clients().expect("read")[0].id, client);
    let own = one.store.version().expect("a number");
    let job = two.add_job(client, "kitchen");
    let draft = two.piece_draft(job, "counter", counter());
    two.add_piece(draft);
    assert_ne!(one.store.version(), Ok(own));
    assert_ne!(two.store.version(), Ok(seen_now));
    assert_eq!(one.store.pieces(Scope::Job(job)).expect("read").len(), 1);
    // Undo is the store's, not the program's.
    assert_eq!(
        one.done(&Action::Undo).words,
        "Undone: Added piece 1A counter"
    );
    assert_eq!(
        two.done(&Action::Redo).words,
        "Done again: Added piece 1A counter"
    );
    assert_eq!(one.store.check(), Ok(Vec::new()));
}

#[test]
fn what_the_other_undid_cannot_be_changed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let (mut one, mut two) = (Trial::new(&path), second(&path));
    let client = one.add_client("Ada");
    two.done(&Action::Undo);
    let draft = ClientDraft {
        name: "Ada B".to_owned(),
        ..ClientDraft::default()
    };
    let change = Action::SaveClient(Which::This(client), draft);
    let error = DeskError::Books(BooksError::Missing { what: "client" });
    assert_eq!(one.perform(&change), Err(error));
    assert_eq!(one.store.clients(), Ok(Vec::new()));
}

#[test]
fn nothing_is_seen_before_it_is_committed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let (mut one, two) = (Trial::new(&path), second(&path));
    let (before, seen) = (dump(&path), two.store.version());
    let settings = tackfree::shop::Settings::starting(chrono_tz::UTC);
    one.store.begin().expect("begun");
    one.store
        .put(tackfree::desk::Row::Settings(&settings))
        .expect("put");
    assert_eq!((dump(&path), two.store.version()), (before, seen));
    one.store
        .commit(one.now, "Saved the settings")
        .expect("committed");
    assert_eq!(two.store.settings(), Ok(Some(settings)));
}

#[test]
fn a_second_writer_waits_for_the_first() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut one = Trial::new(&path);
    one.store.begin().expect("begun");
    let settings = tackfree::shop::Settings::starting(chrono_tz::UTC);
    one.store
        .put(tackfree::desk::Row::Settings(&settings))
        .expect("put");
    let (tell, told) = mpsc::channel();
    let other = path.clone();
    let writer = std::thread::spawn(move || {
        let mut two = second(&other);
        // Long enough for any machine: the test ends when the first has committed.
        two.store
            .set_patience(Duration::from_secs(120))
            .expect("patience");
        tell.send(()).expect("the first is there");
        two.add_client("Bo");
    });
    told.recv().expect("the second is there");
    one.store
        .commit(one.now, "Saved the settings")
        .expect("committed");
    writer.join().expect("the second wrote");
    assert_eq!(one.store.clients().expect("read").len(), 1);
    assert_eq!(one.store.settings(), Ok(Some(settings)));
}

#[test]
fn a_writer_that_never_ends_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let (mut one, mut two) = (Trial::new(&path), second(&path));
    two.store.set_patience(Duration::ZERO).expect("patience");
    one.store.begin().expect("begun");
    let draft = ClientDraft {
        name: "Bo".to_owned(),
        ..ClientDraft::default()
    };
    let save = Action::SaveClient(Which::New, draft);
    assert_eq!(two.perform(&save), Err(DeskError::Books(BooksError::Busy)));
    assert_eq!(
        two.perform(&Action::Undo),
        Err(DeskError::Books(BooksError::Busy))
    );
    // Reading goes on meanwhile.
    assert_eq!(two.store.clients(), Ok(Vec::new()));
    one.store.rollback();
    two.done(&save);
}

#[test]
fn many_writers_lose_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut first = Trial::new(&path);
    let writers: Vec<_> = (0..4)
        .map(|no| {
            let path = path.clone();
            std::thread::spawn(move || {
                let mut trial = second(&path);
                trial
                    .store
                    .set_patience(Duration::from_secs(120))
                    .expect("patience");
                trial.mint = tackfree::coating::id::Mint::new(uuid::Uuid::nil(), 1000 + 2 * no);
                for n in 0..25 {
                    trial.add_client(&format!("Client {no} {n}"));
                }
            })
        })
        .collect();
    for writer in writers {
        writer.join().expect("a writer");
    }
    assert_eq!(first.store.clients().expect("read").len(), 100);
    let lines = first.store.journal(1000).expect("the journal");
    let numbers: Vec<i64> = lines.iter().rev().map(|line| line.no).collect();
    assert_eq!(numbers, (1..=101).collect::<Vec<_>>());
    for _ in 0..100 {
        first.done(&Action::Undo);
    }
    assert_eq!(first.store.clients(), Ok(Vec::new()));
    assert_eq!(first.store.check(), Ok(Vec::new()));
}

#[test]
fn several_may_open_a_new_store_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("deep").join("er").join("shop.store");
    let openers: Vec<_> = (0..8)
        .map(|_| {
            let path = path.clone();
            std::thread::spawn(move || Store::open(&path).map(|store| store.check()))
        })
        .collect();
    for opener in openers {
        assert_eq!(opener.join().expect("an opener"), Ok(Ok(Vec::new())));
    }
}

#[test]
fn a_shop_is_opened_once_though_two_open_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let (mut one, mut two) = (second(&path), second(&path));
    // Both have seen that it is empty.
    assert_eq!(one.store.settings(), Ok(None));
    assert_eq!(two.store.settings(), Ok(None));
    let settings = tackfree::shop::Settings::starting(crate::shop::ZONE);
    one.desk().furnish(&settings).expect("furnished");
    let (products, recipes) = (one.store.products(), one.store.recipes());
    one.add_client("Ada");
    two.desk().furnish(&settings).expect("nothing left to do");
    assert_eq!(two.store.products(), products);
    assert_eq!(two.store.recipes(), recipes);
    // What the first did meanwhile is no part of the beginning.
    assert_eq!(two.store.journal(9).expect("read").len(), 2);
    assert_eq!(two.done(&Action::Undo).words, "Undone: Added client Ada");
    let nothing = Err(DeskError::NothingToUndo);
    assert_eq!(two.perform(&Action::Undo), nothing);
}

#[test]
fn a_file_that_others_use_as_it_becomes_a_store_is_waited_for() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    // Another program holds the file in the old mode, in which SQLite does not wait for the switch.
    let other = rusqlite::Connection::open(&path).expect("opens");
    other
        .execute_batch("BEGIN IMMEDIATE")
        .expect("the file is held");
    let (tell, told) = mpsc::channel();
    let opener = std::thread::spawn(move || {
        tell.send(()).expect("the first is there");
        Store::open(&path).map(|store| store.layout())
    });
    told.recv().expect("the second is there");
    std::thread::sleep(Duration::from_millis(100));
    other.execute_batch("ROLLBACK").expect("let go");
    opener.join().expect("it ended").expect("it opened");
}
