//! Closes a day.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Action;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree close\n  tackfree close --day yesterday --reason \"brushed on, no rags used\"\n\nWhile oily rags of that day are not logged as laid flat outdoors or in a lidded metal can of water,\nthe day closes only with a reason of two words or more, which stays in the log (exit code 3 until\nthen). Oily rags of a day before it that is still open hold it too: see to that day first.";

/// What was typed.
#[derive(Debug, Args)]
pub struct CloseArgs {
    /// The day: today unless said.
    #[arg(long, value_name = "DATE")]
    pub day: Option<String>,
    /// Why, although oily rags are not logged.
    #[arg(long)]
    pub reason: Option<String>,
}

/// Does it.
pub fn run(args: &CloseArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let day = session.day(args.day.as_deref(), &shop)?;
    session.perform(&Action::CloseDay {
        day,
        reason: args.reason.clone(),
    })
}
