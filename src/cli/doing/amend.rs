//! Corrects how much a pass used.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::read_amount;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree amend last --used \"5 oz\"\n  tackfree amend 4f9c21 --used \"1042 g > 884 g\"\n\nThe code of a pass stands in the log of the ticket. --used estimate goes back to area and spread rate.";

/// What was typed.
#[derive(Debug, Args)]
pub struct AmendArgs {
    /// The pass: last, or its code.
    pub pass: String,
    /// How much it used.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub used: String,
}

/// Does it.
pub fn run(args: &AmendArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let pass = find::pass(&shop, &args.pass)?.id;
    let amount = read_amount(&args.used, &shop.settings)?;
    session.perform(&Action::CorrectPass { pass, amount })
}
