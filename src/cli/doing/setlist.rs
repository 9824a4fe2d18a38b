//! Ticks a line of the set list.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::pick;
use crate::shop::SetItem;
use clap::Args;

/// Examples.
pub const MORE: &str = "Example:\n  tackfree setlist 1A dry-fit\n\nLines: dry-fit, field-cuts, masked, sealant, clips, slots, care-sheet.";

/// What was typed.
#[derive(Debug, Args)]
pub struct SetlistArgs {
    /// The piece.
    pub piece: String,
    /// The line.
    pub item: String,
    /// Takes the tick off again.
    #[arg(long)]
    pub off: bool,
}

/// Does it.
pub fn run(args: &SetlistArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let piece = find::piece(&session.shop()?, &args.piece)?.piece.id;
    let items: Vec<(SetItem, String)> = SetItem::ALL
        .into_iter()
        .map(|item| (item, item.code().to_owned()))
        .collect();
    let item = pick("item", &args.item, &items)?;
    session.perform(&Action::SetList {
        piece,
        item,
        done: !args.off,
    })
}
