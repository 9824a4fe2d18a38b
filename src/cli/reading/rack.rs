//! What is wet, drying or ready.

use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::shop::{RackRow, RackState, rack};
use crate::units::show_moment;
use chrono::{DateTime, Utc};
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree rack\n\nReady first, then missed windows, then what happens soonest. With --json: now, basis, rows [ticket,\nid, piece, job_no, job, client, state, coat_kind, coat_no, tack_free_at, recoat_at,\nwindow_shuts_at, full_cure_at, waits_for, until]; times RFC 3339 or null.";

#[derive(Serialize)]
struct RackJson {
    now: String,
    basis: &'static str,
    rows: Vec<RowJson>,
}

#[derive(Serialize)]
struct RowJson {
    #[serde(flatten)]
    piece: PieceJson,
    state: &'static str,
    coat_kind: Option<&'static str>,
    coat_no: Option<u8>,
    tack_free_at: Option<String>,
    recoat_at: Option<String>,
    window_shuts_at: Option<String>,
    full_cure_at: Option<String>,
    waits_for: String,
    until: Option<String>,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let now = session.now;
    let clock = shop.clock();
    let rows = rack(&shop.files, &shop.gates(&clock), now);
    let mut columns = Columns::at_most(&[8, 22]);
    let mut json = Vec::new();
    for row in &rows {
        let Some(file) = shop.file(row.piece) else {
            continue;
        };
        columns.row([
            &shop.ticket_no(file),
            &file.piece.name,
            &words(row, &shop, now),
        ]);
        json.push(RowJson {
            piece: PieceJson::of(&shop, file),
            state: row.state.words(),
            coat_kind: row.coat.map(|(kind, _)| kind.word()),
            coat_no: row.coat.map(|(_, no)| no),
            tack_free_at: row.tack_free.map(moment),
            recoat_at: row.recoat.map(moment),
            window_shuts_at: row.shuts.map(moment),
            full_cure_at: row.full_cure.map(moment),
            waits_for: row.waiting.words(now, shop.settings.zone),
            until: row.waiting.until().map(moment),
        });
    }
    let basis = clock.basis();
    let mut lines = vec![format!("RACK, by {basis}")];
    if columns.is_empty() {
        lines.push("  Nothing is drying.".to_owned());
    }
    lines.extend(columns.lines(2, PAPER_WIDTH));
    Answer::new(
        lines,
        RackJson {
            now: moment(now),
            basis,
            rows: json,
        },
    )
}

/// `tacky, coat 3; tack-free 5:00 pm; dry to recoat 8:00 pm; window shuts Thu 2:00 pm`.
fn words(row: &RackRow, shop: &Shop, now: DateTime<Utc>) -> String {
    let zone = shop.settings.zone;
    let at = |moment: DateTime<Utc>| show_moment(moment, now, zone);
    let mut parts = vec![row.state.words().to_owned()];
    if let Some((kind, no)) = row.coat {
        parts.push(format!("{} {no}", kind.coat_word()));
    }
    if let Some(tack_free) = row.tack_free.filter(|tack_free| *tack_free > now) {
        parts.push(format!("tack-free {}", at(tack_free)));
    }
    if let Some(recoat) = row.recoat {
        let since = if recoat > now { "" } else { "since " };
        parts.push(format!("dry to recoat {since}{}", at(recoat)));
    }
    if let Some(shuts) = row.shuts.filter(|_| row.state != RackState::Curing) {
        let verb = if shuts > now { "shuts" } else { "shut" };
        parts.push(format!("window {verb} {}", at(shuts)));
    }
    if row.state == RackState::Curing
        && let Some(cure) = row.full_cure
    {
        parts.push(format!("full cure {}", at(cure)));
    }
    // A coat that waits for the moment already told needs no second telling.
    if row.waiting.until().is_none() || row.waiting.until() != row.recoat {
        parts.push(format!("next: {}", row.waiting.words(now, zone)));
    }
    parts.join("; ")
}
