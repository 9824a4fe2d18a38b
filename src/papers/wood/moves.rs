//! Movement and fastening in words.

use super::{Line, Weight};
use crate::shop::moving::{
    LegsAt, Moves, NoMoves, Part, PartFastening, PartName, ScrewRow, WoodSheet,
};
use crate::units::Length;
use crate::wood::movement::{
    Gap, HoldLine, PRACTICE_GAPS, SCREW_HOLES, Situation, Surroundings, YearMovement, both,
};

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
            let words = match error {
                NoMoves::Wood(_) => "Not reckoned until its wood is named, see above.".to_owned(),
                NoMoves::Movement(error) => format!("Not reckoned: {error}"),
            };
            out.push((Weight::Body, words));
            return;
        }
    };
    movement(moves, out);
    out.push((Weight::Heading, "LEAVE AND HOLD".to_owned()));
    leave(moves, sheet, out);
    hold(moves, sheet.lie.held, out);
}

fn movement(moves: &Moves, out: &mut Vec<Line>) {
    let mut say = |weight, text: String| out.push((weight, text));
    say(Weight::Body, format!("{}.", moves.build));
    if let Some(one_way) = &moves.one_way {
        say(Weight::Body, joined_words(moves, one_way));
    }
    let legs = moves.legs.iter();
    let parts = std::iter::once((&moves.parts.main, [&moves.across, &moves.along]))
        .chain(legs.map(|leg| (&leg.part, [&leg.across, &leg.along])));
    let mut told: Vec<String> = Vec::new();
    for (part, years) in parts {
        for year in years {
            say(Weight::Body, format!("{}.", part_words(part, &year.show())));
            for movement in [&year.to_dry, &year.to_wet] {
                let basis = format!("{}.", capital(&movement.basis()));
                if !told.contains(&basis) {
                    told.push(basis);
                }
            }
        }
    }
    let whose = match moves.parts.main.name {
        PartName::Whole => "the width",
        _ => "the width of the run",
    };
    say(
        Weight::Body,
        format!(
            "From the driest to the dampest {whose} moves {}.",
            moves.across.swing_words()
        ),
    );
    for basis in told {
        say(Weight::Small, basis);
    }
    say(
        Weight::Small,
        "What fasteners and glue hold back is not reckoned. Table 13-5 overstates the width of \
         boards that are neither flatsawn nor quartersawn (p. 13-17)."
            .to_owned(),
    );
}

/// How a joined top is taken, and what it would do otherwise.
fn joined_words(moves: &Moves, one_way: &YearMovement) -> String {
    let legs = if moves.legs.len() == 1 {
        "a leg joined at the corner"
    } else {
        "two legs joined at the corners"
    };
    format!(
        "Taken as a run and {legs}, each with its boards along its own length (common practice, no \
         source): each moves across its own width. Entered as pieces of their own, each gets its \
         own readings, coats and fastening. Were all boards to run one way, the overall {}.",
        one_way.show()
    )
}

/// `Width 25 1/2" today: ...`; of a joined top `Run: width 25 1/2" today: ...`.
fn part_words(part: &Part, words: &str) -> String {
    match part.name {
        PartName::Whole => capital(words),
        name => format!("{}: {words}", capital(name.words())),
    }
}

/// How the edges and ends of a part are called.
pub(super) struct Places {
    /// The edge that its distances and its lie are told from.
    pub(super) this: &'static str,
    pub(super) opposite: &'static str,
    ends: &'static str,
}

const WHOLE: Places = Places {
    this: "back edge",
    opposite: "front edge",
    ends: "At each end, held in the middle of the length",
};

fn run_places(moves: &Moves) -> Places {
    let ends = match moves.legs.len() {
        1 => "At the run's far end, held at the corner",
        _ => WHOLE.ends,
    };
    Places { ends, ..WHOLE }
}

/// A leg's edges: the run's back edge is an outer one where the legs stand at its front.
pub(super) fn leg_places(moves: &Moves) -> Places {
    let (this, opposite) = match moves.parts.legs_at {
        LegsAt::Front => ("outer edge", "inner edge"),
        LegsAt::Back => ("inner edge", "outer edge"),
    };
    Places {
        this,
        opposite,
        ends: "At its far end, the run's movement on top of its own",
    }
}

fn held_at(held: HoldLine, places: &Places) -> String {
    match held {
        HoldLine::ThisEdge => format!("at the {}", places.this),
        HoldLine::Middle => "along the middle".to_owned(),
        HoldLine::OppositeEdge => format!("at the {}", places.opposite),
    }
}

