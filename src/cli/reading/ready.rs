//! Which pieces are ready, and what each waits for.

use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::{ready_paper, ready_rows};
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree ready --json\n\nWith --json: now (RFC 3339), basis (of the drying times), pieces [ticket, id, piece, job_no, job,\nclient, stage, shows (ready, missed, held or drying), waits_for, until (RFC 3339 or null), promised\n(date or null)].";

#[derive(Serialize)]
struct ReadyJson {
    now: String,
    basis: &'static str,
    pieces: Vec<RowJson>,
}

#[derive(Serialize)]
struct RowJson {
    #[serde(flatten)]
    piece: PieceJson,
    stage: &'static str,
    shows: &'static str,
    waits_for: String,
    until: Option<String>,
    promised: Option<String>,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (now, zone) = (session.now, shop.settings.zone);
    let clock = shop.clock();
    let rows = ready_rows(&shop, &clock, now);
    let pieces = rows
        .iter()
        .map(|row| RowJson {
            piece: PieceJson::of(&shop, row.file),
            stage: row.stage.word(),
            shows: row.waiting.shows().word(),
            waits_for: row.waiting.words(now, zone),
            until: row.waiting.until().map(moment),
            promised: shop
                .job(row.file.piece.job)
                .and_then(|job| job.promised)
                .map(|date| date.to_string()),
        })
        .collect();
    let basis = crate::coating::DryingClock::basis(&clock);
    Answer::new(
        ready_paper(&rows, &shop, now),
        ReadyJson {
            now: moment(now),
            basis,
            pieces,
        },
    )
}
