//! The form that notes how a piece will stand.

use super::context::Context;
use crate::desk::Action;
use crate::desk::typed::{FieldError, StandingTyped, read_standing};
use crate::shop::PieceId;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(piece: PieceId, ctx: &Context<'_>) -> Form {
    let standing = ctx.shop.layout_of(piece).standing;
    let t = StandingTyped::of(&standing, ctx.settings());
    let yes_no = vec![Choice::new("no", "no"), Choice::new("yes", "yes")];
    Form::new(
        &format!("How it will stand: {}", ctx.called(&[piece])),
        vec![
            Field::text("joints", "Joints", &t.joints)
                .hint("across 48 from the left, or along 12 from the front; more after ;"),
            Field::text("overhangs", "Overhangs", &t.overhangs)
                .hint("back 12, brackets 9 every 16; left 6"),
            Field::text("span", "Longest span", &t.span).hint("From support to support."),
            Field::text("appliances", "Appliances below", &t.appliances)
                .hint("From where to where: 24 to 48, barrier"),
            Field::text("drip", "Drip groove", &t.drip)
                .hint("How far behind the front edge; empty for none."),
            Field::text("height", "Height", &t.height).hint("Top over the floor."),
            Field::choice("accessible", "Accessibility asked", yes_no, &t.accessible),
        ],
    )
}

pub(super) fn read(
    form: &Form,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let typed = StandingTyped {
        joints: form.value("joints"),
        overhangs: form.value("overhangs"),
        span: form.value("span"),
        appliances: form.value("appliances"),
        drip: form.value("drip"),
        height: form.value("height"),
        accessible: form.value("accessible"),
    };
    let standing = read_standing(&typed, ctx.settings())?;
    Ok(Action::SaveStanding(piece, Box::new(standing)))
}
