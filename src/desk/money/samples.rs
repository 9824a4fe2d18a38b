//! Sample boards, and what is removed.

use super::action::SampleDraft;
use super::deals::checked_signature;
use super::prices::WORDS_MOST;
use super::refusal::MoneyRefusal;
use super::rows::{MoneyKey, MoneyRow};
use crate::desk::Which;
use crate::desk::books::{BooksError, Key};
use crate::desk::error::DeskError;
use crate::desk::people::{line, needed, verb};
use crate::desk::perform::{Desk, Done};
use crate::shop::{Sample, SampleId, Signed};
use crate::units::show_date;

impl Desk<'_> {
    fn sample_of(&self, id: SampleId) -> Result<Sample, DeskError> {
        let samples = self.books.money()?.samples;
        let found = samples.into_iter().find(|sample| sample.id == id);
        let what = "sample board";
        Ok(found.ok_or(BooksError::Missing { what })?)
    }

    pub(super) fn save_sample(
        &mut self,
        which: Which<SampleId>,
        draft: &SampleDraft,
    ) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(draft.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(self.sample_of(id)?),
        };
        if let Some(was) = before.as_ref().and_then(|of| of.approved.clone()) {
            return Err(MoneyRefusal::Already {
                what: "The sample board".to_owned(),
                how: "approved",
                on: was.on,
                by: was.by,
            }
            .into());
        }
        if draft.made > today {
            let what = "A sample board";
            return Err(MoneyRefusal::Ahead { what, today }.into());
        }
        let no = shop.money.samples(job.id).map(|of| of.no).max();
        let cure = "type wood, end grit, products and coats.";
        let sample = Sample {
            id: before
                .as_ref()
                .map_or_else(|| SampleId(self.id()), |of| of.id),
            job: job.id,
            no: before.as_ref().map_or(no.unwrap_or(0) + 1, |of| of.no),
            made: draft.made,
            carries: needed(
                "What the board carries",
                &draft.carries,
                WORDS_MOST,
                cure,
                &mut notes,
            )?,
            light: line("The light", &draft.light, 80, &mut notes)?,
            twin: line("The twin's place", &draft.twin, 80, &mut notes)?,
            approved: None,
        };
        self.put_money(MoneyRow::Sample(&sample))?;
        if sample.twin.is_empty() {
            notes.push(
                "Say where its twin is kept, so that the board can be found again.".to_owned(),
            );
        }
        let words = format!(
            "{} sample board {} of job {}: {}",
            verb(&which),
            sample.no,
            job.no,
            sample.carries
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn approve_sample(
        &mut self,
        id: SampleId,
        signed: &Signed,
    ) -> Result<Done, DeskError> {
        let sample = self.sample_of(id)?;
        let (shop, job) = self.job_of(sample.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        if let Some(was) = sample.approved {
            return Err(MoneyRefusal::Already {
                what: format!("Sample board {}", sample.no),
                how: "approved",
                on: was.on,
                by: was.by,
            }
            .into());
        }
        let signed = checked_signature(signed, "The approval", today, &mut notes)?;
        if signed.on < sample.made {
            let words = format!(
                "It was made on {}: it cannot be approved before.",
                sample.made
            );
            return Err(MoneyRefusal::Dates(words).into());
        }
        let words = format!(
            "Sample board {} of job {} approved {} by {}: {}",
            sample.no,
            job.no,
            show_date(signed.on, today),
            signed.by,
            sample.carries
        );
        let sample = Sample {
            approved: Some(signed),
            ..sample
        };
        self.put_money(MoneyRow::Sample(&sample))?;
        Ok(Done::said(words).with_notes(notes))
    }

    /// Removes what nothing hangs on; the words name it.
    pub(super) fn remove_money(&mut self, key: MoneyKey) -> Result<Done, DeskError> {
        let book = self.books.money()?;
        let jobs = self.books.jobs()?;
        let job_no = |id| jobs.iter().find(|job| job.id == id).map_or(0, |job| job.no);
        let missing = |what| DeskError::from(BooksError::Missing { what });
        let words = match key {
            MoneyKey::Estimate(id) => {
                let of = book.estimates.iter().find(|of| of.id == id);
                let of = of.ok_or_else(|| missing("estimate"))?;
                format!("estimate {} of job {}", of.no, job_no(of.job))
            }
            MoneyKey::Agreement(job) => {
                if book.invoices.iter().any(|of| of.job == job) {
                    let (no, why) = (job_no(job), "was billed");
                    return Err(MoneyRefusal::Stands { no, why }.into());
                }
                format!("the agreement of job {}", job_no(job))
            }
            MoneyKey::Change(id) => {
                let of = book.changes.iter().find(|of| of.id == id);
                let of = of.ok_or_else(|| missing("change order"))?;
                if of.signed.is_some() {
                    return Err(MoneyRefusal::ChangeSigned(of.no).into());
                }
                format!("change order {} of job {}", of.no, job_no(of.job))
            }
            MoneyKey::Sample(id) => {
                let of = book.samples.iter().find(|of| of.id == id);
                let of = of.ok_or_else(|| missing("sample board"))?;
                format!("sample board {} of job {}", of.no, job_no(of.job))
            }
            MoneyKey::Invoice(id) => {
                let of = book.invoices.iter().find(|of| of.id == id);
                let of = of.ok_or_else(|| missing("invoice"))?;
                if book.payments.iter().any(|paid| paid.invoice == Some(id)) {
                    return Err(MoneyRefusal::PaidOn(of.no).into());
                }
                format!("invoice {} of {}", of.no, of.amount.show())
            }
            MoneyKey::Payment(id) => {
                let of = book.payments.iter().find(|of| of.id == id);
                let of = of.ok_or_else(|| missing("payment"))?;
                format!("payment {} of {}", of.no, of.amount.show())
            }
            MoneyKey::Hours(id) => self.hours_words(id)?,
        };
        self.remove(Key::Money(key), format!("Removed {words}"))
    }
}
