//! What was agreed for a job, and what came of it: terms, estimates as given, the agreement, change
//! orders, sample boards, invoices, payments.

use super::id::{ChangeId, EstimateId, InvoiceId, JobId, PaymentId, SampleId};
use crate::money::{Item, Line, Part, Percent, StepHours, Totals, totals};
use crate::units::Money;
use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

/// How a job is to be priced and what it asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobTerms {
    /// The job.
    pub job: JobId,
    /// The place whose sales tax counts, by name; empty for none.
    pub place: String,
    /// The place whose deposit cap counts, by name; empty for none.
    pub cap: String,
    /// Whether it asks for an approved sample board before it is stained.
    pub asks_sample: bool,
    /// The confidence it is priced at, where it is not the shop's.
    pub confidence: Option<Percent>,
    /// Lines the person added, in order.
    pub items: Vec<Item>,
}

impl JobTerms {
    /// Nothing said of a job yet.
    pub fn unsaid(job: JobId) -> Self {
        Self {
            job,
            place: String::new(),
            cap: String::new(),
            asks_sample: false,
            confidence: None,
            items: Vec::new(),
        }
    }
}

/// An estimate as it was given to the client.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EstimateKept {
    /// Its identifier.
    pub id: EstimateId,
    /// The job.
    pub job: JobId,
    /// Its number within the job.
    pub no: u32,
    /// When it was given.
    pub on: NaiveDate,
    /// Until when it holds.
    pub valid_until: NaiveDate,
    /// The confidence of its hours.
    pub confidence: Percent,
    /// The hour as sold.
    pub hour: Money,
    /// Minutes priced.
    pub priced: i64,
    /// Its lines.
    pub lines: Vec<Line>,
    /// The likely minutes by step.
    pub steps: Vec<StepHours>,
}

impl EstimateKept {
    /// What its lines come to.
    pub fn totals(&self) -> Totals {
        totals(&self.lines)
    }
}

/// Where the buyer agreed: it decides whether the three-day notice applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SignedAt {
    /// At the buyer's home.
    Home,
    /// At another place that is not the seller's.
    Away,
    /// At the shop.
    Shop,
    /// Wholly by mail or telephone.
    Remote,
}

impl SignedAt {
    /// All.
    pub const ALL: [Self; 4] = [Self::Home, Self::Away, Self::Shop, Self::Remote];

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Home => "home",
            Self::Away => "away",
            Self::Shop => "shop",
            Self::Remote => "remote",
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Home => "at the buyer's home",
            Self::Away => "away from the shop",
            Self::Shop => "at the shop",
            Self::Remote => "by mail or telephone",
        }
    }

    /// The price from which 16 CFR 429.0(a) covers a sale agreed there: $25 at the buyer's home,
    /// $130 at another place that is not the seller's.
    pub fn notice_from(self) -> Option<Money> {
        match self {
            Self::Home => Some(Money::from_cents(2_500)),
            Self::Away => Some(Money::from_cents(13_000)),
            Self::Shop | Self::Remote => None,
        }
    }
}

/// What was signed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Agreement {
    /// The job.
    pub job: JobId,
    /// When.
    pub on: NaiveDate,
    /// By whom.
    pub by: String,
    /// Where.
    pub at: SignedAt,
    /// Before tax.
    pub net: Money,
    /// Tax.
    pub tax: Money,
    /// The estimate it rests on.
    pub estimate: Option<EstimateId>,
    /// When the work starts.
    pub starts: Option<NaiveDate>,
    /// When it is to be set.
    pub promised: NaiveDate,
    /// The payments, adding up to the total.
    pub parts: Vec<Part>,
}

impl Agreement {
    /// The total, tax included.
    pub fn total(&self) -> Money {
        self.net + self.tax
    }

    /// The last day on which the buyer can cancel by 16 CFR 429, where the sale is covered.
    pub fn notice_until(&self) -> Option<NaiveDate> {
        let from = self.at.notice_from()?;
        (self.total() >= from).then(|| crate::money::notice_until(self.on))
    }
}

/// A signature.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// When.
    pub on: NaiveDate,
    /// By whom.
    pub by: String,
}

/// A change order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChangeOrder {
    /// Its identifier.
    pub id: ChangeId,
    /// The job.
    pub job: JobId,
    /// Its number within the job.
    pub no: u32,
    /// When it was written.
    pub on: NaiveDate,
    /// Who asked.
    pub asked_by: String,
    /// What changes.
    pub what: String,
    /// Price before tax, below nothing for a credit.
    pub net: Money,
    /// Tax on it.
    pub tax: Money,
    /// Days the set date moves, below nothing for earlier.
    pub days: i32,
    /// Signed, or not yet.
    pub signed: Option<Signed>,
}

impl ChangeOrder {
    /// What it adds to the total.
    pub fn total(&self) -> Money {
        self.net + self.tax
    }

    /// A date moved by its days.
    pub fn moves(&self, date: NaiveDate) -> NaiveDate {
        let days = Days::new(self.days.unsigned_abs().into());
        let moved = if self.days < 0 {
            date.checked_sub_days(days)
        } else {
            date.checked_add_days(days)
        };
        moved.unwrap_or(date)
    }
}

/// A sample board.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sample {
    /// Its identifier.
    pub id: SampleId,
    /// The job.
    pub job: JobId,
    /// Its number within the job.
    pub no: u32,
    /// When it was made.
    pub made: NaiveDate,
    /// What it carries: wood, end grit, products, coats.
    pub carries: String,
    /// The light it was looked at in.
    pub light: String,
    /// Where its twin is kept.
    pub twin: String,
    /// Approved, or not yet.
    pub approved: Option<Signed>,
}

/// An invoice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Invoice {
    /// Its identifier.
    pub id: InvoiceId,
    /// The job.
    pub job: JobId,
    /// Its number in the shop.
    pub no: u32,
    /// Its date.
    pub on: NaiveDate,
    /// When it falls due.
    pub due: NaiveDate,
    /// For what.
    pub what: String,
    /// How much, tax included.
    pub amount: Money,
    /// The tax in it.
    pub tax: Money,
}

/// A payment; money given back is below nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Payment {
    /// Its identifier.
    pub id: PaymentId,
    /// The job.
    pub job: JobId,
    /// Its receipt's number in the shop.
    pub no: u32,
    /// When.
    pub on: NaiveDate,
    /// How much.
    pub amount: Money,
    /// The invoice it was paid on.
    pub invoice: Option<InvoiceId>,
    /// How: check 1042, cash, transfer.
    pub how: String,
}
