//! What the desk needs of the store.

use super::air_rows::{AirSpan, DryingRules, LoggedAir, TouchRecord};
use super::money::{HoursOf, MoneyKey, MoneyRow};
use crate::coating::{ForecastStep, Product, ProductId};
use crate::shop::{
    BenchBook, Can, CanId, CanLine, CanLineId, CanRecords, Chore, ChoreDone, Client, ClientId,
    DayClosed, DayLog, Event, HoursEntry, Job, JobId, KeptSheet, LayoutBook, Mix, Moisture,
    MoneyBook, Offer, Pass, PassId, Piece, PieceFile, PieceId, PieceLayout, PieceWood, PlanBook,
    PriceBook, Promise, ReadingId, Recipe, RecipeId, Settings, ShopWood, Site, Slot, SlotId,
    Struck, UnderWay, UseBook, UseRules, WoodBook, WoodId,
};
use crate::units::Volume;
use crate::wood::moisture::ReadyRule;
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::HashMap;
use thiserror::Error;
use uuid::Uuid;

/// Why the store cannot do what was asked.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum BooksError {
    /// The file is something else.
    #[error(
        "{path} is not a tackfree store. Give another path with --store, or move that file away."
    )]
    NotAStore {
        /// The file.
        path: String,
    },
    /// The store may only be read.
    #[error(
        "{path} is read-only, so nothing can be saved. Make it writable, or give another path with --store."
    )]
    ReadOnly {
        /// The file.
        path: String,
    },
    /// The store was written by a newer version.
    #[error(
        "This store was written by a newer tackfree (its layout is number {found}, this program knows up to {known}). Install the newer version; nothing was changed."
    )]
    Newer {
        /// Layout found.
        found: i64,
        /// Layout known.
        known: i64,
    },
    /// No room on the disk.
    #[error(
        "The disk is full: this was not saved. Free some space and do it again; all that was confirmed before is safe."
    )]
    Full,
    /// Another program holds the store.
    #[error(
        "Another tackfree is writing to this store and did not finish in time. Try again in a moment; nothing was changed."
    )]
    Busy,
    /// The file is damaged.
    #[error("The store is damaged: {detail}. Do not write to it; go back to a backup.")]
    Damaged {
        /// What was found.
        detail: String,
    },
    /// The file cannot be reached.
    #[error("{path} cannot be opened: {detail}.")]
    CannotOpen {
        /// The file.
        path: String,
        /// What the system said.
        detail: String,
    },
    /// Something is still in use.
    #[error("It cannot be removed: {detail}.")]
    InUse {
        /// By what.
        detail: String,
    },
    /// No such thing.
    #[error("There is no such {what} in this store.")]
    Missing {
        /// What.
        what: &'static str,
    },
    /// Anything else the store met.
    #[error("The store could not do that: {detail}.")]
    Other {
        /// What was met.
        detail: String,
    },
}

/// Which pieces to read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// All there are.
    All,
    /// Those whose set list is not finished, and those finished at or after this moment.
    OpenSince(DateTime<Utc>),
    /// Those of one job.
    Job(JobId),
    /// One.
    One(PieceId),
    /// Those that the newest so many measured passes of each product lie on, whole logs: what the
    /// shop's spread rates are learned from.
    MeasuredLately(u32),
}

