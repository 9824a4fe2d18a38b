//! Ticks a chore of a day's end, or takes the tick back.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::{read_chore, read_rag_way};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree chore oily-rags --how flat\n  tackfree chore oily-rags --how can --at \"20 min ago\"\n  tackfree chore finish-dust --day yesterday\n  tackfree chore oily-rags --untick\n\nThe chores: oily-rags (--how flat: laid flat outdoors; --how can: in a lidded metal can of water),\nsolvent-rags, lacquer-waste, finish-dust, wood-dust. tackfree day lists those the day calls for.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ChoreArgs {
    /// The chore.
    pub chore: String,
    /// How oily rags were made safe: flat, or can.
    #[arg(long, value_name = "WAY")]
    pub how: Option<String>,
    /// The day whose chore it is: today unless said.
    #[arg(long, value_name = "DATE")]
    pub day: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Takes the tick back: it was a mistake.
    #[arg(long, conflicts_with_all = ["how", "at"])]
    pub untick: bool,
}

/// Does it.
pub fn run(args: &ChoreArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let chore = read_chore(&args.chore)?;
    let day = session.day(args.day.as_deref(), &shop)?;
    if args.untick {
        return session.perform(&Action::UntickChore { day, chore });
    }
    let way = args.how.as_deref().map(read_rag_way).transpose()?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::TickChore {
        day,
        chore,
        way,
        at,
    })
}
