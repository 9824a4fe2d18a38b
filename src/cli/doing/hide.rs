//! Declares a face not exposed, and withdraws that.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree hide 1A back --reason \"glued to the backsplash\"\n\nThe face then needs no coats; the reason stays on the ticket and the finish record.";
/// Examples.
pub const SHOW_MORE: &str =
    "Example:\n  tackfree show 1A back\n\nThe piece goes back to sanding, where the face begins.";

/// What was typed.
#[derive(Debug, Args)]
pub struct HideArgs {
    /// The piece.
    pub piece: String,
    /// The face.
    pub face: String,
    /// Why it will be hidden.
    #[arg(long)]
    pub reason: String,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct ShowArgs {
    /// The piece.
    pub piece: String,
    /// The face.
    pub face: String,
}

/// Declares it.
pub fn run(args: &HideArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let face = find::face(file, &args.face)?;
    let reason = args.reason.clone();
    session.perform(&Action::DeclareHidden {
        piece: file.piece.id,
        face,
        reason,
    })
}

/// Withdraws it.
pub fn show(args: &ShowArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let face = find::face(file, &args.face)?;
    session.perform(&Action::WithdrawHidden {
        piece: file.piece.id,
        face,
    })
}
