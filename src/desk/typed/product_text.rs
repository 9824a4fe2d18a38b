//! Spread rates, can sizes and prices, written so that they read back as the same.

use super::error::FieldError;
use crate::shop::Settings;
use crate::units::{AreaStyle, Money, SpreadRate, Volume, VolumeStyle};

/// Reads a can's size.
pub(super) fn read_can(text: &str, settings: &Settings) -> Result<Volume, FieldError> {
    Volume::parse(text, settings.volume).map_err(|error| FieldError::said("can", &error))
}

/// A can's size: `1 qt`, `1/2 gal`, else as any other volume.
pub(super) fn write_can(can: Volume, settings: &Settings) -> String {
    const SIZES: [&str; 7] = [
        "1/2 pt", "1 pt", "1 qt", "1/2 gal", "1 gal", "2 gal", "5 gal",
    ];
    let exact = |text: &&str| Volume::parse(text, settings.volume) == Ok(can);
    let size = SIZES.into_iter().find(exact);
    size.map_or_else(|| write_volume(can, settings), str::to_owned)
}

/// A volume that reads back as the same: in the shop's unit where that holds it, in the other
/// where that does, else in millilitres with all their decimals.
pub(super) fn write_volume(volume: Volume, settings: &Settings) -> String {
    let other = match settings.volume {
        VolumeStyle::FluidOunces => VolumeStyle::Millilitres,
        VolumeStyle::Millilitres => VolumeStyle::FluidOunces,
    };
    [settings.volume, other]
        .map(|style| volume.show(style))
        .into_iter()
        .find(|text| Volume::parse(text, settings.volume) == Ok(volume))
        .unwrap_or_else(|| format!("{}.{:03} mL", volume.ul() / 1000, volume.ul() % 1000))
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
