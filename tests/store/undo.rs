//! Undo and redo bring every table back to the byte, on disk, also after a restart.

use crate::shop::{Dumper, Trial, all_read, counter, dump, light_folder, opening};
use crate::work::{Wish, action, next, only, wish};
use proptest::prelude::*;
use std::path::Path;
use tackfree::desk::{Action, Books, DeskError};
use tackfree::store::Store;

/// The states a store went through, and where it stands now: what undo and redo must walk along.
struct Past {
    states: Vec<String>,
    at: usize,
}

impl Past {
    fn did(&mut self, state: String) {
        // An action that changed nothing is none: it neither can be undone nor stops a redo.
        if state != self.states[self.at] {
            self.states.truncate(self.at + 1);
            self.states.push(state);
            self.at += 1;
        }
    }

    fn now(&self) -> &str {
        &self.states[self.at]
    }
}

fn open(path: &Path) -> Store {
    Store::open(path).expect("the store opens")
}

/// Undoes all there is and does all of it again, looking at every state on the way.
fn there_and_back(trial: &mut Trial, dumper: &Dumper, past: &mut Past) {
    let top = past.at;
    loop {
        match trial.perform(&Action::Undo) {
            Ok(_) => past.at -= 1,
            Err(error) => {
                assert_eq!(error, DeskError::NothingToUndo);
                break;
            }
        }
        assert_eq!(dumper.dump(), past.now(), "after undoing to {}", past.at);
    }
    assert_eq!(past.at, 0);
    while past.at + 1 < past.states.len() {
        trial.done(&Action::Redo);
        past.at += 1;
        assert_eq!(
            dumper.dump(),
            past.now(),
            "after doing again up to {}",
            past.at
        );
    }
    assert_eq!(trial.perform(&Action::Redo), Err(DeskError::NothingToRedo));
    while past.at > top {
        trial.done(&Action::Undo);
        past.at -= 1;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_history_can_be_walked_back_and_forth(wishes in prop::collection::vec((wish(), 1_i64..9), 60)) {
        let folder = light_folder();
        let path = folder.path().join("shop.store");
        // The furnished shop is where every history begins: it is not undone.
        let mut trial = Trial::new(&path);
        let dumper = Dumper::new(&path);
        let mut past = Past { states: vec![dumper.dump()], at: 0 };
        let client = trial.add_client("Ada");
        past.did(dumper.dump());
        let job = trial.add_job(client, "kitchen");
        past.did(dumper.dump());
        for shape in [counter(), crate::shop::table(30)] {
            let mut draft = trial.piece_draft(job, "top", shape);
            draft.recipe = trial.recipe((past.at + 1) % 4);
            trial.add_piece(draft);
            past.did(dumper.dump());
        }
        for (wish, hours) in wishes {
            trial.wait(hours * 9 * 60);
            if let Wish::Reopen = wish {
                let before = all_read(&trial.store).expect("read");
                let (now, mint) = (trial.now, trial.mint.clone());
                drop(trial);
                trial = Trial { store: open(&path), now, mint };
                prop_assert_eq!(all_read(&trial.store).expect("read"), before);
            }
            let Some(action) = action(&trial, wish) else { continue };
            let result = trial.perform(&action);
            let state = dumper.dump();
            match (&action, result) {
                (Action::Undo, Ok(_)) => past.at -= 1,
                (Action::Redo, Ok(_)) => past.at += 1,
                (Action::Undo, Err(error)) => {
                    prop_assert_eq!((error, past.at), (DeskError::NothingToUndo, 0));
                }
                (Action::Redo, Err(error)) => {
                    let top = past.states.len() - 1;
                    prop_assert_eq!((error, past.at), (DeskError::NothingToRedo, top));
                }
                (_, Ok(_)) => past.did(state.clone()),
                (_, Err(DeskError::Books(error))) if !matches!(
                    error, tackfree::desk::BooksError::Missing { .. }
                ) => return Err(TestCaseError::fail(format!("{action:?}: {error}"))),
                (_, Err(_)) => {}
            }
            prop_assert_eq!(&state, past.now(), "after {:?}", action);
        }
        there_and_back(&mut trial, &dumper, &mut past);
        prop_assert_eq!(trial.store.check(), Ok(Vec::new()));
    }
}

#[test]
fn a_whole_piece_is_finished_undone_and_done_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let dumper = Dumper::new(&path);
    let mut past = Past {
        states: vec![dumper.dump()],
        at: 0,
    };
    let client = trial.add_client("Ada");
    past.did(dumper.dump());
    let job = trial.add_job(client, "kitchen");
    past.did(dumper.dump());
    let mut draft = trial.piece_draft(job, "counter", counter());
    draft.recipe = trial.recipe(1);
    trial.add_piece(draft);
    past.did(dumper.dump());
    for _ in 0..60 {
        if only(&trial).piece.finished {
            break;
        }
        trial.wait(3 * 24 * 60);
        let action = next(&trial, &only(&trial));
        trial.done(&action);
        past.did(dumper.dump());
    }
    let file = only(&trial);
    assert!(file.piece.finished, "{:?}", file.events.last());
    assert_eq!(past.at + 1, past.states.len());
    let whole = all_read(&trial.store).expect("read");
    there_and_back(&mut trial, &dumper, &mut past);
    assert_eq!(all_read(&trial.store).expect("read"), whole);
    assert_eq!(trial.store.check(), Ok(Vec::new()));
}

fn words(store: &Store) -> Vec<(String, bool)> {
    let lines = store.journal(100).expect("the journal");
    lines
        .into_iter()
        .rev()
        .skip(1)
        .map(|line| (line.words, line.undone))
        .collect()
}

