//! One coat of the Rack in full: every stage with its safe and likely moment, the window, the hours
//! it has had, what holds it back.

use super::super::kit::text;
use super::super::screen::Ctx;
use super::list::{Cell, Line, Tone, beside, plain};
use super::rack_rows::called;
use crate::shop::{Film, Milestone, RackLine};
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};

fn at(moment: DateTime<Utc>, ctx: &Ctx<'_>) -> String {
    let words = show_moment(moment, ctx.now, ctx.zone());
    if moment <= ctx.now {
        format!("since {words}")
    } else {
        words
    }
}

/// The stages as a small table: stage, likely, safe.
fn stages(film: &Film, all: bool, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let column = |text: &str, likely: &str, safe: &str| {
        let cells = [
            Cell::left(text, 15),
            Cell::left(likely, 22),
            Cell::left(safe, width.saturating_sub(15 + 22 + 4)),
        ];
        beside(&cells)
    };
    let line = |milestone: &Milestone| {
        let (likely, safe) = if milestone.in_sight {
            (
                at(milestone.times.likely, ctx),
                at(milestone.times.safe, ctx),
            )
        } else {
            ("not in this air".to_owned(), "not in this air".to_owned())
        };
        column(milestone.stage.words(), &likely, &safe)
    };
    let head = column(
        "stage",
        "likely, worth a test",
        "safe, the program holds to it",
    );
    let mut lines: Vec<Line> = head.into_iter().map(|line| (Tone::Dim, line)).collect();
    let reached = film
        .milestones
        .iter()
        .filter(|one| one.times.safe <= ctx.now);
    let skip = if all {
        0
    } else {
        reached.count().saturating_sub(1)
    };
    for milestone in film.milestones.iter().skip(skip) {
        lines.extend(line(milestone).into_iter().map(plain));
    }
    lines
}

/// What stands below the list for the row picked: of the stages that are past only the last,
/// unless `all` are asked for.
pub(super) fn lines(line: &RackLine, all: bool, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let piece = called(ctx, line.row.piece);
    let Some(film) = &line.film else {
        return vec![(
            Tone::Title,
            format!("{piece}, {}: no film to follow", line.coat_words()),
        )];
    };
    let product = ctx
        .shop
        .product(film.product)
        .map_or_else(String::new, |product| format!(" of {}", product.name));
    let laid = show_moment(film.laid, ctx.now, ctx.zone());
    let mut out = vec![(
        Tone::Title,
        format!(
            "{piece}, {}{product}, laid {laid}: {}",
            line.coat_words(),
            film.stage_words()
        ),
    )];
    out.extend(stages(film, all, width, ctx));
    let window = film.window_words(ctx.now, ctx.zone());
    out.push(plain(format!("{}; {window}", film.hours_words())));
    let style = ctx.shop.settings.temperature;
    let slow = film.slow_words(ctx.now, ctx.zone(), style);
    let tone = if film.is_slow() {
        Tone::Warn
    } else {
        Tone::Dim
    };
    if !slow.is_empty() {
        out.push((tone, slow));
    }
    let mut taught = Vec::new();
    taught.extend(
        film.touch_words(ctx.now, ctx.zone())
            .map(|words| format!("tested: {words}")),
    );
    taught.push(film.learned_words());
    out.push((Tone::Dim, taught.join("; ")));
    out
}

/// The same as a page to read.
pub(super) fn page(line: &RackLine, width: usize, ctx: &Ctx<'_>) -> Vec<String> {
    lines(line, true, width, ctx)
        .into_iter()
        .flat_map(|(_, line)| text::wrap(&line, width))
        .collect()
}
