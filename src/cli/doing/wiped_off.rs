//! Logs that stain was wiped off.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree wiped-off 1A --at \"5 min ago\"\n\nThe stain dries from then on. Without --faces: every face whose stain waits.";

/// What was typed.
#[derive(Debug, Args)]
pub struct WipedOffArgs {
    /// The pieces.
    #[arg(required = true)]
    pub pieces: Vec<String>,
    /// The faces; those whose stain waits unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// Does it.
pub fn run(args: &WipedOffArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let picks = find::picks(&shop, &args.pieces, args.faces.as_deref())?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::WipeOff { picks, at })
}
