//! The shop's own spread rates.

use super::{fine, moment, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::Product;
use crate::coating::rates::{Ground, LearnedRate};
use crate::desk::Shop;
use crate::papers::{pass_code, rate_passes, rates_paper};
use crate::shop::{RateLine, SeenPass};
use crate::units::SpreadRate;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree rates\n  tackfree rates \"clear wiping varnish\"\n\nWith a product the passes behind its rates too, each with its code; tackfree strike CODE takes one\nout. With --json: rates [product, product_id, method (wiped, brushed, sprayed), ground (bare-wood,\nlater), wood (null: all woods), yours_m2_per_l, low_m2_per_l, high_m2_per_l (the span that holds 8 in\n10), label_m2_per_l, of_label (yours over the label's), passes]; of one product also seen [pass, code,\nended, method, ground and wood (null where mixed), area_m2, used_ml, m2_per_l, struck (the reason, or\nnull)].";

/// What was typed.
#[derive(Debug, Args)]
pub struct RatesArgs {
    /// One product, with the passes behind its rates; all products unless said.
    pub product: Option<String>,
}

#[derive(Serialize)]
struct RatesJson {
    rates: Vec<RateJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<Vec<SeenJson>>,
}

#[derive(Serialize)]
struct RateJson {
    product: String,
    product_id: String,
    method: &'static str,
    ground: &'static str,
    wood: Option<String>,
    yours_m2_per_l: f64,
    low_m2_per_l: f64,
    high_m2_per_l: f64,
    label_m2_per_l: f64,
    of_label: f64,
    passes: usize,
}

#[derive(Serialize)]
struct SeenJson {
    pass: String,
    code: String,
    ended: String,
    method: &'static str,
    ground: Option<&'static str>,
    wood: Option<String>,
    area_m2: f64,
    used_ml: f64,
    m2_per_l: Option<f64>,
    struck: Option<String>,
}

fn ground(ground: Ground) -> &'static str {
    match ground {
        Ground::BareWood => "bare-wood",
        Ground::Later => "later",
    }
}

fn rate(product: &Product, line: &RateLine, wood: Option<&str>, of: &LearnedRate) -> RateJson {
    let label = of.label.m2_per_l();
    RateJson {
        product: product.name.clone(),
        product_id: product.id.to_string(),
        method: line.key.method.word(),
        ground: ground(line.key.ground),
        wood: wood.map(str::to_owned),
        yours_m2_per_l: fine(of.rate().m2_per_l()),
        low_m2_per_l: fine(label * of.low),
        high_m2_per_l: fine(label * of.high),
        label_m2_per_l: fine(label),
        of_label: fine(of.middle),
        passes: of.passes,
    }
}

fn seen(pass: &SeenPass) -> SeenJson {
    SeenJson {
        pass: pass.pass.to_string(),
        code: pass_code(pass.pass),
        ended: moment(pass.ended),
        method: pass.method.word(),
        ground: pass.ground.map(ground),
        wood: pass.wood.clone(),
        area_m2: fine(pass.of.area.m2()),
        used_ml: rounded(pass.of.used.ml()),
        m2_per_l: pass.of.rate().map(SpreadRate::m2_per_l).map(fine),
        struck: pass.struck.clone(),
    }
}

/// Reads them.
pub fn run(args: &RatesArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let one = match &args.product {
        Some(text) => Some(find::product(&shop, text)?),
        None => None,
    };
    let products: Vec<&Product> = match one {
        Some(product) => vec![product],
        None => shop.products.iter().collect(),
    };
    let mut lines = rates_paper(&products, &shop);
    if let Some(product) = one {
        lines.extend(rate_passes(product, &shop, session.now));
    }
    let json = RatesJson {
        rates: products.iter().flat_map(|p| of_product(p, &shop)).collect(),
        seen: one.map(|product| {
            let of = |pass: &&SeenPass| pass.product == product.id;
            shop.rates.seen.iter().filter(of).map(seen).collect()
        }),
    };
    Answer::new(lines, json)
}

fn of_product(product: &Product, shop: &Shop) -> Vec<RateJson> {
    let of = |line: &&RateLine| line.key.product == product.id;
    let mut out = Vec::new();
    for line in shop.rates.lines.iter().filter(of) {
        let woods = line.woods.iter();
        out.extend(woods.map(|(wood, of)| rate(product, line, Some(wood), of)));
        out.push(rate(product, line, None, &line.all));
    }
    out
}
