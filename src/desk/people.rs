//! Settings, clients and jobs.

use super::action::{ClientDraft, JobDraft, Which};
use super::books::{BooksError, Key, Row, Scope};
use super::changes::changes;
use super::error::DeskError;
use super::money::HoursOf;
use super::perform::{Desk, Done, Made};
use super::typed::{JobTyped, SettingsTyped};
use crate::shop::{Client, ClientId, Job, JobId, Settings, cautions_for_job};
use crate::units::{clean_line, clean_text};
use chrono::Datelike;
use unicode_segmentation::UnicodeSegmentation;

/// Longest name of a client or title of a job.
pub(super) const NAME_MOST: usize = 80;
/// Longest name of a piece: it must fit a narrow column of the board.
pub(super) const PIECE_MOST: usize = 40;
/// Longest other line.
pub(super) const LINE_MOST: usize = 200;
/// Longest notes.
const NOTES_MOST: usize = 4000;

/// One line of text from outside: control characters left out, length held.
pub(super) fn line(
    what: &'static str,
    raw: &str,
    most: usize,
    notes: &mut Vec<String>,
) -> Result<String, DeskError> {
    let (text, dropped) = clean_line(raw);
    held(what, text, dropped, most, notes)
}

fn held(
    what: &'static str,
    text: String,
    dropped: usize,
    most: usize,
    notes: &mut Vec<String>,
) -> Result<String, DeskError> {
    let has = text.graphemes(true).count();
    if has > most {
        return Err(DeskError::TooLong { what, most, has });
    }
    if dropped > 0 {
        notes.push(format!(
            "{what}: {dropped} control characters were left out."
        ));
    }
    Ok(text)
}

/// A line that must say something.
pub(super) fn needed(
    what: &'static str,
    raw: &str,
    most: usize,
    cure: &'static str,
    notes: &mut Vec<String>,
) -> Result<String, DeskError> {
    let text = line(what, raw, most, notes)?;
    if text.is_empty() {
        Err(DeskError::Empty { what, cure })
    } else {
        Ok(text)
    }
}

fn notes_text(what: &'static str, raw: &str, notes: &mut Vec<String>) -> Result<String, DeskError> {
    let (text, dropped) = clean_text(raw);
    held(what, text, dropped, NOTES_MOST, notes)
}

