//! A mix measured out, on paper.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use crate::coating::Product;
use crate::desk::{Shop, part_words};
use crate::shop::{Mix, RATIO_OFF, Scaled};

/// How a product is mixed: one part a line.
pub fn mix_paper(product: &Product, mix: &Mix) -> Vec<String> {
    let head = format!("{}, mixed by {}", product.name, mix.by.word());
    let mut out = wrap(&head, PAPER_WIDTH, 2);
    for part in &mix.parts {
        let lines = wrap(&part_words(part), PAPER_WIDTH - 2, 2);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    }
    out
}

/// A mix measured out.
pub fn scaled_paper(product: &Product, scaled: &Scaled, shop: &Shop) -> Vec<String> {
    let volume = shop.settings.volume;
    let head = format!("MIX {} of {}", scaled.makes.show(volume), product.name);
    let mut out = wrap(&head, PAPER_WIDTH, 2);
    let mut columns = Columns::at_most(&[40]);
    for part in &scaled.parts {
        let amount = match (part.weigh, part.measure) {
            (Some(mass), _) => format!("{} g", mass.g()),
            (None, Some(measured)) => format!("{} mL", measured.ml()),
            (None, None) => String::new(),
        };
        columns.row([part.name.as_str(), &amount, &off_words(part.off)]);
    }
    out.extend(columns.lines(2, PAPER_WIDTH));
    out.extend(
        scaled_notes(scaled)
            .iter()
            .flat_map(|note| wrap(note, PAPER_WIDTH, 2)),
    );
    out
}

/// `0.3 % more than its share`.
fn off_words(off: f64) -> String {
    let percent = off * 100.0;
    if percent.abs() < 0.05 {
        return "its share exactly".to_owned();
    }
    let which = if percent > 0.0 { "more" } else { "less" };
    format!("{:.1} % {which} than its share", percent.abs())
}

/// What to mind about it.
pub fn scaled_notes(scaled: &Scaled) -> Vec<String> {
    let mut out = Vec::new();
    if scaled.worst > RATIO_OFF {
        out.push(format!(
            "The steps of the scale or cup put a part {:.1} % off its share, which can be seen in a \
             stain: mix more at once, or weigh on a finer scale.",
            scaled.worst * 100.0
        ));
    }
    if !scaled.by_parts {
        out.push(
            "The volume is reckoned with the density of the mixed product; with the density of \
             every part it would be surer."
                .to_owned(),
        );
    }
    out
}
