//! Feed: turns a minute times flutes times chip load, and how much slower in a deep cut.

use super::error::CutError;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// How much slower the feed is taken in a deep cut.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Derate {
    /// Depth over bit diameter.
    pub depth_ratio: f64,
    /// The least the feed is taken down, as a part of it.
    pub least: f64,
    /// The most, which the plan goes by.
    pub most: f64,
    /// Whether the cut is deeper than three diameters, for which nothing was published.
    pub beyond: bool,
}

/// A feed in a cut of some depth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Feed {
    /// As the chip load gives it, in a minute.
    pub full: Length,
    /// Taken down for the depth, in a minute: what the plan goes by.
    pub derated: Length,
    /// How it was taken down.
    pub derate: Derate,
}

/// The feed in a minute: `rpm x flutes x chip load` (bit makers' charts).
///
/// # Errors
/// Turns outside 1,000..=60,000, flutes outside 1..=12, a chip load outside 0.001..=0.030 in.
pub fn feed_per_minute(rpm: u32, flutes: u32, chip: Length) -> Result<Length, CutError> {
    let within = |what, figure: u32, least: u32, most: u32| {
        if (least..=most).contains(&figure) {
            Ok(())
        } else {
            let (figure, least, most) = (figure.into(), least.into(), most.into());
            Err(CutError::Router {
                what,
                figure,
                least,
                most,
            })
        }
    };
    within("The number of turns a minute", rpm, 1_000, 60_000)?;
    within("The number of flutes", flutes, 1, 12)?;
    let (least, most) = (
        Length::NM_PER_INCH / 1000,
        30 * (Length::NM_PER_INCH / 1000),
    );
    if !(least..=most).contains(&chip.nm()) {
        return Err(CutError::Chip(chip));
    }
    Ok(chip * (i64::from(rpm) * i64::from(flutes)))
}

/// How much slower a cut of `depth` is fed with a bit of `bit` diameter: not at all up to the
/// diameter, 20 to 25 % at twice, 40 to 50 % at three times (CNC feed guide), in between in
/// proportion, and no further.
pub fn derate(depth: Length, bit: Length) -> Derate {
    let depth_ratio = if bit > Length::ZERO {
        (depth.nm() as f64 / bit.nm() as f64).max(0.0)
    } else {
        0.0
    };
    let steps = (depth_ratio - 1.0).clamp(0.0, 2.0);
    Derate {
        depth_ratio,
        least: 0.2 * steps,
        most: 0.25 * steps,
        beyond: depth_ratio > 3.0,
    }
}

impl Feed {
    /// A feed in a cut of `depth`.
    ///
    /// # Errors
    /// As for [`feed_per_minute`].
    pub fn at(
        rpm: u32,
        flutes: u32,
        chip: Length,
        depth: Length,
        bit: Length,
    ) -> Result<Self, CutError> {
        let full = feed_per_minute(rpm, flutes, chip)?;
        let derate = derate(depth, bit);
        let derated = Length::from_metres_rounded(full.metres() * (1.0 - derate.most));
        Ok(Self {
            full,
            derated,
            derate,
        })
    }
}

/// The chip loads usual in hardwood for a bit of this diameter: 1/4 in 0.003 to 0.005 in, 1/2 in
/// 0.004 to 0.008, 3/4 in and more 0.006 to 0.012 (feeds and speeds guide for hand and small
/// machines; other charts go further). The band of the largest named size that the bit reaches;
/// under 1/4 in half of that band (a second guide: an eighth-inch bit about half).
pub fn chip_band(bit: Length) -> (Length, Length) {
    let inch = Length::NM_PER_INCH;
    let thousandths = |count: i64| Length::from_nm(count * (inch / 1000));
    if bit.nm() * 4 < inch {
        (
            Length::from_nm(3 * (inch / 2000)),
            Length::from_nm(5 * (inch / 2000)),
        )
    } else if bit.nm() * 2 < inch {
        (thousandths(3), thousandths(5))
    } else if bit.nm() * 4 < 3 * inch {
        (thousandths(4), thousandths(8))
    } else {
        (thousandths(6), thousandths(12))
    }
}
