//! Refusing shapes that cannot be cut. Sizes come first: everything after them relies on sizes
//! being in range.

use super::areas::Measured;
use super::check_openings::openings;
use super::check_outline;
use super::error::{ShapeError, of};
use super::face::FaceKey;
use super::opening::OpeningName;
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

/// A profile that is run on an edge this thick, round an opening or along the outside.
pub(super) fn profile_fits(
    on: Option<OpeningName>,
    profile: EdgeProfile,
    thickness: Length,
) -> Result<(), ShapeError> {
    if profile.is_square() {
        return Ok(());
    }
    let (size, below) = (profile.reach(), profile.reach_below());
    let profile = profile.name();
    positive(&format!("size of the {profile}{}", of(on)), size)?;
    if size + below <= thickness {
        return Ok(());
    }
    if below > Length::ZERO {
        let most = Length::from_nm(thickness.nm() / 2);
        return Err(ShapeError::BullnoseOver {
            on,
            size,
            thickness,
            most,
        });
    }
    Err(ShapeError::ProfileOverThickness {
        profile,
        on,
        size,
        thickness,
    })
}

fn profile(draft: &ShapeDraft) -> Result<(), ShapeError> {
    profile_fits(None, draft.profile, draft.thickness)?;
    let size = draft.profile.reach();
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
