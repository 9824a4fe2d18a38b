//! Everything on record about the money of jobs, and what follows from it for one job.

use super::deal::{Agreement, ChangeOrder, EstimateKept, Invoice, JobTerms, Payment, Sample};
use super::id::JobId;
use crate::money::{Bill, Paid, Settled, overdue, settle};
use crate::units::Money;
use chrono::NaiveDate;

/// The records, each list in the order of its numbers.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MoneyBook {
    /// Terms of jobs of which something was said.
    pub terms: Vec<JobTerms>,
    /// Estimates as given.
    pub estimates: Vec<EstimateKept>,
    /// Agreements.
    pub agreements: Vec<Agreement>,
    /// Change orders.
    pub changes: Vec<ChangeOrder>,
    /// Sample boards.
    pub samples: Vec<Sample>,
    /// Invoices.
    pub invoices: Vec<Invoice>,
    /// Payments.
    pub payments: Vec<Payment>,
}

/// Where a job stands with its money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// The agreement's total; none where nothing was signed.
    pub agreed: Option<Money>,
    /// Signed change orders.
    pub changes: Money,
    /// Change orders not signed: how many, and their sum.
    pub unsigned: (usize, Money),
    /// What the job comes to: agreement and signed changes, or without an agreement what was
    /// billed.
    pub total: Money,
    /// The tax in it.
    pub tax: Money,
    /// The set date with signed changes.
    pub promised: Option<NaiveDate>,
    /// Billed so far.
    pub billed: Money,
    /// The tax in that.
    pub billed_tax: Money,
    /// Paid so far.
    pub paid: Money,
    /// Invoices with what was paid on them.
    pub settled: Vec<Settled>,
    /// Paid ahead of any invoice.
    pub ahead: Money,
    /// What is overdue, and since when.
    pub overdue: Option<(Money, NaiveDate)>,
}

impl Account {
    /// What is still to be paid of the total.
    pub fn balance(&self) -> Money {
        self.total - self.paid
    }

    /// What is billed and not paid.
    pub fn open(&self) -> Money {
        self.settled.iter().map(Settled::open).sum()
    }

    /// The tax in an invoice over so much: in step with the total, so that when all of it is billed
    /// the invoices hold the whole tax, to the cent.
    pub fn tax_in(&self, amount: Money) -> Money {
        let upto = |billed: Money| self.tax.share(billed.cents(), self.total.cents());
        upto(self.billed + amount) - self.billed_tax
    }
}

impl MoneyBook {
    /// The terms of a job.
    pub fn terms(&self, job: JobId) -> JobTerms {
        let kept = self.terms.iter().find(|terms| terms.job == job);
        kept.cloned().unwrap_or_else(|| JobTerms::unsaid(job))
    }

    /// The agreement of a job.
    pub fn agreement(&self, job: JobId) -> Option<&Agreement> {
        self.agreements.iter().find(|of| of.job == job)
    }

    /// The change orders of a job.
    pub fn changes(&self, job: JobId) -> impl Iterator<Item = &ChangeOrder> {
        self.changes.iter().filter(move |of| of.job == job)
    }

    /// The sample boards of a job.
    pub fn samples(&self, job: JobId) -> impl Iterator<Item = &Sample> {
        self.samples.iter().filter(move |of| of.job == job)
    }

    /// Whether a job asked for a sample and none is approved.
    pub fn sample_open(&self, job: JobId) -> bool {
        self.terms(job).asks_sample && !self.samples(job).any(|sample| sample.approved.is_some())
    }

    /// The estimate that counts: the agreement's, else the newest.
    pub fn estimate(&self, job: JobId) -> Option<&EstimateKept> {
        let agreed = self.agreement(job).and_then(|agreement| agreement.estimate);
        let of_job = || self.estimates.iter().filter(|kept| kept.job == job);
        of_job()
            .find(|kept| Some(kept.id) == agreed)
            .or_else(|| of_job().max_by_key(|kept| kept.no))
    }

    /// Whether anything of a job's money is on record, so that the job stays.
    pub fn knows(&self, job: JobId) -> bool {
        self.agreement(job).is_some()
            || self.changes(job).next().is_some()
            || self.samples(job).next().is_some()
            || self.estimates.iter().any(|of| of.job == job)
            || self.invoices.iter().any(|of| of.job == job)
            || self.payments.iter().any(|of| of.job == job)
    }

    /// Where a job stands on a day.
    pub fn account(&self, job: JobId, today: NaiveDate) -> Account {
        let agreement = self.agreement(job);
        let (mut changes, mut tax) = (Money::ZERO, Money::ZERO);
        let mut unsigned = (0, Money::ZERO);
        let mut promised = agreement.map(|agreement| agreement.promised);
        for change in self.changes(job) {
            if change.signed.is_some() {
                changes += change.total();
                tax += change.tax;
                promised = promised.map(|date| change.moves(date));
            } else {
                unsigned.0 += 1;
                unsigned.1 += change.total();
            }
        }
        let invoices: Vec<&Invoice> = self.invoices.iter().filter(|of| of.job == job).collect();
        let billed: Money = invoices.iter().map(|of| of.amount).sum();
        let billed_tax: Money = invoices.iter().map(|of| of.tax).sum();
        let bills: Vec<Bill> = invoices
            .iter()
            .map(|of| Bill {
                no: of.no,
                amount: of.amount,
                due: of.due,
            })
            .collect();
        let number = |id| invoices.iter().find(|of| of.id == id).map(|of| of.no);
        let payments: Vec<Paid> = self
            .payments
            .iter()
            .filter(|of| of.job == job)
            .map(|of| Paid {
                on: of.invoice.and_then(number),
                amount: of.amount,
            })
            .collect();
        let paid = payments.iter().map(|of| of.amount).sum();
        let (settled, ahead) = settle(&bills, &payments);
        let agreed = agreement.map(Agreement::total);
        Account {
            agreed,
            changes,
            unsigned,
            total: agreed.map_or(billed, |agreed| agreed + changes),
            tax: agreement.map_or(billed_tax, |agreement| agreement.tax + tax),
            promised,
            billed,
            billed_tax,
            paid,
            overdue: overdue(&settled, today),
            settled,
            ahead,
        }
    }
}
