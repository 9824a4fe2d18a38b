//! The steps on a piece: grits, wipes, scuffs, touch tests, sand-backs.

use super::action::FacePick;
use super::error::DeskError;
use super::perform::{Desk, Done};
use super::work::{names, stage_notes};
use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::{
    Caution, CoatKind, Grit, PieceId, Schedule, ScuffMeans, Stage, Ticket, TouchVerdict, What,
    WipeDown, cautions_for_scuff, cautions_for_wipe, film_faces, sanding_cautions,
};
use chrono::{DateTime, Utc};

impl Desk<'_> {
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
        let notes = self.wipe_notes(picks, |schedule| match schedule.wipe_down {
            WipeDown::With(id) => Some(id),
            WipeDown::NotAsked | WipeDown::Dry => None,
        })?;
        let make = |faces| What::Wipe { faces };
        let done = self.over(picks, at, "The wipe-down", "Wiped down", due, make)?;
        Ok(done.with_notes(notes))
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
        let notes = self.wipe_notes(picks, |schedule| schedule.stain)?;
        let verb = "Wiped off the stain of";
        let done = self.over(picks, at, "The wipe-off", verb, due, make)?;
        Ok(done.with_notes(notes))
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
        done.notes
            .extend(cautions_for_scuff().iter().map(Caution::words));
        Ok(done)
    }

    pub(super) fn touch(
        &mut self,
        picks: &[FacePick],
        verdict: TouchVerdict,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let words = format!("Touch test, {}:", verdict.words());
        let picks = self.touched(picks)?;
        let none = |_: &Ticket| Vec::new();
        let done = self.over(&picks, at, "The touch test", &words, none, |faces| {
            What::Touch { faces, verdict }
        })?;
        let notes = self.learned_notes(&picks)?;
        Ok(done.with_notes(notes))
    }

    /// The faces a touch test is of, settled before it is logged (afterwards another film may be
    /// the one that decides): those named, else those with the film of the Rack's line.
    fn touched(&self, picks: &[FacePick]) -> Result<Vec<FacePick>, DeskError> {
        let settle = |pick: &FacePick| {
            let faces = if let Some(faces) = &pick.faces {
                faces.clone()
            } else {
                let (shop, file) = self.piece_file(pick.piece)?;
                let clock = shop.clock();
                film_faces(&Ticket::of(&file), &shop.gates(&clock), self.now)
            };
            Ok(FacePick {
                piece: pick.piece,
                faces: Some(faces),
            })
        };
        picks.iter().map(settle).collect()
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
        let (faces_words, why) = (names(faces), reason.clone());
        let what = What::SandBack {
            faces: faces.to_vec(),
            to,
            reason,
        };
        let done = self.one(piece, what, at, "The sand-back", |called| {
            format!("Sanded {faces_words} of {called} back to {to}: {why}")
        })?;
        notes.extend(sanding_cautions().iter().map(Caution::words));
        Ok(done.with_notes(notes))
    }

    /// The cautions of the products that are wiped on or off these pieces.
    fn wipe_notes(
        &self,
        picks: &[FacePick],
        product_of: impl Fn(&Schedule) -> Option<ProductId>,
    ) -> Result<Vec<String>, DeskError> {
        let mut out: Vec<String> = Vec::new();
        for pick in picks {
            let (shop, file) = self.piece_file(pick.piece)?;
            let product = product_of(&file.schedule).and_then(|id| shop.product(id));
            for words in product
                .iter()
                .flat_map(|product| cautions_for_wipe(product))
            {
                let words = words.words();
                if !out.contains(&words) {
                    out.push(words);
                }
            }
        }
        Ok(out)
    }
}

/// Of these faces, those that carry a coat.
fn with_coats(ticket: &Ticket, keys: &[FaceKey]) -> Vec<FaceKey> {
    keys.iter()
        .copied()
        .filter(|key| ticket.face(*key).is_some_and(|face| !face.coats.is_empty()))
        .collect()
}
