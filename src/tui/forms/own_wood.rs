//! The forms for a wood of the shop's own and for the rule of readiness.

use super::context::Context;
use crate::desk::typed::{FieldError, RuleTyped, WoodTyped, read_rule, read_wood};
use crate::desk::{Action, Which};
use crate::shop::WoodId;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;

pub(super) fn form(which: Which<WoodId>, ctx: &Context<'_>) -> Form {
    let own = match which {
        Which::New => None,
        Which::This(id) => ctx.shop.wood.own.iter().find(|own| own.id == id),
    };
    let t = own.map_or_else(WoodTyped::default, |own| WoodTyped::of(&own.wood));
    let title = own.map_or_else(
        || "A wood of your own".to_owned(),
        |own| own.wood.name.clone(),
    );
    Form::new(
        &title,
        vec![
            Field::text("name", "Name", &t.name),
            Field::text("botanical", "Botanical name", &t.botanical).hint("May be empty."),
            Field::text("shrinkage", "Shrinkage, %", &t.shrinkage)
                .hint("Radial / tangential, green to ovendry, like 4.8 / 9.9."),
            Field::text("change", "Change per point", &t.change)
                .hint("Radial / tangential, like 0.00165 / 0.00353. One of the two is needed."),
            Field::text("gravity", "Specific gravity", &t.gravity).hint("At 12 %; may be empty."),
            Field::text("source", "From", &t.source).hint("Where you have the figures from."),
        ],
    )
}

pub(super) fn read(form: &Form, which: Which<WoodId>) -> Result<Action, Vec<FieldError>> {
    let wood = read_wood(&WoodTyped {
        name: form.value("name"),
        botanical: form.value("botanical"),
        shrinkage: form.value("shrinkage"),
        change: form.value("change"),
        gravity: form.value("gravity"),
        source: form.value("source"),
    })?;
    Ok(Action::SaveWood(which, wood))
}

pub(super) fn rule_form(ctx: &Context<'_>) -> Form {
    let t = RuleTyped::of(&ctx.shop.wood.rule);
    Form::new(
        "When a piece is dry and steady",
        vec![
            Field::text("days", "Days apart", &t.days).hint("Between two readings at one place."),
            Field::text("within", "Points", &t.within).hint("They may differ by so much."),
            Field::text("care", "Care over, %", &t.care),
            Field::text("stop", "Stop over, %", &t.stop),
            Field::text("fresh", "Days it speaks", &t.fresh)
                .hint("Then the last reading no longer speaks for the piece."),
        ],
    )
}

pub(super) fn read_rule_form(form: &Form) -> Result<Action, Vec<FieldError>> {
    let rule = read_rule(&RuleTyped {
        days: form.value("days"),
        within: form.value("within"),
        care: form.value("care"),
        stop: form.value("stop"),
        fresh: form.value("fresh"),
    })?;
    Ok(Action::SaveReadyRule(rule))
}
