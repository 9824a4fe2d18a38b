//! Air that is asked about before it is logged: a scale mixed up, a fraction for percent.

use super::error::DeskError;
use crate::coating::ShopAir;
use crate::shop::Settings;
use crate::units::{Temperature, TemperatureStyle};

/// A shop's air is nearly always between these, in thousandths of a degree Celsius (32 to 104 F);
/// judgement.
const USUAL: std::ops::RangeInclusive<i32> = 0..=40_000;
/// What a mistaken scale is recognised by: the same number in the other scale lies here (41 to
/// 95 F); judgement.
const MEANT: std::ops::RangeInclusive<i32> = 5_000..=35_000;
/// What nobody can insist on: no shop is worked in beyond it.
const POSSIBLE: std::ops::RangeInclusive<i32> = -50_000..=70_000;
/// Questions a temperature that is no usual shop air, and says what was probably meant. A person
/// who is sure is believed within what is possible at all.
pub(super) fn likely(air: ShopAir, sure: bool, settings: &Settings) -> Result<(), DeskError> {
    dry(air, sure)?;
    let temperature = air.temperature;
    let milli = temperature.milli_c();
    if (sure && POSSIBLE.contains(&milli)) || USUAL.contains(&milli) {
        return Ok(());
    }
    let (c, f) = (TemperatureStyle::Celsius, TemperatureStyle::Fahrenheit);
    let as_f = (Temperature::from_f(temperature.c()), f, c);
    let as_c = (Temperature::from_c(temperature.f()), c, f);
    // The shop's own scale is the one that is typed without thinking.
    let order = match settings.temperature {
        TemperatureStyle::Fahrenheit => [as_f, as_c],
        TemperatureStyle::Celsius => [as_c, as_f],
    };
    let meant = order
        .into_iter()
        .find(|(other, ..)| MEANT.contains(&other.milli_c()));
    let (said, meant) = match meant {
        Some((other, scale, typed)) => (typed, Some(other.show(scale))),
        None => (settings.temperature, None),
    };
    let beside = if said == c { f } else { c };
    Err(DeskError::DoubtfulAir {
        shown: format!("{} ({})", temperature.show(said), temperature.show(beside)),
        meant,
        firm: sure,
    })
}

/// Questions a humidity that only a fraction of one has: air under 2 % is found in no shop
/// (judgement).
fn dry(air: ShopAir, sure: bool) -> Result<(), DeskError> {
    let humidity = air.humidity;
    if sure || humidity.tenths() >= 20 {
        return Ok(());
    }
    let shown = humidity.show();
    Err(DeskError::DoubtfulHumidity { shown })
}
