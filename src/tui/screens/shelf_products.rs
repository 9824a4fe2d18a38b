//! The products with the figures of their cans, and where each figure came from.

use super::super::kit::text;
use super::super::screen::Ctx;
use super::list::{Entry, Line, Tone, plain};
use crate::coating::{
    Figure, FigureBasis, FigureSource, Product, ProductId, ProductKind, after_windows,
    windows_words,
};
use crate::desk::{SheetPart, figure_value, product_sheet};
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
    let dry = |span: crate::coating::Span| show_span(span.as_duration());
    let mut figures = Vec::new();
    if product.kind != ProductKind::Wipe {
        let value = |figure| figure_value(label, figure, settings);
        figures.push(format!("spread {}", value(Figure::Spread)));
        figures.push(format!("solids {}", value(Figure::Solids)));
    }
    figures.push(can(product, ctx));
    let word = match product.kind {
        ProductKind::Wipe => "coat",
        _ => "recoat",
    };
    let mut lines = vec![
        plain(format!(
            "{}, {}: {}",
            product.name,
            product.kind.word(),
            product.family.word()
        )),
        plain(format!("    {}", figures.join("; "))),
        plain(format!(
            "    at {}: tack-free in {}; {word} {}{}",
            label.reference.show(settings.temperature),
            dry(label.tack_free),
            windows_words(&label.windows),
            after_windows(&label.windows)
        )),
    ];
    lines.extend(sources(product, ctx));
    lines
}

/// `can 32 fl oz, $28.00`.
fn can(product: &Product, ctx: &Ctx<'_>) -> String {
    let can = product.can.show(ctx.shop.settings.volume);
    match product.price.cents() {
        0 => format!("can {can}, no price yet"),
        _ => format!("can {can}, {}", product.price.show()),
    }
}

/// Which figures came from where.
fn sources(product: &Product, ctx: &Ctx<'_>) -> Vec<Line> {
    let all_family = product.basis() == FigureBasis::FamilyRange;
    product_sheet(product, ctx.shop)
        .into_iter()
        .filter(|part| part.source != FigureSource::NotGiven)
        .map(|part| {
            let source = part.source.words();
            let words = match part.source {
                FigureSource::FamilyRange if all_family => product.basis().words().to_owned(),
                FigureSource::ShopTests => {
                    let speeds: Vec<&str> = part.lines.iter().map(|l| l.value.as_str()).collect();
                    format!("{source}: {}", speeds.join(", "))
                }
                _ => {
                    let names: Vec<&str> = part.lines.iter().map(|line| line.what).collect();
                    format!("{source}: {}", names.join(", "))
                }
            };
            (tone(part.source), format!("    {words}"))
        })
        .collect()
}

fn tone(source: FigureSource) -> Tone {
    match source {
        FigureSource::FamilyRange => Tone::Warn,
        _ => Tone::Dim,
    }
}

/// All of a product as a page to read.
pub(super) fn page(product: &Product, ctx: &Ctx<'_>) -> Vec<String> {
    let mut lines = vec![format!(
        "{}, {}; {}",
        product.kind.word(),
        product.family.word(),
        can(product, ctx)
    )];
    for part in product_sheet(product, ctx.shop) {
        lines.push(String::new());
        lines.extend(part_lines(&part));
    }
    lines
}

fn part_lines(part: &SheetPart) -> Vec<String> {
    if part.source == FigureSource::NotGiven {
        let names: Vec<&str> = part.lines.iter().map(|line| line.what).collect();
        return vec![format!("Not given: {}.", names.join(", "))];
    }
    let title = part.source.words();
    let mut lines = vec![format!("{}{}:", title[..1].to_uppercase(), &title[1..])];
    for line in &part.lines {
        let range = line.range.as_ref().map(|range| format!("family: {range}"));
        let start = format!("  {}", text::fit(line.what, 18));
        match range {
            Some(range) if text::width(&line.value) <= 16 => {
                lines.push(format!("{start}{}  {range}", text::fit(&line.value, 16)));
            }
            Some(range) => {
                lines.push(format!("{start}{}", line.value));
                lines.push(format!("{}{range}", " ".repeat(20)));
            }
            None => lines.push(format!("{start}{}", line.value)),
        }
    }
    lines
}
