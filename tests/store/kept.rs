//! What is in use stays, and what belongs to nothing is not taken.

use crate::shop::{Trial, counter, dump};
use tackfree::desk::{Action, Books, BooksError, Row};
use tackfree::store::Store;

#[test]
fn what_is_in_use_or_not_there_is_not_removed() {
    use tackfree::desk::Key;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut trial = Trial::new(&path);
    let id = trial.add_client("Ada");
    let job = trial.add_job(id, "kitchen");
    let draft = trial.piece_draft(job, "counter", counter());
    let recipe = draft.recipe;
    let piece = trial.add_piece(draft);
    let faces = vec![tackfree::shape::FaceKey::Top];
    let (grit, at) = (tackfree::shop::Grit(80), trial.now);
    trial.done(&Action::Tick {
        piece,
        faces,
        grit,
        at,
    });
    let product = trial.store.products().expect("read")[1].id;
    let before = dump(&path);
    trial.store.begin().expect("begun");
    for key in [
        Key::Client(id),
        Key::Job(job),
        Key::Recipe(recipe),
        Key::Product(product),
        Key::Piece(piece),
    ] {
        let error = trial.store.remove(key).expect_err("in use");
        assert!(
            matches!(error, BooksError::InUse { .. }),
            "{key:?}: {error:?}"
        );
    }
    let gone = Key::Client(tackfree::shop::ClientId(uuid::Uuid::nil()));
    assert_eq!(
        trial.store.remove(gone),
        Err(BooksError::Missing { what: "client" })
    );
    trial.store.rollback();
    assert_eq!(dump(&path), before);
}

#[test]
fn a_row_that_belongs_to_nothing_is_refused() {
    let mut store = Store::in_memory().expect("a store");
    let job = tackfree::shop::Job {
        id: tackfree::shop::JobId(uuid::Uuid::nil()),
        no: 1,
        client: tackfree::shop::ClientId(uuid::Uuid::nil()),
        title: "kitchen".to_owned(),
        site: String::new(),
        house_built: None,
        promised: None,
        notes: String::new(),
        taken: chrono::NaiveDate::default(),
    };
    store.begin().expect("begun");
    let error = store.put(Row::Job(&job)).expect_err("no client");
    assert!(error.to_string().contains("not in this store"), "{error}");
}
