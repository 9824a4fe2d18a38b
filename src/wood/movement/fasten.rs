//! How many fasteners, how far apart, and what a figure-eight allows.

use serde::{Deserialize, Serialize};

use super::change::{MovementError, sized, spread};
use super::show::both;
use crate::units::Length;
use crate::wood::{Between, Standing};

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
            size: both(margin),
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
    /// Between its holes.
    pub centres: Length,
    /// How far it is carried away from the held line, from square.
    pub outward: Length,
    /// How far toward it.
    pub inward: Length,
    /// How far it turns to the outward side at most, in degrees, rounded up.
    pub outward_degrees: u8,
    /// How far to the inward side.
    pub inward_degrees: u8,
    /// How far the top is drawn along its grain at the larger turn.
    pub drawn: Length,
}

/// A figure-eight lying along the grain, its holes `centres` apart, set square today under a screw
/// that the year carries `outward` from the held line and `inward` toward it: it turns by the arc
/// sine of either over the distance between its holes (geometry). Its recess must let it turn, and
/// the screw must bear it.
///
/// # Errors
/// [`MovementError::Reach`] when it is carried farther than the distance between its holes: then
/// it cannot turn that far without prying.
pub fn figure_eight(
    centres: Length,
    outward: Length,
    inward: Length,
) -> Result<FigureEight, MovementError> {
    let centres = sized("distance between the holes", centres)?;
    let (outward, inward) = (outward.max(Length::ZERO), inward.max(Length::ZERO));
    let most = outward.max(inward);
    if most > centres {
        return Err(MovementError::Reach {
            carried: both(most),
            centres: both(centres),
        });
    }
    let arm = centres.metres();
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "an arc sine of at most one lies within 0 to 90 degrees"
    )]
    let degrees = |aside: Length| (aside.metres() / arm).asin().to_degrees().ceil() as u8;
    let aside = most.metres();
    Ok(FigureEight {
        centres,
        outward,
        inward,
        outward_degrees: degrees(outward),
        inward_degrees: degrees(inward),
        drawn: Length::from_metres_rounded(arm - (arm * arm - aside * aside).sqrt()),
    })
}

impl FigureEight {
    /// What it does at the farthest row, as a sentence.
    pub fn words(&self) -> String {
        let only = |length| spread(Between::only(length));
        let side = |degrees: u8, way: &str, carried: Length| {
            let unit = if degrees == 1 { "degree" } else { "degrees" };
            format!("{degrees} {unit} {way} ({})", only(carried))
        };
        let away = if self.inward == Length::ZERO {
            "away from the held line"
        } else {
            "away from it"
        };
        let sides = [
            (self.inward, self.inward_degrees, "toward the held line"),
            (self.outward, self.outward_degrees, away),
        ];
        let turns: Vec<String> = sides
            .into_iter()
            .filter(|(carried, ..)| *carried > Length::ZERO)
            .map(|(carried, degrees, way)| side(degrees, way, carried))
            .collect();
        if turns.is_empty() {
            return "No row travels, so figure-eights need not turn.".to_owned();
        }
        format!(
            "A figure-eight with its holes {} apart, set square today at the farthest row, turns \
             at most {}, and draws the top {} along: give its recess room.",
            both(self.centres),
            turns.join(" and "),
            only(self.drawn)
        )
    }
}
