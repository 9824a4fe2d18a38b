//! The recipe form.

use super::context::{Context, words};
use crate::coating::ProductKind;
use crate::desk::typed::{
    FieldError, RecipeTyped, SpanUnit, echo_scuff, echo_span, read_grits, read_recipe, read_span,
    write_scuff,
};
use crate::desk::{Action, Which};
use crate::shop::{Grit, Recipe, RecipeId, ScuffMeans};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

/// The ways to scuff that are offered: those, and what is there already.
pub(super) fn scuff_choices(also: &str) -> Vec<Choice> {
    let mut means = vec![None, Some(ScuffMeans::BrownPaper), Some(ScuffMeans::Pad)];
    means.extend([220, 320, 400, 600].map(|grit| Some(ScuffMeans::FinePaper(Grit(grit)))));
    let mut choices: Vec<Choice> = means
        .into_iter()
        .map(|means| {
            let label = means.map_or_else(|| "none".to_owned(), ScuffMeans::words);
            Choice::new(write_scuff(means), label)
        })
        .collect();
    if !also.is_empty() && choices.iter().all(|choice| choice.value != also) {
        choices.push(Choice::new(
            also,
            echo_scuff(also).unwrap_or_else(|| also.to_owned()),
        ));
    }
    choices
}

fn products(kinds: &[ProductKind], first: &[&str], ctx: &Context<'_>) -> Vec<Choice> {
    let mut choices = words(first.iter().copied());
    let fitting = ctx
        .shop
        .products
        .iter()
        .filter(|product| kinds.contains(&product.kind));
    choices.extend(fitting.map(|one| Choice::new(one.id.to_string(), one.name.clone())));
    choices
}

/// The value a product's text has in the lists above.
fn picked(text: &str, ctx: &Context<'_>) -> String {
    ctx.shop
        .find_product(text)
        .map_or_else(|| text.to_owned(), |product| product.id.to_string())
}

pub(super) fn form(which: Which<RecipeId>, copy_of: Option<RecipeId>, ctx: &Context<'_>) -> Form {
    let stored = match which {
        Which::This(id) => ctx.shop.recipe(id),
        Which::New => None,
    };
    let model: Option<&Recipe> = stored
        .or_else(|| copy_of.and_then(|id| ctx.shop.recipe(id)))
        .or(ctx.shop.recipes.first());
    let mut typed = model.map_or_else(RecipeTyped::default, |one| {
        RecipeTyped::of(&one.name, &one.schedule, ctx.shop)
    });
    let title = match (stored, copy_of.and(model)) {
        (Some(recipe), _) => format!("Recipe {}", recipe.name),
        (None, Some(model)) => format!("New recipe, copied from {}", model.name),
        (None, None) => "New recipe".to_owned(),
    };
    if stored.is_none() {
        typed.name = String::new();
    }
    let scuff = typed.scuff.clone();
    let name = Field::text("name", "Name", &typed.name);
    let grits = "Coarse to fine: 80 120 150.";
    let t = &typed;
    let fields = vec![
        name,
        Field::text("show_grits", "Show faces: grits", &t.show_grits).hint(grits),
        Field::text("show_seal", "Show faces: seal coats", &t.show_seal),
        Field::toggle("show_stain", "Show faces: stained", t.show_stain == "yes"),
        Field::text("show_topcoats", "Show faces: topcoats", &t.show_topcoats),
        Field::text("end_grits", "Ends and walls: grits", &t.end_grits).hint(grits),
        Field::text("end_seal", "Ends and walls: seal coats", &t.end_seal),
        Field::toggle("end_stain", "Ends and walls: stained", t.end_stain == "yes"),
        Field::text("end_topcoats", "Ends and walls: topcoats", &t.end_topcoats),
        Field::text("under_grits", "Underside: grits", &t.under_grits).hint(grits),
        Field::text("under_seal", "Underside: seal coats", &t.under_seal),
        Field::toggle("under_stain", "Underside: stained", t.under_stain == "yes"),
        Field::text("under_topcoats", "Underside: topcoats", &t.under_topcoats),
        Field::choice(
            "wipe_down",
            "Wipe-down",
            products(&[ProductKind::Wipe], &["none", "dry"], ctx),
            &picked(&t.wipe_down, ctx),
        ),
        Field::choice(
            "sealer",
            "Sealer",
            products(&[ProductKind::Sealer, ProductKind::Topcoat], &["none"], ctx),
            &picked(&t.sealer, ctx),
        ),
        Field::choice(
            "stain",
            "Stain",
            products(&[ProductKind::Stain], &["none"], ctx),
            &picked(&t.stain, ctx),
        ),
        Field::choice(
            "topcoat",
            "Topcoat",
            products(&[ProductKind::Topcoat], &["none"], ctx),
            &picked(&t.topcoat, ctx),
        ),
        Field::choice(
            "scuff",
            "Scuff between coats",
            scuff_choices(&scuff),
            &scuff,
        ),
        Field::text("cure_days", "Cure before set", &t.cure_days).hint("Days, or 36 h."),
        Field::text("allowance", "Sides may differ by", &t.allowance)
            .hint("Coats between show faces and underside, 0 to 3."),
    ];
    Form::new(&title, fields)
}

pub(super) fn read(
    form: &Form,
    which: Which<RecipeId>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let value = |id: &str| form.value(id);
    let typed = RecipeTyped {
        name: value("name"),
        show_grits: value("show_grits"),
        show_seal: value("show_seal"),
        show_stain: value("show_stain"),
        show_topcoats: value("show_topcoats"),
        end_grits: value("end_grits"),
        end_seal: value("end_seal"),
        end_stain: value("end_stain"),
        end_topcoats: value("end_topcoats"),
        under_grits: value("under_grits"),
        under_seal: value("under_seal"),
        under_stain: value("under_stain"),
        under_topcoats: value("under_topcoats"),
        wipe_down: value("wipe_down"),
        sealer: value("sealer"),
        stain: value("stain"),
        topcoat: value("topcoat"),
        scuff: value("scuff"),
        cure_days: value("cure_days"),
        allowance: value("allowance"),
    };
    let mut errors = Vec::new();
    // An empty list reads as "none"; on the screen it is a choice not made.
    for id in ["wipe_down", "sealer", "stain", "topcoat", "scuff"] {
        if form.choice(id).is_none() {
            errors.push(FieldError::new(id, "Nothing is picked: pick one, or none."));
        }
    }
    match read_recipe(&typed, ctx.shop) {
        Ok(draft) if errors.is_empty() => Ok(Action::SaveRecipe(which, draft)),
        Ok(_) => Err(errors),
        Err(more) => {
            errors.extend(more);
            Err(errors)
        }
    }
}

pub(super) fn echo(form: &Form) -> Vec<(&'static str, Option<String>)> {
    let grits = |id: &str| {
        let grits = read_grits(form.text(id)).ok()?;
        let words: Vec<String> = grits.iter().map(ToString::to_string).collect();
        Some(words.join(", then "))
    };
    let cure = read_span("cure_days", form.text("cure_days"), Some(SpanUnit::Days));
    vec![
        ("show_grits", grits("show_grits")),
        ("end_grits", grits("end_grits")),
        ("under_grits", grits("under_grits")),
        ("cure_days", cure.ok().map(echo_span)),
    ]
}
