//! What the pass form shows before it is confirmed: the checks of air, wood, wipe-down and stain,
//! and the cautions of the product that is picked.

use super::context::Context;
use super::pass::{meant, picked_product, scuffed};
use crate::coating::Stands;
use crate::desk::typed::{read_air, read_when};
use crate::desk::{Condition, PassAsked};
use crate::shop::{Caution, CoatKind, PieceId, cautions_for_pass};
use crate::tui::kit::form::Form;

/// The id of the field that shows them.
pub(super) const FIELD: &str = "checks";

/// The checks as the form stands; none while the product is not known.
pub(super) fn conditions(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Vec<Condition> {
    let Some(product) = picked_product(form, pieces, kind, ctx) else {
        return Vec::new();
    };
    let on = meant(form, pieces, kind, ctx);
    let at = read_when(form.text("started"), ctx.now, ctx.zone).unwrap_or(ctx.now);
    let asked = PassAsked {
        on: &on,
        product,
        at,
        air: read_air(form.text("air"), ctx.settings()).unwrap_or(None),
    };
    ctx.shop.conditions(&asked, &ctx.shop.clock())
}

/// Shows them in their field.
pub(super) fn show(form: &mut Form, pieces: &[PieceId], kind: CoatKind, ctx: &Context<'_>) {
    let lines = conditions(form, pieces, kind, ctx)
        .iter()
        .map(|condition| {
            let words = ctx.shop.condition_words(condition, ctx.now);
            let minds = matches!(condition.finding.stands, Stands::Mind | Stands::Hold);
            (words, minds)
        })
        .collect();
    if let Some(field) = form.field_mut(FIELD) {
        field.tell(lines);
    }
}

/// What says that it had better wait, in words.
pub(super) fn holds(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Vec<String> {
    conditions(form, pieces, kind, ctx)
        .iter()
        .filter(|condition| condition.finding.stands == Stands::Hold)
        .map(|condition| ctx.shop.condition_words(condition, ctx.now))
        .collect()
}

/// The cautions of the product that is picked.
pub(super) fn cautions(
    form: &Form,
    pieces: &[PieceId],
    kind: CoatKind,
    ctx: &Context<'_>,
) -> Vec<Caution> {
    let scuffs = scuffed(form).is_ok_and(|means| means.is_some());
    picked_product(form, pieces, kind, ctx)
        .map(|product| cautions_for_pass(product, kind, scuffs))
        .unwrap_or_default()
}
