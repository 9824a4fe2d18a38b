//! The form for the wipe-down.

use super::context::Context;
use super::faces;
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::shop::PieceId;
use crate::tui::kit::form::Form;

pub(super) fn form(pieces: &[PieceId], ctx: &Context<'_>) -> Form {
    let fields = vec![
        faces::field(pieces, faces::to_wipe, ctx),
        faces::when("at", "When"),
    ];
    let mut form = Form::new(&format!("Wipe down: {}", ctx.called(pieces)), fields);
    "log".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let (picks, at) = faces::both(
        faces::picks(form, pieces, ctx),
        faces::moment(form, "at", ctx),
    )?;
    Ok(Action::Wipe { picks, at })
}

pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    vec![
        faces::echo(form, pieces, faces::to_wipe, ctx),
        faces::echo_moment(form, "at", ctx),
    ]
}
