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
