//! The log of a piece, line by line, with the codes that corrections name.

use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::papers::layout::Columns;
use crate::papers::{PAPER_WIDTH, event_words, line_code, pass_code};
use crate::shop::{What, together};
use crate::units::show_moment;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Example:\n  tackfree log 1A\n\nTicks of one grit logged in one go share a line. With --json: the piece, lines [code, ids, at\n(RFC 3339), started (RFC 3339, of a coat), words, pass (its code, of a coat)], oldest first.";

/// What was typed.
#[derive(Debug, Args)]
pub struct LogArgs {
    /// The piece.
    pub piece: String,
}

#[derive(Serialize)]
struct LogJson {
    #[serde(flatten)]
    piece: PieceJson,
    lines: Vec<LineJson>,
}

#[derive(Serialize)]
struct LineJson {
    code: String,
    ids: Vec<String>,
    at: String,
    started: Option<String>,
    words: String,
    pass: Option<String>,
}

/// Reads it.
pub fn run(args: &LogArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let (mut columns, mut json) = (Columns::default(), Vec::new());
    let mut told = Vec::new();
    for event in &file.events {
        if told.contains(&event.id) {
            continue;
        }
        let ids = together(file, event.id);
        let words = match &event.what {
            What::Tick { .. } if ids.len() > 1 => event.what.brief(ids.len()),
            what => event_words(what, &shop, &|_| String::new()),
        };
        let (started, pass) = match &event.what {
            What::Coat { started, pass, .. } => (Some(moment(*started)), Some(pass_code(*pass))),
            _ => (None, None),
        };
        let code = line_code(event.id);
        let when = show_moment(event.at, session.now, shop.settings.zone);
        columns.row([&code, &when, &words]);
        json.push(LineJson {
            code,
            ids: ids.iter().map(ToString::to_string).collect(),
            at: moment(event.at),
            started,
            words,
            pass,
        });
        told.extend(ids);
    }
    let mut lines = vec![format!("LOG of {}", shop.called(file))];
    if columns.is_empty() {
        lines.push("  Nothing was logged yet.".to_owned());
    }
    lines.extend(columns.lines(2, PAPER_WIDTH));
    Answer::new(
        lines,
        LogJson {
            piece: PieceJson::of(&shop, file),
            lines: json,
        },
    )
}
