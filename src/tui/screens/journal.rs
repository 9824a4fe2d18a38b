//! The Journal: what was done, newest first.

use super::super::kit::key::Key;
use super::super::kit::keymap::{Binding, Keymap};
use super::super::kit::line_edit::LineEdit;
use super::super::kit::{draw, text};
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Cell, Entry, MARK, Tone, beside, count, plain};
use super::picked::{self, Picked, Step, list_keys};
use crate::desk::JournalLine;
use crate::units::moment::show_moment;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Search,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["/"], action: Act::Search, hint: "search", help: "Searches: lines stay that have every word typed, in any order." },
    Binding { keys: &["esc"], action: Act::Back, hint: "all lines", help: "Ends the search and shows all lines again." },
];

/// While words to search for are typed.
const TYPING: Keymap<Act> = Keymap(&[
    Binding {
        keys: &["up"],
        action: Act::Go(Step::Up),
        hint: "",
        help: "Goes one row up.",
    },
    Binding {
        keys: &["down"],
        action: Act::Go(Step::Down),
        hint: "",
        help: "Goes one row down.",
    },
    Binding {
        keys: &["enter"],
        action: Act::Search,
        hint: "done typing",
        help: "Keeps the lines found.",
    },
    Binding {
        keys: &["esc"],
        action: Act::Back,
        hint: "all lines",
        help: "Shows all lines again.",
    },
    Binding {
        keys: &["pgup"],
        action: Act::Go(Step::PageUp),
        hint: "",
        help: "Goes up by a page.",
    },
    Binding {
        keys: &["pgdn"],
        action: Act::Go(Step::PageDown),
        hint: "",
        help: "Goes down by a page.",
    },
]);

const ABOUT: &str = "The Journal: every action that was saved, newest first. What was undone stays here and is marked undone.";
const MORE: &str =
    "While you type what to search for: enter keeps the lines found, esc shows all again.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct Journal {
    picked: Picked<i64>,
    search: LineEdit,
    typing: bool,
}

impl Journal {
    /// The Journal at its newest line.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether words to search for are being typed, so that every key that types is a letter.
    pub fn is_searching(&self) -> bool {
        self.typing
    }

    fn found<'a>(&self, ctx: &Ctx<'a>) -> Vec<&'a JournalLine> {
        let words = self.search.text().to_lowercase();
        let words: Vec<&str> = words.split_whitespace().collect();
        ctx.journal
            .iter()
            .filter(|line| {
                let said = said(line, ctx).to_lowercase();
                words.iter().all(|word| said.contains(word))
            })
            .collect()
    }

    fn keys(&self, ctx: &Ctx<'_>) -> Vec<i64> {
        self.found(ctx).iter().map(|line| line.no).collect()
    }
}

/// All that can be searched of a line.
fn said(line: &JournalLine, ctx: &Ctx<'_>) -> String {
    let undone = if line.undone { " undone" } else { "" };
    format!(
        "{} {}{undone}",
        show_moment(line.at, ctx.now, ctx.zone()),
        line.words
    )
}

impl Screen for Journal {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Journal".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let act = if self.typing {
            TYPING.find(key)
        } else {
            KEYS.find(key)
        };
        match act {
            Some(Act::Go(step)) => {
                let keys = self.keys(ctx);
                self.picked.step(step, &keys);
            }
            Some(Act::Search) => self.typing = !self.typing,
            Some(Act::Back) => {
                self.typing = false;
                self.search.set("");
            }
            None if self.typing && self.search.edit(key) => self.picked.pick_first(),
            None => {}
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        let keys = self.keys(ctx);
        self.picked.settle(&keys);
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let width = usize::from(area.width);
        let found = self.found(ctx);
        let mut area = area;
        if self.typing || !self.search.is_empty() {
            self.draw_search(buf, area, found.len(), ctx);
            area = list::part(area, 1, usize::from(area.height));
        }
        if found.is_empty() {
            let words = if ctx.journal.is_empty() {
                "Nothing was done yet. Every action that is saved stands here, newest first. Press 4 for the Job book."
            } else {
                "No line has all these words. Press esc to show all lines again."
            };
            return list::pane(buf, area, &[plain(words)], "?", ctx.theme);
        }
        let entries: Vec<Entry> = found.iter().map(|line| entry(line, width, ctx)).collect();
        let focus = self.picked.index(&self.keys(ctx)).unwrap_or(0);
        list::list(buf, area, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, _: &Ctx<'_>) -> String {
        if self.typing {
            TYPING.hint_line(width, |_| true)
        } else {
            KEYS.hint_line(width, |act| act != Act::Back || !self.search.is_empty())
        }
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, MORE, width)
    }
}

impl Journal {
    fn draw_search(&self, buf: &mut Buffer, area: Rect, found: usize, ctx: &Ctx<'_>) {
        let width = usize::from(area.width);
        let mark = format!("{} found", count(found, "line"));
        let room = width.saturating_sub(text::width(&mark) + 2);
        let col = draw::put(
            buf,
            list::columns(area, 0, room),
            0,
            0,
            "Search: ",
            ctx.theme.title,
        );
        let seen = self.search.visible(room.saturating_sub(col));
        draw::put(
            buf,
            list::columns(area, 0, room),
            col,
            0,
            &seen.text,
            ctx.theme.text,
        );
        if self.typing {
            // The cell under the cursor, turned over.
            let under = text::graphemes(&seen.text)
                .scan(0, |at, g| {
                    let from = *at;
                    *at += text::grapheme_width(g);
                    Some((from, g))
                })
                .find(|(from, _)| *from == seen.cursor)
                .map_or(" ", |(_, g)| g);
            let place = list::columns(area, 0, room);
            draw::put(buf, place, col + seen.cursor, 0, under, ctx.theme.selected);
        }
        draw::put(
            buf,
            area,
            width.saturating_sub(text::width(&mark)),
            0,
            &mark,
            ctx.theme.dim,
        );
    }
}

/// Width of the column of moments: `Wed 12:40 pm`, longer ones wrap.
const WHEN: usize = 14;

fn entry(line: &JournalLine, width: usize, ctx: &Ctx<'_>) -> Entry {
    let when = show_moment(line.at, ctx.now, ctx.zone());
    let (words, tone) = if line.undone {
        (format!("[undone] {}", line.words), Tone::Dim)
    } else {
        (line.words.clone(), Tone::Text)
    };
    let free = width.saturating_sub(MARK + WHEN + 2);
    let lines = beside(&[Cell::left(when, WHEN), Cell::left(words, free)]);
    Entry::row(lines.into_iter().map(|line| (tone, line)).collect())
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_tables_are_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
        crate::tui::kit::keymap::assert_sound(&super::TYPING);
    }
}
