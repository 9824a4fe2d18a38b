//! The shop on disk: `SQLite`, its layout and migrations, the rows, and the journal with undo.
//!
//! Lives here: every line of SQL there is, and the files a shop is kept in. May not live here:
//! rules of the trade or of the desk (what may be written is decided before it comes here), the
//! screen, or a reading of the clock.

mod air;
mod bills;
mod cans;
mod cells;
mod day;
mod deals;
mod error;
mod events;
pub mod files;
mod journal;
mod layouts;
mod line;
mod open;
pub(crate) mod os;
mod paper_files;
mod passes;
mod people;
mod pieces;
mod plan;
mod recipes;
mod schema;
mod use_book;
mod wood;
mod wood_own;

pub use paper_files::{PaperError, write_paper, write_papers, write_papers_fresh};

use crate::coating::{ForecastStep, Product, ProductId};
use crate::desk::{
    AirSpan, Books, BooksError, DryingRules, HoursOf, JournalLine, Key, LoggedAir, Row, Scope,
    TouchRecord,
};
use crate::shop::{
    CanRecords, Client, DayLog, HoursEntry, Job, LayoutBook, MoneyBook, Pass, PassId, PieceFile,
    PieceLayout, PlanBook, PriceBook, Recipe, Settings, UseBook, WoodBook,
};
use chrono::{DateTime, Utc};
use error::Fault;
use rusqlite::Connection;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::time::Duration;
use uuid::Uuid;

/// A store opened for use.
#[derive(Debug)]
pub struct Store {
    conn: Connection,
    path: PathBuf,
    read_only: bool,
    tables: Vec<schema::Table>,
}

impl Store {
    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether it was opened for reading only, because the file or its folder is closed to
    /// writing. Reading works; the first [`Books::begin`] is refused with words.
    pub fn is_read_only(&self) -> bool {
        self.read_only
    }

    /// The number of the layout the store is in: an opened store is always brought up to this
    /// program's.
    pub fn layout(&self) -> i64 {
        schema::known()
    }

    /// What is wrong with the file, in words; nothing when it is sound. Reads all of it.
    ///
    /// # Errors
    /// As for any reading.
    pub fn check(&self) -> Result<Vec<String>, BooksError> {
        self.on(|conn| {
            #[allow(clippy::redundant_closure_for_method_calls)]
            // the method alone is not general enough
            let mut said = cells::all(conn, "PRAGMA integrity_check", [], |row| row.take())?;
            said.retain(|line: &String| line != "ok");
            said.extend(schema::broken_references(conn)?);
            Ok(said)
        })
    }

    /// How long another writer is waited for (5 seconds unless said otherwise).
    ///
    /// # Errors
    /// As for any use of the store.
    pub fn set_patience(&self, patience: Duration) -> Result<(), BooksError> {
        self.on(|conn| Ok(conn.busy_timeout(patience)?))
    }

    /// The most pages (of 4096 bytes) the file may grow to while it is open: a write past that is
    /// refused as on a full disk. Never less than the file has.
    ///
    /// # Errors
    /// As for any use of the store.
    pub fn set_most_pages(&self, pages: u32) -> Result<(), BooksError> {
        self.on(|conn| Ok(conn.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(()))?))
    }

    fn on<T>(&self, work: impl FnOnce(&Connection) -> Result<T, Fault>) -> Result<T, BooksError> {
        work(&self.conn).map_err(|fault| fault.said(&self.path))
    }

    /// Several queries over one state of the store, also while somebody else writes.
    fn at_once<T>(
        &self,
        work: impl FnOnce(&Connection) -> Result<T, Fault>,
    ) -> Result<T, BooksError> {
        self.on(|conn| {
            if !conn.is_autocommit() {
                return work(conn);
            }
            let held = conn.unchecked_transaction()?;
            let done = work(conn)?;
            held.finish()?;
            Ok(done)
        })
    }

    fn in_action(
        &self,
        work: impl FnOnce(&Connection) -> Result<(), Fault>,
    ) -> Result<(), BooksError> {
        self.on(|conn| {
            if conn.is_autocommit() {
                return Err(Fault::other("no action was begun"));
            }
            work(conn)
        })
    }

    fn writable(&self) -> Result<(), BooksError> {
        if self.read_only {
            return Err(BooksError::ReadOnly {
                path: self.path.display().to_string(),
            });
        }
        Ok(())
    }
}

impl Books for Store {
    fn settings(&self) -> Result<Option<Settings>, BooksError> {
        self.on(people::settings)
    }

    fn clients(&self) -> Result<Vec<Client>, BooksError> {
        self.on(people::clients)
    }

    fn jobs(&self) -> Result<Vec<Job>, BooksError> {
        self.on(people::jobs)
    }

