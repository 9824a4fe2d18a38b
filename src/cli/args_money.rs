//! Verbs, with their help: estimate, agreement, hours, bills.

use super::answer::Answer;
use super::failure::Failure;
use super::money::{bills, clock, deal, estimate, places, prices, samples, slip};
use super::session::Session;
use clap::Subcommand;

/// Estimate, agreement, hours, bills.
#[derive(Debug, Subcommand)]
pub enum MoneyVerb {
    /// Shows or changes what the shop prices by: its hour, markups, woods, terms.
    #[command(after_help = prices::MORE)]
    Prices(Box<prices::PricesArgs>),
    /// Enters a place and its sales tax, changes it or takes it out.
    #[command(after_help = places::TAX_MORE)]
    Taxplace(places::TaxPlaceArgs),
    /// Enters a place's cap on deposits, changes it or takes it out.
    #[command(after_help = places::CAP_MORE)]
    Cap(places::CapArgs),
    /// Says where a job is taxed, whose deposit cap counts, whether it asks for a sample.
    #[command(after_help = estimate::TERMS_MORE)]
    Terms(estimate::TermsArgs),
    /// Adds a line of its own to a job's estimate (bought in, or anything else), or changes one.
    #[command(after_help = estimate::ITEM_MORE)]
    Item(estimate::ItemArgs),
    /// Estimates a job: hours likely and in ranges, price by line, tax; keeps it when given.
    #[command(after_help = estimate::MORE)]
    Estimate(estimate::EstimateArgs),
    /// Tells the shop's pace at each step: learned, or where it starts.
    #[command(after_help = estimate::PACE_MORE)]
    Pace,
    /// Signs the agreement of a job: price, payments, dates; checks deposit cap and notice.
    #[command(after_help = deal::SIGN_MORE)]
    Sign(deal::SignArgs),
    /// Writes a change order, changes one, or notes that it was signed.
    #[command(after_help = deal::CHANGE_MORE)]
    Change(deal::ChangeArgs),
    /// Notes a sample board, or that it was approved.
    #[command(after_help = samples::SAMPLE_MORE)]
    Sampleboard(samples::SampleArgs),
    /// Tells the deal of a job: agreement, changes, samples, invoices, payments, balance.
    #[command(after_help = deal::MORE)]
    Deal(deal::DealArgs),
    /// Writes an invoice, or corrects one.
    #[command(after_help = bills::INVOICE_MORE)]
    Invoice(bills::InvoiceArgs),
    /// Takes a payment, or corrects one.
    #[command(after_help = bills::PAID_MORE)]
    Paid(bills::PaidArgs),
    /// Tells what is owed by job and client, what is overdue and since when.
    #[command(after_help = bills::OWED_MORE)]
    Owed(bills::OwedArgs),
    /// Prints a reminder to send for what is billed and open.
    #[command(after_help = bills::REMIND_MORE)]
    Remind(bills::RemindArgs),
    /// Starts, interrupts and stops the clock on a step.
    #[command(after_help = clock::CLOCK_MORE)]
    Clock(clock::ClockArgs),
    /// Lists the hours log, or types hours later and corrects them.
    #[command(after_help = clock::HOURS_MORE)]
    Hourslog(clock::HoursArgs),
    /// Holds a job's hours against its estimate: slippage by step in time, dollars and per cent.
    #[command(after_help = slip::SLIP_MORE)]
    Slip(slip::SlipArgs),
}

impl MoneyVerb {
    /// Does it.
    pub(super) fn run(&self, session: &mut Session<'_>) -> Result<Answer, Failure> {
        match self {
            Self::Prices(args) => prices::run(args, session),
            Self::Taxplace(args) => places::tax_place(args, session),
            Self::Cap(args) => places::cap(args, session),
            Self::Terms(args) => estimate::terms(args, session),
            Self::Item(args) => estimate::item(args, session),
            Self::Estimate(args) => estimate::run(args, session),
            Self::Pace => estimate::pace(session),
            Self::Sign(args) => deal::sign(args, session),
            Self::Change(args) => deal::change(args, session),
            Self::Sampleboard(args) => samples::sample(args, session),
            Self::Deal(args) => deal::run(args, session),
            Self::Invoice(args) => bills::invoice(args, session),
            Self::Paid(args) => bills::paid(args, session),
            Self::Owed(args) => bills::owed(args, session),
            Self::Remind(args) => bills::remind(args, session),
            Self::Clock(args) => clock::clock(args, session),
            Self::Hourslog(args) => clock::hours(args, session),
            Self::Slip(args) => slip::slip(args, session),
        }
    }
}
