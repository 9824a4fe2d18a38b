//! What the desk asks of the store about money and hours.

use crate::shop::{
    Agreement, ChangeId, ChangeOrder, EstimateId, EstimateKept, HoursEntry, HoursId, Invoice,
    InvoiceId, JobId, JobTerms, Payment, PaymentId, PriceBook, Sample, SampleId,
};

/// Which hours to read, by start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoursOf {
    /// All.
    All,
    /// Those of one job.
    Job(JobId),
    /// The entry whose clock runs, if one does.
    Running,
}

/// Something of money to write: it replaces what has the same identifier.
#[derive(Debug, Clone, Copy)]
pub enum MoneyRow<'a> {
    /// The figures for pricing.
    Prices(&'a PriceBook),
    /// The terms of a job.
    Terms(&'a JobTerms),
    /// An estimate as given.
    Estimate(&'a EstimateKept),
    /// An agreement.
    Agreement(&'a Agreement),
    /// A change order.
    Change(&'a ChangeOrder),
    /// A sample board.
    Sample(&'a Sample),
    /// An invoice.
    Invoice(&'a Invoice),
    /// A payment.
    Payment(&'a Payment),
    /// An entry of the hours log.
    Hours(&'a HoursEntry),
}

/// Something of money to remove.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoneyKey {
    /// An estimate.
    Estimate(EstimateId),
    /// The agreement of a job.
    Agreement(JobId),
    /// A change order.
    Change(ChangeId),
    /// A sample board.
    Sample(SampleId),
    /// An invoice.
    Invoice(InvoiceId),
    /// A payment.
    Payment(PaymentId),
    /// An entry of the hours log.
    Hours(HoursId),
}
