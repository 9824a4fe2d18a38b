//! Refusing openings that cannot be cut where they are, or are not for what they are said to be.

use std::cmp::Ordering;

use super::check::{LEAST, positive, profile_fits};
use super::check_bowl::bowl_fits;
use super::check_fitting::check_fitting;
use super::error::ShapeError;
use super::face::FaceKey;
use super::opening::{Opening, OpeningKind};
use super::outline::Outline;
use super::reach;
use super::rounded::{Rounded, halves};
use super::solid::ShapeDraft;
use super::stroke::Stroke;
use super::words::{round_up, say};
use crate::units::Length;

/// The most openings in one top.
const MOST_OPENINGS: usize = 40;

pub(super) fn openings(draft: &ShapeDraft) -> Result<(), ShapeError> {
    let count = draft.openings.len();
    if count > MOST_OPENINGS {
        return Err(ShapeError::TooManyOpenings {
            count,
            most: MOST_OPENINGS,
        });
    }
    for (i, opening) in draft.openings.iter().enumerate() {
        if opening.no == 0 {
            return Err(ShapeError::ZeroNumber);
        }
        if draft.openings[..i]
            .iter()
            .any(|earlier| earlier.name() == opening.name())
        {
            return Err(ShapeError::DuplicateNumber {
                opening: opening.name(),
            });
        }
        opening_sizes(opening)?;
        profile_fits(Some(opening.name()), opening.profile, draft.thickness)?;
        check_fitting(opening)?;
        fits_somewhere(draft, opening)?;
        fits_here(draft, opening)?;
        bowl_fits(draft, opening)?;
    }
    for (i, second) in draft.openings.iter().enumerate() {
        for first in &draft.openings[..i] {
            let (first_name, second_name) = (first.name(), second.name());
            let apart = || first.above().gap_to(&second.above()) != Ordering::Less;
            match first.figure().gap_to(&second.figure()) {
                Ordering::Greater if apart() => {}
                Ordering::Greater => {
                    return Err(ShapeError::ProfilesMeet {
                        first: first_name,
                        second: second_name,
                        reach: first.profile.reach() + second.profile.reach(),
                    });
                }
                Ordering::Equal => {
                    return Err(ShapeError::Touching {
                        first: first_name,
                        second: second_name,
                    });
                }
                Ordering::Less => {
                    return Err(ShapeError::Crossing {
                        first: first_name,
                        second: second_name,
                    });
                }
            }
        }
    }
    Ok(())
}

fn opening_sizes(opening: &Opening) -> Result<(), ShapeError> {
    let name = opening.name();
    for (what, given) in opening.sizes() {
        let what = format!("{what} of {name}");
        positive(&what, given)?;
        if given < LEAST {
            return Err(ShapeError::TooSmall {
                what,
                given,
                least: LEAST,
            });
        }
    }
    if let OpeningKind::Cutout {
        width,
        depth,
        corner_radius,
    } = opening.what
    {
        if corner_radius.nm() < 0 {
            let what = format!("corner radius of {name}");
            return Err(ShapeError::Negative {
                what,
                given: corner_radius,
            });
        }
        let shorter = width.min(depth);
        if halves(corner_radius) > i128::from(shorter.nm()) {
            let most = Length::from_nm(shorter.nm() / 2);
            return Err(ShapeError::CornerRadius {
                opening: name,
                radius: corner_radius,
                most,
            });
        }
    }
    Ok(())
}

/// Whether the top could hold the opening at all.
fn fits_somewhere(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    let (length, width) = draft.outline.extent();
    let (along, over, size) = match opening.what {
        OpeningKind::Cutout { width, depth, .. } => {
            (width, depth, format!("{} x {}", say(width), say(depth)))
        }
        OpeningKind::Hole { diameter } => (diameter, diameter, format!("{} across", say(diameter))),
    };
    let larger = |top, way| ShapeError::LargerThanTop {
        opening: opening.name(),
        size,
        top,
        way,
    };
    // One that is open to the front may not be as deep as the top either.
    match &draft.outline {
        Outline::Circle { diameter } => {
            let figure = opening.figure();
            let radius = halves(*diameter) / 2;
            let centred = Rounded {
                cx: radius,
                cy: radius,
                ..figure
            };
            let top = draft.outline.figure();
            if top.is_some_and(|top| top.holds(&centred, 1)) {
                Ok(())
            } else {
                Err(larger(*diameter, "across"))
            }
        }
        _ if over >= width => Err(larger(width, "wide")),
        _ if along >= length => Err(larger(length, "long")),
        _ => Ok(()),
    }
}

