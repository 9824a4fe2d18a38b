//! The wood sheet of one piece: the sheet to scroll through, and its readings to pick from.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::{Binding, Keymap};
use super::super::kit::pager::{Pager, Set};
use super::super::kit::text::wrap;
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Entry, plain};
use super::picked::{Picked, Step};
use crate::desk::{Action, Which};
use crate::papers::wood::{Weight, client_page_paper, reading_line, wood_sheet_lines};
use crate::shop::moving::WoodSheet;
use crate::shop::{PieceFile, PieceId, ReadingId, Ticket};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Do {
    New,
    Correct,
    Remove,
    Other,
    Site,
    Fasten,
    Page,
    Woods,
    Rule,
    Back,
}

const KEYS: Keymap<Do> = Keymap(&[
    Binding {
        keys: &["n"],
        action: Do::New,
        hint: "new reading",
        help: "Notes a moisture reading.",
    },
    Binding {
        keys: &["tab"],
        action: Do::Other,
        hint: "readings",
        help: "Between the sheet and the list of its readings.",
    },
    Binding {
        keys: &["e"],
        action: Do::Correct,
        hint: "correct",
        help: "Corrects the reading picked in the list.",
    },
    Binding {
        keys: &["x"],
        action: Do::Remove,
        hint: "",
        help: "Removes the reading picked in the list. It can be undone.",
    },
    Binding {
        keys: &["s"],
        action: Do::Site,
        hint: "site",
        help: "The air and floor at the client's: from them follows the year.",
    },
    Binding {
        keys: &["f"],
        action: Do::Fasten,
        hint: "fasten",
        help: "How the wood lies and how the piece will be held: grain, held edge, screws.",
    },
    Binding {
        keys: &["c"],
        action: Do::Page,
        hint: "client page",
        help: "The page for the client: what this top will do and why the gap is there.",
    },
    Binding {
        keys: &["o"],
        action: Do::Woods,
        hint: "woods",
        help: "The table of woods, each figure with its source.",
    },
    Binding {
        keys: &["y"],
        action: Do::Rule,
        hint: "",
        help: "The rule by which a piece counts as dry and steady.",
    },
    Binding {
        keys: &["esc"],
        action: Do::Back,
        hint: "back",
        help: "Back to the ticket.",
    },
]);

const HELP: &str = "The wood sheet: what was read of this piece, what the shop's air and the client's year will make of it, how far it moves, what to leave open and where to hold it, and what its coats hold back. Up, down, pgup, pgdn, home and end scroll the sheet, or go through the readings.";

/// An opened wood sheet.
#[derive(Debug)]
pub struct WoodScreen {
    piece: PieceId,
    pager: Pager,
    on_readings: bool,
    picked: Picked<ReadingId>,
}

impl WoodScreen {
    /// Opens the wood sheet of a piece.
    pub fn new(piece: PieceId) -> Self {
        Self {
            piece,
            pager: Pager::new(Vec::<String>::new()),
            on_readings: false,
            picked: Picked::default(),
        }
    }

    /// Tells the sheet how large its place is.
    pub fn set_size(&mut self, width: u16, height: u16) {
        self.pager.set_size(width, height);
    }

    fn file<'a>(&self, ctx: &Ctx<'a>) -> Option<&'a PieceFile> {
        ctx.shop.file(self.piece)
    }

    fn keys(&self, ctx: &Ctx<'_>) -> Vec<ReadingId> {
        let readings = ctx.shop.moisture(self.piece).iter();
        readings.rev().map(|of| of.id).collect()
    }

    fn on_reading(&self, ctx: &Ctx<'_>, wish: impl FnOnce(ReadingId) -> Wish) -> Wish {
        let picked = self.picked.get(&self.keys(ctx));
        match picked.filter(|_| self.on_readings) {
            Some(id) => wish(id),
            None => Wish::Tell(vec![
                "Press tab, pick the reading in the list, then press the key again.".to_owned(),
            ]),
        }
    }
}

