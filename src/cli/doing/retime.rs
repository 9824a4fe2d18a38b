//! Corrects when something was done.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::shop::{What, together};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree retime 1A last --at \"20 min ago\"\n  tackfree retime 1A 4f9c21 --at 7:30\n  tackfree retime 1A 4f9c21 --start 7:10 --at 7:30\n\nThe code of a line is the one that tackfree log lists. A coat takes its whole pass along, on every\npiece it went on, and the scuff logged with it; without --start the pass keeps its length. Recoat\ntimes, what a piece waits for, the tally and the day's chores follow. A time before the work logged\nahead of it, or after the work logged behind it, is refused.";

/// What was typed.
#[derive(Debug, Args)]
pub struct RetimeArgs {
    /// The piece.
    pub piece: String,
    /// The line of its log: last, or its code.
    pub line: String,
    /// When it was done (of a coat: ended): "20 min ago", "7:30 am", "mon 16:00".
    #[arg(
        long,
        visible_alias = "end",
        value_name = "TIME",
        allow_hyphen_values = true
    )]
    pub at: String,
    /// Of a coat, when its pass started.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub start: Option<String>,
}

/// Does it.
pub fn run(args: &RetimeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let line = find::line(file, &args.line)?;
    let at = session.when("at", Some(&args.at), &shop)?;
    let event = file.events.iter().find(|event| event.id == line);
    let action = match (event.map(|event| &event.what), &args.start) {
        (Some(What::Coat { pass, .. }), Some(start)) => Action::CorrectPassTime {
            pass: *pass,
            started: session.when("start", Some(start), &shop)?,
            ended: at,
        },
        (_, Some(_)) => {
            return Err(Failure::said(
                "--start goes with a coat: any other line has one time.",
            ));
        }
        (_, None) => Action::CorrectTime {
            piece: file.piece.id,
            lines: together(file, line),
            at,
        },
    };
    session.perform(&action)
}
