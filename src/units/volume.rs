//! Volumes of liquid product.

use std::cmp::Reverse;

use serde::{Deserialize, Serialize};

use super::exact::{Ratio, round_to_i64, trimmed};
use super::scan::{Fault, Reader, Token, quoted};

/// A volume in whole microlitres. Stored and sent as that number.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Volume(i64);

super::whole_number_sums!(Volume);

/// How the shop writes volumes, and what a number without a unit means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum VolumeStyle {
    /// US fluid ounces.
    #[default]
    FluidOunces,
    /// Millilitres.
    Millilitres,
}

/// Why a text is not taken as a volume.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum VolumeError {
    /// Nothing was typed.
    #[error("No volume was given; write one like 4 fl oz, 1/2 pt, 1 gal or 120 mL.")]
    Empty,
    /// The text does not read as a volume.
    #[error(
        "\"{text}\" does not read as a volume at \"{part}\"; write it like 4 fl oz, 1/2 pt, 1 gal or 120 mL."
    )]
    Nonsense {
        /// What was typed.
        text: String,
        /// From where it stops making sense.
        part: String,
    },
    /// A fraction over zero.
    #[error("\"{text}\" has a fraction over 0; write it like 1/2 pt.")]
    ZeroDenominator {
        /// What was typed.
        text: String,
    },
    /// A minus in front.
    #[error("\"{text}\" is below zero; a volume is zero or more, so write it without the minus.")]
    Negative {
        /// What was typed.
        text: String,
    },
    /// Ounces by weight.
    #[error("\"{text}\" is a weight; a volume is wanted here, like 4 fl oz or 120 mL.")]
    Weight {
        /// What was typed.
        text: String,
    },
    /// More than [`Volume::MAX`].
    #[error("\"{text}\" is more than a 55 gal drum, the most taken here; check the unit.")]
    TooMuch {
        /// What was typed.
        text: String,
    },
}

/// A US gallon in microlitres is this over 1000: 231 cubic inches (NIST Handbook 44, Appendix C).
const GALLON_NL: i128 = 3_785_411_784;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    FluidOunce,
    WeightOunce,
    Pint,
    Quart,
    Gallon,
    Millilitre,
    Litre,
}

impl Unit {
    /// Microlitres, as a fraction; none for a weight.
    const fn microlitres(self) -> Option<Ratio> {
        match self {
            Self::FluidOunce => Ratio::new(GALLON_NL, 1000 * 128),
            Self::WeightOunce => None,
            Self::Pint => Ratio::new(GALLON_NL, 1000 * 8),
            Self::Quart => Ratio::new(GALLON_NL, 1000 * 4),
            Self::Gallon => Ratio::new(GALLON_NL, 1000),
            Self::Millilitre => Ratio::new(1000, 1),
            Self::Litre => Ratio::new(1_000_000, 1),
        }
    }
}

impl Volume {
    /// No volume.
    pub const ZERO: Self = Self(0);
    /// The most that is taken from a person: 55 US gallons (208,197,648 microlitres).
    pub const MAX: Self = Self(208_197_648);
    const UL_PER_FL_OZ: f64 = 29_573.529_562_5;
    const UL_PER_GALLON: f64 = 3_785_411.784;

    /// From whole microlitres.
    pub const fn from_ul(ul: i64) -> Self {
        Self(ul)
    }

    /// From millilitres, to the nearest microlitre.
    pub fn from_ml(ml: f64) -> Self {
        Self(round_to_i64(ml * 1000.0))
    }

    /// From US fluid ounces, to the nearest microlitre.
    pub fn from_us_fl_oz(oz: f64) -> Self {
        Self(round_to_i64(oz * Self::UL_PER_FL_OZ))
    }

    /// From US gallons, to the nearest microlitre.
    pub fn from_gallons(gallons: f64) -> Self {
        Self(round_to_i64(gallons * Self::UL_PER_GALLON))
    }

    /// Whole microlitres.
    pub const fn ul(self) -> i64 {
        self.0
    }

