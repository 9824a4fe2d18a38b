//! Drawing that cannot leave its place: every helper clips to the area given and to the buffer.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::text;
use super::theme::Theme;

/// A count as a screen coordinate; what is larger than a screen ends at its far edge.
pub fn cells(n: usize) -> u16 {
    u16::try_from(n).unwrap_or(u16::MAX)
}

/// Writes `s` in row `row` of `area`, starting `col` cells from its left edge. What does not fit
/// in the area is not drawn: use [`text::shorten`] or [`text::wrap`] before. Returns the column
/// after the last cell written.
pub fn put(buf: &mut Buffer, area: Rect, col: usize, row: usize, s: &str, style: Style) -> usize {
    let area = area.intersection(buf.area);
    let (x, y) = (cells(col), cells(row));
    if x >= area.width || y >= area.height {
        return col;
    }
    let room = usize::from(area.width - x);
    let s = text::one_line(s);
    let (end, _) = buf.set_stringn(area.x + x, area.y + y, s, room, style);
    usize::from(end - area.x)
}

/// As [`put`], but gives the whole row from `col` to the right edge the style, also where there
/// is no text, and cuts with the theme's sign for "more".
pub fn put_row(buf: &mut Buffer, area: Rect, row: usize, s: &str, style: Style, theme: &Theme) {
    let w = usize::from(area.width);
    let mut s = text::shorten_with(&text::one_line(s), w, theme.more());
    s.extend(std::iter::repeat_n(' ', w - text::width(&s).min(w)));
    put(buf, area, 0, row, &s, style);
}

/// Empties an area and gives it the theme's plain text style.
pub fn clear(buf: &mut Buffer, area: Rect, theme: &Theme) {
    let area = area.intersection(buf.area);
    for y in area.top()..area.bottom() {
        for x in area.left()..area.right() {
            if let Some(cell) = buf.cell_mut((x, y)) {
                cell.reset();
                cell.set_style(theme.text);
            }
        }
    }
}

/// A heading row: `title` on the left, `mark` on the right, never running into each other. The
/// mark gives way when there is no room for both.
pub fn heading(buf: &mut Buffer, area: Rect, row: usize, title: &str, mark: &str, theme: &Theme) {
    let w = usize::from(area.width);
    let mark_w = text::width(mark);
    let room = if mark_w > 0 && mark_w + 2 + text::width(title).min(8) <= w {
        put(buf, area, w - mark_w, row, mark, theme.dim);
        w - mark_w - 2
    } else {
        w
    };
    let title = text::shorten_with(&text::one_line(title), room, theme.more());
    put(buf, area, 0, row, &title, theme.title);
}

/// Where a list of `len` rows, shown `height` at a time, must start so that `focus` is visible
/// and sits near the middle. Needs no memory of where it was before.
pub fn window(len: usize, height: usize, focus: usize) -> usize {
    if len <= height {
        return 0;
    }
    focus.saturating_sub(height / 2).min(len - height)
}

/// As many whole hints as fit in `width`, two spaces apart; `tail` is added at the end when some
/// had to be left out, and room is kept for it. A hint is never cut.
pub fn hints<S: AsRef<str>>(hints: &[S], width: usize, tail: &str) -> String {
    let all = hints
        .iter()
        .map(AsRef::as_ref)
        .collect::<Vec<_>>()
        .join("  ");
    if text::width(&all) <= width {
        return all;
    }
    let tail_w = text::width(tail);
    let mut out = String::new();
    for hint in hints {
        let hint = hint.as_ref();
        let gap = if out.is_empty() { 0 } else { 2 };
        let after = if tail.is_empty() { 0 } else { tail_w + 2 };
        if text::width(&out) + gap + text::width(hint) + after > width {
            break;
        }
        out.push_str(&"  "[..gap]);
        out.push_str(hint);
    }
    if !tail.is_empty() && tail_w <= width {
        if !out.is_empty() {
            out.push_str("  ");
        }
        out.push_str(tail);
    }
    out
}

