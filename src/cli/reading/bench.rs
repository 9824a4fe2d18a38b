//! The stages with their pieces, as a list.

use super::short_json::{ShortJson, shorts};
use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::shop::{PieceFile, Stage, Ticket, Waiting, waiting};
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree bench\n\nWith --json: now, stages [stage, pieces [ticket, id, piece, job_no, job, client, shows, waits_for,\nuntil]], always the five stages in their order; short [jobs (their numbers), product, batch, left_ml,\nneeded_ml, missing_ml, words] (stain batches that do not last).";

#[derive(Serialize)]
struct BenchJson {
    now: String,
    stages: Vec<StageJson>,
    short: Vec<ShortJson>,
}

#[derive(Serialize)]
struct StageJson {
    stage: &'static str,
    pieces: Vec<RowJson>,
}

#[derive(Serialize)]
struct RowJson {
    #[serde(flatten)]
    piece: PieceJson,
    shows: &'static str,
    waits_for: String,
    until: Option<String>,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (now, zone) = (session.now, shop.settings.zone);
    let clock = shop.clock();
    let gates = shop.gates(&clock);
    let all: Vec<(&PieceFile, Stage, Waiting)> = shop
        .files
        .iter()
        .map(|file| {
            let ticket = Ticket::of(file);
            (file, ticket.stage, waiting(&ticket, &gates, now))
        })
        .collect();
    let (mut lines, mut stages) = (Vec::new(), Vec::new());
    for stage in Stage::ALL {
        let mut columns = Columns::at_most(&[8, 22, 18]);
        let mut pieces = Vec::new();
        for (file, _, waits) in all.iter().filter(|(_, at, _)| *at == stage) {
            let piece = PieceJson::of(&shop, file);
            let words = waits.words(now, zone);
            columns.row([&piece.ticket, &piece.piece, &piece.client, &words]);
            pieces.push(RowJson {
                piece,
                shows: waits.shows().word(),
                waits_for: words,
                until: waits.until().map(moment),
            });
        }
        if !lines.is_empty() {
            lines.push(String::new());
        }
        lines.push(format!(
            "{} ({})",
            stage.word().to_uppercase(),
            pieces.len()
        ));
        lines.extend(columns.lines(2, PAPER_WIDTH));
        stages.push(StageJson {
            stage: stage.word(),
            pieces,
        });
    }
    let (told, short) = shorts(&shop);
    lines.extend(told);
    Answer::new(
        lines,
        BenchJson {
            now: moment(now),
            stages,
            short,
        },
    )
}
