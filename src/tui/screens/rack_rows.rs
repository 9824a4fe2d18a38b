//! The rows of the Rack in words.

use super::super::kit::text;
use super::super::screen::Ctx;
use super::list::{Cell, Entry, Line, MARK, Tone, beside, count, plain};
use crate::coating::show_reached;
use crate::shop::{DryStage, PieceId, RackLine, RackRow, RackState};
use chrono::{DateTime, Utc};

/// What the piece is called.
pub(super) fn called(ctx: &Ctx<'_>, piece: PieceId) -> String {
    ctx.shop
        .file(piece)
        .map_or_else(String::new, |file| ctx.shop.called(file))
}

/// The width from which times stand in columns.
const WIDE: usize = 110;

/// The rows under their headings.
pub(super) fn entries(rows: &[RackLine], width: usize, ctx: &Ctx<'_>) -> Vec<Entry> {
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
    let group = |line: &RackLine| match line.row.state {
        RackState::Ready => "Ready now",
        RackState::Missed => "Window missed, abrade first",
        RackState::Held => "Held, a face was left behind",
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
    let free = width.saturating_sub(MARK + 13 + 3 * 18 + 5 * 2);
    let widths = [13, free / 2, 18, 18, 18, free - free / 2];
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
        RackState::Missed | RackState::Held => Tone::Warn,
        _ => Tone::Text,
    }
}

/// Past moments as `since 3:40 pm`, those to come as they are.
fn when(at: DateTime<Utc>, past: &str, ctx: &Ctx<'_>) -> String {
    let moment = show_reached(at, ctx.now, ctx.zone());
    if at <= ctx.now {
        format!("{past} {moment}")
    } else {
        moment
    }
}

fn wide(line: &RackLine, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let row = &line.row;
    let piece = format!("{}, {}", called(ctx, row.piece), line.coat_words());
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
    let mut lines: Vec<Line> = columns(width, texts)
        .into_iter()
        .map(|line| (tone(row), line))
        .collect();
    lines.extend(slow(line, ctx));
    lines
}

/// Why the film is slow, where it still matters to what comes next.
fn slow(line: &RackLine, ctx: &Ctx<'_>) -> Option<Line> {
    let film = line.film.as_ref()?;
    let dries = matches!(
        line.row.state,
        RackState::Wet | RackState::Tacky | RackState::TackFree
    );
    let words = film.slow_words(ctx.now, ctx.zone(), ctx.shop.settings.temperature);
    (dries && film.is_slow() && !words.is_empty()).then(|| (Tone::Warn, format!("    {words}")))
}

fn narrow(line: &RackLine, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let row = &line.row;
    let free = width.saturating_sub(MARK + 13 + 2 * 2);
    let piece = format!("{}, {}", called(ctx, row.piece), line.coat_words());
    let head = beside(&[
        Cell::left(row.state.words(), 13),
        Cell::left(piece, free / 2),
        Cell::left(row.waiting.words(ctx.now, ctx.zone()), free - free / 2),
    ]);
    let mut times = Vec::new();
    let future = |at: DateTime<Utc>, past: &str, to_come: &str| {
        let way = if at <= ctx.now { past } else { to_come };
        format!("{way} {}", show_reached(at, ctx.now, ctx.zone()))
    };
    // What is long past is told below the list, for the row picked.
    times.extend(
        row.tack_free
            .filter(|at| *at > ctx.now)
            .map(|at| future(at, "tack-free since", "tack-free")),
    );
    let likely = line
        .film
        .as_ref()
        .and_then(|film| film.milestone(DryStage::Recoat));
    times.extend(row.recoat.map(|at| match (row.coat, likely) {
        (None, _) => future(at, "flashed off", "flashes off"),
        (Some(_), Some(milestone)) if at > ctx.now => milestone.words(ctx.now, ctx.zone()),
        (Some(_), _) => future(at, "dry to recoat since", "dry to recoat"),
    }));
    let wet = row.recoat.is_some_and(|at| at > ctx.now);
    times.extend(
        row.shuts
            .filter(|_| !wet)
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
    lines.extend(slow(line, ctx));
    lines
}
