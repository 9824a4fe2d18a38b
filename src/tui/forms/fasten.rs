//! The form for how a piece's wood lies and how it will be held.

use super::context::Context;
use crate::desk::Action;
use crate::desk::typed::{
    FieldError, LieTyped, echo_length, grain_words, held_choices, read_lie, situation_words,
};
use crate::shop::PieceId;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

fn grain_choices() -> Vec<Choice> {
    let more = |word: &str| match word {
        "flat" => "flat: rings along the wide face (plainsawn)",
        "quarter" => "quarter: rings square to the wide face",
        "mixed" => "mixed: both, or rings at an angle; reckoned as a range",
        _ => "unknown: nobody looked; reckoned as a range",
    };
    grain_words()
        .into_iter()
        .map(|(_, word)| Choice::new(word.clone(), more(&word)))
        .collect()
}

fn hold_choices() -> Vec<Choice> {
    let more = |word: &str| match word {
        "front" => "front edge: the back takes the movement",
        "middle" => "middle: each edge takes half",
        _ => "back edge: the front takes the movement",
    };
    held_choices()
        .into_iter()
        .map(|(_, word)| Choice::new(word.clone(), more(&word)))
        .collect()
}

pub(super) fn form(piece: PieceId, ctx: &Context<'_>) -> Form {
    let Some(file) = ctx.shop.file(piece) else {
        return Form::new("How it lies and is held", Vec::new());
    };
    let lie = ctx.shop.wood.lie(&file.piece);
    let t = LieTyped::of(&lie, ctx.settings());
    let stands: Vec<Choice> = situation_words()
        .into_iter()
        .map(|(_, word)| Choice::new(word.clone(), word))
        .collect();
    let ticked: Vec<&str> = lie.situations.iter().map(|of| of.words()).collect();
    Form::new(
        &format!("How {} lies and is held", ctx.shop.called(file)),
        vec![
            Field::text("wood", "Wood in the table", &t.wood)
                .hint("Empty: as the ticket says. Type the beginning of its name."),
            Field::choice("grain", "Boards sawn", grain_choices(), &t.grain),
            Field::choice("held", "Held at", hold_choices(), &t.held),
            Field::text("screw", "Screw", &t.screw).hint("Its diameter."),
            Field::text("spacing", "Spacing", &t.spacing)
                .hint("close (18 in at most), wide (36 in), or a length."),
            Field::text("eight", "Figure-eight", &t.eight).hint("Between its two holes."),
            Field::many("stands", "Stands", stands, &ticked),
        ],
    )
}

fn typed(form: &Form) -> LieTyped {
    LieTyped {
        wood: form.value("wood"),
        grain: form.value("grain"),
        held: form.value("held"),
        screw: form.value("screw"),
        spacing: form.value("spacing"),
        eight: form.value("eight"),
        // One a line: a word of these may hold a comma.
        stands: form.value("stands"),
    }
}

pub(super) fn read(
    form: &Form,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let typed = typed(form);
    if !typed.wood.trim().is_empty()
        && let Err(error) = ctx.shop.wood.table().find(&typed.wood)
    {
        return Err(vec![FieldError::new("wood", error.to_string())]);
    }
    Ok(Action::SavePieceWood(read_lie(
        &typed,
        piece,
        ctx.settings(),
    )?))
}

pub(super) fn echo(
    form: &Form,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    let wood = form.value("wood");
    let named = if wood.trim().is_empty() {
        ctx.shop
            .file(piece)
            .map_or_else(String::new, |file| file.piece.species.clone())
    } else {
        wood
    };
    let found = match ctx.shop.wood.table().find(&named) {
        Ok(row) => row.words(),
        Err(error) => error.to_string(),
    };
    let length = |id| (id, echo_length(&form.value(id), ctx.settings()));
    vec![
        ("wood", Some(found)),
        length("screw"),
        length("spacing"),
        length("eight"),
    ]
}
