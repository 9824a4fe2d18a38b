//! Where to hold a top and what to let move: advice as data, each with its basis.

use serde::{Deserialize, Serialize};

use super::fit::HoldLine;
use crate::wood::Standing;

/// How a top stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Situation {
    /// Its back along a wall.
    BackToWall,
    /// Free all round.
    Island,
    /// Both ends between walls or tall cabinets.
    BetweenWalls,
    /// An L or U corner.
    Corner,
    /// A sink dropped in.
    DropInSink,
    /// A breadboard end or a cleat across the grain.
    CrossPiece,
    /// A joint that shows, at any edge.
    ShowingJoint,
}

/// What stands round a top where it is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Surroundings {
    /// Nothing: an island, a table.
    Free,
    /// Its back may stand along a wall.
    Walls {
        /// Whether walls or tall cabinets stand at its ends too.
        ends: bool,
    },
}

/// What to hold, what to let move, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoldAdvice {
    /// What to fasten tight.
    pub hold: &'static str,
    /// What to leave free.
    pub free: &'static str,
    /// Why, in a few words.
    pub why: &'static str,
    /// Who says so; empty where nobody is named.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl Situation {
    /// Every situation.
    pub const ALL: [Self; 7] = [
        Self::BackToWall,
        Self::Island,
        Self::BetweenWalls,
        Self::Corner,
        Self::DropInSink,
        Self::CrossPiece,
        Self::ShowingJoint,
    ];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::BackToWall => "back along a wall",
            Self::Island => "free all round",
            Self::BetweenWalls => "walls at both ends",
            Self::Corner => "L or U corner",
            Self::DropInSink => "drop-in sink",
            Self::CrossPiece => "breadboard end or cleat",
            Self::ShowingJoint => "joint that shows",
        }
    }

    /// What the client is told of it; none where the line on how the edges are held says it.
    pub fn for_client(self) -> Option<&'static str> {
        match self {
            Self::BackToWall | Self::Island | Self::ShowingJoint => None,
            Self::BetweenWalls => Some(
                "It is held at the middle of its length, so that both ends share what the length \
                 moves.",
            ),
            Self::Corner => Some(
                "Where its parts meet at a corner they are bolted snug, not tight, with a flexible \
                 sealant, so that each can move.",
            ),
            Self::DropInSink => Some(
                "The sink is held by its clips on a flexible sealant, with room round it for the \
                 wood to move.",
            ),
            Self::CrossPiece => Some(
                "The piece across its grain is fixed at one screw and slides at the others, so its \
                 ends may stand a little proud or short of the top through the year.",
            ),
        }
    }

    /// What to hold and what to let move. Never glue or silicone a top down along its width.
    pub fn advice(self) -> HoldAdvice {
        match self {
            Self::BackToWall => HoldAdvice {
                hold: "the back edge, with round holes",
                free: "the front, in slots across the grain",
                why: "the caulk line at the wall stays shut and the front overhang takes the movement",
                source: "a US maker's sheet; others hold the front and let the back move under a \
                         splash, so say which on the ticket",
                standing: Standing::Retrieved,
            },
            Self::Island => HoldAdvice {
                hold: "the middle line",
                free: "both long edges, in slots across the grain",
                why: "each edge then moves only half",
                source: "",
                standing: Standing::Practice,
            },
            Self::BetweenWalls => HoldAdvice {
                hold: "the middle of the length",
                free: "both ends, with the gap reckoned for them",
                why: "along the grain a top hardly moves (American Wood Council, answer on wood \
                      shrinkage); one of blocks on end moves in its length as \
                      in its width",
                source: "",
                standing: Standing::Practice,
            },
            Self::Corner => HoldAdvice {
                hold: "the corner joint with bolts snug, not tight, and flexible sealant",
                free: "each leg's edge that is not held, and its far end; a butt with a short mitre, not a full mitre",
                why: "a full mitre opens by 1.4 times the change of width",
                source: "trade forum threads on L and U tops (2010, 2013, 2024); makers disagree",
                standing: Standing::Retrieved,
            },
            Self::DropInSink => HoldAdvice {
                hold: "the sink by its clips, on flexible sealant",
                free: "the room that its cutout asks on each side across the grain, 3 mm at least",
                why: "the opening shrinks with the wood; a tight sink splits it",
                source: "a UK worktop fitting guide",
                standing: Standing::Retrieved,
            },
            Self::CrossPiece => HoldAdvice {
                hold: "one screw: in the middle, or at the edge that must stay flush",
                free: "every other screw in a slot across the grain, longer the farther out",
                why: "the piece across hardly changes its length while the top changes its width",
                source: "",
                standing: Standing::Practice,
            },
            Self::ShowingJoint => HoldAdvice {
                hold: "the edge whose joint shows",
                free: "the opposite edge, in slots across the grain",
                why: "the joint that is looked at stays shut",
                source: "makers' sheets differ on front or back",
                standing: Standing::Judgement,
            },
        }
    }
}

impl Situation {
    /// The advice as it goes with how the top is really held, and with a corner that it is joined
    /// at: what was noted otherwise than makers advise is not advised against in the same breath.
    pub fn advice_for(self, held: HoldLine, one_corner: bool) -> HoldAdvice {
        let advice = self.advice();
        match (self, held) {
            (Self::BackToWall, HoldLine::OppositeEdge) => HoldAdvice {
                hold: "the front edge, as noted",
                free: "the back, in slots across the grain, its gap under a splash or trim",
                why: "the front stays in line and the gap at the wall takes the movement",
                source: "a US maker's sheet holds the back instead, to keep the caulk line shut",
                ..advice
            },
            (Self::BackToWall, HoldLine::Middle) => HoldAdvice {
                hold: "the middle line, as noted",
                free: "the back and the front, in slots across the grain",
                why: "each then moves only half",
                source: "a US maker's sheet holds the back instead, to keep the caulk line shut",
                ..advice
            },
            (Self::Island, HoldLine::ThisEdge | HoldLine::OppositeEdge) => HoldAdvice {
                hold: "the edge that was noted",
                free: "the opposite edge, in slots across the grain",
                why: "it takes all of the movement; held along the middle each edge takes half",
                ..advice
            },
            (Self::BetweenWalls, _) if one_corner => HoldAdvice {
                hold: "the corner",
                free: "both far ends, with the gap reckoned for them",
                ..advice
            },
            _ => advice,
        }
    }
}

impl HoldAdvice {
    /// Hold, free, why and source in one line.
    pub fn line(&self) -> String {
        let source = if self.source.is_empty() {
            String::new()
        } else {
            format!("{}; ", self.source)
        };
        format!(
            "Hold {}; free: {}: {} ({source}{}).",
            self.hold,
            self.free,
            self.why,
            self.standing.words()
        )
    }
}
