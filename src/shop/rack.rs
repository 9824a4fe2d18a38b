//! The Rack: every piece with a wet or drying coat, and what is ready now.

use super::check::Gates;
use super::deciding::deciding;
use super::event::{CoatKind, TouchVerdict};
use super::id::PieceId;
use super::next_step::waiting;
use super::piece::PieceFile;
use super::stage::Stage;
use super::ticket::Ticket;
use super::waits::{Shows, Waiting};
use crate::coating::Recoat;
use crate::shape::FaceKey;
use chrono::{DateTime, Utc};

/// Where a coat stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RackState {
    /// Ready for the next step now.
    Ready,
    /// Window missed: abrade.
    Missed,
    /// Held: a face was left behind while the rest went on.
    Held,
    /// Still wet to the touch.
    Wet,
    /// Past touch, not yet tack-free.
    Tacky,
    /// Tack-free, not yet dry to recoat.
    TackFree,
    /// Dry to recoat; cures on.
    Curing,
}

impl RackState {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Ready => "ready now",
            Self::Missed => "window missed",
            Self::Held => "held",
            Self::Wet => "wet",
            Self::Tacky => "tacky",
            Self::TackFree => "tack-free",
            Self::Curing => "curing",
        }
    }
}

/// One line of the Rack.
#[derive(Debug, Clone, PartialEq)]
pub struct RackRow {
    /// The piece.
    pub piece: PieceId,
    /// Where its last coat stands.
    pub state: RackState,
    /// The face whose last coat decides (see [`deciding`]); none for a wipe-down.
    pub face: Option<FaceKey>,
    /// Which coat, counted on the face that carries most: `coat 3`.
    pub coat: Option<(CoatKind, u8)>,
    /// When it is tack-free.
    pub tack_free: Option<DateTime<Utc>>,
    /// When it is dry to recoat.
    pub recoat: Option<DateTime<Utc>>,
    /// When its window shuts, if it does.
    pub shuts: Option<DateTime<Utc>>,
    /// When it is fully cured.
    pub full_cure: Option<DateTime<Utc>>,
    /// What the piece waits for.
    pub waiting: Waiting,
    /// The moment the row turns on: the next thing to happen to it.
    pub next: Option<DateTime<Utc>>,
}

/// The rows: ready first, then missed windows, then what is held, then by what happens soonest.
pub fn rack(files: &[PieceFile], gates: &Gates<'_>, now: DateTime<Utc>) -> Vec<RackRow> {
    let mut rows: Vec<RackRow> = files
        .iter()
        .filter_map(|file| row(file, gates, now))
        .collect();
    rows.sort_by_key(|row| {
        let rank = match row.state {
            RackState::Ready => 0,
            RackState::Missed => 1,
            RackState::Held => 2,
            _ => 3,
        };
        // Of what is ready, a window that shuts sooner wants the hand sooner; where none shuts,
        // what has waited longest.
        let turn = match rank {
            0 => row.shuts.or(row.recoat),
            1 | 2 => row.shuts,
            _ => row.next,
        };
        let later = if rank == 0 {
            row.shuts.is_none()
        } else {
            turn.is_none()
        };
        (rank, later, turn, row.piece)
    });
    rows
}

fn row(file: &PieceFile, gates: &Gates<'_>, now: DateTime<Utc>) -> Option<RackRow> {
    let ticket = Ticket::of(file);
    if ticket.finished.is_some() {
        // Set and its list done: no longer on the rack.
        return None;
    }
    let waits = waiting(&ticket, gates, now);
    let face = deciding(&ticket, gates, &waits, now);
    let Some((face, coat)) = face.and_then(|face| Some((face, face.last_coat()?))) else {
        // A solvent wipe that must flash off is drying too, though it is no coat.
        let Waiting::FlashOff { ready } = *waits.step() else {
            return None;
        };
        return Some(RackRow {
            piece: file.piece.id,
            state: RackState::Wet,
            face: None,
            coat: None,
            tack_free: None,
            recoat: Some(ready),
            shuts: None,
            full_cure: None,
            waiting: waits,
            next: Some(ready),
        });
    };
    let product = gates.product(coat.product)?;
    let from = coat.dries_from();
    let reached = |span| gates.of_coat(coat, |clock| clock.reached(product, from, span));
    // What a thumb has found goes before the clock.
    let found = |least| {
        coat.touch
            .filter(|(_, found)| *found >= least)
            .map(|(at, _)| at)
    };
    let sooner = |at: DateTime<Utc>, least| found(least).map_or(at, |tested| at.min(tested));
    let (touch, tack_free) = (
        sooner(reached(product.label.touch), TouchVerdict::TouchDry),
        sooner(reached(product.label.tack_free), TouchVerdict::TackFree),
    );
    let full_cure = reached(product.label.full_cure);
    if now >= full_cure && ticket.stage == Stage::Set {
        return None;
    }
    let (recoat, shuts) = match gates.recoat(face, now)? {
        Recoat::Wait { ready } => {
            let first = product.label.windows.first()?;
            (
                ready,
                first
                    .closes
                    .map(|span| gates.of_coat(coat, |clock| clock.shuts(product, from, span))),
            )
        }
        Recoat::Open { since, shuts, .. } => (since, shuts),
        Recoat::Lifts { ready, shut } => (ready, Some(shut)),
        Recoat::Missed { since } => (reached(product.label.windows.first()?.opens), Some(since)),
    };
    // What a thumb found soft is not dry, whatever the clock says.
    let again = gates.test_again(face);
    let recoat = again.unwrap_or(recoat);
    let state = match waits.shows() {
        Shows::Missed => RackState::Missed,
        Shows::Ready if ticket.stage != Stage::Set => RackState::Ready,
        Shows::Held => RackState::Held,
        _ if now < touch => RackState::Wet,
        _ if now < tack_free => RackState::Tacky,
        _ if again.is_some() || now < recoat => RackState::TackFree,
        _ => RackState::Curing,
    };
    let next = [touch, tack_free, recoat, full_cure]
        .into_iter()
        .chain(waits.until())
        .filter(|at| *at > now)
        .min();
    Some(RackRow {
        piece: file.piece.id,
        state,
        face: Some(face.key),
        coat: Some((coat.kind, face.count(coat.kind))),
        tack_free: Some(tack_free),
        recoat: Some(recoat),
        shuts,
        full_cure: Some(full_cure),
        waiting: waits,
        next,
    })
}
