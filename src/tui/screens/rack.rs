//! The Rack: what is drying, what is ready, what to do about it.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::keymap::Keymap;
use super::super::kit::text;
use super::super::screen::{Ctx, Screen, Wish};
use super::list::{self, Cell, Entry, Line, MARK, Tone, beside, count, plain};
use super::picked::{self, Picked, Step, list_keys};
use super::rack_countdown::{self, Countdown};
use crate::shop::{PieceId, RackRow, RackState, Waiting, rack};
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What a key does here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Go(Step),
    Open,
    Touch,
    Pass,
    Scuff,
    WipeOff,
    Countdown,
    Back,
}

const KEYS: Keymap<Act> = list_keys![Act:
    Binding { keys: &["enter"], action: Act::Open, hint: "ticket", help: "Opens the ticket of the piece." },
    Binding { keys: &["t"], action: Act::Touch, hint: "touch test", help: "Records a touch test of the last coat." },
    Binding { keys: &["p"], action: Act::Pass, hint: "pass", help: "Logs a pass of the coat that is due." },
    Binding { keys: &["s"], action: Act::Scuff, hint: "scuff", help: "Records a scuff of the last coat." },
    Binding { keys: &["w"], action: Act::WipeOff, hint: "wipe off", help: "Records that the stain was wiped off." },
    Binding { keys: &["c"], action: Act::Countdown, hint: "countdown", help: "Shows the countdown to what is ready next: below the list, over the whole screen, not at all." },
    Binding { keys: &["esc"], action: Act::Back, hint: "list only", help: "Puts the countdown away." },
];

const ABOUT: &str = "The Rack: every piece with a wet or drying coat. What is ready stands first, then missed recoat windows, then what dries, soonest first.";

/// The screen.
#[derive(Debug, Clone, Default)]
pub struct Rack {
    picked: Picked<PieceId>,
    countdown: Countdown,
}

impl Rack {
    /// The Rack with the first row picked.
    pub fn new() -> Self {
        Self::default()
    }

    fn picked<'a>(&self, rows: &'a [RackRow]) -> Option<&'a RackRow> {
        self.picked.index(&keys(rows)).and_then(|i| rows.get(i))
    }
}

fn rows(ctx: &Ctx<'_>) -> Vec<RackRow> {
    rack(&ctx.shop.files, &ctx.gates(), ctx.now)
}

fn keys(rows: &[RackRow]) -> Vec<PieceId> {
    rows.iter().map(|row| row.piece).collect()
}

/// What the piece is called.
pub(super) fn called(ctx: &Ctx<'_>, piece: PieceId) -> String {
    ctx.shop
        .file(piece)
        .map_or_else(String::new, |file| ctx.shop.called(file))
}

