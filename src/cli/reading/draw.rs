//! The drawing of a piece, in signs.

use super::{PieceJson, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::pick;
use crate::papers::{drawing_paper, picture};
use crate::shape::drawing::{Plot, Signs, View};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree draw 1A\n  tackfree draw 1A --signs plain --wide 132 --tall 40 | lp\n\nWith --json: ticket, id, piece, job_no, job, client, mm_per_sign (a sign is twice as tall), lines.";

/// What was typed.
#[derive(Debug, Args)]
pub struct DrawArgs {
    /// The piece.
    pub piece: String,
    /// braille, half or plain.
    #[arg(long, default_value = "braille")]
    pub signs: String,
    /// Signs to a line.
    #[arg(long, default_value_t = 80, value_parser = clap::value_parser!(u16).range(30..=400))]
    pub wide: u16,
    /// Lines of the drawing.
    #[arg(long, default_value_t = 22, value_parser = clap::value_parser!(u16).range(8..=200))]
    pub tall: u16,
}

#[derive(Serialize)]
struct DrawJson {
    #[serde(flatten)]
    piece: PieceJson,
    mm_per_sign: f64,
    lines: Vec<String>,
}

/// Draws it.
pub fn run(args: &DrawArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let words = [
        (Signs::Braille, "braille".to_owned()),
        (Signs::Half, "half".to_owned()),
        (Signs::Ascii, "plain".to_owned()),
    ];
    let signs = pick("signs", &args.signs, &words)?;
    let (cols, rows) = (usize::from(args.wide), usize::from(args.tall));
    let plot = Plot::new(&picture(&shop, file), View::default(), cols, rows, signs);
    let json = DrawJson {
        piece: PieceJson::of(&shop, file),
        mm_per_sign: rounded(plot.mm_per_col()),
        lines: plot.lines(),
    };
    Answer::new(drawing_paper(&shop, file, (cols, rows), signs), json)
}
