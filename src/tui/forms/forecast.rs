//! The form for the air to come: until it is over, the drying clock reckons with it.

use super::context::Context;
use super::faces;
use crate::coating::ForecastStep;
use crate::desk::Action;
use crate::desk::typed::{FieldError, read_ahead, read_shop_air};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::units::moment::show_moment;

pub(super) fn form() -> Form {
    let fields = vec![
        Field::text("air", "Air to come", "").hint("58F 60: temperature and humidity."),
        Field::text("from", "From", "").hint("Empty for now; 6 pm, tomorrow 7:00, in 3 h."),
        Field::text("until", "Until", "").hint("8 am, tomorrow 7:00, in 12 h."),
    ];
    Form::new("Forecast of the shop's air", fields)
}

pub(super) fn read(form: &Form, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
    let air = read_shop_air(form.text("air"), ctx.settings());
    let from = read_ahead("from", form.text("from"), ctx.now, ctx.zone);
    let until = match form.text("until").trim() {
        "" => Err(FieldError::new(
            "until",
            "Say until when this air is to hold: 8 am, tomorrow 7:00, in 12 h.",
        )),
        text => read_ahead("until", text, ctx.now, ctx.zone),
    };
    let (air, (from, until)) = match (air, faces::both(from, until)) {
        (Ok(air), Ok(times)) => (air, times),
        (Err(error), times) => {
            let more = times.err().unwrap_or_default();
            return Err(std::iter::once(error).chain(more).collect());
        }
        (Ok(_), Err(errors)) => return Err(errors),
    };
    Ok(Action::Foretell(ForecastStep { from, until, air }))
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let air = read_shop_air(form.text("air"), ctx.settings()).ok();
    let when = |id: &'static str| {
        let text = form.text(id);
        let at = read_ahead(id, text, ctx.now, ctx.zone).ok()?;
        Some(show_moment(at, ctx.now, ctx.zone))
    };
    vec![
        (
            "air",
            air.map(|air| crate::desk::show_air(air, ctx.settings())),
        ),
        ("from", when("from")),
        (
            "until",
            when("until").filter(|_| !form.text("until").trim().is_empty()),
        ),
    ]
}
