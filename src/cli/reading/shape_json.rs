//! A shape as JSON.

use super::{fine, rounded};
use crate::desk::Shop;
use crate::papers::piece_weight;
use crate::shape::{Corner, Cut, Opening, OpeningKind, Outline, Purpose, Reveal, Sink};
use crate::shop::Piece;
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
    band_round_openings: bool,
    openings: Vec<OpeningJson>,
    words: String,
    corners: Vec<CornerJson>,
    area_m2: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    simpson_m2: Option<f64>,
    around_mm: f64,
    board_feet: f64,
    balance_from_left_mm: f64,
    balance_from_front_mm: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    second_diagonal: Option<DiagonalJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    weight: Option<WeightJson>,
}

#[derive(Debug, Serialize)]
struct CornerJson {
    corner: &'static str,
    cut: &'static str,
    along_mm: f64,
    across_mm: f64,
}

#[derive(Debug, Serialize)]
#[allow(clippy::struct_field_names, reason = "every length says its unit")]
struct DiagonalJson {
    measured_mm: f64,
    computed_mm: f64,
    error_mm: f64,
}

#[derive(Debug, Serialize)]
struct WeightJson {
    kg: f64,
    wood: String,
    moisture_percent: f64,
    moisture_measured: bool,
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
    profile: &'static str,
    profile_mm: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    purpose: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sink: Option<SinkJson>,
}

/// A sink in its cutout; what was not measured is left out.
#[derive(Debug, Serialize)]
struct SinkJson {
    mount: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    reveal: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cutout_beyond_bowl_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bowl_mm: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    overall_mm: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cabinet_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cabinet_inside_mm: Option<f64>,
}

fn mm(length: Length) -> f64 {
    rounded(length.mm())
}

impl ShapeJson {
    /// A shape.
    pub(super) fn of(piece: &Piece, shop: &Shop) -> Self {
        let shape = &piece.shape;
        let balance = shape.drawn().balance();
        let say = |length: Length| format!("{} mm", mm(length));
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
            band_round_openings: shape.band_round_openings(),
            openings: shape.openings().iter().map(opening).collect(),
            words: shape.outline().words(&say),
            corners: shape.outline().corners().iter().map(corner).collect(),
            area_m2: fine(shape.outline_area().m2()),
            simpson_m2: match shape.outline() {
                Outline::Live(slab) if slab.simpson_words().is_some() => {
                    Some(fine(slab.simpson().m2()))
                }
                _ => None,
            },
            around_mm: rounded(shape.perimeter() * 1000.0),
            board_feet: fine(shape.volume_board_feet()),
            balance_from_left_mm: rounded(balance.x * 1000.0),
            balance_from_front_mm: rounded(balance.y * 1000.0),
            second_diagonal: shape.outline().closing().map(|closing| DiagonalJson {
                measured_mm: mm(closing.measured),
                computed_mm: rounded(closing.computed * 1000.0),
                error_mm: rounded(closing.error() * 1000.0),
            }),
            weight: piece_weight(piece, shop).map(|weighed| WeightJson {
                kg: rounded(weighed.mass.g() / 1000.0),
                wood: weighed.wood,
                moisture_percent: weighed.content.percent(),
                moisture_measured: weighed.measured,
            }),
        }
    }
}

fn corner((corner, cut): (Corner, Cut)) -> CornerJson {
    let (along, across) = match cut {
        Cut::Round(radius) => (radius, radius),
        Cut::Clip { along, across } | Cut::Notch { along, across } => (along, across),
    };
    CornerJson {
        corner: corner.code(),
        cut: cut.word(),
        along_mm: mm(along),
        across_mm: mm(across),
    }
}

fn sink(opening: &Opening, sink: &Sink) -> SinkJson {
    let two = |(width, depth): (Length, Length)| [mm(width), mm(depth)];
    let reveal = sink.mount.reveal();
    SinkJson {
        mount: sink.mount.word(),
        reveal: reveal.map(Reveal::word),
        cutout_beyond_bowl_mm: reveal.map(|reveal| mm(reveal.beyond())),
        bowl_mm: opening.bowl().map(two),
        overall_mm: sink.overall.map(two),
        cabinet_mm: sink.cabinet.map(|cabinet| mm(cabinet.width)),
        cabinet_inside_mm: sink.cabinet.map(|cabinet| mm(cabinet.inside())),
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
        profile: opening.profile.code(),
        profile_mm: mm(opening.profile.reach()),
        purpose: (opening.purpose != Purpose::Plain).then(|| opening.purpose.word()),
        sink: opening.purpose.sink().map(|fitted| sink(opening, fitted)),
    }
}
