//! A drawing in the signs of a terminal: braille dots (two by four to a place), or plain ASCII.

use super::picture::{Ink, Picture};
use crate::shape::layout::Point;

/// Which signs are used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Signs {
    /// Braille: the finest.
    #[default]
    Braille,
    /// Half blocks: two dots to a place, seen from further off.
    Half,
    /// Only what every terminal and printer has.
    Ascii,
}

impl Signs {
    /// Dots across and down in one place.
    fn dots(self) -> (f64, f64) {
        match self {
            Self::Braille => (2.0, 4.0),
            Self::Half => (1.0, 2.0),
            Self::Ascii => (1.0, 1.0),
        }
    }

    /// The next ones, round and round.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Braille => Self::Half,
            Self::Half => Self::Ascii,
            Self::Ascii => Self::Braille,
        }
    }

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Braille => "braille",
            Self::Half => "half blocks",
            Self::Ascii => "plain",
        }
    }
}

/// Which part of the piece is seen: what lies in the middle, and how often the whole would fit
/// into what is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// How much nearer than the whole piece; 1 shows all of it.
    pub zoom: f64,
    /// The middle, in parts of the piece's box from its lower left.
    pub mid: (f64, f64),
}

impl Default for View {
    fn default() -> Self {
        Self {
            zoom: 1.0,
            mid: (0.5, 0.5),
        }
    }
}

impl View {
    /// Nearer or further by a step; never further than the whole piece.
    #[must_use]
    pub fn zoomed(self, nearer: bool) -> Self {
        let zoom = if nearer {
            self.zoom * 1.5
        } else {
            self.zoom / 1.5
        };
        let zoom = zoom.clamp(1.0, 60.0);
        let mid = if zoom <= 1.0 { (0.5, 0.5) } else { self.mid };
        Self { zoom, mid }
    }

    /// Moved by parts of what is seen, never off the piece.
    #[must_use]
    pub fn moved(self, right: f64, up: f64) -> Self {
        let step = |mid: f64, by: f64| (mid + by / self.zoom).clamp(0.0, 1.0);
        Self {
            mid: (step(self.mid.0, right), step(self.mid.1, up)),
            ..self
        }
    }
}

/// One place of a plot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// The sign; empty behind a wide one.
    pub sign: String,
    /// What it stands for, if anything is there.
    pub ink: Option<Ink>,
    /// Whether it is part of a text.
    pub text: bool,
}

/// A drawing in signs, to scale: a place is taken as twice as tall as wide.
#[derive(Debug, Clone)]
pub struct Plot {
    pub(super) cols: usize,
    pub(super) rows: usize,
    signs: Signs,
    dots: Vec<u8>,
    pub(super) cells: Vec<Cell>,
    /// Millimetres to a place's width.
    mm_per_col: f64,
    /// The piece's point at the upper left corner.
    corner: Point,
}

/// Places kept free at left and right, and at top and bottom, for names and sizes.
const MARGIN: (usize, usize) = (10, 2);

impl Plot {
    /// Draws `picture` into so many places.
    pub fn new(picture: &Picture, view: View, cols: usize, rows: usize, signs: Signs) -> Self {
        let (low, high) = picture.extent;
        let (wide, deep) = ((high.x - low.x).max(1.0), (high.y - low.y).max(1.0));
        let room = |all: usize, margin: usize| all.saturating_sub(2 * margin).max(2) as f64;
        // A place is one wide and two tall.
        let fit = (wide / room(cols, MARGIN.0)).max(deep / (2.0 * room(rows, MARGIN.1)));
        let mm_per_col = fit / view.zoom.max(1.0);
        let mid = Point {
            x: low.x + wide * view.mid.0,
            y: low.y + deep * view.mid.1,
        };
        let corner = Point {
            x: mid.x - mm_per_col * cols as f64 / 2.0,
            y: mid.y + mm_per_col * rows as f64,
        };
        let blank = Cell {
            sign: " ".to_owned(),
            ink: None,
            text: false,
        };
        let mut plot = Self {
            cols,
            rows,
            signs,
            dots: vec![0; cols * rows],
            cells: vec![blank; cols * rows],
            mm_per_col,
            corner,
        };
        for stroke in &picture.strokes {
            for pair in stroke.points.windows(2) {
                if let [from, to] = pair {
                    plot.line(*from, *to, stroke.ink);
                }
            }
        }
        for label in &picture.labels {
            plot.label(label.at, label.anchor, &label.text, label.ink);
        }
        plot
    }

    /// Millimetres of the piece to one place's width; a place is twice as tall.
    pub fn mm_per_col(&self) -> f64 {
        self.mm_per_col
    }

    /// The places of a row.
    pub fn row(&self, row: usize) -> &[Cell] {
        self.cells
            .get(row * self.cols..(row + 1) * self.cols)
            .unwrap_or_default()
    }

