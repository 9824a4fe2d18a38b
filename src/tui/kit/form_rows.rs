//! One field of a form as rows of text: its value, what was understood or what is wrong, its hint
//! and, in focus, its list.

use ratatui::style::{Modifier, Style};

use super::draw;
use super::field::{Field, FieldKind};
use super::options::{PickOne, TickMany};
use super::text;
use super::theme::Theme;

/// Rows that a value takes at most while its field is not in focus.
const SHORT: usize = 3;
/// Rows of a field that names what was ticked: enough for every face of a large top.
const LIST: usize = 16;

/// One row of a field: its text and how it is drawn.
pub(super) struct Row {
    pub(super) text: String,
    pub(super) style: Style,
}

/// A field as rows, the place of the cursor among them.
pub(super) struct Block {
    pub(super) label: Vec<String>,
    pub(super) rows: Vec<Row>,
    pub(super) cursor: Option<usize>,
}

impl Block {
    pub(super) fn height(&self) -> usize {
        self.label.len().max(self.rows.len())
    }
}

/// Lays out one field. In focus it never takes more than `height` rows: the hint gives way first,
/// then the list; what is wrong goes before both.
pub(super) fn block(
    field: &Field,
    label: Vec<String>,
    focused: bool,
    width: usize,
    height: usize,
    theme: &Theme,
) -> Block {
    let mut rows = Vec::new();
    let mut cursor = None;
    match &field.kind {
        FieldKind::Text(line) | FieldKind::Note(line) if focused => {
            let inner = width.saturating_sub(1);
            let seen = line.visible(inner);
            let mut text = text::fit(&seen.text, inner);
            // What is out of sight is told at the end of the row, where no text of its own stands.
            text.push(match (seen.more_left, seen.more_right) {
                (false, false) => ' ',
                (true, false) => '<',
                (false, true) => '>',
                (true, true) => '+',
            });
            let style = theme.text.add_modifier(Modifier::UNDERLINED);
            rows.push(Row { text, style });
            cursor = Some(seen.cursor);
        }
        FieldKind::Text(line) => short(&mut rows, line.text(), width, SHORT, theme),
        FieldKind::Note(line) => short(&mut rows, line.text(), width, usize::MAX, theme),
        FieldKind::Choice(list) => choice_value(&mut rows, list, focused, width, theme),
        FieldKind::Toggle(on) => {
            let text = if *on { "[x] yes" } else { "[ ] no" };
            rows.push(Row {
                text: text.to_owned(),
                style: value_style(focused, theme),
            });
        }
        FieldKind::Told(_) => {}
        FieldKind::Many(list) => {
            let labels: Vec<&str> = list
                .rows()
                .filter(|(_, on)| *on)
                .map(|(o, _)| o.label.as_str())
                .collect();
            let text = format!("{} of {}", labels.len(), list.rows().len());
            let text = if labels.is_empty() || focused {
                text
            } else {
                format!("{text}: {}", labels.join(", "))
            };
            short(
                &mut rows,
                &text,
                width,
                if focused { 1 } else { LIST },
                theme,
            );
        }
    }
    if let FieldKind::Told(lines) = &field.kind {
        told_rows(&mut rows, lines, focused, width, theme);
    }
    if let Some(error) = &field.error {
        said(&mut rows, "! ", error, width, theme.warn);
    } else if let Some(echo) = &field.echo {
        said(&mut rows, "= ", echo, width, theme.good);
    }
    if focused {
        let list_rows = match &field.kind {
            FieldKind::Choice(list) => list.shown().0.len(),
            FieldKind::Many(list) => list.rows().len(),
            _ => 0,
        };
        // The hint gives way before the list does, and both before what is wrong.
        let hint = if field.hint.is_empty() {
            Vec::new()
        } else {
            text::wrap(&field.hint, width)
        };
        if rows.len() + hint.len() + list_rows.min(3) <= height {
            rows.extend(hint.into_iter().map(|text| Row {
                text,
                style: theme.dim,
            }));
        }
        let room = height.saturating_sub(rows.len());
        match &field.kind {
            FieldKind::Choice(list) => {
                choice_list(&mut rows, list, width, room.min((height / 2).max(4)), theme);
            }
            FieldKind::Many(list) => many_list(&mut rows, list, width, room, theme),
            _ => {}
        }
        if rows.len() > height {
            rows.truncate(height);
            if let Some(last) = rows.last_mut() {
                last.text = text::shorten_with(
                    &format!("{} {}", last.text, theme.more()),
                    width,
                    theme.more(),
                );
            }
        }
    }
    Block {
        label,
        rows,
        cursor,
    }
}

