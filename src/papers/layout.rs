//! Lines and columns of text, measured by what a terminal or a printer shows.

use crate::units::display_width;
use unicode_segmentation::UnicodeSegmentation;

/// `text` cut to `width` columns; an ellipsis at the end says that something is missing.
pub fn cut(text: &str, width: usize) -> String {
    if display_width(text) <= width {
        return text.to_owned();
    }
    let mut short = String::new();
    let mut used = 0;
    for sign in text.graphemes(true) {
        let wide = display_width(sign);
        if used + wide + 1 > width {
            break;
        }
        short.push_str(sign);
        used += wide;
    }
    short.push('…');
    short
}

/// `text` with blanks behind it up to `width` columns; longer text stays as it is.
pub fn pad(text: &str, width: usize) -> String {
    let blanks = width.saturating_sub(display_width(text));
    format!("{text}{}", " ".repeat(blanks))
}

/// `text` broken between words into lines of at most `width` columns; all but the first start
/// with `indent` blanks. A word longer than a line is broken inside.
pub fn wrap(text: &str, width: usize, indent: usize) -> Vec<String> {
    let width = width.max(indent + 2);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && display_width(&line) + 1 + display_width(word) > width {
            lines.push(std::mem::replace(&mut line, " ".repeat(indent)));
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        for sign in word.graphemes(true) {
            if !empty && display_width(&line) + display_width(sign) > width {
                lines.push(std::mem::replace(&mut line, " ".repeat(indent)));
            }
            line.push_str(sign);
            empty = false;
        }
    }
    if !empty || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The narrowest that a last column wraps to.
const LAST_LEAST: usize = 12;
/// The narrowest that a name is cut to.
const NAME_LEAST: usize = 8;

/// Rows of cells in columns, parted by two blanks. The last column wraps under itself; the others
/// are as wide as their widest cell.
#[derive(Debug, Default)]
pub struct Columns {
    rows: Vec<Vec<String>>,
    most: Vec<usize>,
}

impl Columns {
    /// Columns of which the first ones are at most so wide; the others as wide as they need.
    pub fn at_most(most: &[usize]) -> Self {
        Self {
            rows: Vec::new(),
            most: most.to_vec(),
        }
    }

    /// Adds a row.
    pub fn row<const N: usize>(&mut self, cells: [&str; N]) {
        self.rows
            .push(cells.iter().map(|cell| (*cell).to_owned()).collect());
    }

    /// Whether there are no rows.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// How wide each column but the last is. Where the row would not fit, the columns that were
    /// given a most give way, the widest first: names can be cut, figures cannot.
    fn widths(&self, room: usize) -> Vec<usize> {
        let count = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let widest = |at: usize| {
            let cells = self.rows.iter().filter_map(|row| row.get(at));
            cells.map(|cell| display_width(cell)).max().unwrap_or(0)
        };
        let most = |at: usize| self.most.get(at).copied().unwrap_or(usize::MAX);
        let mut widths: Vec<usize> = (0..count.saturating_sub(1))
            .map(|at| widest(at).min(most(at)))
            .collect();
        let last = widest(count.saturating_sub(1)).min(LAST_LEAST);
        let taken = |widths: &[usize]| widths.iter().map(|wide| wide + 2).sum::<usize>() + last;
        while taken(&widths) > room {
            let giving = widths.iter_mut().take(self.most.len());
            match giving.filter(|wide| **wide > NAME_LEAST).max() {
                Some(wide) => *wide -= 1,
                None => break,
            }
        }
        widths
    }

    /// The lines, each behind `margin` blanks, at most `width` columns wide.
    pub fn lines(&self, margin: usize, width: usize) -> Vec<String> {
        let widths = self.widths(width.saturating_sub(margin));
        let mut out = Vec::new();
        for row in &self.rows {
            let mut line = " ".repeat(margin);
            for (at, cell) in row.iter().enumerate().take(row.len().saturating_sub(1)) {
                let wide = widths.get(at).copied().unwrap_or(0);
                line.push_str(&pad(&cut(cell, wide), wide + 2));
            }
            let from = display_width(&line);
            let last = row.last().map_or("", String::as_str);
            let mut pieces = wrap(
                last,
                width.saturating_sub(from).max(LAST_LEAST.min(width)),
                0,
            )
            .into_iter();
            line.push_str(&pieces.next().unwrap_or_default());
            out.push(line.trim_end().to_owned());
            out.extend(pieces.map(|piece| format!("{}{piece}", " ".repeat(from))));
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cutting_and_padding_count_columns() {
        assert_eq!(cut("bar top", 7), "bar top");
        assert_eq!(cut("bar tops", 7), "bar to…");
        assert_eq!(cut("木木木", 5), "木木…");
        assert_eq!(pad("木", 4), "木  ");
    }

    #[test]
    fn wrapping_breaks_between_words_and_inside_long_ones() {
        assert_eq!(wrap("one two three", 8, 2), ["one two", "  three"]);
        assert_eq!(wrap("abcdefghij", 4, 0), ["abcd", "efgh", "ij"]);
        assert_eq!(wrap("", 10, 2), [""]);
    }

    #[test]
    fn names_give_way_where_a_row_would_not_fit() {
        let mut columns = Columns::at_most(&[20]);
        columns.row(["a very long name", "123456", "1234567890"]);
        assert_eq!(columns.lines(0, 30), ["a very lo…  123456  1234567890"]);
    }

    #[test]
    fn the_last_column_wraps_under_itself() {
        let mut columns = Columns::at_most(&[4, 6]);
        columns.row(["1A", "bar", "coat 4 of 6: ready to go"]);
        columns.row(["22B", "vanity top", "ready"]);
        assert_eq!(
            columns.lines(1, 31),
            [
                " 1A   bar     coat 4 of 6:",
                "              ready to go",
                " 22B  vanit…  ready"
            ]
        );
    }
}
