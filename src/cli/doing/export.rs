//! Writes the whole shop out.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::store::files;
use crate::units::{clean_line, counted};
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree export ~/shop-2026-11\n\nFiles of CSV and TOML; nothing that is there is overwritten.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// A new folder, or an empty one.
    pub folder: PathBuf,
}

#[derive(Serialize)]
struct ExportJson {
    done: String,
    notes: Vec<String>,
    folder: String,
    clients: usize,
    jobs: usize,
    pieces: usize,
    passes: usize,
    log_lines: usize,
}

/// Does it.
pub fn run(args: &ExportArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let report = files::export(session.store, &args.folder, session.zone)
        .map_err(|error| Failure::Said(error.lines()))?;
    let (folder, _) = clean_line(&report.folder.display().to_string());
    let done = format!(
        "Wrote the shop to {folder}: {}, {}, {}, {}",
        counted(report.clients, "client", "clients"),
        counted(report.jobs, "job", "jobs"),
        counted(report.pieces, "piece", "pieces"),
        counted(report.passes, "pass", "passes")
    );
    let json = ExportJson {
        done: done.clone(),
        notes: Vec::new(),
        folder,
        clients: report.clients,
        jobs: report.jobs,
        pieces: report.pieces,
        passes: report.passes,
        log_lines: report.events,
    };
    Answer::done(vec![done], json)
}
