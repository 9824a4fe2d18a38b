//! Names and sizes in a drawing of signs: where each finds room.

use super::picture::{Anchor, Ink};
use super::plot::{Cell, Plot};
use crate::shape::layout::Point;
use crate::units::display_width;
use unicode_segmentation::UnicodeSegmentation;

impl Plot {
    /// Puts a text where it does not cover another; one that has no room is left out.
    pub(super) fn label(&mut self, point: Point, anchor: Anchor, text: &str, ink: Ink) {
        let (x, y) = self.place(point);
        // Where a face's whole name has no room beside the piece, its name alone may have.
        let room = match anchor {
            Anchor::Left => x - 1.0,
            Anchor::Right => self.cols as f64 - x - 1.0,
            _ => f64::INFINITY,
        };
        let fits = ink != Ink::Face || display_width(text) as f64 <= room;
        let text = match text.split_once(',') {
            Some((name, _)) if !fits => name,
            _ => text,
        };
        let wide = display_width(text) as f64;
        let (left, top) = match anchor {
            Anchor::On => (x - wide / 2.0, y),
            Anchor::Above => (x - wide / 2.0, y - 1.0),
            Anchor::Below => (x - wide / 2.0, y + 1.0),
            Anchor::Left => (x - wide - 1.0, y),
            Anchor::Right => (x + 1.0, y),
        };
        let seen = x >= 0.0 && y >= 0.0 && x <= self.cols as f64 && y <= self.rows as f64;
        if !seen {
            return;
        }
        // A name beside the piece that has no room there stands inside.
        let left = match anchor {
            Anchor::Left if left < 0.0 => x + 1.0,
            Anchor::Right if left + wide > self.cols as f64 => x - wide - 1.0,
            _ => left,
        };
        // A text that would run over the border slides in.
        let left = left.round().clamp(0.0, (self.cols as f64 - wide).max(0.0));
        #[allow(clippy::cast_possible_truncation)]
        let tries = [0, 1, -1, 2, -2].map(|off| top.floor() as i64 + off);
        for row in tries {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            if let Ok(row) = usize::try_from(row)
                && row < self.rows
                && self.write(row, left as usize, text, ink)
            {
                return;
            }
        }
    }

    fn write(&mut self, row: usize, left: usize, text: &str, ink: Ink) -> bool {
        let wide = display_width(text);
        if left + wide > self.cols {
            return false;
        }
        let from = row * self.cols + left;
        // One blank between neighbours.
        let before = if left > 0 { from - 1 } else { from };
        let after = if left + wide < self.cols {
            from + wide + 1
        } else {
            from + wide
        };
        if self.cells[before..after].iter().any(|cell| cell.text) {
            return false;
        }
        let mut at = from;
        for sign in text.graphemes(true) {
            let width = display_width(sign);
            self.cells[at] = Cell {
                sign: sign.to_owned(),
                ink: Some(ink),
                text: true,
            };
            for behind in 1..width {
                self.cells[at + behind] = Cell {
                    sign: String::new(),
                    ink: Some(ink),
                    text: true,
                };
            }
            at += width;
        }
        true
    }
}
