//! The log of a piece on its ticket: to read, and to pick the line whose time is wrong.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::screen::{Ctx, Wish};
use super::list::{self, Entry, plain};
use super::picked::{Picked, Step, list_keys};
use crate::shop::{Event, EventId, PieceFile, PieceId, What, together};
use crate::units::moment::show_moment;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does in the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Correct,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter", "c"], action: Act::Correct, hint: "correct its time", help: "Corrects when this was done; what depends on it follows." },
    Binding { keys: &["esc", "l"], action: Act::Back, hint: "back to the sheet", help: "Back to the sheet of faces." },
];

/// The log under the eyes.
#[derive(Debug, Clone, Default)]
pub(super) struct LogView {
    picked: Picked<EventId>,
}

impl LogView {
    /// The log of a piece, its newest line picked.
    pub(super) fn of(file: Option<&PieceFile>) -> Self {
        let mut view = Self::default();
        let keys = keys(file);
        view.picked.step(Step::End, &keys);
        view
    }

    /// A key: what is wished, and whether the log stays open.
    pub(super) fn key(&mut self, key: &Key, piece: PieceId, ctx: &Ctx<'_>) -> (Vec<Wish>, bool) {
        let keys = keys(ctx.shop.file(piece));
        match KEYS.find(key) {
            Some(Act::Go(step)) => self.picked.step(step, &keys),
            Some(Act::Correct) => {
                let form = |line| Wish::Form(FormKind::Retime(piece, line));
                return (self.picked.get(&keys).map(form).into_iter().collect(), true);
            }
            Some(Act::Back) => return (Vec::new(), false),
            None => {}
        }
        (Vec::new(), true)
    }

    pub(super) fn draw(&self, buf: &mut Buffer, area: Rect, piece: PieceId, ctx: &Ctx<'_>) {
        let file = ctx.shop.file(piece);
        let rows = rows(file);
        if rows.is_empty() {
            return list::pane(
                buf,
                area,
                &[plain("Nothing was logged yet.")],
                "?",
                ctx.theme,
            );
        }
        let entries: Vec<Entry> = rows
            .iter()
            .map(|row| Entry::row(vec![plain(line_words(row, ctx))]))
            .collect();
        let focus = self.picked.index(&keys(file)).unwrap_or(0);
        list::list(buf, area, &entries, focus, ctx.theme);
    }
}

pub(super) fn hints(width: usize) -> String {
    KEYS.hint_line(width, |_| true)
}

/// Its keys, for the help page.
pub(super) fn help(width: usize) -> Vec<String> {
    let mut lines = vec!["In the log (l):".to_owned()];
    lines.extend(KEYS.help_lines(width));
    lines
}

/// The lines of a log, oldest first; ticks logged in one go are one.
fn rows(file: Option<&PieceFile>) -> Vec<Vec<&Event>> {
    let Some(file) = file else {
        return Vec::new();
    };
    let (mut out, mut at): (Vec<Vec<&Event>>, usize) = (Vec::new(), 0);
    while let Some(event) = file.events.get(at) {
        let count = together(file, event.id).len().max(1);
        out.push(file.events.iter().skip(at).take(count).collect());
        at += count;
    }
    out
}

fn keys(file: Option<&PieceFile>) -> Vec<EventId> {
    let first = |row: Vec<&Event>| row.first().map(|event| event.id);
    rows(file).into_iter().filter_map(first).collect()
}

fn line_words(row: &[&Event], ctx: &Ctx<'_>) -> String {
    let Some(event) = row.first() else {
        return String::new();
    };
    let when = show_moment(event.at, ctx.now, ctx.zone());
    let words = match &event.what {
        What::Tick { grit, .. } if row.len() > 1 => {
            let face = |event: &&Event| match &event.what {
                What::Tick { face, .. } => face.to_string(),
                _ => String::new(),
            };
            let faces: Vec<String> = row.iter().map(face).collect();
            format!("{grit} grit on {}", faces.join(", "))
        }
        what => crate::papers::event_words(what, ctx.shop, &|what| pass_words(what, ctx)),
    };
    format!("{when}: {words}")
}

/// Amount and air of a pass, for its line in the log.
fn pass_words(what: &What, ctx: &Ctx<'_>) -> String {
    let What::Coat { pass, .. } = what else {
        return String::new();
    };
    let settings = &ctx.shop.settings;
    ctx.shop
        .passes
        .iter()
        .find(|other| other.id == *pass)
        .map_or_else(String::new, |pass| {
            let air = pass.air.map_or_else(String::new, |air| {
                format!(
                    ", {} {}",
                    air.temperature.show(settings.temperature),
                    air.humidity.show()
                )
            });
            format!(
                " ({} in all, {}{air})",
                pass.amount.volume.show(settings.volume),
                pass.amount.basis.word()
            )
        })
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&super::KEYS);
    }
}
