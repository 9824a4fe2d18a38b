//! Drawing the Bench.

use super::super::kit::draw::put;
use super::super::kit::text::{self, wrap};
use super::super::screen::Ctx;
use super::bench::{Bench, Card};
use crate::shop::{Shows, Stage};
use crate::units::moment::show_date;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Least width at which five columns can be read.
const LEAST_WIDTH: u16 = 75;
/// Least rows of the strip below the columns, its rule included.
const DETAIL: u16 = 3;

/// Draws the Bench inside `area`.
pub(super) fn draw(bench: &Bench, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    if bench.cards.is_empty() {
        empty(buf, area, ctx);
        return;
    }
    let lines = description(bench, usize::from(area.width), ctx);
    let wanted = u16::try_from(lines.len()).unwrap_or(u16::MAX);
    let detail = wanted.saturating_add(1).max(DETAIL).min(area.height / 2);
    let board = Rect {
        height: area.height - detail,
        ..area
    };
    if area.width < LEAST_WIDTH {
        super::bench_list::draw(bench, buf, board, ctx);
    } else {
        columns(bench, buf, board, ctx);
    }
    let strip = Rect {
        y: area.y + board.height,
        height: detail,
        ..area
    };
    let line = if ctx.theme.ascii { "-" } else { "\u{2500}" };
    put(
        buf,
        strip,
        0,
        0,
        &line.repeat(usize::from(area.width)),
        ctx.theme.border,
    );
    for (at, (line, style)) in lines.iter().enumerate() {
        put(buf, strip, 0, at + 1, line, *style);
    }
}

fn empty(buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    let lead = match (ctx.shop.clients.is_empty(), ctx.shop.jobs.is_empty()) {
        (true, _) => {
            "Nothing is on the bench yet. Press n to enter the first client; the first job \
                      and the first piece follow."
        }
        (false, true) => "No job yet. Press n to enter one for a client.",
        (false, false) => "No piece yet. Press n to enter the first piece.",
    };
    let stages: Vec<&str> = Stage::ALL.iter().map(|stage| stage.word()).collect();
    let what = format!("A piece then goes through {}.", stages.join(", "));
    let width = usize::from(area.width).saturating_sub(4);
    let mut row = 1;
    for (paragraph, style) in [(lead, ctx.theme.title), (what.as_str(), ctx.theme.text)] {
        for line in wrap(paragraph, width) {
            put(buf, area, 2, row, &line, style);
            row += 1;
        }
        row += 1;
    }
}

/// The sign in front of a card: a shape of its own for each state, besides its words.
pub(super) fn sign(shows: Shows, ascii: bool) -> &'static str {
    match (shows, ascii) {
        (Shows::Ready, false) => "\u{25b8}",
        (Shows::Missed, _) => "!",
        (Shows::Held, false) => "\u{25a0}",
        (Shows::Drying, _) => "~",
        (Shows::Done, _) => "=",
        (Shows::Ready, true) => "+",
        (Shows::Held, true) => "#",
    }
}

pub(super) fn style_of(shows: Shows, ctx: &Ctx<'_>) -> Style {
    match shows {
        Shows::Ready => ctx.theme.accent,
        Shows::Missed | Shows::Held => ctx.theme.warn,
        Shows::Drying | Shows::Done => ctx.theme.text,
    }
}

/// A card's lines: name, then words, each wrapped to the column.
fn lines(card: &Card, width: usize, ctx: &Ctx<'_>) -> (Vec<String>, Vec<String>) {
    let words = card.waiting.words(ctx.now, ctx.zone());
    (wrap(&card.called, width), wrap(&words, width))
}

fn columns(bench: &Bench, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    let gap = if area.width >= 100 { 2 } else { 1 };
    let width = (area.width - gap * 4) / 5;
    for (at, stage) in Stage::ALL.into_iter().enumerate() {
        let step = u16::try_from(at).unwrap_or(0);
        let column = Rect {
            x: area.x + step * (width + gap),
            width,
            ..area
        };
        draw_column(bench, buf, column, stage, at == bench.column, ctx);
    }
}

fn draw_column(
    bench: &Bench,
    buf: &mut Buffer,
    area: Rect,
    stage: Stage,
    here: bool,
    ctx: &Ctx<'_>,
) {
    let cards = bench.cards_of(stage);
    let width = usize::from(area.width);
    let head = format!("{}. {} {}", stage as usize + 1, stage.word(), cards.len());
    put(
        buf,
        area,
        0,
        0,
        &head,
        if here {
            ctx.theme.accent
        } else {
            ctx.theme.title
        },
    );
    let line = if ctx.theme.ascii { "-" } else { "\u{2500}" };
    let rule = if here && ctx.theme.ascii {
        "="
    } else if here {
        "\u{2550}"
    } else {
        line
    };
    put(buf, area, 0, 1, &rule.repeat(width), ctx.theme.border);
    let body = Rect {
        y: area.y + 2,
        height: area.height.saturating_sub(2),
        ..area
    };
    if cards.is_empty() {
        put(buf, body, 0, 0, "none", ctx.theme.dim);
        return;
    }
    let inner = width.saturating_sub(2);
    let heights: Vec<usize> = cards
        .iter()
        .map(|card| {
            let (name, words) = lines(card, inner, ctx);
            name.len() + words.len() + 1
        })
        .collect();
    let focus = if here {
        let selected = bench.selected().map(|card| card.piece);
        cards
            .iter()
            .position(|card| Some(card.piece) == selected)
            .unwrap_or(0)
    } else {
        0
    };
    let (from, to) = visible(&heights, usize::from(body.height), focus);
    let mut row = 0;
    if from > 0 {
        put(
            buf,
            body,
            0,
            row,
            &format!("{from} more above"),
            ctx.theme.dim,
        );
        row += 1;
    }
    for (at, card) in cards.iter().enumerate().take(to).skip(from) {
        row = draw_card(bench, buf, body, row, card, here && at == focus, ctx);
    }
    if to < cards.len() {
        let below = format!("{} more below", cards.len() - to);
        put(
            buf,
            body,
            0,
            usize::from(body.height).saturating_sub(1),
            &below,
            ctx.theme.dim,
        );
    }
}

