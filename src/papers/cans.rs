//! The shelf on paper: every can, and one can with its log.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use super::ticket_log::pass_code;
use crate::desk::{Shop, known_words};
use crate::shop::{
    Age, Came, CanLine, CanMove, CanStanding, CanState, CanWhat, EmptyWeight, JarFor, KeepsDay,
    MoveOf, PieceFile, UseLine, use_lines,
};
use crate::units::{show_date, show_moment};
use chrono::{DateTime, Utc};
use uuid::Uuid;

/// The end of an identifier, by which a line of a log is called in commands.
pub fn short_code(id: Uuid) -> String {
    let text = id.to_string();
    text.get(text.len().saturating_sub(6)..)
        .unwrap_or_default()
        .to_owned()
}

/// The cans that are still there; `all` lists empty and discarded ones too.
pub fn cans_paper(shop: &Shop, now: DateTime<Utc>, all: bool) -> Vec<String> {
    let mut out = vec!["SHELF".to_owned()];
    let shown = |state: &&CanState| all || state.usable();
    let mut columns = Columns::at_most(&[4, 28, 20, 10]);
    columns.row(["can", "product", "batch", "state", "left"]);
    let mut states: Vec<&CanState> = shop.cans.cans.iter().filter(shown).collect();
    let name = |state: &CanState| product_name(shop, state);
    states.sort_by_key(|state| (name(state), state.can.no));
    for state in &states {
        columns.row([
            &state.can.no.to_string(),
            &name(state),
            &state.can.batch,
            state.standing.word(),
            &state.left.volume.show(shop.settings.volume),
        ]);
    }
    if states.is_empty() {
        out.push("  No can stands on the shelf: tackfree can receive PRODUCT.".to_owned());
        return out;
    }
    let mut lines = columns.lines(2, PAPER_WIDTH).into_iter();
    out.extend(lines.next());
    for (line, state) in lines.zip(&states) {
        out.push(line);
        let words = wrap(&can_row_words(state, shop, now), PAPER_WIDTH - 8, 0);
        out.extend(words.into_iter().map(|line| format!("        {line}")));
    }
    let worth = states
        .iter()
        .map(|state| state.left.cost)
        .sum::<crate::units::Money>();
    out.push(String::new());
    out.push(format!("  What is left is worth {}.", worth.show()));
    let outside = shop
        .passes
        .iter()
        .filter(|pass| pass.drawn.draws.is_empty())
        .count();
    if outside > 0 {
        out.extend(
            wrap(
                &format!(
                    "{} no can: what they used stands outside the balance of the cans.",
                    crate::units::counted(outside, "pass names", "passes name")
                ),
                PAPER_WIDTH - 2,
                0,
            )
            .into_iter()
            .map(|line| format!("  {line}")),
        );
    }
    out
}

fn product_name(shop: &Shop, state: &CanState) -> String {
    shop.product(state.can.product).map_or_else(
        || "a product gone".to_owned(),
        |product| product.name.clone(),
    )
}

/// How what is left is known, the shelf life and the place, in one line.
pub fn can_row_words(state: &CanState, shop: &Shop, now: DateTime<Utc>) -> String {
    let mut words = vec![known_words(state, now, &shop.settings)];
    let age = age_words(state, shop, now);
    words.extend((!age.is_empty()).then_some(age));
    words.extend((!state.place.is_empty()).then(|| state.place.clone()));
    words.join("; ")
}

/// `good until Mar 3`, `soon past: Dec 2 (once opened)`; nothing where it is not known.
fn age_words(state: &CanState, shop: &Shop, now: DateTime<Utc>) -> String {
    let today = now.with_timezone(&shop.settings.zone).date_naive();
    let end = |end: KeepsDay| match end {
        KeepsDay::Sealed(day) => show_date(day, today),
        KeepsDay::Open(day) => format!("{} (once opened)", show_date(day, today)),
    };
    match state.age(today, shop.settings.zone) {
        Age::Unknown => String::new(),
        Age::Good(day) => format!("good until {}", end(day)),
        Age::Soon(day) => format!("soon past, {}", end(day)),
        Age::Past(day) => format!("PAST its shelf life, {}", end(day)),
    }
}

/// One can: what it is, what is left, its log.
pub fn can_paper(state: &CanState, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let (settings, can) = (&shop.settings, &state.can);
    let said = |volume: crate::units::Volume| volume.show(settings.volume);
    let today = now.with_timezone(&settings.zone).date_naive();
    let mut out = vec![format!("CAN {} of {}", can.no, product_name(shop, state))];
    let mut say = |words: String| {
        let lines = wrap(&words, PAPER_WIDTH - 2, 2);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    };
    say(match can.came {
        Came::Bought { on, price } => format!(
            "holds {}, came {} with {} for {}",
            said(can.size),
            show_date(on, today),
            said(can.held),
            price.show()
        ),
        Came::Mixed { at } => format!(
            "mixed {}: {}, worth {}",
            show_moment(at, now, settings.zone),
            said(can.held),
            state.came.cost.show()
        ),
    });
    say(if can.batch.is_empty() {
        "batch not read".to_owned()
    } else {
        format!("batch {}", can.batch)
    });
    let mut stands = vec![state.standing.word().to_owned()];
    if let Some(at) = state.opened {
        stands.push(format!("opened {}", show_moment(at, now, settings.zone)));
    }
    if let CanStanding::Discarded(at) = state.standing {
        stands.push(format!(
            "thrown away {}",
            show_moment(at, now, settings.zone)
        ));
    }
    if !state.place.is_empty() {
        stands.push(state.place.clone());
    }
    say(stands.join(", "));
    say(format!(
        "left {}, {}, worth {}",
        said(state.left.volume),
        known_words(state, now, settings),
        state.left.cost.show()
    ));
    let age = age_words(state, shop, now);
    say(if age.is_empty() {
        "shelf life not known".to_owned()
    } else {
        age
    });
    say(match state.empty {
        None => "what it weighs empty is not known".to_owned(),
        Some(EmptyWeight::Given(mass)) => format!("weighs {} empty", mass.show()),
        Some(EmptyWeight::Reckoned(mass)) => format!(
            "weighs {} empty, reckoned from its first weighing",
            mass.show()
        ),
    });
    out.push("  LOG".to_owned());
    out.extend(log(state, shop, now));
    out
}

