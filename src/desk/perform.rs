//! Performing an action: check, write, journal, all or nothing.

use super::action::Action;
use super::books::{Books, BooksError, Key};
use super::error::DeskError;
use super::snapshot::Shop;
use crate::coating::ProductId;
use crate::coating::id::Mint;
use crate::shop::{CanId, ClientId, JobId, PassId, PieceId, ReadingId, RecipeId, Settings, WoodId};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use uuid::Uuid;

/// What an action made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Made {
    /// Nothing that has an identifier of its own.
    #[default]
    Nothing,
    /// A client.
    Client(ClientId),
    /// A job.
    Job(JobId),
    /// A piece.
    Piece(PieceId),
    /// A recipe.
    Recipe(RecipeId),
    /// A product.
    Product(ProductId),
    /// A pass.
    Pass(PassId),
    /// A can; of several the last.
    Can(CanId),
    /// A moisture reading.
    Moisture(ReadingId),
    /// A wood of the shop's own.
    Wood(WoodId),
    /// A change of one day's bench hours.
    Slot(crate::shop::SlotId),
}

/// What was done, and is on the disk.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Done {
    /// The journal's words.
    pub words: String,
    /// Things to mind: cautions, doubts about a figure, what follows.
    pub notes: Vec<String>,
    /// What was made.
    pub made: Made,
}

impl Done {
    pub(super) fn said(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            ..Self::default()
        }
    }

    pub(super) fn made(words: impl Into<String>, made: Made) -> Self {
        Self {
            words: words.into(),
            notes: Vec::new(),
            made,
        }
    }

    pub(super) fn with_notes(mut self, notes: Vec<String>) -> Self {
        self.notes.extend(notes);
        self
    }
}

/// The desk: where actions are done.
pub struct Desk<'a> {
    /// The store.
    pub books: &'a mut dyn Books,
    /// The moment.
    pub now: DateTime<Utc>,
    /// Where identifiers come from.
    pub mint: &'a mut Mint,
    /// The machine's zone, for a store without settings.
    pub zone: Tz,
}

