//! The agreement of a job and its change orders.

use super::{act, client_name, date, signature};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{read_money, read_parts, read_signed_at, read_tax};
use crate::desk::{AgreedPrice, AgreementDraft, ChangeDraft, MoneyAction, Shop, Which};
use crate::money::TaxChoice;
use crate::papers::deal_paper;
use crate::shop::{Account, ChangeOrder, Job};
use crate::units::Money;
use chrono::NaiveDate;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const SIGN_MORE: &str = "Examples:\n  tackfree sign 1 --at home --pay \"deposit 10 %, progress 50 % when sanded, balance rest\"\n  tackfree sign 1 --at shop --price 8200 --tax-amount 41.20 --pay 50/40/10 --set \"dec 18\" --starts \"dec 1\"\n\nWithout --price it is the newest estimate's. --at: home, away, shop or remote; at home and away the\nthree-day notice of 16 CFR 429 is reckoned.";
/// Examples.
pub const CHANGE_MORE: &str = "Examples:\n  tackfree change 1 \"second sink cutout\" --price 180 --days 2 --asked-by \"Ada Quill\"\n  tackfree change 1 --no 1 --sign\n  tackfree change 1 \"drop the backsplash\" --no 2 --price -120";
/// Fields.
pub const MORE: &str = "With --json: job_no, agreed_cents, changes_cents, unsigned_changes, unsigned_cents, total_cents,\ntax_cents, promised, notice_until, billed_cents, paid_cents, balance_cents, overdue_cents,\noverdue_since, parts [part, amount_cents, event, due], changes [no, what, net_cents, tax_cents, days,\nsigned_on, signed_by], samples [no, carries, twin, approved_on, approved_by]; dates YYYY-MM-DD or null.";

/// What was typed.
#[derive(Debug, Args)]
pub struct SignArgs {
    /// The job.
    pub job: String,
    /// The payments: 50/40/10, or parts with what, how much, event, date.
    #[arg(long, value_name = "PARTS")]
    pub pay: String,
    /// Where it was signed: home, away, shop or remote.
    #[arg(long)]
    pub at: String,
    /// By whom: the client unless said.
    #[arg(long, value_name = "NAME")]
    pub by: Option<String>,
    /// When: today unless said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<String>,
    /// The price before tax, if it is not the newest estimate's.
    #[arg(long, value_name = "AMOUNT")]
    pub price: Option<String>,
    /// The tax on that price.
    #[arg(long, value_name = "AMOUNT", requires = "price")]
    pub tax_amount: Option<String>,
    /// When the work starts.
    #[arg(long, value_name = "DATE")]
    pub starts: Option<String>,
    /// When it is to be set: the promised date unless said.
    #[arg(long, value_name = "DATE")]
    pub set: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct ChangeArgs {
    /// The job.
    pub job: String,
    /// What changes.
    #[arg(required_unless_present = "no")]
    pub what: Option<String>,
    /// Changes or signs this change order.
    #[arg(long, value_name = "NUMBER")]
    pub no: Option<u32>,
    /// Price before tax; a credit with a minus.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub price: Option<String>,
    /// How it is taxed: as place, free, or a rate.
    #[arg(long)]
    pub tax: Option<String>,
    /// Days the set date moves; earlier with a minus.
    #[arg(long, allow_hyphen_values = true)]
    pub days: Option<i32>,
    /// Who asked.
    #[arg(long, value_name = "NAME")]
    pub asked_by: Option<String>,
    /// It was signed.
    #[arg(long, requires = "no", conflicts_with_all = ["what", "price", "tax", "days", "asked_by"])]
    pub sign: bool,
    /// By whom: the client unless said.
    #[arg(long, value_name = "NAME", requires = "sign")]
    pub by: Option<String>,
    /// When: today unless said.
    #[arg(long, value_name = "DATE", requires = "sign")]
    pub on: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct DealArgs {
    /// The job.
    pub job: String,
}

#[derive(Serialize)]
struct DealJson {
    job_no: u32,
    agreed_cents: Option<i64>,
    changes_cents: i64,
    unsigned_changes: usize,
    unsigned_cents: i64,
    total_cents: i64,
    tax_cents: i64,
    promised: Option<NaiveDate>,
    notice_until: Option<NaiveDate>,
    billed_cents: i64,
    paid_cents: i64,
    balance_cents: i64,
    overdue_cents: i64,
    overdue_since: Option<NaiveDate>,
    parts: Vec<PartJson>,
    changes: Vec<ChangeJson>,
    samples: Vec<SampleJson>,
}

#[derive(Serialize)]
struct PartJson {
    part: &'static str,
    amount_cents: i64,
    event: String,
    due: Option<NaiveDate>,
}

#[derive(Serialize)]
struct ChangeJson {
    no: u32,
    what: String,
    net_cents: i64,
    tax_cents: i64,
    days: i32,
    signed_on: Option<NaiveDate>,
    signed_by: Option<String>,
}

#[derive(Serialize)]
struct SampleJson {
    no: u32,
    carries: String,
    twin: String,
    approved_on: Option<NaiveDate>,
    approved_by: Option<String>,
}

/// The agreement is signed.
pub fn sign(args: &SignArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let job = find::job(&shop, &args.job)?;
    let price = match &args.price {
        None => AgreedPrice::Estimate,
        Some(net) => AgreedPrice::Own {
            net: read_money("price", net)?,
            tax: match &args.tax_amount {
                Some(tax) => read_money("tax_amount", tax)?,
                None => Money::ZERO,
            },
        },
    };
    let draft = AgreementDraft {
        job: job.id,
        signed: signature(
            args.by.as_ref(),
            args.on.as_deref(),
            &client_name(&shop, job),
            today,
        )?,
        at: read_signed_at(&args.at)?,
        price,
        starts: date("starts", args.starts.as_deref(), today)?,
        promised: date("set", args.set.as_deref(), today)?,
        parts: read_parts(&args.pay, today)?,
    };
    act(session, MoneyAction::Sign(draft))
}

/// The change order of a number.
pub(super) fn change_no<'s>(
    shop: &'s Shop,
    job: &Job,
    no: u32,
) -> Result<&'s ChangeOrder, Failure> {
    let found = shop.money.changes(job.id).find(|of| of.no == no);
    found.ok_or_else(|| {
        let words = format!(
            "Job {} has no change order {no}: tackfree deal {0} lists them.",
            job.no
        );
        Failure::said(words)
    })
}

