//! Undoes and does again.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Action;

/// Examples.
pub const MORE: &str =
    "Example:\n  tackfree undo\n\nAgain for the one before it. The journal keeps both.";
/// Examples.
pub const REDO_MORE: &str = "Example:\n  tackfree redo";

/// Undoes.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    session.perform(&Action::Undo)
}

/// Does again.
pub fn redo(session: &mut Session<'_>) -> Result<Answer, Failure> {
    session.perform(&Action::Redo)
}
