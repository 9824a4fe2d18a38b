//! The faces of a shape with their areas: the formulas of the room's front page.

use super::face::{Construction, Face, FaceKey};
use super::opening::Opening;
use super::outline::Outline;
use super::overlap;
use super::solid::Shape;
use crate::units::{Area, Length};

/// All faces of a shape, in the order of [`FaceKey`].
pub(super) fn faces(shape: &Shape, construction: Construction) -> Vec<Face> {
    let outline = shape.outline();
    let openings = openings_area(shape.openings());
    let whole = outline.figure();

    // A checked shape always has a flat inside its profile.
    let flat = whole
        .inset(shape.profile().reach())
        .map_or(0.0, |inner| inner.area());
    let mut areas = vec![(FaceKey::Top, flat - openings)];
    match shape.band() {
        None => areas.push((FaceKey::Underside, whole.area() - openings)),
        Some(width) => {
            let (band, field) = band_and_field(&outline, shape.openings(), width);
            areas.push((FaceKey::Band, band));
            areas.push((FaceKey::Field, field));
        }
    }
    let girth = shape.profile().girth(shape.thickness());
    areas.extend(
        outline
            .sides()
            .into_iter()
            .map(|(key, run)| (key, run * girth)),
    );
    let thickness = shape.thickness().metres();
    areas.extend(
        shape
            .openings()
            .iter()
            .map(|o| (o.wall(), o.figure().perimeter() * thickness)),
    );
    areas.sort_by_key(|(key, _)| *key);

    let face = |(key, m2)| Face {
        key,
        grain: construction.grain_of(key),
        area: Area::from_m2(m2),
    };
    areas.into_iter().map(face).collect()
}

/// What the openings take from the top, in square metres.
pub(super) fn openings_area(openings: &[Opening]) -> f64 {
    openings.iter().map(|opening| opening.figure().area()).sum()
}

/// The two parts of an underside with a band of this width, in square metres. The part that an
/// opening takes from the band is the opening less what it takes from the field, so that the two
/// always add up to the underside.
pub(super) fn band_and_field(outline: &Outline, openings: &[Opening], width: Length) -> (f64, f64) {
    let whole = outline.figure();
    let Some(inner) = whole.inset(width) else {
        return (whole.area() - openings_area(openings), 0.0);
    };
    let from_field: f64 = openings
        .iter()
        .map(|o| overlap::area(&o.figure(), &inner))
        .sum();
    let from_band = openings_area(openings) - from_field;
    (
        whole.area() - inner.area() - from_band,
        inner.area() - from_field,
    )
}
