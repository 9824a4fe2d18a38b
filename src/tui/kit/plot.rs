//! A small plot of curves over a stretch of days: words at its edges, dots within.

use super::theme::Theme;
use super::{draw, text};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::symbols::Marker;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Points};

/// Dots of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Points in the units of the axes. What lies outside is not drawn.
    pub points: Vec<(f64, f64)>,
    /// How they look.
    pub style: Style,
}

/// One direction of the plot.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Its lower end.
    pub from: f64,
    /// Its upper end.
    pub to: f64,
    /// Words and where they stand.
    pub marks: Vec<(f64, String)>,
}

impl Axis {
    fn share(&self, at: f64) -> f64 {
        let long = self.to - self.from;
        if long > 0.0 {
            ((at - self.from) / long).clamp(0.0, 1.0)
        } else {
            0.0
        }
    }
}

/// Dots a column and a row are made of, across and down: what a caller should sample.
pub fn dots(theme: &Theme) -> (usize, usize) {
    if theme.ascii { (1, 1) } else { (2, 4) }
}

/// The part of `area` that holds the dots.
fn inside(area: Rect, y: &Axis) -> Rect {
    let widest = y.marks.iter().map(|(_, word)| text::width(word)).max();
    let gutter = draw::cells(widest.map_or(0, |width| width + 1)).min(area.width);
    Rect {
        x: area.x + gutter,
        y: area.y,
        width: area.width - gutter,
        height: area.height.saturating_sub(1),
    }
}

/// Columns that hold dots, so that a caller samples no more than can be seen.
pub fn columns(area: Rect, y: &Axis) -> usize {
    usize::from(inside(area, y).width)
}

/// Draws the curves, later ones over earlier, with the marks of `y` at the left and those of `x`
/// below. Without room for both it draws nothing.
pub fn plot(buf: &mut Buffer, area: Rect, x: &Axis, y: &Axis, curves: &[Curve], theme: &Theme) {
    let field = inside(area, y);
    if field.width < 8 || field.height < 2 {
        return;
    }
    let marker = if theme.ascii {
        Marker::Dot
    } else {
        Marker::Braille
    };
    for curve in curves {
        let color = curve.style.fg.unwrap_or_default();
        Canvas::default()
            .marker(marker)
            .x_bounds([x.from, x.to])
            .y_bounds([y.from, y.to])
            .paint(|painter| {
                painter.draw(&Points {
                    coords: &curve.points,
                    color,
                });
            })
            .render(field, buf);
    }
    if theme.ascii {
        in_ascii(buf, field);
    }
    for (at, word) in &y.marks {
        let down = (1.0 - y.share(*at)) * f64::from(field.height - 1);
        let gutter = usize::from(field.x - area.x);
        let col = gutter.saturating_sub(text::width(word) + 1);
        draw::put(buf, area, col, round(down), word, theme.dim);
    }
    let below = usize::from(field.height);
    let mut free = usize::from(field.x - area.x);
    let end = usize::from(area.width);
    for (at, word) in &x.marks {
        let across = x.share(*at) * f64::from(field.width - 1);
        let col = usize::from(field.x - area.x) + round(across);
        if col >= free && col + text::width(word) <= end {
            draw::put(buf, area, col, below, word, theme.dim);
            free = col + text::width(word) + 1;
        }
    }
}

/// The canvas knows one dot that is not ASCII; a star stands for it.
fn in_ascii(buf: &mut Buffer, field: Rect) {
    for y in field.top()..field.bottom() {
        for x in field.left()..field.right() {
            if let Some(cell) = buf.cell_mut((x, y))
                && !cell.symbol().is_ascii()
            {
                cell.set_symbol("*");
            }
        }
    }
}

/// A cell's number; what is drawn is never negative and never past a `u16`.
fn round(cells: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to what a u16 holds"
    )]
    let cells = cells.round().clamp(0.0, f64::from(u16::MAX)) as usize;
    cells
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::kit::draw::testing::{canvas, rows};

    fn axes() -> (Axis, Axis) {
        let x = Axis {
            from: 0.0,
            to: 2.0,
            marks: vec![(0.0, "Mon".to_owned()), (1.0, "Tue".to_owned())],
        };
        let y = Axis {
            from: 40.0,
            to: 80.0,
            marks: vec![(40.0, "40 F".to_owned()), (80.0, "80 F".to_owned())],
        };
        (x, y)
    }

    #[test]
    fn a_point_stands_where_its_figures_say() {
        let (x, y) = axes();
        let theme = Theme::plain().in_ascii(true);
        let (mut buf, area) = canvas(26, 6);
        let curve = Curve {
            points: vec![(0.0, 40.0), (2.0, 80.0), (1.0, 200.0)],
            style: theme.text,
        };
        plot(&mut buf, area, &x, &y, &[curve], &theme);
        let rows = rows(&buf, area);
        assert_eq!(rows[0].trim_end(), "80 F                     *");
        assert_eq!(rows[4].trim_end(), "40 F *");
        assert_eq!(rows[5].trim_end(), "     Mon       Tue");
        // A point beyond the axis is not drawn.
        assert_eq!(rows.concat().matches('*').count(), 2);
    }

    #[test]
    fn without_room_nothing_is_drawn() {
        let (x, y) = axes();
        for (width, height) in [(0, 0), (4, 1), (9, 6), (26, 2)] {
            let (mut buf, area) = canvas(width, height);
            plot(&mut buf, area, &x, &y, &[], &Theme::plain());
            assert!(rows(&buf, area).concat().trim().is_empty());
        }
    }
}