fn page(file: &PieceFile, ctx: &Ctx<'_>) -> Wish {
    let sheet = sheet(file, ctx);
    match client_page_paper(ctx.shop, file, &sheet, ctx.now) {
        Ok(lines) => Wish::Read {
            title: format!("For the client: {}", ctx.shop.called(file)),
            lines,
        },
        Err(error) => Wish::Tell(vec![error.to_string()]),
    }
}

fn sheet(file: &PieceFile, ctx: &Ctx<'_>) -> WoodSheet {
    let ticket = Ticket::of(file);
    let air = ctx.shop.shops_air(ctx.now);
    ctx.shop.wood_records(file, &ticket, air).sheet(ctx.now)
}

fn step_of(key: &Key) -> Option<Step> {
    Some(match key {
        Key::Up => Step::Up,
        Key::Down => Step::Down,
        Key::PageUp => Step::PageUp,
        Key::PageDown => Step::PageDown,
        Key::Home => Step::Home,
        Key::End => Step::End,
        _ => return None,
    })
}

impl Screen for WoodScreen {
    fn title(&self, ctx: &Ctx<'_>) -> String {
        self.file(ctx).map_or_else(
            || "Wood".to_owned(),
            |file| format!("Wood {}", ctx.shop.called(file)),
        )
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(file) = self.file(ctx) else {
            return vec![Wish::Back];
        };
        if self.on_readings
            && let Some(step) = step_of(key)
        {
            self.picked.step(step, &self.keys(ctx));
            return Vec::new();
        }
        let Some(action) = KEYS.find(key) else {
            if !self.on_readings {
                self.pager.key(key);
            }
            return Vec::new();
        };
        let piece = self.piece;
        vec![match action {
            Do::New => {
                self.picked.await_new();
                Wish::Form(FormKind::Moisture(Which::New, piece))
            }
            Do::Correct => self.on_reading(ctx, |id| {
                Wish::Form(FormKind::Moisture(Which::This(id), piece))
            }),
            Do::Remove => self.on_reading(ctx, |id| Wish::Act(Action::RemoveMoisture(id))),
            Do::Other => {
                self.on_readings = !self.on_readings;
                return Vec::new();
            }
            Do::Site => Wish::Form(FormKind::Site(file.piece.job)),
            Do::Fasten => Wish::Form(FormKind::Fasten(piece)),
            Do::Page => page(file, ctx),
            Do::Woods => Wish::Woods,
            Do::Rule => Wish::Form(FormKind::Steady),
            Do::Back => Wish::Back,
        }]
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.picked.settle(&self.keys(ctx));
        let Some(file) = self.file(ctx) else { return };
        let lines = wood_sheet_lines(ctx.shop, file, &sheet(file, ctx), ctx.now);
        let mut set: Vec<(Set, String)> = Vec::new();
        for (weight, line) in lines {
            if weight == Weight::Heading && !set.is_empty() {
                set.push((Set::Body, String::new()));
            }
            let how = match weight {
                Weight::Heading => Set::Heading,
                Weight::Body | Weight::Figure => Set::Body,
                Weight::Small => Set::Small,
            };
            set.push((how, line));
        }
        self.pager.refill(set);
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        if !self.on_readings {
            return self.pager.draw(buf, area, ctx.theme);
        }
        let readings = ctx.shop.moisture(self.piece);
        if readings.is_empty() {
            let words = "No moisture reading yet. Press n to note the first one.";
            return list::pane(buf, area, &[plain(words)], "?", ctx.theme);
        }
        let entries: Vec<Entry> = readings
            .iter()
            .rev()
            .map(|of| Entry::row(vec![plain(reading_line(of, ctx.shop, ctx.now))]))
            .collect();
        let focus = self.picked.index(&self.keys(ctx)).unwrap_or(0);
        list::list(buf, area, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, _: &Ctx<'_>) -> String {
        let shown = |action| self.on_readings || action != Do::Correct;
        KEYS.hint_line(width, shown)
    }

    fn help(&self, width: usize) -> Vec<String> {
        let mut lines = wrap(HELP, width);
        lines.push(String::new());
        lines.extend(KEYS.help_lines(width));
        lines
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
