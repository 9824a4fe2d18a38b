//! The shop ticket on paper: boxes to tick with dusty hands, eighty columns.

use super::PAPER_WIDTH;
use super::cautions::ticket_cautions;
use super::figures::shape_figures;
use super::layout::{Columns, pad, wrap};
use super::shapes::shape_words;
use super::ticket_log::{amount_lines, log_lines};
use crate::coating::DryingClock;
use crate::desk::Shop;
use crate::shop::{
    CoatKind, FaceState, Grit, PieceFile, SetItem, Stage, Ticket, WipeDown, waiting,
};
use crate::units::{display_width, show_date, show_moment};
use chrono::{DateTime, Utc};

/// Grits side by side on the sanding sheet.
const GRITS_ACROSS: usize = 8;
/// Coats of one kind shown as boxes; more are told by number.
const BOXES_MOST: u8 = 8;

/// The whole ticket of a piece.
pub fn ticket_paper(
    shop: &Shop,
    file: &PieceFile,
    clock: &dyn DryingClock,
    now: DateTime<Utc>,
) -> Vec<String> {
    let ticket = Ticket::of(file);
    let mut out = head(shop, file, now);
    let waits = waiting(&ticket, &shop.gates(clock), now).words(now, shop.settings.zone);
    section(&mut out, "STAGES", stages(&ticket, &waits));
    section(
        &mut out,
        "LAYOUT",
        super::findings::ticket_findings(shop, file),
    );
    section(&mut out, "SANDING SHEET", sanding_sheet(&ticket, shop));
    section(&mut out, "COATS", coats(&ticket));
    section(&mut out, "SET LIST", set_list(&ticket, shop, now));
    section(&mut out, "AMOUNTS", amount_lines(shop, file));
    section(&mut out, "LOG", log_lines(shop, file, now));
    let cautions = ticket_cautions(shop, file, &ticket);
    let lines = cautions.iter().flat_map(|(stages, caution)| {
        let words = format!("{}: {}", stage_names(stages), caution.words());
        indented(&words, 4)
    });
    section(&mut out, "MIND", lines.collect());
    out
}

fn section(out: &mut Vec<String>, title: &str, lines: Vec<String>) {
    if lines.is_empty() {
        return;
    }
    out.push(String::new());
    let rule = "-".repeat(PAPER_WIDTH - title.len() - 1);
    out.push(format!("{title} {rule}"));
    out.extend(lines);
}

/// Wrapped behind two blanks, further lines further in.
fn indented(words: &str, further: usize) -> Vec<String> {
    let lines = wrap(words, PAPER_WIDTH - 2, further.saturating_sub(2));
    lines.into_iter().map(|line| format!("  {line}")).collect()
}

fn head(shop: &Shop, file: &PieceFile, now: DateTime<Utc>) -> Vec<String> {
    let settings = &shop.settings;
    let piece = &file.piece;
    let printed = format!(
        "as of {}",
        now.with_timezone(&settings.zone)
            .format("%a %b %-d %Y, %-I:%M %P")
    );
    let title = format!("SHOP TICKET {}", shop.ticket_no(file));
    let mut out = vec![format!(
        "{}{printed}",
        pad(&title, PAPER_WIDTH.saturating_sub(printed.len()))
    )];
    if !settings.shop_name.is_empty() {
        let shop_line = [settings.shop_name.as_str(), settings.shop_address.as_str()];
        let words: Vec<&str> = shop_line
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect();
        out.extend(wrap(&words.join(", "), PAPER_WIDTH, 2));
    }
    let piece_words = format!(
        "{} ({}), {}, {}",
        piece.name,
        piece.kind.word(),
        piece.species,
        piece.construction
    );
    out.extend(wrap(&piece_words, PAPER_WIDTH, 2));
    let mut lines = shape_words(&piece.shape, settings);
    lines.extend(shape_figures(piece, shop));
    for line in lines {
        out.extend(wrap(&line, PAPER_WIDTH, 2));
    }
    if let Some(job) = shop.job(piece.job) {
        let client = shop
            .client(job.client)
            .map_or("a client gone", |client| &client.name);
        let site = if job.site.is_empty() {
            String::new()
        } else {
            format!(", at {}", job.site)
        };
        out.extend(wrap(
            &format!("job {} {} for {client}{site}", job.no, job.title),
            PAPER_WIDTH,
            2,
        ));
        if let Some(date) = job.promised {
            let today = now.with_timezone(&settings.zone).date_naive();
            let late = if date < today && !piece.finished {
                ", past"
            } else {
                ""
            };
            out.push(format!("promised {}{late}", show_date(date, today)));
        }
    }
    let recipe = shop
        .recipe(piece.recipe)
        .map_or("a recipe gone", |recipe| &recipe.name);
    let own = if piece.schedule.is_some() {
        ", own copy since work started"
    } else {
        ""
    };
    out.extend(wrap(&format!("recipe: {recipe}{own}"), PAPER_WIDTH, 2));
    out
}

fn tick(done: bool) -> &'static str {
    if done { "[x]" } else { "[ ]" }
}

fn stages(ticket: &Ticket, waits: &str) -> Vec<String> {
    let mut columns = Columns::at_most(&[]);
    for stage in Stage::ALL {
        let done = stage < ticket.stage || ticket.finished.is_some();
        if !ticket.schedule.asks(stage) {
            columns.row([" - ", stage.word(), "nothing asked"]);
        } else if stage == ticket.stage {
            columns.row([tick(done), stage.word(), &format!("now here: {waits}")]);
        } else {
            columns.row([tick(done), stage.word(), ""]);
        }
    }
    columns.lines(2, PAPER_WIDTH)
}

