//! One command at work: the store, the moment, and the way to the desk.

use super::answer::Answer;
use super::failure::Failure;
use super::setup::{Opened, Surroundings};
use crate::coating::id::Mint;
use crate::desk::typed::{read_day, read_when};
use crate::desk::{Action, Desk, Made, Scope, Shop, UseAction};
use crate::papers::layout::wrap;
use crate::store::Store;
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;
use serde::Serialize;

/// The store and the moment for one command.
pub struct Session<'a> {
    /// The store.
    pub store: &'a mut Store,
    /// Where identifiers come from.
    pub mint: &'a mut Mint,
    /// The moment.
    pub now: DateTime<Utc>,
    /// The machine's zone.
    pub zone: Tz,
}

/// What a doing verb answers as JSON.
#[derive(Debug, Serialize)]
struct DoneJson<'a> {
    /// What was done, in the journal's words.
    done: &'a str,
    /// What to mind.
    notes: &'a [String],
    /// The identifier of what was made, if anything was.
    made: Option<String>,
    /// What later commands call it: a ticket number, a job number, a name.
    called: Option<String>,
    /// Of a pass: what was checked before it went on.
    #[serde(skip_serializing_if = "Option::is_none")]
    checks: Option<&'a [CheckJson]>,
    /// Of a pass: the cautions of its product at this step.
    #[serde(skip_serializing_if = "Option::is_none")]
    cautions: Option<&'a [CautionJson]>,
}

/// One check before a pass.
#[derive(Debug, Serialize)]
pub struct CheckJson {
    /// `ok`, `mind`, `wait` or `not known`.
    pub stands: &'static str,
    /// The check in words, with its figure, its limit and who says so.
    pub words: String,
}

/// One caution.
#[derive(Debug, Serialize)]
pub struct CautionJson {
    /// What to mind.
    pub line: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// What is told with a pass.
#[derive(Debug, Default, Serialize)]
pub struct PassTold {
    /// What was checked before it went on.
    pub checks: Vec<CheckJson>,
    /// The cautions of its product at this step.
    pub cautions: Vec<CautionJson>,
}

impl<'a> Session<'a> {
    /// A session on an opened store.
    pub fn new(opened: &'a mut Opened, around: &Surroundings) -> Self {
        Self {
            store: &mut opened.store,
            mint: &mut opened.mint,
            now: (around.now)(),
            zone: around.zone,
        }
    }

    /// The whole shop as it stands.
    pub fn shop(&self) -> Result<Shop, Failure> {
        Ok(Shop::read(self.store, Scope::All, self.zone)?)
    }

    /// Today in the shop.
    pub fn today(&self, shop: &Shop) -> NaiveDate {
        self.now.with_timezone(&shop.settings.zone).date_naive()
    }

    /// A moment as typed after an option; nothing is now.
    pub fn when(
        &self,
        option: &'static str,
        text: Option<&str>,
        shop: &Shop,
    ) -> Result<DateTime<Utc>, Failure> {
        let read = read_when(text.unwrap_or(""), self.now, shop.settings.zone);
        Ok(read.map_err(|error| error.at(option))?)
    }

    /// A day as typed after `--day`; nothing is today.
    pub fn day(&self, text: Option<&str>, shop: &Shop) -> Result<NaiveDate, Failure> {
        Ok(read_day(text.unwrap_or(""), self.today(shop))?)
    }

    /// Does an action; what was done, in words.
    pub fn performed(&mut self, action: &Action) -> Result<String, Failure> {
        let zone = self.store_zone()?;
        let mut desk = Desk {
            books: self.store,
            now: self.now,
            mint: self.mint,
            zone: self.zone,
        };
        let done = desk
            .perform(action)
            .map_err(|error| Failure::of_desk(&error, self.now, zone))?;
        Ok(done.words)
    }

    /// Does an action and answers with what was done and what to mind.
    pub fn perform(&mut self, action: &Action) -> Result<Answer, Failure> {
        self.perform_told(action, None)
    }

    /// The same, of an action about use.
    pub fn perform_use(&mut self, action: UseAction) -> Result<Answer, Failure> {
        self.perform(&Action::Use(action))
    }

    /// The same, with what is told with a pass.
    pub fn perform_told(
        &mut self,
        action: &Action,
        told: Option<&PassTold>,
    ) -> Result<Answer, Failure> {
        let zone = self.store_zone()?;
        let mut desk = Desk {
            books: self.store,
            now: self.now,
            mint: self.mint,
            zone: self.zone,
        };
        let done = desk
            .perform(action)
            .map_err(|error| Failure::of_desk(&error, self.now, zone))?;
        let mut lines = wrap(&done.words, usize::MAX, 0);
        let checks = told.iter().flat_map(|told| &told.checks);
        lines.extend(checks.map(|check| format!("Check, {}", check.words)));
        lines.extend(done.notes.iter().map(|note| format!("Mind: {note}")));
        let (made, called) = self.made(done.made)?;
        Answer::done(
            lines,
            DoneJson {
                done: &done.words,
                notes: &done.notes,
                made,
                called,
                checks: told.map(|told| told.checks.as_slice()),
                cautions: told.map(|told| told.cautions.as_slice()),
            },
        )
    }

    fn store_zone(&self) -> Result<Tz, Failure> {
        use crate::desk::Books;
        Ok(self
            .store
            .settings()?
            .map_or(self.zone, |settings| settings.zone))
    }

    /// The identifier of what was made, and what it is called.
    fn made(&self, made: Made) -> Result<(Option<String>, Option<String>), Failure> {
        if made == Made::Nothing {
            return Ok((None, None));
        }
        let shop = self.shop()?;
        let (id, called) = match made {
            Made::Nothing => return Ok((None, None)),
            Made::Client(id) => (
                id.to_string(),
                shop.client(id).map(|client| client.name.clone()),
            ),
            Made::Job(id) => (id.to_string(), shop.job(id).map(|job| job.no.to_string())),
            Made::Piece(id) => (
                id.to_string(),
                shop.file(id).map(|file| shop.ticket_no(file)),
            ),
            Made::Recipe(id) => (
                id.to_string(),
                shop.recipe(id).map(|recipe| recipe.name.clone()),
            ),
            Made::Product(id) => (
                id.to_string(),
                shop.product(id).map(|product| product.name.clone()),
            ),
            Made::Moisture(id) => (id.to_string(), Some(crate::papers::wood::reading_code(id))),
            Made::Wood(id) => {
                let own = shop.wood.own.iter().find(|own| own.id == id);
                (id.to_string(), own.map(|own| own.wood.name.clone()))
            }
            Made::Can(id) => {
                let no = shop.cans.can(id).map(|state| state.can.no.to_string());
                (id.to_string(), no)
            }
            Made::Slot(id) => (id.to_string(), Some(crate::papers::slot_code(id))),
            Made::Pass(id) => (id.to_string(), Some(crate::papers::pass_code(id))),
        };
        Ok((Some(id), called))
    }
}