impl Screen for Rack {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Rack".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(act) = KEYS.find(key) else {
            return Vec::new();
        };
        let rows = rows(ctx);
        match act {
            Act::Go(step) => self.picked.step(step, &keys(&rows)),
            Act::Countdown => self.countdown = self.countdown.next(),
            Act::Back => self.countdown = Countdown::Off,
            Act::Open | Act::Touch | Act::Pass | Act::Scuff | Act::WipeOff => {
                return match self.picked(&rows) {
                    Some(row) => vec![wish(act, row, ctx)],
                    None => vec![Wish::Tell(vec![EMPTY.to_owned()])],
                };
            }
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.picked.settle(&keys(&rows(ctx)));
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let rows = rows(ctx);
        let height = usize::from(area.height);
        let below = match self.countdown {
            Countdown::Full => return rack_countdown::draw(buf, area, &rows, ctx),
            Countdown::Below => rack_countdown::BELOW.min(height / 2),
            Countdown::Off => 0,
        };
        if below > 0 {
            let place = list::part(area, height - below, below);
            list::rule(buf, place, 0, ctx.theme);
            rack_countdown::draw(buf, list::part(place, 1, below), &rows, ctx);
        }
        let area = list::part(area, 0, height - below);
        if rows.is_empty() {
            return list::pane(buf, area, &[plain(EMPTY)], "?", ctx.theme);
        }
        let entries = entries(&rows, usize::from(area.width), ctx);
        let focus = self.picked.index(&keys(&rows)).unwrap_or(0);
        list::list(buf, area, &entries, focus, ctx.theme);
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let rows = rows(ctx);
        let picked = self.picked(&rows);
        KEYS.hint_line(width, |act| match act {
            Act::Open => picked.is_some(),
            Act::Touch => picked.is_some_and(|row| row.coat.is_some()),
            Act::Pass => picked.is_some_and(|row| due(row, ctx).is_some()),
            Act::Scuff => picked.is_some_and(wants_scuff),
            Act::WipeOff => {
                picked.is_some_and(|row| matches!(row.waiting, Waiting::WipeOff { .. }))
            }
            Act::Back => self.countdown != Countdown::Off,
            _ => true,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        picked::help(ABOUT, &KEYS, "", width)
    }
}

const EMPTY: &str = "Nothing is drying. A piece stands here from its first coat or solvent wipe-down until it is \
                     fully cured on site. Press 1 for the Bench.";

/// The coat that can go on now.
fn due(row: &RackRow, ctx: &Ctx<'_>) -> Option<crate::shop::CoatKind> {
    match row.waiting {
        Waiting::Lay { kind, .. } | Waiting::Abrade { kind, .. } => Some(kind),
        Waiting::Scuff => {
            let stage = ctx.shop.file(row.piece)?.piece.stage;
            crate::shop::CoatKind::of_stage(stage)
        }
        _ => None,
    }
}

fn wants_scuff(row: &RackRow) -> bool {
    matches!(
        row.waiting,
        Waiting::Scuff | Waiting::Abrade { .. } | Waiting::Lay { .. }
    ) && row.coat.is_some()
}

/// What a key asks for on this row, or why not.
fn wish(act: Act, row: &RackRow, ctx: &Ctx<'_>) -> Wish {
    let pieces = vec![row.piece];
    let tell = |why: &str| {
        let waits = row.waiting.words(ctx.now, ctx.zone());
        Wish::Tell(vec![format!(
            "{}: {why} It waits: {waits}.",
            called(ctx, row.piece)
        )])
    };
    match act {
        Act::Touch if row.coat.is_some() => Wish::Form(FormKind::Touch { pieces }),
        Act::Touch => tell("there is no coat to test."),
        Act::Pass => match due(row, ctx) {
            Some(kind) => Wish::Form(FormKind::Pass { pieces, kind }),
            None if row.waiting.until().is_some() && row.coat.is_some() => {
                tell("no coat can go on yet; if it is dry already, record a touch test with t.")
            }
            None => tell("no coat is due."),
        },
        Act::Scuff if row.coat.is_some() => Wish::Form(FormKind::Scuff { pieces }),
        Act::Scuff => tell("there is no coat to scuff."),
        Act::WipeOff if matches!(row.waiting, Waiting::WipeOff { .. }) => {
            Wish::Form(FormKind::WipeOff { pieces })
        }
        Act::WipeOff => tell("there is no wet stain to wipe off."),
        _ => Wish::Ticket(row.piece),
    }
}

/// The width from which times stand in columns.
const WIDE: usize = 110;

/// The rows under their headings.
fn entries(rows: &[RackRow], width: usize, ctx: &Ctx<'_>) -> Vec<Entry> {
    let mut out = vec![Entry::note(
        Tone::Dim,
        format!("Times by {}.", ctx.clock.basis()),
    )];
    if width >= WIDE {
        let head = columns(
            width,
            [
                "state",
                "piece",
                "tack-free",
                "dry to recoat",
                "window shuts",
                "waits for",
            ],
        );
        out.extend(
            head.into_iter()
                .map(|line| Entry::note(Tone::Dim, format!("  {line}"))),
        );
    }
    let group = |row: &RackRow| match row.state {
        RackState::Ready => "Ready now",
        RackState::Missed => "Window missed, abrade first",
        _ => "Drying, soonest first",
    };
    for rows in rows.chunk_by(|a, b| group(a) == group(b)) {
        out.push(Entry::heading(format!(
            "{}: {}",
            group(&rows[0]),
            count(rows.len(), "piece")
        )));
        out.extend(rows.iter().map(|row| {
            Entry::row(if width >= WIDE {
                wide(row, width, ctx)
            } else {
                narrow(row, width, ctx)
            })
        }));
    }
    out
}

fn columns(width: usize, texts: [&str; 6]) -> Vec<String> {
    let free = width.saturating_sub(MARK + 13 + 3 * 17 + 5 * 2);
    let widths = [13, free / 2, 17, 17, 17, free - free / 2];
    let cells: Vec<Cell> = texts
        .into_iter()
        .zip(widths)
        .map(|(text, width)| Cell::left(text, width))
        .collect();
    beside(&cells)
}

fn tone(row: &RackRow) -> Tone {
    match row.state {
        RackState::Ready => Tone::Good,
        RackState::Missed => Tone::Warn,
        _ => Tone::Text,
    }
}

/// Which coat: `coat 3`, `stain`; the wipe-down where there is none.
fn coat_words(row: &RackRow) -> String {
    match row.coat {
        Some((crate::shop::CoatKind::Stain, no)) if no <= 1 => "stain".to_owned(),
        Some((kind, no)) => format!("{} {no}", kind.coat_word()),
        None => "wipe-down".to_owned(),
    }
}

/// Past moments as `since 3:40 pm`, those to come as they are.
fn when(at: DateTime<Utc>, past: &str, ctx: &Ctx<'_>) -> String {
    let moment = show_moment(at, ctx.now, ctx.zone());
    if at <= ctx.now {
        format!("{past} {moment}")
    } else {
        moment
    }
}

fn wide(row: &RackRow, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let piece = format!("{}, {}", called(ctx, row.piece), coat_words(row));
    let at =
        |at: Option<DateTime<Utc>>, past| at.map_or_else(String::new, |at| when(at, past, ctx));
    let shuts = match row.shuts {
        None if row.coat.is_some() => "no limit".to_owned(),
        shuts => at(shuts, "shut"),
    };
    let waits = row.waiting.words(ctx.now, ctx.zone());
    let texts = [
        row.state.words(),
        &piece,
        &at(row.tack_free, "since"),
        &at(row.recoat, "since"),
        &shuts,
        &waits,
    ];
    columns(width, texts)
        .into_iter()
        .map(|line| (tone(row), line))
        .collect()
}

fn narrow(row: &RackRow, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let free = width.saturating_sub(MARK + 13 + 2 * 2);
    let piece = format!("{}, {}", called(ctx, row.piece), coat_words(row));
    let head = beside(&[
        Cell::left(row.state.words(), 13),
        Cell::left(piece, free / 2),
        Cell::left(row.waiting.words(ctx.now, ctx.zone()), free - free / 2),
    ]);
    let mut times = Vec::new();
    let future = |at: DateTime<Utc>, past: &str, to_come: &str| {
        let way = if at <= ctx.now { past } else { to_come };
        format!("{way} {}", show_moment(at, ctx.now, ctx.zone()))
    };
    times.extend(
        row.tack_free
            .map(|at| future(at, "tack-free since", "tack-free")),
    );
    times.extend(row.recoat.map(|at| match row.coat {
        Some(_) => future(at, "dry to recoat since", "dry to recoat"),
        None => future(at, "flashed off", "flashes off"),
    }));
    times.extend(
        row.shuts
            .map(|at| future(at, "window shut", "window shuts")),
    );
    if row.state == RackState::Curing {
        times.extend(
            row.full_cure
                .map(|at| future(at, "fully cured", "full cure")),
        );
    }
    let mut lines: Vec<Line> = head.into_iter().map(|line| (tone(row), line)).collect();
    let indent = " ".repeat(4);
    let joined = format!("{indent}{}", times.join(", "));
    lines.extend(
        text::wrap(&joined, width.saturating_sub(MARK))
            .into_iter()
            .map(plain),
    );
    lines
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_table_is_sound() {
        crate::tui::kit::keymap::assert_sound(&super::KEYS);
    }
}
