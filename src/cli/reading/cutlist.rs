//! The cut list of pieces and the lumber to buy for them.

use super::{PieceJson, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{LumberTyped, pick, read_lumber};
use crate::papers::{PieceLumber, cut_list_paper, lumber_to_buy, piece_lumber};
use crate::shape::lumber::{Lay, LumberError};
use crate::shop::PieceFile;
use crate::units::Length;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree cutlist 1A\n  tackfree cutlist --job 1 --strip \"1 3/4\"\n  tackfree cutlist 1B --lie width\n\nBoard feet to buy are net / (1 - waste). What is not said is as tackfree boards has it. With --json:\npieces [ticket, id, piece, job_no, job, client, net_board_feet, gross_board_feet, blank_mm, even_mm,\nstrips [count, seen_mm, long_mm, rip_mm, from_mm], minds], net_board_feet, gross_board_feet, boards\n[pieces [rip_mm, long_mm]], sold_board_feet, trouble (a sentence when no board yields a strip).";

/// What was typed.
#[derive(Debug, Args)]
pub struct CutlistArgs {
    /// The pieces.
    #[arg(required_unless_present = "job")]
    pub pieces: Vec<String>,
    /// All pieces of this job.
    #[arg(long, conflicts_with = "pieces")]
    pub job: Option<String>,
    /// Which way the strips lie: length or width.
    #[arg(long, default_value = "length")]
    pub lie: String,
    /// Seen width of a strip.
    #[arg(long)]
    pub strip: Option<String>,
    /// Waste, percent of what is bought.
    #[arg(long)]
    pub waste: Option<String>,
    /// Rough thickness in quarters: 8 for 8/4.
    #[arg(long)]
    pub quarters: Option<String>,
}

#[derive(Serialize)]
struct CutlistJson {
    pieces: Vec<PieceListJson>,
    net_board_feet: f64,
    gross_board_feet: f64,
    boards: Vec<BoardJson>,
    sold_board_feet: Option<f64>,
    trouble: Option<String>,
}

#[derive(Serialize)]
struct PieceListJson {
    #[serde(flatten)]
    piece: PieceJson,
    net_board_feet: f64,
    gross_board_feet: f64,
    blank_mm: f64,
    even_mm: f64,
    strips: Vec<StripJson>,
    minds: Vec<String>,
}

#[derive(Serialize)]
struct StripJson {
    count: u32,
    seen_mm: f64,
    long_mm: f64,
    rip_mm: f64,
    from_mm: f64,
}

#[derive(Serialize)]
struct BoardJson {
    pieces: Vec<CutJson>,
}

#[derive(Serialize)]
struct CutJson {
    rip_mm: f64,
    long_mm: f64,
}

fn mm(length: Length) -> f64 {
    rounded(length.mm())
}

fn said(error: LumberError) -> Failure {
    Failure::said(error.to_string())
}

/// Reckons it.
pub fn run(args: &CutlistArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let files: Vec<&PieceFile> = match &args.job {
        Some(job) => {
            let job = find::job(&shop, job)?.id;
            shop.files
                .iter()
                .filter(|file| file.piece.job == job)
                .collect()
        }
        None => find::pieces(&shop, &args.pieces)?,
    };
    if files.is_empty() {
        return Err(Failure::said(
            "This job has no pieces yet: enter one first.",
        ));
    }
    let lays = [
        (Lay::Length, "length".to_owned()),
        (Lay::Width, "width".to_owned()),
    ];
    let lay = pick("lie", &args.lie, &lays)?;
    let mut typed = LumberTyped::of(&shop.layout.lumber, shop.layout.page, &shop.settings);
    for (over, given) in [
        (&mut typed.strip, &args.strip),
        (&mut typed.waste, &args.waste),
        (&mut typed.quarters, &args.quarters),
    ] {
        if let Some(given) = given {
            over.clone_from(given);
        }
    }
    let (rules, _) = read_lumber(&typed, &shop.settings)?;
    let lines = cut_list_paper(&shop, &files, lay, &rules).map_err(said)?;
    let lumber: Vec<PieceLumber> = files
        .iter()
        .map(|file| piece_lumber(file, lay, &rules, shop.settings.length))
        .collect::<Result<_, _>>()
        .map_err(said)?;
    let bought = lumber_to_buy(&lumber, &rules);
    let boards = bought.as_ref().map_or(&[][..], |bought| &bought.boards[..]);
    let json = CutlistJson {
        net_board_feet: rounded(lumber.iter().map(|piece| piece.net).sum()),
        gross_board_feet: rounded(lumber.iter().map(|piece| piece.gross).sum()),
        boards: boards
            .iter()
            .map(|board| BoardJson {
                pieces: board
                    .pieces
                    .iter()
                    .map(|(rip, long)| CutJson {
                        rip_mm: mm(*rip),
                        long_mm: mm(*long),
                    })
                    .collect(),
            })
            .collect(),
        sold_board_feet: bought
            .as_ref()
            .ok()
            .map(|bought| rounded(bought.board_feet)),
        trouble: bought.as_ref().err().map(ToString::to_string),
        pieces: files
            .iter()
            .zip(&lumber)
            .map(|(file, lumber)| list(PieceJson::of(&shop, file), lumber))
            .collect(),
    };
    Answer::new(lines, json)
}

fn list(piece: PieceJson, lumber: &PieceLumber) -> PieceListJson {
    PieceListJson {
        piece,
        net_board_feet: rounded(lumber.net),
        gross_board_feet: rounded(lumber.gross),
        blank_mm: mm(lumber.glue_up.blank),
        even_mm: mm(lumber.glue_up.even),
        strips: lumber
            .glue_up
            .strips
            .iter()
            .map(|strip| StripJson {
                count: strip.count,
                seen_mm: mm(strip.seen),
                long_mm: mm(strip.long),
                rip_mm: mm(strip.rip),
                from_mm: mm(strip.from),
            })
            .collect(),
        minds: lumber.glue_up.minds.clone(),
    }
}
