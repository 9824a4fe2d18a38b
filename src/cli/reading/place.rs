//! Where the store lies, and how much is in it.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::units::clean_line;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree where\n\nWith --json: store (path), layout (number), read_only, clients, jobs, pieces, passes, recipes,\nproducts, log_lines (counts).";

#[derive(Serialize)]
struct PlaceJson {
    store: String,
    layout: i64,
    read_only: bool,
    clients: usize,
    jobs: usize,
    pieces: usize,
    passes: usize,
    recipes: usize,
    products: usize,
    log_lines: usize,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let json = PlaceJson {
        store: session.store.path().display().to_string(),
        layout: session.store.layout(),
        read_only: session.store.is_read_only(),
        clients: shop.clients.len(),
        jobs: shop.jobs.len(),
        pieces: shop.files.len(),
        passes: shop.passes.len(),
        recipes: shop.recipes.len(),
        products: shop.products.len(),
        log_lines: shop.files.iter().map(|file| file.events.len()).sum(),
    };
    let mut columns = Columns::default();
    let read_only = if json.read_only { ", read-only" } else { "" };
    columns.row([
        "store",
        &format!("{}{read_only}", clean_line(&json.store).0),
    ]);
    columns.row(["layout", &format!("number {}", json.layout)]);
    for (word, count) in [
        ("clients", json.clients),
        ("jobs", json.jobs),
        ("pieces", json.pieces),
        ("passes", json.passes),
        ("recipes", json.recipes),
        ("products", json.products),
        ("log lines", json.log_lines),
    ] {
        columns.row([word, &count.to_string()]);
    }
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
