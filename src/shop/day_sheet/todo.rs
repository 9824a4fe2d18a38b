//! What is still to be done on a piece, step by step, with what each step waits for.
//!
//! The steps are found by leading a copy of the ticket through the rest of its schedule with the
//! same fold that reads its log: what is done is never planned again.

use crate::coating::{ProductId, Span};
use crate::shape::FaceKey;
use crate::shop::Blocker;
use crate::shop::event::ScuffMeans;
use crate::shop::face_state::Coat;
use crate::shop::id::{JobId, PassId, PieceId};
use crate::shop::sheet_kept::StepKey;
use crate::units::Area;
use chrono::{DateTime, Utc};

/// One step to be done.
#[derive(Debug, Clone, PartialEq)]
pub struct Todo {
    /// Which.
    pub key: StepKey,
    /// The faces it goes over.
    pub faces: Vec<FaceKey>,
    /// Area of the flat faces among them.
    pub flat: Area,
    /// Area of edges, ends and walls among them.
    pub edge: Area,
    /// The product, of a coat or a wipe.
    pub product: Option<ProductId>,
    /// With what, of a scuff.
    pub means: Option<ScuffMeans>,
    /// Whether the scuff must cut through a film whose window was missed.
    pub abrades: bool,
    /// How many of its kind are asked in all: `coat 2 of 4`.
    pub of: u8,
    /// What it waits for.
    pub after: Vec<After>,
    /// Not before this moment, by what is on the wood already.
    pub ready: Option<DateTime<Utc>>,
}

/// Something a step waits for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct After {
    /// Which.
    pub from: Before,
    /// What must have happened since.
    pub lag: Lag,
    /// Until when it costs no abrading, of a coat that is laid already.
    pub shuts: Option<DateTime<Utc>>,
}

/// Where what is waited for stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Before {
    /// A step of the same piece that is still to be done, by its place.
    Todo(usize),
    /// A coat that is laid already, by its place.
    Laid(usize),
}

/// What must have happened between two steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lag {
    /// Nothing: one comes after the other.
    Order,
    /// The coat is dry to recoat.
    Recoat(ProductId),
    /// The wipe has flashed off.
    Flash(ProductId),
    /// The last coat has cured before set: so much label time.
    Cure(ProductId, Span),
}

/// A coat that is on the wood.
#[derive(Debug, Clone, PartialEq)]
pub struct Laid {
    /// The pass it came from.
    pub pass: PassId,
    /// Of what.
    pub product: ProductId,
    /// When it was begun.
    pub started: DateTime<Utc>,
    /// From when it dries.
    pub dries_from: DateTime<Utc>,
    /// The coat as a face carries it.
    pub coat: Coat,
}

/// What is left to do on one piece.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceWork {
    /// The piece.
    pub piece: PieceId,
    /// Its job.
    pub job: JobId,
    /// Its steps, in order.
    pub todos: Vec<Todo>,
    /// The coats on it that still dry or that a step waits for.
    pub laid: Vec<Laid>,
    /// When dust was last made on it.
    pub dusty: Option<DateTime<Utc>>,
    /// Why it can get no further than its last step here.
    pub held: Option<Blocker>,
}

/// Whether a face counts as flat for step times: the others are edges, ends and walls.
pub fn is_flat(key: FaceKey) -> bool {
    matches!(
        key,
        FaceKey::Top | FaceKey::Underside | FaceKey::Band | FaceKey::Field
    )
}
