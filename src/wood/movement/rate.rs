//! How much one way of a wood moves from one moisture content to another.

use serde::{Deserialize, Serialize};

use super::build::Direction;
use crate::wood::moisture::MoistureContent;
use crate::wood::species::{FIBRE_SATURATION, Species};
use crate::wood::{Between, Standing};

/// Which formula a movement was reckoned by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Formula {
    /// The moisture does not change, so nothing moves.
    NoChange,
    /// Both moisture contents lie at or above fibre saturation: nothing is claimed to move.
    AboveSaturation,
    /// Eq. 13-2: printed coefficients, 6 to 14 %.
    Coefficients,
    /// Eq. 13-3: published shrinkage.
    Shrinkage,
    /// Eq. 13-3 with the shrinkage that follows from printed coefficients.
    ShrinkageOfCoefficients,
    /// Eq. 13-3 both ways, from published shrinkage and from printed coefficients, where the two
    /// come from different sets: the movement lies between.
    Both,
}

/// Within which eq. 13-2 is good, % (Wood Handbook p. 13-17).
const NARROW: std::ops::RangeInclusive<i32> = 6_000..=14_000;

/// Shrinkage along the fibres, green to ovendry, %: 0.1 to 0.2 for normal wood (American Wood
/// Council, answer on wood shrinkage: of the green dimension). The Wood Handbook says the same,
/// from memory.
fn lengthwise() -> Between<f64> {
    Between::new(0.1, 0.2)
}

/// One way's movement: the change as a fraction of the size at the first moisture content.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Strain {
    pub(super) fraction: Between<f64>,
    pub(super) formula: Formula,
    pub(super) standing: Standing,
    /// Whether a moisture content was capped at fibre saturation.
    pub(super) capped: bool,
}

/// `None` when the row has no figure for this way of the wood.
pub(super) fn strain(
    species: &Species,
    direction: Direction,
    from: MoistureContent,
    to: MoistureContent,
) -> Option<Strain> {
    let coefficient = coefficient(species, direction);
    let shrinkage = shrinkage(species, direction);
    let starts_at = match direction {
        Direction::Lengthwise => FIBRE_SATURATION,
        Direction::Radial | Direction::Tangential => species.starts_at,
    };
    let cap = |content: MoistureContent| content.percent().min(starts_at);
    let (low, high) = (cap(from), cap(to));
    let capped = from.percent() > starts_at || to.percent() > starts_at;
    let points = high - low;
    if coefficient.is_none() && shrinkage.is_none() {
        return None;
    }
    let still = |formula| Strain {
        fraction: Between::only(0.0),
        formula,
        standing: Standing::Retrieved,
        capped,
    };
    if from == to {
        return Some(still(Formula::NoChange));
    }
    if low >= starts_at && high >= starts_at {
        return Some(still(Formula::AboveSaturation));
    }
    let within = [from, to].iter().all(|m| NARROW.contains(&m.thousandths()));
    if let (true, Some((value, standing))) = (within, coefficient) {
        return Some(Strain {
            fraction: Between::only(value * points),
            formula: Formula::Coefficients,
            standing,
            capped: false,
        });
    }
    let wide = |stiffness: f64| points / (stiffness + low);
    let by_shrinkage = shrinkage.map(|(percent, standing)| Strain {
        fraction: percent.map(|s| wide(100.0 * starts_at / s - starts_at)),
        formula: Formula::Shrinkage,
        standing,
        capped,
    });
    let by_coefficient = coefficient.map(|(value, standing)| Strain {
        fraction: Between::only(wide(1.0 / value - 10.0)),
        formula: Formula::ShrinkageOfCoefficients,
        standing: standing.weaker(Standing::Derived),
        capped,
    });
    match (by_shrinkage, by_coefficient) {
        (Some(one), Some(other)) if !agree(species, direction) => Some(Strain {
            fraction: one.fraction.joined(other.fraction),
            formula: Formula::Both,
            standing: one.standing.weaker(other.standing),
            capped,
        }),
        (one, other) => one.or(other),
    }
}

/// Within which a row's coefficients and shrinkage are of one set: half a per cent of the rate, or
/// the last printed digit. The sets that differ do so by several per cent.
const ALIKE: (f64, f64) = (0.005, 0.000_015);

/// Whether a row's coefficient is the one that follows from its shrinkage. Where it is not, eq. 13-2
/// and 13-3 differ at 6 and 14 %, and a wider span might come out as less movement.
fn agree(species: &Species, direction: Direction) -> bool {
    let Some(((value, _), (percent, _))) =
        coefficient(species, direction).zip(shrinkage(species, direction))
    else {
        return true;
    };
    let follows = Species::coefficient_of(percent.low(), species.starts_at);
    let (part, digit) = ALIKE;
    (follows - value).abs() <= digit.max(part * value)
}

/// The coefficient of eq. 13-2 with its standing.
fn coefficient(species: &Species, direction: Direction) -> Option<(f64, Standing)> {
    let printed = species.coefficients?;
    match direction {
        Direction::Radial => Some((printed.radial, printed.radial_standing)),
        Direction::Tangential => Some((printed.tangential, printed.tangential_standing)),
        Direction::Lengthwise => None,
    }
}

/// The shrinkage of eq. 13-3 in percent with its standing.
fn shrinkage(species: &Species, direction: Direction) -> Option<(Between<f64>, Standing)> {
    let known = species.shrinkage;
    match direction {
        Direction::Radial => known.map(|s| (Between::only(s.radial), s.standing)),
        Direction::Tangential => known.map(|s| (Between::only(s.tangential), s.standing)),
        Direction::Lengthwise => Some((lengthwise(), Standing::SecondHand)),
    }
}
