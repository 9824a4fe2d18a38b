//! Text measured the way a terminal shows it: by grapheme cluster and display width, never by
//! bytes or characters.

use ratatui::buffer::CellWidth;
use unicode_segmentation::UnicodeSegmentation;

/// The sign that says "there is more than is shown".
pub const ELLIPSIS: &str = "…";

/// The grapheme clusters of a text.
pub fn graphemes(s: &str) -> impl DoubleEndedIterator<Item = &str> {
    s.graphemes(true)
}

/// How many terminal cells one grapheme cluster takes; control characters take none, since they
/// are never drawn.
pub fn grapheme_width(g: &str) -> usize {
    if g.chars().any(char::is_control) {
        0
    } else {
        usize::from(g.cell_width())
    }
}

/// How many terminal cells a text takes.
pub fn width(s: &str) -> usize {
    graphemes(s).map(grapheme_width).sum()
}

/// The text with control characters made harmless: a tab or line break becomes a space (one for
/// a whole CR LF), everything else of that kind becomes the replacement character.
pub fn one_line(s: &str) -> String {
    let mut out = String::with_capacity(s.len());
    let mut chars = s.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '\r' if chars.peek() == Some(&'\n') => {}
            '\n' | '\r' | '\t' => out.push(' '),
            c if c.is_control() => out.push(char::REPLACEMENT_CHARACTER),
            c => out.push(c),
        }
    }
    out
}

/// The longest beginning of `s` that takes at most `cells`, and its width.
pub fn take(s: &str, cells: usize) -> (&str, usize) {
    let (mut end, mut used) = (0, 0);
    for g in graphemes(s) {
        let w = grapheme_width(g);
        if used + w > cells {
            break;
        }
        end += g.len();
        used += w;
    }
    (&s[..end], used)
}

/// The text cut to at most `cells`, with a `…` in its last cell if something had to go.
pub fn shorten(s: &str, cells: usize) -> String {
    shorten_with(s, cells, ELLIPSIS)
}

/// As [`shorten`], with a sign of the caller's for what is missing.
pub fn shorten_with(s: &str, cells: usize, sign: &str) -> String {
    if width(s) <= cells {
        return s.to_owned();
    }
    let room = cells.saturating_sub(width(sign));
    let (head, _) = take(s, room);
    let (sign, _) = take(sign, cells);
    format!("{head}{sign}")
}

/// The text in exactly `cells`: filled up with spaces on the right, or cut with a `…`.
pub fn fit(s: &str, cells: usize) -> String {
    let mut out = shorten(s, cells);
    out.extend(std::iter::repeat_n(' ', cells - width(&out).min(cells)));
    out
}

/// As [`fit`], but filled up on the left.
pub fn fit_right(s: &str, cells: usize) -> String {
    let out = shorten(s, cells);
    let mut padded = " ".repeat(cells - width(&out).min(cells));
    padded.push_str(&out);
    padded
}

/// Wraps a text at spaces into lines of at most `cells`.
///
/// Line breaks in the text are kept, and so is its spacing where a line fits as it is. A line
/// that is broken goes on under its own indentation. Only a word longer than a whole line is
/// split. At a width of 0 there are no lines.
pub fn wrap(s: &str, cells: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if cells == 0 {
        return lines;
    }
    for paragraph in s.split('\n') {
        let paragraph = one_line(paragraph.strip_suffix('\r').unwrap_or(paragraph));
        wrap_paragraph(paragraph.trim_end(), cells, &mut lines);
    }
    lines
}

fn wrap_paragraph(s: &str, cells: usize, lines: &mut Vec<String>) {
    if width(s) <= cells {
        lines.push(s.to_owned());
        return;
    }
    let indent_len = s.len() - s.trim_start_matches(' ').len();
    // A hanging indent that leaves hardly any room is worse than none.
    let indent = if indent_len * 2 < cells {
        indent_len
    } else {
        0
    };
    let room = cells - indent;
    let mut line = String::new();
    let mut used = 0;
    let mut push = |line: &mut String| {
        lines.push(format!("{}{line}", " ".repeat(indent)));
        line.clear();
    };
    for word in s.split(' ').filter(|w| !w.is_empty()) {
        let w = width(word);
        if used > 0 && used + 1 + w <= room {
            line.push(' ');
            line.push_str(word);
            used += 1 + w;
            continue;
        }
        if used > 0 {
            push(&mut line);
        }
        let mut rest = word;
        used = w;
        while used > room {
            let (head, _) = take(rest, room);
            if head.is_empty() {
                // A cluster wider than the whole line: only its place can be shown.
                line.push_str(ELLIPSIS);
                rest = graphemes(rest).next().map_or("", |g| &rest[g.len()..]);
            } else {
                line.push_str(head);
                rest = &rest[head.len()..];
            }
            used = width(rest);
            if !rest.is_empty() {
                push(&mut line);
            }
        }
        line.push_str(rest);
        used = width(&line);
    }
    if !line.is_empty() {
        push(&mut line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn widths_follow_the_terminal() {
        assert_eq!(width("oak"), 3);
        assert_eq!(width("木目"), 4);
        assert_eq!(width("e\u{301}"), 1);
        assert_eq!(width("👩‍🔧"), 2);
        assert_eq!(width("a\u{7}b\n"), 2);
    }

    #[test]
    fn fit_fills_up_and_cuts() {
        assert_eq!(fit("oak", 5), "oak  ");
        assert_eq!(fit("walnut", 5), "waln…");
        assert_eq!(fit("木目木", 4), "木… ");
        assert_eq!(fit("木目", 4), "木目");
        assert_eq!(fit("x", 0), "");
        assert_eq!(fit("walnut", 1), "…");
        assert_eq!(fit_right("12", 4), "  12");
        assert_eq!(shorten_with("walnut", 5, "..."), "wa...");
        assert_eq!(shorten_with("walnut", 2, "..."), "..");
    }

    #[test]
    fn wraps_at_words_and_splits_only_what_is_too_long() {
        assert_eq!(
            wrap("left end: 150 grit not done", 12),
            ["left end:", "150 grit not", "done"]
        );
        assert_eq!(wrap("a abcdefghij b", 4), ["a", "abcd", "efgh", "ij b"]);
        assert_eq!(wrap("one\n\ntwo", 10), ["one", "", "two"]);
        assert_eq!(wrap("  hang this one", 9), ["  hang", "  this", "  one"]);
        assert_eq!(wrap("木目木目", 5), ["木目", "木目"]);
        assert_eq!(wrap("木a", 1), ["…", "a"]);
        assert_eq!(wrap("", 5), [""]);
        assert!(wrap("a", 0).is_empty());
    }

    #[test]
    fn control_characters_become_harmless() {
        assert_eq!(one_line("a\tb\r\nc\x1b[2J"), "a b c\u{fffd}[2J");
    }

    proptest! {
        #[test]
        fn wrapping_keeps_to_the_width_and_loses_no_word(s in "([ a-z木\n]|e\u{301}|👩‍🔧){0,80}", cells in 2usize..40) {
            let lines = wrap(&s, cells);
            for line in &lines {
                prop_assert!(width(line) <= cells, "{line:?}");
            }
            let bare = |t: &str| t.split_whitespace().collect::<String>();
            prop_assert_eq!(bare(&lines.join(" ")), bare(&s));
        }

        #[test]
        fn fit_is_exact(s in "\\PC{0,30}", cells in 0usize..40) {
            prop_assert_eq!(width(&fit(&s, cells)), cells);
            prop_assert_eq!(width(&fit_right(&s, cells)), cells);
        }
    }
}
