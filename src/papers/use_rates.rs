//! The shop's own spread rates on paper, with the passes behind them.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use super::ticket_log::pass_code;
use crate::coating::Product;
use crate::coating::rates::{Ground, LearnedRate};
use crate::desk::Shop;
use crate::shop::{RateLine, SeenPass};
use crate::units::{SpreadRate, counted, show_moment};
use chrono::{DateTime, Utc};

/// `first coat on bare wood`, `later coats`.
pub fn ground_words(ground: Ground) -> &'static str {
    match ground {
        Ground::BareWood => "first coat on bare wood",
        Ground::Later => "later coats",
    }
}

/// How the rates are come by, for the foot of the list.
const HOW: &str = "Middle of what the passes speak for, and the span that holds 8 in 10. The label \
    weighs like a tenth of a pass; a wood starts from what the others taught. One pass in twenty \
    is taken for a slip; strike one out that you know to be wrong.";

/// Every rate of these products.
pub fn rates_paper(products: &[&Product], shop: &Shop) -> Vec<String> {
    let mut out = vec!["SPREAD RATES".to_owned()];
    let area = shop.settings.area();
    let mut any = false;
    for product in products {
        let of = |line: &&RateLine| line.key.product == product.id;
        let lines: Vec<&RateLine> = shop.rates.lines.iter().filter(of).collect();
        let label = product.label.spread.show(area);
        if lines.is_empty() {
            continue;
        }
        any = true;
        out.push(String::new());
        out.extend(wrap(
            &format!("{}: the label says {label}", product.name),
            PAPER_WIDTH,
            2,
        ));
        for line in lines {
            out.push(format!(
                "  {}, {}",
                line.key.method.word(),
                ground_words(line.key.ground)
            ));
            let mut columns = Columns::at_most(&[24]);
            for (wood, learned) in &line.woods {
                columns.row([wood.as_str(), &learned_words(learned, shop)]);
            }
            columns.row(["all woods", &learned_words(&line.all, shop)]);
            out.extend(columns.lines(4, PAPER_WIDTH));
        }
    }
    out.push(String::new());
    if any {
        out.extend(wrap(HOW, PAPER_WIDTH, 2));
    } else {
        let none = "No measured pass stands behind a rate yet, so the labels' count. Weigh the can \
                    before and after a pass, or read off a volume.";
        out.extend(wrap(none, PAPER_WIDTH, 2));
    }
    out
}

/// `812 sq ft/gal (760 to 870 sq ft/gal), 1.30 of the label's, yours from 10 passes`.
pub fn learned_words(learned: &LearnedRate, shop: &Shop) -> String {
    let area = shop.settings.area();
    let at = |share: f64| {
        let rate = SpreadRate::from_m2_per_l(learned.label.m2_per_l() * share);
        rate.unwrap_or(learned.label).show(area)
    };
    // The unit once is enough: 341 to 501 sq ft/gal.
    let low = at(learned.low);
    let number = low.split(' ').next().unwrap_or(&low);
    format!(
        "{} ({number} to {}), {:.2} of the label's, yours from {}",
        learned.rate().show(area),
        at(learned.high),
        learned.middle,
        counted(learned.passes, "pass", "passes")
    )
}

/// The passes behind the rates of one product, newest first.
pub fn rate_passes(product: &Product, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let of = |seen: &&SeenPass| seen.product == product.id;
    let seen: Vec<&SeenPass> = shop.rates.seen.iter().filter(of).collect();
    if seen.is_empty() {
        return Vec::new();
    }
    let mut out = vec![String::new(), format!("  Passes of {}:", product.name)];
    let mut columns = Columns::at_most(&[6, 22]);
    for pass in seen {
        let rate = pass.of.rate().map_or_else(
            || "no rate".to_owned(),
            |rate| rate.show(shop.settings.area()),
        );
        columns.row([
            &pass_code(pass.pass),
            &show_moment(pass.ended, now, shop.settings.zone),
            &pass.of.area.show(shop.settings.area()),
            &pass.of.used.show(shop.settings.volume),
            &format!("{rate}, {}", told(pass)),
        ]);
    }
    out.extend(columns.lines(4, PAPER_WIDTH));
    out
}

fn told(pass: &SeenPass) -> String {
    let wood = pass.wood.as_deref().unwrap_or("several woods");
    let of = match pass.ground {
        Some(ground) => format!("{}, {}, {wood}", pass.method.word(), ground_words(ground)),
        None => format!(
            "{}, {wood}: bare wood and later coats in one, so it teaches nothing",
            pass.method.word()
        ),
    };
    match &pass.struck {
        Some(reason) => format!("{of}; struck out: {reason}"),
        None => of,
    }
}
