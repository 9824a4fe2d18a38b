//! Drawing of lists whose rows take as many lines as they need, and of the pane beside or below.

use super::super::kit::table::Side;
use super::super::kit::{Theme, draw, text};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// What a line is, for its style. The words say it too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tone {
    Text,
    Dim,
    Title,
    Warn,
    Good,
}

impl Tone {
    fn style(self, theme: &Theme) -> Style {
        match self {
            Self::Text => theme.text,
            Self::Dim => theme.dim,
            Self::Title => theme.title,
            Self::Warn => theme.warn,
            Self::Good => theme.good,
        }
    }
}

/// A line with its tone.
pub(super) type Line = (Tone, String);

/// A line of ordinary text.
pub(super) fn plain(s: impl Into<String>) -> Line {
    (Tone::Text, s.into())
}

/// The lines wrapped to a width, each going on under its own indentation.
pub(super) fn wrapped(lines: &[Line], width: usize) -> Vec<Line> {
    lines
        .iter()
        .flat_map(|(tone, line)| text::wrap(line, width).into_iter().map(|l| (*tone, l)))
        .collect()
}

/// `1 piece`, `3 pieces`.
pub(super) fn count(n: usize, thing: &str) -> String {
    let plural = match thing.strip_suffix("ss") {
        Some(stem) => format!("{stem}sses"),
        None => format!("{thing}s"),
    };
    format!("{n} {}", if n == 1 { thing } else { &plural })
}

/// One cell of a row: its text, its width, the side it leans to.
#[derive(Debug, Clone)]
pub(super) struct Cell {
    pub text: String,
    pub width: usize,
    pub side: Side,
}

impl Cell {
    pub fn left(text: impl Into<String>, width: usize) -> Self {
        Self {
            text: text.into(),
            width,
            side: Side::Left,
        }
    }

    pub fn right(text: impl Into<String>, width: usize) -> Self {
        Self {
            text: text.into(),
            width,
            side: Side::Right,
        }
    }
}

/// Cells beside each other, two apart, each wrapped to its own width.
pub(super) fn beside(cells: &[Cell]) -> Vec<String> {
    let wrapped: Vec<Vec<String>> = cells
        .iter()
        .map(|cell| text::wrap(&cell.text, cell.width))
        .collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    (0..height)
        .map(|n| {
            let parts = cells.iter().zip(&wrapped).map(|(cell, lines)| {
                let part = lines.get(n).map_or("", String::as_str);
                match cell.side {
                    Side::Left => text::fit(part, cell.width),
                    Side::Right => text::fit_right(part, cell.width),
                }
            });
            parts.collect::<Vec<_>>().join("  ").trim_end().to_owned()
        })
        .collect()
}

/// One row of a list, or a heading between rows.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// Its lines, not wrapped yet.
    pub lines: Vec<Line>,
    /// Whether it can be picked.
    pub pickable: bool,
}

impl Entry {
    /// A row to pick.
    pub fn row(lines: Vec<Line>) -> Self {
        Self {
            lines,
            pickable: true,
        }
    }

    /// A heading.
    pub fn heading(words: impl Into<String>) -> Self {
        Self::note(Tone::Title, words)
    }

    /// Words between rows.
    pub fn note(tone: Tone, words: impl Into<String>) -> Self {
        Self {
            lines: vec![(tone, words.into())],
            pickable: false,
        }
    }

    fn laid(&self, width: usize) -> Vec<Line> {
        wrapped(
            &self.lines,
            if self.pickable {
                width.saturating_sub(MARK)
            } else {
                width
            },
        )
    }
}

/// Cells kept at the left of a row for the `>` of the one picked.
pub(super) const MARK: usize = 2;

