//! The outlines that need more than two sizes: L, U, out of square, live edge.

use serde::{Deserialize, Serialize};

use super::corner::{Corner, Corners};
use crate::units::Length;

/// An L: a rectangle with one corner left open.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Ell {
    /// Overall, along the grain (x).
    pub length: Length,
    /// Overall, across the grain (y).
    pub width: Length,
    /// Depth (y) of the part that has the whole length.
    pub run: Length,
    /// Width (x) of the part that has the whole width.
    pub leg: Length,
    /// Which of the four outer corners is open.
    pub open: Corner,
    /// Corners that are not left sharp.
    #[serde(default)]
    pub corners: Corners,
}

/// A U: a rectangle open in the middle of its front.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Cup {
    /// Overall, along the grain (x).
    pub length: Length,
    /// Overall, across the grain (y).
    pub width: Length,
    /// Depth (y) of the part at the back that joins the legs.
    pub run: Length,
    /// Width (x) of the left leg.
    pub left: Length,
    /// Width (x) of the right leg.
    pub right: Length,
    /// Corners that are not left sharp.
    #[serde(default)]
    pub corners: Corners,
}

/// A top out of square: four sides, and one or two diagonals to tell how they lean. The front lies
/// along the grain.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Quad {
    /// Along the front edge.
    pub front: Length,
    /// Along the right end.
    pub right: Length,
    /// Along the back edge.
    pub back: Length,
    /// Along the left end.
    pub left: Length,
    /// From the front left corner to the back right one. Where it was measured, it decides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rising: Option<Length>,
    /// From the front right corner to the back left one. It decides where the other was not
    /// measured, and checks where it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub falling: Option<Length>,
    /// Corners that are not left sharp.
    #[serde(default)]
    pub corners: Corners,
}

/// Which edges of a slab are live.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LiveEdges {
    /// Both; widths are measured across a line down the middle.
    Both,
    /// The front; the back is straight, and widths are measured from it.
    Front,
    /// The back; the front is straight, and widths are measured from it.
    Back,
}

/// One place along a slab where its width was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Station {
    /// From the left end, along the line.
    pub at: Length,
    /// The whole width there.
    pub width: Length,
    /// How much of the width lies in front of the line, where that was measured: half of it when
    /// not. Only where both edges are live.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front: Option<Length>,
}

/// A slab with one or both edges live: widths at stations along a line, from the left end to the
/// right one, joined by straight lines.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct LiveSlab {
    /// Which edges are live.
    pub edges: LiveEdges,
    /// In order along the line; the first at 0, the last at the right end.
    pub stations: Vec<Station>,
}

impl Station {
    /// How far the front edge and the back edge lie from the line here.
    pub(super) fn sides(&self, edges: LiveEdges) -> (Length, Length) {
        match edges {
            LiveEdges::Both => {
                let front = self
                    .front
                    .unwrap_or(Length::from_nm(self.width.nm().div_euclid(2)));
                (front, self.width - front)
            }
            LiveEdges::Front => (self.width, Length::ZERO),
            LiveEdges::Back => (Length::ZERO, self.width),
        }
    }
}

impl LiveSlab {
    /// From the first station to the last.
    pub fn length(&self) -> Length {
        match (self.stations.first(), self.stations.last()) {
            (Some(first), Some(last)) => last.at - first.at,
            _ => Length::ZERO,
        }
    }

    /// The greatest reach to the front and to the back of the line.
    pub(super) fn reaches(&self) -> (Length, Length) {
        let mut most = (Length::ZERO, Length::ZERO);
        for station in &self.stations {
            let (front, back) = station.sides(self.edges);
            most = (most.0.max(front), most.1.max(back));
        }
        most
    }
}
