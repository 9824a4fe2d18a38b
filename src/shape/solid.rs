//! A whole, checked shape, and the draft it is made from.

use serde::{Deserialize, Serialize};

use super::areas;
use super::check;
use super::error::ShapeError;
use super::face::{Construction, Face};
use super::opening::Opening;
use super::outline::{EdgeProfile, Outline};
use crate::units::{Area, Length};

/// Cubic metres in a board foot: 144 cubic inches of 25.4 mm, exactly.
const BOARD_FOOT: f64 = 144.0 * 0.0254 * 0.0254 * 0.0254;

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
}

/// A shape that can be cut: what is inside has been checked and cannot be changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "ShapeDraft", into = "ShapeDraft")]
pub struct Shape {
    draft: ShapeDraft,
}

impl TryFrom<ShapeDraft> for Shape {
    type Error = ShapeError;

    fn try_from(draft: ShapeDraft) -> Result<Self, Self::Error> {
        check::check(&draft)?;
        Ok(Shape { draft })
    }
}

impl From<Shape> for ShapeDraft {
    fn from(shape: Shape) -> ShapeDraft {
        shape.draft
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
        }
        .try_into()
    }

    /// Seen from above.
    pub fn outline(&self) -> Outline {
        self.draft.outline
    }

    /// From the underside to the top.
    pub fn thickness(&self) -> Length {
        self.draft.thickness
    }

    /// On the upper outside edge.
    pub fn profile(&self) -> EdgeProfile {
        self.draft.profile
    }

    /// Cutouts and holes, in the order they were given.
    pub fn openings(&self) -> &[Opening] {
        &self.draft.openings
    }

    /// The width of the underside's band, if it has one.
    pub fn band(&self) -> Option<Length> {
        self.draft.band
    }

    /// Every face with its grain and area, in the order of [`super::FaceKey`]: top; underside, or
    /// band and field; the edges and ends, or the rim; the walls of cutouts and holes.
    pub fn faces(&self, construction: Construction) -> Vec<Face> {
        areas::faces(self, construction)
    }

    /// The area inside the outline, openings included.
    pub fn outline_area(&self) -> Area {
        Area::from_m2(self.outline().figure().area())
    }

    /// The area that all openings take together.
    pub fn openings_area(&self) -> Area {
        Area::from_m2(areas::openings_area(self.openings()))
    }

    /// The length around the outline, in metres.
    pub fn perimeter(&self) -> f64 {
        self.outline().figure().perimeter()
    }

    /// The wood in the top before anything is cut out of it or run on its edges, in board feet
    /// (144 cubic inches each) of its finished thickness: outline area times thickness.
    pub fn volume_board_feet(&self) -> f64 {
        self.outline().figure().area() * self.thickness().metres() / BOARD_FOOT
    }
}
