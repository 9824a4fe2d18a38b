//! A pass: one product applied once, in one go, to faces of one or more pieces.

use super::can_log::Drawn;
use super::event::CoatKind;
use super::id::PassId;
use crate::coating::{Method, Product, ProductId};
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
    /// The cans it came from, what stayed in rag and tray, and how it was put on.
    pub drawn: Drawn,
}

impl Pass {
    /// What is on the wood: what was used less what stayed in rag and tray.
    pub fn on_wood(&self) -> Volume {
        (self.amount.volume - self.drawn.lost_volume()).max(Volume::ZERO)
    }

    /// What is on the wood of a share of this pass.
    pub fn on_wood_of(&self, share: Volume) -> Volume {
        match self.drawn.lost {
            None => share,
            Some(_) if self.amount.volume.ul() <= 0 => Volume::ZERO,
            Some(_) => {
                let whole = i128::from(self.amount.volume.ul());
                let part = i128::from(share.ul()) * i128::from(self.on_wood().ul()) / whole;
                // A part of a share is never beyond it.
                Volume::from_ul(i64::try_from(part).unwrap_or(share.ul()))
            }
        }
    }

    /// How it was put on: as said, or as products of its family usually are.
    pub fn method(&self, product: &Product) -> Method {
        self.drawn
            .method
            .unwrap_or_else(|| Method::usual(product.family))
    }
}
