//! The Bench on a screen too narrow for a board: one plain list, stage by stage.

use super::super::kit::draw::{put_row, window};
use super::super::kit::text::wrap;
use super::super::screen::Ctx;
use super::bench::Bench;
use super::bench_view::style_of;
use crate::shop::Stage;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Below the width of a board: one plain list, stage by stage.
pub(super) fn draw(bench: &Bench, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    let selected = bench.selected().map(|card| card.piece);
    let mut rows: Vec<(String, Style)> = Vec::new();
    let mut focus = 0;
    for stage in Stage::ALL {
        let cards = bench.cards_of(stage);
        rows.push((
            format!("{}. {} {}", stage as usize + 1, stage, cards.len()),
            ctx.theme.title,
        ));
        for card in cards {
            let here = Some(card.piece) == selected;
            let mark = match (here, bench.picked.contains(&card.piece)) {
                (true, true) => "*>",
                (true, false) => "> ",
                (false, true) => "* ",
                (false, false) => "  ",
            };
            if here {
                focus = rows.len();
            }
            let words = card.waiting.words(ctx.now, ctx.zone());
            let line = format!("{}: {words}", card.called);
            let width = usize::from(area.width).saturating_sub(3);
            for (at, part) in wrap(&line, width).into_iter().enumerate() {
                let left = if at == 0 { mark } else { "  " };
                let style = if here {
                    ctx.theme.selected
                } else {
                    style_of(card.waiting.shows(), ctx)
                };
                rows.push((format!("{left} {part}"), style));
            }
        }
    }
    let height = usize::from(area.height);
    let from = window(rows.len(), height, focus);
    for (at, (line, style)) in rows.iter().skip(from).take(height).enumerate() {
        put_row(buf, area, at, line, *style, ctx.theme);
    }
}
