//! Drawing a ticket: what the piece is, where it stands, the sheet, the set list, the log.

use super::super::kit::draw::{put, window};
use super::super::kit::text::{fit, width as cells, wrap};
use super::super::screen::Ctx;
use super::sheet::{Column, sheet_columns};
use super::ticket::TicketScreen;
use super::ticket_detail::detail;
use crate::shop::{
    CoatKind, FaceState, PieceFile, SetItem, Stage, Ticket, cautions_for_stage, waiting,
};
use crate::units::moment::show_moment;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Width of the face names.
const NAME: usize = 17;

/// Draws the ticket inside `area`.
pub(super) fn draw(screen: &TicketScreen, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    let (Some(file), Some(ticket)) = (ctx.shop.file(screen.piece), screen.ticket(ctx)) else {
        put(
            buf,
            area,
            0,
            0,
            "This piece is no longer there. Press esc.",
            ctx.theme.text,
        );
        return;
    };
    let width = usize::from(area.width);
    let mut row = 0;
    for line in head(file, ctx).iter().flat_map(|line| wrap(line, width)) {
        put(buf, area, 0, row, &line, ctx.theme.text);
        row += 1;
    }
    for line in joined(&stages(&ticket), width) {
        put(buf, area, 0, row, &line, ctx.theme.text);
        row += 1;
    }
    let waits = waiting(&ticket, &ctx.gates(), ctx.now);
    let words = waits.line(ctx.now, ctx.zone());
    for line in wrap(&words, width) {
        put(buf, area, 0, row, &line, ctx.theme.accent);
        row += 1;
    }
    for line in screen
        .ago_words(ctx)
        .iter()
        .flat_map(|line| wrap(line, width))
    {
        put(buf, area, 0, row, &line, ctx.theme.warn);
        row += 1;
    }
    for line in hidden(&ticket).iter().flat_map(|line| wrap(line, width)) {
        put(buf, area, 0, row, &line, ctx.theme.warn);
        row += 1;
    }
    let top = u16::try_from(row).unwrap_or(0).min(area.height);
    let body = Rect {
        y: area.y + top,
        height: area.height - top,
        ..area
    };
    let cautions = cautions_for_stage(ticket.stage);
    let foot_lines: Vec<(String, Style)> = detail(screen, &ticket, width, ctx)
        .into_iter()
        .map(|line| (line, ctx.theme.text))
        .chain(
            cautions
                .iter()
                .flat_map(|caution| wrap(&caution.words(), width))
                .map(|line| (line, ctx.theme.warn)),
        )
        .collect();
    let foot = u16::try_from(foot_lines.len())
        .unwrap_or(1)
        .min(body.height / 2);
    let sheet = Rect {
        height: body.height - foot,
        ..body
    };
    if screen.on_set_list {
        set_list(screen, &ticket, buf, sheet, ctx);
    } else {
        grid(screen, &ticket, buf, sheet, ctx);
    }
    let strip = Rect {
        y: sheet.y + sheet.height,
        height: foot,
        ..body
    };
    for (at, (line, style)) in foot_lines.iter().enumerate() {
        put(buf, strip, 0, at, line, *style);
    }
}

/// Faces declared not exposed, each with its reason: they are never out of sight.
fn hidden(ticket: &Ticket) -> Vec<String> {
    let words = |face: &FaceState| {
        let reason = face.not_exposed.as_ref()?;
        Some(format!("not exposed: {} ({reason})", face.key))
    };
    ticket.faces.iter().filter_map(words).collect()
}

/// What the piece is and for whom.
fn head(file: &PieceFile, ctx: &Ctx<'_>) -> Vec<String> {
    let piece = &file.piece;
    let style = ctx.shop.settings.length;
    let say = |length: crate::units::Length| length.show(style);
    let size = match piece.shape.outline() {
        crate::shape::Outline::Circle { diameter } => format!("round {}", diameter.show(style)),
        other => other.words(&say),
    };
    let job = ctx.shop.job(piece.job).map_or_else(String::new, |job| {
        let client = ctx
            .shop
            .client(job.client)
            .map_or("", |client| client.name.as_str());
        format!(" \u{b7} {} \u{b7} {client}", job.title)
    });
    let recipe = ctx
        .shop
        .recipe(piece.recipe)
        .map_or("", |recipe| recipe.name.as_str());
    vec![format!(
        "{}{job} \u{b7} {} x {} {} {} \u{b7} {recipe}",
        piece.kind.word(),
        size,
        piece.shape.thickness().show(style),
        piece.species,
        piece.construction,
    )]
}

/// The five stages and what each came to.
fn stages(ticket: &Ticket) -> Vec<String> {
    Stage::ALL
        .into_iter()
        .map(|stage| {
            let state = if !ticket.schedule.asks(stage) {
                "nothing asked"
            } else if stage == ticket.stage {
                "here"
            } else if stage < ticket.stage {
                "done"
            } else {
                "to come"
            };
            if stage == ticket.stage {
                format!("[{stage}: {state}]")
            } else {
                format!("{stage}: {state}")
            }
        })
        .collect()
}

