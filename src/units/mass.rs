//! Masses, for cans on a scale, and density, which turns them into volumes.

use serde::{Deserialize, Serialize};

use super::exact::{Ratio, round_to_i64, trimmed};
use super::scan::{Fault, Reader, Token, quoted};
use super::volume::Volume;

/// A mass in whole milligrams. Stored and sent as that number.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Mass(i64);

super::whole_number_sums!(Mass);

/// Why a text is not taken as a mass.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MassError {
    /// Nothing was typed.
    #[error("No weight was given; write one like 158 g, 1.2 kg or 5.6 oz wt.")]
    Empty,
    /// The text does not read as a mass.
    #[error(
        "\"{text}\" does not read as a weight at \"{part}\"; write it like 158 g, 1.2 kg or 5.6 oz wt."
    )]
    Nonsense {
        /// What was typed.
        text: String,
        /// From where it stops making sense.
        part: String,
    },
    /// A fraction over zero.
    #[error("\"{text}\" has a fraction over 0; write it like 1/2 lb.")]
    ZeroDenominator {
        /// What was typed.
        text: String,
    },
    /// A minus in front.
    #[error("\"{text}\" is below zero; a weight is zero or more, so write it without the minus.")]
    Negative {
        /// What was typed.
        text: String,
    },
    /// A number alone.
    #[error("\"{text}\" has no unit; write g, kg, lb or oz wt behind it.")]
    NoUnit {
        /// What was typed.
        text: String,
    },
    /// Ounces that may be fluid ounces.
    #[error("\"{text}\" may be fluid ounces or ounces of weight; write oz wt for a weight.")]
    PlainOunces {
        /// What was typed.
        text: String,
    },
    /// A volume.
    #[error("\"{text}\" is a volume; a weight is wanted here, like 158 g or 5.6 oz wt.")]
    Volume {
        /// What was typed.
        text: String,
    },
    /// More than [`Mass::MAX`].
    #[error("\"{text}\" is more than 300 kg, the most taken here; check the unit.")]
    TooHeavy {
        /// What was typed.
        text: String,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Gram,
    Kilogram,
    Pound,
    OunceWeight,
    PlainOunce,
    FluidOunce,
}

/// A pound in milligrams is this over 100 (NIST Handbook 44, Appendix C: 453.59237 g).
const POUND: i128 = 45_359_237;

impl Mass {
    /// No mass.
    pub const ZERO: Self = Self(0);
    /// The most that is taken from a person: 300 kg, more than a full drum.
    pub const MAX: Self = Self(300_000_000);
    const MG_PER_LB: f64 = 453_592.37;

    /// From whole milligrams.
    pub const fn from_mg(mg: i64) -> Self {
        Self(mg)
    }

    /// From grams, to the nearest milligram.
    pub fn from_g(g: f64) -> Self {
        Self(round_to_i64(g * 1000.0))
    }

    /// Whole milligrams.
    pub const fn mg(self) -> i64 {
        self.0
    }

