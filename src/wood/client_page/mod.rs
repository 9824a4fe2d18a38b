//! What a client is told: what this top will do through the year, and why the gap is there.
//!
//! Lives here: the data of the page, sentence by sentence, every one true of this top and addressed
//! to the client. May not live here: laying it out, which is for the papers; advice to the shop.

mod gaps;
mod year;

use super::Standing;
use super::moisture::{MoistureContent, SeasonBand, SiteNote, humidity_holding};
use super::movement::{
    Axis, Build, Gap, HoldLine, MovementError, Situation, Surroundings, YearMovement, wall_gap,
};
use super::sealing::CupRisk;
use crate::shape::Construction;
use crate::units::{Length, Temperature, TemperatureStyle};

/// What the page is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct ClientPageInput<'a> {
    /// What the client calls the top: `island top`.
    pub piece: &'a str,
    /// Its wood and build.
    pub build: Build<'a>,
    /// Along the grain, today.
    pub length: Length,
    /// Across the grain, today.
    pub width: Length,
    /// The gap at each free end, as the sheet has it.
    pub gap_ends: Gap,
    /// The legs of an L or U joined at its corners; length and width are then those of its run.
    pub legs: &'a [PageLeg],
    /// What stands round it.
    pub surroundings: Surroundings,
    /// Whether it is sealed yet.
    pub sealed: Sealed<'a>,
    /// Its moisture content when it is set.
    pub today: MoistureContent,
    /// The year at the client's.
    pub band: SeasonBand,
    /// What makes the band uncertain.
    pub notes: &'a [SiteNote],
    /// What else is to be held or let move: a corner, a sink, a cleat, walls at both ends. How
    /// the edges are held is said by `held`.
    pub situations: &'a [Situation],
    /// Where the width is held, as seen from the edge with the gap.
    pub held: HoldLine,
    /// The cup risk of its faces, when it was reckoned.
    pub cup: Option<CupRisk>,
    /// The temperature at which the rooms are kept.
    pub room: Temperature,
    /// How the shop writes temperatures.
    pub style: TemperatureStyle,
}

/// A leg of a joined L or U.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageLeg {
    /// `leg`, `left leg`.
    pub name: &'static str,
    /// Across its own grain, today.
    pub width: Length,
    /// Its edge on the same side of the top as the run's back: `outer edge`.
    pub this: &'static str,
    /// The other.
    pub opposite: &'static str,
    /// The gap at its free end, as the sheet has it.
    pub gap_end: Gap,
}

/// Whether a top is sealed, as far as the shop has logged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sealed<'a> {
    /// Whether every exposed side carries a coat that seals.
    pub done: bool,
    /// The sides that are not exposed: `underside`.
    pub hidden: &'a [String],
}

/// What a sentence is about, so that papers can head and order them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Topic {
    /// Why wood moves at all.
    Why,
    /// What it will do in the dry season and the damp one.
    Year,
    /// The gap and what it is for.
    Gap,
    /// Where it is held and where it moves.
    Hold,
    /// Why it is sealed on all sides.
    Sealing,
    /// What air to keep.
    Air,
    /// What is not certain, and where the figures come from.
    Basis,
}

/// One sentence of the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sentence {
    /// What it is about.
    pub topic: Topic,
    /// The sentence.
    pub text: String,
}

/// The page.
#[derive(Debug, Clone, PartialEq)]
pub struct ClientPage {
    /// The top, as the client calls it.
    pub piece: String,
    /// The width through the year.
    pub across: YearMovement,
    /// The length through the year.
    pub along: YearMovement,
    /// The gap at the edge across the grain.
    pub gap: Gap,
    /// The standing of the weakest figure on it.
    pub standing: Standing,
    /// What it says, in order of topic.
    pub sentences: Vec<Sentence>,
}

/// Makes the page.
///
/// # Errors
/// [`MovementError`] for a wood without figures or a size that cannot be.
pub fn client_page(input: &ClientPageInput<'_>) -> Result<ClientPage, MovementError> {
    let year = |axis, size| input.build.year(axis, size, input.today, &input.band);
    let across = year(Axis::Width, input.width)?;
    let along = year(Axis::Length, input.length)?;
    let gap = wall_gap(&across, input.held);
    let standing = [&across, &along]
        .iter()
        .flat_map(|year| [year.to_dry.standing, year.to_wet.standing])
        .fold(input.band.standing(), Standing::weaker);
    let mut page = ClientPage {
        piece: input.piece.to_owned(),
        across,
        along,
        gap,
        standing,
        sentences: Vec::new(),
    };
    page.say(Topic::Why, why(input.build.construction));
    page.tell_year(input)?;
    page.tell_gap(input)?;
    page.tell_hold(input);
    page.tell_sealing(input);
    page.tell_air(input);
    page.tell_basis(input);
    Ok(page)
}

fn why(construction: Construction) -> String {
    let along = if construction == Construction::EndGrain {
        "along the grain hardly. This top is made of blocks on end, so both its width and its length \
         lie across the grain"
    } else {
        "along the grain hardly"
    };
    format!(
        "Wood takes up water from damp air and gives it back to dry air; across the grain it grows \
         and shrinks with it, {along}. No finish stops this, it only slows it (Wood Handbook p. \
         16-13)."
    )
}

impl ClientPage {
    fn say(&mut self, topic: Topic, text: String) {
        self.sentences.push(Sentence { topic, text });
    }

    fn tell_sealing(&mut self, input: &ClientPageInput<'_>) {
        let why = "so that its faces take up moisture as nearly alike as they can and it stays flat \
                   (Forest Products Laboratory Technical Note D-12, 1952). Seal any hole that is cut \
                   later.";
        let Sealed { done, hidden } = input.sealed;
        let sides = if hidden.is_empty() {
            "every side, the ends and every cutout too"
        } else {
            "every side that is exposed"
        };
        let left_out = if hidden.is_empty() {
            String::new()
        } else {
            format!(" Left out as not exposed: {}.", hidden.join(", "))
        };
        let sealed = if done {
            "It is sealed"
        } else {
            "Before it is set it will be sealed"
        };
        self.say(
            Topic::Sealing,
            format!("{sealed} on {sides}, {why}{left_out}"),
        );
        if !done {
            // The coats to come decide what cup is risked.
            return;
        }
        if let Some(cup) = input.cup.as_ref().filter(|cup| !cup.is_none()) {
            self.say(Topic::Sealing, cup.line());
        }
    }

    fn tell_air(&mut self, input: &ClientPageInput<'_>) {
        let Ok(humidity) = humidity_holding(input.today, input.room) else {
            return;
        };
        let text = format!(
            "At {} about {:.0} % humidity holds it at today's {}; the nearer your rooms stay to \
             that, the less it moves (Wood Handbook eq. 4-5, estimated).",
            input.room.show(input.style),
            humidity.percent(),
            input.today.show()
        );
        self.say(Topic::Air, text);
    }

    fn tell_basis(&mut self, input: &ClientPageInput<'_>) {
        let text = format!("The year: {}.", input.band.basis_for_client(input.style));
        self.say(Topic::Basis, text);
        let text = format!("Movement: {}.", self.across.to_dry.basis());
        self.say(Topic::Basis, text);
        for note in input.notes {
            self.say(Topic::Basis, note.for_client().to_owned());
        }
    }
}