    /// Millilitres.
    pub fn ml(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// Litres.
    pub fn litres(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// US fluid ounces.
    pub fn us_fl_oz(self) -> f64 {
        self.0 as f64 / Self::UL_PER_FL_OZ
    }

    /// US gallons.
    pub fn gallons(self) -> f64 {
        self.0 as f64 / Self::UL_PER_GALLON
    }

    /// Splits the volume by weight, to the microlitre: the parts add up to exactly the whole
    /// (largest remainder; of equal remainders the earlier part gets the odd microlitre). A weight
    /// that is negative or not a number counts as nothing; if none counts, the parts are equal.
    /// No weights, no parts.
    pub fn split(self, weights: &[f64]) -> Vec<Self> {
        // Weights become whole numbers of a 2^40th of the largest, so that all the rest is exact.
        const FULL: f64 = 1_099_511_627_776.0;
        let counts = |w: f64| w.is_finite() && w > 0.0;
        let largest = weights
            .iter()
            .copied()
            .filter(|w| counts(*w))
            .fold(0.0, f64::max);
        let whole = |w: &f64| match (largest > 0.0, counts(*w)) {
            (true, true) => i128::from(round_to_i64(w / largest * FULL)),
            (true, false) => 0,
            (false, _) => 1,
        };
        let weights: Vec<i128> = weights.iter().map(whole).collect();
        let sum: i128 = weights.iter().sum();
        if sum == 0 {
            return Vec::new();
        }
        let size = i128::from(self.0).abs();
        let mut parts: Vec<i128> = weights.iter().map(|w| size * w / sum).collect();
        let left = size - parts.iter().sum::<i128>();
        let mut order: Vec<usize> = (0..parts.len()).collect();
        order.sort_by_key(|&i| Reverse(size * weights[i] % sum));
        for &i in order.iter().take(usize::try_from(left).unwrap_or(0)) {
            parts[i] += 1;
        }
        let signed = |part: i128| i64::try_from(part * i128::from(self.0.signum()));
        parts
            .into_iter()
            .map(|part| Self(signed(part).unwrap_or(self.0)))
            .collect()
    }

    /// Reads a volume: `4 oz`, `4 fl oz`, `1/2 pt`, `1 qt`, `1 gal`, `1 qt 4 oz`, `120 mL`,
    /// `0.9 L`; US measures. `bare` says what a number without a unit means. To the nearest
    /// microlitre.
    ///
    /// # Errors
    /// [`VolumeError`] tells nothing, nonsense, a fraction over zero, below zero, a weight and more
    /// than 55 gal apart.
    pub fn parse(text: &str, bare: VolumeStyle) -> Result<Self, VolumeError> {
        let typed = || quoted(text);
        if text.trim().is_empty() {
            return Err(VolumeError::Empty);
        }
        let mut reader = Reader::new(text);
        let minus = reader.eat(&Token::Hyphen);
        let terms = reader.terms(unit).map_err(|fault| match fault {
            Fault::Nonsense { at } => VolumeError::Nonsense {
                text: typed(),
                part: reader.part(at),
            },
            Fault::ZeroDenominator => VolumeError::ZeroDenominator { text: typed() },
        })?;
        if minus {
            return Err(VolumeError::Negative { text: typed() });
        }
        let bare = match bare {
            VolumeStyle::FluidOunces => Unit::FluidOunce,
            VolumeStyle::Millilitres => Unit::Millilitre,
        };
        let mut total = 0_i128;
        for (value, unit) in terms {
            let Some(size) = unit.unwrap_or(bare).microlitres() else {
                return Err(VolumeError::Weight { text: typed() });
            };
            // What `i128` cannot hold is far beyond a drum.
            let term = value
                .times(size)
                .map_or(i128::from(i64::MAX), Ratio::rounded);
            total = total.saturating_add(term);
        }
        match i64::try_from(total) {
            Ok(ul) if ul <= Self::MAX.0 => Ok(Self(ul)),
            _ => Err(VolumeError::TooMuch { text: typed() }),
        }
    }

    /// `4.2 fl oz` or `124 mL` (one decimal below 10 mL).
    pub fn show(self, style: VolumeStyle) -> String {
        match style {
            VolumeStyle::FluidOunces => format!("{} fl oz", trimmed(self.us_fl_oz(), 1)),
            VolumeStyle::Millilitres => {
                let places = usize::from(self.ml().abs() < 9.95);
                format!("{} mL", trimmed(self.ml(), places))
            }
        }
    }
}

fn unit(reader: &mut Reader<'_>) -> Option<Unit> {
    const OUNCE: &[&str] = &["oz", "ounce", "ounces"];
    const WORDS: [(Unit, &[&str]); 5] = [
        (Unit::Pint, &["pt", "pint", "pints"]),
        (Unit::Quart, &["qt", "quart", "quarts"]),
        (Unit::Gallon, &["gal", "gallon", "gallons"]),
        (
            Unit::Millilitre,
            &[
                "ml",
                "millilitre",
                "millilitres",
                "milliliter",
                "milliliters",
            ],
        ),
        (Unit::Litre, &["l", "litre", "litres", "liter", "liters"]),
    ];
    if reader.eat_word(&["floz"]) || reader.eat_two_words(&["fl", "fluid"], OUNCE) {
        return Some(Unit::FluidOunce);
    }
    if reader.eat_word(OUNCE) {
        let weight = reader.eat_word(&["wt", "weight"]);
        return Some(if weight {
            Unit::WeightOunce
        } else {
            Unit::FluidOunce
        });
    }
    WORDS
        .into_iter()
        .find(|(_, words)| reader.eat_word(words))
        .map(|(unit, _)| unit)
}