    /// Grams.
    pub fn g(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// Avoirdupois pounds.
    pub fn lb(self) -> f64 {
        self.0 as f64 / Self::MG_PER_LB
    }

    /// Reads a mass: `158 g`, `1.2 kg`, `5.6 oz wt`, `1 lb 2 oz wt`, `1 lb 2 oz`, `2 lb`. Ounces
    /// alone must say `wt`, since on a can they are fluid ounces. To the nearest milligram.
    ///
    /// # Errors
    /// [`MassError`] tells nothing, nonsense, a fraction over zero, below zero, no unit, ounces of
    /// an unknown kind, a volume and more than 300 kg apart.
    pub fn parse(text: &str) -> Result<Self, MassError> {
        let typed = || quoted(text);
        if text.trim().is_empty() {
            return Err(MassError::Empty);
        }
        let mut reader = Reader::new(text);
        let minus = reader.eat(&Token::Hyphen);
        let terms = reader.terms(unit).map_err(|fault| match fault {
            Fault::Nonsense { at } => MassError::Nonsense {
                text: typed(),
                part: reader.part(at),
            },
            Fault::ZeroDenominator => MassError::ZeroDenominator { text: typed() },
        })?;
        if minus {
            return Err(MassError::Negative { text: typed() });
        }
        let mut total = 0_i128;
        let mut after_pounds = false;
        for (value, unit) in terms {
            let size = match unit {
                Some(Unit::Gram) => Ratio::new(1000, 1),
                Some(Unit::Kilogram) => Ratio::new(1_000_000, 1),
                Some(Unit::Pound) => Ratio::new(POUND, 100),
                Some(Unit::OunceWeight) => Ratio::new(POUND, 1600),
                Some(Unit::PlainOunce) if after_pounds => Ratio::new(POUND, 1600),
                Some(Unit::PlainOunce) => return Err(MassError::PlainOunces { text: typed() }),
                Some(Unit::FluidOunce) => return Err(MassError::Volume { text: typed() }),
                None => return Err(MassError::NoUnit { text: typed() }),
            };
            after_pounds = unit == Some(Unit::Pound);
            let term = size
                .and_then(|size| value.times(size))
                .map_or(i128::from(i64::MAX), Ratio::rounded);
            total = total.saturating_add(term);
        }
        match i64::try_from(total) {
            Ok(mg) if mg <= Self::MAX.0 => Ok(Self(mg)),
            _ => Err(MassError::TooHeavy { text: typed() }),
        }
    }

    /// `158 g`, `158.4 g`: grams, one decimal at most.
    pub fn show(self) -> String {
        format!("{} g", trimmed(self.g(), 1))
    }
}

fn unit(reader: &mut Reader<'_>) -> Option<Unit> {
    const OUNCE: &[&str] = &["oz", "ounce", "ounces"];
    const WORDS: [(Unit, &[&str]); 3] = [
        (Unit::Gram, &["g", "gram", "grams"]),
        (
            Unit::Kilogram,
            &["kg", "kilo", "kilos", "kilogram", "kilograms"],
        ),
        (Unit::Pound, &["lb", "lbs", "pound", "pounds"]),
    ];
    if reader.eat_word(&["floz"]) || reader.eat_two_words(&["fl", "fluid"], OUNCE) {
        return Some(Unit::FluidOunce);
    }
    if reader.eat_word(OUNCE) {
        let weight = reader.eat_word(&["wt", "weight"]);
        return Some(if weight {
            Unit::OunceWeight
        } else {
            Unit::PlainOunce
        });
    }
    WORDS
        .into_iter()
        .find(|(_, words)| reader.eat_word(words))
        .map(|(unit, _)| unit)
}

/// A density in grams per millilitre, always above zero.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Density(f64);

impl Density {
    /// g/mL in a pound per US gallon: 453.59237 / 3785.411784.
    const G_PER_ML_OF_LB_PER_GAL: f64 = 453.592_37 / 3_785.411_784;

    /// From grams per millilitre; `None` unless above zero and finite.
    pub fn from_g_per_ml(g_per_ml: f64) -> Option<Self> {
        (g_per_ml.is_finite() && g_per_ml > 0.0).then_some(Self(g_per_ml))
    }

    /// From pounds per US gallon, as on many data sheets; `None` unless above zero and finite.
    pub fn from_lb_per_gal(lb_per_gal: f64) -> Option<Self> {
        Self::from_g_per_ml(lb_per_gal * Self::G_PER_ML_OF_LB_PER_GAL)
    }

    /// Grams per millilitre.
    pub const fn g_per_ml(self) -> f64 {
        self.0
    }

    /// The volume that this mass takes, to the nearest microlitre.
    pub fn volume_of(self, mass: Mass) -> Volume {
        Volume::from_ml(mass.g() / self.0)
    }

    /// The mass of this volume, to the nearest milligram.
    pub fn mass_of(self, volume: Volume) -> Mass {
        Mass::from_g(volume.ml() * self.0)
    }
}

impl TryFrom<f64> for Density {
    type Error = &'static str;
    fn try_from(g_per_ml: f64) -> Result<Self, Self::Error> {
        Self::from_g_per_ml(g_per_ml).ok_or("A density must be above zero.")
    }
}

impl From<Density> for f64 {
    fn from(density: Density) -> Self {
        density.0
    }
}
