//! The wood sheet of a piece: readings, curve, year, movement, fastening, sealing and cup.

use super::{Line, Weight, moves, on_paper, plot::plot, seals};
use crate::desk::Shop;
use crate::shop::moving::{AirBasis, PartName, PlaceCurve, TodayBasis, WoodSheet};
use crate::shop::{Moisture, PieceFile, ReadingId};
use crate::units::{show_date, show_moment};
use crate::wood::moisture::{Readiness, Reason, Verdict};
use crate::wood::movement::{Surroundings, both};
use chrono::{DateTime, Utc};

/// A reading as it is called on the sheet and in commands: the end of its identifier.
pub fn reading_code(id: ReadingId) -> String {
    let text = id.to_string();
    text.get(text.len().saturating_sub(6)..)
        .unwrap_or_default()
        .to_owned()
}

/// A reading in one line, when and what: `Thu 3:40 pm  8.5% at underside, left end (...)`.
pub fn reading_line(of: &Moisture, shop: &Shop, now: DateTime<Utc>) -> String {
    let when = show_moment(of.reading.at, now, shop.settings.zone);
    format!("{when}  {}", of.reading.words())
}

fn body(text: impl Into<String>) -> Line {
    (Weight::Body, text.into())
}

fn small(text: impl Into<String>) -> Line {
    (Weight::Small, text.into())
}

fn heading(text: &str) -> Line {
    (Weight::Heading, text.to_owned())
}

/// The whole sheet.
pub fn wood_sheet_lines(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
) -> Vec<Line> {
    let mut out = vec![heading("IN SHORT")];
    short(sheet, &mut out);
    out.push(heading("THE WOOD"));
    wood(file, sheet, &mut out);
    out.push(heading("MOISTURE"));
    moisture(shop, sheet, now, &mut out);
    out.push(heading("READY?"));
    ready(shop, sheet, now, &mut out);
    out.push(heading("READINGS AND CURVE"));
    readings(shop, file, sheet, now, &mut out);
    moves::lines(sheet, &mut out);
    seals::lines(sheet, &mut out);
    out
}

/// The sheet on paper.
pub fn wood_sheet_paper(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
) -> Vec<String> {
    let mut out = vec![format!("WOOD SHEET {}", shop.called(file)), String::new()];
    out.extend(on_paper(&wood_sheet_lines(shop, file, sheet, now)));
    out
}

/// What is looked for most, at a glance.
fn short(sheet: &WoodSheet, out: &mut Vec<Line>) {
    let ready: Vec<String> = sheet.ready.iter().map(ready_words).collect();
    out.push(body(format!("{}.", ready.join(". "))));
    let Ok(moves) = &sheet.moves else {
        out.push(body(match &sheet.wood {
            Err(error) => format!("Movement: {error} Name it where its fastening is noted."),
            Ok(_) => "Movement is not reckoned, see below.".to_owned(),
        }));
        return;
    };
    let across = &moves.across;
    out.push(body(format!(
        "From {} today {} {} in the dry season, {} in the damp one (estimate).",
        sheet.today.content.show(),
        match moves.parts.main.name {
            PartName::Whole => "its width",
            _ => "the width of its run",
        },
        across.to_dry.show(),
        across.to_wet.show()
    )));
    let gap = &moves.fastening.main.gap;
    let free = moves.surroundings == Surroundings::Free;
    if !free && gap.opens_to > crate::units::Length::ZERO {
        out.push(body(format!("At the back {}.", gap.words())));
    }
    if let Some(risk) = moves.cup.risk().filter(|risk| !risk.is_none()) {
        out.push(body(format!(
            "Unlike faces: cup risk up to {} (passing estimate).",
            both(risk.cup.high())
        )));
    }
}

fn wood(file: &PieceFile, sheet: &WoodSheet, out: &mut Vec<Line>) {
    match &sheet.wood {
        Ok(species) => {
            out.push(body(format!("{}.", species.words())));
            out.push(small(format!("Source: {}.", species.source)));
            if !species.note.is_empty() {
                out.push(small(format!("Mind: {}", species.note)));
            }
            if species.standing().is_memory() {
                out.push(small(
                    "This row is from memory: check it before much hangs on it.",
                ));
            }
        }
        Err(error) => out.push(body(format!(
            "The ticket says {}. {error}",
            file.piece.species
        ))),
    }
    out.push(body(format!(
        "Built {}, {}; held {}.",
        file.piece.construction,
        sheet.lie.grain.words(),
        moves::held_words(sheet.lie.held)
    )));
}

