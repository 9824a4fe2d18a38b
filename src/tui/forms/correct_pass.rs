//! The form that corrects how much a pass used.

use super::context::Context;
use crate::desk::typed::{FieldError, echo_amount, read_amount, split_sure, write_amount};
use crate::desk::{Action, DrawnDraft};
use crate::shop::{Pass, PassId, What};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::units::{Area, Volume};

fn stored<'a>(pass: PassId, ctx: &Context<'a>) -> Option<&'a Pass> {
    ctx.shop.passes.iter().find(|one| one.id == pass)
}

pub(super) fn form(pass: PassId, ctx: &Context<'_>) -> Form {
    let stored = stored(pass, ctx);
    let product = stored.and_then(|pass| ctx.shop.product(pass.product));
    let start = stored.map_or_else(String::new, |pass| {
        write_amount(pass.amount, ctx.settings())
    });
    let title = product.map_or_else(
        || "Correct a pass".to_owned(),
        |one| format!("Correct a pass of {}", one.name),
    );
    let field = Field::text("amount", "Amount used", &start)
        .hint("4 oz, 120 mL, the can before and after (1042 g > 884 g), or estimate.");
    Form::new(&title, vec![field])
}

pub(super) fn read(
    form: &Form,
    pass: PassId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let (amount, sure) = split_sure(form.text("amount"));
    let amount = read_amount(amount, ctx.settings()).map_err(|error| vec![error])?;
    let stored = stored(pass, ctx).filter(|_| sure);
    Ok(match stored {
        None => Action::CorrectPass { pass, amount },
        Some(of) => {
            let mut drawn = DrawnDraft::of(of);
            drawn.sure = true;
            Action::CorrectPassUse {
                pass,
                amount,
                drawn,
            }
        }
    })
}

pub(super) fn echo(
    form: &Form,
    pass: PassId,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    let settings = ctx.settings();
    vec![(
        "amount",
        echo_amount(
            split_sure(form.text("amount")).0,
            expected(pass, ctx),
            settings,
        ),
    )]
}

/// What the areas of the pass take at the label's rate.
fn expected(pass: PassId, ctx: &Context<'_>) -> Option<Volume> {
    let product = ctx.shop.product(stored(pass, ctx)?.product)?;
    let events = ctx.shop.files.iter().flat_map(|file| &file.events);
    let areas = events.filter_map(|event| match &event.what {
        What::Coat {
            pass: of, faces, ..
        } if *of == pass => Some(faces.iter().map(|(_, area)| *area).sum::<Area>()),
        _ => None,
    });
    Some(product.label.spread.volume_for(areas.sum()))
}
