//! What was done, newest first.

use super::moment;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Books;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::units::show_moment;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree journal --lines 50\n\nWith --json: lines [no, at (RFC 3339), words, undone].";

/// What was typed.
#[derive(Debug, Args)]
pub struct JournalArgs {
    /// How many lines.
    #[arg(long, default_value_t = 20, value_name = "COUNT")]
    pub lines: usize,
}

#[derive(Serialize)]
struct JournalJson {
    lines: Vec<LineJson>,
}

#[derive(Serialize)]
struct LineJson {
    no: i64,
    at: String,
    words: String,
    undone: bool,
}

/// Reads it.
pub fn run(args: &JournalArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let zone = session.shop()?.settings.zone;
    let mut columns = Columns::default();
    let mut lines = Vec::new();
    for line in session.store.journal(args.lines)? {
        let undone = if line.undone { " (undone)" } else { "" };
        columns.row([
            &show_moment(line.at, session.now, zone),
            &format!("{}{undone}", line.words),
        ]);
        lines.push(LineJson {
            no: line.no,
            at: moment(line.at),
            words: line.words,
            undone: line.undone,
        });
    }
    Answer::new(columns.lines(0, PAPER_WIDTH), JournalJson { lines })
}