/// One more than the widest of some texts, which is `least` at the least.
fn widest(texts: impl Iterator<Item = String>, least: usize) -> usize {
    texts
        .map(|text| display_width(&text))
        .fold(least, usize::max)
        + 1
}

fn sanding_sheet(ticket: &Ticket, shop: &Shop) -> Vec<String> {
    let mut out = Vec::new();
    let grits = ticket.grits();
    let areas: Vec<String> = ticket
        .faces
        .iter()
        .map(|face| face.area.show(shop.settings.area()))
        .collect();
    // Names and areas as wide as the widest, with a blank behind; fewer grits beside long names.
    let name_wide = widest(ticket.faces.iter().map(|face| face.key.to_string()), 16);
    let area_wide = widest(areas.iter().cloned(), 11);
    let room = PAPER_WIDTH.saturating_sub(2 + name_wide + area_wide + 5);
    let across = (room / 5).clamp(1, GRITS_ACROSS);
    let blocks: Vec<&[Grit]> = grits.chunks(across).collect();
    for (at, block) in blocks.iter().enumerate() {
        let last = at + 1 == blocks.len();
        let mut line = pad("  face", 2 + name_wide + area_wide);
        for grit in *block {
            line.push_str(&pad(&grit.to_string(), 5));
        }
        if last && ticket.schedule.asks_wipe_down() {
            line.push_str("wiped");
        }
        out.push(line.trim_end().to_owned());
        for (face, area) in ticket.faces.iter().zip(&areas) {
            let mut line = format!("  {}", pad(&face.key.to_string(), name_wide));
            line.push_str(&pad(area, area_wide));
            for grit in *block {
                let asked = ticket.plan(face).grits.contains(grit);
                let cell = if asked {
                    tick(face.ticks.contains_key(grit))
                } else {
                    " - "
                };
                line.push_str(&pad(cell, 5));
            }
            if last && ticket.schedule.asks_wipe_down() {
                line.push_str(tick(face.wiped.is_some() || !face.coats.is_empty()));
            }
            out.push(line.trim_end().to_owned());
        }
    }
    out.extend(wipe_line(ticket, shop));
    out
}

fn wipe_line(ticket: &Ticket, shop: &Shop) -> Option<String> {
    match ticket.schedule.wipe_down {
        WipeDown::NotAsked => None,
        WipeDown::Dry => Some("  wipe down dry: vacuum and a clean cloth".to_owned()),
        WipeDown::With(id) => shop
            .product(id)
            .map(|product| format!("  wipe down with {}", product.name)),
    }
}

/// Boxes for the coats of one kind: ticked ones first.
fn boxes(face: &FaceState, ticket: &Ticket, kind: CoatKind) -> String {
    let (has, asked) = (face.count(kind), ticket.asked(face, kind));
    if asked == 0 && has == 0 {
        return " -".to_owned();
    }
    let all = asked.max(has);
    if all > BOXES_MOST {
        return format!("{has} of {asked}");
    }
    let mut out = "[x]".repeat(usize::from(has));
    out.push_str(&"[ ]".repeat(usize::from(all - has)));
    let waits = kind == CoatKind::Stain
        && face
            .last_coat()
            .is_some_and(|coat| coat.kind == kind && coat.wiped_off.is_none());
    if waits {
        out.push_str(" wipe off");
    }
    out
}

fn coats(ticket: &Ticket) -> Vec<String> {
    let mut columns = Columns::at_most(&[40, 24, 14]);
    columns.row(["face", "seal coats", "stain", "topcoats"]);
    for face in &ticket.faces {
        columns.row([
            &face.key.to_string(),
            &boxes(face, ticket, CoatKind::Seal),
            &boxes(face, ticket, CoatKind::Stain),
            &boxes(face, ticket, CoatKind::Topcoat),
        ]);
    }
    let mut out = columns.lines(2, PAPER_WIDTH);
    if let Some(scuff) = ticket.schedule.scuff {
        out.push(format!("  between topcoats: scuff with {}", scuff.words()));
    }
    for face in &ticket.faces {
        if let Some(reason) = &face.not_exposed {
            out.extend(indented(&format!("{} not exposed: {reason}", face.key), 4));
        }
    }
    for face in ticket.faces.iter().filter(|face| face.sand_backs > 0) {
        let times = if face.sand_backs == 1 {
            "once".to_owned()
        } else {
            format!("{} times", face.sand_backs)
        };
        out.push(format!("  {} sanded back {times}", face.key));
    }
    out
}

fn set_list(ticket: &Ticket, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let mut out = Vec::new();
    for item in SetItem::ALL {
        let when = ticket.set_list.get(&item);
        let at = when.map(|at| format!(" ({})", show_moment(*at, now, shop.settings.zone)));
        let words = format!(
            "{} {}{}",
            tick(when.is_some()),
            item.words(),
            at.unwrap_or_default()
        );
        out.extend(indented(&words, 6));
    }
    out
}

fn stage_names(stages: &[Stage]) -> String {
    let words: Vec<&str> = stages.iter().map(|stage| stage.word()).collect();
    if words.is_empty() {
        "on site".to_owned()
    } else {
        words.join(", ")
    }
}
