//! Which faces a change of shape cuts anew.

use super::face::FaceKey;
use super::opening::{Opening, OpeningKind};
use super::outline::Outline;
use super::solid::Shape;

/// Faces that both shapes have but that a piece of the first, made into the second, would carry as
/// fresh wood: another length cuts the ends, another width the long edges, another thickness top
/// and underside, another profile every outside edge, a moved or resized opening its wall. An
/// opening that is no more, or that no longer takes in the place where it was, is filled with wood
/// that nobody has sanded or coated: top and underside are to do again. A band
/// of another width is stained anew, and so is not what it was either, nor is its field.
pub fn recut(before: &Shape, after: &Shape) -> Vec<FaceKey> {
    let mut out = Vec::new();
    let (round, long) = (
        [FaceKey::Rim],
        [FaceKey::Front, FaceKey::Back, FaceKey::Left, FaceKey::Right],
    );
    match (before.outline(), after.outline()) {
        (
            Outline::Rectangle { length, width },
            Outline::Rectangle {
                length: new_length,
                width: new_width,
            },
        ) => {
            if length != new_length {
                out.extend([FaceKey::Left, FaceKey::Right]);
            }
            if width != new_width {
                out.extend([FaceKey::Front, FaceKey::Back]);
            }
        }
        (before, after) if before != after => out.extend(round),
        _ => {}
    }
    if before.profile() != after.profile() {
        out.extend(long.into_iter().chain(round));
    }
    if before.thickness() != after.thickness() {
        out.extend([
            FaceKey::Top,
            FaceKey::Underside,
            FaceKey::Band,
            FaceKey::Field,
        ]);
    }
    if before.band() != after.band() {
        out.extend([FaceKey::Band, FaceKey::Field]);
    }
    for opening in after.openings() {
        let same = before
            .openings()
            .iter()
            .any(|other| other.wall() == opening.wall() && other != opening);
        if same {
            out.push(opening.wall());
        }
    }
    let filled = before.openings().iter().any(|old| {
        !after
            .openings()
            .iter()
            .any(|new| new.wall() == old.wall() && takes_in(new, old))
    });
    if filled {
        out.extend([
            FaceKey::Top,
            FaceKey::Underside,
            FaceKey::Band,
            FaceKey::Field,
        ]);
    }
    let has = |shape: &Shape, key: FaceKey| {
        shape
            .faces(super::face::Construction::FaceGrain)
            .iter()
            .any(|face| face.key == key)
    };
    out.sort_unstable();
    out.dedup();
    out.retain(|key| has(before, *key) && has(after, *key));
    out
}

/// Whether the new opening takes in all of the old one: grown where it was, or unchanged.
fn takes_in(new: &Opening, old: &Opening) -> bool {
    if new.place != old.place {
        return false;
    }
    match (new.what, old.what) {
        (OpeningKind::Hole { diameter: new }, OpeningKind::Hole { diameter: old }) => new >= old,
        (
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            },
            OpeningKind::Cutout {
                width: old_width,
                depth: old_depth,
                corner_radius: old_radius,
            },
        ) => width >= old_width && depth >= old_depth && corner_radius <= old_radius,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{EdgeProfile, Place, Purpose, ShapeDraft};
    use super::*;
    use crate::units::Length;

    fn inches(n: i64) -> Length {
        Length::from_64ths(n * 64)
    }

    fn draft() -> ShapeDraft {
        ShapeDraft {
            outline: Outline::Rectangle {
                length: inches(60),
                width: inches(20),
            },
            thickness: inches(2),
            profile: EdgeProfile::Square,
            openings: vec![Opening {
                no: 1,
                place: Place {
                    x: inches(30),
                    y: inches(10),
                },
                what: OpeningKind::Hole {
                    diameter: inches(2),
                },
                purpose: Purpose::Plain,
            }],
            band: None,
            band_round_openings: false,
        }
    }

    fn after(change: impl FnOnce(&mut ShapeDraft)) -> Vec<FaceKey> {
        let before = Shape::try_from(draft()).expect("a shape");
        let mut changed = draft();
        change(&mut changed);
        recut(&before, &Shape::try_from(changed).expect("a shape"))
    }

    #[test]
    fn what_is_cut_is_bare_and_the_rest_is_not() {
        assert_eq!(after(|_| {}), []);
        assert_eq!(
            after(|draft| {
                draft.outline = Outline::Rectangle {
                    length: inches(59),
                    width: inches(20),
                };
            }),
            [FaceKey::Left, FaceKey::Right]
        );
        assert_eq!(
            after(|draft| draft.openings[0].place.x = inches(31)),
            [FaceKey::Top, FaceKey::Underside, FaceKey::Hole(1)]
        );
        let drill = |draft: &mut ShapeDraft, wide| {
            draft.openings[0].what = OpeningKind::Hole {
                diameter: inches(wide),
            };
        };
        assert_eq!(after(|draft| drill(draft, 3)), [FaceKey::Hole(1)]);
        assert_eq!(
            after(|draft| drill(draft, 1)),
            [FaceKey::Top, FaceKey::Underside, FaceKey::Hole(1)]
        );
        assert_eq!(
            after(|draft| draft.thickness = inches(1)),
            [FaceKey::Top, FaceKey::Underside]
        );
        assert_eq!(
            after(|draft| draft.profile = EdgeProfile::Chamfer(Length::from_64ths(8))),
            [FaceKey::Front, FaceKey::Back, FaceKey::Left, FaceKey::Right]
        );
        // Faces that only one of the two shapes has are told by their keys, not here.
        assert_eq!(
            after(|draft| draft.openings.clear()),
            [FaceKey::Top, FaceKey::Underside]
        );
        assert_eq!(after(|draft| draft.band = Some(inches(2))), []);
    }
}
