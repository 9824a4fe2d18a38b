//! Shows or changes the figures for pricing, places and their tax, deposit caps.

use super::act;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::MoneyAction;
use crate::desk::typed::{FieldError, read_markup, read_money, read_percent};
use crate::money::{Margin, Percent, ShopRate};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::shop::PriceBook;
use crate::units::Money;
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree prices\n  tackfree prices --pay 52000 --overhead \"$21,600\" --billable \"55 %\"\n  tackfree prices --markup-bought \"25 % margin\" --wood \"black walnut=14.50\"\n\nA markup is of the cost, a margin of the price: write margin behind the figure to mean that. With\n--json and nothing to change: hour_break_even_cents, hour_sell_cents, hour_overhead_cents,\nbillable_hours, confidence, markups [of, markup, margin], least_charge_cents, board_foot_cents, woods,\ntax_places [place, rate, on, source], deposit_caps [place, share, amount_cents, above_cents, source,\nstanding, note].";
/// What was typed.
#[derive(Debug, Args)]
pub struct PricesArgs {
    /// What the owner means to be paid in a year.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub pay: Option<String>,
    /// Taxes and insurance that follow the pay, per cent of it.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub pay_tax: Option<String>,
    /// Fixed overhead of a year.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub overhead: Option<String>,
    /// Laid by for tools in a year.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub tools: Option<String>,
    /// Hours worked in a year.
    #[arg(long)]
    pub hours: Option<u32>,
    /// How much of them can be billed.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub billable: Option<String>,
    /// Profit, as a margin of the price.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub profit: Option<String>,
    /// Share of jobs that the priced hours cover.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub confidence: Option<String>,
    /// Markup on finish.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub markup_finish: Option<String>,
    /// Markup on lumber.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub markup_lumber: Option<String>,
    /// Markup on things bought in.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub markup_bought: Option<String>,
    /// Finish bought on top of what the work is planned to use.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub finish_more: Option<String>,
    /// The least charged for a job, before tax.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub least: Option<String>,
    /// A board foot of a wood not listed.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub board_foot: Option<String>,
    /// A board foot of one wood: "hard maple=8.75"; "hard maple=" takes it out.
    #[arg(long, value_name = "WOOD=AMOUNT")]
    pub wood: Vec<String>,
    /// Days after its date that an invoice falls due.
    #[arg(long, value_name = "DAYS")]
    pub due_after: Option<u32>,
    /// Days that an estimate holds.
    #[arg(long, value_name = "DAYS")]
    pub holds: Option<u32>,
}

#[derive(Serialize)]
struct PricesJson {
    hour_break_even_cents: i64,
    hour_sell_cents: i64,
    hour_overhead_cents: i64,
    billable_hours: String,
    confidence: String,
    markups: Vec<MarkupJson>,
    least_charge_cents: i64,
    board_foot_cents: i64,
    woods: Vec<(String, i64)>,
    tax_places: Vec<PlaceJson>,
    deposit_caps: Vec<CapJson>,
}

#[derive(Serialize)]
struct MarkupJson {
    of: &'static str,
    markup: String,
    margin: String,
}

#[derive(Serialize)]
struct PlaceJson {
    place: String,
    rate: String,
    on: Vec<&'static str>,
    source: String,
}

#[derive(Serialize)]
struct CapJson {
    place: String,
    share: Option<String>,
    amount_cents: Option<i64>,
    above_cents: Option<i64>,
    source: String,
    standing: &'static str,
    note: String,
}

fn over<T>(at: &mut T, read: Option<Result<T, FieldError>>) -> Result<(), FieldError> {
    if let Some(read) = read {
        *at = read?;
    }
    Ok(())
}

fn changed(args: &PricesArgs, book: &mut PriceBook) -> Result<(), FieldError> {
    let money = |field, text: &Option<String>| text.as_deref().map(|text| read_money(field, text));
    let percent =
        |field, text: &Option<String>| text.as_deref().map(|text| read_percent(field, text));
    let markup =
        |field, text: &Option<String>| text.as_deref().map(|text| read_markup(field, text));
    let margin = |percent: Percent| {
        Margin::new(percent).map_err(|error| FieldError::new("profit", error.to_string()))
    };
    over(&mut book.rate.pay, money("pay", &args.pay))?;
    over(&mut book.rate.tax, percent("pay_tax", &args.pay_tax))?;
    over(&mut book.rate.overhead, money("overhead", &args.overhead))?;
    over(&mut book.rate.tools, money("tools", &args.tools))?;
    over(&mut book.rate.hours, args.hours.map(Ok))?;
    over(&mut book.rate.billable, percent("billable", &args.billable))?;
    let profit = percent("profit", &args.profit).map(|read| read.and_then(margin));
    over(&mut book.rate.profit, profit)?;
    over(
        &mut book.confidence,
        percent("confidence", &args.confidence),
    )?;
    let markups = &mut book.markups;
    over(
        &mut markups.finish,
        markup("markup_finish", &args.markup_finish),
    )?;
    over(
        &mut markups.lumber,
        markup("markup_lumber", &args.markup_lumber),
    )?;
    over(
        &mut markups.bought_in,
        markup("markup_bought", &args.markup_bought),
    )?;
    over(
        &mut book.allowance,
        percent("finish_more", &args.finish_more),
    )?;
    over(&mut book.minimum, money("least", &args.least))?;
    over(&mut book.board_foot, money("board_foot", &args.board_foot))?;
    over(&mut book.terms_days, args.due_after.map(Ok))?;
    over(&mut book.valid_days, args.holds.map(Ok))?;
    for text in &args.wood {
        let (wood, each) = text.split_once('=').ok_or_else(|| {
            let words = "write the wood and its price, like \"hard maple=8.75\".";
            FieldError::new("wood", words)
        })?;
        let (wood, _) = crate::units::clean_line(wood);
        let wood = wood.to_lowercase();
        if each.trim().is_empty() {
            book.woods.remove(&wood);
        } else {
            book.woods.insert(wood, read_money("wood", each)?);
        }
    }
    Ok(())
}