/// Something to write: it replaces what has the same identifier.
#[derive(Debug, Clone, Copy)]
pub enum Row<'a> {
    /// The settings.
    Settings(&'a Settings),
    /// A client.
    Client(&'a Client),
    /// A job.
    Job(&'a Job),
    /// A product.
    Product(&'a Product),
    /// A recipe.
    Recipe(&'a Recipe),
    /// A piece.
    Piece(&'a Piece),
    /// A line of a piece's log.
    Event(PieceId, &'a Event),
    /// A pass.
    Pass(&'a Pass),
    /// A can.
    Can(&'a Can),
    /// A line of a can's log.
    CanLine(&'a CanLine),
    /// A chore of a day's end, ticked.
    Chore(&'a ChoreDone),
    /// A day that was closed.
    DayClosed(&'a DayClosed),
    /// A moisture reading.
    Moisture(&'a Moisture),
    /// A job's site.
    Site(&'a Site),
    /// How a piece lies and is held.
    PieceWood(&'a PieceWood),
    /// A wood of the shop's own.
    Wood(&'a ShopWood),
    /// The rule by which pieces count as ready.
    ReadyRule(&'a ReadyRule),
    /// A reading of the shop's air, in the place of any at its second.
    Air(&'a LoggedAir),
    /// The whole forecast; no steps take it away.
    Forecast(&'a [ForecastStep]),
    /// What is set about drying.
    DryingRules(&'a DryingRules),
    /// From when touch tests of a product count anew.
    Afresh(ProductId, DateTime<Utc>),
    /// The shop's own figures for layout and cutting.
    LayoutBook(&'a LayoutBook),
    /// How a piece stands and what was accepted on it.
    PieceLayout(&'a PieceLayout),
    /// What planning of use allows for.
    UseRules(&'a UseRules),
    /// A pass that teaches nothing.
    Struck(&'a Struck),
    /// A can size on offer.
    Offer(&'a Offer),
    /// How the shop mixes a product.
    Mix(&'a Mix),
    /// What days are planned by.
    BenchBook(&'a BenchBook),
    /// A change of one day's bench hours.
    Slot(&'a Slot),
    /// The sheet that is kept; none takes it away.
    KeptSheet(Option<&'a KeptSheet>),
    /// The step under way; none when the hands are free.
    UnderWay(Option<&'a UnderWay>),
    /// A promise.
    Promise(&'a Promise),
    /// Something of money or hours.
    Money(MoneyRow<'a>),
}

/// Something to remove.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A client.
    Client(ClientId),
    /// A job.
    Job(JobId),
    /// A product.
    Product(ProductId),
    /// A recipe.
    Recipe(RecipeId),
    /// A piece.
    Piece(PieceId),
    /// A can.
    Can(CanId),
    /// A line of a can's log.
    CanLine(CanLineId),
    /// A ticked chore of a day.
    Chore(NaiveDate, Chore),
    /// A moisture reading.
    Moisture(ReadingId),
    /// A wood of the shop's own.
    Wood(WoodId),
    /// The reading of the shop's air at that second.
    Air(DateTime<Utc>),
    /// A pass that was struck out, so that it teaches again.
    Struck(PassId),
    /// A can size on offer.
    Offer(ProductId, Volume),
    /// How the shop mixes a product.
    Mix(ProductId),
    /// A change of one day's bench hours.
    Slot(SlotId),
    /// Something of money or hours.
    Money(MoneyKey),
}

/// One line of the journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JournalLine {
    /// Its running number.
    pub no: i64,
    /// When.
    pub at: DateTime<Utc>,
    /// What was done, in plain words.
    pub words: String,
    /// Whether it has been undone since.
    pub undone: bool,
}

/// The store as the desk sees it. Writes happen between [`Books::begin`] and [`Books::commit`];
/// what `commit` has returned from is on the disk.
pub trait Books {
    /// The settings, if any were saved.
    fn settings(&self) -> Result<Option<Settings>, BooksError>;
    /// All clients, by name.
    fn clients(&self) -> Result<Vec<Client>, BooksError>;
    /// All jobs, by number.
    fn jobs(&self) -> Result<Vec<Job>, BooksError>;
    /// All products, by kind and name.
    fn products(&self) -> Result<Vec<Product>, BooksError>;
    /// All recipes, by name.
    fn recipes(&self) -> Result<Vec<Recipe>, BooksError>;
    /// Pieces with their logs, by job and letter.
    fn pieces(&self, scope: Scope) -> Result<Vec<PieceFile>, BooksError>;
    /// The passes that touched these pieces, by start.
    fn passes(&self, scope: Scope) -> Result<Vec<Pass>, BooksError>;
    /// One pass.
    fn pass(&self, id: PassId) -> Result<Option<Pass>, BooksError>;
    /// The cans with their logs and every pass that drew on them: all there are, or of another scope
    /// those that were not thrown away, those that its passes drew on, and those mixed into them.
    fn cans(&self, scope: Scope) -> Result<CanRecords, BooksError>;
    /// What was ticked at the days' ends, and which days were closed.
    fn days(&self) -> Result<DayLog, BooksError>;
    /// What is on record about wood: the readings and the lie of these pieces, and every site, wood
    /// of the shop's own and the rule in force.
    fn wood(&self, scope: Scope) -> Result<WoodBook, BooksError>;
    /// The readings of the shop's air in a span, in order of time. Costs what it gives back,
    /// however long the log is.
    fn air(&self, span: AirSpan) -> Result<Vec<LoggedAir>, BooksError>;
    /// The last reading at or before a moment.
    fn air_before(&self, at: DateTime<Utc>) -> Result<Option<LoggedAir>, BooksError>;
    /// The newest readings, newest first.
    fn air_newest(&self, limit: usize) -> Result<Vec<LoggedAir>, BooksError>;
    /// When the first reading was taken.
    fn air_first(&self) -> Result<Option<DateTime<Utc>>, BooksError>;
    /// The typed forecast, earliest first.
    fn forecast(&self) -> Result<Vec<ForecastStep>, BooksError>;
    /// What the shop has set about drying.
    fn drying_rules(&self) -> Result<DryingRules, BooksError>;
    /// From when touch tests count, for products whose learning was reset.
    fn afresh(&self) -> Result<HashMap<ProductId, DateTime<Utc>>, BooksError>;
    /// The products that touch tests were made on.
    fn tested_products(&self) -> Result<Vec<ProductId>, BooksError>;
    /// The newest touch tests of a product made after a moment, newest first.
    fn touch_tests(
        &self,
        product: ProductId,
        after: Option<DateTime<Utc>>,
        limit: usize,
    ) -> Result<Vec<TouchRecord>, BooksError>;
    /// The shop's own figures for layout and cutting, if any were saved.
    fn layout_book(&self) -> Result<Option<LayoutBook>, BooksError>;
    /// What is kept of pieces' layouts; pieces of which nothing was said are left out.
    fn layouts(&self, scope: Scope) -> Result<Vec<PieceLayout>, BooksError>;
    /// What is kept about use: passes struck out, sizes on offer, mixes, rules.
    fn use_book(&self) -> Result<UseBook, BooksError>;
    /// What is on record about the planning of days.
    fn plan_book(&self) -> Result<PlanBook, BooksError>;
    /// The shop's figures for pricing, if any were saved.
    fn price_book(&self) -> Result<Option<PriceBook>, BooksError>;
    /// What is on record about the money of jobs, each list in the order of its numbers.
    fn money(&self) -> Result<MoneyBook, BooksError>;
    /// The hours log, by start.
    fn hours(&self, of: HoursOf) -> Result<Vec<HoursEntry>, BooksError>;
    /// The newest lines of the journal, newest first.
    fn journal(&self, limit: usize) -> Result<Vec<JournalLine>, BooksError>;
    /// A number that changes whenever anybody has written.
    fn version(&self) -> Result<i64, BooksError>;
    /// The highest identifier of any row, so that the next one made is greater.
    fn last_id(&self) -> Result<Uuid, BooksError>;

    /// Starts an action; nobody else can write until it ends.
    fn begin(&mut self) -> Result<(), BooksError>;
    /// Writes one thing.
    fn put(&mut self, row: Row<'_>) -> Result<(), BooksError>;
    /// Removes one thing.
    fn remove(&mut self, key: Key) -> Result<(), BooksError>;
    /// Ends the action and makes it durable, with its journal words.
    fn commit(&mut self, at: DateTime<Utc>, words: &str) -> Result<(), BooksError>;
    /// Ends the action as if it had never been begun.
    fn rollback(&mut self);

    /// Ends the action like [`Books::commit`], but as the beginning of the shop, which is not
    /// undone.
    fn commit_start(&mut self, at: DateTime<Utc>, words: &str) -> Result<(), BooksError>;
    /// Undoes the newest action not undone; its words, or none if there is none.
    fn undo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError>;
    /// Does again the action undone last, unless something new was done since.
    fn redo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError>;
}
