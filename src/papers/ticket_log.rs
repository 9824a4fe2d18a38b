//! The log and the amounts of a ticket on paper.

use super::PAPER_WIDTH;
use super::layout::Columns;
use super::words::event_words;
use crate::desk::Shop;
use crate::shape::FaceKey;
use crate::shop::{Event, EventId, Pass, PassId, PieceFile, What};
use crate::units::Money;
use chrono::{DateTime, Datelike, Utc};

/// A pass as it is called on tickets and in commands: the end of its identifier.
pub fn pass_code(pass: PassId) -> String {
    let text = pass.to_string();
    text.get(text.len().saturating_sub(6)..)
        .unwrap_or_default()
        .to_owned()
}

/// A slot as it is called in commands: the end of its identifier.
pub fn slot_code(slot: crate::shop::SlotId) -> String {
    pass_code(PassId(slot.0))
}

/// A line of a log as it is called in commands: the end of its identifier.
pub fn line_code(line: EventId) -> String {
    let text = line.to_string();
    text.get(text.len().saturating_sub(6)..)
        .unwrap_or_default()
        .to_owned()
}

/// Every line of the log, oldest first, in words. Ticks of one grit at one moment share a line.
pub(super) fn log_lines(shop: &Shop, file: &PieceFile, now: DateTime<Utc>) -> Vec<String> {
    let mut columns = Columns::default();
    let mut rest = file.events.as_slice();
    let zone = shop.settings.zone;
    let year = now.with_timezone(&zone).year();
    while let Some(first) = rest.first() {
        let (words, used) = match same_ticks(rest) {
            Some((words, used)) => (words, used),
            None => (
                event_words(&first.what, shop, &|what| used_words(what, shop)),
                1,
            ),
        };
        let local = first.at.with_timezone(&zone);
        let form = if local.year() == year {
            "%a %b %-d, %-I:%M %P"
        } else {
            "%b %-d %Y, %-I:%M %P"
        };
        columns.row([&local.format(form).to_string(), &words]);
        rest = rest.get(used..).unwrap_or_default();
    }
    columns.lines(2, PAPER_WIDTH)
}

/// `120 grit on top, left end` for the ticks that start this log, and how many lines they take.
fn same_ticks(events: &[Event]) -> Option<(String, usize)> {
    let first = events.first()?;
    let What::Tick { grit, .. } = first.what else {
        return None;
    };
    let faces: Vec<FaceKey> = events
        .iter()
        .take_while(|event| event.at == first.at)
        .map_while(|event| match event.what {
            What::Tick { face, grit: other } if other == grit => Some(face),
            _ => None,
        })
        .collect();
    let names: Vec<String> = faces.iter().map(ToString::to_string).collect();
    Some((format!("{grit} grit on {}", names.join(", ")), faces.len()))
}

fn pass_of(shop: &Shop, id: PassId) -> Option<&Pass> {
    shop.passes.iter().find(|pass| pass.id == id)
}

/// What a pass used on this piece, how that is known, the air, and what the pass is called.
fn used_words(what: &What, shop: &Shop) -> String {
    let What::Coat { pass, used, .. } = what else {
        return String::new();
    };
    let settings = &shop.settings;
    let mut words = vec![format!(": {}", used.show(settings.volume))];
    if let Some(pass) = pass_of(shop, *pass) {
        words.push(format!(" {}", pass.amount.basis.word()));
        if let Some(air) = pass.air {
            let temperature = air.temperature.show(settings.temperature);
            words.push(format!("; air {temperature}, {}", air.humidity.show()));
        }
    }
    format!("{} (pass {})", words.concat(), pass_code(*pass))
}

/// What the piece took so far and what it will take, by product.
pub(super) fn amount_lines(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let rows = shop.tally(std::slice::from_ref(file));
    if rows.is_empty() {
        return Vec::new();
    }
    let volume = shop.settings.volume;
    let mut columns = Columns::at_most(&[24, 7]);
    columns.row(["product", "as", "planned", "used", "cost"]);
    for row in &rows {
        let name = shop
            .product(row.product)
            .map_or("a product gone", |product| &product.name);
        let basis = match (row.measured.ul() > 0, row.estimated.ul() > 0) {
            (false, false) => "",
            (true, false) => " measured",
            (false, true) => " estimated",
            (true, true) => " partly estimated",
        };
        columns.row([
            name,
            row.kind.word(),
            &row.planned.show(volume),
            &format!("{}{basis}", row.used().show(volume)),
            &row.cost.show(),
        ]);
    }
    let mut out = columns.lines(2, PAPER_WIDTH);
    let cost: Money = rows.iter().map(|row| row.cost).sum();
    out.push(format!("  cost of what was used: {}", cost.show()));
    for words in super::cans::batches_used(shop, file) {
        let lines = super::layout::wrap(&words, PAPER_WIDTH - 2, 2);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    }
    out
}
