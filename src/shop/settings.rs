//! The shop's own settings.

use crate::units::{AreaStyle, BareUnit, LengthStyle, TemperatureStyle, VolumeStyle};
use chrono_tz::Tz;
use serde::{Deserialize, Serialize};

/// Which look the screen takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LookChoice {
    /// The terminal's own two colours, with bold and reverse.
    #[default]
    Auto,
    /// For a dark background.
    Dark,
    /// For a light background.
    Light,
    /// No colour at all.
    Plain,
}

impl LookChoice {
    /// All, with their words.
    pub const ALL: [(Self, &'static str); 4] = [
        (Self::Auto, "auto"),
        (Self::Dark, "dark"),
        (Self::Light, "light"),
        (Self::Plain, "plain"),
    ];
}

/// Units, zone, name and address.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// The shop's name, on papers.
    pub shop_name: String,
    /// The shop's address, on papers.
    pub shop_address: String,
    /// Lengths.
    pub length: LengthStyle,
    /// Temperatures.
    pub temperature: TemperatureStyle,
    /// Volumes.
    pub volume: VolumeStyle,
    /// The shop's zone.
    pub zone: Tz,
    /// The look of the screen.
    pub look: LookChoice,
}

impl Settings {
    /// Where a shop starts: feet and inches to a sixteenth, Fahrenheit, ounces.
    pub fn starting(zone: Tz) -> Self {
        Self {
            shop_name: String::new(),
            shop_address: String::new(),
            length: LengthStyle::Sixteenths,
            temperature: TemperatureStyle::Fahrenheit,
            volume: VolumeStyle::FluidOunces,
            zone,
            look: LookChoice::Auto,
        }
    }

    /// The unit of a length typed without one.
    pub fn bare_unit(&self) -> BareUnit {
        match self.length {
            LengthStyle::Millimetres => BareUnit::Millimetres,
            LengthStyle::Sixteenths | LengthStyle::ThirtySeconds => BareUnit::Inches,
        }
    }

    /// How areas are shown.
    pub fn area(&self) -> AreaStyle {
        match self.length {
            LengthStyle::Millimetres => AreaStyle::SquareMetres,
            LengthStyle::Sixteenths | LengthStyle::ThirtySeconds => AreaStyle::SquareFeet,
        }
    }
}