/// A change order.
pub fn change(args: &ChangeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let job = find::job(&shop, &args.job)?;
    let before = args.no.map(|no| change_no(&shop, job, no)).transpose()?;
    if let (Some(before), true) = (before, args.sign) {
        let client = client_name(&shop, job);
        let signed = signature(args.by.as_ref(), args.on.as_deref(), &client, today)?;
        return act(session, MoneyAction::SignChange(before.id, signed));
    }
    let net = args.price.as_deref().map(|text| read_money("price", text));
    let tax = args.tax.as_deref().map(|text| read_tax("tax", text));
    let text = |typed: &Option<String>, was: fn(&ChangeOrder) -> &String| {
        let kept = before.map(|before| was(before).clone());
        typed.clone().or(kept).unwrap_or_default()
    };
    let draft = ChangeDraft {
        job: job.id,
        asked_by: text(&args.asked_by, |of| &of.asked_by),
        what: text(&args.what, |of| &of.what),
        net: net
            .transpose()?
            .or(before.map(|of| of.net))
            .unwrap_or(Money::ZERO),
        tax: tax.transpose()?.unwrap_or(TaxChoice::AsPlace),
        days: args.days.or(before.map(|of| of.days)).unwrap_or(0),
    };
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    act(session, MoneyAction::SaveChange(which, draft))
}

/// The deal as it stands.
pub fn run(args: &DealArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let job = find::job(&shop, &args.job)?;
    let account = shop.account(job, today);
    Answer::new(deal_paper(&shop, job, today), json(&shop, job, &account))
}

fn json(shop: &Shop, job: &Job, account: &Account) -> DealJson {
    let agreement = shop.money.agreement(job.id);
    DealJson {
        job_no: job.no,
        agreed_cents: account.agreed.map(Money::cents),
        changes_cents: account.changes.cents(),
        unsigned_changes: account.unsigned.0,
        unsigned_cents: account.unsigned.1.cents(),
        total_cents: account.total.cents(),
        tax_cents: account.tax.cents(),
        promised: account.promised,
        notice_until: agreement.and_then(crate::shop::Agreement::notice_until),
        billed_cents: account.billed.cents(),
        paid_cents: account.paid.cents(),
        balance_cents: account.balance().cents(),
        overdue_cents: account.overdue.map_or(0, |(amount, _)| amount.cents()),
        overdue_since: account.overdue.map(|(_, since)| since),
        parts: agreement
            .iter()
            .flat_map(|of| &of.parts)
            .map(|part| PartJson {
                part: part.kind.word(),
                amount_cents: part.amount.cents(),
                event: part.event.clone(),
                due: part.due,
            })
            .collect(),
        changes: shop
            .money
            .changes(job.id)
            .map(|of| ChangeJson {
                no: of.no,
                what: of.what.clone(),
                net_cents: of.net.cents(),
                tax_cents: of.tax.cents(),
                days: of.days,
                signed_on: of.signed.as_ref().map(|signed| signed.on),
                signed_by: of.signed.as_ref().map(|signed| signed.by.clone()),
            })
            .collect(),
        samples: shop
            .money
            .samples(job.id)
            .map(|of| SampleJson {
                no: of.no,
                carries: of.carries.clone(),
                twin: of.twin.clone(),
                approved_on: of.approved.as_ref().map(|signed| signed.on),
                approved_by: of.approved.as_ref().map(|signed| signed.by.clone()),
            })
            .collect(),
    }
}