    /// The rows as text, blanks at their ends left out.
    pub fn lines(&self) -> Vec<String> {
        (0..self.rows)
            .map(|row| {
                let line: String = self
                    .row(row)
                    .iter()
                    .map(|cell| cell.sign.as_str())
                    .collect();
                line.trim_end().to_owned()
            })
            .collect()
    }

    /// A point of the piece in places from the upper left.
    pub(super) fn place(&self, point: Point) -> (f64, f64) {
        (
            (point.x - self.corner.x) / self.mm_per_col,
            (self.corner.y - point.y) / (2.0 * self.mm_per_col),
        )
    }

    fn line(&mut self, from: Point, to: Point, ink: Ink) {
        let (across, down) = self.signs.dots();
        let dot = |(x, y): (f64, f64)| (x * across, y * down);
        let (a, b) = (dot(self.place(from)), dot(self.place(to)));
        let (most_x, most_y) = (self.cols as f64 * across, self.rows as f64 * down);
        let Some((a, b)) = clipped(a, b, most_x, most_y) else {
            return;
        };
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let steps = dx.abs().max(dy.abs()).ceil().max(1.0);
        // The box is a screen's: this fits.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let count = steps as usize;
        for step in 0..=count {
            let broken = match ink {
                Ink::Joint | Ink::Centre => step % 4 == 3,
                Ink::Below => step % 3 != 0,
                _ => false,
            };
            if broken {
                continue;
            }
            let part = step as f64 / steps;
            self.dot(a.0 + dx * part, a.1 + dy * part, (dx, dy), ink);
        }
    }

    fn dot(&mut self, x: f64, y: f64, way: (f64, f64), ink: Ink) {
        if x < 0.0 || y < 0.0 {
            return;
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let (x, y) = (x.floor() as usize, y.floor() as usize);
        let (across, down) = match self.signs {
            Signs::Braille => (2, 4),
            Signs::Half => (1, 2),
            Signs::Ascii => (1, 1),
        };
        let (col, row) = (x / across, y / down);
        if col >= self.cols || row >= self.rows {
            return;
        }
        let at = row * self.cols + col;
        let (in_x, in_y) = (x % across, y % down);
        let cell = &mut self.cells[at];
        cell.ink = Some(cell.ink.map_or(ink, |has| heavier(has, ink)));
        match self.signs {
            Signs::Braille => {
                self.dots[at] |= BRAILLE[in_y][in_x];
                let sign = char::from_u32(0x2800 + u32::from(self.dots[at])).unwrap_or('.');
                cell.sign = sign.to_string();
            }
            Signs::Half => {
                self.dots[at] |= if in_y == 0 { 1 } else { 2 };
                let halves = [" ", "▀", "▄", "█"];
                halves[usize::from(self.dots[at])].clone_into(&mut cell.sign);
            }
            Signs::Ascii => {
                // A place is twice as tall as wide: the way a line seems to go follows.
                let (dx, dy) = (way.0.abs(), way.1.abs() * 2.0);
                let sign = if dy < dx * 0.4 {
                    "-"
                } else if dx < dy * 0.4 {
                    "|"
                } else if (way.0 > 0.0) == (way.1 > 0.0) {
                    "\\"
                } else {
                    "/"
                };
                let crossed = cell.sign != " " && cell.sign != sign;
                let sign = if crossed { "+" } else { sign };
                sign.clone_into(&mut cell.sign);
            }
        }
    }
}

/// The dots of a braille sign, by row and column.
const BRAILLE: [[u8; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

/// Which of two inks shows where both lie.
fn heavier(has: Ink, new: Ink) -> Ink {
    let rank = |ink: Ink| match ink {
        Ink::Finding => 5,
        Ink::Outline | Ink::Opening => 4,
        Ink::Taken => 3,
        Ink::Joint => 2,
        _ => 1,
    };
    if rank(new) > rank(has) { new } else { has }
}

/// The part of a line inside the box from nothing to the most, if any (after Liang and Barsky).
fn clipped(
    a: (f64, f64),
    b: (f64, f64),
    most_x: f64,
    most_y: f64,
) -> Option<((f64, f64), (f64, f64))> {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (way, room) in [
        (-dx, a.0),
        (dx, most_x - a.0),
        (-dy, a.1),
        (dy, most_y - a.1),
    ] {
        if way.abs() < f64::EPSILON {
            if room < 0.0 {
                return None;
            }
        } else if way < 0.0 {
            from = from.max(room / way);
        } else {
            to = to.min(room / way);
        }
    }
    let point = |part: f64| (a.0 + dx * part, a.1 + dy * part);
    (from <= to).then(|| (point(from), point(to)))
}
