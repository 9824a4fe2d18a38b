//! A shape as JSON.

use super::rounded;
use crate::shape::{Opening, OpeningKind, Outline, Shape};
use crate::units::Length;
use serde::Serialize;

/// Sizes in millimetres; what a form does not have is left out.
#[derive(Debug, Serialize)]
pub(super) struct ShapeJson {
    outline: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    length_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    diameter_mm: Option<f64>,
    thickness_mm: f64,
    profile: &'static str,
    profile_mm: f64,
    band_mm: Option<f64>,
    openings: Vec<OpeningJson>,
}

#[derive(Debug, Serialize)]
struct OpeningJson {
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    width_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    depth_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    corner_radius_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    diameter_mm: Option<f64>,
    centre_from_left_mm: f64,
    centre_from_front_mm: f64,
}

fn mm(length: Length) -> f64 {
    rounded(length.mm())
}

impl ShapeJson {
    /// A shape.
    pub(super) fn of(shape: &Shape) -> Self {
        let (length_mm, width_mm, diameter_mm) = match shape.outline() {
            Outline::Circle { diameter } => (None, None, Some(mm(*diameter))),
            other => {
                let (length, width) = other.extent();
                (Some(mm(length)), Some(mm(width)), None)
            }
        };
        Self {
            outline: shape.outline().word(),
            length_mm,
            width_mm,
            diameter_mm,
            thickness_mm: mm(shape.thickness()),
            profile: shape.profile().code(),
            profile_mm: mm(shape.profile().reach()),
            band_mm: shape.band().map(mm),
            openings: shape.openings().iter().map(opening).collect(),
        }
    }
}

fn opening(opening: &Opening) -> OpeningJson {
    let (width_mm, depth_mm, corner_radius_mm, diameter_mm) = match opening.what {
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        } => (
            Some(mm(width)),
            Some(mm(depth)),
            Some(mm(corner_radius)),
            None,
        ),
        OpeningKind::Hole { diameter } => (None, None, None, Some(mm(diameter))),
    };
    OpeningJson {
        name: opening.name().to_string(),
        width_mm,
        depth_mm,
        corner_radius_mm,
        diameter_mm,
        centre_from_left_mm: mm(opening.place.x),
        centre_from_front_mm: mm(opening.place.y),
    }
}
