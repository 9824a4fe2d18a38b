//! Pieces: entered, changed, removed.

use super::action::{PieceDraft, Which};
use super::books::{BooksError, Key, Row, Scope};
use super::changes::changes;
use super::error::DeskError;
use super::people::{NAME_MOST, PIECE_MOST, needed, verb};
use super::perform::{Desk, Done, Made};
use super::typed::PieceTyped;
use super::work::names;
use crate::shape::{FaceKey, recut};
use crate::shop::{Piece, PieceFile, PieceId, Stage, What};

impl Desk<'_> {
    pub(super) fn save_piece(
        &mut self,
        which: Which<PieceId>,
        draft: &PieceDraft,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let cure = "type what the shop calls it, for example bar top.";
        let name = needed(
            "The piece's name",
            &draft.name,
            PIECE_MOST,
            cure,
            &mut notes,
        )?;
        let cure = "type the wood, for example hard maple.";
        let species = needed("The species", &draft.species, NAME_MOST, cure, &mut notes)?;
        let recipe_known = self
            .books
            .recipes()?
            .iter()
            .any(|recipe| recipe.id == draft.recipe);
        if !recipe_known {
            return Err(BooksError::Missing { what: "recipe" }.into());
        }
        let piece = Piece {
            id: PieceId(uuid::Uuid::nil()),
            job: draft.job,
            no: 0,
            name,
            kind: draft.kind,
            species,
            construction: draft.construction,
            shape: draft.shape.clone(),
            recipe: draft.recipe,
            schedule: None,
            stage: Stage::Sanding,
            finished: false,
        };
        let done = match which {
            Which::New => self.add_piece(piece),
            Which::This(id) => self.change_piece(id, piece),
        }?;
        Ok(done.with_notes(notes))
    }

    fn add_piece(&mut self, mut piece: Piece) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::Job(piece.job))?;
        let job = shop
            .job(piece.job)
            .ok_or(BooksError::Missing { what: "job" })?;
        piece.id = PieceId(self.id());
        piece.no = shop
            .files
            .iter()
            .map(|file| file.piece.no + 1)
            .max()
            .unwrap_or(0);
        self.books.put(Row::Piece(&piece))?;
        let words = format!(
            "{} piece {} {}",
            verb(&Which::<PieceId>::New),
            piece.ticket_no(job.no),
            piece.name
        );
        Ok(Done::made(words, Made::Piece(piece.id)))
    }

    fn change_piece(&mut self, id: PieceId, mut piece: Piece) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(id)?;
        let before = file.piece.clone();
        let started = !file.events.is_empty();
        if started && before.recipe != piece.recipe {
            return Err(DeskError::Started(shop.called(&file)));
        }
        piece.id = id;
        piece.job = before.job;
        piece.no = before.no;
        piece.schedule.clone_from(&before.schedule);
        piece.stage = before.stage;
        piece.finished = before.finished;
        let (was, is) = (
            PieceTyped::of(&before, &shop),
            PieceTyped::of(&piece, &shop),
        );
        let mut words = format!(
            "Changed piece {} {}{}",
            shop.ticket_no(&file),
            piece.name,
            changes(&was, &is)
        );
        let mut notes = Vec::new();
        if started {
            let (had, has) = (keys(&before), keys(&piece));
            let cut = recut(&before.shape, &piece.shape);
            let mut added = missing(&has, &had);
            let mut removed = missing(&had, &has);
            added.extend(&cut);
            removed.extend(&cut);
            let mut opened = self.open(id)?;
            opened.file.piece = piece;
            if !added.is_empty() || !removed.is_empty() {
                let gone = missing(&removed, &added);
                if !gone.is_empty() {
                    words = format!("{words}; gone: {}", names(&gone));
                }
                if !added.is_empty() {
                    words = format!("{words}; bare again: {}", names(&added));
                    notes.push(format!(
                        "Cut anew or filled, and so bare: {}. They go through sanding, seal and coats like the \
                         rest.",
                        names(&added)
                    ));
                }
                let what = What::Reshaped { added, removed };
                self.add(&mut opened, what, self.now);
            }
            self.close("The change", vec![opened])?;
        } else {
            self.books.put(Row::Piece(&piece))?;
        }
        Ok(Done::made(words, Made::Piece(id)).with_notes(notes))
    }

    pub(super) fn remove_piece(&mut self, id: PieceId) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(id)?;
        let called = shop.called(&file);
        if !file.events.is_empty() {
            return Err(DeskError::OnRecord(called));
        }
        self.remove(Key::Piece(id), format!("Removed piece {called}"))
    }

    /// One piece with its log, and the shop around it.
    pub(super) fn piece_file(
        &self,
        id: PieceId,
    ) -> Result<(super::snapshot::Shop, PieceFile), BooksError> {
        let shop = self.shop(Scope::One(id))?;
        let file = shop
            .file(id)
            .cloned()
            .ok_or(BooksError::Missing { what: "piece" })?;
        Ok((shop, file))
    }
}

fn keys(piece: &Piece) -> Vec<FaceKey> {
    piece
        .shape
        .faces(piece.construction)
        .iter()
        .map(|face| face.key)
        .collect()
}

fn missing(all: &[FaceKey], from: &[FaceKey]) -> Vec<FaceKey> {
    all.iter()
        .copied()
        .filter(|key| !from.contains(key))
        .collect()
}
