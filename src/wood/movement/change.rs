//! The change of one size of a top from one moisture content to another.

use super::build::{Axis, Build, Direction};
use super::rate::{Formula, strain};
use super::show::{both, nearest_32nd};
use crate::units::{Length, LengthStyle};
use crate::wood::moisture::MoistureContent;
use crate::wood::{Between, Standing};

/// Why no movement is given.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MovementError {
    /// The row has no figures.
    #[error(
        "No movement figures are known for {species}; enter it as a wood of your own with its shrinkage."
    )]
    NoFigures {
        /// The wood.
        species: String,
    },
    /// A figure-eight that is carried farther than it is long.
    #[error(
        "at the farthest row one with its holes {centres} apart cannot follow {carried} to one side; take a longer one, slotted blocks or clips."
    )]
    Reach {
        /// How far it is carried.
        carried: String,
        /// Between its holes.
        centres: String,
    },
    /// A figure-eight under a top that moves both ways.
    #[error(
        "a top of blocks on end moves along them too; take clips with play both ways or wide holes with washers."
    )]
    BothWays,
    /// A size that no top has.
    #[error("A {what} of {size} cannot be; it lies above 0 and at most 100 ft.")]
    Size {
        /// Which size.
        what: &'static str,
        /// The size.
        size: String,
    },
}

/// How far one size of a top moves, as a range, and what that rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Movement {
    /// Which side.
    pub axis: Axis,
    /// Its size at `from`.
    pub size: Length,
    /// The moisture content it starts from.
    pub from: MoistureContent,
    /// The moisture content it goes to.
    pub to: MoistureContent,
    /// The change of the size: above zero it grows, below it shrinks.
    pub change: Between<Length>,
    /// By which formula (the widest one used).
    pub formula: Formula,
    /// Whether a moisture content above fibre saturation was taken as fibre saturation.
    pub capped: bool,
    /// The standing of the weakest figure used.
    pub standing: Standing,
    /// The ways of the wood the change lies between.
    pub directions: &'static [Direction],
    /// The top in words.
    pub build: String,
}

/// A size within what a top can have.
pub(in crate::wood) fn sized(what: &'static str, size: Length) -> Result<Length, MovementError> {
    if size <= Length::ZERO || size > Length::MAX {
        return Err(MovementError::Size {
            what,
            size: both(size),
        });
    }
    Ok(size)
}

impl Build<'_> {
    /// The change of a side as a fraction of its size at `from`, as a range.
    ///
    /// # Errors
    /// [`MovementError::NoFigures`] when the wood's row has none for this side.
    pub fn strain(
        &self,
        axis: Axis,
        from: MoistureContent,
        to: MoistureContent,
    ) -> Result<Between<f64>, MovementError> {
        Ok(self.strains(axis, from, to)?.fraction)
    }

    fn strains(
        &self,
        axis: Axis,
        from: MoistureContent,
        to: MoistureContent,
    ) -> Result<super::rate::Strain, MovementError> {
        self.directions(axis)
            .iter()
            .map(|direction| strain(self.species, *direction, from, to))
            .reduce(|one, other| {
                let (one, other) = one.zip(other)?;
                Some(super::rate::Strain {
                    fraction: one.fraction.joined(other.fraction),
                    formula: one.formula.max(other.formula),
                    standing: one.standing.weaker(other.standing),
                    capped: one.capped || other.capped,
                })
            })
            .flatten()
            .ok_or_else(|| MovementError::NoFigures {
                species: self.species.name.clone(),
            })
    }

    /// How far a size (measured at `from`) moves when the wood goes from one moisture content to
    /// another, all of it evenly; what fasteners and glue hold back is not reckoned.
    ///
    /// # Errors
    /// [`MovementError`] for a wood without figures or a size that cannot be.
    pub fn change(
        &self,
        axis: Axis,
        size: Length,
        from: MoistureContent,
        to: MoistureContent,
    ) -> Result<Movement, MovementError> {
        let size = sized(axis.words(), size)?;
        let strain = self.strains(axis, from, to)?;
        Ok(Movement {
            axis,
            size,
            from,
            to,
            change: strain
                .fraction
                .map(|fraction| Length::from_metres_rounded(size.metres() * fraction)),
            formula: strain.formula,
            capped: strain.capped,
            standing: strain.standing,
            directions: self.directions(axis),
            build: self.words(),
        })
    }
}

