//! Spread rates: how far a product goes.

use serde::{Deserialize, Serialize};

use super::area::{Area, AreaStyle};
use super::exact::trimmed;
use super::scan::{Fault, Reader, Token, quoted};
use super::volume::Volume;

/// A spread rate in square metres per litre, always above zero.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct SpreadRate(f64);

/// Why a text is not taken as a spread rate.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SpreadError {
    /// Nothing was typed.
    #[error("No spread rate was given; write one like 625 sq ft/gal or 15.3 m2/L.")]
    Empty,
    /// The text does not read as a spread rate.
    #[error(
        "\"{text}\" does not read as a spread rate at \"{part}\"; write it like 625 sq ft/gal or 15.3 m2/L."
    )]
    Nonsense {
        /// What was typed.
        text: String,
        /// From where it stops making sense.
        part: String,
    },
    /// Outside what a liquid finish can do.
    #[error(
        "\"{text}\" is not a spread rate of a finish, which lies between 10 and 5000 sq ft/gal; check the unit."
    )]
    Unlikely {
        /// What was typed.
        text: String,
    },
}

impl SpreadRate {
    /// m2/L in one ft2/gal: 0.09290304 / 3.785411784.
    const M2_PER_L_OF_SQ_FT_PER_GAL: f64 = Area::M2_PER_SQ_FT / 3.785_411_784;

    /// From square metres per litre; `None` unless above zero and finite.
    pub fn from_m2_per_l(m2_per_l: f64) -> Option<Self> {
        (m2_per_l.is_finite() && m2_per_l > 0.0).then_some(Self(m2_per_l))
    }

    /// From square feet per US gallon; `None` unless above zero and finite.
    pub fn from_sq_ft_per_gal(sq_ft_per_gal: f64) -> Option<Self> {
        Self::from_m2_per_l(sq_ft_per_gal * Self::M2_PER_L_OF_SQ_FT_PER_GAL)
    }

    /// Square metres per litre.
    pub const fn m2_per_l(self) -> f64 {
        self.0
    }

    /// Square feet per US gallon.
    pub fn sq_ft_per_gal(self) -> f64 {
        self.0 / Self::M2_PER_L_OF_SQ_FT_PER_GAL
    }

    /// The volume that covers this area, to the nearest microlitre.
    pub fn volume_for(self, area: Area) -> Volume {
        Volume::from_ml(area.m2() / self.0 * 1000.0)
    }

    /// The wet film in micrometres: 1000 / (m2/L), since a litre over a square metre is 1 mm.
    pub fn wet_film_um(self) -> f64 {
        1000.0 / self.0
    }

    /// Reads a spread rate: `625 ft2/gal`, `625 sq ft/gal`, `15.3 m2/L`; also with `per` for the
    /// stroke and `²` for the 2. Outside 10 to 5000 sq ft/gal it is questioned (a range set by
    /// judgement, several times wider than any label).
    ///
    /// # Errors
    /// [`SpreadError`] tells nothing, nonsense and an unlikely value apart.
    pub fn parse(text: &str) -> Result<Self, SpreadError> {
        if text.trim().is_empty() {
            return Err(SpreadError::Empty);
        }
        let mut reader = Reader::new(text);
        let minus = reader.eat(&Token::Hyphen);
        let nonsense = |reader: &Reader<'_>, at| SpreadError::Nonsense {
            text: quoted(text),
            part: reader.part(at),
        };
        let quantity = reader.quantity().map_err(|fault| match fault {
            Fault::Nonsense { at } => nonsense(&reader, at),
            Fault::ZeroDenominator => nonsense(&reader, 0),
        })?;
        let at = reader.at();
        let value = quantity.value.as_f64();
        let rate = match unit(text.get(at..).unwrap_or_default()) {
            Some(AreaStyle::SquareFeet) => Self::from_sq_ft_per_gal(value),
            Some(AreaStyle::SquareMetres) => Self::from_m2_per_l(value),
            None => return Err(nonsense(&reader, at)),
        };
        rate.filter(|rate| !minus && (10.0..=5000.0).contains(&rate.sq_ft_per_gal().round()))
            .ok_or_else(|| SpreadError::Unlikely { text: quoted(text) })
    }

    /// `625 sq ft/gal` or `15.3 m2/L`.
    pub fn show(self, style: AreaStyle) -> String {
        match style {
            AreaStyle::SquareFeet => format!("{} sq ft/gal", trimmed(self.sq_ft_per_gal(), 0)),
            AreaStyle::SquareMetres => format!("{} m2/L", trimmed(self.0, 1)),
        }
    }
}

/// The unit behind the number, however it is spaced.
fn unit(text: &str) -> Option<AreaStyle> {
    let squeezed: String = text
        .to_lowercase()
        .replace('²', "2")
        .replace("per", "/")
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '.' | '^'))
        .collect();
    let (area, volume) = squeezed.split_once('/')?;
    match (area, volume) {
        (
            "ft2" | "sqft" | "sqfeet" | "squarefeet" | "squarefoot",
            "gal" | "gallon" | "usgal" | "usgallon",
        ) => Some(AreaStyle::SquareFeet),
        (
            "m2" | "sqm" | "squaremetres" | "squaremeters" | "squaremetre" | "squaremeter",
            "l" | "litre" | "liter",
        ) => Some(AreaStyle::SquareMetres),
        _ => None,
    }
}

impl TryFrom<f64> for SpreadRate {
    type Error = &'static str;
    fn try_from(m2_per_l: f64) -> Result<Self, Self::Error> {
        Self::from_m2_per_l(m2_per_l).ok_or("A spread rate must be above zero.")
    }
}

impl From<SpreadRate> for f64 {
    fn from(rate: SpreadRate) -> Self {
        rate.0
    }
}
