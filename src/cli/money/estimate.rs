//! Terms of a job, lines of its own, its estimate, the shop's paces.

use super::{act, all_hours, date};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::MoneyAction;
use crate::desk::typed::{
    read_count, read_line_kind, read_markup, read_money, read_percent, read_tax, read_yes,
};
use crate::money::{Item, LineKind, TaxChoice};
use crate::papers::{estimate_paper, pace_paper};
use crate::shop::paces;
use clap::Args;
use rust_decimal::Decimal;
use serde::Serialize;

/// Examples.
pub const TERMS_MORE: &str = "Examples:\n  tackfree terms 1 --place \"Alder County\" --cap California --sample yes --confidence \"80 %\"\n  tackfree terms 1 --place none --confidence none";
/// Examples.
pub const ITEM_MORE: &str = "Examples:\n  tackfree item 1 \"undermount sink\" --each 240 --markup \"15 %\"\n  tackfree item 1 \"steel bracket\" --each 31.10 --count 4 --tax free\n  tackfree item 1 \"steel bracket\" --remove";
/// Examples.
pub const MORE: &str = "Examples:\n  tackfree estimate 1\n  tackfree estimate 1 --confidence \"90 %\"\n  tackfree estimate 1 --give --until \"dec 20\"\n\n--give keeps it as it is given to the client, and hours logged are held against it. With --json:\njob_no, likely_minutes, half_minutes, most_minutes, priced_minutes, confidence, hour_cents, steps\n[step, minutes, basis], lines [kind, what, net_cents, tax_rate, tax_cents], net_cents, tax_cents,\ntotal_cents, bought_cents, totals [confidence, total_cents].";
/// Fields.
pub const PACE_MORE: &str = "Learned from hours logged on finished steps; until then from the starting range. With --json: paces\n[step, unit, fixed_minutes, rate_minutes, rate_low, rate_high, pieces, basis].";

/// What was typed.
#[derive(Debug, Args)]
pub struct TermsArgs {
    /// The job.
    pub job: String,
    /// The place whose sales tax counts, or none.
    #[arg(long)]
    pub place: Option<String>,
    /// The place whose deposit cap counts, or none.
    #[arg(long, value_name = "PLACE")]
    pub cap: Option<String>,
    /// Whether it asks for an approved sample before stain: yes or no.
    #[arg(long, value_name = "YES-NO")]
    pub sample: Option<String>,
    /// Share of jobs that its priced hours cover; none takes the shop's.
    #[arg(long, value_name = "PERCENT")]
    pub confidence: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct ItemArgs {
    /// The job.
    pub job: String,
    /// What it is.
    pub what: String,
    /// What one costs the shop.
    #[arg(
        long,
        value_name = "AMOUNT",
        allow_hyphen_values = true,
        required_unless_present = "remove"
    )]
    pub each: Option<String>,
    /// How many: 1 unless said.
    #[arg(long)]
    pub count: Option<String>,
    /// Its own markup on cost ("25 % margin" means of the price).
    #[arg(long, value_name = "PERCENT")]
    pub markup: Option<String>,
    /// How it is taxed: as place, free, or a rate.
    #[arg(long)]
    pub tax: Option<String>,
    /// Its kind of line: bought-in unless said.
    #[arg(long)]
    pub kind: Option<String>,
    /// Takes the line out.
    #[arg(long)]
    pub remove: bool,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct EstimateArgs {
    /// The job.
    pub job: String,
    /// Looks at it at another confidence; tackfree terms sets the job's own.
    #[arg(long, value_name = "PERCENT", conflicts_with = "give")]
    pub confidence: Option<String>,
    /// Keeps it as it is given to the client.
    #[arg(long)]
    pub give: bool,
    /// Until when it holds.
    #[arg(long, value_name = "DATE", requires = "give")]
    pub until: Option<String>,
}

#[derive(Serialize)]
struct EstimateJson {
    job_no: u32,
    likely_minutes: i64,
    half_minutes: (i64, i64),
    most_minutes: (i64, i64),
    priced_minutes: i64,
    confidence: String,
    hour_cents: i64,
    steps: Vec<StepJson>,
    lines: Vec<LineJson>,
    net_cents: i64,
    tax_cents: i64,
    total_cents: i64,
    bought_cents: i64,
    totals: Vec<AtJson>,
}

#[derive(Serialize)]
struct AtJson {
    confidence: String,
    total_cents: i64,
}

#[derive(Serialize)]
struct StepJson {
    step: &'static str,
    minutes: i64,
    basis: String,
}

#[derive(Serialize)]
struct LineJson {
    kind: &'static str,
    what: String,
    net_cents: i64,
    tax_rate: String,
    tax_cents: i64,
}

#[derive(Serialize)]
struct PacesJson {
    paces: Vec<PaceJson>,
}

#[derive(Serialize)]
struct PaceJson {
    step: &'static str,
    unit: &'static str,
    fixed_minutes: f64,
    rate_minutes: f64,
    rate_low: f64,
    rate_high: f64,
    pieces: usize,
    basis: String,
}

fn or_none(text: &str) -> String {
    if text.trim().eq_ignore_ascii_case("none") {
        String::new()
    } else {
        text.to_owned()
    }
}