/// Which cards fit: a range that holds `focus`, with a row kept for "more" where some are left
/// out on that side.
fn visible(heights: &[usize], rows: usize, focus: usize) -> (usize, usize) {
    let room = |from: usize, to: usize| {
        rows.saturating_sub(usize::from(from > 0) + usize::from(to < heights.len()))
    };
    // The last card needs no blank row after it.
    let fits = |from: usize, to: usize| {
        heights[from..to].iter().sum::<usize>().saturating_sub(1) <= room(from, to)
    };
    let (mut from, mut to) = (focus, focus + 1);
    loop {
        if to < heights.len() && fits(from, to + 1) {
            to += 1;
        } else if from > 0 && fits(from - 1, to) {
            from -= 1;
        } else {
            return (from, to);
        }
    }
}

fn draw_card(
    bench: &Bench,
    buf: &mut Buffer,
    area: Rect,
    mut row: usize,
    card: &Card,
    selected: bool,
    ctx: &Ctx<'_>,
) -> usize {
    let inner = usize::from(area.width).saturating_sub(2);
    let (name, words) = lines(card, inner, ctx);
    let shows = card.waiting.shows();
    let picked = bench.picked.contains(&card.piece);
    for (at, line) in name.iter().enumerate() {
        let left = match (selected, picked) {
            (true, true) => "*>",
            (true, false) => "> ",
            (false, true) => "* ",
            (false, false) => "  ",
        };
        let style = if selected {
            ctx.theme.selected
        } else {
            ctx.theme.title
        };
        let left = if at == 0 { left } else { "  " };
        let text = text::fit(&format!("{left}{line}"), usize::from(area.width));
        put(buf, area, 0, row, &text, style);
        row += 1;
    }
    for (at, line) in words.iter().enumerate() {
        if at == 0 {
            put(
                buf,
                area,
                0,
                row,
                sign(shows, ctx.theme.ascii),
                style_of(shows, ctx),
            );
        }
        put(buf, area, 2, row, line, style_of(shows, ctx));
        row += 1;
    }
    row + 1
}

/// The strip below the board: the selected piece in full.
fn description(bench: &Bench, width: usize, ctx: &Ctx<'_>) -> Vec<(String, Style)> {
    let Some(card) = bench.selected() else {
        let words = "No piece stands in this stage.";
        return vec![(words.to_owned(), ctx.theme.dim)];
    };
    let today = ctx.now.with_timezone(&ctx.zone()).date_naive();
    let mut who = card.called.clone();
    if let Some(file) = ctx.shop.file(card.piece)
        && let Some(job) = ctx.shop.job(file.piece.job)
    {
        let client = ctx
            .shop
            .client(job.client)
            .map_or("", |client| client.name.as_str());
        who = format!("{who} \u{b7} {} \u{b7} {client}", job.title);
        if let Some(date) = job.promised {
            let left = days_left((date - today).num_days());
            who = format!("{who} \u{b7} promised {} ({left})", show_date(date, today));
        }
    }
    let picked = match bench.picked.len() {
        0 => String::new(),
        1 => " \u{b7} 1 piece picked".to_owned(),
        n => format!(" \u{b7} {n} pieces picked"),
    };
    let words = format!("{}{picked}", card.waiting.line(ctx.now, ctx.zone()));
    let style = style_of(card.waiting.shows(), ctx);
    let who = wrap(&who, width)
        .into_iter()
        .map(|line| (line, ctx.theme.text));
    let words = wrap(&words, width).into_iter().map(|line| (line, style));
    who.chain(words).collect()
}

fn days_left(days: i64) -> String {
    match days {
        0 => "today".to_owned(),
        1 => "in 1 day".to_owned(),
        2.. => format!("in {days} days"),
        -1 => "1 day late".to_owned(),
        _ => format!("{} days late", -days),
    }
}

#[cfg(test)]
mod tests {
    use super::visible;

    #[test]
    fn the_focus_is_always_visible_and_fits() {
        for rows in 4..20 {
            for focus in 0..6 {
                let heights = [4, 5, 3, 6, 4, 4];
                let (from, to) = visible(&heights, rows, focus);
                assert!(from <= focus && focus < to, "{rows} {focus}: {from}..{to}");
            }
        }
    }
}
