//! The products with the figures of their cans, and where the figures came from.

use super::super::screen::Ctx;
use super::list::{Entry, Line, Tone, plain};
use crate::coating::{FigureBasis, Product, ProductId, ProductKind};
use crate::units::moment::show_span;

pub(super) fn keys(ctx: &Ctx<'_>) -> Vec<ProductId> {
    ctx.shop.products.iter().map(|product| product.id).collect()
}

pub(super) fn entries(ctx: &Ctx<'_>) -> Vec<Entry> {
    ctx.shop
        .products
        .iter()
        .map(|product| Entry::row(lines(product, ctx)))
        .collect()
}

fn lines(product: &Product, ctx: &Ctx<'_>) -> Vec<Line> {
    let settings = &ctx.shop.settings;
    let label = &product.label;
    let can = product.can.show(settings.volume);
    let price = match product.price.cents() {
        0 => "no price yet".to_owned(),
        _ => product.price.show(),
    };
    let dry = |span: crate::coating::Span| show_span(span.as_duration());
    let mut figures = Vec::new();
    if product.kind != ProductKind::Wipe {
        figures.push(format!("spread {}", label.spread.show(settings.area())));
        figures.push(format!("solids {}% of volume", label.solids_pct));
    }
    figures.push(format!("can {can}, {price}"));
    let basis = match product.basis {
        FigureBasis::Label => Tone::Dim,
        FigureBasis::FamilyRange => Tone::Warn,
    };
    vec![
        plain(format!(
            "{}, {}: {}",
            product.name,
            product.kind.word(),
            product.family.word()
        )),
        plain(format!("    {}", figures.join("; "))),
        plain(format!(
            "    tack-free in {}; {}",
            dry(label.tack_free),
            windows(product)
        )),
        (basis, format!("    {}", product.basis.words())),
    ]
}

/// `recoat from 6 h to 24 h, later abrade first`.
fn windows(product: &Product) -> String {
    let dry = |span: crate::coating::Span| show_span(span.as_duration());
    let word = if product.kind == ProductKind::Wipe {
        "coat"
    } else {
        "recoat"
    };
    let parts: Vec<String> = product
        .label
        .windows
        .iter()
        .map(|window| {
            let scuff = if window.scuff { " with a scuff" } else { "" };
            match window.closes {
                Some(closes) => format!("from {} to {}{scuff}", dry(window.opens), dry(closes)),
                None => format!("from {}{scuff}, no limit", dry(window.opens)),
            }
        })
        .collect();
    let last = product
        .label
        .windows
        .last()
        .is_some_and(|window| window.closes.is_some());
    let late = if last { ", later abrade first" } else { "" };
    format!("{word} {}{late}", parts.join(", or "))
}