/// Items in as few lines as they fit in, none broken.
fn joined(items: &[String], width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for item in items {
        match lines.last_mut() {
            Some(line) if cells(line) + 3 + cells(item) <= width => {
                line.push_str(" \u{b7} ");
                line.push_str(item);
            }
            _ => lines.push(item.clone()),
        }
    }
    lines
}

fn column_head(column: Column) -> String {
    match column {
        Column::Grit(grit) => grit.to_string(),
        Column::Wipe => "wiped".to_owned(),
        Column::Coat(CoatKind::Seal) => "seal".to_owned(),
        Column::Coat(CoatKind::Stain) => "stain".to_owned(),
        Column::Coat(CoatKind::Topcoat) => "coats".to_owned(),
    }
}

/// What a cell says: `x` done, `.` to do, `-` not asked, `2/6` coats.
fn cell_words(ticket: &Ticket, face: &FaceState, column: Column) -> String {
    match column {
        Column::Grit(grit) if !ticket.plan(face).grits.contains(&grit) => "-".to_owned(),
        Column::Grit(grit) => mark(face.ticks.contains_key(&grit)),
        Column::Wipe => mark(face.wiped.is_some() || !face.coats.is_empty()),
        Column::Coat(_) if !face.is_exposed() => "hid".to_owned(),
        Column::Coat(kind) => {
            let (has, asked) = (face.count(kind), ticket.asked(face, kind));
            match (has, asked) {
                (0, 0) => "-".to_owned(),
                _ => format!("{has}/{asked}"),
            }
        }
    }
}

fn mark(done: bool) -> String {
    if done { "x".to_owned() } else { ".".to_owned() }
}

fn grid(screen: &TicketScreen, ticket: &Ticket, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    let columns = sheet_columns(ticket);
    let room = usize::from(area.width).saturating_sub(NAME + 2);
    let each = (room / columns.len().max(1)).clamp(6, 9);
    let fits = (room / each).max(1);
    let from = window(columns.len(), fits, screen.column);
    let to = (from + fits).min(columns.len());
    let mut heading = fit("face", NAME + 2);
    for column in &columns[from..to] {
        heading.push_str(&fit(&column_head(*column), each));
    }
    put(buf, area, 0, 0, heading.trim_end(), ctx.theme.title);
    let rows = usize::from(area.height).saturating_sub(1);
    let first = window(ticket.faces.len(), rows, screen.face);
    for (line, (at, face)) in ticket
        .faces
        .iter()
        .enumerate()
        .skip(first)
        .take(rows)
        .enumerate()
    {
        let here = at == screen.face;
        let name = face.key.to_string();
        let left = if here { "> " } else { "  " };
        let style = if here {
            ctx.theme.title
        } else {
            ctx.theme.text
        };
        put(
            buf,
            area,
            0,
            line + 1,
            &fit(&format!("{left}{name}"), NAME + 2),
            style,
        );
        for (slot, column) in columns[from..to].iter().enumerate() {
            let words = cell_words(ticket, face, *column);
            let under = here && from + slot == screen.column;
            let (words, style) = if under {
                (format!("[{words}]"), ctx.theme.selected)
            } else {
                (format!(" {words} "), cell_style(ticket, face, *column, ctx))
            };
            put(buf, area, NAME + 1 + slot * each, line + 1, &words, style);
        }
    }
    if first + rows < ticket.faces.len() && rows > 0 {
        let more = format!("{} more below", ticket.faces.len() - first - rows);
        put(
            buf,
            area,
            usize::from(area.width).saturating_sub(more.len()),
            rows,
            &more,
            ctx.theme.dim,
        );
    }
}

fn cell_style(ticket: &Ticket, face: &FaceState, column: Column, ctx: &Ctx<'_>) -> Style {
    let words = cell_words(ticket, face, column);
    match words.as_str() {
        "x" => ctx.theme.good,
        "-" | "hid" => ctx.theme.dim,
        _ => ctx.theme.text,
    }
}

fn set_list(screen: &TicketScreen, ticket: &Ticket, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
    put(
        buf,
        area,
        0,
        0,
        "Set list (space ticks, tab to the sheet of faces)",
        ctx.theme.title,
    );
    let width = usize::from(area.width).saturating_sub(8);
    let mut row = 1;
    for (at, item) in SetItem::ALL.iter().enumerate() {
        let here = at == screen.item;
        let done = ticket.set_list.get(item);
        let mut words = item.words().to_owned();
        if let Some(when) = done {
            words = format!("{words} ({})", show_moment(*when, ctx.now, ctx.zone()));
        }
        let left = if here { "> " } else { "  " };
        let tick = if done.is_some() { "[x]" } else { "[ ]" };
        for (line, part) in wrap(&words, width).iter().enumerate() {
            let lead = if line == 0 {
                format!("{left}{tick} ")
            } else {
                " ".repeat(6)
            };
            let style = if here {
                ctx.theme.selected
            } else {
                ctx.theme.text
            };
            put(buf, area, 0, row, &format!("{lead}{part}"), style);
            row += 1;
        }
    }
}
