//! The agreement and its change orders.

use super::action::{AgreedPrice, AgreementDraft, ChangeDraft};
use super::prices::WORDS_MOST;
use super::reckon::NOTICE_CAUTION;
use super::refusal::MoneyRefusal;
use super::rows::MoneyRow;
use crate::desk::books::{BooksError, Row};
use crate::desk::error::DeskError;
use crate::desk::people::{line, needed};
use crate::desk::perform::{Desk, Done};
use crate::desk::{Shop, Which};
use crate::money::{LineKind, PartKind, split};
use crate::shop::{Agreement, ChangeId, ChangeOrder, EstimateKept, Job, Signed};
use crate::units::{Money, show_date};
use chrono::NaiveDate;

/// A signature, cleaned, not of the future.
pub(super) fn checked_signature(
    signed: &Signed,
    what: &'static str,
    today: NaiveDate,
    notes: &mut Vec<String>,
) -> Result<Signed, DeskError> {
    if signed.on > today {
        return Err(MoneyRefusal::Ahead { what, today }.into());
    }
    let cure = "type who signed.";
    Ok(Signed {
        on: signed.on,
        by: needed("The name", &signed.by, 80, cure, notes)?,
    })
}

fn agreed<'s>(
    draft: &AgreementDraft,
    shop: &'s Shop,
    job: &Job,
) -> Result<(Money, Money, Option<&'s EstimateKept>), MoneyRefusal> {
    let newest = shop
        .money
        .estimates
        .iter()
        .filter(|kept| kept.job == job.id)
        .max_by_key(|kept| kept.no);
    match draft.price {
        AgreedPrice::Estimate => {
            let kept = newest.ok_or(MoneyRefusal::NoEstimate(job.no))?;
            let sums = kept.totals();
            Ok((sums.net, sums.tax, Some(kept)))
        }
        AgreedPrice::Own { net, tax } => Ok((net, tax, newest)),
    }
}

