//! `prices.toml`: the shop's figures for pricing, tax places and deposit caps.

use crate::money::{
    DepositCap, LineKind, Margin, Markup, Markups, Percent, RateFigures, Share, ShopRate, Standing,
    TaxPlace,
};
use crate::shop::PriceBook;
use crate::store::files::error::{Fault, FilesError};
use crate::store::files::import::Reading;
use crate::store::files::text::{LINE_MOST, NAME_MOST, line};
use crate::store::files::tomls::{Read, quoted};
use crate::units::Money;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use toml::Spanned;

pub(super) const FILE: &str = "prices.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PricesFile {
    rate: Spanned<RateRow>,
    pricing: Spanned<PricingRow>,
    #[serde(default)]
    woods: BTreeMap<String, Spanned<String>>,
    #[serde(default)]
    tax: Vec<Spanned<TaxRow>>,
    #[serde(default)]
    cap: Vec<Spanned<CapRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RateRow {
    pay: String,
    tax: String,
    overhead: String,
    tools: String,
    hours: u32,
    billable: String,
    profit_margin: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PricingRow {
    confidence: String,
    markup_finish: String,
    markup_lumber: String,
    markup_bought_in: String,
    finish_on_top: String,
    least_charge: String,
    board_foot: String,
    invoice_due_days: u32,
    estimate_holds_days: u32,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TaxRow {
    place: String,
    rate: String,
    on: Vec<String>,
    #[serde(default)]
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CapRow {
    place: String,
    share: Option<String>,
    amount: Option<String>,
    above: Option<String>,
    #[serde(default)]
    note: String,
    #[serde(default)]
    source: String,
    standing: String,
}

/// Reads one figure of a part of the file, its fault at that part.
struct Part<'f> {
    line: u64,
    notes: &'f mut Vec<(u64, &'static str, usize)>,
}

impl Part<'_> {
    fn fault(&self, what: &'static str, why: String) -> FilesError {
        Fault::Value { what, why }.at(FILE, self.line)
    }

    fn money(&self, what: &'static str, text: &str) -> Result<Money, FilesError> {
        let read = Money::parse(text).map_err(|error| self.fault(what, error.to_string()))?;
        if read < Money::ZERO {
            return Err(self.fault(what, "it cannot be below nothing.".to_owned()));
        }
        Ok(read)
    }

    fn percent(&self, what: &'static str, text: &str) -> Result<Percent, FilesError> {
        Percent::parse(text).map_err(|error| self.fault(what, error.to_string()))
    }

    fn text(&mut self, what: &'static str, raw: &str, most: usize) -> Result<String, FilesError> {
        let (text, left_out) = line(what, raw, most).map_err(|fault| fault.at(FILE, self.line))?;
        self.notes.push((self.line, what, left_out));
        Ok(text)
    }

    fn name(&mut self, what: &'static str, raw: &str) -> Result<String, FilesError> {
        let name = self.text(what, raw, NAME_MOST)?;
        if name.is_empty() {
            return Err(self.fault(what, "it is empty: write the place.".to_owned()));
        }
        Ok(name)
    }
}

/// Reads the figures; none where there is no such file.
pub(super) fn read(reading: &mut Reading<'_>) -> Result<Option<PriceBook>, FilesError> {
    if !reading.source.has(FILE) {
        return Ok(None);
    }
    let file = Read::<PricesFile>::file(&reading.source, FILE)?;
    let mut notes = Vec::new();
    let book = book(&file, &mut notes)?;
    for (line, what, left_out) in notes {
        reading.notes.left_out(FILE, line, what, left_out);
    }
    Ok(Some(book))
}

