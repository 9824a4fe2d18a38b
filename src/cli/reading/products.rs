//! The products.

use super::rounded;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::family_ranges::{measure, usual_closing, usual_range};
use crate::coating::{Figure, Product, Span, after_windows, windows_words};
use crate::desk::{Shop, learned, product_sheet};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::units::show_span;
use clap::Args;
use serde::Serialize;
use std::collections::BTreeMap;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree products\n  tackfree products \"clear wiping varnish\"\n\nWith a NAME: every figure of that product under where it came from: from the label, this shop's touch\ntests, the family range (check the can label), or not given.\n\nWith --json: products [id, name, kind, family, basis, spread_m2_per_l, wet_film_um or null,\ndry_film_um or null, solids_pct, density_g_per_ml, voc_g_per_l or null, reference_c,\nreference_humidity_pct or null (then 50 is reckoned with), touch_min, tack_free_min, windows\n[opens_min, closes_min or null, scuff], handle_min, light_use_min, full_cure_min, min_temp_c,\nmax_humidity_pct, can_ml, price_cents, sources {figure: label, family-range or not-given}, ranges\n{figure: [low, high, seen]} of its family in the units above, the range of windows being that of\nopens_min and closing that of closes_min, learned {factor, low, high, tests, coats} of this shop's\ntouch tests or null, doubts [sentences]].";

/// What was asked.
#[derive(Debug, Args)]
pub struct ProductsArgs {
    /// Only this product, with every figure and where it came from.
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
}

#[derive(Serialize)]
struct ProductsJson {
    products: Vec<ProductJson>,
}

#[derive(Serialize)]
struct ProductJson {
    id: String,
    name: String,
    kind: &'static str,
    family: &'static str,
    basis: &'static str,
    spread_m2_per_l: f64,
    wet_film_um: Option<f64>,
    dry_film_um: Option<f64>,
    solids_pct: f64,
    density_g_per_ml: f64,
    voc_g_per_l: Option<f64>,
    reference_c: f64,
    reference_humidity_pct: Option<f64>,
    touch_min: i64,
    tack_free_min: i64,
    windows: Vec<WindowJson>,
    handle_min: i64,
    light_use_min: i64,
    full_cure_min: i64,
    min_temp_c: f64,
    max_humidity_pct: f64,
    can_ml: f64,
    price_cents: i64,
    sources: BTreeMap<&'static str, &'static str>,
    ranges: BTreeMap<&'static str, (f64, f64, &'static str)>,
    learned: Option<LearnedJson>,
    doubts: Vec<String>,
}

#[derive(Serialize)]
struct LearnedJson {
    factor: f64,
    low: f64,
    high: f64,
    tests: usize,
    coats: usize,
}

#[derive(Serialize)]
struct WindowJson {
    opens_min: i64,
    closes_min: Option<i64>,
    scuff: bool,
}

fn json(product: &Product, shop: &Shop) -> ProductJson {
    let label = &product.label;
    let maybe = |figure| measure(label, figure).map(rounded);
    let mut ranges: BTreeMap<_, _> = Figure::ALL
        .into_iter()
        .filter_map(|figure| Some((figure.code(), usual_range(product.family, figure)?)))
        .collect();
    ranges.extend(usual_closing(product.family).map(|range| ("closing", range)));
    ProductJson {
        id: product.id.to_string(),
        name: product.name.clone(),
        kind: product.kind.word(),
        family: product.family.word(),
        basis: product.basis().words(),
        spread_m2_per_l: rounded(label.spread.m2_per_l()),
        wet_film_um: maybe(Figure::WetFilm),
        dry_film_um: maybe(Figure::DryFilm),
        solids_pct: label.solids_pct,
        density_g_per_ml: rounded(label.density.g_per_ml()),
        voc_g_per_l: maybe(Figure::Voc),
        reference_c: rounded(label.reference.c()),
        reference_humidity_pct: maybe(Figure::ReferenceHumidity),
        touch_min: label.touch.as_minutes(),
        tack_free_min: label.tack_free.as_minutes(),
        windows: label
            .windows
            .iter()
            .map(|window| WindowJson {
                opens_min: window.opens.as_minutes(),
                closes_min: window.closes.map(Span::as_minutes),
                scuff: window.scuff,
            })
            .collect(),
        handle_min: label.handle.as_minutes(),
        light_use_min: label.light_use.as_minutes(),
        full_cure_min: label.full_cure.as_minutes(),
        min_temp_c: rounded(label.min_temp.c()),
        max_humidity_pct: label.max_humidity.percent(),
        can_ml: rounded(product.can.ml()),
        price_cents: product.price.cents(),
        sources: Figure::ALL
            .into_iter()
            .map(|figure| (figure.code(), label.source(figure).code()))
            .collect(),
        ranges: ranges
            .into_iter()
            .map(|(code, range)| (code, (range.low, range.high, range.seen.words())))
            .collect(),
        learned: learned(product, shop).map(|learned| LearnedJson {
            factor: rounded(learned.median),
            low: rounded(learned.low),
            high: rounded(learned.high),
            tests: learned.tests,
            coats: learned.coats,
        }),
        doubts: doubts(product, shop),
    }
}

