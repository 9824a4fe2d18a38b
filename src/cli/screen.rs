//! Without a verb: the screen.

use super::args::Args;
use super::failure::Failure;
use super::setup::{Opened, Surroundings};
use crate::store::os;
use crate::tui::run::{Outside, RunError};

/// Whether the screen can be opened here.
pub fn fits(args: &Args, around: &Surroundings) -> Result<(), Failure> {
    if args.json {
        let words = "--json goes with a verb, for example: tackfree ready --json";
        return Err(Failure::Usage(vec![words.to_owned()]));
    }
    if !around.on_terminal {
        return Err(Failure::Usage(vec![
            "The screen needs a terminal, and this is none. These work without one:".to_owned(),
            "  tackfree ready     which pieces are ready and what each waits for".to_owned(),
            "  tackfree rack      what is drying".to_owned(),
            "  tackfree tally     what was used".to_owned(),
            "  tackfree help      all verbs".to_owned(),
        ]));
    }
    Ok(())
}

/// Runs the screen until the person leaves.
pub fn run(opened: &mut Opened, around: &Surroundings) -> Result<(), Failure> {
    let mut outside = Outside {
        books: &mut opened.store,
        now: around.now.as_ref(),
        mint: &mut opened.mint,
        zone: around.zone,
        no_color: around.no_color,
        background: around.background.clone(),
        ascii: around.ascii,
    };
    crate::tui::run::run(&mut outside).map_err(|error| match error {
        RunError::Books(error) => Failure::from(error),
        RunError::Terminal(error) => Failure::said(format!(
            "The terminal cannot be used: {}. What was confirmed is saved; open it again in a \
             terminal window.",
            os::words(&error)
        )),
    })
}
