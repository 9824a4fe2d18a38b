//! Logs a wipe-down.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str =
    "Example:\n  tackfree wipe 1A 1B\n\nWithout --faces: every face that waits for its wipe-down.";

/// What was typed.
#[derive(Debug, Args)]
pub struct WipeArgs {
    /// The pieces.
    #[arg(required = true)]
    pub pieces: Vec<String>,
    /// The faces; those that wait unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// Does it.
pub fn run(args: &WipeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let picks = find::picks(&shop, &args.pieces, args.faces.as_deref())?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::Wipe { picks, at })
}
