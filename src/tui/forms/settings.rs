//! The settings form.

use super::context::{Context, words};
use crate::desk::Action;
use crate::desk::typed::{FieldError, SettingsTyped, read_settings};
use crate::shop::LookChoice;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(ctx: &Context<'_>) -> Form {
    let t = SettingsTyped::of(ctx.settings());
    let lengths = vec![
        Choice::new("1/16 in", "feet and inches to 1/16"),
        Choice::new("1/32 in", "feet and inches to 1/32"),
        Choice::new("mm", "millimetres"),
    ];
    let degrees = vec![Choice::new("F", "Fahrenheit"), Choice::new("C", "Celsius")];
    let volumes = vec![
        Choice::new("oz", "US fluid ounces"),
        Choice::new("mL", "millilitres"),
    ];
    let zones = words(chrono_tz::TZ_VARIANTS.iter().map(|zone| zone.name()));
    let looks = words(LookChoice::ALL.map(|(_, word)| word));
    Form::new(
        "Settings",
        vec![
            Field::text("shop_name", "Shop name", &t.shop_name).hint("As it stands on papers."),
            Field::text("shop_address", "Shop address", &t.shop_address),
            Field::choice("length", "Lengths in", lengths, &t.length),
            Field::choice("temperature", "Temperatures in", degrees, &t.temperature),
            Field::choice("volume", "Volumes in", volumes, &t.volume),
            Field::choice("zone", "Time zone", zones, &t.zone),
            Field::choice("look", "Look", looks, &t.look),
        ],
    )
}

pub(super) fn read(form: &Form) -> Result<Action, Vec<FieldError>> {
    let settings = read_settings(&SettingsTyped {
        shop_name: form.value("shop_name"),
        shop_address: form.value("shop_address"),
        length: form.value("length"),
        temperature: form.value("temperature"),
        volume: form.value("volume"),
        zone: form.value("zone"),
        look: form.value("look"),
    })?;
    Ok(Action::SaveSettings(settings))
}
