//! The shelf: every can, or one with its log.

use super::short_json::{ShortJson, shorts};
use super::{moment, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::desk::typed::read_can_no;
use crate::papers::{can_paper, cans_paper, line_words, short_code};
use crate::shop::{Came, CanState, EmptyWeight, Known, MoveOf};
use chrono::{DateTime, Utc};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree cans\n  tackfree cans --all --json\n  tackfree cans 7\n\nWithout --all: the cans that still have something in them. What is left is told by the last weighing\nor by subtraction. With --json: cans [no, id, product, product_id, batch, size_ml, held_ml, came\n(bought or mixed), on, price_cents (of a mix what went in was worth), state (sealed, open, empty,\ndiscarded), opened or null, left_ml, left_cents, known (as-it-came, weighed, subtracted), known_at or\nnull, last_weight_g or null, empty_g or null, empty_is (given, reckoned or null), age (good, soon\npast, past, not known), good_until or null, place, moves [at, what, volume_ml, cost_cents, left_ml],\nlines [code, at, words]]. short [jobs (their numbers), product, batch, left_ml, needed_ml, missing_ml, words] (stain batches that do not last).\nVolumes in millilitres, weights in grams, money in cents.";

/// What was asked.
#[derive(Debug, Args)]
pub struct CansArgs {
    /// Only this can, with its log.
    pub can: Option<String>,
    /// Empty and discarded cans too.
    #[arg(long)]
    pub all: bool,
}

#[derive(Serialize)]
struct CansJson {
    cans: Vec<CanJson>,
    short: Vec<ShortJson>,
}

#[derive(Serialize)]
struct CanJson {
    no: u32,
    id: String,
    product: String,
    product_id: String,
    batch: String,
    size_ml: f64,
    held_ml: f64,
    came: &'static str,
    on: String,
    price_cents: i64,
    state: &'static str,
    opened: Option<String>,
    left_ml: f64,
    left_cents: i64,
    known: &'static str,
    known_at: Option<String>,
    last_weight_g: Option<f64>,
    empty_g: Option<f64>,
    empty_is: Option<&'static str>,
    age: &'static str,
    good_until: Option<String>,
    place: String,
    moves: Vec<MoveJson>,
    lines: Vec<LineJson>,
}

#[derive(Serialize)]
struct MoveJson {
    at: String,
    what: &'static str,
    volume_ml: f64,
    cost_cents: i64,
    left_ml: f64,
}

#[derive(Serialize)]
struct LineJson {
    code: String,
    at: String,
    words: String,
}

impl CanJson {
    fn of(state: &CanState, shop: &Shop, now: DateTime<Utc>) -> Self {
        let (can, zone) = (&state.can, shop.settings.zone);
        let day = can.day(zone);
        let (known, known_at) = match state.known {
            Known::AsItCame => ("as-it-came", None),
            Known::Weighed(at) => ("weighed", Some(at)),
            Known::Subtracted(at) => ("subtracted", at),
        };
        let opened = state.opened.map(|at| at.with_timezone(&zone).date_naive());
        Self {
            no: can.no,
            id: can.id.to_string(),
            product: shop
                .product(can.product)
                .map_or_else(String::new, |product| product.name.clone()),
            product_id: can.product.to_string(),
            batch: can.batch.clone(),
            size_ml: rounded(can.size.ml()),
            held_ml: rounded(can.held.ml()),
            came: match can.came {
                Came::Bought { .. } => "bought",
                Came::Mixed { .. } => "mixed",
            },
            on: day.to_string(),
            price_cents: state.came.cost.cents(),
            state: state.standing.word(),
            opened: state.opened.map(moment),
            left_ml: rounded(state.left.volume.ml()),
            left_cents: state.left.cost.cents(),
            known,
            known_at: known_at.map(moment),
            last_weight_g: state.weighed.map(|(_, mass)| rounded(mass.g())),
            empty_g: state.empty_mass().map(|mass| rounded(mass.g())),
            empty_is: state.empty.map(|empty| match empty {
                EmptyWeight::Given(_) => "given",
                EmptyWeight::Reckoned(_) => "reckoned",
            }),
            age: state
                .age(now.with_timezone(&zone).date_naive(), zone)
                .word(),
            good_until: can
                .keeps
                .until(day, opened)
                .map(|end| end.day().to_string()),
            place: state.place.clone(),
            moves: state
                .moves
                .iter()
                .map(|step| MoveJson {
                    at: moment(step.at),
                    what: match step.of {
                        MoveOf::Pass(..) => "pass",
                        MoveOf::Jar(_) => "jar",
                        MoveOf::Lost(_) => "lost",
                        MoveOf::MixedInto(_) => "mixed",
                        MoveOf::Discarded => "discarded",
                        MoveOf::Found => "found",
                    },
                    volume_ml: rounded(step.qty.volume.ml()),
                    cost_cents: step.qty.cost.cents(),
                    left_ml: rounded(step.left.ml()),
                })
                .collect(),
            lines: shop
                .cans
                .lines
                .iter()
                .filter(|line| line.can == can.id)
                .map(|line| LineJson {
                    code: short_code(line.id.0),
                    at: moment(line.at),
                    words: line_words(line, shop),
                })
                .collect(),
        }
    }
}

/// Reads it.
pub fn run(args: &CansArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let now = session.now;
    if let Some(text) = &args.can {
        let id = read_can_no(text, &shop.cans)?;
        let Some(state) = shop.cans.can(id) else {
            return Err(Failure::said("There is no such can in this store."));
        };
        let cans = vec![CanJson::of(state, &shop, now)];
        let json = CansJson {
            cans,
            short: shorts(&shop).1,
        };
        return Answer::new(can_paper(state, &shop, now), json);
    }
    let shown = shop
        .cans
        .cans
        .iter()
        .filter(|state| args.all || state.usable());
    let cans = shown.map(|state| CanJson::of(state, &shop, now)).collect();
    let (told, short) = shorts(&shop);
    let mut lines = cans_paper(&shop, now, args.all);
    lines.extend(told);
    Answer::new(lines, CansJson { cans, short })
}
