//! A whole, checked shape, and the draft it is made from.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::areas::{self, Measured};
use super::check;
use super::drawn::Drawn;
use super::error::ShapeError;
use super::face::Face;
use super::grain::Construction;
use super::opening::Opening;
use super::outline::Outline;
use super::profile::EdgeProfile;
use super::stations::BOARD_FOOT_M3;
use crate::units::{Area, Length};

/// A shape as typed or read, not looked at yet. This is also how a [`Shape`] is written down.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShapeDraft {
    /// Seen from above.
    pub outline: Outline,
    /// From the underside to the top.
    pub thickness: Length,
    /// On the upper outside edge; square when nothing is said.
    #[serde(default)]
    pub profile: EdgeProfile,
    /// Cutouts and holes; none when nothing is said.
    #[serde(default)]
    pub openings: Vec<Opening>,
    /// The width of the outer strip of the underside that is finished like a show face.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band: Option<Length>,
    /// Whether that strip goes round every opening too, as wide as along the outline.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub band_round_openings: bool,
}

/// A shape that can be cut: what is inside has been checked and cannot be changed.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(try_from = "ShapeDraft", into = "ShapeDraft")]
pub struct Shape {
    /// Shared, since a piece is handed about a great deal and its shape never changes.
    whole: Arc<Whole>,
}

#[derive(Debug, Clone)]
struct Whole {
    draft: ShapeDraft,
    /// What follows from the draft, worked out when it was checked.
    measured: Measured,
}

impl PartialEq for Shape {
    fn eq(&self, other: &Self) -> bool {
        self.whole.draft == other.whole.draft
    }
}

impl Eq for Shape {}

impl TryFrom<ShapeDraft> for Shape {
    type Error = ShapeError;

    fn try_from(draft: ShapeDraft) -> Result<Self, Self::Error> {
        check::check(&draft)?;
        let measured = Measured::of(&draft);
        check::check_measured(&draft, &measured)?;
        let whole = Arc::new(Whole { draft, measured });
        Ok(Shape { whole })
    }
}

impl From<Shape> for ShapeDraft {
    fn from(shape: Shape) -> ShapeDraft {
        Arc::unwrap_or_clone(shape.whole).draft
    }
}

impl Shape {
    /// A checked shape.
    ///
    /// # Errors
    /// The first thing that makes it impossible to cut, in one sentence: see [`ShapeError`].
    pub fn new(
        outline: Outline,
        thickness: Length,
        profile: EdgeProfile,
        openings: Vec<Opening>,
        band: Option<Length>,
    ) -> Result<Self, ShapeError> {
        ShapeDraft {
            outline,
            thickness,
            profile,
            openings,
            band,
            band_round_openings: false,
        }
        .try_into()
    }

    /// Seen from above.
    pub fn outline(&self) -> &Outline {
        &self.whole.draft.outline
    }

    /// The drawing of the shape, in metres: see [`Drawn`].
    pub fn drawn(&self) -> Drawn {
        Drawn::of(&self.whole.draft)
    }

    /// From the underside to the top.
    pub fn thickness(&self) -> Length {
        self.whole.draft.thickness
    }

    /// On the upper outside edge.
    pub fn profile(&self) -> EdgeProfile {
        self.whole.draft.profile
    }

    /// Cutouts and holes, in the order they were given.
    pub fn openings(&self) -> &[Opening] {
        &self.whole.draft.openings
    }

    /// The width of the underside's band, if it has one.
    pub fn band(&self) -> Option<Length> {
        self.whole.draft.band
    }

    /// Whether the band goes round the openings too.
    pub fn band_round_openings(&self) -> bool {
        self.whole.draft.band_round_openings
    }

    /// Every face with its grain and area, in the order of [`super::FaceKey`]: top; underside, or
    /// band and field; the edges and ends, or the rim; the walls of cutouts and holes.
    pub fn faces(&self, construction: Construction) -> Vec<Face> {
        self.whole.measured.built(construction)
    }

    /// The area inside the outline, openings included.
    pub fn outline_area(&self) -> Area {
        self.outline().area()
    }

    /// The area that all openings take together.
    pub fn openings_area(&self) -> Area {
        Area::from_m2(areas::openings_area(self.openings()))
    }

    /// The length around the outline, in metres.
    pub fn perimeter(&self) -> f64 {
        self.outline().perimeter()
    }

    /// The wood in the top before anything is cut out of it or run on its edges, in board feet
    /// (144 cubic inches each) of its finished thickness: its area times thickness, that of a live
    /// edge by Simpson's rule.
    pub fn volume_board_feet(&self) -> f64 {
        self.wood_area() * self.thickness().metres() / BOARD_FOOT_M3
    }

    /// What the wood is reckoned from, in square metres: the outline, but between the stations of a
    /// live edge the curve that Simpson's rule lays through them.
    fn wood_area(&self) -> f64 {
        match self.outline() {
            Outline::Live(slab) => slab.simpson().m2(),
            other => other.area().m2(),
        }
    }

    /// The wood that is left when it is cut, in cubic metres: its area less openings, times
    /// thickness, less what the profile takes along the outside edge (its full run, so that sharp
    /// corners count a little twice) and what the openings' own take.
    pub fn net_volume(&self) -> f64 {
        let flat = self.wood_area() - areas::openings_area(self.openings());
        let around: f64 = self.drawn().sides().iter().map(|(_, _, run)| run).sum();
        let inside: f64 = self.openings().iter().map(Opening::profile_taken).sum();
        (flat * self.thickness().metres() - around * self.profile().taken() - inside).max(0.0)
    }
}