impl Desk<'_> {
    pub(super) fn sign(&mut self, draft: &AgreementDraft) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(draft.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        let stands = |why| MoneyRefusal::Stands { no: job.no, why };
        let before = shop.money.agreement(job.id);
        if before.is_some() {
            if shop.money.changes(job.id).next().is_some() {
                return Err(stands("has change orders").into());
            }
            if shop.money.invoices.iter().any(|of| of.job == job.id) {
                return Err(stands("was billed").into());
            }
        }
        let signed = checked_signature(&draft.signed, "The signature", today, &mut notes)?;
        let (net, tax, estimate) = agreed(draft, &shop, &job)?;
        if net <= Money::ZERO || tax < Money::ZERO || net + tax > Money::MAX {
            return Err(MoneyRefusal::Price.into());
        }
        let promised = draft.promised.or(job.promised);
        let promised = promised.ok_or(MoneyRefusal::NoPromise)?;
        let dates = |words: String| MoneyRefusal::Dates(words);
        if promised < signed.on {
            let words = format!(
                "The set date, {promised}, lies before the signature, {}: type a later one.",
                signed.on
            );
            return Err(dates(words).into());
        }
        if let Some(starts) = draft
            .starts
            .filter(|day| *day < signed.on || *day > promised)
        {
            let words = format!(
                "The start, {starts}, must lie between the signature, {}, and the set date, {promised}.",
                signed.on
            );
            return Err(dates(words).into());
        }
        let mut asked = draft.parts.clone();
        for part in &mut asked {
            part.event = line("The payment's event", &part.event, WORDS_MOST, &mut notes)?;
        }
        let total = net + tax;
        let parts = split(total, &asked).map_err(MoneyRefusal::from)?;
        let agreement = Agreement {
            job: job.id,
            on: signed.on,
            by: signed.by,
            at: draft.at,
            net,
            tax,
            estimate: estimate.map(|kept| kept.id),
            starts: draft.starts,
            promised,
            parts,
        };
        self.put_money(MoneyRow::Agreement(&agreement))?;
        self.promise(&job, promised)?;
        notes.extend(signing_notes(&shop, &job, &agreement, estimate));
        let parts: Vec<String> = agreement
            .parts
            .iter()
            .map(|part| format!("{} {}", part.kind.word(), part.amount.show()))
            .collect();
        let words = format!(
            "{} the agreement of job {} {}: {} ({} and {} tax), signed {} by {} {}, to be set {}; {}",
            if before.is_some() {
                "Corrected"
            } else {
                "Signed"
            },
            job.no,
            job.title,
            total.show(),
            net.show(),
            tax.show(),
            show_date(agreement.on, today),
            agreement.by,
            agreement.at.words(),
            show_date(promised, today),
            parts.join(", "),
        );
        Ok(Done::said(words).with_notes(notes))
    }

    /// Moves the promised date that the board and the day's order go by.
    fn promise(&mut self, job: &Job, promised: NaiveDate) -> Result<(), BooksError> {
        if job.promised == Some(promised) {
            return Ok(());
        }
        let job = Job {
            promised: Some(promised),
            ..job.clone()
        };
        self.books.put(Row::Job(&job))
    }

    fn change_of(&self, id: ChangeId) -> Result<ChangeOrder, DeskError> {
        let changes = self.books.money()?.changes;
        let found = changes.into_iter().find(|change| change.id == id);
        let what = "change order";
        Ok(found.ok_or(BooksError::Missing { what })?)
    }

    pub(super) fn save_change(
        &mut self,
        which: Which<ChangeId>,
        draft: &ChangeDraft,
    ) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(draft.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        if shop.money.agreement(job.id).is_none() {
            return Err(MoneyRefusal::NotSigned(job.no).into());
        }
        let before = match which {
            Which::New => None,
            Which::This(id) => Some(self.change_of(id)?),
        };
        if let Some(signed) = before.as_ref().filter(|change| change.signed.is_some()) {
            return Err(MoneyRefusal::ChangeSigned(signed.no).into());
        }
        if draft.net == Money::ZERO && draft.days == 0 {
            return Err(MoneyRefusal::NoChange.into());
        }
        if draft.days.abs() > 3650 || draft.net > Money::MAX || draft.net < -Money::MAX {
            let words = "A change moves the date by up to 3650 days; check the number.".to_owned();
            return Err(MoneyRefusal::Figure(words).into());
        }
        let terms = shop.money.terms(job.id);
        let rate = draft
            .tax
            .rate(LineKind::Other, shop.prices.place(&terms.place));
        let no = shop.money.changes(job.id).map(|of| of.no).max();
        let cure = "type what changes.";
        let change = ChangeOrder {
            id: before
                .as_ref()
                .map_or_else(|| ChangeId(self.id()), |of| of.id),
            job: job.id,
            no: before.as_ref().map_or(no.unwrap_or(0) + 1, |of| of.no),
            on: before.as_ref().map_or(today, |of| of.on),
            asked_by: line("Who asked", &draft.asked_by, 80, &mut notes)?,
            what: needed("The change", &draft.what, WORDS_MOST, cure, &mut notes)?,
            net: draft.net,
            tax: rate.of(draft.net),
            days: draft.days,
            signed: None,
        };
        self.put_money(MoneyRow::Change(&change))?;
        let account = shop.money.account(job.id, today);
        let date = account.promised.map_or(today, |date| change.moves(date));
        let words = format!(
            "{} change order {} of job {}: {}, {}; with it {} and set {}; not signed",
            crate::desk::people::verb(&which),
            change.no,
            job.no,
            change.what,
            price_and_days(&change),
            (account.total + change.total()).show(),
            show_date(date, today),
        );
        notes.push("Have it signed before the work is done.".to_owned());
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn sign_change(&mut self, id: ChangeId, signed: &Signed) -> Result<Done, DeskError> {
        let change = self.change_of(id)?;
        let (shop, job) = self.job_of(change.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        if let Some(was) = change.signed {
            return Err(MoneyRefusal::Already {
                what: format!("Change order {}", change.no),
                how: "signed",
                on: was.on,
                by: was.by,
            }
            .into());
        }
        let signed = checked_signature(signed, "The signature", today, &mut notes)?;
        if signed.on < change.on {
            let words = format!(
                "It was written on {}: it cannot be signed before.",
                change.on
            );
            return Err(MoneyRefusal::Dates(words).into());
        }
        let words_by = signed.by.clone();
        let change = ChangeOrder {
            signed: Some(signed),
            ..change
        };
        self.put_money(MoneyRow::Change(&change))?;
        let account = self.books.money()?.account(job.id, today);
        let date = account.promised.unwrap_or(today);
        self.promise(&job, date)?;
        let words = format!(
            "Change order {} of job {} signed by {words_by}: {}; the job is now {} and set {}",
            change.no,
            job.no,
            price_and_days(&change),
            account.total.show(),
            show_date(date, today),
        );
        Ok(Done::said(words).with_notes(notes))
    }
}

/// `$120.00 and $5.40 tax, 3 days later`.
pub(super) fn price_and_days(change: &ChangeOrder) -> String {
    let days = match change.days {
        0 => "same date".to_owned(),
        days if days < 0 => {
            let many = crate::units::counted(days.unsigned_abs() as usize, "day", "days");
            format!("{many} earlier")
        }
        days => {
            let many = crate::units::counted(days.unsigned_abs() as usize, "day", "days");
            format!("{many} later")
        }
    };
    format!(
        "{} and {} tax, {days}",
        change.net.show(),
        change.tax.show()
    )
}

/// What is to be minded on signing: the deposit's cap, the notice, an estimate run out.
fn signing_notes(
    shop: &Shop,
    job: &Job,
    agreement: &Agreement,
    estimate: Option<&EstimateKept>,
) -> Vec<String> {
    let mut notes = Vec::new();
    let total = agreement.total();
    let deposit: Money = agreement
        .parts
        .iter()
        .filter(|part| part.kind == PartKind::Deposit)
        .map(|part| part.amount)
        .sum();
    let terms = shop.money.terms(job.id);
    match shop.prices.cap(&terms.cap) {
        Some(cap) => notes.extend(cap.check(total, deposit).map(|found| found.words)),
        None if deposit > Money::ZERO => notes.push(
            "No place's deposit cap was set for this job, so none was checked; some places cap \
             deposits."
                .to_owned(),
        ),
        None => {}
    }
    if let Some(until) = agreement.notice_until() {
        notes.push(format!(
            "Agreed {}: the buyer can cancel until midnight of {until}, and gets the notice in \
             duplicate. {NOTICE_CAUTION}",
            agreement.at.words()
        ));
        if agreement.starts.is_some_and(|starts| starts <= until) {
            notes.push(format!(
                "The work would start before that notice has run out, {until}."
            ));
        }
    }
    if let Some(kept) = estimate.filter(|kept| kept.valid_until < agreement.on) {
        notes.push(format!(
            "Estimate {} had run out on {}.",
            kept.no, kept.valid_until
        ));
    }
    notes
}