impl Desk<'_> {
    /// Does one action: all of it, durably, or nothing.
    pub fn perform(&mut self, action: &Action) -> Result<Done, DeskError> {
        match action {
            Action::Undo => {
                let words = self.books.undo(self.now)?.ok_or(DeskError::NothingToUndo)?;
                return Ok(Done::said(format!("Undone: {words}")));
            }
            Action::Redo => {
                let words = self.books.redo(self.now)?.ok_or(DeskError::NothingToRedo)?;
                return Ok(Done::said(format!("Done again: {words}")));
            }
            _ => {}
        }
        self.books.begin()?;
        // Asked inside the transaction: another program on the same store may have written since.
        let begun = self.books.last_id().map(|last| self.mint.raise(last));
        let done = match begun
            .map_err(DeskError::from)
            .and_then(|()| self.inside(action))
        {
            Ok(done) => done,
            Err(error) => {
                self.books.rollback();
                return Err(error);
            }
        };
        self.books.commit(self.now, &done.words)?;
        Ok(done)
    }

    #[allow(clippy::too_many_lines, reason = "one line an action")]
    fn inside(&mut self, action: &Action) -> Result<Done, DeskError> {
        match action {
            Action::SaveSettings(settings) => self.save_settings(settings),
            Action::SaveClient(which, draft) => self.save_client(*which, draft),
            Action::SaveJob(which, draft) => self.save_job(*which, draft),
            Action::SavePiece(which, draft) => self.save_piece(*which, draft),
            Action::SaveRecipe(which, draft) => self.save_recipe(*which, draft),
            Action::SaveProduct(which, draft) => self.save_product(*which, draft),
            Action::RemoveClient(id) => self.remove_client(*id),
            Action::RemoveJob(id) => self.remove_job(*id),
            Action::RemovePiece(id) => self.remove_piece(*id),
            Action::RemoveRecipe(id) => self.remove_recipe(*id),
            Action::Tick {
                piece,
                faces,
                grit,
                at,
            } => self.tick(*piece, faces, *grit, *at),
            Action::Untick {
                piece,
                face,
                grit,
                at,
            } => self.untick(*piece, *face, *grit, *at),
            Action::Wipe { picks, at } => self.wipe(picks, *at),
            Action::LogPass(draft) => self.log_pass(draft),
            Action::CorrectPass { pass, amount } => self.correct_pass(*pass, *amount),
            Action::CorrectPassUse {
                pass,
                amount,
                drawn,
            } => self.correct_pass_use(*pass, *amount, drawn),
            Action::Can(action) => self.can_action(action),
            Action::WipeOff { picks, at } => self.wipe_off(picks, *at),
            Action::Scuff { picks, means, at } => self.scuff(picks, *means, *at),
            Action::Touch { picks, verdict, at } => self.touch(picks, *verdict, *at),
            Action::SandBack {
                piece,
                faces,
                to,
                reason,
                at,
            } => self.sand_back(*piece, faces, *to, reason, *at),
            Action::DeclareHidden {
                piece,
                face,
                reason,
            } => self.declare_hidden(*piece, *face, reason),
            Action::WithdrawHidden { piece, face } => self.withdraw_hidden(*piece, *face),
            Action::MoveAlong(pieces) => self.move_along(pieces),
            Action::MoveBack(piece) => self.move_back(*piece),
            Action::SetList { piece, item, done } => self.set_list(*piece, *item, *done),
            Action::LogAir { at, air, sure } => self.log_air(*at, *air, *sure),
            Action::CorrectAir {
                reading,
                at,
                air,
                sure,
            } => self.correct_air(*reading, *at, *air, *sure),
            Action::RemoveAir(at) => self.remove_air(*at),
            Action::ImportAir(import) => self.import_air(import),
            Action::Foretell(step) => self.foretell(*step),
            Action::ClearForecast => self.clear_forecast(),
            Action::LearnAfresh(product) => self.learn_afresh(*product),
            Action::SetDrying(rules) => self.set_drying(rules),
            Action::CorrectTime { piece, lines, at } => self.correct_time(*piece, lines, *at),
            Action::CorrectPassTime {
                pass,
                started,
                ended,
            } => self.correct_pass_time(*pass, *started, *ended),
            Action::TickChore {
                day,
                chore,
                way,
                at,
            } => self.tick_chore(*day, *chore, *way, *at),
            Action::UntickChore { day, chore } => self.untick_chore(*day, *chore),
            Action::CloseDay { day, reason } => self.close_day(*day, reason.as_deref()),
            Action::SaveMoisture(which, piece, of) => self.save_moisture(*which, *piece, of),
            Action::RemoveMoisture(id) => self.remove_moisture(*id),
            Action::SaveSite(site) => self.save_site(site),
            Action::SavePieceWood(of) => self.save_piece_wood(of),
            Action::SaveWood(which, wood) => self.save_wood(*which, wood),
            Action::RemoveWood(id) => self.remove_wood(*id),
            Action::SaveReadyRule(rule) => self.save_ready_rule(rule),
            Action::SaveStanding(piece, standing) => self.save_standing(*piece, standing),
            Action::AcceptFinding {
                piece,
                rule,
                about,
                reason,
            } => self.accept(*piece, *rule, about, reason),
            Action::WithdrawAccepted { piece, rule, about } => {
                self.withdraw_accepted(*piece, *rule, about)
            }
            Action::SaveLayoutBook(book) => self.save_layout_book(book),
            Action::Use(action) => self.use_action(action),
            Action::SaveBench(book) => self.save_bench(book),
            Action::AddSlots(drafts) => self.add_slots(drafts),
            Action::RemoveSlot(id) => self.remove_slot(*id),
            Action::KeepSheet(kept) => self.keep_sheet(kept),
            Action::StartStep { key, at } => self.start_step(*key, *at),
            Action::FinishStep(end) => self.finish_step(end),
            Action::DropStep => self.drop_step(),
            Action::PinPromise(draft) => self.pin_promise(draft),
            Action::Money(action) => self.on_money(action),
            Action::Undo | Action::Redo => Err(DeskError::NothingToUndo),
        }
    }

    /// The settings in force.
    pub(super) fn settings(&self) -> Result<Settings, BooksError> {
        Ok(self
            .books
            .settings()?
            .unwrap_or_else(|| Settings::starting(self.zone)))
    }

    /// A new identifier.
    pub(super) fn id(&mut self) -> Uuid {
        self.mint.next(self.now.timestamp_millis())
    }

    /// Removes something in the store's words.
    pub(super) fn remove(&mut self, key: Key, words: String) -> Result<Done, DeskError> {
        self.books.remove(key)?;
        Ok(Done::said(words))
    }

    /// The starting products and recipes, for a new store. Saved as one action; a shop that is
    /// open already stays as it is.
    pub fn furnish(&mut self, settings: &Settings) -> Result<(), DeskError> {
        self.books.begin()?;
        match self.write_start(settings) {
            Ok(true) => {
                let words = "Opened the shop with starting products and recipes";
                Ok(self.books.commit_start(self.now, words)?)
            }
            Ok(false) => {
                self.books.rollback();
                Ok(())
            }
            Err(error) => {
                self.books.rollback();
                Err(error.into())
            }
        }
    }

    /// Whether there was anything to write: another program may have opened the shop meanwhile.
    fn write_start(&mut self, settings: &Settings) -> Result<bool, BooksError> {
        use super::books::Row;
        if self.books.settings()?.is_some() {
            return Ok(false);
        }
        self.mint.raise(self.books.last_id()?);
        let at = self.now.timestamp_millis();
        let products = crate::shop::ready_products(self.mint, at);
        let recipes = crate::shop::ready_recipes(&products, self.mint, at);
        self.books.put(Row::Settings(settings))?;
        for product in &products {
            self.books.put(Row::Product(product))?;
        }
        for recipe in &recipes {
            self.books.put(Row::Recipe(recipe))?;
        }
        Ok(true)
    }

    /// The whole shop as it stands, for words and look-ups inside an action.
    pub(super) fn shop(&self, scope: super::books::Scope) -> Result<Shop, BooksError> {
        Shop::read(self.books, scope, self.zone)
    }
}
