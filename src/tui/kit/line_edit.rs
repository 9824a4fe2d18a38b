//! A one-line editor: text, a cursor that stands between grapheme clusters, nothing else.

use super::key::Key;
use super::text;

/// The longest text it takes, in bytes: far more than anyone types, and a bound on what a stray
/// paste can do.
const LONGEST: usize = 8_000;

/// The text being edited and where the cursor stands.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LineEdit {
    text: String,
    /// A byte offset, always at the border of a grapheme cluster.
    cursor: usize,
}

/// What of a line is visible in a given width.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Visible {
    /// The part that is shown.
    pub text: String,
    /// There is more to the left of it.
    pub more_left: bool,
    /// There is more to the right of it.
    pub more_right: bool,
    /// The cell the cursor stands in, from the left edge of the part shown.
    pub cursor: usize,
}

impl LineEdit {
    /// An editor holding `text`, made into one line, the cursor at its end.
    pub fn new(text: &str) -> Self {
        let text = text::one_line(text);
        Self {
            cursor: text.len(),
            text,
        }
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Nothing is in it.
    pub fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// Replaces the text, the cursor at its end.
    pub fn set(&mut self, text: &str) {
        *self = Self::new(text);
    }

    /// How many cells stand before the cursor.
    pub fn cursor_cell(&self) -> usize {
        text::width(&self.text[..self.cursor])
    }

    /// Works on the text with one key. Returns whether the key was an editing key, and so is dealt
    /// with, even if there was nothing left to do for it (arrow left at the beginning).
    pub fn edit(&mut self, key: &Key) -> bool {
        match key {
            Key::Char(c) if !c.is_control() => self.insert(c.encode_utf8(&mut [0; 4])),
            Key::Backspace | Key::Ctrl('h') => self.remove_to(self.before()),
            Key::Delete => self.remove_to(self.after()),
            Key::Ctrl('w') => self.remove_to(self.word_before()),
            Key::Ctrl('u') => self.remove_to(0),
            Key::Ctrl('k') => self.remove_to(self.text.len()),
            Key::Left => self.cursor = self.before(),
            Key::Right => self.cursor = self.after(),
            Key::WordLeft => self.cursor = self.word_before(),
            Key::WordRight => self.cursor = self.word_after(),
            Key::Home | Key::Ctrl('a') => self.cursor = 0,
            Key::End | Key::Ctrl('e') => self.cursor = self.text.len(),
            _ => return false,
        }
        true
    }

    /// Inserts pasted text: line breaks and tabs inside become spaces, those at the ends and other
    /// control characters are dropped. Returns `false`, and takes nothing, if it is too long.
    pub fn paste(&mut self, pasted: &str) -> bool {
        let line = text::one_line(pasted.trim_matches(['\r', '\n', '\t']));
        let line: String = line
            .chars()
            .filter(|c| *c != char::REPLACEMENT_CHARACTER)
            .collect();
        if self.text.len() + line.len() > LONGEST {
            return false;
        }
        self.insert(&line);
        true
    }

    /// What is visible in `cells` cells, the cursor always among it. One cell is kept for the
    /// cursor behind the last character.
    pub fn visible(&self, cells: usize) -> Visible {
        let cursor = self.cursor_cell();
        let total = text::width(&self.text);
        // The part moves in steps of half the width, so that it stands still while one types.
        let step = (cells / 2).max(1);
        let from = if total < cells || cells == 0 {
            0
        } else {
            (cursor + 2).saturating_sub(cells).div_ceil(step) * step
        };
        let mut shown = String::new();
        let (mut at, mut used) = (0, 0);
        let mut more_right = false;
        for g in text::graphemes(&self.text) {
            let w = text::grapheme_width(g);
            if at + w > from && at < from {
                // Half of a wide cluster is cut off at the left: its other half is blank.
                used = at + w - from;
                shown.push_str(&" ".repeat(used));
            } else if at >= from {
                if used + w > cells {
                    more_right = true;
                    break;
                }
                shown.push_str(g);
                used += w;
            }
            at += w;
        }
        let cursor = (cursor - from.min(cursor)).min(cells.saturating_sub(1));
        Visible {
            text: shown,
            more_left: from > 0,
            more_right,
            cursor,
        }
    }

    fn insert(&mut self, s: &str) {
        if self.text.len() + s.len() > LONGEST {
            return;
        }
        self.text.insert_str(self.cursor, s);
        // What was typed may have joined its neighbours (an accent, say): stand behind the whole.
        self.cursor = self.border_from(self.cursor + s.len());
    }

    fn remove_to(&mut self, other: usize) {
        let (a, b) = (self.cursor.min(other), self.cursor.max(other));
        self.text.replace_range(a..b, "");
        self.cursor = self.border_from(a);
    }

    /// The first border between clusters at or behind a byte offset.
    fn border_from(&self, at: usize) -> usize {
        let mut border = 0;
        for g in text::graphemes(&self.text) {
            if border >= at {
                break;
            }
            border += g.len();
        }
        border
    }

    fn before(&self) -> usize {
        let last = text::graphemes(&self.text[..self.cursor]).next_back();
        self.cursor - last.map_or(0, str::len)
    }

    fn after(&self) -> usize {
        let next = text::graphemes(&self.text[self.cursor..]).next();
        self.cursor + next.map_or(0, str::len)
    }

    fn word_before(&self) -> usize {
        let head = self.text[..self.cursor].trim_end();
        let start = head.rfind(char::is_whitespace);
        let at = start.map_or(0, |at| {
            at + head[at..].chars().next().map_or(0, char::len_utf8)
        });
        // An accent on a blank belongs to it: never stop inside a cluster.
        self.border_from(at)
    }

    fn word_after(&self) -> usize {
        let tail = &self.text[self.cursor..];
        let word = tail.trim_start();
        let skipped = tail.len() - word.len();
        let len = word.find(char::is_whitespace).unwrap_or(word.len());
        self.border_from(self.cursor + skipped + len)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn typed(keys: &[Key]) -> LineEdit {
        let mut line = LineEdit::default();
        for key in keys {
            line.edit(key);
        }
        line
    }

    #[test]
    fn edits_by_cluster() {
        let mut line = typed(&[
            Key::Char('e'),
            Key::Char('\u{301}'),
            Key::Char('木'),
            Key::Char('a'),
        ]);
        assert_eq!(line.text(), "e\u{301}木a");
        assert_eq!(line.cursor_cell(), 4);
        line.edit(&Key::Left);
        line.edit(&Key::Backspace);
        assert_eq!(line.text(), "e\u{301}a");
        line.edit(&Key::Backspace);
        assert_eq!((line.text(), line.cursor_cell()), ("a", 0));
        line.edit(&Key::Delete);
        assert!(line.is_empty());
        assert!(
            line.edit(&Key::Delete) && line.edit(&Key::Left),
            "still the editor's keys"
        );
        assert!(!line.edit(&Key::Up) && !line.edit(&Key::Enter));
    }

    #[test]
    fn moves_by_word() {
        let mut line = LineEdit::new("98 3/8 x 25");
        line.edit(&Key::WordLeft);
        assert_eq!(line.cursor_cell(), 9);
        line.edit(&Key::WordLeft);
        line.edit(&Key::WordLeft);
        assert_eq!(line.cursor_cell(), 3);
        line.edit(&Key::WordRight);
        assert_eq!(line.cursor_cell(), 6);
        line.edit(&Key::Ctrl('w'));
        assert_eq!(line.text(), "98  x 25");
        line.edit(&Key::Ctrl('u'));
        line.edit(&Key::End);
        line.edit(&Key::Char('"'));
        assert_eq!(line.text(), " x 25\"");
    }

    #[test]
    fn paste_stays_one_line() {
        let mut line = LineEdit::new("ab");
        line.edit(&Key::Left);
        assert!(line.paste("\n1\r\n2\x1b[0m\n"));
        assert_eq!(line.text(), "a1 2[0mb");
        assert!(!line.paste(&"x".repeat(LONGEST)));
        assert_eq!(line.text(), "a1 2[0mb");
    }

    #[test]
    fn an_accent_before_the_cursor_joins() {
        let mut line = LineEdit::new("ab");
        line.edit(&Key::Left);
        line.edit(&Key::Char('\u{308}'));
        assert_eq!((line.text(), line.cursor_cell()), ("a\u{308}b", 1));
    }

    #[test]
    fn shows_all_when_it_fits() {
        let line = LineEdit::new("walnut");
        let v = line.visible(7);
        assert_eq!((v.text.as_str(), v.cursor), ("walnut", 6));
        assert!(!v.more_left && !v.more_right);
    }

    proptest! {
        #[test]
        fn the_cursor_is_always_in_sight(
            s in "([a-z 木]|e\u{301}){0,60}", left in 0usize..60, cells in 2usize..20,
        ) {
            let mut line = LineEdit::new(&s);
            for _ in 0..left {
                line.edit(&Key::Left);
            }
            let v = line.visible(cells);
            prop_assert!(text::width(&v.text) <= cells);
            prop_assert!(v.cursor < cells);
            prop_assert!(v.cursor <= text::width(&v.text));
            // What stands left of the cursor is really what is drawn left of it.
            let (head, w) = text::take(&v.text, v.cursor);
            prop_assert_eq!(w, v.cursor);
            let before = &line.text()[..line.cursor];
            prop_assert!(before.ends_with(head.trim_start_matches(' ')));
            prop_assert!(v.more_left || before == head);
        }

        #[test]
        fn any_keys_leave_the_cursor_on_a_border(keys in proptest::collection::vec(0u8..14, 0..60)) {
            let mut line = LineEdit::default();
            for k in keys {
                let key = match k {
                    0 => Key::Left, 1 => Key::Right, 2 => Key::Backspace, 3 => Key::Delete,
                    4 => Key::WordLeft, 5 => Key::WordRight, 6 => Key::Char('\u{301}'),
                    7 => Key::Char('\u{200d}'), 8 => Key::Char('👩'), 9 => Key::Char('木'),
                    10 => Key::Char(' '), 11 => Key::Char('🇳'), 12 => Key::Ctrl('w'), _ => Key::Char('x'),
                };
                line.edit(&key);
                prop_assert_eq!(line.border_from(line.cursor), line.cursor);
                line.visible(9);
            }
        }
    }
}
