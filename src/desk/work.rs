//! Work on pieces: every line of a piece's log is written here, and only after the gates have
//! let it through.

use super::action::FacePick;
use super::books::{Row, Scope};
use super::error::{DeskError, Refusal};
use super::perform::{Desk, Done};
use super::snapshot::Shop;
use crate::coating::ShopAirClock;
use crate::shape::FaceKey;
use crate::shop::{
    Blocker, Caution, Event, EventId, PieceFile, PieceId, Stage, Ticket, What, cautions_for_stage,
};
use chrono::{DateTime, Utc};

/// One piece opened for work: its file, its folded state, and what was added.
pub(super) struct Opened {
    pub(super) shop: Shop,
    pub(super) file: PieceFile,
    pub(super) ticket: Ticket,
    pub(super) called: String,
    clock: ShopAirClock,
    added: usize,
    pub(super) refused: Vec<crate::shop::Blocker>,
}

impl Desk<'_> {
    pub(super) fn open(&self, piece: PieceId) -> Result<Opened, DeskError> {
        let (shop, mut file) = self.piece_file(piece)?;
        // From the moment work starts the piece follows its own copy of the schedule.
        file.piece
            .schedule
            .get_or_insert_with(|| file.schedule.clone());
        let ticket = Ticket::of(&file);
        let called = shop.called(&file);
        // Read inside the transaction: the air somebody else logged counts.
        let clock = shop.clock();
        Ok(Opened {
            shop,
            file,
            ticket,
            called,
            clock,
            added: 0,
            refused: Vec::new(),
        })
    }

    /// Adds a line if the gates let it through, else keeps every reason.
    pub(super) fn add(&mut self, opened: &mut Opened, what: What, at: DateTime<Utc>) {
        let event = Event {
            id: EventId(self.id()),
            at,
            what,
        };
        let blockers = opened
            .shop
            .gates(&opened.clock)
            .check(&opened.ticket, &event, self.now);
        if blockers.is_empty() {
            opened.ticket.fold(&event);
            opened.file.events.push(event);
            opened.added += 1;
        } else {
            opened.refused.extend(blockers);
        }
    }

    /// Writes what was added to these pieces, or gives back every reason why not.
    pub(super) fn close(&mut self, what: &str, opened: Vec<Opened>) -> Result<(), DeskError> {
        let mut refusals = Vec::new();
        for piece in &opened {
            if !piece.refused.is_empty() {
                let mut blockers: Vec<crate::shop::Blocker> = Vec::new();
                for blocker in &piece.refused {
                    if !blockers.contains(blocker) {
                        blockers.push(blocker.clone());
                    }
                }
                let teaching = self.teaching(piece, &blockers)?;
                refusals.push(Refusal {
                    piece: piece.called.clone(),
                    blockers,
                    teaching,
                });
            }
        }
        if !refusals.is_empty() {
            return Err(DeskError::Refused {
                what: what.to_owned(),
                refusals,
            });
        }
        for mut piece in opened {
            piece.file.piece.stage = piece.ticket.stage;
            piece.file.piece.finished = piece.ticket.finished.is_some();
            self.books.put(Row::Piece(&piece.file.piece))?;
            let from = piece.file.events.len() - piece.added;
            for event in &piece.file.events[from..] {
                self.books.put(Row::Event(piece.file.piece.id, event))?;
            }
        }
        Ok(())
    }

    /// The figure behind a refusal: the cup that unlike faces risk.
    fn teaching(&self, opened: &Opened, blockers: &[Blocker]) -> Result<Option<String>, DeskError> {
        let unlike = |blocker: &Blocker| matches!(blocker, Blocker::Balance { .. });
        if !blockers.iter().any(unlike) {
            return Ok(None);
        }
        let shop = self.shop(Scope::All)?;
        let air = shop.shops_air(self.now);
        let records = shop.wood_records(&opened.file, &opened.ticket, air);
        Ok(crate::shop::moving::cup_line(&records, self.now))
    }

    /// One line on one piece.
    pub(super) fn one(
        &mut self,
        piece: PieceId,
        what: What,
        at: DateTime<Utc>,
        tried: &str,
        words: impl FnOnce(&str) -> String,
    ) -> Result<Done, DeskError> {
        let mut opened = self.open(piece)?;
        self.add(&mut opened, what, at);
        let said = words(&opened.called);
        self.close(tried, vec![opened])?;
        Ok(Done::said(said))
    }

    /// The same line over several pieces.
    pub(super) fn over(
        &mut self,
        picks: &[FacePick],
        at: DateTime<Utc>,
        tried: &str,
        verb: &str,
        due: impl Fn(&Ticket) -> Vec<FaceKey>,
        make: impl Fn(Vec<FaceKey>) -> What,
    ) -> Result<Done, DeskError> {
        if picks.is_empty() {
            return Err(DeskError::NoPiece);
        }
        let (mut all, mut said) = (Vec::new(), Vec::new());
        for pick in &FacePick::once_each(picks) {
            let mut opened = self.open(pick.piece)?;
            let faces = pick.faces.clone().unwrap_or_else(|| due(&opened.ticket));
            said.push(format!("{} of {}", names(&faces), opened.called));
            self.add(&mut opened, make(faces), at);
            all.push(opened);
        }
        self.close(tried, all)?;
        Ok(Done::said(format!("{verb} {}", said.join("; "))))
    }
}

/// Faces in words: `top, left end`, or `9 faces` when the list grows long.
pub(super) fn names(faces: &[FaceKey]) -> String {
    if faces.len() > 4 {
        return format!("{} faces", faces.len());
    }
    let names: Vec<String> = faces.iter().map(ToString::to_string).collect();
    names.join(", ")
}

/// The cautions of a stage, in words.
pub(super) fn stage_notes(stage: Stage) -> Vec<String> {
    cautions_for_stage(stage)
        .iter()
        .map(Caution::words)
        .collect()
}
