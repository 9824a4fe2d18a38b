//! Moisture content: what a meter reads, what the air of a room makes of it, and when a top is
//! ready for the next thing.
//!
//! Lives here: moisture content, equilibrium with air, seasons and regions, readings, the rule of
//! readiness, the fit of an acclimation. May not: what the moisture does to sizes, which is
//! [`super::movement`].

mod acclimate;
mod content;
mod emc;
mod reading;
mod ready;
mod reason;
mod rule;
mod season;

pub use acclimate::{Acclimation, AcclimationError, fit_acclimation};
pub use content::{MoistureContent, MoistureError};
pub use emc::{Air, CoefficientSet, Emc, EmcError, emc, humidity_holding};
pub use reading::{Correction, Doubt, Meter, Reading, ReadingError, pin_meter_correction};
pub(crate) use ready::whole_days;
pub use ready::{Readiness, judge};
pub use reason::{Reason, Verdict};
pub use rule::{ReadyFor, ReadyRule, RuleError};
pub use season::{BandBasis, Installation, Region, SeasonBand, SiteNote};
