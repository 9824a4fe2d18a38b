//! Logs a touch test.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::read_verdict;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree touch 1A dry-to-recoat\n\nVerdicts: still-soft, touch-dry, tack-free, dry-to-recoat (it sands to powder), dry-to-handle (a\nthumb turned under weight moves nothing). Dry to recoat opens the window before the label's hours;\nstill soft holds it shut until tested again. Dry to handle ends the cure before set, though never\nbefore the label's dry to handle.";

/// What was typed.
#[derive(Debug, Args)]
pub struct TouchArgs {
    /// The pieces.
    #[arg(required = true, num_args = 1..)]
    pub pieces: Vec<String>,
    /// What the test found.
    #[arg(required = true)]
    pub verdict: String,
    /// The faces; those with the film of the piece's line on the Rack unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// Does it.
pub fn run(args: &TouchArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let verdict = read_verdict(&args.verdict)?;
    let picks = find::picks(&shop, &args.pieces, args.faces.as_deref())?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::Touch { picks, verdict, at })
}
