//! The form for a touch test. No finding is picked to begin with: it opens or shuts the way for
//! the next coat, so it is the person's to say.

use super::context::Context;
use super::faces;
use crate::desk::Action;
use crate::desk::typed::{FieldError, read_verdict};
use crate::shop::{PieceId, TouchVerdict};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(pieces: &[PieceId], ctx: &Context<'_>) -> Form {
    let verdicts: Vec<Choice> = TouchVerdict::ALL
        .map(|verdict| Choice::new(verdict.code(), verdict.words()))
        .into();
    let fields = vec![
        Field::choice("verdict", "It is", verdicts, "")
            .hint("Dry to recoat: sands to powder, does not clog the paper."),
        faces::field(pieces, |ticket| faces::to_touch(ticket, ctx), ctx),
    ];
    faces::log_form("Touch test", pieces, fields, ctx)
}

pub(super) fn read(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let verdict = form
        .choice("verdict")
        .ok_or_else(|| FieldError::new("verdict", "Nothing is picked: say what the touch found."))
        .and_then(read_verdict);
    let (verdict, picks, at) = faces::three(
        verdict,
        faces::picks(form, pieces, ctx),
        faces::moment(form, "at", ctx),
    )?;
    Ok(Action::Touch { picks, verdict, at })
}

pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    faces::log_echo(form, pieces, |ticket| faces::to_touch(ticket, ctx), ctx)
}
