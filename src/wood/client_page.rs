//! What a client is told: what this top will do through the year, and why the gap is there.
//!
//! The data of the page, sentence by sentence; laying it out is for the papers.

use super::Standing;
use super::moisture::{MoistureContent, SeasonBand, SiteNote, humidity_holding};
use super::movement::{
    Axis, Build, Gap, HoldLine, MovementError, Situation, YearMovement, both, wall_gap,
};
use super::sealing::CupRisk;
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
    /// The legs of an L or U joined at its corners; length and width are then those of its run.
    pub legs: &'a [PageLeg],
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
    page.say(Topic::Why, why());
    page.tell_year(input)?;
    page.tell_gap(input);
    page.tell_hold(input);
    page.tell_sealing(input);
    page.tell_air(input);
    page.tell_basis(input);
    Ok(page)
}

fn why() -> String {
    "Wood takes up water from damp air and gives it back to dry air; across the grain it grows and \
     shrinks with it, along the grain hardly. No finish stops this, it only slows it (Wood Handbook \
     p. 16-13)."
        .to_owned()
}

fn hold_line(held: HoldLine) -> &'static str {
    match held {
        HoldLine::ThisEdge => "It is held at this edge and moves at the opposite one.",
        HoldLine::Middle => "It is held along the middle, so that each edge moves only half.",
        HoldLine::OppositeEdge => {
            "It is held at the opposite edge, so that this one takes the movement."
        }
    }
}

impl ClientPage {
    fn say(&mut self, topic: Topic, text: String) {
        self.sentences.push(Sentence { topic, text });
    }

    fn tell_year(&mut self, input: &ClientPageInput<'_>) -> Result<(), MovementError> {
        let joined = !input.legs.is_empty();
        let wide = input.legs.iter().fold(both(input.width), |words, leg| {
            format!("{words}, its {} {}", leg.name, both(leg.width))
        });
        let whose = if joined { "'s run" } else { "" };
        let text = format!(
            "At {} the {}{whose} is {wide} wide; in your rooms the wood will go from {} to {} and \
             back through the year.",
            input.today.show(),
            input.piece,
            input.band.driest().show(),
            input.band.wettest().show()
        );
        self.say(Topic::Year, text);
        if joined {
            let text = "It is joined from parts whose boards run along each of them, so each part \
                        moves across its own width."
                .to_owned();
            self.say(Topic::Year, text);
        }
        let seasons = |year: &YearMovement| {
            format!(
                "{} in the dry season and {} in the damp one.",
                year.to_dry.show(),
                year.to_wet.show()
            )
        };
        let (width, length) = if joined {
            ("In width its run", "In length its run")
        } else {
            ("In width it", "In length it")
        };
        self.say(Topic::Year, format!("{width} {}", seasons(&self.across)));
        for leg in input.legs {
            let year = input
                .build
                .year(Axis::Width, leg.width, input.today, &input.band)?;
            let text = format!("In width its {} {}", leg.name, seasons(&year));
            self.say(Topic::Year, text);
        }
        self.say(Topic::Year, format!("{length} {}", seasons(&self.along)));
        Ok(())
    }

    fn tell_gap(&mut self, input: &ClientPageInput<'_>) {
        let text = if input.held == HoldLine::ThisEdge {
            "This edge is held, so it needs no gap; the opposite edge moves.".to_owned()
        } else if self.gap.leave == Length::ZERO {
            format!(
                "The top is set at its widest, so the gap only grows: up to {} in the dry season.",
                both(self.gap.opens_to)
            )
        } else {
            format!(
                "The gap is there for the damp season: without at least {} the top would push \
                 against the wall. In the dry season it opens to {} at most. Please do not fill it \
                 with anything hard.",
                both(self.gap.leave),
                both(self.gap.opens_to)
            )
        };
        self.say(Topic::Gap, text);
    }

    fn tell_hold(&mut self, input: &ClientPageInput<'_>) {
        self.say(Topic::Hold, hold_line(input.held).to_owned());
        for situation in input.situations {
            use Situation::{BackToWall, Island, ShowingJoint};
            if matches!(situation, BackToWall | Island | ShowingJoint) {
                // Said by the line above, as it was really done.
                continue;
            }
            let advice = situation.advice();
            let text = format!(
                "At the {}, held: {}; free: {}.",
                situation.words(),
                advice.hold,
                advice.free
            );
            self.say(Topic::Hold, text);
        }
    }

    fn tell_sealing(&mut self, input: &ClientPageInput<'_>) {
        self.say(
            Topic::Sealing,
            "It is sealed on every side, ends and cutouts too, so that both faces take up moisture \
             alike and it stays flat (Forest Products Laboratory Technical Note D-12, 1952). Seal \
             any hole that is cut later."
                .to_owned(),
        );
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
        let text = format!("The year: {}.", input.band.basis_words(input.style));
        self.say(Topic::Basis, text);
        let text = format!("Movement: {}.", self.across.to_dry.basis());
        self.say(Topic::Basis, text);
        for note in input.notes {
            self.say(Topic::Basis, note.caution().to_owned());
        }
    }
}