/// Draws the entries, the `focus`-th of those that can be picked in sight and marked. Only whole
/// entries are drawn; how many are out of sight is said in the last row.
pub(super) fn list(buf: &mut Buffer, area: Rect, entries: &[Entry], focus: usize, theme: &Theme) {
    let (width, height) = (usize::from(area.width), usize::from(area.height));
    let laid: Vec<Vec<Line>> = entries.iter().map(|entry| entry.laid(width)).collect();
    let picks: Vec<usize> = (0..entries.len())
        .filter(|i| entries[*i].pickable)
        .collect();
    let at = picks.get(focus).copied();
    let whole = laid.iter().map(Vec::len).sum::<usize>() <= height;
    let room = if whole {
        height
    } else {
        height.saturating_sub(1)
    };
    let (from, to) = in_sight(&laid, room, at.unwrap_or(0));
    let mut row = 0;
    for (i, lines) in laid.iter().enumerate().take(to).skip(from) {
        let picked = at == Some(i);
        let indent = if entries[i].pickable { MARK } else { 0 };
        for (n, (tone, line)) in lines.iter().enumerate() {
            if row >= room {
                break;
            }
            if picked {
                let mark = if n == 0 { "> " } else { "  " };
                draw::put_row(
                    buf,
                    area,
                    row,
                    &format!("{mark}{line}"),
                    theme.selected,
                    theme,
                );
            } else {
                draw::put(buf, area, indent, row, line, tone.style(theme));
            }
            row += 1;
        }
    }
    if !whole && height > 0 {
        let above = picks.iter().filter(|i| **i < from).count();
        let below = picks.iter().filter(|i| **i >= to).count();
        let words = match (above, below) {
            (0, below) => format!("{below} more below"),
            (above, 0) => format!("{above} more above"),
            (above, below) => format!("{above} more above, {below} below"),
        };
        draw::put_row(buf, area, height - 1, &words, theme.dim, theme);
    }
}

/// The entries around `at` that fit whole in `room` lines.
fn in_sight(laid: &[Vec<Line>], room: usize, at: usize) -> (usize, usize) {
    let Some(focus) = laid.get(at) else {
        return (0, 0);
    };
    let (mut from, mut to, mut used) = (at, at + 1, focus.len());
    loop {
        let before = from
            .checked_sub(1)
            .map(|i| laid[i].len())
            .filter(|n| used + n <= room);
        if let Some(n) = before {
            from -= 1;
            used += n;
        }
        let after = laid.get(to).map(Vec::len).filter(|n| used + n <= room);
        if let Some(n) = after {
            to += 1;
            used += n;
        }
        if before.is_none() && after.is_none() {
            return (from, to);
        }
    }
}

/// Draws a pane of lines, wrapped. If not all fit, the last row says how to read the rest.
pub(super) fn pane(buf: &mut Buffer, area: Rect, lines: &[Line], key: &str, theme: &Theme) {
    let height = usize::from(area.height);
    let lines = wrapped(lines, usize::from(area.width));
    let shown = if lines.len() <= height {
        lines.len()
    } else {
        height.saturating_sub(1)
    };
    for (row, (tone, line)) in lines.iter().take(shown).enumerate() {
        draw::put(buf, area, 0, row, line, tone.style(theme));
    }
    if shown < lines.len() && height > 0 {
        let more = count(lines.len() - shown, "more line");
        draw::put_row(
            buf,
            area,
            height - 1,
            &format!("{more}: {key} reads all"),
            theme.dim,
            theme,
        );
    }
}

/// A line across between two parts.
pub(super) fn rule(buf: &mut Buffer, area: Rect, row: usize, theme: &Theme) {
    let line = if theme.ascii { "-" } else { "─" }.repeat(usize::from(area.width));
    draw::put(buf, area, 0, row, &line, theme.border);
}

/// A line down between two parts.
pub(super) fn rule_down(buf: &mut Buffer, area: Rect, col: usize, theme: &Theme) {
    for row in 0..usize::from(area.height) {
        draw::put(
            buf,
            area,
            col,
            row,
            if theme.ascii { "|" } else { "│" },
            theme.border,
        );
    }
}

/// The part of `area` from `row` on, at most `height` rows of it.
pub(super) fn part(area: Rect, row: usize, height: usize) -> Rect {
    let row = draw::cells(row).min(area.height);
    let height = draw::cells(height).min(area.height - row);
    Rect {
        y: area.y + row,
        height,
        ..area
    }
}

/// The part of `area` from column `col` on, at most `width` cells of it.
pub(super) fn columns(area: Rect, col: usize, width: usize) -> Rect {
    let col = draw::cells(col).min(area.width);
    let width = draw::cells(width).min(area.width - col);
    Rect {
        x: area.x + col,
        width,
        ..area
    }
}
