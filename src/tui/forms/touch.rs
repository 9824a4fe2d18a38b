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
        faces::field(pieces, faces::to_touch, ctx),
        faces::when("at", "When"),
    ];
    let mut form = Form::new(&format!("Touch test: {}", ctx.called(pieces)), fields);
    "log".clone_into(&mut form.submit_word);
    form
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
    let picked = faces::both(verdict, faces::picks(form, pieces, ctx));
    let at = faces::moment(form, "at", ctx);
    match (picked, at) {
        (Ok((verdict, picks)), Ok(at)) => Ok(Action::Touch { picks, verdict, at }),
        (Ok(_), Err(error)) => Err(vec![error]),
        (Err(errors), at) => Err(errors.into_iter().chain(at.err()).collect()),
    }
}

pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    vec![
        faces::echo(form, pieces, faces::to_touch, ctx),
        faces::echo_moment(form, "at", ctx),
    ]
}
