//! Every action on money and hours.

use super::rows::MoneyKey;
use crate::desk::Which;
use crate::money::{PartAsked, StepKind, TaxChoice};
use crate::shop::{
    Break, ChangeId, HoursId, InvoiceId, JobId, JobTerms, PaymentId, PieceId, PriceBook, SampleId,
    Signed, SignedAt,
};
use crate::units::Money;
use chrono::{DateTime, NaiveDate, Utc};

/// The price that was agreed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AgreedPrice {
    /// That of the newest estimate given.
    Estimate,
    /// Another: before tax, and tax.
    Own {
        /// Before tax.
        net: Money,
        /// Tax.
        tax: Money,
    },
}

/// An agreement as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AgreementDraft {
    /// The job.
    pub job: JobId,
    /// The signature.
    pub signed: Signed,
    /// Where.
    pub at: SignedAt,
    /// The price.
    pub price: AgreedPrice,
    /// When the work starts.
    pub starts: Option<NaiveDate>,
    /// When it is to be set; none takes the job's promised date.
    pub promised: Option<NaiveDate>,
    /// The payments.
    pub parts: Vec<PartAsked>,
}

/// A change order as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChangeDraft {
    /// The job.
    pub job: JobId,
    /// Who asked.
    pub asked_by: String,
    /// What changes.
    pub what: String,
    /// Price before tax; below nothing for a credit.
    pub net: Money,
    /// How it is taxed.
    pub tax: TaxChoice,
    /// Days the set date moves.
    pub days: i32,
}

/// A sample board as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SampleDraft {
    /// The job.
    pub job: JobId,
    /// When it was made.
    pub made: NaiveDate,
    /// What it carries.
    pub carries: String,
    /// The light it was looked at in.
    pub light: String,
    /// Where its twin is kept.
    pub twin: String,
}

/// An invoice as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InvoiceDraft {
    /// The job.
    pub job: JobId,
    /// For what.
    pub what: String,
    /// How much, tax included.
    pub amount: Money,
    /// Its date.
    pub on: NaiveDate,
    /// When it falls due; none is the shop's terms after its date.
    pub due: Option<NaiveDate>,
}

/// A payment as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaymentDraft {
    /// The job.
    pub job: JobId,
    /// How much; below nothing for money given back.
    pub amount: Money,
    /// When.
    pub on: NaiveDate,
    /// The invoice it was paid on.
    pub invoice: Option<InvoiceId>,
    /// How.
    pub how: String,
}

/// An entry of the hours log as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoursDraft {
    /// The job.
    pub job: JobId,
    /// The pieces.
    pub pieces: Vec<PieceId>,
    /// The step.
    pub step: StepKind,
    /// Start.
    pub started: DateTime<Utc>,
    /// End.
    pub ended: DateTime<Utc>,
    /// Interruptions.
    pub breaks: Vec<Break>,
}

/// One action on money or hours.
#[derive(Debug, Clone, PartialEq)]
pub enum MoneyAction {
    /// Save the figures for pricing.
    SavePrices(PriceBook),
    /// Save the terms of a job.
    SaveTerms(JobTerms),
    /// Keep the estimate of a job as it is given to the client.
    GiveEstimate {
        /// The job.
        job: JobId,
        /// Until when it holds; none is the shop's usual time.
        valid_until: Option<NaiveDate>,
    },
    /// Sign the agreement, or correct it while nothing hangs on it.
    Sign(AgreementDraft),
    /// Write a change order, or change one that is not signed.
    SaveChange(Which<ChangeId>, ChangeDraft),
    /// A change order was signed.
    SignChange(ChangeId, Signed),
    /// Note a sample board, or correct one.
    SaveSample(Which<SampleId>, SampleDraft),
    /// A sample board was approved.
    ApproveSample(SampleId, Signed),
    /// Write an invoice, or correct one nothing was paid on.
    SaveInvoice(Which<InvoiceId>, InvoiceDraft),
    /// Take a payment, or correct one.
    SavePayment(Which<PaymentId>, PaymentDraft),
    /// Start the clock on a step; one that runs is stopped at the same moment.
    StartClock {
        /// The job.
        job: JobId,
        /// The pieces.
        pieces: Vec<PieceId>,
        /// The step.
        step: StepKind,
        /// When.
        at: DateTime<Utc>,
    },
    /// The work was interrupted.
    PauseClock {
        /// When.
        at: DateTime<Utc>,
        /// Why.
        why: String,
    },
    /// The work goes on.
    GoOn {
        /// When.
        at: DateTime<Utc>,
    },
    /// Stop the clock.
    StopClock {
        /// When.
        at: DateTime<Utc>,
    },
    /// Type hours worked, or correct them.
    SaveHours(Which<HoursId>, HoursDraft),
    /// Remove something nothing hangs on.
    Remove(MoneyKey),
}
