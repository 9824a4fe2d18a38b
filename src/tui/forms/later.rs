//! The form that asks what a coat would do if it went on later. It logs nothing.

use super::context::Context;
use super::faces;
use crate::coating::ProductId;
use crate::desk::later_lines;
use crate::desk::typed::{FieldError, read_ahead};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;
use crate::units::moment::show_moment;

pub(super) fn form(product: Option<ProductId>, ctx: &Context<'_>) -> Form {
    let products = ctx.shop.products.iter();
    let choices = products.map(|one| Choice::new(one.id.to_string(), one.name.clone()));
    let start = product.or_else(|| ctx.shop.products.first().map(|one| one.id));
    let start = start.map_or_else(String::new, |id| id.to_string());
    let fields = vec![
        Field::choice("product", "A coat of", choices.collect(), &start),
        Field::text("at", "Laid at", "").hint("Empty for now; 5 pm, tomorrow 7:00, in 3 h."),
    ];
    let mut form = Form::new("If a coat went on later", fields);
    "tell".clone_into(&mut form.submit_word);
    form
}

/// What it would do, as lines to read.
pub(super) fn read(form: &Form, ctx: &Context<'_>) -> Result<Vec<String>, Vec<FieldError>> {
    let product = form
        .choice("product")
        .and_then(|id| {
            ctx.shop
                .products
                .iter()
                .find(|one| one.id.to_string() == id)
        })
        .ok_or_else(|| FieldError::new("product", "Pick one of the products."));
    let at = read_ahead("at", form.text("at"), ctx.now, ctx.zone);
    let (product, at) = faces::both(product, at)?;
    Ok(later_lines(ctx.shop, product, at, ctx.now))
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let at = read_ahead("at", form.text("at"), ctx.now, ctx.zone).ok();
    vec![("at", at.map(|at| show_moment(at, ctx.now, ctx.zone)))]
}
