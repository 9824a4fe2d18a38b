//! The hours log: one clock, started, interrupted, stopped; and hours typed later.

use super::action::HoursDraft;
use super::refusal::MoneyRefusal;
use super::rows::{HoursOf, MoneyRow};
use crate::desk::books::BooksError;
use crate::desk::error::DeskError;
use crate::desk::people::{line, verb};
use crate::desk::perform::{Desk, Done};
use crate::desk::{Shop, Which};
use crate::money::{StepKind, work_words};
use crate::shop::{Break, HoursEntry, HoursId, HoursLogError, JobId, PieceId};
use crate::units::show_moment;
use chrono::{DateTime, Utc};

/// Longest reason of an interruption.
const WHY_MOST: usize = 80;

impl Shop {
    /// `sanding of faces on 3A bar top`.
    pub fn work_words(&self, step: StepKind, job: JobId, pieces: &[PieceId]) -> String {
        let names: Vec<String> = pieces
            .iter()
            .filter_map(|id| self.file(*id))
            .map(|file| self.called(file))
            .collect();
        let on = if names.is_empty() {
            let no = self.job(job).map_or(0, |job| job.no);
            format!("for job {no}")
        } else {
            format!("on {}", names.join(", "))
        };
        format!("{} {on}", step.words())
    }

    fn hours_words(&self, entry: &HoursEntry) -> String {
        self.work_words(entry.step, entry.job, &entry.pieces)
    }
}