    fn products(&self) -> Result<Vec<Product>, BooksError> {
        self.on(recipes::products)
    }

    fn recipes(&self) -> Result<Vec<Recipe>, BooksError> {
        self.on(recipes::recipes)
    }

    fn pieces(&self, scope: Scope) -> Result<Vec<PieceFile>, BooksError> {
        self.at_once(|conn| pieces::pieces(conn, scope))
    }

    fn passes(&self, scope: Scope) -> Result<Vec<Pass>, BooksError> {
        self.at_once(|conn| passes::passes(conn, scope))
    }

    fn pass(&self, id: PassId) -> Result<Option<Pass>, BooksError> {
        self.on(|conn| passes::pass(conn, id))
    }

    fn cans(&self, scope: Scope) -> Result<CanRecords, BooksError> {
        self.at_once(|conn| cans::records(conn, scope))
    }

    fn days(&self) -> Result<DayLog, BooksError> {
        self.at_once(day::days)
    }

    fn wood(&self, scope: Scope) -> Result<WoodBook, BooksError> {
        self.at_once(|conn| wood::book(conn, scope))
    }

    fn air(&self, span: AirSpan) -> Result<Vec<LoggedAir>, BooksError> {
        self.on(|conn| air::readings(conn, span))
    }

    fn air_before(&self, at: DateTime<Utc>) -> Result<Option<LoggedAir>, BooksError> {
        self.on(|conn| air::before(conn, at))
    }

    fn air_newest(&self, limit: usize) -> Result<Vec<LoggedAir>, BooksError> {
        self.on(|conn| air::newest(conn, limit))
    }

    fn air_first(&self) -> Result<Option<DateTime<Utc>>, BooksError> {
        self.on(air::first)
    }

    fn forecast(&self) -> Result<Vec<ForecastStep>, BooksError> {
        self.on(air::forecast)
    }

    fn drying_rules(&self) -> Result<DryingRules, BooksError> {
        self.on(air::rules)
    }

    fn afresh(&self) -> Result<HashMap<ProductId, DateTime<Utc>>, BooksError> {
        self.on(air::afresh)
    }

    fn tested_products(&self) -> Result<Vec<ProductId>, BooksError> {
        self.on(air::tested)
    }

    fn touch_tests(
        &self,
        product: ProductId,
        after: Option<DateTime<Utc>>,
        limit: usize,
    ) -> Result<Vec<TouchRecord>, BooksError> {
        self.on(|conn| air::tests(conn, product, after, limit))
    }

    fn layout_book(&self) -> Result<Option<LayoutBook>, BooksError> {
        self.on(layouts::book)
    }

    fn layouts(&self, scope: Scope) -> Result<Vec<PieceLayout>, BooksError> {
        self.at_once(|conn| layouts::layouts(conn, scope))
    }

    fn use_book(&self) -> Result<UseBook, BooksError> {
        self.at_once(use_book::book)
    }

    fn plan_book(&self) -> Result<PlanBook, BooksError> {
        self.at_once(plan::book)
    }

    fn price_book(&self) -> Result<Option<PriceBook>, BooksError> {
        self.on(bills::prices)
    }

    fn money(&self) -> Result<MoneyBook, BooksError> {
        self.at_once(bills::book)
    }

    fn hours(&self, of: HoursOf) -> Result<Vec<HoursEntry>, BooksError> {
        self.at_once(|conn| bills::hours(conn, of))
    }

    fn journal(&self, limit: usize) -> Result<Vec<JournalLine>, BooksError> {
        self.on(|conn| journal::lines(conn, limit))
    }

    fn version(&self) -> Result<i64, BooksError> {
        self.on(journal::version)
    }

    fn last_id(&self) -> Result<Uuid, BooksError> {
        self.on(|conn| match journal::last_id(conn)? {
            None => Ok(Uuid::nil()),
            Some(id) => id
                .parse()
                .map_err(|error| Fault::damaged(format!("{id} is no identifier ({error})"))),
        })
    }

    fn begin(&mut self) -> Result<(), BooksError> {
        self.writable()?;
        self.on(journal::begin)
    }