fn book(
    file: &Read<PricesFile>,
    notes: &mut Vec<(u64, &'static str, usize)>,
) -> Result<PriceBook, FilesError> {
    let row = file.what.rate.get_ref();
    let part = Part {
        line: file.line(&file.what.rate),
        notes,
    };
    let profit = Margin::new(part.percent("profit_margin", &row.profit_margin)?)
        .map_err(|error| part.fault("profit_margin", error.to_string()))?;
    let rate = RateFigures {
        pay: part.money("pay", &row.pay)?,
        tax: part.percent("tax", &row.tax)?,
        overhead: part.money("overhead", &row.overhead)?,
        tools: part.money("tools", &row.tools)?,
        hours: row.hours,
        billable: part.percent("billable", &row.billable)?,
        profit,
    };
    ShopRate::of(&rate).map_err(|error| part.fault("hours", error.to_string()))?;
    let row = file.what.pricing.get_ref();
    let part = Part {
        line: file.line(&file.what.pricing),
        notes,
    };
    let markup = |what, text: &str| part.percent(what, text).map(Markup::new);
    let mut out = PriceBook {
        rate,
        confidence: part.percent("confidence", &row.confidence)?,
        markups: Markups {
            finish: markup("markup_finish", &row.markup_finish)?,
            lumber: markup("markup_lumber", &row.markup_lumber)?,
            bought_in: markup("markup_bought_in", &row.markup_bought_in)?,
        },
        allowance: part.percent("finish_on_top", &row.finish_on_top)?,
        minimum: part.money("least_charge", &row.least_charge)?,
        board_foot: part.money("board_foot", &row.board_foot)?,
        woods: BTreeMap::new(),
        terms_days: row.invoice_due_days,
        valid_days: row.estimate_holds_days,
        places: Vec::new(),
        caps: Vec::new(),
    };
    if !(0.05..=0.95).contains(&out.confidence.as_f64()) {
        let why = "write a confidence from 5 to 95 %.".to_owned();
        return Err(part.fault("confidence", why));
    }
    for (wood, each) in &file.what.woods {
        let mut part = Part {
            line: file.line(each),
            notes,
        };
        let name = part.name("wood", wood)?.to_lowercase();
        let each = part.money("board_foot", each.get_ref())?;
        out.woods.insert(name, each);
    }
    for row in &file.what.tax {
        let mut part = Part {
            line: file.line(row),
            notes,
        };
        let place = tax_place(row.get_ref(), &mut part)?;
        if out.place(&place.name).is_some() {
            return Err(part.fault("place", format!("{} is there twice.", place.name)));
        }
        out.places.push(place);
    }
    for row in &file.what.cap {
        let mut part = Part {
            line: file.line(row),
            notes,
        };
        let cap = deposit_cap(row.get_ref(), &mut part)?;
        if out.cap(&cap.place).is_some() {
            return Err(part.fault("place", format!("{} is there twice.", cap.place)));
        }
        out.caps.push(cap);
    }
    Ok(out)
}

fn tax_place(row: &TaxRow, part: &mut Part<'_>) -> Result<TaxPlace, FilesError> {
    let kind = |word: &String| {
        let found = LineKind::ALL.into_iter().find(|kind| kind.word() == word);
        let known = LineKind::ALL.map(LineKind::word).join(", ");
        found.ok_or_else(|| part.fault("on", format!("each must be one of {known}.")))
    };
    let taxed = row.on.iter().map(kind).collect::<Result<_, _>>()?;
    Ok(TaxPlace {
        rate: part.percent("rate", &row.rate)?,
        taxed,
        name: part.name("place", &row.place)?,
        source: part.text("source", &row.source, LINE_MOST)?,
    })
}

fn deposit_cap(row: &CapRow, part: &mut Part<'_>) -> Result<DepositCap, FilesError> {
    let share = row.share.as_deref().map(Share::parse).transpose();
    let share = share.map_err(|error| part.fault("share", error.to_string()))?;
    let money = |what, text: &Option<String>| {
        text.as_deref()
            .map(|text| part.money(what, text))
            .transpose()
    };
    let (amount, above) = (money("amount", &row.amount)?, money("above", &row.above)?);
    if share.is_none() && amount.is_none() {
        let why = "write a share, an amount, or both.".to_owned();
        return Err(part.fault("cap", why));
    }
    let standing = Standing::ALL
        .into_iter()
        .find(|of| of.word() == row.standing);
    let why = || "write published, summary or own.".to_owned();
    let standing = standing.ok_or_else(|| part.fault("standing", why()))?;
    Ok(DepositCap {
        share,
        amount,
        above,
        standing,
        place: part.name("place", &row.place)?,
        note: part.text("note", &row.note, LINE_MOST)?,
        source: part.text("source", &row.source, LINE_MOST)?,
    })
}

/// Writes the figures.
pub(super) fn write(book: &PriceBook) -> String {
    let rate = &book.rate;
    let money = |amount: Money| quoted(&amount.show());
    let percent = |percent: Percent| quoted(&percent.to_string());
    let mut out = format!(
        "[rate]\npay = {}\ntax = {}\noverhead = {}\ntools = {}\nhours = {}\nbillable = {}\n\
         profit_margin = {}\n",
        money(rate.pay),
        percent(rate.tax),
        money(rate.overhead),
        money(rate.tools),
        rate.hours,
        percent(rate.billable),
        percent(rate.profit.percent()),
    );
    let markups = &book.markups;
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        "\n[pricing]\nconfidence = {}\nmarkup_finish = {}\nmarkup_lumber = {}\n\
         markup_bought_in = {}\nfinish_on_top = {}\nleast_charge = {}\nboard_foot = {}\n\
         invoice_due_days = {}\nestimate_holds_days = {}\n",
        percent(book.confidence),
        percent(markups.finish.percent()),
        percent(markups.lumber.percent()),
        percent(markups.bought_in.percent()),
        percent(book.allowance),
        money(book.minimum),
        money(book.board_foot),
        book.terms_days,
        book.valid_days,
    );
    if !book.woods.is_empty() {
        out.push_str("\n[woods]\n");
    }
    for (wood, each) in &book.woods {
        let _ = writeln!(out, "{} = {}", quoted(wood), money(*each));
    }
    for place in &book.places {
        let on: Vec<String> = place.taxed.iter().map(|kind| quoted(kind.word())).collect();
        let _ = write!(
            out,
            "\n[[tax]]\nplace = {}\nrate = {}\non = [{}]\nsource = {}\n",
            quoted(&place.name),
            percent(place.rate),
            on.join(", "),
            quoted(&place.source),
        );
    }
    for cap in &book.caps {
        let _ = write!(out, "\n[[cap]]\nplace = {}\n", quoted(&cap.place));
        if let Some(share) = cap.share {
            let _ = writeln!(out, "share = {}", quoted(&share.to_string()));
        }
        for (key, amount) in [("amount", cap.amount), ("above", cap.above)] {
            if let Some(amount) = amount {
                let _ = writeln!(out, "{key} = {}", money(amount));
            }
        }
        let _ = write!(
            out,
            "note = {}\nsource = {}\nstanding = \"{}\"\n",
            quoted(&cap.note),
            quoted(&cap.source),
            cap.standing.word(),
        );
    }
    out
}
