//! Writes `layout.toml`; its reading is beside it.

use super::tomls::quoted;
use super::words::length;
use crate::desk::typed::{CheckTyped, LumberTyped, RouterTyped, StandingTyped};
use crate::shop::{LayoutBook, PieceLayout};
use crate::units::{Length, LengthStyle};
use std::fmt::Write as _;

/// Writes it: what is as it began is left out.
pub(super) fn write(book: &LayoutBook, pieces: &[PieceLayout], style: LengthStyle) -> String {
    let say = |size: Length| length(size, style);
    let mut out = String::new();
    let first = LayoutBook::default();
    if book.router != first.router {
        let t = RouterTyped::of_with(&book.router, &say);
        let rows = [
            ("bit", quoted(&t.bit)),
            ("cutting_length", quoted(&t.cutting_length)),
            ("flutes", t.flutes),
            ("rpm", t.rpm),
            ("chip", quoted(&t.chip)),
            ("depth", quoted(&t.depth)),
            ("clean_up", quoted(&t.clean_up)),
            ("guide", quoted(&t.guide)),
        ];
        put(&mut out, "[router]", &rows);
    }
    if book.lumber != first.lumber || book.page != first.page {
        let t = LumberTyped::of_with(&book.lumber, book.page, &say);
        let rows = [
            ("strip", quoted(&t.strip)),
            ("end_trim", quoted(&t.end_trim)),
            ("side_trim", quoted(&t.side_trim)),
            ("kerf", quoted(&t.kerf)),
            ("waste_percent", t.waste),
            ("board_width", quoted(&t.board_width)),
            ("board_length", quoted(&t.board_length)),
            ("quarters", t.quarters),
            ("page", quoted(&t.page)),
        ];
        put(&mut out, "[lumber]", &rows);
    }
    for (rule, setting) in book.rules.own() {
        let t = CheckTyped::of_with(&setting, &say);
        let rows = [
            ("check", quoted(rule.word())),
            ("figure", quoted(&t.figure)),
            ("weight", quoted(&t.weight)),
            ("made", setting.made.to_string()),
        ];
        put(&mut out, "[[check]]", &rows);
    }
    for layout in pieces.iter().filter(|layout| !layout.standing.is_unsaid()) {
        let t = StandingTyped::of_with(&layout.standing, &say);
        let rows = [
            ("piece", quoted(&layout.piece.to_string())),
            ("joints", quoted(&t.joints)),
            ("overhangs", quoted(&t.overhangs)),
            ("span", quoted(&t.span)),
            ("appliances", quoted(&t.appliances)),
            ("drip", quoted(&t.drip)),
            ("height", quoted(&t.height)),
            ("accessible", layout.standing.accessible.to_string()),
        ];
        put(&mut out, "[[stands]]", &rows);
    }
    for layout in pieces {
        for taken in &layout.accepted {
            let rows = [
                ("piece", quoted(&layout.piece.to_string())),
                ("check", quoted(taken.rule.word())),
                ("about", quoted(&taken.about.0)),
                ("missing", quoted(&say(taken.missing))),
                ("weight", quoted(taken.weight.word())),
                ("reason", quoted(&taken.reason)),
            ];
            put(&mut out, "[[accepted]]", &rows);
        }
    }
    out
}

fn put(out: &mut String, head: &str, rows: &[(&str, String)]) {
    let gap = if out.is_empty() { "" } else { "\n" };
    // Writing to a String cannot fail.
    let _ = writeln!(out, "{gap}{head}");
    for (name, value) in rows {
        let _ = writeln!(out, "{name} = {value}");
    }
}
