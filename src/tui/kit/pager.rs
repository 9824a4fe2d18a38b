//! Text to read and scroll through.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::draw;
use super::key::Key;
use super::text;
use super::theme::Theme;

/// How a line of a text to read is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Set {
    /// Ordinary text.
    Body,
    /// A heading.
    Heading,
    /// Of less weight: sources, small print.
    Small,
}

/// A read-only text, wrapped to the place it is shown in, and how far it is scrolled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pager {
    lines: Vec<(Set, String)>,
    wrapped: Vec<(Set, String)>,
    width: usize,
    height: usize,
    top: usize,
}

impl Pager {
    /// A pager over lines of ordinary text.
    pub fn new<S: Into<String>>(lines: impl IntoIterator<Item = S>) -> Self {
        Self::with_headings(lines.into_iter().map(|s| (Set::Body, s.into())).collect())
    }

    /// A pager over lines that say how they are set.
    pub fn with_headings(lines: Vec<(Set, String)>) -> Self {
        let mut pager = Self {
            lines,
            wrapped: Vec::new(),
            width: 0,
            height: 0,
            top: 0,
        };
        pager.set_size(80, 24);
        pager
    }

    /// Tells the pager how large the place is it will be drawn in, the row with the position
    /// included: when it is made and whenever that changes. What was at the top stays in sight.
    pub fn set_size(&mut self, width: u16, height: u16) {
        let (width, height) = (usize::from(width), usize::from(height));
        if width != self.width || self.wrapped.is_empty() {
            let ahead = self.wrap_at(self.width).len().max(1);
            self.wrapped = self.wrap_at(width);
            self.top = self.top * self.wrapped.len() / ahead;
            self.width = width;
        }
        self.height = height;
        self.top = self.top.min(self.last_top());
    }

    /// Puts other lines in; how far it is scrolled stays as near as can be.
    pub fn refill(&mut self, lines: Vec<(Set, String)>) {
        self.lines = lines;
        self.wrapped = self.wrap_at(self.width);
        self.top = self.top.min(self.last_top());
    }

    /// How many rows the whole text takes at a width.
    pub fn rows_at(&self, width: usize) -> usize {
        self.wrap_at(width).len()
    }

    /// Everything is in sight at once.
    pub fn is_whole(&self) -> bool {
        self.wrapped.len() <= self.height
    }

    /// Scrolls. Returns whether the key is one of the pager's.
    pub fn key(&mut self, key: &Key) -> bool {
        let page = self.page().max(2) - 1;
        self.top = match key {
            Key::Up => self.top.saturating_sub(1),
            Key::Down => self.top + 1,
            Key::PageUp => self.top.saturating_sub(page),
            Key::PageDown | Key::Char(' ') => self.top + page,
            Key::Home => 0,
            Key::End => self.last_top(),
            _ => return false,
        }
        .min(self.last_top());
        true
    }

    /// Draws the text; if it does not fit, the last row says which lines are in sight.
    pub fn draw(&self, buf: &mut Buffer, area: Rect, theme: &Theme) {
        draw::clear(buf, area, theme);
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        // Drawn at another size than it was told of: right, if not quick.
        let other;
        let fitted = if (width, height) == (self.width, self.height) {
            self
        } else {
            let mut copy = self.clone();
            copy.set_size(area.width, area.height);
            other = copy;
            &other
        };
        let page = fitted.page();
        for (row, (set, line)) in fitted
            .wrapped
            .iter()
            .skip(fitted.top)
            .take(page)
            .enumerate()
        {
            let style = match set {
                Set::Body => theme.text,
                Set::Heading => theme.title,
                Set::Small => theme.dim,
            };
            draw::put(buf, area, 0, row, line, style);
        }
        if !fitted.is_whole() && height > 1 {
            let last = (fitted.top + page).min(fitted.wrapped.len());
            let mark = format!(
                "lines {} to {last} of {}",
                fitted.top + 1,
                fitted.wrapped.len()
            );
            let keys = draw::hints(
                &["up/down", "pgup/pgdn"],
                width.saturating_sub(text::width(&mark) + 2),
                "",
            );
            let line = if keys.is_empty() {
                mark
            } else {
                format!("{mark}  {keys}")
            };
            draw::put_row(buf, area, height - 1, &line, theme.dim, theme);
        }
    }

    fn wrap_at(&self, width: usize) -> Vec<(Set, String)> {
        self.lines
            .iter()
            .flat_map(|(set, line)| text::wrap(line, width).into_iter().map(|l| (*set, l)))
            .collect()
    }

    /// Rows of text at a time: one fewer where the position has to be told.
    fn page(&self) -> usize {
        if self.is_whole() {
            self.height
        } else {
            self.height.saturating_sub(1).max(1)
        }
    }

    fn last_top(&self) -> usize {
        self.wrapped.len().saturating_sub(self.page())
    }
}

#[cfg(test)]
mod tests {
    use super::super::draw::testing::{SIZES, canvas, rows};
    use super::*;

    fn ten() -> Pager {
        Pager::new((1..=10).map(|n| format!("line {n}")))
    }

    #[test]
    fn scrolls_and_says_where_it_is() {
        let theme = Theme::plain();
        let mut pager = ten();
        pager.set_size(40, 4);
        let (mut buf, area) = canvas(40, 4);
        pager.draw(&mut buf, area, &theme);
        assert_eq!(
            rows(&buf, area),
            [
                "line 1",
                "line 2",
                "line 3",
                "lines 1 to 3 of 10  up/down  pgup/pgdn"
            ]
        );
        for (key, first) in [
            (Key::Up, "line 1"),
            (Key::Down, "line 2"),
            (Key::PageDown, "line 4"),
            (Key::End, "line 8"),
            (Key::Down, "line 8"),
            (Key::PageUp, "line 6"),
            (Key::Home, "line 1"),
        ] {
            assert!(pager.key(&key));
            pager.draw(&mut buf, area, &theme);
            assert_eq!(rows(&buf, area)[0], first, "{key:?}");
        }
        assert!(!pager.key(&Key::Enter));
    }

    #[test]
    fn a_short_text_has_no_mark() {
        let mut pager = ten();
        pager.set_size(20, 10);
        let (mut buf, area) = canvas(20, 10);
        pager.draw(&mut buf, area, &Theme::plain());
        assert_eq!(rows(&buf, area)[9], "line 10");
    }

    #[test]
    fn every_size_can_be_drawn_and_read_to_the_end() {
        for (w, h) in SIZES {
            let words = "gel stain 木目 e\u{301} under a wiped film ".repeat(12);
            let mut pager = Pager::new([words, "the end".to_owned()]);
            let (mut buf, area) = canvas(*w, *h);
            pager.draw(&mut buf, area, &Theme::dark());
            rows(&buf, area);
            pager.set_size(*w, *h);
            pager.key(&Key::End);
            pager.draw(&mut buf, area, &Theme::plain());
            let seen = rows(&buf, area).join(" ");
            assert!(*w < 10 || seen.contains("the end"), "{w}x{h}: {seen}");
        }
    }
}
