//! What the program has to say: a box at the bottom that shows every line of it.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::{Block, BorderType, Widget};

use super::draw;
use super::key::Key;
use super::pager::Pager;
use super::text;
use super::theme::Theme;

/// Why something is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoticeKind {
    /// Something was done, or is worth knowing.
    Said,
    /// Something was not done; the lines are all the reasons.
    Refused,
    /// Something must be answered with yes or no.
    Ask,
}

/// What came of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoticeAction {
    /// Nothing to act on; perhaps it scrolled. A notice takes every key until it is gone.
    None,
    /// It was read and can go.
    Dismiss,
    /// The answer is yes.
    Yes,
    /// The answer is no.
    No,
}

/// The state of a notice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// Why it is said.
    pub kind: NoticeKind,
    lines: Vec<String>,
    pager: Pager,
}

impl Notice {
    /// A notice of these lines, each wrapped where needed.
    pub fn new<S: Into<String>>(kind: NoticeKind, lines: impl IntoIterator<Item = S>) -> Self {
        let lines: Vec<String> = lines.into_iter().map(Into::into).collect();
        Self {
            kind,
            pager: Pager::new(lines.clone()),
            lines,
        }
    }

    /// What it says.
    pub fn lines(&self) -> &[String] {
        &self.lines
    }

    /// Tells the notice how large the screen is it will be drawn on: when it is made and whenever
    /// that changes, so that its keys scroll by what is in sight.
    pub fn set_size(&mut self, area: Rect) {
        let inner = inner(self.place(area));
        self.pager.set_size(inner.width, inner.height);
    }

    /// Works on the notice with one key. A question takes enter or y for yes, esc or n for no;
    /// anything else is dismissed with either.
    pub fn key(&mut self, key: &Key) -> NoticeAction {
        match (self.kind, key) {
            (NoticeKind::Ask, Key::Enter | Key::Char('y' | 'Y')) => NoticeAction::Yes,
            (NoticeKind::Ask, Key::Esc | Key::Char('n' | 'N')) => NoticeAction::No,
            (_, Key::Enter | Key::Esc) => NoticeAction::Dismiss,
            _ => {
                self.pager.key(key);
                NoticeAction::None
            }
        }
    }

    /// The place the box takes at the bottom of an area: as high as its lines need, if there is
    /// that much.
    pub fn place(&self, area: Rect) -> Rect {
        let rows = self.pager.rows_at(usize::from(inner(area).width));
        let height = draw::cells(rows.saturating_add(2)).max(3).min(area.height);
        Rect {
            y: area.bottom() - height,
            height,
            ..area
        }
    }

    /// Draws the box at the bottom of an area.
    pub fn draw(&self, buf: &mut Buffer, area: Rect, theme: &Theme) {
        let place = self.place(area.intersection(buf.area));
        draw::clear(buf, place, theme);
        if place.height < 3 || place.width < 5 {
            let words = self.lines.first().map_or("", String::as_str);
            draw::put_row(buf, place, 0, words, theme.text, theme);
            return;
        }
        let (title, keys, style) = match self.kind {
            NoticeKind::Said => (" Said ", " enter or esc closes ", theme.title),
            NoticeKind::Refused => (" Not done, because ", " enter or esc closes ", theme.warn),
            NoticeKind::Ask => (
                " Yes or no? ",
                " enter or y yes, esc or n no ",
                theme.accent,
            ),
        };
        Block::bordered()
            .border_type(BorderType::Plain)
            .border_set(theme.lines())
            .border_style(theme.border)
            .render(place, buf);
        let room = usize::from(place.width) - 2;
        draw::put(
            buf,
            place,
            1,
            0,
            &text::shorten_with(title, room, theme.more()),
            style,
        );
        let bottom = usize::from(place.height) - 1;
        draw::put(
            buf,
            place,
            1,
            bottom,
            &text::shorten_with(keys, room, theme.more()),
            theme.dim,
        );
        self.pager.draw(buf, inner(place), theme);
    }
}

/// What is left inside the lines of the box and one blank on each side.
fn inner(place: Rect) -> Rect {
    Rect {
        x: place.x.saturating_add(2),
        y: place.y.saturating_add(1),
        width: place.width.saturating_sub(4),
        height: place.height.saturating_sub(2),
    }
}

#[cfg(test)]
mod tests {
    use super::super::draw::testing::{SIZES, canvas, rows};
    use super::*;

    #[test]
    fn every_reason_is_shown() {
        let reasons = [
            "left end: 150 grit not done",
            "underside: 2 of 3 seal coats",
        ];
        let notice = Notice::new(NoticeKind::Refused, reasons);
        let (mut buf, area) = canvas(40, 8);
        notice.draw(&mut buf, area, &Theme::plain().in_ascii(true));
        let rows = rows(&buf, area);
        assert_eq!(rows[3], "");
        assert_eq!(
            &rows[4..],
            [
                "+ Not done, because -------------------+",
                "| left end: 150 grit not done          |",
                "| underside: 2 of 3 seal coats         |",
                "+ enter or esc closes -----------------+",
            ]
        );
    }

    #[test]
    fn too_many_lines_scroll() {
        let mut notice = Notice::new(NoticeKind::Said, (1..=20).map(|n| format!("reason {n}")));
        let (mut buf, area) = canvas(40, 8);
        notice.set_size(area);
        assert_eq!(notice.key(&Key::End), NoticeAction::None);
        notice.draw(&mut buf, area, &Theme::plain());
        let seen = rows(&buf, area).join("\n");
        assert!(
            seen.contains("reason 20") && seen.contains("lines 16 to 20 of 20"),
            "{seen}"
        );
    }

    #[test]
    fn answers() {
        let mut ask = Notice::new(NoticeKind::Ask, ["Throw the draft away?"]);
        assert_eq!(ask.key(&Key::Char('x')), NoticeAction::None);
        assert_eq!(ask.key(&Key::Enter), NoticeAction::Yes);
        assert_eq!(ask.key(&Key::Char('n')), NoticeAction::No);
        assert_eq!(ask.key(&Key::Esc), NoticeAction::No);
        let mut said = Notice::new(NoticeKind::Said, ["Kept."]);
        assert_eq!(said.key(&Key::Esc), NoticeAction::Dismiss);
        assert_eq!(said.key(&Key::Char('y')), NoticeAction::None);
    }

    #[test]
    fn any_size_can_be_drawn() {
        for (w, h) in SIZES {
            for kind in [NoticeKind::Said, NoticeKind::Refused, NoticeKind::Ask] {
                let notice =
                    Notice::new(kind, ["木目 e\u{301} and a line that is long ".repeat(5)]);
                let (mut buf, area) = canvas(*w, *h);
                notice.draw(&mut buf, area, &Theme::light());
                let seen = rows(&buf, area).join(" ");
                assert!(*w < 80 || seen.matches("木目").count() == 5, "{w}x{h}");
            }
        }
    }
}
