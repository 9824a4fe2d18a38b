//! The planning of days: bench hours, slots, the order that is kept, promises pinned.

use super::books::{Key, Row, Scope};
use super::error::DeskError;
use super::people::line;
use super::perform::{Desk, Done, Made};
use super::typed::SlotDraft;
use crate::shop::day_sheet::Sheet;
use crate::shop::{
    BenchBook, JobId, KeptJob, KeptLine, KeptSheet, Promise, PromiseId, Slot, SlotId, WEEK,
    long_day,
};
use crate::units::moment::show_date;
use chrono::NaiveDate;

/// A promise about to be pinned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PromiseDraft {
    /// The job.
    pub job: JobId,
    /// The set date promised.
    pub date: NaiveDate,
    /// The odds of that date, thousandths.
    pub odds: u16,
    /// The even-odds date.
    pub even: NaiveDate,
    /// The 9-in-10 date.
    pub nine: NaiveDate,
    /// How many pieces are open in the shop.
    pub open_pieces: u32,
    /// What it was reckoned by.
    pub basis: String,
}

/// The most slots a shop can have on record: a lifetime of them.
const MOST_SLOTS: usize = 20_000;

impl Desk<'_> {
    pub(super) fn save_bench(&mut self, book: &BenchBook) -> Result<Done, DeskError> {
        book.check()?;
        for (step, time) in book.times.own() {
            time.check(step)?;
        }
        let before = self.books.plan_book()?.bench;
        let mut changed = Vec::new();
        for day in WEEK {
            let (had, has) = (before.week.day(day), book.week.day(day));
            if had != has {
                let hours = super::typed::write_hours(has);
                changed.push(format!("{} {hours}", long_day(day)));
            }
        }
        if before.rack != book.rack {
            changed.push(match book.rack {
                Some(places) => format!("rack {places} places"),
                None => "rack without limit".to_owned(),
            });
        }
        for (what, had, has) in [
            ("dust settles in", before.settle, book.settle),
            (
                "scuff dust settles in",
                before.settle_scuff,
                book.settle_scuff,
            ),
            ("a set-up stands", before.keep, book.keep),
        ] {
            if had != has {
                changed.push(format!("{what} {has} min"));
            }
        }
        if before.times != book.times {
            changed.push("step times".to_owned());
        }
        if before.interruptions != book.interruptions {
            changed.push("interruptions".to_owned());
        }
        if before.seed != book.seed {
            changed.push(format!("seed {}", book.seed));
        }
        self.books.put(Row::BenchBook(book))?;
        Ok(Done::said(if changed.is_empty() {
            "Saved the bench hours unchanged".to_owned()
        } else {
            format!("Changed bench hours: {}", changed.join(", "))
        }))
    }

    pub(super) fn add_slots(&mut self, drafts: &[SlotDraft]) -> Result<Done, DeskError> {
        let zone = self.settings()?.zone;
        let today = crate::shop::day_of(self.now, zone);
        let known = self.books.plan_book()?.slots;
        if known.len() + drafts.len() > MOST_SLOTS {
            return Err(DeskError::TooManySlots(MOST_SLOTS));
        }
        let (mut said, mut notes, mut made) = (Vec::new(), Vec::new(), Made::Nothing);
        for draft in drafts {
            let slot = Slot {
                id: SlotId(self.id()),
                day: draft.day,
                means: draft.means,
                what: line("The slot", &draft.what, 80, &mut notes)?,
            };
            if slot.day < today {
                return Err(DeskError::SlotPast(show_date(slot.day, today)));
            }
            let same =
                |old: &&Slot| (old.day, old.means, &old.what) == (slot.day, slot.means, &slot.what);
            if known.iter().any(|old| same(&old)) {
                return Err(DeskError::SlotThere(format!(
                    "{}, {}",
                    show_date(slot.day, today),
                    slot.words()
                )));
            }
            self.books.put(Row::Slot(&slot))?;
            said.push(format!("{}: {}", show_date(slot.day, today), slot.words()));
            made = Made::Slot(slot.id);
        }
        if said.is_empty() {
            return Err(DeskError::Empty {
                what: "The slot",
                cure: "say it like \"Fri away\" or \"2pm measure Miller 1h\".",
            });
        }
        Ok(Done::made(format!("Noted {}", said.join("; ")), made).with_notes(notes))
    }

    pub(super) fn remove_slot(&mut self, id: SlotId) -> Result<Done, DeskError> {
        let zone = self.settings()?.zone;
        let today = crate::shop::day_of(self.now, zone);
        let slots = self.books.plan_book()?.slots;
        let words = slots.iter().find(|slot| slot.id == id).map_or_else(
            || "a slot".to_owned(),
            |slot| format!("{}: {}", show_date(slot.day, today), slot.words()),
        );
        self.remove(Key::Slot(id), format!("Removed {words}"))
    }

    pub(super) fn keep_sheet(&mut self, kept: &KeptSheet) -> Result<Done, DeskError> {
        let zone = self.settings()?.zone;
        let today = crate::shop::day_of(self.now, zone);
        let count = kept
            .lines
            .iter()
            .filter(|line| crate::shop::day_of(line.start, zone) == kept.day)
            .count();
        self.books.put(Row::KeptSheet(Some(kept)))?;
        Ok(Done::said(format!(
            "Kept the order of {}: {}",
            show_date(kept.day, today),
            crate::units::counted(count, "step", "steps")
        )))
    }

    pub(super) fn pin_promise(&mut self, draft: &PromiseDraft) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::Job(draft.job))?;
        let today = crate::shop::day_of(self.now, shop.settings.zone);
        let job = shop.job(draft.job).ok_or_else(|| DeskError::NoSuch {
            what: "job",
            name: draft.job.to_string(),
        })?;
        if draft.date < today {
            return Err(DeskError::PastPromise {
                date: draft.date,
                today,
            });
        }
        let mut notes = Vec::new();
        let promise = Promise {
            id: PromiseId(self.id()),
            job: job.id,
            at: self.now,
            date: draft.date,
            odds: draft.odds.min(1000),
            even: draft.even,
            nine: draft.nine,
            open_pieces: draft.open_pieces,
            basis: line("The basis", &draft.basis, 400, &mut notes)?,
        };
        let mut job = job.clone();
        job.promised = Some(draft.date);
        self.books.put(Row::Job(&job))?;
        self.books.put(Row::Promise(&promise))?;
        Ok(Done::said(format!(
            "Promised job {} {} for {}, at {} in 100",
            job.no,
            job.title,
            show_date(draft.date, today),
            (u32::from(promise.odds) + 5) / 10
        ))
        .with_notes(notes))
    }
}

/// A sheet as it is kept for its day.
pub fn kept_of(sheet: &Sheet, zone: chrono_tz::Tz) -> KeptSheet {
    KeptSheet {
        day: crate::shop::day_of(sheet.now, zone),
        at: sheet.now,
        lines: sheet
            .lines
            .iter()
            .map(|line| KeptLine {
                key: line.key,
                start: line.start,
                end: line.end,
            })
            .collect(),
        jobs: sheet
            .jobs
            .iter()
            .filter_map(|outlook| {
                Some(KeptJob {
                    job: outlook.job,
                    end: outlook.end?,
                })
            })
            .collect(),
    }
}
