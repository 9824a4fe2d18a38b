//! The cell under the cursor of a ticket's sheet, said in full.

use super::super::kit::text::wrap;
use super::super::screen::Ctx;
use super::sheet::{Column, sheet_columns};
use super::ticket::TicketScreen;
use crate::shop::{CoatKind, FaceState, Ticket};
use crate::units::moment::show_moment;

/// The lines below the sheet: the cell under the cursor, said in full.
pub(super) fn detail(
    screen: &TicketScreen,
    ticket: &Ticket,
    width: usize,
    ctx: &Ctx<'_>,
) -> Vec<String> {
    let when = |at| show_moment(at, ctx.now, ctx.zone());
    if screen.on_set_list {
        return vec![String::new()];
    }
    let columns = sheet_columns(ticket);
    let (Some(face), Some(column)) = (ticket.faces.get(screen.face), columns.get(screen.column))
    else {
        return vec![String::new()];
    };
    let area = face.area.show(ctx.shop.settings.area());
    let state = match column {
        Column::Grit(grit) if !ticket.plan(face).grits.contains(grit) => {
            format!("{grit} grit not asked here")
        }
        Column::Grit(grit) => match face.ticks.get(grit) {
            Some(at) => format!("{grit} grit ticked {}", when(*at)),
            None => format!("{grit} grit to do"),
        },
        Column::Wipe => match face.wiped {
            Some(at) => format!("wiped down {}", when(at)),
            None => "to wipe down".to_owned(),
        },
        Column::Coat(kind) => coat_words(ticket, face, *kind, ctx),
    };
    let mut out = vec![String::new()];
    let mut words = format!("{} ({}, {area}): {state}", face.key, face.grain);
    if let Some(reason) = &face.not_exposed {
        words = format!("{words}; not exposed: {reason}");
    }
    if face.sand_backs > 0 {
        words = format!("{words}; sanded back {} times", face.sand_backs);
    }
    out.extend(wrap(&words, width));
    out
}

fn coat_words(ticket: &Ticket, face: &FaceState, kind: CoatKind, ctx: &Ctx<'_>) -> String {
    let (has, asked) = (face.count(kind), ticket.asked(face, kind));
    let laid = face.coats.iter().rfind(|coat| coat.kind == kind);
    let mut words = match (asked, has) {
        (0, 0) => format!("no {} asked", kind.coat_word()),
        _ => format!("{} {has} of {asked}", kind.coat_word()),
    };
    if let Some(coat) = laid {
        let product = ctx
            .shop
            .product(coat.product)
            .map_or("", |product| product.name.as_str());
        let when = show_moment(coat.ended, ctx.now, ctx.zone());
        words = format!("{words}, last {when}, {product}");
        if let Some((at, means)) = coat.scuffed {
            let at = show_moment(at, ctx.now, ctx.zone());
            words = format!("{words}, scuffed {at} with {}", means.words());
        }
        if let Some((at, verdict)) = coat.touch {
            let at = show_moment(at, ctx.now, ctx.zone());
            words = format!("{words}, touch test {at}: {}", verdict.words());
        }
    }
    words
}
