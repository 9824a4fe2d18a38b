//! Refusing shapes that cannot be cut. Sizes come first: everything after them relies on sizes
//! being in range.

use std::cmp::Ordering;

use super::areas;
use super::error::ShapeError;
use super::opening::{Opening, OpeningKind};
use super::outline::{EdgeProfile, Outline};
use super::rounded::{Rounded, halves};
use super::solid::ShapeDraft;
use super::words::{round_up, say};
use crate::units::Length;

/// The least size of anything cut: 1/64 in, the finest mark on a tape.
const LEAST: Length = Length::from_nm(396_875);
/// The most a top measures: 100 ft. A longer one is a slip of the pen.
const MOST: Length = Length::from_nm(100 * 12 * 25_400_000);
/// 1/16 in.
const THINNEST: Length = Length::from_nm(25_400_000 / 16);
/// 12 in.
const THICKEST: Length = Length::from_nm(12 * 25_400_000);
/// The most openings in one top.
const MOST_OPENINGS: usize = 40;
/// Square metres (1 cm2) below which a field is not worth the name.
const LEAST_FIELD: f64 = 1e-4;

/// The first thing that is wrong with a draft.
pub(super) fn check(draft: &ShapeDraft) -> Result<(), ShapeError> {
    for (what, given) in draft.outline.sizes() {
        size(what, given)?;
    }
    thickness(draft.thickness)?;
    profile(draft)?;
    openings(draft)?;
    band(draft)
}

fn positive(what: &str, given: Length) -> Result<(), ShapeError> {
    if given.nm() <= 0 {
        return Err(ShapeError::NotPositive {
            what: what.to_owned(),
            given,
        });
    }
    Ok(())
}

fn size(what: &str, given: Length) -> Result<(), ShapeError> {
    positive(what, given)?;
    let what = what.to_owned();
    if given < LEAST {
        return Err(ShapeError::TooSmall {
            what,
            given,
            least: LEAST,
        });
    }
    if given > MOST {
        return Err(ShapeError::TooLarge {
            what,
            given,
            most: MOST,
        });
    }
    Ok(())
}

fn thickness(given: Length) -> Result<(), ShapeError> {
    positive("thickness", given)?;
    if given < THINNEST {
        return Err(ShapeError::TooThin {
            given,
            least: THINNEST,
        });
    }
    if given > THICKEST {
        return Err(ShapeError::TooThick {
            given,
            most: THICKEST,
        });
    }
    Ok(())
}

/// The shorter side of the outline.
fn across(outline: &Outline) -> Length {
    let (length, width) = outline.extent();
    length.min(width)
}

fn profile(draft: &ShapeDraft) -> Result<(), ShapeError> {
    let (size, profile) = (draft.profile.reach(), draft.profile.name());
    if draft.profile == EdgeProfile::Square {
        return Ok(());
    }
    positive(&format!("size of the {profile}"), size)?;
    if size > draft.thickness {
        let thickness = draft.thickness;
        return Err(ShapeError::ProfileOverThickness {
            profile,
            size,
            thickness,
        });
    }
    if draft.outline.figure().inset(size).is_none() {
        let across = across(&draft.outline);
        return Err(ShapeError::ProfileOverWidth {
            profile,
            size,
            across,
        });
    }
    Ok(())
}

fn openings(draft: &ShapeDraft) -> Result<(), ShapeError> {
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
        fits_somewhere(draft, opening)?;
        fits_here(draft, opening)?;
    }
    for (i, second) in draft.openings.iter().enumerate() {
        for first in &draft.openings[..i] {
            let (first_name, second_name) = (first.name(), second.name());
            match first.figure().gap_to(&second.figure()) {
                Ordering::Greater => {}
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
    match draft.outline {
        Outline::Rectangle { .. } if over >= width => Err(larger(width, "wide")),
        Outline::Rectangle { .. } if along >= length => Err(larger(length, "long")),
        Outline::Rectangle { .. } => Ok(()),
        Outline::Circle { diameter } => {
            let top = draft.outline.figure();
            let centred = Rounded {
                cx: top.cx,
                cy: top.cy,
                ..opening.figure()
            };
            if top.holds(&centred, 1) {
                Ok(())
            } else {
                Err(larger(diameter, "across"))
            }
        }
    }
}

/// Whether the top holds the opening where it is, with wood left outside it and clear of the edge
/// profile.
fn fits_here(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    let figure = opening.figure();
    let top = draft.outline.figure();
    let name = opening.name();
    let reach = halves(draft.profile.reach());
    // Half a nanometre of wood is wood: the least margin tells "touches" from "is clear".
    if top.holds(&figure, reach.max(1)) {
        return Ok(());
    }
    let (worst_at, overhang) = draft.outline.reach_past(&figure);
    // Whatever was refused reaches over by something, however small.
    let past = |reach: i128| round_up((overhang + reach).max(1), draft.outline.in_inches());
    if !top.holds(&figure, 0) {
        let by = past(0);
        return Err(ShapeError::OverEdge {
            opening: name,
            side: worst_at,
            by,
        });
    }
    if !top.holds(&figure, 1) {
        return Err(ShapeError::AtEdge {
            opening: name,
            side: worst_at,
        });
    }
    let by = past(reach);
    let (profile, size) = (draft.profile.name(), draft.profile.reach());
    Err(ShapeError::InProfile {
        opening: name,
        side: worst_at,
        profile,
        size,
        by,
    })
}

fn band(draft: &ShapeDraft) -> Result<(), ShapeError> {
    let Some(band) = draft.band else {
        return Ok(());
    };
    positive("underside band", band)?;
    if halves(band) >= i128::from(across(&draft.outline).nm()) {
        let across = across(&draft.outline);
        return Err(ShapeError::BandTooWide { band, across });
    }
    let (_, field) = areas::band_and_field(&draft.outline, &draft.openings, band);
    if field < LEAST_FIELD {
        return Err(ShapeError::NoField { band });
    }
    Ok(())
}