/// The terms.
pub fn terms(args: &TermsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let job = find::job(&shop, &args.job)?;
    let mut terms = shop.money.terms(job.id);
    if let Some(place) = &args.place {
        terms.place = or_none(place);
    }
    if let Some(cap) = &args.cap {
        terms.cap = or_none(cap);
    }
    if let Some(sample) = &args.sample {
        terms.asks_sample = read_yes("sample", sample)?;
    }
    if let Some(text) = &args.confidence {
        terms.confidence = match or_none(text).as_str() {
            "" => None,
            text => Some(read_percent("confidence", text)?),
        };
    }
    act(session, MoneyAction::SaveTerms(terms))
}

/// A line of the job's own.
pub fn item(args: &ItemArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let job = find::job(&shop, &args.job)?;
    let mut terms = shop.money.terms(job.id);
    let same = |item: &Item| item.what.eq_ignore_ascii_case(args.what.trim());
    let at = terms.items.iter().position(same);
    if args.remove {
        let at =
            at.ok_or_else(|| Failure::said(format!("Job {} has no line called that.", job.no)))?;
        terms.items.remove(at);
        return act(session, MoneyAction::SaveTerms(terms));
    }
    let count = args.count.as_deref().map(|text| read_count("count", text));
    let kind = args
        .kind
        .as_deref()
        .map(|text| read_line_kind("kind", text));
    let markup = args
        .markup
        .as_deref()
        .map(|text| read_markup("markup", text));
    let tax = args.tax.as_deref().map(|text| read_tax("tax", text));
    let item = Item {
        kind: kind.transpose()?.unwrap_or(LineKind::BoughtIn),
        what: args.what.clone(),
        count: count.transpose()?.unwrap_or(Decimal::ONE),
        each: read_money("each", args.each.as_deref().unwrap_or_default())?,
        markup: markup.transpose()?,
        tax: tax.transpose()?.unwrap_or(TaxChoice::AsPlace),
    };
    match at.and_then(|at| terms.items.get_mut(at)) {
        Some(there) => *there = item,
        None => terms.items.push(item),
    }
    act(session, MoneyAction::SaveTerms(terms))
}

#[allow(clippy::cast_possible_truncation, reason = "minutes of one job")]
fn whole(minutes: f64) -> i64 {
    minutes.round() as i64
}

/// The estimate.
pub fn run(args: &EstimateArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let job = find::job(&shop, &args.job)?;
    if args.give {
        let valid_until = date("until", args.until.as_deref(), session.today(&shop))?;
        let job = job.id;
        return act(session, MoneyAction::GiveEstimate { job, valid_until });
    }
    let hours = all_hours(session)?;
    let mut looked = shop.clone();
    if let Some(text) = &args.confidence {
        let mut terms = shop.money.terms(job.id);
        terms.confidence = Some(read_percent("confidence", text)?);
        looked.money.terms.retain(|of| of.job != job.id);
        looked.money.terms.push(terms);
    }
    let of = looked
        .estimate_job(job, &hours, session.now)
        .map_err(|error| Failure::said(error.to_string()))?;
    let made = &of.made;
    let both = |(low, high): (f64, f64)| (whole(low), whole(high));
    let json = EstimateJson {
        job_no: job.no,
        likely_minutes: whole(made.hours.likely),
        half_minutes: both(made.hours.half),
        most_minutes: both(made.hours.most),
        priced_minutes: made.priced,
        confidence: of.confidence.to_string(),
        hour_cents: of.rate.sell.cents(),
        steps: made
            .steps
            .iter()
            .map(|step| StepJson {
                step: step.step.word(),
                minutes: step.minutes,
                basis: of
                    .paces
                    .get(&step.step)
                    .map_or_else(String::new, |pace| pace.words(step.step)),
            })
            .collect(),
        lines: made
            .lines
            .iter()
            .map(|line| LineJson {
                kind: line.kind.word(),
                what: line.what.clone(),
                net_cents: line.net.cents(),
                tax_rate: line.rate.to_string(),
                tax_cents: line.tax().cents(),
            })
            .collect(),
        net_cents: made.totals.net.cents(),
        tax_cents: made.totals.tax.cents(),
        total_cents: made.totals.total().cents(),
        bought_cents: made.bought.cents(),
        totals: of
            .at
            .iter()
            .map(|(confidence, total)| AtJson {
                confidence: confidence.to_string(),
                total_cents: total.cents(),
            })
            .collect(),
    };
    Answer::new(estimate_paper(&shop, job, &of), json)
}

/// The shop's paces.
pub fn pace(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let paces = paces(&shop.files, &all_hours(session)?, session.now);
    let lines = pace_paper(&paces);
    let round = |value: f64| (value * 1000.0).round() / 1000.0;
    let json = PacesJson {
        paces: paces
            .iter()
            .map(|(step, pace)| {
                let (_, (low, high)) = pace.ranges();
                PaceJson {
                    step: step.word(),
                    unit: step.driver().unit(),
                    fixed_minutes: round(pace.fixed),
                    rate_minutes: round(pace.rate),
                    rate_low: round(low),
                    rate_high: round(high),
                    pieces: pace.pieces,
                    basis: pace.words(*step),
                }
            })
            .collect(),
    };
    Answer::new(lines, json)
}