#[test]
fn the_journal_says_what_was_done_undone_and_done_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    trial.add_client("Ada");
    trial.add_client("Bo");
    trial.wait(5);
    assert_eq!(trial.done(&Action::Undo).words, "Undone: Added client Bo");
    assert_eq!(trial.done(&Action::Undo).words, "Undone: Added client Ada");
    drop(trial);
    // A restart in between changes nothing.
    let mut trial = Trial::over(open(&path));
    assert_eq!(
        trial.done(&Action::Redo).words,
        "Done again: Added client Ada"
    );
    let line = |words: &str, undone| (words.to_owned(), undone);
    let mut expected = vec![
        line("Added client Ada", false),
        line("Added client Bo", true),
        line("Undone: Added client Bo", false),
        line("Undone: Added client Ada", false),
        line("Done again: Added client Ada", false),
    ];
    assert_eq!(words(&trial.store), expected);
    // Something new: Bo is left behind for good.
    trial.add_client("Cy");
    assert_eq!(trial.perform(&Action::Redo), Err(DeskError::NothingToRedo));
    expected.push(line("Added client Cy", false));
    assert_eq!(words(&trial.store), expected);
    assert_eq!(trial.done(&Action::Undo).words, "Undone: Added client Cy");
    assert_eq!(trial.done(&Action::Undo).words, "Undone: Added client Ada");
    assert_eq!(
        trial.done(&Action::Redo).words,
        "Done again: Added client Ada"
    );
    assert_eq!(
        trial.done(&Action::Redo).words,
        "Done again: Added client Cy"
    );
    assert_eq!(trial.perform(&Action::Redo), Err(DeskError::NothingToRedo));
    let newest = trial.store.journal(2).expect("two lines");
    assert_eq!((newest.len(), newest[0].no), (2, newest[1].no + 1));
    assert_eq!(newest[0].at, opening());
}

#[test]
fn what_changes_nothing_leaves_no_line_and_stops_no_redo() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let settings = trial.store.settings().expect("read").expect("settings");
    trial.add_client("Ada");
    trial.done(&Action::Undo);
    let before = (words(&trial.store), trial.store.version());
    trial.done(&Action::SaveSettings(settings));
    assert_eq!((words(&trial.store), trial.store.version()), before);
    assert_eq!(
        trial.done(&Action::Redo).words,
        "Done again: Added client Ada"
    );
}

#[test]
fn an_action_given_up_leaves_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let before = (dump(&path), words(&trial.store));
    trial.store.rollback();
    trial.store.begin().expect("begun");
    let settings = tackfree::shop::Settings::starting(chrono_tz::UTC);
    trial
        .store
        .put(tackfree::desk::Row::Settings(&settings))
        .expect("put");
    trial.store.rollback();
    trial.store.rollback();
    assert_eq!((dump(&path), words(&trial.store)), before);
    // Neither a write nor a commit outside an action.
    assert!(
        trial
            .store
            .put(tackfree::desk::Row::Settings(&settings))
            .is_err()
    );
    assert!(trial.store.commit(trial.now, "nothing").is_err());
    // Undo waits for the action under way to end.
    trial.store.begin().expect("begun");
    assert!(trial.store.undo(trial.now).is_err());
    assert!(trial.store.begin().is_err());
    trial
        .store
        .commit(trial.now, "nothing")
        .expect("nothing was changed");
    assert_eq!((dump(&path), words(&trial.store)), before);
}

#[test]
fn an_identifier_that_a_redo_brings_back_counts_as_used() {
    let mut trial = Trial::over(Store::in_memory().expect("a store"));
    let client = trial.add_client("Ada");
    trial.done(&Action::Undo);
    assert_eq!(trial.store.last_id(), Ok(client.0));
    trial.add_client("Bo");
    trial.done(&Action::Undo);
    assert_ne!(trial.store.last_id(), Ok(client.0));
}

/// One action may touch a row more than once, and rows that belong to one another.
#[test]
fn an_action_that_writes_a_row_twice_is_undone_in_the_reverse_order() {
    use tackfree::desk::{Key, Row};
    use tackfree::shop::{Client, ClientId};
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let old = trial.add_client("Ada");
    let job = trial.add_job(old, "kitchen");
    let before = dump(&path);
    let named = |id, name: &str| Client {
        id,
        name: name.to_owned(),
        phone: String::new(),
        email: String::new(),
        address: String::new(),
        notes: String::new(),
    };
    let new = ClientId(trial.mint.next(0));
    let mut moved = trial.store.jobs().expect("read").remove(0);
    moved.client = new;
    moved.no = 7;
    let store = &mut trial.store;
    store.begin().expect("begun");
    for name in ["Bo", "Bo B", "Bo C"] {
        store.put(Row::Client(&named(new, name))).expect("put");
    }
    store.put(Row::Job(&moved)).expect("put");
    for name in ["Ada B", "Ada C"] {
        store.put(Row::Client(&named(old, name))).expect("put");
    }
    store.remove(Key::Client(old)).expect("removed");
    store.remove(Key::Job(job)).expect("removed");
    moved.title = "bar".to_owned();
    store.put(Row::Job(&moved)).expect("put");
    store.commit(opening(), "Moved house").expect("committed");
    let after = dump(&path);
    assert_ne!(after, before);
    for _ in 0..3 {
        assert_eq!(trial.done(&Action::Undo).words, "Undone: Moved house");
        assert_eq!(dump(&path), before);
        assert_eq!(trial.done(&Action::Redo).words, "Done again: Moved house");
        assert_eq!(dump(&path), after);
    }
    assert_eq!(trial.store.check(), Ok(Vec::new()));
}