/// Whether the top holds the opening where it is, with wood left outside it and clear of the edge
/// profile.
pub(super) fn fits_here(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    if opening.open_front() {
        return fits_front(draft, opening);
    }
    let (Some(top), figure) = (draft.outline.figure(), opening.figure()) else {
        return fits_drawn(draft, opening);
    };
    let name = opening.name();
    let reach = halves(reaches(draft, opening));
    // Half a nanometre of wood is wood: the least margin tells "touches" from "is clear".
    if top.holds(&figure, reach.max(1)) {
        return Ok(());
    }
    let (side, overhang) = reach_past(&draft.outline, &top, &figure);
    // Whatever was refused reaches over by something, however small.
    let past = |reach: i128| round_up((overhang + reach).max(1), draft.outline.in_inches());
    if !top.holds(&figure, 0) {
        let by = past(0);
        return Err(ShapeError::OverEdge {
            opening: name,
            side,
            by,
        });
    }
    if !top.holds(&figure, 1) {
        return Err(ShapeError::AtEdge {
            opening: name,
            side,
        });
    }
    Err(in_profile(draft, opening, side, past(reach)))
}

/// How far the profile along the outside and the opening's own reach towards each other.
fn reaches(draft: &ShapeDraft, opening: &Opening) -> Length {
    draft.profile.reach() + opening.profile.reach()
}

fn in_profile(draft: &ShapeDraft, opening: &Opening, side: FaceKey, by: Length) -> ShapeError {
    if opening.profile.is_square() {
        return ShapeError::InProfile {
            opening: opening.name(),
            side,
            profile: draft.profile.name(),
            size: draft.profile.reach(),
            by,
        };
    }
    ShapeError::OwnProfile {
        opening: opening.name(),
        side,
        profile: opening.profile.name(),
        size: opening.profile.reach(),
        by,
    }
}

/// How far (in half-nm) a figure that does not fit reaches past an exact outline, and at which
/// side it reaches the farthest; zero or less is what is left before the border.
fn reach_past(outline: &Outline, top: &Rounded, opening: &Rounded) -> (FaceKey, i128) {
    let (dx, dy) = (opening.cx - top.cx, opening.cy - top.cy);
    if matches!(outline, Outline::Rectangle { .. }) {
        let past_x = opening.hx + opening.r - top.hx;
        let past_y = opening.hy + opening.r - top.hy;
        let sides = [
            (FaceKey::Front, past_y - dy),
            (FaceKey::Back, past_y + dy),
            (FaceKey::Left, past_x - dx),
            (FaceKey::Right, past_x + dx),
        ];
        let first = sides[0];
        return sides
            .into_iter()
            .fold(first, |far, side| if side.1 > far.1 { side } else { far });
    }
    let corner_x = (dx.abs() + opening.hx) as f64;
    let corner_y = (dy.abs() + opening.hy) as f64;
    let past = corner_x.hypot(corner_y) + (opening.r - top.r) as f64;
    // A float turned into an integer saturates: no number is too large for this.
    #[allow(clippy::cast_possible_truncation)]
    let past = past.ceil() as i128;
    (FaceKey::Rim, past)
}

/// The same for an outline that is drawn, to the tenth of a micrometre.
fn fits_drawn(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    let ring = draft.outline.ring()?;
    let Some((side, past)) = reach::past(&ring, &opening.ring(), |_| true) else {
        return Ok(());
    };
    judge(draft, opening, side, past)
}

/// What a reach past a drawn border, in metres, comes to.
fn judge(
    draft: &ShapeDraft,
    opening: &Opening,
    side: FaceKey,
    past: f64,
) -> Result<(), ShapeError> {
    let up = |metres: f64| {
        let half_nm = i128::from(Length::from_metres_rounded(metres).nm()) * 2;
        round_up(half_nm.max(1), draft.outline.in_inches())
    };
    let reach = reaches(draft, opening).metres();
    let name = opening.name();
    if past > reach::NEAR {
        return Err(ShapeError::OverEdge {
            opening: name,
            side,
            by: up(past),
        });
    }
    if past > -reach::NEAR {
        return Err(ShapeError::AtEdge {
            opening: name,
            side,
        });
    }
    if past + reach > reach::NEAR {
        return Err(in_profile(draft, opening, side, up(past + reach)));
    }
    Ok(())
}

/// A cutout that is open to the front: it starts at a straight front edge and leaves some of it on
/// both sides, and is clear of every other side.
fn fits_front(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    let OpeningKind::Cutout { width, depth, .. } = opening.what else {
        return Ok(());
    };
    let ring = draft.outline.ring()?;
    let front = ring.runs.iter().find_map(|run| match run.stroke {
        Stroke::Line { from, to } if run.face == FaceKey::Front => Some((from, to)),
        _ => None,
    });
    let centre = Length::from_nm(depth.nm() / 2);
    let (Some((from, to)), true) = (front, (opening.place.y - centre).nm().abs() <= 1) else {
        return Err(ShapeError::NotAtFront {
            opening: opening.name(),
            centre,
        });
    };
    let half = width.metres() / 2.0;
    let x = opening.place.x.metres();
    let least = reaches(draft, opening).metres().max(reach::NEAR);
    if x - half < from.x + least || x + half > to.x - least {
        return Err(ShapeError::OverFront {
            opening: opening.name(),
            width,
            from: Length::from_metres_rounded(from.x),
            to: Length::from_metres_rounded(to.x),
        });
    }
    let other = |face: FaceKey| face != FaceKey::Front;
    match reach::past(&ring, &opening.ring(), other) {
        Some((side, past)) => judge(draft, opening, side, past),
        None => Ok(()),
    }
}
