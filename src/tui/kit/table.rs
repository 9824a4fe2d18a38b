//! A simple table as lines of text: columns that line up and never run into each other.

use super::text;

/// Which side a column's text leans to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// How one column behaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Which side its text leans to.
    pub side: Side,
    /// The width below which it gives way only after all others have.
    pub least: usize,
    /// Text that is too long goes on in the next line instead of ending in `…`.
    pub wraps: bool,
}

impl Column {
    /// A column of words, cut with `…` when there is no room.
    pub const fn left(least: usize) -> Self {
        Self {
            side: Side::Left,
            least,
            wraps: false,
        }
    }

    /// A column of numbers, leaning right.
    pub const fn right(least: usize) -> Self {
        Self {
            side: Side::Right,
            least,
            wraps: false,
        }
    }

    /// A column of words that goes on in the next line when there is no room.
    pub const fn wrapped(least: usize) -> Self {
        Self {
            side: Side::Left,
            least,
            wraps: true,
        }
    }
}

/// The rows as lines of at most `width` cells, columns two cells apart.
///
/// Each column is as wide as its widest cell; if that is too much in all, the widest column gives
/// way first, then the next, none below its `least` while another can still give. A row with
/// fewer cells than columns has its last cells empty; cells beyond the columns are not shown.
pub fn columns(rows: &[Vec<String>], columns: &[Column], width: usize) -> Vec<String> {
    let gap = if columns.len() * 3 > width { 1 } else { 2 };
    let widths = widths(
        rows,
        columns,
        width.saturating_sub(gap * columns.len().saturating_sub(1)),
    );
    let mut lines = Vec::new();
    for row in rows {
        let cells: Vec<Vec<String>> = columns
            .iter()
            .zip(&widths)
            .enumerate()
            .map(|(i, (column, w))| {
                let cell = row.get(i).map_or("", String::as_str);
                if column.wraps {
                    text::wrap(cell, *w)
                } else {
                    vec![text::one_line(cell)]
                }
            })
            .collect();
        for n in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
            let mut line = String::new();
            for (i, ((column, w), cell)) in columns.iter().zip(&widths).zip(&cells).enumerate() {
                if i > 0 {
                    line.push_str(&"  "[..gap]);
                }
                let part = cell.get(n).map_or("", String::as_str);
                line.push_str(&match column.side {
                    Side::Left => text::fit(part, *w),
                    Side::Right => text::fit_right(part, *w),
                });
            }
            lines.push(text::shorten(line.trim_end(), width));
        }
    }
    lines
}

fn widths(rows: &[Vec<String>], columns: &[Column], room: usize) -> Vec<usize> {
    let mut widths: Vec<usize> = (0..columns.len())
        .map(|i| {
            let cells = rows.iter().filter_map(|row| row.get(i));
            cells
                .map(|cell| text::width(&text::one_line(cell)))
                .max()
                .unwrap_or(0)
        })
        .collect();
    let mut excess = widths.iter().sum::<usize>().saturating_sub(room);
    for floor in [true, false] {
        let least = |i: usize| if floor { columns[i].least.max(1) } else { 1 };
        while excess > 0 {
            let widest = (0..widths.len())
                .filter(|i| widths[*i] > least(*i))
                .max_by_key(|i| widths[*i]);
            let Some(i) = widest else { break };
            widths[i] -= 1;
            excess -= 1;
        }
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rows(cells: &[&[&str]]) -> Vec<Vec<String>> {
        cells
            .iter()
            .map(|r| r.iter().map(|c| (*c).to_owned()).collect())
            .collect()
    }

    #[test]
    fn columns_line_up() {
        let rows = rows(&[&["wiped film", "4.5", "oz"], &["木目", "12", "oz"]]);
        let shape = [Column::left(4), Column::right(3), Column::left(2)];
        assert_eq!(
            columns(&rows, &shape, 40),
            ["wiped film  4.5  oz", "木目         12  oz"]
        );
        assert_eq!(
            columns(&rows, &shape, 15),
            ["wiped…  4.5  oz", "木目     12  oz"]
        );
    }

    #[test]
    fn a_wrapped_column_loses_nothing() {
        let rows = rows(&[
            &["left end", "150 grit not done on this face"],
            &["top", "done"],
        ]);
        assert_eq!(
            columns(&rows, &[Column::left(8), Column::wrapped(8)], 24),
            [
                "left end  150 grit not",
                "          done on this",
                "          face",
                "top       done"
            ]
        );
    }

    #[test]
    fn short_rows_and_no_columns_are_fine() {
        assert_eq!(
            columns(
                &rows(&[&["a"], &[]]),
                &[Column::left(1), Column::left(1)],
                10
            ),
            ["a", ""]
        );
        assert!(columns(&rows(&[&["a"]]), &[], 10).is_empty());
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_asked(
            cells in proptest::collection::vec(proptest::collection::vec("[a-z 木\u{301}\t]{0,20}", 0..6), 0..5),
            width in 0usize..60,
        ) {
            let shape = [Column::left(3), Column::right(4), Column::wrapped(5), Column::left(0)];
            for line in columns(&cells, &shape, width) {
                prop_assert!(text::width(&line) <= width, "{line:?}");
            }
        }
    }
}
