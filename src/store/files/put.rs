//! Putting a shop that was read into the store, inside one action.

use super::import::Read;
use crate::coating::Product;
use crate::desk::{Books, BooksError, Key, Row, Scope};
use crate::shop::Recipe;

/// Writes everything. What the store had to start with (`products`, `recipes`) makes way where the
/// files bring their own: nothing can hang on it while there is no client.
pub(super) fn put(
    books: &mut dyn Books,
    read: &Read,
    (products, recipes): (&[Product], &[Recipe]),
) -> Result<(), BooksError> {
    books.put(Row::Settings(&read.settings))?;
    let stays = |old: &Product| read.products.iter().any(|new| new.id == old.id);
    let all_stay = products.iter().all(stays);
    for old in recipes {
        // A recipe that is replaced under its own identifier may still name a product that goes.
        if !all_stay || !read.recipes.iter().any(|new| new.id == old.id) {
            books.remove(Key::Recipe(old.id))?;
        }
    }
    for old in products.iter().filter(|old| !stays(old)) {
        books.remove(Key::Product(old.id))?;
    }
    for product in &read.products {
        books.put(Row::Product(product))?;
    }
    for recipe in &read.recipes {
        books.put(Row::Recipe(recipe))?;
    }
    for client in &read.clients {
        books.put(Row::Client(client))?;
    }
    for job in &read.jobs {
        books.put(Row::Job(job))?;
    }
    for file in &read.files {
        books.put(Row::Piece(&file.piece))?;
    }
    books.put(Row::LayoutBook(&read.layouts.book))?;
    for layout in &read.layouts.pieces {
        books.put(Row::PieceLayout(layout))?;
    }
    for can in &read.cans.cans {
        books.put(Row::Can(can))?;
    }
    for line in &read.cans.lines {
        books.put(Row::CanLine(line))?;
    }
    for pass in &read.passes {
        books.put(Row::Pass(pass))?;
    }
    for file in &read.files {
        for event in &file.events {
            books.put(Row::Event(file.piece.id, event))?;
        }
    }
    put_plan(books, read)?;
    read.air.put(books)?;
    for done in &read.days.done {
        books.put(Row::Chore(done))?;
    }
    for closed in &read.days.closed {
        books.put(Row::DayClosed(closed))?;
    }
    super::use_book::put(&read.use_book, books)?;
    put_wood(books, read)?;
    read.money.put(books)
}

/// What is on record about wood. Woods of the shop's own make way where the files bring theirs.
fn put_wood(books: &mut dyn Books, read: &Read) -> Result<(), BooksError> {
    if !read.wood.own.is_empty() {
        for old in books.wood(Scope::All)?.own {
            books.remove(Key::Wood(old.id))?;
        }
    }
    for own in &read.wood.own {
        books.put(Row::Wood(own))?;
    }
    if read.rules {
        books.put(Row::ReadyRule(&read.wood.rule))?;
    }
    for site in &read.wood.sites {
        books.put(Row::Site(site))?;
    }
    for of in &read.wood.pieces {
        books.put(Row::PieceWood(of))?;
    }
    for of in &read.wood.readings {
        books.put(Row::Moisture(of))?;
    }
    Ok(())
}

/// What days are planned by, and what was promised.
fn put_plan(books: &mut dyn Books, read: &Read) -> Result<(), BooksError> {
    let plan = &read.plan;
    if plan.bench != crate::shop::BenchBook::default() {
        books.put(Row::BenchBook(&plan.bench))?;
    }
    for slot in &plan.slots {
        books.put(Row::Slot(slot))?;
    }
    if let Some(kept) = &plan.kept {
        books.put(Row::KeptSheet(Some(kept)))?;
    }
    if let Some(under) = &plan.under_way {
        books.put(Row::UnderWay(Some(under)))?;
    }
    for promise in &plan.promises {
        books.put(Row::Promise(promise))?;
    }
    Ok(())
}