impl Desk<'_> {
    pub(super) fn save_settings(&mut self, settings: &Settings) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let settings = Settings {
            shop_name: line(
                "The shop's name",
                &settings.shop_name,
                NAME_MOST,
                &mut notes,
            )?,
            shop_address: line(
                "The shop's address",
                &settings.shop_address,
                LINE_MOST,
                &mut notes,
            )?,
            ..settings.clone()
        };
        let (was, is) = (self.settings()?, &settings);
        let changed = changes(&SettingsTyped::of(&was), &SettingsTyped::of(is));
        self.books.put(Row::Settings(is))?;
        Ok(Done::said(format!("Saved the settings{changed}")).with_notes(notes))
    }

    pub(super) fn save_client(
        &mut self,
        which: Which<ClientId>,
        draft: &ClientDraft,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let clients = self.books.clients()?;
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(
                clients
                    .iter()
                    .find(|client| client.id == id)
                    .ok_or(BooksError::Missing { what: "client" })?,
            ),
        };
        let id = before.map_or_else(
            || ClientId(self.mint.next(self.now.timestamp_millis())),
            |client| client.id,
        );
        let cure = "type who the work is for.";
        let client = Client {
            id,
            name: needed(
                "The client's name",
                &draft.name,
                NAME_MOST,
                cure,
                &mut notes,
            )?,
            phone: line("The telephone number", &draft.phone, LINE_MOST, &mut notes)?,
            email: line("The mail address", &draft.email, LINE_MOST, &mut notes)?,
            address: line(
                "The client's address",
                &draft.address,
                LINE_MOST,
                &mut notes,
            )?,
            notes: notes_text("The client's notes", &draft.notes, &mut notes)?,
        };
        self.books.put(Row::Client(&client))?;
        let same = |other: &&Client| {
            other.id != id && other.name.to_lowercase() == client.name.to_lowercase()
        };
        if let Some(other) = clients.iter().find(same) {
            notes.push(format!(
                "There is another client called {}: add a street or a first name to the one or the \
                 other, or the two are told apart by identifier only.",
                other.name
            ));
        }
        let verb = verb(&which);
        let changed = before.map_or_else(String::new, |before| changes(before, &client));
        let words = format!("{verb} client {}{changed}", client.name);
        Ok(Done::made(words, Made::Client(id)).with_notes(notes))
    }

    pub(super) fn save_job(
        &mut self,
        which: Which<JobId>,
        draft: &JobDraft,
    ) -> Result<Done, DeskError> {
        let mut notes = Vec::new();
        let jobs = self.books.jobs()?;
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(
                jobs.iter()
                    .find(|job| job.id == id)
                    .ok_or(BooksError::Missing { what: "job" })?,
            ),
        };
        let clients = self.books.clients()?;
        let client = clients
            .iter()
            .find(|client| client.id == draft.client)
            .ok_or(BooksError::Missing { what: "client" })?;
        let today = self.now.with_timezone(&self.settings()?.zone).date_naive();
        // A promise that was made in time may pass by; only a new or changed one must lie ahead.
        let promise_changed = before.is_none_or(|job| job.promised != draft.promised);
        if let Some(date) = draft
            .promised
            .filter(|date| *date < today && promise_changed)
        {
            return Err(DeskError::PastPromise { date, today });
        }
        if let Some(year) = draft
            .house_built
            .filter(|year| !(1500..=today.year() + 1).contains(year))
        {
            return Err(DeskError::Year(year));
        }
        let id = before.map_or_else(
            || JobId(self.mint.next(self.now.timestamp_millis())),
            |job| job.id,
        );
        let cure = "type what the job is, for example kitchen island.";
        let job = Job {
            id,
            no: before.map_or_else(
                || jobs.iter().map(|job| job.no).max().unwrap_or(0) + 1,
                |job| job.no,
            ),
            client: draft.client,
            title: needed("The job's title", &draft.title, NAME_MOST, cure, &mut notes)?,
            site: line("The site address", &draft.site, LINE_MOST, &mut notes)?,
            house_built: draft.house_built,
            promised: draft.promised,
            notes: notes_text("The job's notes", &draft.notes, &mut notes)?,
            taken: before.map_or(today, |job| job.taken),
        };
        self.books.put(Row::Job(&job))?;
        notes.extend(
            cautions_for_job(&job)
                .iter()
                .map(crate::shop::Caution::words),
        );
        let mut words = format!(
            "{} job {} {} for {}",
            verb(&which),
            job.no,
            job.title,
            client.name
        );
        if let Some(before) = before {
            let shop = self.shop(Scope::Job(id))?;
            words += &changes(&JobTyped::of(before, &shop), &JobTyped::of(&job, &shop));
        }
        Ok(Done::made(words, Made::Job(id)).with_notes(notes))
    }

    pub(super) fn remove_client(&mut self, id: ClientId) -> Result<Done, DeskError> {
        let clients = self.books.clients()?;
        let client = clients
            .iter()
            .find(|client| client.id == id)
            .ok_or(BooksError::Missing { what: "client" })?;
        if self.books.jobs()?.iter().any(|job| job.client == id) {
            return Err(DeskError::OnRecord(client.name.clone()));
        }
        let words = format!("Removed client {}", client.name);
        self.remove(Key::Client(id), words)
    }

    pub(super) fn remove_job(&mut self, id: JobId) -> Result<Done, DeskError> {
        let jobs = self.books.jobs()?;
        let job = jobs
            .iter()
            .find(|job| job.id == id)
            .ok_or(BooksError::Missing { what: "job" })?;
        if !self.books.pieces(Scope::Job(id))?.is_empty() {
            return Err(DeskError::OnRecord(format!("Job {} {}", job.no, job.title)));
        }
        if self.books.money()?.knows(id) || !self.books.hours(HoursOf::Job(id))?.is_empty() {
            return Err(DeskError::OnRecord(format!("Job {} {}", job.no, job.title)));
        }
        let words = format!("Removed job {} {}", job.no, job.title);
        self.remove(Key::Job(id), words)
    }
}

/// Added or changed.
pub(super) fn verb<T>(which: &Which<T>) -> &'static str {
    match which {
        Which::New => "Added",
        Which::This(_) => "Changed",
    }
}
