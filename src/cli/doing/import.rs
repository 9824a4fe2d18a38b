//! Brings a whole shop in.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::LabelHours;
use crate::store::files::{self, Fault, FilesError};
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree --store new.tackfree import ~/shop-2026-11\n\nEvery piece's log goes through the same gates as work being logged: no file gets a piece past\ncoverage or sealing.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The folder with the files.
    pub folder: PathBuf,
}

#[derive(Serialize)]
struct ImportJson<'a> {
    done: &'a str,
    notes: &'a [String],
    clients: usize,
    jobs: usize,
    pieces: usize,
    products: usize,
    recipes: usize,
    passes: usize,
    log_lines: usize,
}

/// Does it.
pub fn run(args: &ImportArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let report = files::import(
        session.store,
        &args.folder,
        session.now,
        session.mint,
        session.zone,
        &LabelHours,
    )
    .map_err(|error| match &error {
        FilesError::At {
            fault: Fault::Refused { .. },
            ..
        } => Failure::Refused(error.lines()),
        _ => Failure::Said(error.lines()),
    })?;
    let mut lines = vec![report.words.clone()];
    lines.extend(report.notes.iter().map(|note| format!("Mind: {note}")));
    let json = ImportJson {
        done: &report.words,
        notes: &report.notes,
        clients: report.clients,
        jobs: report.jobs,
        pieces: report.pieces,
        products: report.products,
        recipes: report.recipes,
        passes: report.passes,
        log_lines: report.events,
    };
    Answer::done(lines, json)
}