fn log(state: &CanState, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let settings = &shop.settings;
    let mut rows: Vec<(DateTime<Utc>, String, String)> = shop
        .cans
        .lines
        .iter()
        .filter(|line| line.can == state.can.id)
        .map(|line| (line.at, line_words(line, shop), short_code(line.id.0)))
        .collect();
    for CanMove { at, of, qty, left } in &state.moves {
        let volume = qty.volume.show(settings.volume);
        let words = match of {
            MoveOf::Pass(pass, rag) => {
                let lost = if rag.volume.ul() > 0 {
                    format!(
                        ", {} of it in rag and tray",
                        rag.volume.show(settings.volume)
                    )
                } else {
                    String::new()
                };
                let code = pass_code(*pass);
                format!("pass {code} took {volume}{lost}, {}", qty.cost.show())
            }
            MoveOf::Found if qty.volume.ul() < 0 => format!(
                "{} more than reckoned was there",
                (-qty.volume).show(settings.volume)
            ),
            MoveOf::Found => format!("{volume} less than reckoned was there"),
            _ => continue,
        };
        let left = left.show(settings.volume);
        rows.push((*at, format!("{words}; {left} left"), String::new()));
    }
    rows.sort_by_key(|(at, ..)| *at);
    let mut columns = Columns::default();
    for (at, words, code) in &rows {
        let code = if code.is_empty() {
            String::new()
        } else {
            format!(" ({code})")
        };
        let words = format!("{words}{code}");
        columns.row([&show_moment(*at, now, settings.zone), &words]);
    }
    if columns.is_empty() {
        return vec!["    nothing yet".to_owned()];
    }
    columns.lines(4, PAPER_WIDTH)
}

/// A line of a can's log in words.
pub fn line_words(line: &CanLine, shop: &Shop) -> String {
    let said = |volume: crate::units::Volume| volume.show(shop.settings.volume);
    match &line.what {
        CanWhat::Opened => "opened".to_owned(),
        CanWhat::Weighed(mass) => format!("weighed {}", mass.show()),
        CanWhat::Jar { volume, to } => {
            let whom = match to {
                JarFor::Client(id) => shop
                    .client(*id)
                    .map_or_else(|| "a client gone".to_owned(), |client| client.name.clone()),
                JarFor::Job(id) => shop
                    .job(*id)
                    .map_or_else(|| "a job gone".to_owned(), |job| format!("job {}", job.no)),
            };
            format!("jar of {} for {whom}", said(*volume))
        }
        CanWhat::Lost { volume, reason } => format!("lost {}: {reason}", said(*volume)),
        CanWhat::MixedInto { into, volume } => {
            let into = shop
                .cans
                .can(*into)
                .map_or_else(|| "a can gone".to_owned(), |state| state.can.called());
            format!("{} mixed into {into}", said(*volume))
        }
        CanWhat::Discarded { reason } => format!("thrown away: {reason}"),
        CanWhat::Moved { place } => format!("put at: {place}"),
    }
}

/// The batches and cans that went on a piece, product by product: they belong to its finish record.
pub fn batches_used(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let lines = use_lines(
        std::slice::from_ref(file),
        &shop.passes,
        &shop.products,
        &shop.cans,
    );
    let mut rows: Vec<(String, Vec<String>, usize)> = Vec::new();
    for line in &lines {
        let name = shop.product(line.product).map_or_else(
            || "a product gone".to_owned(),
            |product| product.name.clone(),
        );
        let called = format!("{} as {}", name, line.kind.word());
        let at = rows.iter().position(|(known, ..)| *known == called);
        let at = at.unwrap_or_else(|| {
            rows.push((called, Vec::new(), 0));
            rows.len() - 1
        });
        let Some((_, batches, outside)) = rows.get_mut(at) else {
            continue;
        };
        let used = from_cans(shop, line);
        if used.is_empty() {
            *outside += 1;
        }
        for words in used {
            if !batches.contains(&words) {
                batches.push(words);
            }
        }
    }
    rows.into_iter()
        .map(|(called, mut batches, outside)| {
            if outside > 0 {
                let passes = crate::units::counted(outside, "pass", "passes");
                batches.push(format!("no can named for {passes}"));
            }
            format!("{called}: {}", batches.join("; "))
        })
        .collect()
}

fn from_cans(shop: &Shop, line: &UseLine) -> Vec<String> {
    let pass = shop.passes.iter().find(|pass| pass.id == line.pass);
    let draws = pass.iter().flat_map(|pass| &pass.drawn.draws);
    draws
        .filter_map(|draw| shop.cans.can(draw.can))
        .map(|state| {
            if state.can.batch.is_empty() {
                format!("{}, batch not read", state.can.called())
            } else {
                format!("batch {} ({})", state.can.batch, state.can.called())
            }
        })
        .collect()
}
