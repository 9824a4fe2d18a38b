//! A product the shop mixes itself: parts by weight or by volume, scaled to what is needed and
//! rounded to what the shop's scale or cup can tell.

use crate::coating::ProductId;
use crate::units::{Density, Mass, Volume};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What the parts are parts of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MixBy {
    /// Weight.
    Weight,
    /// Volume.
    Volume,
}

impl MixBy {
    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::Volume => "volume",
        }
    }
}

/// One part of a mix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MixPart {
    /// What it is.
    pub name: String,
    /// How many thousandths of a part: 2.5 parts are 2500.
    pub milliparts: u32,
    /// Its density, where it is known.
    pub density: Option<Density>,
}

/// How the shop mixes a product.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    /// The product it makes.
    pub product: ProductId,
    /// What the parts are parts of.
    pub by: MixBy,
    /// The parts, in the order they go in.
    pub parts: Vec<MixPart>,
}

/// Why a mix cannot be.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum MixError {
    /// Fewer than two parts.
    #[error("A mix has at least two parts: give each with its name and how many parts.")]
    OnePart,
    /// More than anybody stirs together.
    #[error("A mix can have up to {} parts.", Mix::MOST_PARTS)]
    TooManyParts,
    /// A part of nothing, or of more than can be.
    #[error("{0} needs a number of parts from 0.001 to 1000.")]
    Amount(String),
    /// Two parts of one name.
    #[error("{0} stands in the mix twice: give it once, with all its parts.")]
    Twice(String),
    /// Nothing to mix.
    #[error("Say how much is to be mixed: a volume above nothing, up to 55 gal.")]
    Nothing,
}

/// One part, measured out.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// What it is.
    pub name: String,
    /// What exact sharing asks: milligrams or microlitres.
    pub exact: f64,
    /// What to weigh out; none where it is measured by volume and no density is known.
    pub weigh: Option<Mass>,
    /// What to measure out; none where it is weighed.
    pub measure: Option<Volume>,
    /// How far its share of the mix is from the recipe's, as a share of that: 0.01 is one per
    /// cent too much.
    pub off: f64,
}

/// A mix, scaled.
#[derive(Debug, Clone, PartialEq)]
pub struct Scaled {
    /// The parts, in the order they go in.
    pub parts: Vec<Measured>,
    /// What they make together: the volume asked, or a little more by the rounding.
    pub makes: Volume,
    /// The greatest deviation of any part's share.
    pub worst: f64,
    /// Whether the volume is reckoned with the densities of all parts; else with the mixed
    /// product's own.
    pub by_parts: bool,
}

/// A deviation from the recipe beyond which a stain may be seen to differ. Judgement.
pub const RATIO_OFF: f64 = 0.02;

impl Mix {
    /// The most parts.
    pub const MOST_PARTS: usize = 20;

    /// Checks what the types alone cannot.
    ///
    /// # Errors
    /// [`MixError`], but for [`MixError::Nothing`].
    pub fn check(&self) -> Result<(), MixError> {
        if self.parts.len() < 2 {
            return Err(MixError::OnePart);
        }
        if self.parts.len() > Self::MOST_PARTS {
            return Err(MixError::TooManyParts);
        }
        for (at, part) in self.parts.iter().enumerate() {
            if !(1..=1_000_000).contains(&part.milliparts) {
                return Err(MixError::Amount(part.name.clone()));
            }
            let same = |other: &MixPart| other.name.to_lowercase() == part.name.to_lowercase();
            if self.parts[..at].iter().any(same) {
                return Err(MixError::Twice(part.name.clone()));
            }
        }
        Ok(())
    }

    /// Scales it to a volume. Each part is a whole number of the scale's steps (of the cup's,
    /// where it is measured); their sum is the exact sum rounded up, so that it does not run
    /// short, shared by largest remainder, so that the shares stay as near as can be. Parts by
    /// volume are weighed all the same where every density is known.
    ///
    /// Volumes are taken to add up, as they do in solvents of one kind to within a per cent or two.
    ///
    /// # Errors
    /// [`MixError::Nothing`], and as [`Mix::check`].
    pub fn scaled(
        &self,
        needed: Volume,
        density: Density,
        scale: Mass,
        cup: Volume,
    ) -> Result<Scaled, MixError> {
        self.check()?;
        if needed <= Volume::ZERO || needed > Volume::MAX {
            return Err(MixError::Nothing);
        }
        let share = |part: &MixPart| f64::from(part.milliparts);
        let densities: Option<Vec<f64>> = self
            .parts
            .iter()
            .map(|part| part.density.map(Density::g_per_ml))
            .collect();
        let all: f64 = self.parts.iter().map(share).sum();
        let weighs = self.by == MixBy::Weight || densities.is_some();
        // Shares of what is measured out, and how much of it one microlitre of the mix takes.
        let shares: Vec<f64> = match (&densities, self.by) {
            (Some(of), MixBy::Volume) => {
                let by_weight = self
                    .parts
                    .iter()
                    .zip(of)
                    .map(|(part, rho)| share(part) * rho);
                by_weight.collect()
            }
            _ => self.parts.iter().map(share).collect(),
        };
        // A milligram is a microlitre of density one.
        let per_ul = match (&densities, self.by) {
            (Some(of), MixBy::Weight) => {
                let volume: f64 = self
                    .parts
                    .iter()
                    .zip(of)
                    .map(|(p, rho)| share(p) / rho)
                    .sum();
                all / volume
            }
            (None, MixBy::Weight) => density.g_per_ml(),
            (Some(_), MixBy::Volume) => shares.iter().sum::<f64>() / all,
            (None, MixBy::Volume) => 1.0,
        };
        let step = if weighs { scale.mg() } else { cup.ul() }.max(1);
        let sum: f64 = shares.iter().sum();
        let whole = needed.ul() as f64 * per_ul;
        let steps = (whole / step as f64 - 1e-9).ceil().max(1.0);
        // Largest remainder, to the step, by the same sharing as volumes.
        #[allow(clippy::cast_possible_truncation)] // 55 gal in hundredths of a gram at the most
        let counts = Volume::from_ul(steps as i64).split(&shares);
        let given = steps * step as f64;
        let parts: Vec<Measured> = self
            .parts
            .iter()
            .zip(&shares)
            .zip(&counts)
            .map(|((part, share), count)| {
                let amount = count.ul() * step;
                Measured {
                    name: part.name.clone(),
                    exact: whole * share / sum,
                    weigh: weighs.then(|| Mass::from_mg(amount)),
                    measure: (!weighs).then(|| Volume::from_ul(amount)),
                    off: amount as f64 / given / (share / sum) - 1.0,
                }
            })
            .collect();
        let worst = parts.iter().map(|part| part.off.abs()).fold(0.0, f64::max);
        Ok(Scaled {
            makes: Volume::from_ml(given / per_ul / 1000.0),
            parts,
            worst,
            by_parts: densities.is_some() || self.by == MixBy::Volume,
        })
    }
}
