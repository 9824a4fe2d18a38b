//! Equilibrium moisture content: what wood comes to in air that stays as it is.

use serde::{Deserialize, Serialize};

use super::content::MoistureContent;
use crate::units::{Humidity, Temperature, TemperatureStyle};

/// Air: a temperature and a relative humidity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Air {
    /// Temperature.
    pub temperature: Temperature,
    /// Relative humidity.
    pub humidity: Humidity,
}

impl Air {
    /// Air of this temperature and humidity.
    pub fn new(temperature: Temperature, humidity: Humidity) -> Self {
        Self {
            temperature,
            humidity,
        }
    }

    /// `70 F, 30%`.
    pub fn show(self, style: TemperatureStyle) -> String {
        format!("{}, {}", self.temperature.show(style), self.humidity.show())
    }
}

/// Which printed coefficients the handbook's equation is taken with. The two differ by 0.013
/// points at most within the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum CoefficientSet {
    /// For degrees Celsius. The default: temperatures are kept in Celsius here, and it lies closer
    /// to the printed table (0.052 points at most against 0.061).
    #[default]
    Celsius,
    /// For degrees Fahrenheit.
    Fahrenheit,
}

/// Why there is no equilibrium moisture content.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EmcError {
    /// Colder or hotter than the equation is taken here.
    #[error(
        "At {shown} the handbook's equation says nothing of use; it is taken from -4 F to 270 F (-20 C to 132 C)."
    )]
    Temperature {
        /// The temperature in both scales.
        shown: String,
    },
    /// No air holds wood that wet.
    #[error("No air at {shown} holds wood at {content}; even at 100 % humidity it stays drier.")]
    TooWet {
        /// The temperature.
        shown: String,
        /// The moisture content asked for.
        content: String,
    },
}

/// c0 + c1 T + c2 T^2.
type Square = [f64; 3];

fn square([c0, c1, c2]: Square, t: f64) -> f64 {
    c0 + t * (c1 + t * c2)
}

impl CoefficientSet {
    /// W, K, K1, K2 of eq. 4-5 (Wood Handbook p. 4-3; the coefficients read second-hand).
    const fn squares(self) -> [Square; 4] {
        match self {
            Self::Celsius => [
                [349.0, 1.29, 0.0135],
                [0.805, 0.000_736, -0.000_002_73],
                [6.27, -0.009_38, -0.000_303],
                [1.91, 0.040_7, -0.000_293],
            ],
            Self::Fahrenheit => [
                [330.0, 0.452, 0.004_15],
                [0.791, 0.000_463, -0.000_000_844],
                [6.34, 0.000_775, -0.000_093_5],
                [1.09, 0.028_4, -0.000_090_4],
            ],
        }
    }

    /// Equilibrium moisture content in percent, Wood Handbook eq. 4-5 (p. 4-3), unrounded:
    /// `(1800/W) [K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2)]`, with
    /// h the humidity as a fraction. Whatever the temperature; [`emc`] keeps to where it holds.
    pub fn percent(self, air: Air) -> f64 {
        let t = match self {
            Self::Celsius => air.temperature.c(),
            Self::Fahrenheit => air.temperature.f(),
        };
        let [w, k, k1, k2] = self.squares().map(|c| square(c, t));
        let kh = k * air.humidity.fraction();
        let one = k1 * kh;
        let two = k1 * k2 * kh * kh;
        1800.0 / w * (kh / (1.0 - kh) + (one + 2.0 * two) / (1.0 + one + two))
    }
}

/// An equilibrium moisture content and how well it is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Emc {
    /// What wood comes to.
    pub content: MoistureContent,
    /// In which air.
    pub air: Air,
    /// Whether the air lies within Table 4-2: 30 to 270 F and 5 to 95 % humidity.
    pub within_table: bool,
}

impl Emc {
    /// What the figure rests on, in words.
    pub fn basis(&self, style: TemperatureStyle) -> String {
        let outside = if self.within_table {
            ""
        } else {
            "; outside the table's 30 to 270 F and 5 to 95 % humidity, so rough"
        };
        format!(
            "from {} by Wood Handbook eq. 4-5, p. 4-3, estimated: made mainly for Sitka spruce, \
             midway between drying and wetting{outside}",
            self.air.show(style)
        )
    }
}

/// -20 C and 270 F, in thousandths of a degree Celsius.
const TAKEN: std::ops::RangeInclusive<i32> = -20_000..=132_223;
/// 30 F and 270 F.
const TABLE: std::ops::RangeInclusive<i32> = -1_112..=132_223;

fn both_scales(temperature: Temperature) -> String {
    format!(
        "{} ({})",
        temperature.show(TemperatureStyle::Fahrenheit),
        temperature.show(TemperatureStyle::Celsius)
    )
}

/// What wood comes to in this air, with the default coefficients, to a thousandth of a percent.
///
/// # Errors
/// [`EmcError::Temperature`] below -20 C or above 270 F. Outside the printed table (30 to 270 F, 5
/// to 95 %) the figure says so.
pub fn emc(air: Air) -> Result<Emc, EmcError> {
    let milli = air.temperature.milli_c();
    if !TAKEN.contains(&milli) {
        return Err(EmcError::Temperature {
            shown: both_scales(air.temperature),
        });
    }
    let percent = CoefficientSet::default().percent(air);
    Ok(Emc {
        content: MoistureContent::from_percent_clamped(percent),
        air,
        within_table: TABLE.contains(&milli) && (50..=950).contains(&air.humidity.tenths()),
    })
}

/// The humidity that holds wood at this moisture content at this temperature, to the nearest tenth
/// of a percent below or at it: eq. 4-5 the other way round.
///
/// # Errors
/// [`EmcError::Temperature`] as for [`emc`], [`EmcError::TooWet`] when 100 % humidity is not
/// enough.
pub fn humidity_holding(
    content: MoistureContent,
    temperature: Temperature,
) -> Result<Humidity, EmcError> {
    let at = |tenths: i32| {
        let air = Humidity::from_tenths(tenths).map(|h| Air::new(temperature, h));
        air.map_or(Ok(None), |air| emc(air).map(Some))
    };
    let too_wet = || EmcError::TooWet {
        shown: both_scales(temperature),
        content: content.show(),
    };
    let (mut low, mut high) = (0, 1000);
    if at(high)?.is_none_or(|emc| emc.content < content) {
        return Err(too_wet());
    }
    // The figure rises with humidity: halve the range until one tenth is left.
    while low < high {
        let middle = (low + high + 1) / 2;
        if at(middle)?.is_some_and(|emc| emc.content <= content) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    Humidity::from_tenths(low).ok_or_else(too_wet)
}
