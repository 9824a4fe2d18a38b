//! Shows or changes the layout checks, the router and how the shop glues up and buys.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::reading::cutplan::RouterArgs;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::{
    CheckTyped, LumberTyped, RouterTyped, read_check, read_lumber, read_router,
};
use crate::papers::layout::Columns;
use crate::papers::{PAPER_WIDTH, checks_paper, figure_words};
use crate::shape::layout::{Rule, RuleSetting};
use clap::Args;
use serde::Serialize;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree checks\n  tackfree checks end-strip --figure \"10 in\" --weight serious\n  tackfree checks drip --made no\n  tackfree checks end-strip --first\n\nMakers disagree: every figure is the shop's to change. With --json and nothing to change: checks\n[check, asks, figure, figure_mm, percent, weight, made, source_kind, source].";
/// Examples.
pub const ROUTER_MORE: &str = "Examples:\n  tackfree router\n  tackfree router --bit 1/2 --rpm 16000 --depth \"at most 1/4\" --guide \"bushing 3/4\"\n\nWith --json and nothing to change: bit, cutting_length, flutes, rpm, chip, depth, clean_up, guide, each\nas it would be typed.";
/// Examples.
pub const BOARDS_MORE: &str = "Examples:\n  tackfree boards\n  tackfree boards --strip \"1 3/4\" --waste 30 --quarters 8 --board-width 6 --board-length 96\n\nWith --json and nothing to change: strip, end_trim, side_trim, kerf, waste, board_width, board_length,\nquarters, page, each as it would be typed.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ChecksArgs {
    /// The check to change.
    pub check: Option<String>,
    /// Its figure.
    #[arg(long, requires = "check", allow_hyphen_values = true)]
    pub figure: Option<String>,
    /// How much a finding weighs: note, warning or serious.
    #[arg(long, requires = "check")]
    pub weight: Option<String>,
    /// Whether it is made: yes or no.
    #[arg(long, requires = "check", value_name = "YES-NO")]
    pub made: Option<String>,
    /// Back to what it began with.
    #[arg(long, requires = "check", conflicts_with_all = ["figure", "weight", "made"])]
    pub first: bool,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct RouterVerbArgs {
    /// The figures to change.
    #[command(flatten)]
    pub router: RouterArgs,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct BoardsArgs {
    /// Seen width of a strip.
    #[arg(long)]
    pub strip: Option<String>,
    /// Left on each end of a strip.
    #[arg(long, value_name = "LENGTH")]
    pub end_trim: Option<String>,
    /// Left on each long side of the blank.
    #[arg(long, value_name = "LENGTH")]
    pub side_trim: Option<String>,
    /// What a saw cut and the jointing take together.
    #[arg(long)]
    pub kerf: Option<String>,
    /// Waste, percent of what is bought.
    #[arg(long)]
    pub waste: Option<String>,
    /// A board's nominal width.
    #[arg(long, value_name = "LENGTH")]
    pub board_width: Option<String>,
    /// A board's length.
    #[arg(long, value_name = "LENGTH")]
    pub board_length: Option<String>,
    /// Rough thickness in quarters: 8 for 8/4.
    #[arg(long)]
    pub quarters: Option<String>,
    /// The printer's paper: a4 or letter.
    #[arg(long)]
    pub page: Option<String>,
}

#[derive(Serialize)]
struct ChecksJson {
    checks: Vec<CheckJson>,
}

#[derive(Serialize)]
struct CheckJson {
    check: &'static str,
    asks: &'static str,
    figure: String,
    figure_mm: Option<f64>,
    percent: Option<u32>,
    weight: &'static str,
    made: bool,
    source_kind: &'static str,
    source: &'static str,
}

/// The checks.
pub fn run(args: &ChecksArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    use crate::shape::layout::Figure;
    let shop = session.shop()?;
    let rules = &shop.layout.rules;
    let Some(word) = &args.check else {
        let json = ChecksJson {
            checks: Rule::ALL
                .into_iter()
                .map(|rule| {
                    let (facts, setting) = (rule.facts(), rules.setting(rule));
                    CheckJson {
                        check: facts.word,
                        asks: facts.asks,
                        figure: figure_words(setting.figure, &shop.settings),
                        figure_mm: match setting.figure {
                            Figure::Length(length) => Some(length.mm()),
                            _ => None,
                        },
                        percent: match setting.figure {
                            Figure::Percent(percent) => Some(percent),
                            _ => None,
                        },
                        weight: setting.weight.word(),
                        made: setting.made,
                        source_kind: rules.kind(rule).word(),
                        source: facts.source,
                    }
                })
                .collect(),
        };
        return Answer::new(checks_paper(rules, &shop.settings), json);
    };
    let rule = Rule::of_word(word.trim()).ok_or_else(|| {
        Failure::said(format!(
            "\"{}\" is no check: tackfree checks lists them.",
            crate::units::clean_line(word).0
        ))
    })?;
    let setting = if args.first {
        RuleSetting::first(rule)
    } else {
        let mut typed = CheckTyped::of(&rules.setting(rule), &shop.settings);
        put(&mut typed.figure, args.figure.as_ref());
        put(&mut typed.weight, args.weight.as_ref());
        put(&mut typed.made, args.made.as_ref());
        read_check(rule, &typed, &shop.settings)?
    };
    let mut book = shop.layout.clone();
    let set = book.rules.set(rule, setting);
    set.map_err(|error| Failure::said(error.to_string()))?;
    session.perform(&Action::SaveLayoutBook(Box::new(book)))
}

/// The router.
pub fn router(args: &RouterVerbArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut typed = RouterTyped::of(&shop.layout.router, &shop.settings);
    if !args.router.says_something() {
        let rows = [
            ("bit", &typed.bit),
            ("cutting_length", &typed.cutting_length),
            ("flutes", &typed.flutes),
            ("rpm", &typed.rpm),
            ("chip", &typed.chip),
            ("depth", &typed.depth),
            ("clean_up", &typed.clean_up),
            ("guide", &typed.guide),
        ];
        return show(&rows);
    }
    args.router.over(&mut typed);
    let mut book = shop.layout.clone();
    book.router = read_router(&typed, &shop.settings)?;
    session.perform(&Action::SaveLayoutBook(Box::new(book)))
}

/// Strips and lumber.
pub fn boards(args: &BoardsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut typed = LumberTyped::of(&shop.layout.lumber, shop.layout.page, &shop.settings);
    let rows = [
        ("strip", &mut typed.strip, &args.strip),
        ("end_trim", &mut typed.end_trim, &args.end_trim),
        ("side_trim", &mut typed.side_trim, &args.side_trim),
        ("kerf", &mut typed.kerf, &args.kerf),
        ("waste", &mut typed.waste, &args.waste),
        ("board_width", &mut typed.board_width, &args.board_width),
        ("board_length", &mut typed.board_length, &args.board_length),
        ("quarters", &mut typed.quarters, &args.quarters),
        ("page", &mut typed.page, &args.page),
    ];
    if rows.iter().all(|(_, _, given)| given.is_none()) {
        let rows: Vec<(&str, &String)> = rows
            .into_iter()
            .map(|(name, stands, _)| (name, &*stands))
            .collect();
        return show(&rows);
    }
    for (_, over, given) in rows {
        put(over, given.as_ref());
    }
    let mut book = shop.layout.clone();
    (book.lumber, book.page) = read_lumber(&typed, &shop.settings)?;
    session.perform(&Action::SaveLayoutBook(Box::new(book)))
}

fn show(rows: &[(&str, &String)]) -> Result<Answer, Failure> {
    let mut columns = Columns::default();
    for (name, stands) in rows {
        columns.row([&name.replace('_', " "), stands]);
    }
    let json: serde_json::Map<String, serde_json::Value> = rows
        .iter()
        .map(|(name, stands)| ((*name).to_owned(), (*stands).clone().into()))
        .collect();
    Answer::new(columns.lines(0, PAPER_WIDTH), json)
}
