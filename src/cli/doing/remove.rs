//! Removes what nothing hangs on.

use super::{moisture, own_wood};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::money::remove::{self, MoneyThing};
use crate::cli::session::Session;
use crate::desk::{Action, MoneyAction};
use clap::{Args, ValueEnum};

/// Examples.
pub const MORE: &str = "Example:\n  tackfree remove piece 3B\n\nWork on record is never removed; undo takes back the newest action.";

/// What can be removed.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum Removable {
    /// A client without jobs.
    Client,
    /// A job without pieces.
    Job,
    /// A piece on which nothing was logged.
    Piece,
    /// A recipe no piece follows.
    Recipe,
    /// A moisture reading, by its code.
    Reading,
    /// A wood of your own that no piece is of.
    Wood,
    /// An estimate given: JOB/NUMBER.
    Estimate,
    /// The agreement of a job.
    Agreement,
    /// A change order that is not signed: JOB/NUMBER.
    Change,
    /// A sample board: JOB/NUMBER.
    Sampleboard,
    /// An invoice nothing was paid on, by its number.
    Invoice,
    /// A payment, by its receipt's number.
    Payment,
    /// An entry of the hours log, by its code.
    Hours,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct RemoveArgs {
    /// What it is.
    pub what: Removable,
    /// Which one.
    pub which: String,
}

/// Does it.
pub fn run(args: &RemoveArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let text = &args.which;
    let money = |what| -> Result<Action, Failure> {
        let key = remove::key(what, text, &shop, session)?;
        Ok(Action::Money(Box::new(MoneyAction::Remove(key))))
    };
    let action = match args.what {
        Removable::Estimate => money(MoneyThing::Estimate)?,
        Removable::Agreement => money(MoneyThing::Agreement)?,
        Removable::Change => money(MoneyThing::Change)?,
        Removable::Sampleboard => money(MoneyThing::Sampleboard)?,
        Removable::Invoice => money(MoneyThing::Invoice)?,
        Removable::Payment => money(MoneyThing::Payment)?,
        Removable::Hours => money(MoneyThing::Hours)?,
        Removable::Client => Action::RemoveClient(find::client(&shop, text)?.id),
        Removable::Job => Action::RemoveJob(find::job(&shop, text)?.id),
        Removable::Piece => Action::RemovePiece(find::piece(&shop, text)?.piece.id),
        Removable::Recipe => Action::RemoveRecipe(find::recipe(&shop, text)?.id),
        Removable::Reading => Action::RemoveMoisture(moisture::reading(&shop, None, text)?.id),
        Removable::Wood => match own_wood::own(&shop, text) {
            Some(own) => Action::RemoveWood(own.id),
            None => {
                return Err(Failure::said(
                    "There is no wood of your own called that: tackfree woods lists the table.",
                ));
            }
        },
    };
    session.perform(&action)
}
