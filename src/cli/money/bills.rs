//! Invoices, payments, what is owed, reminders.

use super::{act, client_name, date};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::read_money;
use crate::desk::{InvoiceDraft, MoneyAction, PaymentDraft, Shop, Which};
use crate::money::PartKind;
use crate::papers::{owed_paper, reminder_text};
use crate::shop::{Account, ClientId, Invoice, Job, Payment};
use crate::units::Money;
use chrono::NaiveDate;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const INVOICE_MORE: &str = "Examples:\n  tackfree invoice 1 deposit\n  tackfree invoice 1 \"$1,200\" --what \"template and lumber\" --due \"in 10 days\"\n  tackfree invoice 1 rest\n  tackfree invoice --change 3 --due \"dec 20\"\n\nAn amount, a part of the agreement (deposit, progress, balance, holdback) or rest: what is not billed yet.";
/// Examples.
pub const PAID_MORE: &str = "Examples:\n  tackfree paid 1 1250 --how \"check 1042\"\n  tackfree paid 1 \"$2,000.00\" --invoice 3 --on yesterday\n  tackfree paid 1 -40 --how transfer\n  tackfree paid --change 2 --amount 1520\n\nMoney given back with a minus. Without --invoice it goes to the oldest open one.";
/// Examples.
pub const OWED_MORE: &str = "Examples:\n  tackfree owed\n  tackfree owed --client \"Ada Quill\"\n\nWith --json: jobs [job_no, job, client, total_cents, billed_cents, paid_cents, balance_cents, open_cents,\noverdue_cents, overdue_since], clients [client, balance_cents, overdue_cents], balance_cents,\noverdue_cents.";
/// Fields.
pub const REMIND_MORE: &str =
    "Text to send. With --json: job_no, open_cents, overdue_cents, overdue_since, text.";

