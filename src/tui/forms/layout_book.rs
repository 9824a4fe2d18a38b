//! The forms of the shop's own layout figures: checks, router, strips and lumber.

use super::context::{Context, words};
use crate::desk::Action;
use crate::desk::typed::{
    CheckTyped, FieldError, LumberTyped, RouterTyped, read_check, read_lumber, read_router,
};
use crate::papers::figure_words;
use crate::shape::layout::{Figure, Rule, RuleSetting};
use crate::shop::LayoutBook;
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;

fn save(book: LayoutBook) -> Action {
    Action::SaveLayoutBook(Box::new(book))
}

/// One line for each check: its figure and weight, or `off`.
pub(super) fn checks_form(ctx: &Context<'_>) -> Form {
    let rules = &ctx.shop.layout.rules;
    let fields = Rule::ALL.into_iter().map(|rule| {
        let (facts, setting) = (rule.facts(), rules.setting(rule));
        let began = match facts.figure {
            Figure::None => String::new(),
            figure => format!("{} ", figure_words(figure, ctx.settings())),
        };
        let hint = format!(
            "{}. Began as {began}{}: {}, {}.",
            facts.asks,
            facts.weight.word(),
            facts.kind.word(),
            facts.source
        );
        Field::text(facts.word, facts.word, &check_text(&setting, ctx)).hint(&hint)
    });
    let fields: Vec<Field> = fields.collect();
    Form::new(
        "Layout checks: figure and note, warning or serious; or off",
        fields,
    )
}

fn check_text(setting: &RuleSetting, ctx: &Context<'_>) -> String {
    if !setting.made {
        return "off".to_owned();
    }
    let typed = CheckTyped::of(setting, ctx.settings());
    format!("{} {}", typed.figure, typed.weight)
        .trim()
        .to_owned()
}

pub(super) fn checks_read(form: &Form, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
    let mut book = ctx.shop.layout.clone();
    let mut errors = Vec::new();
    for rule in Rule::ALL {
        let word = rule.word();
        let text = form.value(word);
        let text = text.trim();
        let mut setting = book.rules.setting(rule);
        if text.eq_ignore_ascii_case("off") {
            setting.made = false;
        } else {
            let (figure, weight) = text.rsplit_once(' ').unwrap_or(("", text));
            let typed = CheckTyped {
                figure: figure.to_owned(),
                weight: weight.to_owned(),
                made: "yes".to_owned(),
            };
            match read_check(rule, &typed, ctx.settings()) {
                Ok(read) => setting = read,
                Err(said) => {
                    errors.extend(said.into_iter().take(1).map(|error| error.at(word)));
                    continue;
                }
            }
        }
        if let Err(error) = book.rules.set(rule, setting) {
            errors.push(FieldError::new(word, error.to_string()));
        }
    }
    if errors.is_empty() {
        Ok(save(book))
    } else {
        Err(errors)
    }
}

pub(super) fn router_form(ctx: &Context<'_>) -> Form {
    let t = RouterTyped::of(&ctx.shop.layout.router, ctx.settings());
    Form::new(
        "The shop's router",
        vec![
            Field::text("bit", "Bit", &t.bit).hint("Cutting diameter."),
            Field::text("cutting_length", "Cutting length", &t.cutting_length),
            Field::text("flutes", "Flutes", &t.flutes),
            Field::text("rpm", "Turns a minute", &t.rpm),
            Field::text("chip", "Chip load", &t.chip)
                .hint("What one flute takes in one turn: 0.005 in, or 0.1 mm."),
            Field::text("depth", "Depth of a pass", &t.depth)
                .hint("at most 1/4, half bit, whole bit or 9 passes"),
            Field::text("clean_up", "Clean-up", &t.clean_up).hint("none, last 1/16 or wall 1/8"),
            Field::text("guide", "Guide", &t.guide)
                .hint("bushing and its outside diameter, or bearing"),
        ],
    )
}

pub(super) fn router_read(form: &Form, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
    let typed = RouterTyped {
        bit: form.value("bit"),
        cutting_length: form.value("cutting_length"),
        flutes: form.value("flutes"),
        rpm: form.value("rpm"),
        chip: form.value("chip"),
        depth: form.value("depth"),
        clean_up: form.value("clean_up"),
        guide: form.value("guide"),
    };
    let mut book = ctx.shop.layout.clone();
    book.router = read_router(&typed, ctx.settings())?;
    Ok(save(book))
}

pub(super) fn boards_form(ctx: &Context<'_>) -> Form {
    let book = &ctx.shop.layout;
    let t = LumberTyped::of(&book.lumber, book.page, ctx.settings());
    Form::new(
        "Strips, lumber and paper",
        vec![
            Field::text("strip", "Strip", &t.strip).hint("Seen width of one strip."),
            Field::text("end_trim", "Trim at ends", &t.end_trim).hint("Left on each end."),
            Field::text("side_trim", "Trim at sides", &t.side_trim)
                .hint("Left on each long side of the blank."),
            Field::text("kerf", "Kerf", &t.kerf).hint("Saw cut and jointing together."),
            Field::text("waste", "Waste %", &t.waste)
                .hint("Of what is bought: to buy is net / (1 - waste)."),
            Field::text("board_width", "Board width", &t.board_width),
            Field::text("board_length", "Board length", &t.board_length),
            Field::text("quarters", "Quarters", &t.quarters).hint("Rough thickness: 8 for 8/4."),
            Field::choice("page", "Paper", words(["letter", "a4"]), &t.page),
        ],
    )
}

pub(super) fn boards_read(form: &Form, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
    let typed = LumberTyped {
        strip: form.value("strip"),
        end_trim: form.value("end_trim"),
        side_trim: form.value("side_trim"),
        kerf: form.value("kerf"),
        waste: form.value("waste"),
        board_width: form.value("board_width"),
        board_length: form.value("board_length"),
        quarters: form.value("quarters"),
        page: form.value("page"),
    };
    let mut book = ctx.shop.layout.clone();
    (book.lumber, book.page) = read_lumber(&typed, ctx.settings())?;
    Ok(save(book))
}
