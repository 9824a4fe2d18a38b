//! A moisture reading as it was taken.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use super::content::MoistureContent;
use crate::units::Length;
use crate::wood::{Between, Standing};

/// What the reading was taken with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Meter {
    /// Pins driven into the wood (a conductance meter).
    Pin,
    /// A pad laid on the wood (a dielectric meter).
    Pad,
    /// A sample weighed before and after the oven.
    Oven,
}

impl Meter {
    /// Every meter.
    pub const ALL: [Self; 3] = [Self::Pin, Self::Pad, Self::Oven];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Pin => "pin meter",
            Self::Pad => "pad meter",
            Self::Oven => "oven sample",
        }
    }

    /// Within which moisture contents it reads reliably, and where that is from: a dielectric meter
    /// 4 to about 30 % (Wood Handbook p. 13-3, read), a conductance meter 6 to about 30 % (same
    /// page, from memory). An oven sample has no such limit.
    pub fn reliable(self) -> Option<(Between<MoistureContent>, Standing)> {
        let content = MoistureContent::from_percent_clamped;
        match self {
            Self::Pin => Some((Between::new(content(6.0), content(30.0)), Standing::Memory)),
            Self::Pad => Some((
                Between::new(content(4.0), content(30.0)),
                Standing::Retrieved,
            )),
            Self::Oven => None,
        }
    }
}

/// Whether the figure on the meter was corrected for the species.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Correction {
    /// Nobody noted it: the figure is taken as it stands, and said to be.
    NotNoted,
    /// The meter was set to the species.
    InMeter,
    /// These tenths of a point are added to what the meter showed, from its species table.
    Added {
        /// Tenths of a point, below zero to take off.
        tenths: i16,
    },
}

impl Correction {
    /// The words on screen.
    pub fn words(self) -> String {
        match self {
            Self::NotNoted => "species correction not noted".to_owned(),
            Self::InMeter => "meter set to the species".to_owned(),
            Self::Added { tenths } => {
                format!("{:+.1} points for the species", f64::from(tenths) / 10.0)
            }
        }
    }
}

/// One moisture reading of one piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reading {
    /// When.
    pub at: DateTime<Utc>,
    /// Where on the piece: `underside, left end`. Readings are compared place by place.
    pub place: String,
    /// How deep the pins went.
    pub depth: Option<Length>,
    /// With what.
    pub meter: Meter,
    /// Whether it was corrected for the species.
    pub correction: Correction,
    /// What the meter showed.
    pub percent: MoistureContent,
}

/// Why a reading may be off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doubt {
    /// Outside what its meter reads reliably.
    OutOfReach,
    /// Nobody noted whether the meter was corrected for the species.
    NotCorrected,
}

impl Doubt {
    /// What goes on after the figure: `lies outside what the meter reads reliably`.
    pub fn words(self) -> &'static str {
        match self {
            Self::OutOfReach => {
                "lies outside what the meter reads reliably; an oven sample would tell"
            }
            Self::NotCorrected => {
                "was noted without a species correction and may be off; note the correction"
            }
        }
    }
}

/// Why a reading is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadingError {
    /// No place.
    #[error("Say where on the piece the reading was taken, like underside, left end.")]
    NoPlace,
    /// Pins deeper than any top, or pulled out of it.
    #[error("A pin depth of {depth} cannot be; it lies between 0 and 6 in.")]
    Depth {
        /// What was typed.
        depth: String,
    },
    /// The correction takes the figure out of reach.
    #[error("{shown} with {correction} comes out below 0 %; check the correction.")]
    Correction {
        /// What the meter showed.
        shown: String,
        /// The correction in words.
        correction: String,
    },
}

impl Reading {
    /// Whether the reading can be.
    ///
    /// # Errors
    /// [`ReadingError`] for no place, an impossible depth or an impossible correction.
    pub fn check(&self) -> Result<(), ReadingError> {
        if self.place.trim().is_empty() {
            return Err(ReadingError::NoPlace);
        }
        let six = Length::from_nm(6 * Length::NM_PER_INCH);
        if let Some(depth) = self.depth.filter(|d| !(Length::ZERO..=six).contains(d)) {
            return Err(ReadingError::Depth {
                depth: crate::wood::movement::both(depth),
            });
        }
        if self.corrected_percent() < 0.0 {
            return Err(ReadingError::Correction {
                shown: self.percent.show(),
                correction: self.correction.words(),
            });
        }
        Ok(())
    }

    fn corrected_percent(&self) -> f64 {
        let added = match self.correction {
            Correction::NotNoted | Correction::InMeter => 0.0,
            Correction::Added { tenths } => f64::from(tenths) / 10.0,
        };
        self.percent.percent() + added
    }

    /// The moisture content after the correction, never below 0.
    pub fn content(&self) -> MoistureContent {
        MoistureContent::from_percent_clamped(self.corrected_percent())
    }

    /// Whether the meter is out of its depth with this figure.
    pub fn is_unreliable(&self) -> bool {
        self.meter
            .reliable()
            .is_some_and(|(range, _)| !range.contains(self.percent))
    }

    /// Why it may be off, if it may. An oven sample asks no correction.
    pub fn doubt(&self) -> Option<Doubt> {
        if self.is_unreliable() {
            return Some(Doubt::OutOfReach);
        }
        let metered = self.meter != Meter::Oven;
        (metered && self.correction == Correction::NotNoted).then_some(Doubt::NotCorrected)
    }

    /// `8.5% at underside, left end (pin meter, 3/8" deep; meter set to the species)`.
    pub fn words(&self) -> String {
        let depth = self.depth.map_or_else(String::new, |depth| {
            format!(", {} deep", crate::wood::movement::both(depth))
        });
        let far = if self.is_unreliable() {
            "; outside what the meter reads reliably"
        } else {
            ""
        };
        format!(
            "{} at {} ({}{depth}; {}{far})",
            self.content().show(),
            self.place.trim(),
            self.meter.words(),
            self.correction.words()
        )
    }
}

/// Points to add to a pin meter's figure when the wood is colder or warmer than the meter was
/// calibrated at: about half a point for every 10 F the wood is colder, taken off when it is warmer
/// (Wood Handbook p. 13-3, for conductance meters). Pad meters do this inside or by a chart.
pub fn pin_meter_correction(
    wood: crate::units::Temperature,
    calibrated_at: crate::units::Temperature,
) -> f64 {
    0.5 * (calibrated_at.f() - wood.f()) / 10.0
}