/// What a field tells: in focus all of it, else what is to be minded, and how much there is.
fn told_rows(
    rows: &mut Vec<Row>,
    lines: &[(String, bool)],
    focused: bool,
    width: usize,
    theme: &Theme,
) {
    let minded = lines.iter().filter(|(_, minds)| *minds).count();
    if !focused {
        let word = match (lines.len(), minded) {
            (0, _) => "nothing to check".to_owned(),
            (all, 0) => format!("{all} checks, none to mind"),
            // Where all of it is to be minded there is nothing to count.
            (all, some) if all == some => String::new(),
            (all, some) => format!("{some} of {all} to mind:"),
        };
        if !word.is_empty() {
            short(rows, &word, width, SHORT, theme);
        }
    }
    for (line, minds) in lines.iter().filter(|(_, minds)| focused || *minds) {
        let style = if *minds { theme.warn } else { theme.text };
        for (n, text) in text::wrap(line, width.saturating_sub(2))
            .into_iter()
            .enumerate()
        {
            let sign = match (n, minds) {
                (0, true) => "! ",
                (0, false) => "- ",
                _ => "  ",
            };
            rows.push(Row {
                text: format!("{sign}{text}"),
                style,
            });
        }
    }
}

fn value_style(focused: bool, theme: &Theme) -> Style {
    if focused { theme.accent } else { theme.text }
}

fn short(rows: &mut Vec<Row>, value: &str, width: usize, most: usize, theme: &Theme) {
    let mut lines = text::wrap(value, width);
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            *last =
                text::shorten_with(&format!("{last}{}", " ".repeat(width)), width, theme.more());
        }
    }
    rows.extend(lines.into_iter().map(|text| Row {
        text,
        style: theme.text,
    }));
}

fn said(rows: &mut Vec<Row>, sign: &str, words: &str, width: usize, style: Style) {
    for (n, line) in text::wrap(words, width.saturating_sub(2))
        .into_iter()
        .enumerate()
    {
        let sign = if n == 0 { sign } else { "  " };
        rows.push(Row {
            text: format!("{sign}{line}"),
            style,
        });
    }
}

fn choice_value(rows: &mut Vec<Row>, list: &PickOne, focused: bool, width: usize, theme: &Theme) {
    let (shown, at) = list.shown();
    let label = list.picked().map_or("", |o| o.label.as_str());
    let more = theme.more();
    if !focused {
        if label.is_empty() && !list.typed().is_empty() {
            said(
                rows,
                "! ",
                &format!("nothing here matches \"{}\"", list.typed()),
                width,
                theme.warn,
            );
        } else {
            short(rows, label, width, LIST, theme);
        }
        return;
    }
    let count = match at {
        Some(at) => format!("  {} of {}", at + 1, shown.len()),
        None => format!("  {} to pick from", shown.len()),
    };
    let label = if label.is_empty() { "-" } else { label };
    let room = width.saturating_sub(text::width(&count));
    rows.push(Row {
        text: format!("{}{count}", text::shorten_with(label, room, more)),
        style: theme.accent,
    });
    if !list.typed().is_empty() {
        let (words, style) = if shown.is_empty() {
            (
                format!("! nothing here matches \"{}\"", list.typed()),
                theme.warn,
            )
        } else {
            (format!("typed: {}", list.typed()), theme.dim)
        };
        rows.extend(
            text::wrap(&words, width)
                .into_iter()
                .map(|text| Row { text, style }),
        );
    }
}

fn choice_list(rows: &mut Vec<Row>, list: &PickOne, width: usize, room: usize, theme: &Theme) {
    let (shown, at) = list.shown();
    let from = draw::window(shown.len(), room, at.unwrap_or(0));
    for (n, option) in shown.iter().enumerate().skip(from).take(room) {
        let (sign, style) = if Some(n) == at {
            ("> ", theme.selected)
        } else {
            ("  ", theme.text)
        };
        let text = text::shorten_with(&format!("{sign}{}", option.label), width, theme.more());
        rows.push(Row { text, style });
    }
}

fn many_list(rows: &mut Vec<Row>, list: &TickMany, width: usize, room: usize, theme: &Theme) {
    let from = draw::window(list.rows().len(), room, list.at());
    for (n, (option, on)) in list.rows().enumerate().skip(from).take(room) {
        let (sign, style) = if n == list.at() {
            ("> ", theme.selected)
        } else {
            ("  ", theme.text)
        };
        let tick = if on { "[x]" } else { "[ ]" };
        let text = format!("{sign}{tick} {}", option.label);
        rows.push(Row {
            text: text::shorten_with(&text, width, theme.more()),
            style,
        });
    }
}
