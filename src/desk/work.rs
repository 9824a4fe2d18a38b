//! Work on pieces: every line of a piece's log is written here, and only after the gates have
//! let it through.

use super::action::FacePick;
use super::books::Row;
use super::error::{DeskError, Refusal};
use super::perform::{Desk, Done};
use super::snapshot::Shop;
use crate::shape::FaceKey;
use crate::shop::{
    CoatKind, Event, EventId, Grit, PieceFile, PieceId, ScuffMeans, SetItem, Stage, Ticket,
    TouchVerdict, What, cautions_for_stage,
};
use chrono::{DateTime, Utc};

/// One piece opened for work: its file, its folded state, and what was added.
pub(super) struct Opened {
    pub(super) shop: Shop,
    pub(super) file: PieceFile,
    pub(super) ticket: Ticket,
    pub(super) called: String,
    added: usize,
    refused: Vec<crate::shop::Blocker>,
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
        Ok(Opened {
            shop,
            file,
            ticket,
            called,
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
            .gates(self.clock)
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
                refusals.push(Refusal {
                    piece: piece.called.clone(),
                    blockers,
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

    /// One line on one piece.
    fn one(
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

    pub(super) fn tick(
        &mut self,
        piece: PieceId,
        faces: &[FaceKey],
        grit: Grit,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let mut opened = self.open(piece)?;
        let first = !opened.ticket.started;
        if faces.is_empty() {
            opened.refused.push(crate::shop::Blocker::NoFaces);
        }
        for face in faces {
            self.add(&mut opened, What::Tick { face: *face, grit }, at);
        }
        let words = format!(
            "Ticked {grit} grit on {} of {}",
            names(faces),
            opened.called
        );
        self.close("The tick", vec![opened])?;
        let notes = if first {
            stage_notes(Stage::Sanding)
        } else {
            Vec::new()
        };
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn untick(
        &mut self,
        piece: PieceId,
        face: FaceKey,
        grit: Grit,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        self.one(
            piece,
            What::Untick { face, grit },
            at,
            "Taking the tick back",
            |called| format!("Took back {grit} grit on {face} of {called}"),
        )
    }

    pub(super) fn wipe(
        &mut self,
        picks: &[FacePick],
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let due = |ticket: &Ticket| {
            let waits =
                |face: &&crate::shop::FaceState| face.wiped.is_none() && face.coats.is_empty();
            ticket
                .faces
                .iter()
                .filter(waits)
                .map(|face| face.key)
                .collect()
        };
        self.over(picks, at, "The wipe-down", "Wiped down", due, |faces| {
            What::Wipe { faces }
        })
    }

    pub(super) fn wipe_off(
        &mut self,
        picks: &[FacePick],
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let due = |ticket: &Ticket| {
            let waits = |face: &&crate::shop::FaceState| {
                face.last_coat()
                    .is_some_and(|coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none())
            };
            ticket
                .faces
                .iter()
                .filter(waits)
                .map(|face| face.key)
                .collect()
        };
        let make = |faces| What::WipeOff { faces };
        self.over(
            picks,
            at,
            "The wipe-off",
            "Wiped off the stain of",
            due,
            make,
        )
    }

    pub(super) fn scuff(
        &mut self,
        picks: &[FacePick],
        means: ScuffMeans,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let words = format!("Scuffed with {}:", means.words());
        let due = |ticket: &Ticket| match CoatKind::of_stage(ticket.stage) {
            Some(kind) => with_coats(ticket, &ticket.due_faces(kind)),
            None => Vec::new(),
        };
        let mut done = self.over(picks, at, "The scuff", &words, due, |faces| What::Scuff {
            faces,
            means,
        })?;
        done.notes.push("Dust of fresh finish can heat by itself: empty the sander bag outdoors each day. (city fire office notice on sander dust)".to_owned());
        Ok(done)
    }

    pub(super) fn touch(
        &mut self,
        picks: &[FacePick],
        verdict: TouchVerdict,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let words = format!("Touch test, {}:", verdict.words());
        let due = |ticket: &Ticket| {
            ticket
                .faces
                .iter()
                .filter(|face| !face.coats.is_empty())
                .map(|face| face.key)
                .collect()
        };
        self.over(picks, at, "The touch test", &words, due, |faces| {
            What::Touch { faces, verdict }
        })
    }

    /// The same line over several pieces.
    fn over(
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
        for pick in picks {
            let mut opened = self.open(pick.piece)?;
            let faces = pick.faces.clone().unwrap_or_else(|| due(&opened.ticket));
            said.push(format!("{} of {}", names(&faces), opened.called));
            self.add(&mut opened, make(faces), at);
            all.push(opened);
        }
        self.close(tried, all)?;
        Ok(Done::said(format!("{verb} {}", said.join("; "))))
    }

    pub(super) fn sand_back(
        &mut self,
        piece: PieceId,
        faces: &[FaceKey],
        to: Grit,
        reason: &str,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let reason = super::people::line("The reason", reason, 200, &mut notes)?;
        let words = format!("Sanded back to {to}: {reason}: {}", names(faces));
        let what = What::SandBack {
            faces: faces.to_vec(),
            to,
            reason,
        };
        let done = self.one(piece, what, at, "The sand-back", |called| {
            format!("{words} of {called}")
        })?;
        Ok(done.with_notes(notes))
    }

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
        for piece in pieces {
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
        self.close("The move back", vec![opened])?;
        Ok(Done::said(words))
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

/// Of these faces, those that carry a coat.
fn with_coats(ticket: &Ticket, keys: &[FaceKey]) -> Vec<FaceKey> {
    keys.iter()
        .copied()
        .filter(|key| ticket.face(*key).is_some_and(|face| !face.coats.is_empty()))
        .collect()
}

fn stage_notes(stage: Stage) -> Vec<String> {
    cautions_for_stage(stage)
        .iter()
        .map(crate::shop::Caution::words)
        .collect()
}

/// Faces in words: `top, left end`, or `9 faces` when the list grows long.
pub(super) fn names(faces: &[FaceKey]) -> String {
    if faces.len() > 4 {
        return format!("{} faces", faces.len());
    }
    let names: Vec<String> = faces.iter().map(ToString::to_string).collect();
    names.join(", ")
}
