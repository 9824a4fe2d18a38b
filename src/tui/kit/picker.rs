//! A list to choose one thing from: a menu, a finder.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::draw;
use super::key::Key;
use super::line_edit::LineEdit;
use super::options;
use super::text;
use super::theme::Theme;

/// One row of a picker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item<V> {
    /// What is chosen with it.
    pub value: V,
    /// What it is called.
    pub label: String,
    /// What else there is to say, in a second column; may be empty.
    pub detail: String,
}

impl<V> Item<V> {
    /// A row.
    pub fn new(value: V, label: impl Into<String>, detail: impl Into<String>) -> Self {
        Self {
            value,
            label: label.into(),
            detail: detail.into(),
        }
    }
}

/// What came of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PickerAction {
    /// Nothing to act on; perhaps another row is in focus, or the list is narrower.
    None,
    /// The row in focus is chosen; see [`Picker::chosen`].
    Chosen,
    /// The person goes back.
    Cancel,
}

/// The state of a picker.
#[derive(Debug, Clone)]
pub struct Picker<V> {
    /// The heading.
    pub title: String,
    /// What is said when there is nothing to choose from.
    pub empty: String,
    items: Vec<Item<V>>,
    typed: LineEdit,
    shown: Vec<usize>,
    at: usize,
    numbered: bool,
    page: usize,
}

impl<V> Picker<V> {
    /// A picker with the first row in focus.
    pub fn new(title: &str, items: Vec<Item<V>>) -> Self {
        Self {
            title: title.to_owned(),
            empty: "Nothing to choose from yet.".to_owned(),
            shown: (0..items.len()).collect(),
            items,
            typed: LineEdit::default(),
            at: 0,
            numbered: false,
            page: 10,
        }
    }

    /// A menu: its first nine rows are numbered, and while nothing is typed a digit chooses at
    /// once.
    #[must_use]
    pub fn numbered(mut self) -> Self {
        self.numbered = true;
        self
    }

    /// Tells how many rows high the place is, so that page keys move by what is in sight.
    pub fn set_height(&mut self, height: u16) {
        self.page = usize::from(height).saturating_sub(3).max(1);
    }

    /// Puts other rows in, keeping what was typed; the focus stays at its place in the list.
    pub fn set_items(&mut self, items: Vec<Item<V>>) {
        self.items = items;
        let at = self.at;
        self.narrow();
        self.at = at.min(self.shown.len().saturating_sub(1));
    }

    /// What was typed to narrow the list.
    pub fn typed(&self) -> &str {
        self.typed.text()
    }

    /// The row in focus among all that match.
    pub fn chosen(&self) -> Option<&Item<V>> {
        self.items.get(*self.shown.get(self.at)?)
    }

    /// Brings the first row into focus for which `is` says yes.
    pub fn focus(&mut self, is: impl Fn(&V) -> bool) {
        let place = self
            .shown
            .iter()
            .position(|i| self.items.get(*i).is_some_and(|it| is(&it.value)));
        self.at = place.unwrap_or(self.at);
    }

    /// Works on the picker with one key. Esc first takes back what was typed.
    pub fn key(&mut self, key: &Key) -> PickerAction {
        let last = self.shown.len().saturating_sub(1);
        match key {
            Key::Esc if self.typed.is_empty() => return PickerAction::Cancel,
            Key::Esc => {
                self.typed.set("");
                self.narrow();
            }
            Key::Enter if self.shown.is_empty() => {}
            Key::Enter => return PickerAction::Chosen,
            Key::Up | Key::BackTab => self.at = self.at.saturating_sub(1),
            Key::Down | Key::Tab => self.at = (self.at + 1).min(last),
            Key::PageUp => self.at = self.at.saturating_sub(self.page),
            Key::PageDown => self.at = (self.at + self.page).min(last),
            Key::Home => self.at = 0,
            Key::End => self.at = last,
            Key::Char(c @ '1'..='9') if self.numbered && self.typed.is_empty() => {
                let place = c.to_digit(10).map_or(0, |d| d as usize - 1);
                if place <= last && !self.shown.is_empty() {
                    self.at = place;
                    return PickerAction::Chosen;
                }
            }
            // A space before any word would match everything.
            Key::Char(' ') if self.typed.is_empty() => {}
            key => {
                if self.typed.edit(key) {
                    self.narrow();
                }
            }
        }
        PickerAction::None
    }

