//! What the person can do: one function an action, one transaction each. The only writer.
//!
//! Lives here: the actions, their checks beyond one type, the words they leave in the journal,
//! and the reading of the whole shop for screens and commands. May not live here: SQL, the
//! screen, or a reading of the clock; the store is met through [`Books`], time is passed in.

mod action;
mod air;
mod air_import;
mod air_rows;
mod books;
mod error;
mod learned;
mod moves;
mod passes;
mod people;
mod perform;
mod pieces;
mod recipes;
mod shop_air;
mod snapshot;
mod steps;
pub mod typed;
mod wood;
mod wood_error;
mod work;

pub use action::{
    Action, AmountDraft, ClientDraft, FacePick, JobDraft, PassDraft, PieceDraft, ProductDraft,
    RecipeDraft, Which,
};
pub use air::{rules_words, show_air};
pub use air_import::AirImport;
pub use air_rows::{AirSource, AirSpan, DryingRules, LoggedAir, TouchRecord, spread_of};
pub use books::{Books, BooksError, JournalLine, Key, Row, Scope};
pub use error::{DeskError, Refusal};
pub use perform::{Desk, Done, Made};
pub use shop_air::NEWEST_TESTS;
pub use snapshot::Shop;
pub use wood_error::WoodRefusal;
