//! What the person can do: one function an action, one transaction each. The only writer.
//!
//! Lives here: the actions, their checks beyond one type, the words they leave in the journal,
//! and the reading of the whole shop for screens and commands. May not live here: SQL, the
//! screen, or a reading of the clock; the store is met through [`Books`], time is passed in.

mod action;
mod air;
mod air_doubts;
mod air_import;
mod air_rows;
mod books;
mod can_action;
mod can_checks;
mod can_error;
mod can_pours;
mod cans;
mod changes;
mod conditions;
mod correct_time;
mod day;
mod day_plan;
mod day_sheet;
mod day_steps;
mod draws;
mod error;
mod later;
mod layouts;
mod learned;
mod money;
mod moves;
mod passes;
mod people;
mod perform;
mod pick;
mod pieces;
mod product_sheet;
mod promises;
mod recipes;
mod shop_air;
mod snapshot;
mod steps;
pub mod typed;
mod use_action;
mod use_book;
mod use_read;
mod wood;
mod wood_error;
mod work;

pub use action::{
    Action, AmountDraft, ClientDraft, FacePick, JobDraft, PassDraft, PieceDraft, ProductDraft,
    RecipeDraft, Which,
};
pub use air::{rules_words, show_air};
pub use air_import::AirImport;
pub use air_rows::{
    AirSource, AirSpan, DryingRules, LoggedAir, PassedOver, TouchRecord, spread_of,
};
pub use books::{Books, BooksError, JournalLine, Key, Row, Scope};
pub use can_action::{
    CanAction, CanDraft, CanPick, CanTake, DrawnDraft, MixDraft, MixPart, TakeAmount,
};
pub use can_checks::known_words;
pub use can_error::{CanDoubt, CanRefusal};
pub use conditions::{Condition, PassAsked, stands_words};
pub use day_plan::{PromiseDraft, kept_of};
pub use day_sheet::{ROUNDS, day_sheet, late_jobs, with_floor};
pub use day_steps::StepEnd;
pub use error::{DeskError, Refusal};
pub use later::{LaterPass, LaterStage, later_lines};
pub use money::{
    AgreedPrice, AgreementDraft, ChangeDraft, HoursDraft, HoursOf, InvoiceDraft, JobEstimate,
    MoneyAction, MoneyKey, MoneyRefusal, MoneyRow, NOTICE_CAUTION, PaymentDraft, SampleDraft,
};
pub use perform::{Desk, Done, Made};
pub use product_sheet::{
    SheetLine, SheetPart, figure_value, learned, product_sheet, range_words, source_words,
};
pub use promises::{PromiseAnswer, PromiseAsk, RUNS, promise, promise_shares};
pub use shop_air::NEWEST_TESTS;
pub use snapshot::Shop;
pub use use_action::UseAction;
pub use use_book::part_words;
pub use wood_error::WoodRefusal;
