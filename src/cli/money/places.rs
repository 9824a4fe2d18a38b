//! Places with their sales tax, and their caps on deposits.

use super::act;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::MoneyAction;
use crate::desk::typed::{read_line_kind, read_money, read_percent, read_share};
use crate::money::{DepositCap, LineKind, Standing, TaxPlace};
use clap::Args;

/// Examples.
pub const TAX_MORE: &str = "Examples:\n  tackfree taxplace \"Alder County\" --rate \"4.5 %\" --on \"bought-in finish\" --source \"county notice\"\n  tackfree taxplace \"Alder County\" --remove\n\nSales tax follows local rules; most places do not tax an installed top but the shop's purchases.\nKinds of line: shop-work, site-work, finish, lumber, bought-in, other.";
/// Examples.
pub const CAP_MORE: &str = "Examples:\n  tackfree cap California --share \"10 %\" --amount 1000 --source \"state code\"\n  tackfree cap Maine --remove\n\nThe rows to begin with are to be verified with the place: no legal advice.";

/// What was typed.
#[derive(Debug, Args)]
pub struct TaxPlaceArgs {
    /// The place.
    pub place: String,
    /// Its rate.
    #[arg(
        long,
        value_name = "PERCENT",
        allow_hyphen_values = true,
        required_unless_present = "remove"
    )]
    pub rate: Option<String>,
    /// Kinds of line taxed there, parted by blanks.
    #[arg(long, value_name = "KINDS")]
    pub on: Option<String>,
    /// Who says so.
    #[arg(long)]
    pub source: Option<String>,
    /// Takes it out.
    #[arg(long, conflicts_with_all = ["rate", "on", "source"])]
    pub remove: bool,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct CapArgs {
    /// The place.
    pub place: String,
    /// At most this share of the total: 10 %, 1/3.
    #[arg(long)]
    pub share: Option<String>,
    /// At most this amount.
    #[arg(long)]
    pub amount: Option<String>,
    /// Only for totals above this.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub above: Option<String>,
    /// What else it says.
    #[arg(long)]
    pub note: Option<String>,
    /// Who says so.
    #[arg(long)]
    pub source: Option<String>,
    /// Takes it out.
    #[arg(long, conflicts_with_all = ["share", "amount", "above", "note", "source"])]
    pub remove: bool,
}

fn not_there(what: &str, name: &str) -> Failure {
    Failure::said(format!(
        "There is no {what} of {name}: tackfree prices lists them."
    ))
}

/// A place and its tax.
pub fn tax_place(args: &TaxPlaceArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut book = shop.prices.clone();
    let before = book.place(&args.place).cloned();
    book.places.retain(|place| Some(place) != before.as_ref());
    if args.remove {
        before.ok_or_else(|| not_there("tax", &args.place))?;
        return act(session, MoneyAction::SavePrices(book));
    }
    let taxed = match &args.on {
        Some(words) => words
            .split([' ', ','])
            .filter(|word| !word.is_empty())
            .map(|word| read_line_kind("on", word))
            .collect::<Result<Vec<LineKind>, _>>()?,
        None => before.as_ref().map_or_else(Vec::new, |of| of.taxed.clone()),
    };
    book.places.push(TaxPlace {
        name: before
            .as_ref()
            .map_or_else(|| args.place.clone(), |of| of.name.clone()),
        rate: read_percent("rate", args.rate.as_deref().unwrap_or_default())?,
        taxed,
        source: args
            .source
            .clone()
            .or(before.map(|of| of.source))
            .unwrap_or_default(),
    });
    act(session, MoneyAction::SavePrices(book))
}

/// A place's deposit cap.
pub fn cap(args: &CapArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut book = shop.prices.clone();
    let before = book.cap(&args.place).cloned();
    book.caps.retain(|cap| Some(cap) != before.as_ref());
    if args.remove {
        before.ok_or_else(|| not_there("deposit cap", &args.place))?;
        return act(session, MoneyAction::SavePrices(book));
    }
    let money = |field, text: &Option<String>| {
        text.as_deref()
            .map(|text| read_money(field, text))
            .transpose()
    };
    let share = args
        .share
        .as_deref()
        .map(|text| read_share("share", text))
        .transpose()?;
    let was = before.as_ref();
    book.caps.push(DepositCap {
        place: was.map_or_else(|| args.place.clone(), |of| of.place.clone()),
        share: share.or(was.and_then(|of| of.share)),
        amount: money("amount", &args.amount)?.or(was.and_then(|of| of.amount)),
        above: money("above", &args.above)?.or(was.and_then(|of| of.above)),
        note: args
            .note
            .clone()
            .or(was.map(|of| of.note.clone()))
            .unwrap_or_default(),
        source: args
            .source
            .clone()
            .or(was.map(|of| of.source.clone()))
            .unwrap_or_default(),
        standing: Standing::Own,
    });
    act(session, MoneyAction::SavePrices(book))
}
