//! Moist air: saturation pressure, dew point, wet bulb.
//!
//! Dew points are over water, also below freezing (a frost point lies up to about a degree
//! higher); shop tables that give a frost point there differ by that much.

use crate::units::{Humidity, Temperature};

/// Constants of the Magnus form, a and b of `6.1094 exp[a T / (b + T)]` hPa, T in C: O. A.
/// Alduchov and R. E. Eskridge, J. Appl. Meteor. 35 (1996) 601-609, equation 21. The dew point
/// holds within 0.35 C from -40 to 60 C.
const MAGNUS: (f64, f64) = (17.625, 243.04);

/// Air pressure at sea level, Pa: the standard atmosphere.
pub const STANDARD_PRESSURE: f64 = 101_325.0;

/// Saturation pressure of water vapour over water, hPa: `6.1094 exp[17.625 T / (243.04 + T)]`
/// (Alduchov and Eskridge 1996, equation 21).
pub fn saturation_hpa(temperature: Temperature) -> f64 {
    let (a, b) = MAGNUS;
    let c = temperature.c().max(-100.0);
    6.1094 * (a * c / (b + c)).exp()
}

/// Dew point in degrees Celsius: with `g = ln(RH/100) + a T / (b + T)`, `Td = b g / (a - g)` (the
/// same constants). None for air without moisture, which has no dew point.
pub fn dew_point_c(temperature: Temperature, humidity: Humidity) -> Option<f64> {
    let (a, b) = MAGNUS;
    if humidity.tenths() == 0 {
        return None;
    }
    let c = temperature.c().max(-100.0);
    let g = humidity.fraction().ln() + a * c / (b + c);
    Some(b * g / (a - g))
}

/// [`dew_point_c`] as a temperature, to the thousandth of a degree.
pub fn dew_point(temperature: Temperature, humidity: Humidity) -> Option<Temperature> {
    dew_point_c(temperature, humidity).map(Temperature::from_c)
}

/// Saturation pressure, Pa: ASHRAE Handbook Fundamentals 2017, chapter 1, equations 5 (over ice)
/// and 6 (over water).
fn ashrae_saturation(c: f64) -> f64 {
    let t = c + 273.15;
    let ln = if c <= 0.01 {
        -5_674.535_9 / t + 6.392_524_7 - 0.009_677_843 * t
            + 6.221_570_1e-7 * t.powi(2)
            + 2.074_782_5e-9 * t.powi(3)
            - 9.484_024e-13 * t.powi(4)
            + 4.163_501_9 * t.ln()
    } else {
        -5_800.220_6 / t + 1.391_499_3 - 0.048_640_239 * t + 4.176_476_8e-5 * t.powi(2)
            - 1.445_209_3e-8 * t.powi(3)
            + 6.545_967_3 * t.ln()
    };
    ln.exp()
}

/// Kilograms of vapour to a kilogram of dry air: `0.621945 e / (p - e)` (ASHRAE, chapter 1,
/// equation 20).
fn humidity_ratio(vapour: f64, pressure: f64) -> f64 {
    0.621_945 * vapour / (pressure - vapour).max(1.0)
}

/// Wet-bulb temperature at a pressure in Pa ([`STANDARD_PRESSURE`] if unsure): the temperature
/// between dew point and air at which ASHRAE Fundamentals 2017, chapter 1, equations 33 (above
/// freezing) and 35 (below) give back the air's humidity ratio; found by halving.
pub fn wet_bulb(temperature: Temperature, humidity: Humidity, pressure: f64) -> Temperature {
    let t = temperature.c().clamp(-60.0, 90.0);
    let vapour = humidity.fraction() * ashrae_saturation(t);
    let ratio = humidity_ratio(vapour, pressure);
    let (mut low, mut high) = (-100.0_f64, t);
    // 40 halvings of at most 190 degrees: far below a thousandth.
    for _ in 0..40 {
        let bulb = f64::midpoint(low, high);
        let saturated = humidity_ratio(ashrae_saturation(bulb), pressure);
        let there = if bulb >= 0.0 {
            ((2501.0 - 2.326 * bulb) * saturated - 1.006 * (t - bulb))
                / (2501.0 + 1.86 * t - 4.186 * bulb)
        } else {
            ((2830.0 - 0.24 * bulb) * saturated - 1.006 * (t - bulb))
                / (2830.0 + 1.86 * t - 2.1 * bulb)
        };
        if there > ratio {
            high = bulb;
        } else {
            low = bulb;
        }
    }
    Temperature::from_c(f64::midpoint(low, high))
}

/// How far a surface is above the dew point, in degrees Celsius; infinite for air without
/// moisture.
pub fn dew_margin(surface: Temperature, air: Temperature, humidity: Humidity) -> f64 {
    dew_point_c(air, humidity).map_or(f64::INFINITY, |dew| surface.c() - dew)
}
