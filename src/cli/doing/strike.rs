//! Strikes a pass out of the spread rates, or takes it back.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::UseAction;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree strike 4f9c21 --reason \"can set down wrong\"\n  tackfree strike last --reason \"half of it went on the floor\"\n  tackfree strike 4f9c21 --take-back\n\ntackfree rates PRODUCT tells the passes with their codes. What the pass used stays in the tally.";

/// What was typed.
#[derive(Debug, Args)]
pub struct StrikeArgs {
    /// The pass: last, or its code.
    pub pass: String,
    /// Why it is to teach nothing.
    #[arg(long, required_unless_present = "take_back")]
    pub reason: Option<String>,
    /// Takes it back: it teaches again.
    #[arg(long, conflicts_with = "reason")]
    pub take_back: bool,
}

/// Does it.
pub fn run(args: &StrikeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let pass = find::pass(&shop, &args.pass)?.id;
    match &args.reason {
        Some(reason) => session.perform_use(UseAction::StrikePass {
            pass,
            reason: reason.clone(),
        }),
        None => session.perform_use(UseAction::CountPass(pass)),
    }
}
