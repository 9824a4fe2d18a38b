//! Text from outside: cleaned, held to its length, and guarded against spreadsheets.

use super::error::Fault;
use crate::units::{clean_line, clean_text};
use unicode_segmentation::UnicodeSegmentation;

/// Longest name of a client, job, product or recipe: as the desk holds it.
pub(super) const NAME_MOST: usize = 80;
/// Longest name of a piece.
pub(super) const PIECE_MOST: usize = 40;
/// Longest other line.
pub(super) const LINE_MOST: usize = 200;
/// Longest notes.
pub(super) const NOTES_MOST: usize = 4000;

/// Cleaned to one line of at most `most` characters; with it how many characters were left out.
pub(super) fn line(what: &'static str, raw: &str, most: usize) -> Result<(String, usize), Fault> {
    held(what, clean_line(raw), most)
}

/// The same over several lines.
pub(super) fn lines(what: &'static str, raw: &str, most: usize) -> Result<(String, usize), Fault> {
    held(what, clean_text(raw), most)
}

fn held(
    what: &'static str,
    (text, left_out): (String, usize),
    most: usize,
) -> Result<(String, usize), Fault> {
    let has = text.graphemes(true).count();
    if has > most {
        Err(Fault::TooLong { what, most, has })
    } else {
        Ok((text, left_out))
    }
}

/// Whether a spreadsheet could take the cell for a formula, apostrophes in front left aside.
fn looks_live(cell: &str) -> bool {
    cell.trim_start_matches('\'')
        .starts_with(['=', '+', '-', '@', '\t', '\r'])
}

/// A cell as it is written: what a spreadsheet could take for a formula gets an apostrophe.
pub(super) fn guard(cell: &str) -> String {
    if looks_live(cell) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

/// A cell as it was before it was guarded.
pub(super) fn unguard(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if looks_live(rest) => rest,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn formulas_are_guarded_and_words_are_not() {
        for (cell, guarded) in [
            ("=1+1", "'=1+1"),
            ("+1 303 555", "'+1 303 555"),
            ("-2d 07:40", "'-2d 07:40"),
            ("@home", "'@home"),
            ("\tx", "'\tx"),
            ("'=1", "''=1"),
            ("'tis", "'tis"),
            ("a=b", "a=b"),
            ("", ""),
        ] {
            assert_eq!(guard(cell), guarded);
            assert_eq!(unguard(guarded), cell);
        }
        assert_eq!(
            unguard("-2d 07:40"),
            "-2d 07:40",
            "unguarded cells pass as they are"
        );
    }

    proptest! {
        #[test]
        fn every_cell_comes_back(cell in "['=+@\t-]{0,4}.{0,6}") {
            let guarded = guard(&cell);
            prop_assert!(!guarded.starts_with(['=', '+', '-', '@', '\t', '\r']));
            prop_assert_eq!(unguard(&guarded), cell);
        }
    }
}
