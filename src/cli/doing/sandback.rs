//! Sands faces back.

use super::tick::grit;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree sandback 1A 120 --faces top --reason \"run by the sink\"\n\nThe faces then stand at that grit: their finer grits, wipe-down and coats are to do again, and the\npiece goes back to sanding. What the other faces carry stays, and the record keeps both.";

/// What was typed.
#[derive(Debug, Args)]
pub struct SandbackArgs {
    /// The piece.
    pub piece: String,
    /// The grit the faces now stand at.
    #[arg(allow_hyphen_values = true)]
    pub grit: String,
    /// The faces.
    #[arg(long)]
    pub faces: String,
    /// Why: a run, a scratch, a holiday.
    #[arg(long)]
    pub reason: String,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// Does it.
pub fn run(args: &SandbackArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let to = grit(&args.grit)?;
    let faces = find::faces(file, Some(&args.faces))?.ok_or_else(|| {
        Failure::said("Say which faces are sanded back: --faces top, or --faces all.")
    })?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    let reason = args.reason.clone();
    session.perform(&Action::SandBack {
        piece: file.piece.id,
        faces,
        to,
        reason,
        at,
    })
}
