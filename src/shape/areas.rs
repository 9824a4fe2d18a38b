//! The faces of a shape with their areas: the formulas of the room's front page. They are worked
//! out once, since every fold of a piece's log asks for them.

use super::drawn::Drawn;
use super::face::{Face, FaceKey};
use super::grain::{Construction, Way};
use super::inset::Inner;
use super::opening::Opening;
use super::rounded::Rounded;
use super::solid::ShapeDraft;
use crate::units::Area;

/// What is worked out of a draft once, when it becomes a shape.
#[derive(Debug, Clone, Default)]
pub(super) struct Measured {
    /// What the profile leaves flat above, openings not taken out, in square metres.
    pub flat: f64,
    /// Every face with how it lies to the grain and its area in square metres, in order.
    pub faces: Vec<(FaceKey, Way, f64)>,
}

impl Measured {
    /// Measures a draft whose sizes have been checked.
    pub fn of(draft: &ShapeDraft) -> Measured {
        let flat = Inner::of(&draft.outline, draft.profile.reach());
        let top = flat.area() - from(&flat, &draft.openings, Opening::above);
        let mut faces = vec![(FaceKey::Top, Way::Flat, top)];
        let (band, field) = under(draft);
        if draft.band.is_some() {
            faces.push((FaceKey::Band, Way::Flat, band));
            faces.push((FaceKey::Field, Way::Flat, field));
        } else {
            faces.push((FaceKey::Underside, Way::Flat, field));
        }
        let girth = draft.profile.girth(draft.thickness);
        for (key, way, run) in Drawn::of(draft).sides() {
            faces.push((key, way, run * girth));
        }
        faces.extend(
            draft
                .openings
                .iter()
                .map(|o| (o.wall(), Way::Mixed, o.wall_area(draft.thickness))),
        );
        faces.sort_by_key(|(key, _, _)| *key);
        Measured {
            flat: flat.area(),
            faces,
        }
    }

    /// The faces in a top built like this.
    pub fn built(&self, construction: Construction) -> Vec<Face> {
        let face = |&(key, way, m2): &(FaceKey, Way, f64)| Face {
            key,
            grain: construction.grain_of(way),
            area: Area::from_m2(m2),
        };
        self.faces.iter().map(face).collect()
    }

    /// The area of one face in square metres; nothing where it is not there.
    pub fn area(&self, key: FaceKey) -> f64 {
        let found = self.faces.iter().find(|(has, _, _)| *has == key);
        found.map_or(0.0, |(_, _, m2)| *m2)
    }
}

/// What openings take of a flat, in square metres, each as it is seen from there. They lie inside
/// it, save that one open to the front reaches out.
fn from(inner: &Inner, openings: &[Opening], seen: fn(&Opening) -> Rounded) -> f64 {
    let of = |opening: &Opening| {
        if opening.open_front() {
            inner.share(&seen(opening))
        } else {
            seen(opening).area()
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
fn under(draft: &ShapeDraft) -> (f64, f64) {
    let whole = Inner::of(&draft.outline, draft.profile.reach_below());
    let underside = whole.area() - from(&whole, &draft.openings, Opening::below);
    let Some(width) = draft.band else {
        return (0.0, underside);
    };
    let inner = Inner::of(&draft.outline, width);
    let taken = if draft.band_round_openings {
        let grown: Vec<_> = draft
            .openings
            .iter()
            .map(|opening| {
                let below = opening.profile.reach_below();
                opening.figure().grown(width.max(below))
            })
            .collect();
        inner.share_of_all(&grown)
    } else {
        draft
            .openings
            .iter()
            .map(|opening| inner.share(&opening.below()))
            .sum()
    };
    let field = (inner.area() - taken).max(0.0);
    (underside - field, field)
}