fn doubts(product: &Product, shop: &Shop) -> Vec<String> {
    let settings = &shop.settings;
    product
        .doubts()
        .iter()
        .map(|doubt| doubt.words(settings.area(), settings.temperature))
        .collect()
}

fn words(product: &Product, shop: &Shop) -> String {
    let (label, settings) = (&product.label, &shop.settings);
    format!(
        "{}, {}; spread {}; tack-free {}; next coat {}{}; full cure {}; times hold at {}; not below {} or above {}; {} a can of {}; {}",
        product.kind.word(),
        product.family.word(),
        label.spread.show(settings.area()),
        show_span(label.tack_free.as_duration()),
        windows_words(&label.windows),
        after_windows(&label.windows),
        show_span(label.full_cure.as_duration()),
        label.reference.show(settings.temperature),
        label.min_temp.show(settings.temperature),
        label.max_humidity.show(),
        product.price.show(),
        product.can.show(settings.volume),
        product.basis().words()
    )
}

/// All of one product.
fn sheet(product: &Product, shop: &Shop) -> Vec<String> {
    let settings = &shop.settings;
    let mut lines = vec![
        product.name.clone(),
        format!(
            "  {}, {}; {} a can of {}",
            product.kind.word(),
            product.family.word(),
            product.price.show(),
            product.can.show(settings.volume)
        ),
    ];
    for part in product_sheet(product, shop) {
        lines.push(format!("  {}", part.source.words()));
        for line in part.lines {
            let range = line
                .range
                .map_or_else(String::new, |range| format!(" (its family: {range})"));
            let text = format!("{}: {}{range}", line.what, line.value);
            let wrapped = wrap(text.trim_end_matches([' ', ':']), PAPER_WIDTH - 4, 4);
            lines.extend(wrapped.into_iter().map(|line| format!("    {line}")));
        }
    }
    for doubt in doubts(product, shop) {
        lines.extend(wrap(&doubt, PAPER_WIDTH, 2));
    }
    lines
}

/// Reads it.
pub fn run(args: &ProductsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    if let Some(name) = &args.name {
        let product = find::product(&shop, name)?;
        let products = vec![json(product, &shop)];
        return Answer::new(sheet(product, &shop), ProductsJson { products });
    }
    let mut lines = Vec::new();
    for product in &shop.products {
        if !lines.is_empty() {
            lines.push(String::new());
        }
        lines.push(product.name.clone());
        let wrapped = wrap(&words(product, &shop), PAPER_WIDTH - 2, 0);
        lines.extend(wrapped.into_iter().map(|line| format!("  {line}")));
    }
    if lines.is_empty() {
        lines.push(
            "There is no product. Enter one: tackfree product NAME --family FAMILY".to_owned(),
        );
    }
    Answer::new(
        lines,
        ProductsJson {
            products: shop.products.iter().map(|p| json(p, &shop)).collect(),
        },
    )
}