fn moisture(shop: &Shop, sheet: &WoodSheet, now: DateTime<Utc>, out: &mut Vec<Line>) {
    let style = shop.settings.temperature;
    let today = sheet.today.content.show();
    out.push(body(match sheet.today.basis {
        TodayBasis::Read {
            places,
            left_out,
            last,
        } => {
            let when = show_moment(last, now, shop.settings.zone);
            let places = match places {
                1 => "1 place".to_owned(),
                many => format!("the mean of {many} places"),
            };
            let left_out = match left_out {
                0 => String::new(),
                1 => " 1 place was read too long before to count in it.".to_owned(),
                many => format!(" {many} places were read too long before to count in it."),
            };
            format!("Today {today}, measured: {places}, last read {when}.{left_out}")
        }
        TodayBasis::ShopAir => {
            format!("No reading yet; {today} is taken, what the shop's air would hold it at.")
        }
        TodayBasis::MidYear => format!(
            "No reading yet and no shop air known; {today} is taken, the middle of the year there."
        ),
    }));
    let taken = if sheet.assumed {
        " The site's air is not noted, so this is taken; note it to be sure."
    } else {
        ""
    };
    out.push(body(format!(
        "At the client's {} through the year.{taken}",
        sheet.band.show()
    )));
    out.push(small(format!(
        "The year: {}.",
        sheet.band.basis_words(style)
    )));
    out.push(body(format!(
        "Target {}, the middle of it (Forest Products Laboratory R1655, 1955: install close to \
         the midpoint of what the wood will see in use).",
        sheet.band.midpoint().show()
    )));
    for note in sheet.site.notes() {
        out.push(body(format!(
            "Mind the {}: {}",
            note.words(),
            note.caution()
        )));
    }
    match &sheet.air {
        None => out.push(body(
            "The shop's air is not known: log it, or ask with it, to see how far it would take the \
             piece.",
        )),
        Some((_, Err(error))) => out.push(body(error.to_string())),
        Some((air, Ok(emc))) => {
            let held = emc.content;
            let where_to = if sheet.band.contents.contains(held) {
                "inside the client's year"
            } else if held > sheet.band.wettest() {
                "wetter than the client's year: dry the shop's air, or it shrinks on there"
            } else {
                "drier than the client's year: it swells on there"
            };
            let when = match air.basis {
                AirBasis::Typed => "as typed".to_owned(),
                AirBasis::Noted(at) => {
                    format!("noted {}", show_moment(at, now, shop.settings.zone))
                }
                AirBasis::Usual { days } => {
                    format!("the mean of the last four weeks, read on {days} days")
                }
            };
            out.push(body(format!(
                "The shop's air, {} ({when}), would take it to {}: {where_to}.",
                air.air.show(style),
                held.show()
            )));
            out.push(small(format!("EMC {}.", emc.basis(style))));
        }
    }
}

fn ready(shop: &Shop, sheet: &WoodSheet, now: DateTime<Utc>, out: &mut Vec<Line>) {
    out.push(small(format!("Rule: {}.", shop.wood.rule.words())));
    let mut told: Vec<&Reason> = Vec::new();
    for answer in &sheet.ready {
        out.push(body(format!("{}.", ready_words(answer))));
        for reason in &answer.reasons {
            if told.contains(&reason) {
                continue;
            }
            told.push(reason);
            out.push(body(format!("  {}", reason_words(reason, shop, now))));
        }
    }
}

/// `Ready to mill: not yet`.
pub(super) fn ready_words(answer: &Readiness) -> String {
    let goal = answer.goal.words();
    let goal = format!("{}{}", goal[..1].to_uppercase(), &goal[1..]);
    let verdict = match answer.verdict {
        Verdict::Ready => "yes",
        Verdict::WithCare => "with care",
        Verdict::NotYet => "not yet",
    };
    format!("{goal}: {verdict}")
}

fn reason_words(reason: &Reason, shop: &Shop, now: DateTime<Utc>) -> String {
    let words = reason.words();
    match reason {
        Reason::TooSoon { due, .. } => {
            let zone = shop.settings.zone;
            let today = now.with_timezone(&zone).date_naive();
            let due = show_date(due.with_timezone(&zone).date_naive(), today);
            format!("{words} Due {due}.")
        }
        _ => words,
    }
}

fn readings(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
    out: &mut Vec<Line>,
) {
    if sheet.places.is_empty() {
        out.push(body(
            "No moisture reading yet. The first one when the wood arrives starts the curve.",
        ));
        return;
    }
    let zone = shop.settings.zone;
    let toward = sheet
        .air
        .as_ref()
        .and_then(|(_, emc)| emc.as_ref().ok())
        .map(|emc| emc.content);
    let on_record = shop.moisture(file.piece.id);
    for place in &sheet.places {
        out.push(body(format!("{}, {}:", place.place, place.meter.words())));
        let drawing = plot(place, toward, now, zone);
        if !drawing.is_empty() {
            let line = toward.map_or_else(String::new, |toward| {
                format!(", - what the shop's air holds it at ({})", toward.show())
            });
            out.push(small(format!("  o read, . curve{line}")));
            out.extend(drawing.into_iter().map(|line| (Weight::Figure, line)));
        }
        curve_words(place, shop, now, out);
        for reading in &place.readings {
            let code = on_record
                .iter()
                .find(|of| of.reading == *reading)
                .map_or_else(String::new, |of| format!(" [{}]", reading_code(of.id)));
            let when = show_moment(reading.at, now, zone);
            out.push(small(format!("  {when}: {}{code}", reading.words())));
        }
    }
}

fn curve_words(place: &PlaceCurve, shop: &Shop, now: DateTime<Utc>, out: &mut Vec<Line>) {
    match &place.curve {
        None => {}
        Some(Err(error)) => out.push(body(format!("  {error}"))),
        Some(Ok(curve)) => {
            out.push(body(format!("  {}.", curve.words())));
            let zone = shop.settings.zone;
            let today = now.with_timezone(&zone).date_naive();
            out.push(body(match curve.within(0.5) {
                Some(at) if at > now => {
                    let day = show_date(at.with_timezone(&zone).date_naive(), today);
                    format!("  Within half a point of it about {day} (estimate).")
                }
                Some(_) => {
                    "  It should be within half a point of it by now: read again.".to_owned()
                }
                None => "  It will not come within half a point of it in a year.".to_owned(),
            }));
        }
    }
}