fn leave(moves: &Moves, sheet: &WoodSheet, out: &mut Vec<Line>) {
    let fastening = &moves.fastening;
    let practice: Vec<String> = PRACTICE_GAPS
        .iter()
        .map(|figure| format!("{} ({})", figure.words, figure.source))
        .collect();
    let practice = format!("Practice asks: {}.", practice.join("; "));
    let mut small = vec![practice];
    let holes: Vec<String> = SCREW_HOLES
        .iter()
        .map(|figure| format!("{} ({})", figure.words, figure.source))
        .collect();
    small.push(format!(
        "Slot lengths: travel and screw together (common practice, no source). Makers ask: {}.",
        holes.join("; ")
    ));
    let (rule, standing) = sheet.lie.spacing.source();
    small.push(format!("Spacing by {rule} ({}).", standing.words()));
    if moves.surroundings == Surroundings::Free {
        let words = "It stands free: its gaps are for cabinets or trim that come near it.";
        out.push((Weight::Body, words.to_owned()));
    }
    if moves.legs.is_empty() {
        part_leave(moves, &WHOLE, &fastening.main, sheet, out);
    } else {
        out.push((Weight::Body, "The run:".to_owned()));
        part_leave(moves, &run_places(moves), &fastening.main, sheet, out);
    }
    for leg in &moves.legs {
        out.push((Weight::Body, format!("The {}:", leg.part.name.words())));
        part_leave(moves, &leg_places(moves), &leg.fastening, sheet, out);
        if moves.parts.legs_ride(sheet.lie.held) {
            let words = "The run's edge carries it along: its held row too needs play along the leg, \
                         as much as its far end moves.";
            out.push((Weight::Body, words.to_owned()));
        }
    }
    out.extend(small.into_iter().map(|text| (Weight::Small, text)));
    let mut say = |text: String| out.push((Weight::Body, text));
    if let Some(mitre) = &fastening.mitre {
        say(format!("A full mitre of two such legs: {}.", mitre.words()));
    }
    for cutout in &fastening.cutouts {
        say(format!(
            "{}: {}.",
            capital(&cutout.opening.to_string()),
            cutout.clearance.words()
        ));
    }
}

fn part_leave(
    moves: &Moves,
    places: &Places,
    part: &PartFastening,
    sheet: &WoodSheet,
    out: &mut Vec<Line>,
) {
    let mut say = |text: String| out.push((Weight::Body, text));
    let held = sheet.lie.held;
    let held_words = format!(", held {}", held_at(held, places));
    // Beside the edge that moves; the held one says that it does not.
    let (this, opposite) = match held {
        HoldLine::ThisEdge => ("", held_words.as_str()),
        HoldLine::Middle | HoldLine::OppositeEdge => (held_words.as_str(), ""),
    };
    let at = |edge, held| format!("At the {edge}{held}");
    say(gap_words(&at(places.this, this), &part.gap));
    say(gap_words(
        &at(places.opposite, opposite),
        &part.gap_opposite,
    ));
    say(gap_words(places.ends, &part.gap_ends));
    say(format!(
        "Screws of {}, in rows along the grain:",
        both(sheet.lie.screw)
    ));
    for row in &part.rows {
        say(format!("  {}", row_words(row, places)));
    }
    if let Some(along) = &part.along {
        let (row, fewer) = if moves.parts.round {
            ("the longest row", "; fewer in the shorter ones")
        } else {
            ("each row", "")
        };
        let kinds = if part.eight.is_ok() {
            "slotted blocks, clips or figure-eights"
        } else {
            "slotted blocks or clips"
        };
        say(format!(
            "Along {row} {} {kinds}, {} apart, the first and last {} from the ends{fewer}.",
            along.count,
            both(along.apart),
            both(along.margin)
        ));
    }
    if let Some(far) = &part.lengthwise {
        say(format!(
            "Blocks on end move along the rows too, the middle of each row held: {} from it a screw \
             needs along the row a {}.",
            both(far.from_held),
            far.slot.words()
        ));
    }
    say(match &part.eight {
        Ok(eight) => eight.words(),
        Err(error) => format!("Figure-eights will not serve: {error}"),
    });
}

/// The gap of an edge; an edge that is held needs none.
fn gap_words(place: &str, gap: &Gap) -> String {
    if gap.opens_to == Length::ZERO {
        return format!("{place}: no gap is needed, it does not move there.");
    }
    format!("{place}: {}.", gap.words())
}

fn row_words(row: &ScrewRow, places: &Places) -> String {
    let place = format!("{} from the {}", both(row.from_edge), places.this);
    match &row.slot {
        None => format!("{place}: held, round holes"),
        Some(slot) => format!(
            "{place}, {} from the held row: {}",
            both(row.from_held),
            slot.words()
        ),
    }
}

fn hold(moves: &Moves, held: HoldLine, out: &mut Vec<Line>) {
    for situation in &moves.fastening.situations {
        out.push((
            Weight::Body,
            format!(
                "{}: {}",
                capital(situation.words()),
                situation.advice_for(held, moves.legs.len() == 1).line()
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
