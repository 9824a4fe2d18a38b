//! Template guide and template: offset, sizes, least radii.
//!
//! A guide of outside diameter `OD` runs along the template, a bit of diameter `D` cuts `(OD - D) /
//! 2` away from it. For an inside cut (an opening) the template is larger by that offset on every
//! side, for an outside cut (a part) smaller. The guide reaches into no inside corner of the
//! template tighter than `OD / 2`, so the finished inside radius is `D / 2` at least; round an
//! outside corner of the template the guide rolls, so the finished outside radius is the offset at
//! least.

use super::error::{CutError, half};
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// What keeps the bit to the template.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Guide {
    /// A guide bushing of this outside diameter.
    Bushing(Length),
    /// A bearing on the bit, of the bit's own diameter: the template is the finished size.
    Bearing,
}

/// On which side of the line the wood stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutSide {
    /// An opening: the guide runs inside the template.
    Inside,
    /// A part: the guide runs round the template.
    Outside,
}

/// What is to be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TemplateForm {
    /// A rectangle with round corners.
    Rectangle {
        /// One way.
        length: Length,
        /// The other.
        width: Length,
        /// Of the corners.
        radius: Length,
    },
    /// A circle.
    Circle {
        /// Across.
        diameter: Length,
    },
}

/// A template to make.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Template {
    /// Between the template's edge and the cut.
    pub offset: Length,
    /// Its size.
    pub form: TemplateForm,
    /// The least radius that can be cut at a corner of this kind.
    pub least_radius: Length,
    /// Whether the corner wanted is tighter than that and comes out at the least, to be finished
    /// by hand.
    pub corner_by_hand: bool,
}

/// How far the cut lies from the template: `(OD - D) / 2` for a bushing, nothing for a bearing.
///
/// # Errors
/// No bit; a bit that does not pass through the bushing.
pub fn offset(guide: Guide, bit: Length) -> Result<Length, CutError> {
    if bit <= Length::ZERO {
        return Err(CutError::Bit(bit));
    }
    match guide {
        Guide::Bearing => Ok(Length::ZERO),
        Guide::Bushing(guide) if guide <= bit => Err(CutError::Guide { bit, guide }),
        Guide::Bushing(guide) => Ok(half(guide - bit)),
    }
}

impl Template {
    /// The template for a finished form.
    ///
    /// # Errors
    /// As for [`offset`]; an inside corner tighter than the bit; a part smaller than its template
    /// can be.
    pub fn new(
        form: TemplateForm,
        side: CutSide,
        guide: Guide,
        bit: Length,
    ) -> Result<Self, CutError> {
        let offset = offset(guide, bit)?;
        let signed = match side {
            CutSide::Inside => offset,
            CutSide::Outside => -offset,
        };
        let least_radius = match side {
            CutSide::Inside => half(bit),
            CutSide::Outside => offset,
        };
        let grown = |size: Length| {
            let grown = size + signed * 2;
            if grown > Length::ZERO {
                Ok(grown)
            } else {
                Err(CutError::Template(grown))
            }
        };
        let (form, corner_by_hand) = match form {
            TemplateForm::Circle { diameter } => {
                if side == CutSide::Inside && diameter < bit {
                    let radius = half(diameter);
                    return Err(CutError::InsideCorner { radius, bit });
                }
                let diameter = grown(diameter)?;
                (TemplateForm::Circle { diameter }, false)
            }
            TemplateForm::Rectangle {
                length,
                width,
                radius,
            } => {
                if side == CutSide::Inside && radius < least_radius {
                    return Err(CutError::InsideCorner { radius, bit });
                }
                let by_hand = radius < least_radius;
                let form = TemplateForm::Rectangle {
                    length: grown(length)?,
                    width: grown(width)?,
                    radius: (radius + signed).max(Length::ZERO),
                };
                (form, by_hand)
            }
        };
        Ok(Self {
            offset,
            form,
            least_radius,
            corner_by_hand,
        })
    }
}
