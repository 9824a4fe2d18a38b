//! The forms: what is asked for each thing a person enters, and the action that comes of it.
//!
//! Lives here: one file a form, each with its fields, what was understood beside what was typed,
//! and the reading into an action of the desk. May not live here: how a form looks and moves (the
//! toolkit's), what the words mean (the desk's `typed`), or anything that writes.

mod accept;
mod client;
mod context;
mod correct_pass;
mod faces;
mod hidden;
mod job;
mod layout_book;
mod open;
mod pass;
mod piece;
mod product;
mod recipe;
mod sand_back;
mod scuff;
mod settings;
mod stands;
mod touch;
mod wipe;
mod wipe_off;

pub use open::OpenForm;

use crate::coating::ProductId;
use crate::desk::Which;
use crate::shape::FaceKey;
use crate::shape::layout::{About, Rule};
use crate::shop::{ClientId, CoatKind, JobId, PassId, PieceId, RecipeId};

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
}
