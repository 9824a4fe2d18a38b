//! Reading of lengths as a person writes them.

use serde::{Deserialize, Serialize};

use super::{Length, LengthStyle};
use crate::units::exact::Ratio;
use crate::units::scan::{Fault, Quantity, Reader, Token, quoted};

/// What a number without a unit means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum BareUnit {
    /// `98 3/8` is inches.
    #[default]
    Inches,
    /// `2500` is millimetres.
    Millimetres,
}

/// Why a text is not taken as a length.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// Nothing was typed.
    #[error("No length was given; write one like 8' 2 3/8\", 98 3/8 or 2500 mm.")]
    Empty,
    /// The text does not read as a length.
    #[error(
        "\"{text}\" does not read as a length at \"{part}\"; write it like 8' 2 3/8\", 98 3/8 or 2500 mm."
    )]
    Nonsense {
        /// What was typed.
        text: String,
        /// From where it stops making sense.
        part: String,
    },
    /// A fraction over zero.
    #[error("\"{text}\" has a fraction over 0; write the lower number as 2, 4, 8, 16, 32 or 64.")]
    ZeroDenominator {
        /// What was typed.
        text: String,
    },
    /// A minus in front.
    #[error("\"{text}\" is below zero; a length is zero or more, so write it without the minus.")]
    Negative {
        /// What was typed.
        text: String,
    },
    /// More than [`Length::MAX`].
    #[error("\"{text}\" is more than 100 ft, the longest length taken here; check the unit.")]
    TooLong {
        /// What was typed.
        text: String,
    },
    /// Twelve inches or more beside feet.
    #[error(
        "\"{text}\" has 12 inches or more beside the feet; write {would_do} if that is what you mean."
    )]
    ImproperInches {
        /// What was typed.
        text: String,
        /// The same length with the feet carried over.
        would_do: String,
    },
    /// Not a whole number of nanometres.
    #[error(
        "\"{text}\" is finer than can be kept exactly; write halves to 64ths of an inch, or a decimal."
    )]
    TooFine {
        /// What was typed.
        text: String,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Foot,
    Inch,
    Millimetre,
    Centimetre,
    Metre,
}

impl Unit {
    const fn nm(self) -> i64 {
        match self {
            Self::Foot => Length::NM_PER_FOOT,
            Self::Inch => Length::NM_PER_INCH,
            Self::Millimetre => 1_000_000,
            Self::Centimetre => 10_000_000,
            Self::Metre => 1_000_000_000,
        }
    }
}

impl Length {
    /// Reads a length. `bare` says what a number without a unit means.
    ///
    /// Taken: `8' 2 3/8"`, `8'-2 3/8"`, `8 ft 2 in`, `8'`, `98 3/8`, `98-3/8`, `98½`, `98.375in`,
    /// `2500mm`, `250 cm`, `2.5 m`; curly and true prime marks too. Decimals are read exactly.
    ///
    /// A hyphen always makes an inch measure, whatever `bare` says. Before a lone fraction it joins
    /// the fraction to its inches (`98-3/8` is 98 3/8 in); otherwise it stands between feet and
    /// inches: `8-2` is **8 ft 2 in**, `8-2 3/8` is 8 ft 2 3/8 in.
    ///
    /// ```
    /// use tackfree::units::{BareUnit, Length};
    /// let top = Length::parse("8-2 3/8", BareUnit::Inches)?;
    /// assert_eq!(Some(top), Length::from_inches(98, 3, 8));
    /// # Ok::<(), tackfree::units::LengthError>(())
    /// ```
    ///
    /// # Errors
    /// [`LengthError`] tells nothing, nonsense, a fraction over zero, below zero, too long, inches
    /// that should be feet, and too fine apart.
    pub fn parse(text: &str, bare: BareUnit) -> Result<Self, LengthError> {
        let typed = || quoted(text);
        if text.trim().is_empty() {
            return Err(LengthError::Empty);
        }
        let mut reader = Reader::new(text);
        if reader.eat(&Token::Hyphen) && !reader.is_done() {
            // Only a minus before a length is "negative"; before anything else it is nonsense.
            if reader.quantity().is_ok() {
                return Err(LengthError::Negative { text: typed() });
            }
        }
        let mut reader = Reader::new(text);
        let spoken = spoken(&mut reader, bare).map_err(|fault| match fault {
            Fault::Nonsense { at } => LengthError::Nonsense {
                text: typed(),
                part: reader.part(at),
            },
            Fault::ZeroDenominator => LengthError::ZeroDenominator { text: typed() },
        })?;
        let nm = spoken
            .value
            .times(Ratio::whole_number(spoken.unit.nm().into()));
        let Some(nm) = nm else {
            return Err(LengthError::TooFine { text: typed() });
        };
        let most = i128::from(Self::MAX.0);
        if !nm.is_below(most) && nm.as_whole() != Some(most) {
            return Err(LengthError::TooLong { text: typed() });
        }
        let exact = nm.as_whole().and_then(|nm| i64::try_from(nm).ok());
        match exact {
            Some(nm) if spoken.improper => Err(LengthError::ImproperInches {
                text: typed(),
                would_do: Self(nm).show(LengthStyle::ThirtySeconds),
            }),
            Some(nm) => Ok(Self(nm)),
            None => Err(LengthError::TooFine { text: typed() }),
        }
    }
}

