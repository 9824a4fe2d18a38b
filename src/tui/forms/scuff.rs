//! The form for a scuff between coats.

use super::context::Context;
use super::faces;
use super::recipe::scuff_choices;
use crate::desk::Action;
use crate::desk::typed::{FieldError, read_scuff, write_scuff};
use crate::shop::{Grit, PieceId, ScuffMeans};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;

/// Where a schedule names none: fine paper, which keys any film (common practice, no source).
pub(super) const USUAL: ScuffMeans = ScuffMeans::FinePaper(Grit(320));

pub(super) fn form(pieces: &[PieceId], ctx: &Context<'_>) -> Form {
    let asked = ctx
        .opened(pieces)
        .iter()
        .find_map(|(_, ticket)| ticket.schedule.scuff);
    let means = write_scuff(Some(asked.unwrap_or(USUAL)));
    let mut choices = scuff_choices(&means);
    choices.retain(|choice| choice.value != "none");
    let fields = vec![
        faces::field(pieces, faces::to_scuff, ctx),
        Field::choice("scuff", "With", choices, &means),
    ];
    faces::log_form("Scuff", pieces, fields, ctx)
}

pub(super) fn read(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let means = read_scuff(&form.value("scuff")).and_then(|means| {
        means.ok_or_else(|| {
            FieldError::new("scuff", "Nothing is picked: say what it was scuffed with.")
        })
    });
    let (picks, means, at) = faces::three(
        faces::picks(form, pieces, ctx),
        means,
        faces::moment(form, "at", ctx),
    )?;
    Ok(Action::Scuff { picks, means, at })
}

pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    faces::log_echo(form, pieces, faces::to_scuff, ctx)
}