    /// Narrows the list by pasted text.
    pub fn paste(&mut self, pasted: &str) {
        if self.typed.paste(pasted) {
            self.narrow();
        }
    }

    fn narrow(&mut self) {
        let before = self.typed.text();
        let words = self
            .items
            .iter()
            .map(|it| format!("{} {}", it.label, it.detail))
            .collect::<Vec<_>>();
        self.shown = if before.is_empty() {
            (0..self.items.len()).collect()
        } else {
            options::matching(words.iter().map(String::as_str), before)
        };
        self.at = 0;
    }

    /// Draws the picker. Returns where the cursor belongs while something is typed.
    pub fn draw(&self, buf: &mut Buffer, area: Rect, theme: &Theme) -> Option<Position> {
        draw::clear(buf, area, theme);
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let mark = match self.shown.len() {
            0 => String::new(),
            len => format!("{} of {len}", self.at + 1),
        };
        draw::heading(buf, area, 0, &self.title, &mark, theme);
        if height < 3 || width < 8 {
            return None;
        }
        let mut cursor = None;
        let mut top = 1;
        if !self.typed.is_empty() {
            let start = draw::put(buf, area, 0, 1, "find: ", theme.dim);
            let seen = self.typed.visible(width.saturating_sub(start));
            draw::put(buf, area, start, 1, &seen.text, theme.accent);
            cursor = Some(Position::new(
                area.x + draw::cells(start + seen.cursor),
                area.y + 1,
            ));
            top = 2;
        }
        let room = height.saturating_sub(top + 1);
        if self.shown.is_empty() {
            let words = if self.typed.is_empty() {
                self.empty.clone()
            } else {
                format!(
                    "Nothing matches \"{}\"; esc takes it back.",
                    self.typed.text()
                )
            };
            for (n, line) in text::wrap(&words, width).iter().take(room).enumerate() {
                draw::put(buf, area, 0, top + n, line, theme.text);
            }
        }
        self.draw_rows(buf, area, top, room, theme);
        let esc = if self.typed.is_empty() {
            "esc back"
        } else {
            "esc all again"
        };
        let hints = ["enter choose", esc, "type to find", "up/down move"];
        draw::put(
            buf,
            area,
            0,
            height - 1,
            &draw::hints(&hints, width, ""),
            theme.dim,
        );
        cursor
    }

    fn draw_rows(&self, buf: &mut Buffer, area: Rect, top: usize, room: usize, theme: &Theme) {
        let width = usize::from(area.width);
        let from = draw::window(self.shown.len(), room, self.at);
        let sight: Vec<(usize, &Item<V>)> = self
            .shown
            .iter()
            .enumerate()
            .skip(from)
            .take(room)
            .filter_map(|(n, i)| Some((n, self.items.get(*i)?)))
            .collect();
        let lead = if self.numbered { 4 } else { 2 };
        let inner = width.saturating_sub(lead);
        let widest = sight
            .iter()
            .map(|(_, it)| text::width(&it.label))
            .max()
            .unwrap_or(0);
        let has_detail = sight.iter().any(|(_, it)| !it.detail.is_empty());
        let label_width = if has_detail {
            widest.min(inner * 3 / 5)
        } else {
            inner
        };
        for (row, (n, item)) in sight.into_iter().enumerate() {
            let sign = if n == self.at { ">" } else { " " };
            let number = match (self.numbered, n) {
                (true, 0..9) if self.typed.is_empty() => format!("{} ", n + 1),
                (true, _) => "  ".to_owned(),
                _ => String::new(),
            };
            let label = text::shorten_with(&text::one_line(&item.label), label_width, theme.more());
            let detail = text::shorten_with(
                &text::one_line(&item.detail),
                inner.saturating_sub(label_width + 2),
                theme.more(),
            );
            let line = format!(
                "{sign} {number}{}  {detail}",
                text::fit(&label, label_width)
            );
            if n == self.at {
                draw::put_row(buf, area, top + row, line.trim_end(), theme.selected, theme);
            } else {
                draw::put(buf, area, 0, top + row, line.trim_end(), theme.text);
                if !detail.is_empty() {
                    draw::put(
                        buf,
                        area,
                        lead + label_width + 2,
                        top + row,
                        &detail,
                        theme.dim,
                    );
                }
            }
        }
    }
}

#[cfg(test)]
#[path = "picker_tests.rs"]
mod tests;
