//! Draws a form in any place from 40 cells by 8 rows up: labels on the left, what is in the
//! fields on the right, what was understood or what is wrong below, all of it scrolled so that
//! the field in focus is in sight.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::draw;
use super::field::FieldKind;
use super::form::Form;
use super::form_rows::{Block, Row, block};
use super::text;
use super::theme::Theme;

/// Draws the form. Returns where the cursor belongs if a text is in focus.
pub fn draw(form: &Form, buf: &mut Buffer, area: Rect, theme: &Theme) -> Option<Position> {
    draw::clear(buf, area, theme);
    let (width, height) = (usize::from(area.width), usize::from(area.height));
    if height < 3 || width < 8 {
        draw::put_row(buf, area, 0, &form.title, theme.title, theme);
        return None;
    }
    let body_height = height - 2;
    let label_width = label_width(form, width);
    let value_width = width - 2 - label_width - 2;
    let blocks: Vec<Block> = form
        .fields()
        .iter()
        .enumerate()
        .map(|(n, field)| {
            let label = text::wrap(&field.label, label_width);
            let focused = n == form.at();
            block(field, label, focused, value_width, body_height, theme)
        })
        .collect();
    let top = top(&blocks, form.at(), body_height);
    let total: usize = blocks.iter().map(Block::height).sum();
    let body = Rect {
        y: area.y + 1,
        height: draw::cells(body_height),
        ..area
    };
    let cursor = draw_blocks(&blocks, form.at(), top, buf, body, label_width, theme);

    let mark = match (form.fields().len(), top > 0, top + body_height < total) {
        (0, ..) => String::new(),
        (len, above, below) => {
            let place = format!("{} of {len}", form.at() + 1);
            match (above, below) {
                (false, false) => format!("field {place}"),
                (true, false) => format!("{place}, more above"),
                (false, true) => format!("{place}, more below"),
                (true, true) => format!("{place}, more above/below"),
            }
        }
    };
    draw::heading(buf, area, 0, &form.title, &mark, theme);
    draw::put(buf, area, 0, height - 1, &key_line(form, width), theme.dim);
    cursor
}

fn label_width(form: &Form, width: usize) -> usize {
    let widest = form
        .fields()
        .iter()
        .map(|f| text::width(&f.label))
        .max()
        .unwrap_or(0);
    widest
        .min(width * 2 / 5)
        .max(1)
        .min(width.saturating_sub(5))
}

/// The row the body starts with: the field in focus in full, with some of what is around it.
fn top(blocks: &[Block], at: usize, height: usize) -> usize {
    let start: usize = blocks.iter().take(at).map(Block::height).sum();
    let own = blocks.get(at).map_or(0, Block::height);
    let total: usize = blocks.iter().map(Block::height).sum();
    if total <= height {
        return 0;
    }
    let spare = height.saturating_sub(own) / 2;
    start.saturating_sub(spare).min(total - height.min(total))
}

fn draw_blocks(
    blocks: &[Block],
    at: usize,
    top: usize,
    buf: &mut Buffer,
    body: Rect,
    label_width: usize,
    theme: &Theme,
) -> Option<Position> {
    let mut cursor = None;
    let mut row: usize = 0;
    for (n, block) in blocks.iter().enumerate() {
        for line in 0..block.height() {
            let at_row = row;
            row += 1;
            let Some(y) = at_row
                .checked_sub(top)
                .filter(|y| *y < usize::from(body.height))
            else {
                continue;
            };
            let focused = n == at;
            if focused && line == 0 {
                draw::put(buf, body, 0, y, ">", theme.selected);
            }
            if let Some(label) = block.label.get(line) {
                let style = if focused { theme.selected } else { theme.text };
                draw::put(buf, body, 2, y, label, style);
            }
            let col = 2 + label_width + 2;
            if let Some(Row { text, style }) = block.rows.get(line) {
                draw::put(buf, body, col, y, text, *style);
            }
            if let (0, true, Some(cell)) = (line, focused, block.cursor) {
                let x = (col + cell).min(usize::from(body.width) - 1);
                cursor = Some(Position::new(
                    body.x + draw::cells(x),
                    body.y + draw::cells(y),
                ));
            }
        }
    }
    cursor
}

fn key_line(form: &Form, width: usize) -> String {
    let last = form.at() + 1 >= form.fields().len();
    let go = if last {
        format!("enter {}", form.submit_word)
    } else {
        "enter next".to_owned()
    };
    let submit = format!("F2 {}", form.submit_word);
    let own: &[&str] = match form.fields().get(form.at()).map(|f| &f.kind) {
        Some(FieldKind::Choice(_)) => &["left/right choose", "type to find"],
        Some(FieldKind::Toggle(_)) => &["space change"],
        Some(FieldKind::Many(_)) => &["space tick", "* all or none"],
        _ => &[],
    };
    // What must not be missing comes first; the rest follows as it fits.
    let mut hints = vec![go.as_str(), "esc back"];
    hints.extend(own.first());
    if !last {
        hints.push(submit.as_str());
    }
    hints.extend(own.iter().skip(1));
    hints.push("up/down move");
    draw::hints(&hints, width, "")
}

#[cfg(test)]
#[path = "form_view_tests.rs"]
mod tests;