impl Desk<'_> {
    pub(super) fn stop_clock(&mut self, at: DateTime<Utc>) -> Result<Done, DeskError> {
        let (shop, entry) = self.running()?;
        let entry = self.stopped(&shop, entry, at)?;
        self.put_money(MoneyRow::Hours(&entry))?;
        Ok(Done::said(self.stopped_words(&shop, &entry)))
    }

    fn running(&self) -> Result<(Shop, HoursEntry), DeskError> {
        let shop = self.shop(crate::desk::Scope::All)?;
        let entry = shop.running.clone().ok_or(MoneyRefusal::NoClock)?;
        Ok((shop, entry))
    }

    /// A running entry ended at a moment, an interruption that lasted with it.
    fn stopped(
        &self,
        shop: &Shop,
        mut entry: HoursEntry,
        at: DateTime<Utc>,
    ) -> Result<HoursEntry, DeskError> {
        self.later_than(shop, &entry, at)?;
        // Who stops while interrupted worked up to the interruption.
        let ended = entry.paused().map_or(at, |paused| paused.from);
        if entry.paused().is_some() {
            entry.breaks.pop();
        }
        entry.ended = Some(ended);
        entry.check(self.now).map_err(MoneyRefusal::from)?;
        Ok(entry)
    }

    fn stopped_words(&self, shop: &Shop, entry: &HoursEntry) -> String {
        let worked = work_words(entry.worked(self.now).num_minutes());
        format!(
            "Stopped the clock on {} after {worked}",
            shop.hours_words(entry)
        )
    }

    /// Refuses a moment before the last one the clock knows, and one of the future.
    fn later_than(
        &self,
        shop: &Shop,
        entry: &HoursEntry,
        at: DateTime<Utc>,
    ) -> Result<(), MoneyRefusal> {
        if at > self.now {
            return Err(HoursLogError::Ahead.into());
        }
        let last = entry.breaks.last();
        let last = last.map_or(entry.started, |last| last.until.unwrap_or(last.from));
        if at < last {
            let zone = shop.settings.zone;
            return Err(MoneyRefusal::BeforeStart(show_moment(last, self.now, zone)));
        }
        Ok(())
    }

    pub(super) fn start_clock(
        &mut self,
        job: JobId,
        pieces: &[PieceId],
        step: StepKind,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let (shop, _) = self.job_of(job)?;
        let pieces = pieces_of(&shop, job, pieces)?;
        let mut before = String::new();
        if let Some(entry) = shop.running.clone() {
            let same = (entry.job, entry.step) == (job, step) && entry.pieces == pieces;
            if same {
                let since = show_moment(entry.started, self.now, shop.settings.zone);
                return Err(MoneyRefusal::Runs(since).into());
            }
            let entry = self.stopped(&shop, entry, at)?;
            self.put_money(MoneyRow::Hours(&entry))?;
            before = format!("{}; ", self.stopped_words(&shop, &entry));
        }
        let entry = HoursEntry {
            id: HoursId(self.id()),
            job,
            pieces,
            step,
            started: at,
            ended: None,
            breaks: Vec::new(),
        };
        entry.check(self.now).map_err(MoneyRefusal::from)?;
        self.put_money(MoneyRow::Hours(&entry))?;
        let words = format!("started the clock on {}", shop.hours_words(&entry));
        let words = if before.is_empty() {
            words.replacen("started", "Started", 1)
        } else {
            format!("{before}{words}")
        };
        let notes = self.overlap_notes(&shop, &entry)?;
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn pause_clock(&mut self, at: DateTime<Utc>, why: &str) -> Result<Done, DeskError> {
        let (shop, mut entry) = self.running()?;
        let mut notes = Vec::new();
        if let Some(paused) = entry.paused() {
            let since = show_moment(paused.from, self.now, shop.settings.zone);
            return Err(MoneyRefusal::Paused(since).into());
        }
        self.later_than(&shop, &entry, at)?;
        let why = line("The reason", why, WHY_MOST, &mut notes)?;
        let said = if why.is_empty() {
            String::new()
        } else {
            format!(": {why}")
        };
        entry.breaks.push(Break {
            from: at,
            until: None,
            why,
        });
        self.put_money(MoneyRow::Hours(&entry))?;
        let words = format!("Interrupted {}{said}", shop.hours_words(&entry));
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn go_on(&mut self, at: DateTime<Utc>) -> Result<Done, DeskError> {
        let (shop, mut entry) = self.running()?;
        if entry.paused().is_none() {
            return Err(MoneyRefusal::NotPaused.into());
        }
        self.later_than(&shop, &entry, at)?;
        if let Some(last) = entry.breaks.last_mut() {
            last.until = Some(at);
        }
        self.put_money(MoneyRow::Hours(&entry))?;
        Ok(Done::said(format!(
            "Went on with {}",
            shop.hours_words(&entry)
        )))
    }

    pub(super) fn save_hours(
        &mut self,
        which: Which<HoursId>,
        draft: &HoursDraft,
    ) -> Result<Done, DeskError> {
        let (shop, _) = self.job_of(draft.job)?;
        let mut notes = Vec::new();
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(self.entry(id)?),
        };
        let mut breaks = Vec::new();
        for one in &draft.breaks {
            breaks.push(Break {
                why: line("The reason", &one.why, WHY_MOST, &mut notes)?,
                ..one.clone()
            });
        }
        let entry = HoursEntry {
            id: before
                .as_ref()
                .map_or_else(|| HoursId(self.id()), |of| of.id),
            job: draft.job,
            pieces: pieces_of(&shop, draft.job, &draft.pieces)?,
            step: draft.step,
            started: draft.started,
            ended: Some(draft.ended),
            breaks,
        };
        entry.check(self.now).map_err(MoneyRefusal::from)?;
        self.put_money(MoneyRow::Hours(&entry))?;
        notes.extend(self.overlap_notes(&shop, &entry)?);
        let zone = shop.settings.zone;
        let was = before.map_or_else(String::new, |before| {
            let worked = work_words(before.worked(self.now).num_minutes());
            format!(" (was {worked} of {})", shop.hours_words(&before))
        });
        let words = format!(
            "{} hours: {} of {}, {}{was}",
            verb(&which),
            work_words(entry.worked(self.now).num_minutes()),
            shop.hours_words(&entry),
            show_moment(entry.started, self.now, zone),
        );
        Ok(Done::said(words).with_notes(notes))
    }

    fn entry(&self, id: HoursId) -> Result<HoursEntry, DeskError> {
        let hours = self.books.hours(HoursOf::All)?;
        let what = "entry of the hours log";
        let found = hours.into_iter().find(|entry| entry.id == id);
        Ok(found.ok_or(BooksError::Missing { what })?)
    }

    pub(super) fn hours_words(&self, id: HoursId) -> Result<String, DeskError> {
        let entry = self.entry(id)?;
        let shop = self.shop(crate::desk::Scope::All)?;
        let worked = work_words(entry.worked(self.now).num_minutes());
        Ok(format!("{worked} of {}", shop.hours_words(&entry)))
    }

    /// Other entries that lie over this one: one pair of hands does one thing at a time.
    fn overlap_notes(&self, shop: &Shop, entry: &HoursEntry) -> Result<Vec<String>, DeskError> {
        let hours = self.books.hours(HoursOf::All)?;
        let zone = shop.settings.zone;
        Ok(hours
            .iter()
            .filter(|other| other.id != entry.id && other.overlaps(entry, self.now))
            .take(3)
            .map(|other| {
                format!(
                    "It lies over {}, {}: one pair of hands; correct the one or the other.",
                    shop.hours_words(other),
                    show_moment(other.started, self.now, zone)
                )
            })
            .collect())
    }
}

/// The pieces, each once, all of this job.
fn pieces_of(shop: &Shop, job: JobId, pieces: &[PieceId]) -> Result<Vec<PieceId>, DeskError> {
    let mut out = pieces.to_vec();
    out.sort_unstable();
    out.dedup();
    for id in &out {
        let file = shop
            .file(*id)
            .ok_or(BooksError::Missing { what: "piece" })?;
        if file.piece.job != job {
            return Err(MoneyRefusal::OtherPiece(shop.called(file)).into());
        }
    }
    Ok(out)
}
