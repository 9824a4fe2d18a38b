//! Drawing the app: heading, banner, screen, what lies over it, what was said, hints.

use super::app::{App, Layer};
use super::forms::{FormKind, OpenForm};
use super::kit::draw::{clear, put, put_row};
use super::kit::text::{fit, width as cells_of, wrap};
use super::kit::{form_view, pager::Pager};
use super::screen::Place;
use crate::shop::{
    Caution, PieceId, Ticket, WipeDown, cautions_for_scuff, cautions_for_wipe, sanding_cautions,
    waiting,
};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

/// Draws everything; gives back where the cursor belongs, if anywhere.
pub fn draw(app: &App, buf: &mut Buffer, area: Rect) -> Option<Position> {
    clear(buf, area, &app.theme);
    if area.height < 8 || area.width < 30 {
        put(buf, area, 0, 0, "Make the window larger.", app.theme.text);
        return None;
    }
    heading(app, buf, Rect { height: 1, ..area });
    let mut top = 1;
    top += banner(
        app,
        buf,
        Rect {
            y: area.y + 1,
            height: area.height.min(4) - 1,
            ..area
        },
    );
    let hints = Rect {
        y: area.y + area.height - 1,
        height: 1,
        ..area
    };
    let said = said_lines(app, usize::from(area.width), usize::from(area.height) / 2);
    let said_rows = u16::try_from(said.len().max(1)).unwrap_or(1);
    let foot = Rect {
        y: area.y + area.height - 1 - said_rows,
        height: said_rows,
        ..area
    };
    let body = Rect {
        y: area.y + top,
        height: area.height - top - said_rows - 1,
        ..area
    };
    for (row, (line, strong)) in said.iter().enumerate() {
        let style = if *strong {
            app.theme.good
        } else {
            app.theme.warn
        };
        put(buf, foot, 0, row, line, style);
    }
    let mut cursor = None;
    let hint = match app.layers.last() {
        Some(Layer::Form(open)) => {
            cursor = draw_form(app, open, buf, body);
            String::new()
        }
        Some(Layer::Read(title, pager)) => {
            read(app, buf, body, title, pager);
            "up down pgup pgdn read  esc back".to_owned()
        }
        Some(Layer::Tell(pager)) => {
            app.look(|screen, ctx| screen.draw(buf, body, ctx));
            tell(app, buf, body, pager);
            "up down read  enter put away".to_owned()
        }
        _ => app.look(|screen, ctx| {
            screen.draw(buf, body, ctx);
            screen.hints(usize::from(area.width).saturating_sub(8), ctx)
        }),
    };
    put(buf, hints, 0, 0, &hint, app.theme.dim);
    // While a form or a walk has the keys, `?` is not the help's.
    let typing = match app.layers.last() {
        Some(Layer::Form(_)) => true,
        Some(Layer::Ticket(ticket)) => ticket.is_walking(),
        _ => false,
    };
    if !typing && !hint.contains("? help") {
        let col = usize::from(area.width).saturating_sub(6);
        if cells_of(&hint) + 2 <= col {
            put(buf, hints, col, 0, "? help", app.theme.dim);
        }
    }
    cursor
}

fn heading(app: &App, buf: &mut Buffer, area: Rect) {
    let zone = app.shop.settings.zone;
    let local = app.now.with_timezone(&zone);
    let clock = local.format("%a %-I:%M %P").to_string();
    let ticket = app.layers.iter().any(|layer| layer.screen().is_some());
    let width = usize::from(area.width);
    let clock_at = width.saturating_sub(cells_of(&clock));
    if ticket {
        let title = app.look(|screen, ctx| screen.title(ctx));
        put(
            buf,
            area,
            0,
            0,
            &fit(&title, clock_at.saturating_sub(1)),
            app.theme.title,
        );
    } else {
        let mut col = 0;
        for place in Place::ALL {
            let here = place == app.place;
            let name = format!("{} {}", place.digit(), place.name());
            let (name, style) = if here {
                (format!("[{name}]"), app.theme.title)
            } else {
                (name, app.theme.dim)
            };
            if col + cells_of(&name) + 1 > clock_at {
                break;
            }
            col = put(buf, area, col, 0, &name, style) + 1;
        }
        if col + 11 <= clock_at {
            put(buf, area, col, 0, "7 Settings", app.theme.dim);
        }
    }
    put(buf, area, clock_at, 0, &clock, app.theme.text);
}

