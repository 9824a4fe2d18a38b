//! The faces of a shape with their areas: the formulas of the room's front page.

use super::drawn::Drawn;
use super::face::{Construction, Face, FaceKey, Way};
use super::inset::Inner;
use super::opening::Opening;
use super::solid::{Shape, ShapeDraft};
use crate::units::Area;

/// All faces of a shape, in the order of [`FaceKey`].
pub(super) fn faces(shape: &Shape, construction: Construction) -> Vec<Face> {
    let draft = shape.draft();
    let flat = Inner::of(&draft.outline, draft.profile.reach());
    let mut areas = vec![(
        FaceKey::Top,
        Way::Flat,
        flat.area() - from(&flat, &draft.openings),
    )];
    let (band, field) = under(draft);
    if draft.band.is_some() {
        areas.push((FaceKey::Band, Way::Flat, band));
        areas.push((FaceKey::Field, Way::Flat, field));
    } else {
        areas.push((FaceKey::Underside, Way::Flat, field));
    }
    let girth = draft.profile.girth(draft.thickness);
    for (key, way, run) in Drawn::of(shape).sides() {
        areas.push((key, way, run * girth));
    }
    let thickness = draft.thickness.metres();
    areas.extend(
        draft
            .openings
            .iter()
            .map(|o| (o.wall(), Way::Mixed, o.wall_length() * thickness)),
    );
    areas.sort_by_key(|(key, _, _)| *key);

    let face = |(key, way, m2)| Face {
        key,
        grain: construction.grain_of(way),
        area: Area::from_m2(m2),
    };
    areas.into_iter().map(face).collect()
}

/// What openings take of a figure, in square metres. They lie inside it, save that one open to the
/// front reaches out.
fn from(inner: &Inner, openings: &[Opening]) -> f64 {
    let of = |opening: &Opening| {
        if opening.open_front() {
            inner.share(&opening.figure())
        } else {
            opening.figure().area()
        }
    };
    openings.iter().map(of).sum()
}

/// What the openings take from the top, in square metres.
pub(super) fn openings_area(openings: &[Opening]) -> f64 {
    openings.iter().map(Opening::taken).sum()
}

/// The two parts of an underside, band first, in square metres; without a band all of it is field.
/// The band is what the field leaves of the underside, so that the two always add up.
pub(super) fn under(draft: &ShapeDraft) -> (f64, f64) {
    let whole = Inner::of(&draft.outline, draft.profile.reach_below());
    let underside = whole.area() - from(&whole, &draft.openings);
    let Some(width) = draft.band else {
        return (0.0, underside);
    };
    let inner = Inner::of(&draft.outline, width);
    let taken = if draft.band_round_openings {
        let grown: Vec<_> = draft
            .openings
            .iter()
            .map(|opening| opening.figure().grown(width))
            .collect();
        inner.share_of_all(&grown)
    } else {
        draft
            .openings
            .iter()
            .map(|opening| inner.share(&opening.figure()))
            .sum()
    };
    let field = (inner.area() - taken).max(0.0);
    (underside - field, field)
}
