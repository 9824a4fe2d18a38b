//! Which faces a change of shape cuts anew.

use geo::{Area as _, BooleanOps as _};

use super::face::FaceKey;
use super::grain::Way;
use super::opening::Opening;
use super::outline::Outline;
use super::reach::to_line;
use super::ring::{Ring, Run};
use super::solid::Shape;
use super::stroke::{Stroke, apart};

/// Metres within which two drawn runs lie on each other.
const SAME: f64 = 1e-8;
/// Square metres of new wood below which nothing was filled: the last digits of the drawing.
const FILLED: f64 = 1e-7;

/// All that is flat.
const FLAT: [FaceKey; 4] = [
    FaceKey::Top,
    FaceKey::Underside,
    FaceKey::Band,
    FaceKey::Field,
];

/// Faces that both shapes have but that a piece of the first, made into the second, would carry as
/// fresh wood: another length cuts the ends, another width the long edges, another thickness top
/// and underside, another profile every outside edge, a moved or resized opening its wall, and so
/// does another profile of its own. Of an
/// outline of another form, the runs that do not lie on the old ones are fresh. An opening that is
/// no more, or that no longer takes in the place where it was, is filled with wood that nobody has
/// sanded or coated, and so is what an outline of another form gains: top and underside are to do
/// again. A band of another width is stained anew, and so is not what it was either, nor is its
/// field.
pub fn recut(before: &Shape, after: &Shape) -> Vec<FaceKey> {
    let keys = |shape: &Shape| -> Vec<FaceKey> {
        shape
            .faces(super::grain::Construction::FaceGrain)
            .iter()
            .map(|face| face.key)
            .collect()
    };
    let (had, has) = (keys(before), keys(after));
    let mut out = around(before.outline(), after.outline());
    if before.profile() != after.profile() {
        out.extend(has.iter().filter(|key| key.is_outside()));
    }
    if before.thickness() != after.thickness() {
        out.extend(FLAT);
    }
    if before.band() != after.band() || before.band_round_openings() != after.band_round_openings()
    {
        out.extend([FaceKey::Band, FaceKey::Field]);
    }
    // What it is for changes no wood.
    let cut = |opening: &Opening| (opening.figure(), opening.open_front(), opening.profile);
    for opening in after.openings() {
        let changed = before
            .openings()
            .iter()
            .any(|other| other.wall() == opening.wall() && cut(other) != cut(opening));
        if changed {
            out.push(opening.wall());
        }
    }
    let filled = before.openings().iter().any(|old| {
        !after
            .openings()
            .iter()
            .any(|new| new.wall() == old.wall() && new.figure().holds(&old.figure(), 0))
    });
    if filled {
        out.extend(FLAT);
    }
    out.sort_unstable();
    out.dedup();
    out.retain(|key| had.contains(key) && has.contains(key));
    out
}

/// What a change of the outline cuts.
fn around(before: &Outline, after: &Outline) -> Vec<FaceKey> {
    if before == after {
        return Vec::new();
    }
    let (length, width) = before.extent();
    let (new_length, new_width) = after.extent();
    let round =
        |outline: &Outline| matches!(outline, Outline::Circle { .. } | Outline::Oval { .. });
    if round(before) && round(after) {
        return vec![FaceKey::Rim];
    }
    let mut out = Vec::new();
    let plain = |outline: &Outline| matches!(outline, Outline::Rectangle { .. });
    if plain(before) && plain(after) {
        if length != new_length {
            out.extend([FaceKey::Left, FaceKey::Right]);
        }
        if width != new_width {
            out.extend([FaceKey::Front, FaceKey::Back]);
        }
        return out;
    }
    // Checked outlines close.
    let (Ok(old), Ok(new)) = (before.ring(), after.ring()) else {
        return out;
    };
    for run in &new.runs {
        let trimmed = match run.way {
            Way::Across => length != new_length,
            Way::Long => width != new_width,
            Way::Mixed | Way::Flat => length != new_length || width != new_width,
        };
        if trimmed || !lies_on(run, &old) {
            out.push(run.face);
        }
    }
    let gained = new.polygon().difference(&old.polygon()).unsigned_area();
    if gained > FILLED {
        out.extend(FLAT);
    }
    out
}

/// Whether a run lies on one of the same face that was there.
fn lies_on(run: &Run, old: &Ring) -> bool {
    let on = |other: &Run| match (&run.stroke, &other.stroke) {
        (Stroke::Line { from, to }, Stroke::Line { from: a, to: b }) => {
            to_line(*from, *a, *b) < SAME && to_line(*to, *a, *b) < SAME
        }
        (one, other) => {
            let (one, other) = (one.points(), other.points());
            one.len() == other.len() && one.iter().zip(&other).all(|(p, q)| apart(*p, *q) < SAME)
        }
    };
    old.runs
        .iter()
        .any(|other| other.face == run.face && on(other))
}

#[cfg(test)]
mod tests {
    use super::super::{
        Corner, Corners, Cut, EdgeProfile, Ell, OpeningKind, Place, Purpose, ShapeDraft,
    };
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
                profile: EdgeProfile::Square,
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

    #[test]
    fn cut_corners_and_other_forms_leave_what_lies_where_it_lay() {
        let (length, width) = (inches(60), inches(20));
        let clip = Cut::Clip {
            along: inches(3),
            across: inches(3),
        };
        let clipped = |corner| Outline::Cornered {
            length,
            width,
            corners: Corners::new([(corner, clip)]),
        };
        let cleared = |outline: Outline| {
            after(|draft| {
                draft.outline = outline;
            })
        };
        // The clip's own face is new; the edges it shortens are still what they were.
        assert_eq!(cleared(clipped(Corner::FrontLeft)), []);
        assert_eq!(
            cleared(Outline::Cornered {
                length: inches(59),
                width,
                corners: Corners::new([(Corner::FrontLeft, clip)]),
            }),
            [FaceKey::Left, FaceKey::Right]
        );
        let ell = Outline::L(Ell {
            length,
            width,
            run: inches(12),
            leg: inches(12),
            open: Corner::FrontRight,
            corners: Corners::SHARP,
        });
        assert_eq!(
            after(|draft| {
                draft.openings.clear();
                draft.outline = ell.clone();
            }),
            [FaceKey::Top, FaceKey::Underside],
            "the hole is filled, no edge is cut anew"
        );
        // And back again: what was the opening of the L is new wood.
        let shape = |outline: Outline| {
            let draft = ShapeDraft {
                outline,
                openings: Vec::new(),
                ..draft()
            };
            Shape::try_from(draft).expect("a shape")
        };
        assert_eq!(
            recut(&shape(ell), &shape(Outline::Rectangle { length, width })),
            [
                FaceKey::Top,
                FaceKey::Underside,
                FaceKey::Front,
                FaceKey::Right
            ]
        );
    }

    #[test]
    fn saying_what_an_opening_is_for_cuts_nothing() {
        assert_eq!(
            after(|draft| draft.openings[0].purpose = Purpose::Faucet),
            []
        );
    }
}
