//! A wood that the shop adds to the table.

use serde::{Deserialize, Serialize};

use super::row::{Coefficients, Gravity, GravityAt, Shrinkage, Species, SpeciesKind};
use crate::wood::Standing;

/// A wood as the shop enters it: a name, and shrinkage or coefficients or both.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct OwnWood {
    /// Its name.
    pub name: String,
    /// Its botanical name; may be empty.
    pub botanical: String,
    /// Radial and tangential shrinkage from green to ovendry, %.
    pub shrinkage: Option<(f64, f64)>,
    /// Radial and tangential change per point of moisture content, as a fraction.
    pub coefficients: Option<(f64, f64)>,
    /// Specific gravity at 12 % moisture content.
    pub gravity: Option<f64>,
    /// Where the shop has it from.
    pub source: String,
}

/// Why a wood cannot be added.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OwnWoodError {
    /// No name.
    #[error("A wood of your own needs a name to find it by.")]
    NoName,
    /// The name is already in the table.
    #[error("\"{name}\" is in the table already; give your wood a name of its own.")]
    Taken {
        /// The name.
        name: String,
    },
    /// Nothing to reckon with.
    #[error(
        "\"{name}\" has neither shrinkage nor coefficients; type its radial and tangential shrinkage in percent."
    )]
    NoFigures {
        /// The name.
        name: String,
    },
    /// A shrinkage that no wood has.
    #[error(
        "A shrinkage of {percent} % cannot be; green to ovendry it lies above 0 and below 25 %."
    )]
    Shrinkage {
        /// What was typed.
        percent: f64,
    },
    /// A coefficient that no wood has.
    #[error(
        "A coefficient of {value} cannot be; per point of moisture it lies above 0 and below 0.01, like 0.00353."
    )]
    Coefficient {
        /// What was typed.
        value: f64,
    },
    /// A specific gravity that no wood has.
    #[error("A specific gravity of {value} cannot be; wood lies between 0.1 and 1.4.")]
    Gravity {
        /// What was typed.
        value: f64,
    },
}

impl OwnWood {
    /// The row of the table that this makes.
    ///
    /// # Errors
    /// [`OwnWoodError`] for a missing name, no figures, or a figure no wood has.
    pub fn row(self) -> Result<Species, OwnWoodError> {
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            return Err(OwnWoodError::NoName);
        }
        if self.shrinkage.is_none() && self.coefficients.is_none() {
            return Err(OwnWoodError::NoFigures { name });
        }
        if let Some((radial, tangential)) = self.shrinkage {
            for percent in [radial, tangential] {
                // Written so that "not a number" is refused too.
                if !(percent > 0.0 && percent < 25.0) {
                    return Err(OwnWoodError::Shrinkage { percent });
                }
            }
        }
        if let Some((radial, tangential)) = self.coefficients {
            for value in [radial, tangential] {
                if !(value > 0.0 && value < 0.01) {
                    return Err(OwnWoodError::Coefficient { value });
                }
            }
        }
        if let Some(value) = self.gravity.filter(|g| !(0.1..=1.4).contains(g)) {
            return Err(OwnWoodError::Gravity { value });
        }
        let standing = Standing::ShopsOwn;
        Ok(Species {
            name,
            also: Vec::new(),
            botanical: self.botanical,
            kind: SpeciesKind::Single,
            coefficients: self.coefficients.map(|(radial, tangential)| Coefficients {
                radial,
                radial_standing: standing,
                tangential,
                tangential_standing: standing,
            }),
            shrinkage: self.shrinkage.map(|(radial, tangential)| Shrinkage {
                radial,
                tangential,
                volume: None,
                standing,
            }),
            starts_at: super::FIBRE_SATURATION,
            gravity: self.gravity.map(|value| Gravity {
                value,
                at: GravityAt::Twelve,
                standing,
            }),
            source: self.source,
            note: String::new(),
        })
    }
}
