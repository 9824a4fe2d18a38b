//! What the person can do: one function an action, one transaction each. The only writer.
//!
//! Lives here: the actions, their checks beyond one type, the words they leave in the journal,
//! and the reading of the whole shop for screens and commands. May not live here: SQL, the
//! screen, or a reading of the clock; the store is met through [`Books`], time is passed in.

mod action;
mod books;
mod error;
mod layouts;
mod moves;
mod passes;
mod people;
mod perform;
mod pieces;
mod recipes;
mod snapshot;
mod steps;
pub mod typed;
mod work;

pub use action::{
    Action, AmountDraft, ClientDraft, FacePick, JobDraft, PassDraft, PieceDraft, ProductDraft,
    RecipeDraft, Which,
};
pub use books::{Books, BooksError, JournalLine, Key, Row, Scope};
pub use error::{DeskError, Refusal};
pub use perform::{Desk, Done, Made};
pub use snapshot::Shop;
