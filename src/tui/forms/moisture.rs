//! The form for a moisture reading.

use super::context::Context;
use super::faces;
use crate::desk::typed::{FieldError, ReadingTyped, echo_length, read_reading};
use crate::desk::{Action, Which};
use crate::shop::{Moisture, PieceId, ReadingId};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;
use crate::wood::moisture::Meter;

fn before<'a>(which: Which<ReadingId>, piece: PieceId, ctx: &Context<'a>) -> Option<&'a Moisture> {
    let Which::This(id) = which else { return None };
    ctx.shop.moisture(piece).iter().find(|of| of.id == id)
}

pub(super) fn form(which: Which<ReadingId>, piece: PieceId, ctx: &Context<'_>) -> Form {
    let typed = match before(which, piece, ctx) {
        Some(of) => ReadingTyped::of(&of.reading, ctx.settings()),
        // Readings are compared place by place: the last one's place and meter come first.
        None => ctx.shop.moisture(piece).last().map_or_else(
            || ReadingTyped {
                meter: Meter::Pin.words().to_owned(),
                correction: "not noted".to_owned(),
                ..ReadingTyped::default()
            },
            |last| ReadingTyped {
                value: String::new(),
                at: String::new(),
                ..ReadingTyped::of(&last.reading, ctx.settings())
            },
        ),
    };
    let meters = Meter::ALL.map(|meter| Choice::new(meter.words(), meter.words()));
    let title = match which {
        Which::New => format!("Moisture reading of {}", ctx.called(&[piece])),
        Which::This(_) => format!("Correct a reading of {}", ctx.called(&[piece])),
    };
    let at = faces::when("at", "When");
    let mut form = Form::new(
        &title,
        vec![
            Field::text("value", "Reads, %", &typed.value)
                .hint("What the meter shows, like 8.4, before any correction."),
            Field::text("place", "Where", &typed.place)
                .hint("The same words each time: readings are compared place by place."),
            Field::text("depth", "Pin depth", &typed.depth).hint("May be empty."),
            Field::choice("meter", "With", meters.into(), &typed.meter),
            Field::text("correction", "For the species", &typed.correction)
                .hint("not noted, in the meter, or the points to add: +0.7."),
            at,
        ],
    );
    if !typed.at.is_empty() {
        form.set("at", &typed.at);
    }
    form.call_clean();
    form
}

fn typed(form: &Form) -> ReadingTyped {
    ReadingTyped {
        value: form.value("value"),
        place: form.value("place"),
        depth: form.value("depth"),
        meter: form.value("meter"),
        correction: form.value("correction"),
        at: form.value("at"),
    }
}

pub(super) fn read(
    form: &Form,
    which: Which<ReadingId>,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let before = before(which, piece, ctx).map(|of| &of.reading);
    let reading = read_reading(&typed(form), before, ctx.settings(), ctx.now)?;
    Ok(Action::SaveMoisture(which, piece, reading))
}

pub(super) fn echo(
    form: &Form,
    which: Which<ReadingId>,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    let before = before(which, piece, ctx).map(|of| &of.reading);
    let read = read_reading(&typed(form), before, ctx.settings(), ctx.now).ok();
    let content = read.map(|reading| format!("counts as {}", reading.content().show()));
    vec![
        ("value", content),
        ("depth", echo_length(&form.value("depth"), ctx.settings())),
        faces::echo_moment(form, "at", ctx),
    ]
}
