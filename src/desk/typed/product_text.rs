//! Spread rates, can sizes and prices, written so that they read back as the same.

use super::error::FieldError;
use crate::shop::Settings;
use crate::units::{AreaStyle, Money, SpreadRate, Volume, VolumeStyle};

/// Reads a can's size.
pub(super) fn read_can(text: &str, settings: &Settings) -> Result<Volume, FieldError> {
    Volume::parse(text, settings.volume).map_err(|error| FieldError::said("can", &error))
}

/// A can's size: `1 qt`, `2.5 L`, else millilitres with all their decimals.
pub(super) fn write_can(can: Volume, settings: &Settings) -> String {
    const SIZES: [&str; 9] = [
        "1/2 pt", "1 pt", "1 qt", "1/2 gal", "1 gal", "2 gal", "5 gal", "1 L", "4 qt",
    ];
    let exact = |text: &String| Volume::parse(text, settings.volume) == Ok(can);
    let quarts = (2..=80).map(|count| format!("{count} qt"));
    let other = match settings.volume {
        VolumeStyle::FluidOunces => VolumeStyle::Millilitres,
        VolumeStyle::Millilitres => VolumeStyle::FluidOunces,
    };
    let shown = [settings.volume, other].map(|style| can.show(style));
    let litres = format!("{} L", can.litres());
    SIZES
        .into_iter()
        .map(str::to_owned)
        .chain(quarts)
        .chain(shown)
        .chain([litres])
        .find(exact)
        .unwrap_or_else(|| format!("{}.{:03} mL", can.ul() / 1000, can.ul() % 1000))
}

/// Reads a spread rate.
pub(super) fn read_spread(text: &str) -> Result<SpreadRate, FieldError> {
    SpreadRate::parse(text).map_err(|error| FieldError::said("spread", &error))
}

/// A spread rate, in the shop's way of writing where that holds it, else with as many decimals as
/// it takes.
pub(super) fn write_spread(rate: SpreadRate, settings: &Settings) -> String {
    let styles = match settings.area() {
        AreaStyle::SquareFeet => [AreaStyle::SquareFeet, AreaStyle::SquareMetres],
        AreaStyle::SquareMetres => [AreaStyle::SquareMetres, AreaStyle::SquareFeet],
    };
    let full = |style| match style {
        AreaStyle::SquareFeet => format!("{} sq ft/gal", rate.sq_ft_per_gal()),
        AreaStyle::SquareMetres => format!("{} m2/L", rate.m2_per_l()),
    };
    let exact = |text: &String| SpreadRate::parse(text) == Ok(rate);
    let mut texts = styles
        .map(|style| rate.show(style))
        .into_iter()
        .chain(styles.map(full));
    texts
        .find(exact)
        .unwrap_or_else(|| full(AreaStyle::SquareMetres))
}

/// Reads a price.
pub(super) fn read_price(text: &str) -> Result<Money, FieldError> {
    let price = Money::parse(text).map_err(|error| FieldError::said("price", &error))?;
    if price < Money::ZERO {
        let message = "A can's price is nothing or more: write it without the minus.";
        return Err(FieldError::new("price", message));
    }
    Ok(price)
}
