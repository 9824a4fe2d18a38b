//! The form that takes a layout finding as it is, with the written reason.

use super::context::Context;
use super::sand_back::reason;
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::papers::finding_words;
use crate::shape::layout::{About, Rule};
use crate::shop::{PieceId, ReasonFor};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;

pub(super) fn form(piece: PieceId, rule: Rule, about: &About, ctx: &Context<'_>) -> Form {
    let words = ctx
        .shop
        .file(piece)
        .map(|file| ctx.shop.findings(file))
        .unwrap_or_default()
        .iter()
        .find(|finding| finding.rule == rule && finding.about == *about)
        .map(|finding| finding_words(finding, ctx.settings()))
        .unwrap_or_default();
    let field = Field::text("reason", "Reason", "").hint(&format!(
        "{words} Why may it stay? The reason stays on the ticket; should more be missing later, it is open again."
    ));
    let title = format!(
        "Accept {} at {about}: {}",
        rule.word(),
        ctx.called(&[piece])
    );
    let mut form = Form::new(&title, vec![field]);
    "accept".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read(
    form: &Form,
    piece: PieceId,
    rule: Rule,
    about: &About,
) -> Result<Action, Vec<FieldError>> {
    let mut errors = Vec::new();
    let reason = reason(form, ReasonFor::Accepting, &mut errors);
    if errors.is_empty() {
        Ok(Action::AcceptFinding {
            piece,
            rule,
            about: about.clone(),
            reason,
        })
    } else {
        Err(errors)
    }
}
