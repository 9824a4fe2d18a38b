//! The ticket of a piece.

use super::face_json::FaceJson;
use super::shape_json::ShapeJson;
use super::tally::RowJson;
use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::papers::{batches_used, event_words, ticket_cautions, ticket_paper};
use crate::shop::{PieceFile, SetItem, Stage, Ticket, waiting};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree ticket 1A | lp\n\nOn paper: [x] done, [ ] to do, - nothing asked. With --json: ticket, id, piece, job_no, job, client,\nkind, species, construction, shape (mm; openings, corners, areas, balance point, weight), recipe, promised, stage, shows, waits_for, until,\nblocks_move (every reason), stages [stage, state], faces [face, name, grain, group, area_m2, grits\n[grit, done_at], wiped_at, seal_coats, stain, topcoats (has, asked), not_exposed, sanded_back, coats],\nset_list [item, words, done_at], amounts (as in tally), batches (of each\nproduct, with its cans), log [at, words], cautions [stages, line,\nsource].";

/// What was typed.
#[derive(Debug, Args)]
pub struct TicketArgs {
    /// The piece.
    pub piece: String,
}

#[derive(Serialize)]
struct TicketJson {
    #[serde(flatten)]
    piece: PieceJson,
    kind: &'static str,
    species: String,
    construction: String,
    shape: ShapeJson,
    recipe: Option<String>,
    promised: Option<String>,
    stage: &'static str,
    shows: &'static str,
    waits_for: String,
    until: Option<String>,
    blocks_move: Vec<String>,
    stages: Vec<StageJson>,
    faces: Vec<FaceJson>,
    set_list: Vec<SetJson>,
    amounts: Vec<RowJson>,
    batches: Vec<String>,
    log: Vec<LogJson>,
    cautions: Vec<CautionJson>,
}

#[derive(Serialize)]
struct StageJson {
    stage: &'static str,
    state: &'static str,
}

#[derive(Serialize)]
struct SetJson {
    item: &'static str,
    words: &'static str,
    done_at: Option<String>,
}

#[derive(Serialize)]
struct LogJson {
    at: String,
    words: String,
}

#[derive(Serialize)]
struct CautionJson {
    stages: Vec<&'static str>,
    line: &'static str,
    source: &'static str,
}

/// Reads it.
pub fn run(args: &TicketArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let clock = shop.clock();
    let lines = ticket_paper(&shop, file, &clock, session.now);
    Answer::new(lines, json(&shop, file, session))
}

fn json(shop: &Shop, file: &PieceFile, session: &Session<'_>) -> TicketJson {
    let (now, zone) = (session.now, shop.settings.zone);
    let ticket = Ticket::of(file);
    let clock = shop.clock();
    let gates = shop.gates(&clock);
    let waits = waiting(&ticket, &gates, now);
    let piece = &file.piece;
    let blockers = match ticket.schedule.next_stage(ticket.stage) {
        Some(_) => gates.blockers_to_next(&ticket, now),
        None => Vec::new(),
    };
    let rows = shop.tally(std::slice::from_ref(file));
    TicketJson {
        piece: PieceJson::of(shop, file),
        kind: piece.kind.word(),
        species: piece.species.clone(),
        construction: piece.construction.to_string(),
        shape: ShapeJson::of(piece, shop),
        recipe: shop.recipe(piece.recipe).map(|recipe| recipe.name.clone()),
        promised: shop
            .job(piece.job)
            .and_then(|job| job.promised)
            .map(|date| date.to_string()),
        stage: ticket.stage.word(),
        shows: waits.shows().word(),
        waits_for: waits.words(now, zone),
        until: waits.until().map(moment),
        blocks_move: blockers
            .iter()
            .map(|blocker| blocker.words(now, zone))
            .collect(),
        stages: Stage::ALL.map(|stage| stage_json(&ticket, stage)).into(),
        faces: ticket
            .faces
            .iter()
            .map(|face| FaceJson::of(face, &ticket, shop))
            .collect(),
        set_list: SetItem::ALL
            .map(|item| SetJson {
                item: item.code(),
                words: item.words(),
                done_at: ticket.set_list.get(&item).copied().map(moment),
            })
            .into(),
        amounts: rows.iter().map(|row| RowJson::of(row, shop)).collect(),
        batches: batches_used(shop, file),
        log: file
            .events
            .iter()
            .map(|event| LogJson {
                at: moment(event.at),
                words: event_words(&event.what, shop, &|_| String::new()),
            })
            .collect(),
        cautions: ticket_cautions(shop, file, &ticket)
            .into_iter()
            .map(|(stages, caution)| CautionJson {
                stages: stages.into_iter().map(Stage::word).collect(),
                line: caution.line,
                source: caution.source,
            })
            .collect(),
    }
}

/// done, now, to come, or nothing asked: a stage passed through is never told as done.
fn stage_json(ticket: &Ticket, stage: Stage) -> StageJson {
    let told = if !ticket.schedule.asks(stage) {
        "nothing asked"
    } else if stage < ticket.stage || ticket.finished.is_some() {
        "done"
    } else if stage == ticket.stage {
        "now"
    } else {
        "to come"
    };
    StageJson {
        stage: stage.word(),
        state: told,
    }
}
