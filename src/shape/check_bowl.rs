//! Refusing bowls that would reach out from under the top.

use super::check_openings::fits_here;
use super::error::ShapeError;
use super::face::FaceKey;
use super::opening::{Opening, OpeningKind};
use super::profile::EdgeProfile;
use super::solid::ShapeDraft;
use crate::units::Length;

/// Whether the bowl that the wood hangs over lies under the top.
pub(super) fn bowl_fits(draft: &ShapeDraft, opening: &Opening) -> Result<(), ShapeError> {
    let (OpeningKind::Cutout { corner_radius, .. }, Some((width, depth))) =
        (opening.what, opening.bowl())
    else {
        return Ok(());
    };
    let reveal = opening.purpose.sink().and_then(|sink| sink.mount.reveal());
    let Some(over) = reveal.map(|reveal| -reveal.beyond()) else {
        return Ok(());
    };
    if over <= Length::ZERO {
        return Ok(());
    }
    let bare = ShapeDraft {
        profile: EdgeProfile::Square,
        openings: Vec::new(),
        ..draft.clone()
    };
    let mut bowl = Opening {
        what: OpeningKind::Cutout {
            width,
            depth,
            corner_radius: corner_radius + over,
        },
        profile: EdgeProfile::Square,
        ..*opening
    };
    if bowl.open_front() {
        bowl.place.y = Length::from_nm(depth.nm() / 2);
    }
    let past = |side, by| ShapeError::BowlOver {
        opening: opening.name(),
        width,
        depth,
        side,
        by,
    };
    match fits_here(&bare, &bowl) {
        Err(ShapeError::OverEdge { side, by, .. }) => Err(past(side, by)),
        Err(ShapeError::OverFront { from, to, .. }) => {
            let half = Length::from_nm(width.nm() / 2);
            let left = (FaceKey::Left, from - (bowl.place.x - half));
            let right = (FaceKey::Right, bowl.place.x + half - to);
            let (side, by) = if left.1 > right.1 { left } else { right };
            if by > Length::ZERO {
                Err(past(side, by))
            } else {
                Ok(())
            }
        }
        _ => Ok(()),
    }
}
