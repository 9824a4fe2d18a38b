//! The forms: what is asked for each thing a person enters, and the action that comes of it.
//!
//! Lives here: one file a form, each with its fields, what was understood beside what was typed,
//! and the reading into an action of the desk. May not live here: how a form looks and moves (the
//! toolkit's), what the words mean (the desk's `typed`), or anything that writes.

mod accept;
mod air;
mod air_import;
mod client;
mod context;
mod correct_pass;
mod day;
mod faces;
mod fasten;
mod forecast;
mod hidden;
mod job;
mod later;
mod layout_book;
mod moisture;
mod open;
mod own_wood;
mod pass;
mod pass_checks;
mod piece;
mod product;
mod recipe;
mod retime;
mod sand_back;
mod scuff;
mod settings;
mod site;
mod stands;
mod touch;
mod wipe;

pub use open::{LoggerRefused, OpenForm};

use crate::coating::ProductId;
use crate::desk::Which;
use crate::shape::FaceKey;
use crate::shape::layout::{About, Rule};
use crate::shop::{
    Chore, ClientId, CoatKind, EventId, JobId, PassId, PieceId, ReadingId, RecipeId, WoodId,
};
use chrono::{DateTime, NaiveDate, Utc};

/// Which form, and on what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FormKind {
    /// A client.
    Client(Which<ClientId>),
    /// A job, of this client if it is known.
    Job(Which<JobId>, Option<ClientId>),
    /// A piece, of this job if it is known.
    Piece(Which<PieceId>, Option<JobId>),
    /// A recipe, a new one starting as a copy of this one.
    Recipe(Which<RecipeId>, Option<RecipeId>),
    /// A product.
    Product(Which<ProductId>),
    /// The settings.
    Settings,
    /// One pass over these pieces.
    Pass {
        /// The pieces.
        pieces: Vec<PieceId>,
        /// What kind of coat.
        kind: CoatKind,
    },
    /// The wipe-down.
    Wipe {
        /// The pieces.
        pieces: Vec<PieceId>,
    },
    /// Stain wiped off.
    WipeOff {
        /// The pieces.
        pieces: Vec<PieceId>,
    },
    /// A scuff.
    Scuff {
        /// The pieces.
        pieces: Vec<PieceId>,
    },
    /// A touch test.
    Touch {
        /// The pieces.
        pieces: Vec<PieceId>,
    },
    /// A sand-back.
    SandBack {
        /// The piece.
        piece: PieceId,
        /// The faces ticked to begin with.
        faces: Vec<FaceKey>,
    },
    /// A face declared not exposed.
    Hidden {
        /// The piece.
        piece: PieceId,
    },
    /// A layout finding taken as it is.
    Accept {
        /// The piece.
        piece: PieceId,
        /// Which check.
        rule: Rule,
        /// About what.
        about: About,
    },
    /// How a piece will stand.
    Stands {
        /// The piece.
        piece: PieceId,
    },
    /// The layout checks.
    Checks,
    /// The shop's router.
    Router,
    /// Strips, lumber and paper.
    Boards,
    /// How much a pass used, corrected.
    CorrectPass(PassId),
    /// A reading of the shop's air.
    Air(Which<DateTime<Utc>>),
    /// A data logger's file.
    AirImport,
    /// The air to come.
    Forecast,
    /// What a coat of this product would do if it went on later.
    Later(Option<ProductId>),
    /// When a line of a piece's log was done, corrected.
    Retime(PieceId, EventId),
    /// A chore of a day's end, ticked with its time.
    Chore(NaiveDate, Chore),
    /// A day closed although oily rags are not logged.
    CloseDay(NaiveDate),
    /// A moisture reading of this piece.
    Moisture(Which<ReadingId>, PieceId),
    /// The site of a job.
    Site(JobId),
    /// How a piece lies and is held.
    Fasten(PieceId),
    /// A wood of the shop's own.
    OwnWood(Which<WoodId>),
    /// The rule of readiness.
    Steady,
}
