//! Movement and fastening in words.

use super::{Line, Weight};
use crate::shop::moving::{Fastening, Moves, ScrewRow, WoodSheet};
use crate::units::Length;
use crate::wood::movement::{Gap, HoldLine, PRACTICE_GAPS, SCREW_HOLES, Situation, both};

/// Where the width is held, in words that go on after "held".
pub fn held_words(held: HoldLine) -> &'static str {
    match held {
        HoldLine::ThisEdge => "at the back edge",
        HoldLine::Middle => "along the middle",
        HoldLine::OppositeEdge => "at the front edge",
    }
}

pub(super) fn lines(sheet: &WoodSheet, out: &mut Vec<Line>) {
    out.push((Weight::Heading, "MOVEMENT".to_owned()));
    let moves = match &sheet.moves {
        Ok(moves) => moves,
        Err(error) => {
            out.push((Weight::Body, format!("Not reckoned: {error}")));
            return;
        }
    };
    movement(moves, out);
    out.push((Weight::Heading, "LEAVE AND HOLD".to_owned()));
    leave(moves, sheet, out);
    hold(&moves.fastening, out);
}

fn movement(moves: &Moves, out: &mut Vec<Line>) {
    let mut say = |weight, text: String| out.push((weight, text));
    say(Weight::Body, format!("{}.", moves.build));
    for year in [&moves.across, &moves.along] {
        say(Weight::Body, format!("{}.", capital(&year.show())));
    }
    let swing = moves.across.swing();
    let swing = if swing.is_single() {
        both(swing.high())
    } else {
        format!("{} to {}", both(swing.low()), both(swing.high()))
    };
    say(
        Weight::Body,
        format!("From the driest to the dampest the width moves {swing}."),
    );
    let mut told: Vec<String> = Vec::new();
    for movement in [
        &moves.across.to_dry,
        &moves.across.to_wet,
        &moves.along.to_dry,
        &moves.along.to_wet,
    ] {
        let basis = format!("{}.", capital(&movement.basis()));
        if !told.contains(&basis) {
            say(Weight::Small, basis.clone());
            told.push(basis);
        }
    }
    say(
        Weight::Small,
        "What fasteners and glue hold back is not reckoned. Table 13-5 overstates the width of \
         boards that are neither flatsawn nor quartersawn (p. 13-17)."
            .to_owned(),
    );
}

fn leave(moves: &Moves, sheet: &WoodSheet, out: &mut Vec<Line>) {
    let fastening = &moves.fastening;
    let mut say = |weight, text: String| out.push((weight, text));
    say(
        Weight::Body,
        gap_words(
            &format!(
                "At the back edge, the top held {}",
                held_words(sheet.lie.held)
            ),
            &fastening.gap,
        ),
    );
    say(
        Weight::Body,
        gap_words("At the front edge", &fastening.gap_opposite),
    );
    say(
        Weight::Body,
        gap_words(
            "At each end, held in the middle of the length",
            &fastening.gap_ends,
        ),
    );
    let practice: Vec<String> = PRACTICE_GAPS
        .iter()
        .map(|figure| format!("{} ({})", figure.words, figure.source))
        .collect();
    say(
        Weight::Small,
        format!("Practice asks: {}.", practice.join("; ")),
    );
    say(
        Weight::Body,
        format!(
            "Screws of {}, in rows along the grain:",
            both(sheet.lie.screw)
        ),
    );
    for row in &fastening.rows {
        say(Weight::Body, format!("  {}", row_words(row)));
    }
    let holes: Vec<String> = SCREW_HOLES
        .iter()
        .map(|figure| format!("{} ({})", figure.words, figure.source))
        .collect();
    say(
        Weight::Small,
        format!(
            "Slot lengths: travel and screw together (common practice, no source). Makers ask: {}.",
            holes.join("; ")
        ),
    );
    let (rule, standing) = sheet.lie.spacing.source();
    if let Some(along) = &fastening.along {
        say(
            Weight::Body,
            format!(
                "Along each row {} slotted blocks, clips or figure-eights, {} apart, the first and \
                 last {} from the ends.",
                along.count,
                both(along.apart),
                both(along.margin)
            ),
        );
    }
    say(
        Weight::Small,
        format!("Spacing by {rule} ({}).", standing.words()),
    );
    say(Weight::Body, eight_words(fastening, sheet.lie.eight));
    if let Some(mitre) = &fastening.mitre {
        say(
            Weight::Body,
            format!("A full mitre of two such legs: {}.", mitre.words()),
        );
    }
    for sink in &fastening.sinks {
        say(
            Weight::Body,
            format!(
                "{}: {}.",
                capital(&sink.opening.to_string()),
                sink.clearance.words()
            ),
        );
    }
}

/// The gap of an edge; an edge that is held needs none.
fn gap_words(place: &str, gap: &Gap) -> String {
    if gap.opens_to == Length::ZERO {
        return format!("{place}: no gap is needed, it does not move there.");
    }
    format!("{place}: {}.", gap.words())
}

fn row_words(row: &ScrewRow) -> String {
    let place = format!("{} from the back edge", both(row.from_edge));
    match &row.slot {
        None => format!("{place}: held, round holes"),
        Some(slot) => format!(
            "{place}, {} from the held row: {}",
            both(row.from_held),
            slot.words()
        ),
    }
}

fn eight_words(fastening: &Fastening, centres: Length) -> String {
    match &fastening.eight {
        Ok(_) if fastening.travel == Length::ZERO => {
            "No row travels, so figure-eights need not turn.".to_owned()
        }
        Ok(eight) => format!(
            "A figure-eight with its holes {} apart, at the farthest row, turns {} degrees to each \
             side at most for {} of travel and draws the top {} along: give its recess room.",
            both(centres),
            eight.turns_degrees,
            both(fastening.travel),
            both(eight.drawn)
        ),
        Err(error) => format!("Figure-eights will not serve at the farthest row: {error}"),
    }
}

fn hold(fastening: &Fastening, out: &mut Vec<Line>) {
    for situation in &fastening.situations {
        out.push((
            Weight::Body,
            format!(
                "{}: {}",
                capital(situation.words()),
                situation.advice().line()
            ),
        ));
        if *situation == Situation::CrossPiece {
            out.push((
                Weight::Body,
                "  Its slots are those of the rows above: a screw of the breadboard end or cleat \
                 at the same distance from the held one takes the same slot."
                    .to_owned(),
            ));
        }
    }
    out.push((
        Weight::Small,
        "Never glue or silicone a top down along its width (common practice, no source)."
            .to_owned(),
    ));
}

/// The text with a capital in front.
pub(super) fn capital(text: &str) -> String {
    let mut signs = text.chars();
    signs.next().map_or_else(String::new, |first| {
        format!("{}{}", first.to_uppercase(), signs.as_str())
    })
}