/// One amount in one unit; `improper` when 12 inches or more stood beside feet.
struct Spoken {
    value: Ratio,
    unit: Unit,
    improper: bool,
}

fn spoken(reader: &mut Reader<'_>, bare: BareUnit) -> Result<Spoken, Fault> {
    let start = reader.nonsense();
    let first = reader.quantity()?;
    let at_unit = reader.nonsense();
    let unit = unit(reader);
    if reader.is_done() {
        let unit = match (unit, first.hyphened, bare) {
            (Some(found), true, _) if found != Unit::Inch => return Err(at_unit),
            (Some(found), _, _) => found,
            (None, true, _) | (None, _, BareUnit::Inches) => Unit::Inch,
            (None, false, BareUnit::Millimetres) => Unit::Millimetre,
        };
        return Ok(Spoken {
            value: first.value,
            unit,
            improper: false,
        });
    }
    let here = reader.nonsense();
    let hyphen = reader.eat(&Token::Hyphen);
    if !(unit == Some(Unit::Foot) || unit.is_none() && hyphen) {
        return Err(here);
    }
    if first.hyphened || first.value.as_whole().is_none() {
        return Err(start);
    }
    let inches = inches(reader)?;
    let value = first
        .value
        .times(Ratio::whole_number(12))
        .and_then(|feet| feet.plus(inches.value))
        .ok_or(start)?;
    Ok(Spoken {
        value,
        unit: Unit::Inch,
        improper: !inches.value.is_below(12),
    })
}

/// The inches after the feet, to the end of the text.
fn inches(reader: &mut Reader<'_>) -> Result<Quantity, Fault> {
    let quantity = reader.quantity()?;
    let here = reader.nonsense();
    match unit(reader) {
        None | Some(Unit::Inch) if reader.is_done() => Ok(quantity),
        None | Some(Unit::Inch) => Err(reader.nonsense()),
        Some(_) => Err(here),
    }
}

const WORDS: [(Unit, &[&str]); 5] = [
    (Unit::Foot, &["ft", "foot", "feet"]),
    (Unit::Inch, &["in", "inch", "inches"]),
    (
        Unit::Millimetre,
        &[
            "mm",
            "millimetre",
            "millimetres",
            "millimeter",
            "millimeters",
        ],
    ),
    (
        Unit::Centimetre,
        &[
            "cm",
            "centimetre",
            "centimetres",
            "centimeter",
            "centimeters",
        ],
    ),
    (Unit::Metre, &["m", "metre", "metres", "meter", "meters"]),
];

fn unit(reader: &mut Reader<'_>) -> Option<Unit> {
    if reader.eat(&Token::Prime) {
        return Some(Unit::Foot);
    }
    if reader.eat(&Token::DoublePrime) {
        return Some(Unit::Inch);
    }
    WORDS
        .into_iter()
        .find(|(_, words)| reader.eat_word(words))
        .map(|(unit, _)| unit)
}
