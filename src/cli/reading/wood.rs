//! The wood sheet of a piece, and the page for the client.

use super::wood_json::SheetJson;
use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::desk::typed::read_air;
use crate::papers::wood::{client_page_html, client_page_paper, wood_sheet_paper};
use crate::shop::moving::{AirBasis, ShopsAir, WoodSheet};
use crate::shop::{PieceFile, Ticket};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree wood 1A\n  tackfree wood 1A --air \"68F 45\"\n\nWithout --air: the shop's air as last logged. With --json: ticket, id, piece, job_no, job, client,\nwood [name, kind, standing, from_memory, source, note] or wood_problem, grain, held, site [basis,\nradiant_floor, new_slab], year [driest_pct, wettest_pct, target_pct, assumed, basis], today [pct,\nbasis, last_read], shop_air [temperature_c, humidity_pct, basis, noted, emc_pct, within_table], ready [goal,\nverdict, reasons], places [place, meter, readings [code, id, at, shown_pct, content_pct, depth_mm,\ncorrection], curve [toward_pct, start_pct, days, within_half_a_point] or curve_problem], movement\n[width and length: size_mm, dry_mm and damp_mm (least, most; below zero shrinks), words, basis;\nof a joined L or U those of its run, with legs [part, width, length]] or movement_problem, leave [back_mm, front_mm, ends_mm (leave, opens_to), rows [from_back_mm,\nfrom_held_mm, slot_mm, outward_mm, round_hole_mm], along [count, apart_mm, margin_mm], lengthwise_slot_mm\n(blocks on end),\nfigure_eight_degrees (the larger turn from square today), mitre_mm, sinks [opening, leave_mm], legs [part and the same]], hold (words), faces [face, coats,\nkeeps_out_pct (day 1, 7, 14: least, most), standing, inferred, coats_not_counted, not_exposed], cup\n[from_pct, to_pct, least_mm, most_mm, line, basis, one_more].";

/// Examples.
pub const CLIENT_MORE: &str = "Examples:\n  tackfree client-page 1A | lp\n  tackfree client-page 1A --html > page.html\n\nWith --json: ticket, id, piece, job_no, job, client, printed_at, lines.";

/// What was typed.
#[derive(Debug, Args)]
pub struct WoodArgs {
    /// The piece.
    pub piece: String,
    /// The shop's air, like "68F 45"; as last logged unless said.
    #[arg(long, value_name = "AIR", allow_hyphen_values = true)]
    pub air: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct ClientPageArgs {
    /// The piece.
    pub piece: String,
    /// As HTML, to send or to print from a browser.
    #[arg(long, conflicts_with = "json")]
    pub html: bool,
}

#[derive(Serialize)]
struct PageJson {
    #[serde(flatten)]
    piece: PieceJson,
    printed_at: String,
    lines: Vec<String>,
}

fn sheet(
    shop: &Shop,
    file: &PieceFile,
    air: Option<&str>,
    session: &Session<'_>,
) -> Result<WoodSheet, Failure> {
    let typed = match air {
        Some(text) => read_air(text, &shop.settings)?.map(|air| ShopsAir {
            air: air.into(),
            basis: AirBasis::Typed,
        }),
        None => None,
    };
    let air = typed.or_else(|| shop.shops_air(session.now));
    let ticket = Ticket::of(file);
    Ok(shop.wood_records(file, &ticket, air).sheet(session.now))
}

/// Reads the sheet.
pub fn run(args: &WoodArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let sheet = sheet(&shop, file, args.air.as_deref(), session)?;
    let lines = wood_sheet_paper(&shop, file, &sheet, session.now);
    Answer::new(lines, SheetJson::of(&shop, file, &sheet))
}

/// Reads the client's page.
pub fn client_page(args: &ClientPageArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let sheet = sheet(&shop, file, None, session)?;
    let said = |error: crate::shop::moving::NoMoves| Failure::said(error.to_string());
    let lines = if args.html {
        let page = client_page_html(&shop, file, &sheet, session.now).map_err(said)?;
        page.lines().map(str::to_owned).collect()
    } else {
        client_page_paper(&shop, file, &sheet, session.now).map_err(said)?
    };
    let json = PageJson {
        piece: PieceJson::of(&shop, file),
        printed_at: moment(session.now),
        lines: lines.clone(),
    };
    Answer::new(lines, json)
}
