//! A pass: one product applied once, in one go, to faces of one or more pieces.

use super::event::CoatKind;
use super::id::PassId;
use crate::coating::ProductId;
use crate::units::{Humidity, Mass, Temperature, Volume};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

/// How the amount of a pass is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AmountBasis {
    /// Area over the label's spread rate.
    Estimated,
    /// A volume was read off.
    Measured,
    /// The can was weighed before and after.
    Weighed {
        /// Can before.
        before: Mass,
        /// Can after.
        after: Mass,
    },
}

impl AmountBasis {
    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Estimated => "estimated",
            Self::Measured => "measured",
            Self::Weighed { .. } => "weighed",
        }
    }

    /// Whether it was measured rather than estimated.
    pub fn is_measured(self) -> bool {
        self != Self::Estimated
    }
}

/// How much a pass used, and how that is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Amount {
    /// The volume.
    pub volume: Volume,
    /// How it is known.
    pub basis: AmountBasis,
}

/// Shop air at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Air {
    /// Temperature.
    pub temperature: Temperature,
    /// Relative humidity.
    pub humidity: Humidity,
}

/// One pass.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Pass {
    /// Its identifier.
    pub id: PassId,
    /// What kind of coat.
    pub kind: CoatKind,
    /// Of what.
    pub product: ProductId,
    /// Start.
    pub started: DateTime<Utc>,
    /// End: drying counts from here.
    pub ended: DateTime<Utc>,
    /// How much.
    pub amount: Amount,
    /// Shop air, if it was noted.
    pub air: Option<Air>,
}
