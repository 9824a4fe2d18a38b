//! The parts of a top that each have a grain of their own: all of it, or the run and the legs of an
//! L or U that is joined at its corners.

use crate::shape::{Construction, Corner, Cup, Ell, Outline, Place};
use crate::shop::Piece;
use crate::shop::moisture::PieceWood;
use crate::units::Length;
use crate::wood::movement::{HoldLine, Situation};

/// Which part of a top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PartName {
    /// All of it.
    Whole,
    /// The part of an L or U that has the whole length.
    Run,
    /// The leg of an L.
    Leg,
    /// The left leg of a U.
    LeftLeg,
    /// The right leg of a U.
    RightLeg,
}

impl PartName {
    /// `run`, `left leg`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Whole => "top",
            Self::Run => "run",
            Self::Leg => "leg",
            Self::LeftLeg => "left leg",
            Self::RightLeg => "right leg",
        }
    }
}

/// One part: its boards run along its length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// Which.
    pub name: PartName,
    /// Along its grain; of a leg, as far as it stands beyond the run.
    pub length: Length,
    /// Across its grain.
    pub width: Length,
}

/// Which edge of the run the legs stand at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegsAt {
    /// Its front: the run lies at the back.
    Front,
    /// Its back: the run lies at the front.
    Back,
}

/// The parts of a top.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parts {
    /// All of it, or the run.
    pub main: Part,
    /// The legs that are joined to the run, each with its grain along itself; none where the whole
    /// top is one part.
    pub legs: Vec<Part>,
    /// Where the legs stand.
    pub legs_at: LegsAt,
    /// The overall width, across the run's grain.
    pub overall: Length,
    /// Whether it is round or oval: its rows of fasteners grow shorter toward the edges.
    pub round: bool,
}

impl Parts {
    /// The parts of a piece. An L or U of boards or strips, or any whose corner was noted, is taken
    /// as joined from legs whose boards each run along the leg (common practice, no source); a slab
    /// or blocks on end as one part with one grain, unless a corner was noted.
    pub fn of(piece: &Piece, lie: &PieceWood) -> Self {
        let outline = piece.shape.outline();
        let (length, overall) = outline.extent();
        let boards = matches!(
            piece.construction,
            Construction::EdgeGrain | Construction::FaceGrain
        );
        let joined = boards || lie.situations.contains(&Situation::Corner);
        let leg = |name, width, run: Length| Part {
            name,
            length: overall - run,
            width,
        };
        let (width, legs, legs_at) = match outline {
            Outline::L(Ell {
                run,
                leg: wide,
                open,
                ..
            }) if joined => {
                let at = match open {
                    Corner::BackLeft | Corner::BackRight => LegsAt::Back,
                    _ => LegsAt::Front,
                };
                (*run, vec![leg(PartName::Leg, *wide, *run)], at)
            }
            Outline::U(Cup {
                run, left, right, ..
            }) if joined => {
                let legs = vec![
                    leg(PartName::LeftLeg, *left, *run),
                    leg(PartName::RightLeg, *right, *run),
                ];
                (*run, legs, LegsAt::Front)
            }
            _ => (overall, Vec::new(), LegsAt::Front),
        };
        let name = if legs.is_empty() {
            PartName::Whole
        } else {
            PartName::Run
        };
        Self {
            main: Part {
                name,
                length,
                width,
            },
            legs,
            legs_at,
            overall,
            round: matches!(outline, Outline::Circle { .. } | Outline::Oval { .. }),
        }
    }

    /// Whether the run, held so, carries its legs along: the edge that they stand at moves.
    pub fn legs_ride(&self, held: HoldLine) -> bool {
        let seen = match self.legs_at {
            LegsAt::Front => held.from_opposite(),
            LegsAt::Back => held,
        };
        !self.legs.is_empty() && seen != HoldLine::ThisEdge
    }

    /// The widest across its own grain.
    pub fn widest(&self) -> Length {
        let legs = self.legs.iter().map(|leg| leg.width);
        legs.fold(self.main.width, Length::max)
    }

    /// Whether a place on the top lies on a leg, beyond the run.
    pub fn on_leg(&self, place: Place) -> bool {
        if self.legs.is_empty() {
            return false;
        }
        match self.legs_at {
            LegsAt::Front => place.y < self.overall - self.main.width,
            LegsAt::Back => place.y > self.main.width,
        }
    }
}