/// The held banner of what came due; rows taken.
fn banner(app: &App, buf: &mut Buffer, area: Rect) -> u16 {
    if app.due.is_empty() {
        return 0;
    }
    let gates = app.shop.gates(&app.clock);
    let names: Vec<String> = app
        .due
        .iter()
        .filter_map(|piece| app.shop.file(*piece))
        .map(|file| {
            let words =
                waiting(&Ticket::of(file), &gates, app.now).words(app.now, app.shop.settings.zone);
            format!("{}: {words}", app.shop.called(file))
        })
        .collect();
    let text = format!("DUE  {}  (0 puts this away)", names.join("; "));
    let lines = wrap(&text, usize::from(area.width));
    let rows = lines.len().min(usize::from(area.height));
    for (row, line) in lines.iter().take(rows).enumerate() {
        put_row(buf, area, row, line, app.theme.banner, &app.theme);
    }
    u16::try_from(rows).unwrap_or(0)
}

/// What was said last: words, then what to mind, wrapped; the words are never left out.
fn said_lines(app: &App, width: usize, most: usize) -> Vec<(String, bool)> {
    let mut out: Vec<(String, bool)> = if app.said.words.is_empty() {
        Vec::new()
    } else {
        wrap(&app.said.words, width)
            .into_iter()
            .map(|line| (line, true))
            .collect()
    };
    for note in &app.said.notes {
        out.extend(
            wrap(&format!("Mind: {note}"), width)
                .into_iter()
                .map(|line| (line, false)),
        );
    }
    out.truncate(most.max(1));
    out
}

fn draw_form(app: &App, open: &OpenForm, buf: &mut Buffer, area: Rect) -> Option<Position> {
    let cautions = form_cautions(app, open);
    let width = usize::from(area.width);
    let lines: Vec<String> = cautions
        .iter()
        .flat_map(|caution| wrap(&caution.words(), width))
        .collect();
    let rows = u16::try_from(lines.len()).unwrap_or(0).min(area.height / 2);
    let form = Rect {
        height: area.height - rows,
        ..area
    };
    let strip = Rect {
        y: area.y + form.height,
        height: rows,
        ..area
    };
    let cursor = form_view::draw(&open.form, buf, form, &app.theme);
    for (row, line) in lines.iter().take(usize::from(rows)).enumerate() {
        put(buf, strip, 0, row, line, app.theme.warn);
    }
    cursor
}

/// The cautions of the step a form is about.
fn form_cautions(app: &App, open: &OpenForm) -> Vec<Caution> {
    let schedule = |pieces: &[PieceId]| {
        let file = pieces.first().and_then(|piece| app.shop.file(*piece))?;
        Some(&file.schedule)
    };
    match &open.kind {
        FormKind::Pass { .. } => open.pass_cautions(&app.shop, app.now),
        FormKind::Wipe { pieces } => match schedule(pieces).map(|schedule| schedule.wipe_down) {
            Some(WipeDown::With(id)) => app
                .shop
                .product(id)
                .map(cautions_for_wipe)
                .unwrap_or_default(),
            _ => Vec::new(),
        },
        FormKind::WipeOff { pieces } => schedule(pieces)
            .and_then(|schedule| app.shop.product(schedule.stain?))
            .map(cautions_for_wipe)
            .unwrap_or_default(),
        FormKind::Scuff { .. } => cautions_for_scuff(),
        FormKind::SandBack { .. } => sanding_cautions(),
        _ => Vec::new(),
    }
}

fn read(app: &App, buf: &mut Buffer, area: Rect, title: &str, pager: &Pager) {
    put(buf, area, 0, 0, title, app.theme.title);
    let text = Rect {
        y: area.y + 2,
        height: area.height.saturating_sub(2),
        ..area
    };
    pager.draw(buf, text, &app.theme);
}

/// Lines over the lower part of the screen, under a rule.
fn tell(app: &App, buf: &mut Buffer, area: Rect, pager: &Pager) {
    let wanted = u16::try_from(pager.rows_at(usize::from(area.width))).unwrap_or(u16::MAX);
    let rows = wanted.saturating_add(1).min(area.height);
    let strip = Rect {
        y: area.y + area.height - rows,
        height: rows,
        ..area
    };
    clear(buf, strip, &app.theme);
    let line = if app.theme.ascii { "=" } else { "\u{2550}" };
    put(
        buf,
        strip,
        0,
        0,
        &line.repeat(usize::from(strip.width)),
        app.theme.warn,
    );
    let text = Rect {
        y: strip.y + 1,
        height: rows - 1,
        ..strip
    };
    pager.draw(buf, text, &app.theme);
}

/// Tells the pagers how large their place is, so that they scroll right.
pub fn resize(app: &mut App, area: Rect) {
    let body = area.height.saturating_sub(4);
    for layer in &mut app.layers {
        match layer {
            Layer::Read(_, pager) => pager.set_size(area.width, body.saturating_sub(2)),
            Layer::Tell(pager) => pager.set_size(area.width, body.saturating_sub(1)),
            Layer::Wood(wood) => wood.set_size(area.width, area.height.saturating_sub(3)),
            _ => {}
        }
    }
}
