//! Cleaning of text that came from outside (typed, pasted, imported) before it is kept, shown or
//! printed, so that it cannot steer a terminal or turn a line around.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// One clean line: terminal escape sequences, control characters, marks that reverse the reading
/// direction and invisible marks are left out, white space and line ends are folded to single
/// spaces, the ends trimmed. The number says how many characters were left out (folded white
/// space is not counted).
pub fn clean_line(raw: &str) -> (String, usize) {
    let (kept, left_out) = strip(raw);
    let line = kept.split_whitespace().collect::<Vec<_>>().join(" ");
    (line, left_out)
}

/// The same as [`clean_line`], but line ends are kept, as `\n`. Each line is trimmed and its white
/// space folded; empty lines at both ends go, those between stay.
pub fn clean_text(raw: &str) -> (String, usize) {
    let (kept, left_out) = strip(raw);
    let lines: Vec<String> = kept
        .split('\n')
        .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    (lines.join("\n").trim_matches('\n').to_owned(), left_out)
}

/// Columns that the text takes on a terminal, counted by what a reader sees as one character.
pub fn display_width(text: &str) -> usize {
    text.graphemes(true).map(UnicodeWidthStr::width).sum()
}

/// Leaves out everything that is not text, keeps `\n` and white space, and counts.
fn strip(raw: &str) -> (String, usize) {
    let prepared = prepare(raw);
    let plain = strip_ansi_escapes::strip_str(&prepared.text);
    let before = prepared.text.chars().count() - prepared.added;
    let in_escapes = before.saturating_sub(plain.chars().count());
    let kept: String = plain.chars().filter(|c| !is_unwanted(*c)).collect();
    let unwanted = plain.chars().count() - kept.chars().count();
    (kept, prepared.replaced + in_escapes + unwanted)
}

/// A text made ready for the escape stripper.
struct Prepared {
    text: String,
    /// Characters that are in `text` only to spell something out.
    added: usize,
    /// Odd line ends that became `\n`.
    replaced: usize,
}

/// Turns tabs and line ends of every kind into what the escape stripper keeps, and spells the
/// one-character forms of the escape openers out so that their tails go with them.
fn prepare(raw: &str) -> Prepared {
    let mut prepared = Prepared {
        text: String::with_capacity(raw.len()),
        added: 0,
        replaced: 0,
    };
    for c in raw.replace("\r\n", "\n").chars() {
        match c {
            '\t' => prepared.text.push(' '),
            '\r' | '\u{0B}' | '\u{0C}' | '\u{85}' | '\u{2028}' | '\u{2029}' => {
                prepared.text.push('\n');
                prepared.replaced += 1;
            }
            // ECMA-48, 5.3: DCS, SOS, CSI, OSC, PM and APC are ESC and the letter 64 lower.
            '\u{90}' | '\u{98}' | '\u{9B}' | '\u{9D}' | '\u{9E}' | '\u{9F}' => {
                prepared.text.push('\u{1B}');
                prepared.text.extend(char::from_u32(u32::from(c) - 0x40));
                prepared.added += 1;
            }
            c => prepared.text.push(c),
        }
    }
    prepared
}

/// Controls, direction marks (Unicode Standard Annex 9) and marks without width that hide in a
/// word. The joiners U+200C and U+200D stay: scripts and emoji need them.
fn is_unwanted(c: char) -> bool {
    (c.is_control() && c != '\n')
        || matches!(c,
            '\u{061C}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{206F}'
            | '\u{200B}' | '\u{2060}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_keeps_its_words_and_loses_what_steers() {
        for (raw, line, left_out) in [
            ("  Walnut \t top \n island ", "Walnut top island", 0),
            ("a\r\nb", "a b", 0),
            ("\u{1B}[31mred\u{1B}[0m", "red", 9),
            ("\u{9B}31mred", "red", 4),
            ("\u{1B}]0;title\u{7}top", "top", 10),
            ("a\u{202E}b\u{2066}c\u{200F}", "abc", 3),
            ("a\u{2028}b\u{85}c", "a b c", 2),
            ("a\u{0}b\u{7F}c", "abc", 2),
            ("a\u{200B}b\u{FEFF}", "ab", 2),
            ("bell\u{7}", "bell", 1),
            ("5⅜″ × 2′, Zoë 木", "5⅜″ × 2′, Zoë 木", 0),
            ("👩\u{200D}🔧", "👩\u{200D}🔧", 0),
            ("", "", 0),
        ] {
            assert_eq!(clean_line(raw), (line.to_owned(), left_out), "{raw:?}");
        }
    }

    #[test]
    fn a_text_keeps_its_line_ends() {
        let raw = "\n one  two \r\n\r\nthree\rfour\u{1B}[2J\n\n";
        assert_eq!(clean_text(raw), ("one two\n\nthree\nfour".to_owned(), 5));
    }

    #[test]
    fn width_counts_what_a_terminal_shows() {
        for (text, width) in [
            ("top", 3),
            ("木", 2),
            ("e\u{301}", 1),
            ("👩\u{200D}🔧", 2),
            ("", 0),
        ] {
            assert_eq!(display_width(text), width, "{text:?}");
        }
    }
}