/// The length without its sign.
pub(super) fn amount(length: Length) -> Length {
    if length < Length::ZERO {
        -length
    } else {
        length
    }
}

impl Movement {
    /// The change without its sign, from least to most.
    pub fn amount(&self) -> Between<Length> {
        self.change.map(amount)
    }

    /// `shrinks 3/16" to 9/32" (4.8 to 7.1 mm)`, `grows 1/8" (3.2 mm)`, `does not move`: to 1/32 in
    /// and a tenth of a millimetre.
    pub fn show(&self) -> String {
        let amounts = self.amount();
        if amounts.high() == Length::ZERO {
            return "does not move".to_owned();
        }
        let verb = if self.change.high() > Length::ZERO {
            "grows"
        } else {
            "shrinks"
        };
        format!("{verb} {}", spread(amounts))
    }

    /// What the figure rests on, in words: wood, build, moisture, formula and standing.
    pub fn basis(&self) -> String {
        let formula = match self.formula {
            Formula::NoChange => "no change of moisture".to_owned(),
            Formula::AboveSaturation => {
                "above fibre saturation wood does not move, so nothing is claimed".to_owned()
            }
            Formula::Coefficients => {
                "Wood Handbook eq. 13-2, p. 13-17, with Table 13-5, good from 6 to 14 %".to_owned()
            }
            Formula::Shrinkage => {
                "Wood Handbook eq. 13-3, p. 13-17, from green-to-ovendry shrinkage, as wanted \
                 outside 6 to 14 % or without coefficients"
                    .to_owned()
            }
            Formula::ShrinkageOfCoefficients => {
                "Wood Handbook eq. 13-3, p. 13-17, outside 6 to 14 %, with the shrinkage that \
                 follows from Table 13-5"
                    .to_owned()
            }
            Formula::Both => "Wood Handbook eq. 13-3, p. 13-17, outside 6 to 14 %, once from \
                              green-to-ovendry shrinkage and once from Table 13-5, which do not \
                              agree for this wood: it lies between"
                .to_owned(),
        };
        let ways: Vec<_> = self.directions.iter().map(|d| d.words()).collect();
        let capped = if self.capped && self.formula != Formula::AboveSaturation {
            "; moisture above fibre saturation left out"
        } else {
            ""
        };
        format!(
            "estimated: {}, {} {}, {} to {}; {formula}{capped}; figures {}",
            self.build,
            self.axis.words(),
            ways.join(" to "),
            self.from.show(),
            self.to.show(),
            self.standing.words()
        )
    }
}

/// `3/16" to 9/32" (4.8 to 7.1 mm)`; one figure when both come out alike to 1/32 in; `up to 1/32"
/// (0.5 mm)` or `less than 1/32" (0.2 mm)` when the low or both ends come out as nothing.
pub(in crate::wood) fn spread(range: Between<Length>) -> String {
    let style = LengthStyle::ThirtySeconds;
    let inch = |length| nearest_32nd(length).show_inches(style);
    let mm = |length: Length| {
        let shown = length.show(LengthStyle::Millimetres);
        shown.trim_start_matches('~').to_owned()
    };
    let (low, high) = (range.low(), range.high());
    if nearest_32nd(high) == Length::ZERO {
        // What would be told as 0 mm still moves.
        let tenth = high < Length::from_nm(50_000);
        let high = if tenth {
            "under 0.1 mm".to_owned()
        } else {
            mm(high)
        };
        return format!("less than 1/32\" ({high})");
    }
    if nearest_32nd(low) == nearest_32nd(high) {
        return both(high);
    }
    if nearest_32nd(low) == Length::ZERO {
        return format!("up to {}", both(high));
    }
    let low_mm = mm(low);
    let low_mm = low_mm.trim_end_matches(" mm");
    format!("{} to {} ({low_mm} to {})", inch(low), inch(high), mm(high))
}