/// What was typed.
#[derive(Debug, Args)]
pub struct InvoiceArgs {
    /// The job.
    #[arg(required_unless_present = "change", conflicts_with = "change")]
    pub job: Option<String>,
    /// How much: an amount, a part of the agreement, or rest.
    #[arg(required_unless_present = "change")]
    pub amount: Option<String>,
    /// For what.
    #[arg(long)]
    pub what: Option<String>,
    /// Its date: today unless said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<String>,
    /// When it falls due.
    #[arg(long, value_name = "DATE")]
    pub due: Option<String>,
    /// Corrects this invoice.
    #[arg(long, value_name = "NUMBER")]
    pub change: Option<u32>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct PaidArgs {
    /// The job.
    #[arg(required_unless_present = "change", conflicts_with = "change")]
    pub job: Option<String>,
    /// How much; given back with a minus.
    #[arg(
        allow_hyphen_values = true,
        required_unless_present = "change",
        conflicts_with = "change"
    )]
    pub paid: Option<String>,
    /// How: check 1042, cash, transfer.
    #[arg(long)]
    pub how: Option<String>,
    /// When: today unless said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<String>,
    /// The invoice it was paid on.
    #[arg(long, value_name = "NUMBER")]
    pub invoice: Option<u32>,
    /// Corrects the payment of this receipt.
    #[arg(long, value_name = "NUMBER")]
    pub change: Option<u32>,
    /// The corrected amount, with --change.
    #[arg(long, requires = "change", allow_hyphen_values = true)]
    pub amount: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct OwedArgs {
    /// Only this client's jobs.
    #[arg(long)]
    pub client: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct RemindArgs {
    /// The job.
    pub job: String,
}

#[derive(Serialize)]
struct OwedJson {
    jobs: Vec<OwedJobJson>,
    clients: Vec<OwedClientJson>,
    balance_cents: i64,
    overdue_cents: i64,
}

#[derive(Serialize)]
struct OwedJobJson {
    job_no: u32,
    job: String,
    client: String,
    total_cents: i64,
    billed_cents: i64,
    paid_cents: i64,
    balance_cents: i64,
    open_cents: i64,
    overdue_cents: i64,
    overdue_since: Option<NaiveDate>,
}

#[derive(Serialize)]
struct OwedClientJson {
    client: String,
    balance_cents: i64,
    overdue_cents: i64,
}

#[derive(Serialize)]
struct RemindJson {
    job_no: u32,
    open_cents: i64,
    overdue_cents: i64,
    overdue_since: Option<NaiveDate>,
    text: String,
}

/// The invoice of a number.
pub(super) fn invoice_no(shop: &Shop, no: u32) -> Result<&Invoice, Failure> {
    let found = shop.money.invoices.iter().find(|of| of.no == no);
    found.ok_or_else(|| Failure::said(format!("There is no invoice {no}.")))
}

/// The payment of a receipt's number.
pub(super) fn payment_no(shop: &Shop, no: u32) -> Result<&Payment, Failure> {
    let found = shop.money.payments.iter().find(|of| of.no == no);
    found.ok_or_else(|| Failure::said(format!("There is no receipt {no}.")))
}

/// How much is meant, and for what unless that was said.
fn amount(
    shop: &Shop,
    job: &Job,
    account: &Account,
    text: &str,
) -> Result<(Money, String), Failure> {
    let word = text.trim().to_lowercase();
    if word == "rest" {
        let left = account.total - account.billed;
        if left <= Money::ZERO {
            let words = format!("All of job {} is billed: there is no rest.", job.no);
            return Err(Failure::said(words));
        }
        return Ok((left, "what is left to pay".to_owned()));
    }
    if let Some(kind) = PartKind::ALL.into_iter().find(|kind| kind.word() == word) {
        let parts = shop.money.agreement(job.id).map(|of| &of.parts);
        let mut of_kind = parts.into_iter().flatten().filter(|part| part.kind == kind);
        return match (of_kind.next(), of_kind.next()) {
            (Some(part), None) => Ok((part.amount, format!("{word}, {}", part.event))),
            (None, _) => Err(Failure::said(format!(
                "The agreement of job {} has no {word}: say the amount.",
                job.no
            ))),
            (Some(_), Some(_)) => Err(Failure::said(format!(
                "The agreement of job {} has several parts called {word}: say the amount.",
                job.no
            ))),
        };
    }
    Ok((read_money("amount", text)?, "work on your order".to_owned()))
}

/// An invoice.
pub fn invoice(args: &InvoiceArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let before = args.change.map(|no| invoice_no(&shop, no)).transpose()?;
    let job = match (before, &args.job) {
        (Some(before), _) => shop.job(before.job),
        (None, text) => Some(find::job(&shop, text.as_deref().unwrap_or_default())?),
    };
    let job = job.ok_or_else(|| Failure::said("Its job is not there."))?;
    let account = shop.account(job, today);
    let meant = args.amount.as_deref();
    let (sum, what) = match (meant, before) {
        (Some(text), _) => amount(&shop, job, &account, text)?,
        (None, Some(before)) => (before.amount, before.what.clone()),
        (None, None) => return Err(Failure::said("Say how much is billed.")),
    };
    let on = date("on", args.on.as_deref(), today)?;
    let due = date("due", args.due.as_deref(), today)?;
    let draft = InvoiceDraft {
        job: job.id,
        what: args.what.clone().unwrap_or(what),
        amount: sum,
        on: on.or(before.map(|of| of.on)).unwrap_or(today),
        due: due.or(before.map(|of| of.due)),
    };
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    act(session, MoneyAction::SaveInvoice(which, draft))
}

/// A payment.
pub fn paid(args: &PaidArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let before = args.change.map(|no| payment_no(&shop, no)).transpose()?;
    let job = match (before, &args.job) {
        (Some(before), _) => before.job,
        (None, text) => find::job(&shop, text.as_deref().unwrap_or_default())?.id,
    };
    let typed = args.paid.as_deref().or(args.amount.as_deref());
    let amount = match (typed, before) {
        (Some(text), _) => read_money("amount", text)?,
        (None, Some(before)) => before.amount,
        (None, None) => return Err(Failure::said("Say how much was paid.")),
    };
    let invoice = args.invoice.map(|no| invoice_no(&shop, no)).transpose()?;
    let on = date("on", args.on.as_deref(), today)?;
    let draft = PaymentDraft {
        job,
        amount,
        on: on.or(before.map(|of| of.on)).unwrap_or(today),
        invoice: invoice.map(|of| of.id).or(before.and_then(|of| of.invoice)),
        how: args
            .how
            .clone()
            .or(before.map(|of| of.how.clone()))
            .unwrap_or_default(),
    };
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    act(session, MoneyAction::SavePayment(which, draft))
}

/// What is owed.
pub fn owed(args: &OwedArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let client = args
        .client
        .as_deref()
        .map(|text| find::client(&shop, text))
        .transpose()?;
    let mut accounts: Vec<(&Job, Account)> = shop
        .jobs
        .iter()
        .filter(|job| client.is_none_or(|client| client.id == job.client))
        .map(|job| (job, shop.account(job, today)))
        .filter(|(_, of)| of.total != Money::ZERO || of.paid != Money::ZERO)
        .collect();
    accounts.sort_by_cached_key(|(job, _)| {
        (client_name(&shop, job).to_lowercase(), job.client, job.no)
    });
    let late = |of: &Account| of.overdue.map_or(0, |(amount, _)| amount.cents());
    let mut clients: Vec<(ClientId, OwedClientJson)> = Vec::new();
    for (job, of) in &accounts {
        if clients.last().is_none_or(|(id, _)| *id != job.client) {
            let client = OwedClientJson {
                client: client_name(&shop, job),
                balance_cents: 0,
                overdue_cents: 0,
            };
            clients.push((job.client, client));
        }
        if let Some((_, sums)) = clients.last_mut() {
            sums.balance_cents += of.balance().cents();
            sums.overdue_cents += late(of);
        }
    }
    let json = OwedJson {
        clients: clients.into_iter().map(|(_, sums)| sums).collect(),
        jobs: accounts
            .iter()
            .map(|(job, of)| OwedJobJson {
                job_no: job.no,
                job: job.title.clone(),
                client: client_name(&shop, job),
                total_cents: of.total.cents(),
                billed_cents: of.billed.cents(),
                paid_cents: of.paid.cents(),
                balance_cents: of.balance().cents(),
                open_cents: of.open().cents(),
                overdue_cents: late(of),
                overdue_since: of.overdue.map(|(_, since)| since),
            })
            .collect(),
        balance_cents: accounts.iter().map(|(_, of)| of.balance().cents()).sum(),
        overdue_cents: accounts.iter().map(|(_, of)| late(of)).sum(),
    };
    Answer::new(owed_paper(&shop, &accounts, today), json)
}

/// A reminder.
pub fn remind(args: &RemindArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let job = find::job(&shop, &args.job)?;
    let account = shop.account(job, today);
    let lines = reminder_text(&shop, job, &account, today)
        .ok_or_else(|| Failure::said(format!("Nothing is billed and open of job {}.", job.no)))?;
    let json = RemindJson {
        job_no: job.no,
        open_cents: account.open().cents(),
        overdue_cents: account.overdue.map_or(0, |(amount, _)| amount.cents()),
        overdue_since: account.overdue.map(|(_, since)| since),
        text: lines.join("\n"),
    };
    Answer::new(lines, json)
}
