//! Refusing shapes that cannot be cut. Sizes come first: everything after them relies on sizes
//! being in range.

use super::areas::Measured;
use super::check_openings::openings;
use super::check_outline;
use super::error::ShapeError;
use super::face::FaceKey;
use super::outline::Outline;
use super::profile::EdgeProfile;
use super::rounded::halves;
use super::solid::ShapeDraft;
use crate::units::Length;

/// The least size of anything cut: 1/64 in, the finest mark on a tape.
pub(super) const LEAST: Length = Length::from_nm(396_875);
/// The most a top measures: 100 ft. A longer one is a slip of the pen.
const MOST: Length = Length::from_nm(100 * 12 * 25_400_000);
/// 1/16 in.
const THINNEST: Length = Length::from_nm(25_400_000 / 16);
/// 12 in.
const THICKEST: Length = Length::from_nm(12 * 25_400_000);
/// Square metres (1 cm2) below which a field is not worth the name.
const LEAST_FIELD: f64 = 1e-4;

/// The first thing that is wrong with a draft.
pub(super) fn check(draft: &ShapeDraft) -> Result<(), ShapeError> {
    check_outline::stations(&draft.outline)?;
    for (what, given) in draft.outline.sizes() {
        size(&what, given)?;
    }
    check_outline::check(&draft.outline)?;
    thickness(draft.thickness)?;
    profile(draft)?;
    openings(draft)?;
    band(draft)
}

pub(super) fn positive(what: &str, given: Length) -> Result<(), ShapeError> {
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
    let below = draft.profile.reach_below();
    if size + below > draft.thickness {
        let thickness = draft.thickness - below;
        if below > Length::ZERO {
            let most = Length::from_nm(draft.thickness.nm() / 2);
            return Err(ShapeError::BullnoseOver {
                size,
                thickness: draft.thickness,
                most,
            });
        }
        return Err(ShapeError::ProfileOverThickness {
            profile,
            size,
            thickness,
        });
    }
    if halves(size) >= i128::from(across(&draft.outline).nm()) {
        return Err(no_flat(draft));
    }
    Ok(())
}

fn no_flat(draft: &ShapeDraft) -> ShapeError {
    ShapeError::ProfileOverWidth {
        profile: draft.profile.name(),
        size: draft.profile.reach(),
        across: across(&draft.outline),
    }
}

/// What is wrong with a draft that shows only when it is measured: nothing left flat inside the
/// profile, or no field inside the band.
pub(super) fn check_measured(draft: &ShapeDraft, measured: &Measured) -> Result<(), ShapeError> {
    if measured.flat <= 0.0 || measured.area(FaceKey::Top) <= 0.0 {
        return Err(no_flat(draft));
    }
    match draft.band {
        Some(band) if measured.area(FaceKey::Field) < LEAST_FIELD => {
            Err(ShapeError::NoField { band })
        }
        _ => Ok(()),
    }
}

fn band(draft: &ShapeDraft) -> Result<(), ShapeError> {
    let Some(band) = draft.band else {
        return Ok(());
    };
    positive("underside band", band)?;
    let below = draft.profile.reach_below();
    if band <= below {
        return Err(ShapeError::BandInBullnose { band, below });
    }
    if halves(band) >= i128::from(across(&draft.outline).nm()) {
        let across = across(&draft.outline);
        return Err(ShapeError::BandTooWide { band, across });
    }
    Ok(())
}
