//! What goes in comes out, field for field.

use crate::rows::{
    at, client, id, job, log, passes, piece, pieces, products, recipes, schedule, settings, write,
};
use crate::shop::counter;
use chrono::NaiveDate;
use tackfree::desk::{Books, Row, Scope};
use tackfree::shape::{EdgeProfile, FaceKey, Shape};
use tackfree::shop::{Event, EventId, PassId, PieceFile, Recipe, RecipeId, What, WipeDown};
use tackfree::store::Store;
use uuid::Uuid;

#[test]
fn every_kind_of_row_comes_back_as_it_went_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut store = Store::open(&path).expect("a store");
    assert_eq!(store.settings(), Ok(None));
    assert_eq!(store.last_id(), Ok(Uuid::nil()));

    let (settings, client, log) = (settings(), client(), log());
    let job = job(Some(1899), NaiveDate::from_ymd_opt(2039, 12, 31));
    let (products, recipes, pieces, passes) = (products(), recipes(), pieces(), passes());
    let mut rows = vec![
        Row::Settings(&settings),
        Row::Client(&client),
        Row::Job(&job),
    ];
    rows.extend(products.iter().map(Row::Product));
    rows.extend(recipes.iter().map(Row::Recipe));
    rows.extend(pieces.iter().map(Row::Piece));
    rows.extend(passes.iter().map(Row::Pass));
    rows.extend(log.iter().map(|event| Row::Event(pieces[0].id, event)));
    write(&mut store, &rows);

    drop(store);
    let store = Store::open(&path).expect("again");
    assert_eq!(store.settings(), Ok(Some(settings)));
    assert_eq!(store.clients(), Ok(vec![client]));
    assert_eq!(store.jobs(), Ok(vec![job]));
    assert_eq!(store.products(), Ok(products));
    let [first, second, third] = recipes;
    assert_eq!(store.recipes(), Ok(vec![first.clone(), second, third]));
    let files: Vec<PieceFile> = pieces
        .iter()
        .map(|piece| PieceFile {
            piece: piece.clone(),
            schedule: piece
                .schedule
                .clone()
                .unwrap_or_else(|| first.schedule.clone()),
            events: if piece.no == 0 {
                log.clone()
            } else {
                Vec::new()
            },
        })
        .collect();
    assert_eq!(store.pieces(Scope::All), Ok(files));
    // Pass 42 went on no piece.
    assert_eq!(store.passes(Scope::All), Ok(passes[..2].to_vec()));
    for pass in &passes {
        assert_eq!(store.pass(pass.id), Ok(Some(pass.clone())));
    }
    assert_eq!(store.pass(PassId(id(99))), Ok(None));
    let highest = log.last().map(|event| event.id.0).expect("a log");
    assert_eq!(store.last_id(), Ok(highest));
    assert_eq!(store.check(), Ok(Vec::new()));
}

#[test]
fn a_job_may_leave_its_days_open() {
    let mut store = Store::in_memory().expect("a store");
    let (client, job) = (client(), job(None, None));
    write(&mut store, &[Row::Client(&client), Row::Job(&job)]);
    assert_eq!(store.jobs(), Ok(vec![job]));
}

#[test]
fn writing_again_replaces_and_leaves_nothing_behind() {
    let mut store = Store::in_memory().expect("a store");
    let (client, job) = (client(), job(None, None));
    let recipe = Recipe {
        id: RecipeId(id(30)),
        name: "one".to_owned(),
        schedule: schedule(None, WipeDown::Dry),
    };
    let mut piece = piece(0, counter(), None);
    let mut event = Event {
        id: EventId(id(500)),
        at: at(0),
        what: What::Wipe {
            faces: vec![FaceKey::Top, FaceKey::Left, FaceKey::Right],
        },
    };
    let rows = [
        Row::Client(&client),
        Row::Job(&job),
        Row::Recipe(&recipe),
        Row::Piece(&piece),
        Row::Event(piece.id, &event),
    ];
    write(&mut store, &rows);
    let draft: tackfree::shape::ShapeDraft = counter().into();
    let kept = draft.openings[1];
    piece.shape = Shape::new(
        draft.outline,
        draft.thickness,
        EdgeProfile::Square,
        vec![kept],
        None,
    )
    .expect("a counter");
    event.what = What::Wipe {
        faces: vec![FaceKey::Left],
    };
    write(
        &mut store,
        &[Row::Piece(&piece), Row::Event(piece.id, &event)],
    );
    let files = store.pieces(Scope::One(piece.id)).expect("read");
    assert_eq!(files[0].piece, piece);
    assert_eq!(files[0].events, [event]);
}
