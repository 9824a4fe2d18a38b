//! The products.

use super::rounded;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::Product;
use crate::desk::Shop;
use crate::desk::typed::write_windows;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::units::show_span;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "With --json: products [id, name, kind, family, basis, spread_m2_per_l, solids_pct, density_g_per_ml,\ntouch_min, tack_free_min, windows [opens_min, closes_min or null, scuff], handle_min, light_use_min,\nfull_cure_min, min_temp_c, max_humidity_pct, can_ml, price_cents].";

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
    solids_pct: f64,
    density_g_per_ml: f64,
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
}

#[derive(Serialize)]
struct WindowJson {
    opens_min: i64,
    closes_min: Option<i64>,
    scuff: bool,
}

fn json(product: &Product) -> ProductJson {
    let label = &product.label;
    ProductJson {
        id: product.id.to_string(),
        name: product.name.clone(),
        kind: product.kind.word(),
        family: product.family.word(),
        basis: product.basis.words(),
        spread_m2_per_l: rounded(label.spread.m2_per_l()),
        solids_pct: label.solids_pct,
        density_g_per_ml: rounded(label.density.g_per_ml()),
        touch_min: label.touch.as_minutes(),
        tack_free_min: label.tack_free.as_minutes(),
        windows: label
            .windows
            .iter()
            .map(|window| WindowJson {
                opens_min: window.opens.as_minutes(),
                closes_min: window.closes.map(crate::coating::Span::as_minutes),
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
    }
}

fn words(product: &Product, shop: &Shop) -> String {
    let (label, settings) = (&product.label, &shop.settings);
    format!(
        "{}, {}; spread {}; tack-free {}; next coat {}; full cure {}; not below {} or above {}; {} a can of {}; {}",
        product.kind.word(),
        product.family.word(),
        label.spread.show(settings.area()),
        show_span(label.tack_free.as_duration()),
        write_windows(&label.windows),
        show_span(label.full_cure.as_duration()),
        label.min_temp.show(settings.temperature),
        label.max_humidity.show(),
        product.price.show(),
        product.can.show(settings.volume),
        product.basis.words()
    )
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
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
            products: shop.products.iter().map(json).collect(),
        },
    )
}
