//! Moves pieces along, and back.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree move 1A 1B\n\nA stage of which the schedule asks nothing is passed through. A piece that may not move yet is\nrefused with every reason, face by face, and none of the pieces moves; nothing switches that off.";
/// Examples.
pub const BACK_MORE: &str = "Example:\n  tackfree back 1A";

/// What was typed.
#[derive(Debug, Args)]
pub struct MoveArgs {
    /// The pieces.
    #[arg(required = true)]
    pub pieces: Vec<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct BackArgs {
    /// The piece.
    pub piece: String,
}

/// Moves along.
pub fn run(args: &MoveArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let pieces = find::piece_ids(&session.shop()?, &args.pieces)?;
    session.perform(&Action::MoveAlong(pieces))
}

/// Moves back.
pub fn back(args: &BackArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let piece = find::piece(&session.shop()?, &args.piece)?.piece.id;
    session.perform(&Action::MoveBack(piece))
}
