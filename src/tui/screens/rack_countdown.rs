//! The countdown to what is ready next, in block digits to be read from across the shop.

use super::super::kit::big::{Ink, ROWS, big};
use super::super::kit::{draw, text};
use super::super::screen::Ctx;
use super::list::count;
use super::rack_rows::called;
use crate::coating::beyond_sight;
use crate::shop::{RackLine, RackRow, RackState};
use crate::units::moment::{show_moment, show_span};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Where it is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Countdown {
    #[default]
    Off,
    Below,
    Full,
}

impl Countdown {
    /// The next in turn.
    pub fn next(self) -> Self {
        match self {
            Self::Off => Self::Below,
            Self::Below => Self::Full,
            Self::Full => Self::Off,
        }
    }
}

/// Rows it takes below the list: a line, the digits, and words above and below them.
pub(super) const BELOW: usize = ROWS + 5;

/// The words above the digits, the digits, the words below.
struct Face {
    above: Vec<String>,
    digits: Option<String>,
    below: Vec<String>,
}

fn face(lines: &[RackLine], ctx: &Ctx<'_>) -> Face {
    let rows = || lines.iter().map(|line| &line.row);
    let ready = rows().filter(|row| row.state == RackState::Ready).count();
    let ready = match ready {
        0 => None,
        n => Some(format!("Ready now: {}.", count(n, "piece"))),
    };
    let soonest = rows()
        .filter_map(|row: &RackRow| {
            row.waiting
                .until()
                .filter(|at| *at > ctx.now && !beyond_sight(*at, ctx.now))
                .map(|at| (at, row))
        })
        .min_by_key(|(at, row)| (*at, row.piece));
    let Some((at, row)) = soonest else {
        let none = "Nothing dries towards a next step.".to_owned();
        return Face {
            above: vec![none],
            digits: None,
            below: ready.into_iter().collect(),
        };
    };
    // A minute begun counts: at zero the coat is ready.
    let minutes = ((at - ctx.now).num_seconds() + 59) / 60;
    let span = show_span(chrono::Duration::minutes(minutes));
    let moment = show_moment(at, ctx.now, ctx.zone());
    let mut below = vec![format!(
        "hours and minutes: in {span}, at {moment}, by {}",
        ctx.clock.basis()
    )];
    below.extend(ready);
    Face {
        above: vec![
            called(ctx, row.piece),
            row.waiting.words(ctx.now, ctx.zone()),
        ],
        digits: Some(format!("{}:{:02}", minutes / 60, minutes % 60)),
        below,
    }
}

/// Draws it over the whole of `area`, the digits as large as they fit.
pub(super) fn draw(buf: &mut Buffer, area: Rect, rows: &[RackLine], ctx: &Ctx<'_>) {
    let (width, height) = (usize::from(area.width), usize::from(area.height));
    let face = face(rows, ctx);
    let wrap = |lines: &[String]| -> Vec<String> {
        lines
            .iter()
            .flat_map(|line| text::wrap(line, width))
            .collect()
    };
    let (above, below) = (wrap(&face.above), wrap(&face.below));
    let ink = if ctx.theme.ascii {
        Ink::Hash
    } else {
        Ink::Block
    };
    let room = height.saturating_sub(above.len() + below.len());
    let digits = face
        .digits
        .map_or_else(Vec::new, |digits| largest(&digits, width, room, ink));
    let mut row = height.saturating_sub(above.len() + digits.len() + below.len()) / 2;
    let parts = [
        (above, ctx.theme.title),
        (digits, ctx.theme.accent),
        (below, ctx.theme.text),
    ];
    for (lines, style) in parts {
        for line in lines {
            let col = width.saturating_sub(text::width(&line)) / 2;
            draw::put(buf, area, col, row, &line, style);
            row += 1;
        }
    }
}

/// The digits grown as far as width and rows allow; without room for them, in plain figures.
fn largest(digits: &str, width: usize, rows: usize, ink: Ink) -> Vec<String> {
    for times in (1..=8).rev() {
        let fits = |lines: &[String; ROWS]| text::width(&lines[0]) <= width && ROWS * times <= rows;
        if let Some(lines) = big(digits, 2 * times, ink).filter(fits) {
            return lines
                .into_iter()
                .flat_map(|line| std::iter::repeat_n(line, times))
                .collect();
        }
    }
    match big(digits, 1, ink).filter(|lines| text::width(&lines[0]) <= width && ROWS <= rows) {
        Some(lines) => lines.into(),
        None if rows > 0 => vec![digits.to_owned()],
        None => Vec::new(),
    }
}