    fn put(&mut self, row: Row<'_>) -> Result<(), BooksError> {
        self.in_action(|conn| match row {
            Row::Settings(settings) => people::put_settings(conn, settings),
            Row::Client(client) => people::put_client(conn, client),
            Row::Job(job) => people::put_job(conn, job),
            Row::Product(product) => recipes::put_product(conn, product),
            Row::Recipe(recipe) => recipes::put_recipe(conn, recipe),
            Row::Piece(piece) => pieces::put_piece(conn, piece),
            Row::Event(piece, event) => events::put_event(conn, piece, event),
            Row::Pass(pass) => passes::put_pass(conn, pass),
            Row::Can(can) => cans::put_can(conn, can),
            Row::CanLine(line) => cans::put_line(conn, line),
            Row::Chore(done) => day::put_chore(conn, done),
            Row::DayClosed(closed) => day::put_closed(conn, closed),
            Row::Moisture(of) => wood::put_moisture(conn, of),
            Row::Site(site) => wood::put_site(conn, site),
            Row::PieceWood(of) => wood::put_piece_wood(conn, of),
            Row::Wood(own) => wood_own::put_own_wood(conn, own),
            Row::ReadyRule(rule) => wood_own::put_rule(conn, rule),
            Row::Air(air) => air::put(conn, air),
            Row::Forecast(steps) => air::put_forecast(conn, steps),
            Row::DryingRules(rules) => air::put_rules(conn, rules),
            Row::Afresh(product, at) => air::put_afresh(conn, product, at),
            Row::LayoutBook(book) => layouts::put_book(conn, book),
            Row::PieceLayout(layout) => layouts::put_layout(conn, layout),
            Row::UseRules(rules) => use_book::put_rules(conn, rules),
            Row::Struck(struck) => use_book::put_struck(conn, struck),
            Row::Offer(offer) => use_book::put_offer(conn, offer),
            Row::Mix(mix) => use_book::put_mix(conn, mix),
            Row::BenchBook(book) => plan::put_bench(conn, book),
            Row::Slot(slot) => plan::put_slot(conn, slot),
            Row::KeptSheet(kept) => plan::put_kept(conn, kept),
            Row::UnderWay(under) => plan::put_under_way(conn, under),
            Row::Promise(promise) => plan::put_promise(conn, promise),
            Row::Money(row) => bills::put(conn, row),
        })
    }

    fn remove(&mut self, key: Key) -> Result<(), BooksError> {
        self.in_action(|conn| {
            let (what, removed, users) = match key {
                Key::Client(id) => (
                    "client",
                    people::remove_client(conn, id),
                    "the client has jobs, or a jar was poured off for it",
                ),
                Key::Job(id) => (
                    "job",
                    people::remove_job(conn, id),
                    "the job has pieces or jars",
                ),
                Key::Product(id) => {
                    if recipes::is_scheduled(conn, id)? {
                        let detail = "a finish schedule asks for the product".to_owned();
                        return Err(BooksError::InUse { detail }.into());
                    }
                    let users = "the product is in a can, or in the log of the pieces it went on";
                    ("product", recipes::remove_product(conn, id), users)
                }
                Key::Recipe(id) => (
                    "recipe",
                    recipes::remove_recipe(conn, id),
                    "pieces follow the recipe",
                ),
                Key::Piece(id) => (
                    "piece",
                    pieces::remove_piece(conn, id),
                    "the piece has work on record",
                ),
                Key::Can(id) => (
                    "can",
                    cans::remove_can(conn, id),
                    "the can has work on record",
                ),
                Key::CanLine(id) => ("line of a can's log", cans::remove_line(conn, id), ""),
                Key::Chore(day, chore) => ("ticked chore", day::remove_chore(conn, day, chore), ""),
                Key::Moisture(id) => ("moisture reading", wood::remove_moisture(conn, id), ""),
                Key::Wood(id) => ("wood of your own", wood_own::remove_own_wood(conn, id), ""),
                Key::Struck(pass) => ("struck pass", use_book::remove_struck(conn, pass), ""),
                Key::Offer(product, holds) => {
                    ("can size", use_book::remove_offer(conn, product, holds), "")
                }
                Key::Mix(product) => ("mix", use_book::remove_mix(conn, product), ""),
                Key::Slot(id) => ("slot", plan::remove_slot(conn, id), ""),
                Key::Air(at) => ("reading", air::remove(conn, at), "the reading is in use"),
                Key::Money(key) => bills::remove(conn, key),
            };
            match removed {
                Ok(0) => Err(BooksError::Missing { what }.into()),
                Ok(_) => Ok(()),
                Err(fault) if fault.is_foreign_key() => Err(BooksError::InUse {
                    detail: users.to_owned(),
                }
                .into()),
                Err(fault) => Err(fault),
            }
        })
    }

    fn commit(&mut self, at: DateTime<Utc>, words: &str) -> Result<(), BooksError> {
        self.on(|conn| journal::commit(conn, at, words))
    }

    fn commit_start(&mut self, at: DateTime<Utc>, words: &str) -> Result<(), BooksError> {
        self.on(|conn| journal::commit_start(conn, at, words))
    }

    fn rollback(&mut self) {
        journal::rollback(&self.conn);
    }

    fn undo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError> {
        self.writable()?;
        self.on(|conn| journal::undo(conn, &self.tables, at))
    }

    fn redo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError> {
        self.writable()?;
        self.on(|conn| journal::redo(conn, &self.tables, at))
    }
}
