//! Moisture content as a quantity.

use serde::{Deserialize, Serialize};

/// A moisture content in thousandths of a percent of the ovendry mass, 0 to 200 %. Stored and sent
/// as that number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "i32", into = "i32")]
pub struct MoistureContent(i32);

/// Why a text is not taken as a moisture content.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoistureError {
    /// Nothing was typed.
    #[error("No moisture content was given; write it in percent, like 8.5.")]
    Empty,
    /// Not a number.
    #[error("\"{text}\" does not read as a moisture content; write it in percent, like 8.5.")]
    Nonsense {
        /// What was typed.
        text: String,
    },
    /// Below 0 or above 200 %.
    #[error("A moisture content of {text} cannot be; wood lies between 0 and 200 %.")]
    OutOfRange {
        /// What was typed.
        text: String,
    },
}

impl MoistureContent {
    /// The most there is: wet sapwood of a light wood holds about twice its dry mass in water.
    const MOST: i32 = 200_000;

    /// From thousandths of a percent; `None` outside 0 to 200 %.
    pub const fn from_thousandths(thousandths: i32) -> Option<Self> {
        if thousandths < 0 || thousandths > Self::MOST {
            return None;
        }
        Some(Self(thousandths))
    }

    /// From percent, to the nearest thousandth; `None` outside 0 to 200.
    pub fn from_percent(percent: f64) -> Option<Self> {
        if !(0.0..=200.0).contains(&percent) {
            return None;
        }
        #[allow(
            clippy::cast_possible_truncation,
            reason = "the range was checked above"
        )]
        Self::from_thousandths((percent * 1000.0).round() as i32)
    }

    /// From percent, brought to the nearest end when outside 0 to 200; for what is computed.
    pub(in crate::wood) fn from_percent_clamped(percent: f64) -> Self {
        Self::from_percent(percent.clamp(0.0, 200.0)).unwrap_or(Self(0))
    }

    /// Thousandths of a percent.
    pub const fn thousandths(self) -> i32 {
        self.0
    }

    /// Percent of the ovendry mass.
    pub fn percent(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// Points of moisture content from here to `other`; below zero when that is drier.
    pub fn points_to(self, other: Self) -> f64 {
        other.percent() - self.percent()
    }

    /// Reads a moisture content: `8.5`, `8.5%`, `8.5 %`.
    ///
    /// # Errors
    /// [`MoistureError`] tells nothing, nonsense and out of range apart.
    pub fn parse(text: &str) -> Result<Self, MoistureError> {
        let typed = text.trim();
        if typed.is_empty() {
            return Err(MoistureError::Empty);
        }
        let number = typed.strip_suffix('%').unwrap_or(typed).trim();
        let digits = number.strip_prefix('-').unwrap_or(number);
        let plain = digits.chars().all(|c| c.is_ascii_digit() || c == '.');
        match number.parse::<f64>() {
            Ok(percent) if plain => {
                Self::from_percent(percent).ok_or_else(|| MoistureError::OutOfRange {
                    text: typed.to_owned(),
                })
            }
            _ => Err(MoistureError::Nonsense {
                text: crate::units::clean_line(typed).0,
            }),
        }
    }

    /// `8.5%`, `12%`: one decimal at most.
    pub fn show(self) -> String {
        let text = format!("{:.1}", self.percent());
        format!("{}%", text.strip_suffix(".0").unwrap_or(&text))
    }
}

impl TryFrom<i32> for MoistureContent {
    type Error = &'static str;
    fn try_from(thousandths: i32) -> Result<Self, Self::Error> {
        Self::from_thousandths(thousandths)
            .ok_or("A moisture content must lie between 0 and 200 %.")
    }
}

impl From<MoistureContent> for i32 {
    fn from(content: MoistureContent) -> Self {
        content.0
    }
}
