//! How many fasteners, how far apart, and what a figure-eight allows.

use serde::{Deserialize, Serialize};

use super::change::{MovementError, sized};
use crate::units::Length;
use crate::wood::Standing;

/// How far apart fasteners may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SpacingRule {
    /// At most 36 in along the top (a US maker: 1 per 3 ft of length, 1 per ft of depth).
    Wide,
    /// At most 18 in (another US maker: corners and every 12 to 18 in round).
    Close,
    /// The shop's own.
    Own(Length),
}

impl SpacingRule {
    /// The most between two.
    pub fn at_most(self) -> Length {
        match self {
            Self::Wide => Length::from_nm(36 * Length::NM_PER_INCH),
            Self::Close => Length::from_nm(18 * Length::NM_PER_INCH),
            Self::Own(length) => length,
        }
    }

    /// Who says so, and how it is known.
    pub fn source(self) -> (&'static str, Standing) {
        match self {
            Self::Wide => (
                "a US top maker: 1 per 3 ft of length, 1 per ft of depth",
                Standing::Retrieved,
            ),
            Self::Close => (
                "a US top maker: corners and every 12 to 18 in",
                Standing::Retrieved,
            ),
            Self::Own(_) => ("your own spacing", Standing::ShopsOwn),
        }
    }
}

/// A row of blocks, clips or slotted brackets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spacing {
    /// How many.
    pub count: u16,
    /// From one to the next.
    pub apart: Length,
    /// From each end of the run to the first.
    pub margin: Length,
}

/// Fasteners evenly along a run, the first and last a margin from its ends: as few as the rule
/// allows, but two at least.
///
/// # Errors
/// [`MovementError::Size`] for a run, margin or spacing that cannot be, or margins longer than the
/// run.
pub fn spaced(run: Length, margin: Length, rule: SpacingRule) -> Result<Spacing, MovementError> {
    let run = sized("run", run)?;
    let most = sized("spacing", rule.at_most())?;
    if margin < Length::ZERO || margin * 2 >= run {
        return Err(MovementError::Size {
            what: "margin",
            size: super::show::both(margin),
        });
    }
    let inner = (run - margin * 2).nm();
    let spaces = inner / most.nm() + i64::from(inner % most.nm() != 0);
    let spaces = u16::try_from(spaces.max(1)).unwrap_or(u16::MAX - 1);
    Ok(Spacing {
        count: spaces + 1,
        apart: Length::from_nm(inner / i64::from(spaces)),
        margin,
    })
}

/// What a figure-eight does under a moving top.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FigureEight {
    /// How far it turns to each side at most, in degrees, rounded up.
    pub turns_degrees: u8,
    /// How far the top is drawn along its grain at that turn.
    pub drawn: Length,
}

/// A figure-eight lying along the grain, its holes `centres` apart, under a top that travels
/// `travel` across the grain: it swings half to each side, when set square in mid-season
/// (geometry). Its recess must let it turn, and the screw must bear it.
///
/// # Errors
/// [`MovementError::Size`] when the travel is more than the fastener's own length between holes:
/// then it cannot turn that far without prying.
pub fn figure_eight(centres: Length, travel: Length) -> Result<FigureEight, MovementError> {
    let centres = sized("distance between the holes", centres)?;
    if travel < Length::ZERO || travel > centres {
        return Err(MovementError::Size {
            what: "travel for this figure-eight",
            size: super::show::both(travel),
        });
    }
    let (arm, aside) = (centres.metres(), travel.metres() / 2.0);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "an arc sine of at most a half lies within 0 to 30 degrees"
    )]
    let turns_degrees = (aside / arm).asin().to_degrees().ceil() as u8;
    Ok(FigureEight {
        turns_degrees,
        drawn: Length::from_metres_rounded(arm - (arm * arm - aside * aside).sqrt()),
    })
}
