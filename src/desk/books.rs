//! What the desk needs of the store.

use crate::coating::{Product, ProductId};
use crate::shop::{
    Client, ClientId, Event, Job, JobId, LayoutBook, Pass, PassId, Piece, PieceFile, PieceId,
    PieceLayout, Recipe, RecipeId, Settings,
};
use chrono::{DateTime, Utc};
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
    /// The shop's own figures for layout and cutting.
    LayoutBook(&'a LayoutBook),
    /// How a piece stands and what was accepted on it.
    PieceLayout(&'a PieceLayout),
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
    /// The shop's own figures for layout and cutting, if any were saved.
    fn layout_book(&self) -> Result<Option<LayoutBook>, BooksError>;
    /// What is kept of pieces' layouts; pieces of which nothing was said are left out.
    fn layouts(&self, scope: Scope) -> Result<Vec<PieceLayout>, BooksError>;
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

    /// Makes the actions so far the beginning of the shop, which is not undone any more.
    fn seal(&mut self) -> Result<(), BooksError>;
    /// Undoes the newest action not undone; its words, or none if there is none.
    fn undo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError>;
    /// Does again the action undone last, unless something new was done since.
    fn redo(&mut self, at: DateTime<Utc>) -> Result<Option<String>, BooksError>;
}
