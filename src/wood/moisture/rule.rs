//! The rule by which a piece counts as ready, with its settings.

use serde::{Deserialize, Serialize};

use super::content::MoistureContent;

/// What the piece is to be ready for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ReadyFor {
    /// Flattening, gluing up, cutting to size.
    Milling,
    /// Sanding and coating.
    Finishing,
    /// Setting at the client's.
    Setting,
}

impl ReadyFor {
    /// All three, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Milling, Self::Finishing, Self::Setting];

    /// `ready to mill`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Milling => "ready to mill",
            Self::Finishing => "ready to finish",
            Self::Setting => "ready to set",
        }
    }
}

/// The rule: two readings at the same place so far apart in days differ by no more than so many
/// points, and the wettest place lies at or below the limits. The figures are a judgement made from
/// published limits (cabinet parts 10 % at fabrication, ANSI/KCMA A161.1, read second-hand; interior
/// wood 12 % before painting, a trade page, read second-hand) and can be set by the shop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ReadyRule {
    /// Days between the two readings, counted to the nearest day.
    pub days_apart: u16,
    /// Points they may differ by.
    pub within: f64,
    /// Above this the piece goes on with care.
    pub care_over: MoistureContent,
    /// Above this it does not go on.
    pub stop_over: MoistureContent,
    /// Days after which the last reading no longer speaks for the piece.
    pub fresh_days: u16,
}

impl Default for ReadyRule {
    /// Two readings 7 days apart within 0.5 points; care over 10 %, stop over 12 %; a reading
    /// speaks for 14 days.
    fn default() -> Self {
        Self {
            days_apart: 7,
            within: 0.5,
            care_over: MoistureContent::from_percent_clamped(10.0),
            stop_over: MoistureContent::from_percent_clamped(12.0),
            fresh_days: 14,
        }
    }
}

/// Why a rule cannot be.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RuleError {
    /// No time between the readings.
    #[error("The two readings must lie at least one day apart.")]
    NoTime,
    /// A difference that cannot be.
    #[error("The two readings may differ by more than 0 and at most 5 points.")]
    Within,
    /// A reading that never speaks.
    #[error("A reading must speak for the piece for at least one day.")]
    NoFresh,
    /// Limits the wrong way round.
    #[error("The limit to stop at must not lie below the limit for care.")]
    Limits,
}

impl ReadyRule {
    /// Whether the rule can be.
    ///
    /// # Errors
    /// [`RuleError`] for no time, an impossible difference, readings that never speak or limits the wrong way round.
    pub fn check(&self) -> Result<(), RuleError> {
        if self.days_apart == 0 {
            return Err(RuleError::NoTime);
        }
        if !(self.within > 0.0 && self.within <= 5.0) {
            return Err(RuleError::Within);
        }
        if self.fresh_days == 0 {
            return Err(RuleError::NoFresh);
        }
        if self.stop_over < self.care_over {
            return Err(RuleError::Limits);
        }
        Ok(())
    }

    /// The rule in words.
    pub fn words(&self) -> String {
        let days = |days: u16| match days {
            1 => "1 day".to_owned(),
            days => format!("{days} days"),
        };
        format!(
            "two readings {} apart (to the nearest day) within {} points; every place counts by its \
             last reading, care over {}, stop over {}; the newest reading speaks for {} (a judgement, \
             set by the shop)",
            days(self.days_apart),
            self.within,
            self.care_over.show(),
            self.stop_over.show(),
            days(self.fresh_days)
        )
    }
}
