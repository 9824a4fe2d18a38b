//! The table of woods: each row with its figures, their sources and how far they may be trusted.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Entry, Tone, plain};
use super::picked::{self, Picked, Step, list_keys};
use crate::desk::{Action, Which};
use crate::papers::wood::{Weight, species_lines, species_short};
use crate::shop::WoodId;
use crate::wood::species::Species;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Edit,
    New,
    Remove,
    Only,
    Read,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["n"], action: Act::New, hint: "new", help: "Adds a wood of your own." },
    Binding { keys: &["enter", "e"], action: Act::Edit, hint: "change", help: "Changes a wood of your own; published rows stay as they are." },
    Binding { keys: &["x"], action: Act::Remove, hint: "remove", help: "Removes a wood of your own that no piece is of. It can be undone." },
    Binding { keys: &["f"], action: Act::Only, hint: "show", help: "Shows all woods, then only your own, then only those from memory." },
    Binding { keys: &["v"], action: Act::Read, hint: "read all", help: "Shows the wood as a page to read." },
    Binding { keys: &["esc"], action: Act::Back, hint: "back", help: "Back to the screen before." },
];

const ABOUT: &str = "The table of woods: how much each moves with its moisture. Every figure says where it is from; rows marked MEMORY were not seen in the document and want checking before much hangs on them. Commercial groups stand for several species under one name.";

/// Which rows are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Only {
    #[default]
    All,
    Own,
    Memory,
}

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct WoodsScreen {
    picked: Picked<usize>,
    only: Only,
}

impl WoodsScreen {
    /// The table with its first row picked.
    pub fn new() -> Self {
        Self::default()
    }

    fn rows(&self, ctx: &Ctx<'_>) -> Vec<Species> {
        let table = ctx.shop.wood.table();
        let shown = |row: &&Species| match self.only {
            Only::All => true,
            Only::Own => row.is_shops_own(),
            Only::Memory => row.standing().is_memory(),
        };
        table.rows().filter(shown).cloned().collect()
    }

    /// Rows are picked by their place: names are long, and the table hardly changes.
    fn keys(rows: &[Species]) -> Vec<usize> {
        (0..rows.len()).collect()
    }

    fn own(row: &Species, ctx: &Ctx<'_>) -> Option<WoodId> {
        let mut all = ctx.shop.wood.own.iter();
        all.find(|own| row.is_shops_own() && own.wood.name == row.name)
            .map(|own| own.id)
    }
}

impl Screen for WoodsScreen {
    fn title(&self, _: &Ctx<'_>) -> String {
        match self.only {
            Only::All => "Woods",
            Only::Own => "Woods of your own",
            Only::Memory => "Woods from memory",
        }
        .to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let rows = self.rows(ctx);
        let keys = Self::keys(&rows);
        match act {
            Act::Go(step) => {
                self.picked.step(step, &keys);
                return Vec::new();
            }
            Act::Only => {
                self.only = match self.only {
                    Only::All => Only::Own,
                    Only::Own => Only::Memory,
                    Only::Memory => Only::All,
                };
                self.picked.pick_first();
                return Vec::new();
            }
            Act::New => return vec![Wish::Form(FormKind::OwnWood(Which::New))],
            Act::Back => return vec![Wish::Back],
            _ => {}
        }
        let Some(row) = self.picked.index(&keys).and_then(|at| rows.get(at)) else {
            return Vec::new();
        };
        if act == Act::Read {
            return vec![Wish::Read {
                title: row.name.clone(),
                lines: species_lines(row)
                    .into_iter()
                    .skip(1)
                    .map(|(_, line)| line)
                    .collect(),
            }];
        }
        vec![match Self::own(row, ctx) {
            Some(id) if act == Act::Remove => Wish::Act(Action::RemoveWood(id)),
            Some(id) => Wish::Form(FormKind::OwnWood(Which::This(id))),
            None => Wish::Tell(vec![format!(
                "{} is a published row and stays as it is. Press n to add a wood of your own.",
                row.name
            )]),
        }]
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.picked.settle(&Self::keys(&self.rows(ctx)));
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let rows = self.rows(ctx);
        let focus = self.picked.index(&Self::keys(&rows));
        let Some((focus, row)) = focus.and_then(|at| Some((at, rows.get(at)?))) else {
            let words = "No wood of your own yet. Press n to add one, f to see the others.";
            return list::pane(buf, area, &[plain(words)], "?", ctx.theme);
        };
        let width = usize::from(area.width);
        let left = (width / 2).min(44);
        let entries: Vec<Entry> = rows
            .iter()
            .map(|row| {
                let tone = if row.standing().is_memory() {
                    Tone::Warn
                } else {
                    Tone::Dim
                };
                Entry::row(vec![
                    plain(&row.name),
                    (tone, format!("  {}", species_short(row))),
                ])
            })
            .collect();
        let place = list::columns(area, 0, left);
        list::list(buf, place, &entries, focus, ctx.theme);
        list::rule_down(buf, area, left + 1, ctx.theme);
        let lines: Vec<list::Line> = species_lines(row)
            .into_iter()
            .map(|(weight, line)| match weight {
                Weight::Heading => (Tone::Title, line),
                Weight::Small => (Tone::Dim, line),
                Weight::Body | Weight::Figure => (Tone::Text, line),
            })
            .collect();
        let place = list::columns(area, left + 3, width);
        list::pane(buf, place, &lines, "v", ctx.theme);
    }

    fn hints(&self, width: usize, _: &Ctx<'_>) -> String {
        KEYS.hint_line(width, |_| true)
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