#[cfg(test)]
pub(crate) mod testing {
    //! What the view tests share.

    use super::{Buffer, Rect, Theme, clear};

    /// The sizes every view is tried at, smallest first, the odd ones included.
    pub const SIZES: &[(u16, u16)] = &[
        (0, 0),
        (1, 1),
        (7, 3),
        (40, 8),
        (80, 24),
        (120, 40),
        (300, 100),
    ];

    /// A fresh buffer of that size, larger than the area by one cell on each side so that a view
    /// that leaves its area can be caught.
    pub fn canvas(w: u16, h: u16) -> (Buffer, Rect) {
        let area = Rect::new(1, 1, w, h);
        let mut buf = Buffer::empty(Rect::new(0, 0, w + 2, h + 2));
        for cell in &mut buf.content {
            cell.set_char('~');
        }
        clear(&mut buf, area, &Theme::plain());
        (buf, area)
    }

    /// The rows of the area as text, trailing spaces dropped. Fails if the margin was drawn on.
    pub fn rows(buf: &Buffer, area: Rect) -> Vec<String> {
        let mut out = Vec::new();
        for y in buf.area.top()..buf.area.bottom() {
            let mut row = String::new();
            let mut x = buf.area.left();
            while x < buf.area.right() {
                let symbol = buf[(x, y)].symbol();
                let inside = area.contains((x, y).into());
                assert!(
                    inside || symbol == "~",
                    "drawn outside its area at {x},{y}: {symbol:?}"
                );
                let w = super::cells(super::text::width(symbol)).max(1);
                if inside {
                    assert!(
                        x + w <= area.right(),
                        "a wide character hangs over the edge"
                    );
                    row.push_str(symbol);
                }
                x += w;
            }
            if (area.top()..area.bottom()).contains(&y) {
                out.push(row.trim_end().to_owned());
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::testing::{canvas, rows};
    use super::*;

    #[test]
    fn hints_are_whole_or_absent() {
        let all = ["space tick", "enter open", "esc back"];
        assert_eq!(
            hints(&all, 40, "? help"),
            "space tick  enter open  esc back"
        );
        assert_eq!(hints(&all, 30, "? help"), "space tick  enter open  ? help");
        assert_eq!(hints(&all, 29, "? help"), "space tick  ? help");
        assert_eq!(hints(&all, 6, "? help"), "? help");
        assert_eq!(hints(&all, 5, "? help"), "");
        assert_eq!(hints(&all, 12, ""), "space tick");
    }

    #[test]
    fn the_window_holds_the_focus() {
        for len in 0..30 {
            for height in 1..10 {
                for focus in 0..len {
                    let start = window(len, height, focus);
                    assert!(start <= focus && focus < start + height);
                    assert!(len <= height && start == 0 || start + height <= len);
                }
            }
        }
    }

    #[test]
    fn nothing_leaves_its_area() {
        let theme = Theme::plain();
        for (w, h) in [(0, 0), (1, 1), (3, 1), (12, 2)] {
            let (mut buf, area) = canvas(w, h);
            put(&mut buf, area, 0, 0, "木目木目木目木目", theme.text);
            put(&mut buf, area, 2, 9, "below", theme.text);
            put(&mut buf, area, 99, 0, "beyond", theme.text);
            put_row(
                &mut buf,
                area,
                1,
                "a very long row indeed",
                theme.text,
                &theme,
            );
            heading(&mut buf, area, 0, "A long title", "3 of 9", &theme);
            rows(&buf, area);
        }
    }

    #[test]
    fn a_heading_keeps_title_and_mark_apart() {
        let theme = Theme::plain();
        let (mut buf, area) = canvas(20, 1);
        heading(
            &mut buf,
            area,
            0,
            "A title that is too long",
            "3 of 9",
            &theme,
        );
        assert_eq!(rows(&buf, area), ["A title tha…  3 of 9"]);
    }
}
