//! Where a piece goes: along, back, and through its set list; and which faces will be hidden.

use super::error::DeskError;
use super::perform::{Desk, Done};
use super::work::stage_notes;
use crate::shape::FaceKey;
use crate::shop::{PieceId, SetItem, Stage, What};
use crate::units::counted;

impl Desk<'_> {
    pub(super) fn declare_hidden(
        &mut self,
        piece: PieceId,
        face: FaceKey,
        reason: &str,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let reason = super::people::line("The reason", reason, 200, &mut notes)?;
        let words = format!("Declared {face} not exposed ({reason})");
        let what = What::NotExposed { face, reason };
        let done = self.one(piece, what, self.now, "The declaration", |called| {
            format!("{words} on {called}")
        })?;
        Ok(done.with_notes(notes))
    }

    pub(super) fn withdraw_hidden(
        &mut self,
        piece: PieceId,
        face: FaceKey,
    ) -> Result<Done, DeskError> {
        let what = What::Exposed { face };
        self.one(piece, what, self.now, "The withdrawal", |called| {
            format!("{face} of {called} is exposed after all")
        })
    }

    pub(super) fn move_along(&mut self, pieces: &[PieceId]) -> Result<Done, DeskError> {
        if pieces.is_empty() {
            return Err(DeskError::NoPiece);
        }
        let (mut all, mut said, mut notes) = (Vec::new(), Vec::new(), Vec::new());
        let mut seen = Vec::new();
        for piece in pieces {
            if seen.contains(piece) {
                continue;
            }
            seen.push(*piece);
            let mut opened = self.open(*piece)?;
            let from = opened.ticket.stage;
            let Some(to) = opened.ticket.schedule.next_stage(from) else {
                opened
                    .refused
                    .push(crate::shop::Blocker::NothingAfter { stage: from });
                all.push(opened);
                continue;
            };
            self.add(&mut opened, What::Moved { from, to }, self.now);
            let skipped: Vec<&str> = Stage::ALL
                .into_iter()
                .filter(|stage| *stage > from && *stage < to)
                .map(Stage::word)
                .collect();
            let past = if skipped.is_empty() {
                String::new()
            } else {
                format!(" (nothing asked in {})", skipped.join(", "))
            };
            said.push(format!("{} to {to}{past}", opened.called));
            notes.extend(stage_notes(to));
            all.push(opened);
        }
        self.close("The move", all)?;
        notes.dedup();
        Ok(Done::said(format!("Moved {}", said.join("; "))).with_notes(notes))
    }

    pub(super) fn move_back(&mut self, piece: PieceId) -> Result<Done, DeskError> {
        let mut opened = self.open(piece)?;
        let from = opened.ticket.stage;
        let ticked = opened.ticket.set_list.len();
        let before = Stage::ALL
            .into_iter()
            .rev()
            .find(|stage| *stage < from && opened.ticket.schedule.asks(*stage));
        match before {
            Some(to) => self.add(&mut opened, What::Moved { from, to }, self.now),
            None => opened.refused.push(crate::shop::Blocker::WrongStage {
                is: Stage::Sanding,
                needs: Stage::Sealing,
            }),
        }
        let words = format!("Moved {} back to {}", opened.called, opened.ticket.stage);
        let mut notes = Vec::new();
        if ticked > 0 && opened.ticket.set_list.is_empty() {
            notes.push(format!(
                "The set list starts anew: {} on it no longer {}.",
                counted(ticked, "tick", "ticks"),
                if ticked == 1 { "counts" } else { "count" }
            ));
        }
        self.close("The move back", vec![opened])?;
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn set_list(
        &mut self,
        piece: PieceId,
        item: SetItem,
        done: bool,
    ) -> Result<Done, DeskError> {
        let verb = if done { "Ticked" } else { "Took back" };
        self.one(
            piece,
            What::SetList { item, done },
            self.now,
            "The set list",
            |called| format!("{verb} {} on the set list of {called}", item.words()),
        )
    }
}