/// The figures.
pub fn run(args: &PricesArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut book = shop.prices.clone();
    changed(args, &mut book)?;
    if book != shop.prices {
        return act(session, MoneyAction::SavePrices(book));
    }
    let rate = ShopRate::of(&book.rate).map_err(|error| Failure::said(error.to_string()))?;
    Answer::new(paper(&book, &rate), json(&book, &rate))
}

fn paper(book: &PriceBook, rate: &ShopRate) -> Vec<String> {
    let figures = &book.rate;
    let mut columns = Columns::default();
    let each = |amount: Money| format!("{}/h", amount.show());
    columns.row([
        "hour breaks even at",
        &each(rate.break_even),
        &format!(
            "pay {} and {} on it, overhead {}, tools {} a year over {} billable h ({} of {})",
            figures.pay.show(),
            figures.tax,
            figures.overhead.show(),
            figures.tools.show(),
            rate.billable_hours.normalize(),
            figures.billable,
            figures.hours
        ),
    ]);
    columns.row(["hour sells at", &each(rate.sell), &figures.profit.words()]);
    columns.row([
        "overhead in it",
        &each(rate.overhead),
        "by the hour, not on materials",
    ]);
    let markups = &book.markups;
    columns.row(["finish", "", &markups.finish.words()]);
    columns.row(["lumber", "", &markups.lumber.words()]);
    columns.row(["bought in", "", &markups.bought_in.words()]);
    columns.row([
        "finish on top",
        &book.allowance.to_string(),
        "of the planned use",
    ]);
    columns.row([
        "confidence",
        &book.confidence.to_string(),
        "of jobs that the priced hours cover",
    ]);
    columns.row(["least charge", &book.minimum.show(), "before tax"]);
    columns.row([
        "board foot",
        &book.board_foot.show(),
        "of a wood not listed",
    ]);
    for (wood, each) in &book.woods {
        columns.row(["board foot", &each.show(), wood]);
    }
    columns.row([
        "invoices due",
        &format!("{} days", book.terms_days),
        "after their date",
    ]);
    columns.row(["estimates hold", &format!("{} days", book.valid_days), ""]);
    for place in &book.places {
        let on: Vec<&str> = place.taxed.iter().map(|kind| kind.word()).collect();
        let words = format!("{} on {} ({})", place.name, on.join(", "), place.source);
        columns.row(["sales tax", &place.rate.to_string(), &words]);
    }
    for cap in &book.caps {
        let most = match (cap.share, cap.amount) {
            (Some(share), Some(amount)) => format!("{share} or {}", amount.show()),
            (Some(share), None) => share.to_string(),
            (None, amount) => amount.map_or_else(String::new, Money::show),
        };
        let above = cap
            .above
            .map_or_else(String::new, |above| format!(", above {}", above.show()));
        let note = if cap.note.is_empty() {
            String::new()
        } else {
            format!("; {}", cap.note)
        };
        let words = format!(
            "{}{above}{note} ({}, {}; verify)",
            cap.place,
            cap.source,
            cap.standing.word()
        );
        columns.row(["deposit cap", &most, &words]);
    }
    columns.lines(0, PAPER_WIDTH)
}

fn json(book: &PriceBook, rate: &ShopRate) -> PricesJson {
    let markup = |of, markup: crate::money::Markup| MarkupJson {
        of,
        markup: markup.percent().to_string(),
        margin: format!("{} %", markup.as_margin_percent()),
    };
    PricesJson {
        hour_break_even_cents: rate.break_even.cents(),
        hour_sell_cents: rate.sell.cents(),
        hour_overhead_cents: rate.overhead.cents(),
        billable_hours: rate.billable_hours.normalize().to_string(),
        confidence: book.confidence.to_string(),
        markups: vec![
            markup("finish", book.markups.finish),
            markup("lumber", book.markups.lumber),
            markup("bought-in", book.markups.bought_in),
        ],
        least_charge_cents: book.minimum.cents(),
        board_foot_cents: book.board_foot.cents(),
        woods: book
            .woods
            .iter()
            .map(|(wood, each)| (wood.clone(), each.cents()))
            .collect(),
        tax_places: book
            .places
            .iter()
            .map(|place| PlaceJson {
                place: place.name.clone(),
                rate: place.rate.to_string(),
                on: place.taxed.iter().map(|kind| kind.word()).collect(),
                source: place.source.clone(),
            })
            .collect(),
        deposit_caps: book
            .caps
            .iter()
            .map(|cap| CapJson {
                place: cap.place.clone(),
                share: cap.share.map(|share| share.to_string()),
                amount_cents: cap.amount.map(Money::cents),
                above_cents: cap.above.map(Money::cents),
                source: cap.source.clone(),
                standing: cap.standing.word(),
                note: cap.note.clone(),
            })
            .collect(),
    }
}
