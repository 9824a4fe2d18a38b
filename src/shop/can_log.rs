//! The log of a can, and what a pass drew from cans.
//!
//! What passes took stands with the pass alone (`Drawn`), what else happened to a can in lines of
//! its own log; so nothing is written down twice.

use super::id::{CanId, CanLineId, ClientId, JobId};
use crate::coating::Method;
use crate::units::{Density, Mass, Volume};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

/// Whom a jar was poured off for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JarFor {
    /// A client.
    Client(ClientId),
    /// A job.
    Job(JobId),
}

/// What happened to a can.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CanWhat {
    /// Opened.
    Opened,
    /// Weighed as it stands, lid and all.
    Weighed(Mass),
    /// A touch-up jar was poured off.
    Jar {
        /// How much.
        volume: Volume,
        /// For whom.
        to: JarFor,
    },
    /// Lost outside a pass: spilled, skinned over, left in a tray.
    Lost {
        /// How much.
        volume: Volume,
        /// Why.
        reason: String,
    },
    /// Poured into a mixed can.
    MixedInto {
        /// The mixed can.
        into: CanId,
        /// How much.
        volume: Volume,
    },
    /// Thrown away with what was left.
    Discarded {
        /// Why.
        reason: String,
    },
    /// Put somewhere else.
    Moved {
        /// Where.
        place: String,
    },
}

/// One line of a can's log. Lines count in the order of their times; of one moment, in the order
/// in which they were written.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct CanLine {
    /// Its identifier.
    pub id: CanLineId,
    /// The can.
    pub can: CanId,
    /// When.
    pub at: DateTime<Utc>,
    /// What.
    pub what: CanWhat,
}

/// A can on the scale before and after.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Weights {
    /// Before.
    pub before: Mass,
    /// After.
    pub after: Mass,
}

/// What a pass took from one can.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Draw {
    /// The can.
    pub can: CanId,
    /// How much.
    pub volume: Volume,
    /// The can's weights, if it was weighed.
    pub weights: Option<Weights>,
}

/// What stayed in rag and tray, weighed at once, before solvent leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Loss {
    /// As weighed.
    pub mass: Mass,
    /// As volume, by the density the product had then.
    pub volume: Volume,
}

impl Loss {
    /// From what was weighed.
    pub fn weighed(mass: Mass, density: Density) -> Self {
        Self {
            mass,
            volume: density.volume_of(mass),
        }
    }
}

/// Where the product of a pass came from and how it was put on.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Drawn {
    /// The cans, in the order drawn on; none: no can was named, and the pass stands outside the
    /// balance of the cans. The volumes add up to the pass's.
    pub draws: Vec<Draw>,
    /// What stayed in rag and tray; none: not weighed.
    pub lost: Option<Loss>,
    /// How it was put on; none: not said, so as the product's family usually is.
    pub method: Option<Method>,
}

impl Drawn {
    /// What stayed in rag and tray.
    pub fn lost_volume(&self) -> Volume {
        self.lost.map_or(Volume::ZERO, |lost| lost.volume)
    }
}
