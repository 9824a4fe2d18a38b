//! The commands: the same actions as on the screen, for scripts and for the printer.
//!
//! Lives here: the arguments, one file a verb, what each prints and its JSON. May not live here:
//! rules of the trade, SQL, a reading of the clock or the environment: both are handed in. What
//! is to be done goes to the desk as an action, so that no command gets past a gate that a key
//! would not.

mod answer;
mod args;
mod args_days;
mod args_layout;
mod args_money;
mod args_use;
mod doing;
mod failure;
mod find;
mod money;
mod reading;
mod screen;
mod session;
mod setup;

pub use args::{Args, Verb, read_args};
pub use failure::{Failure, exit};
pub use setup::{Surroundings, read_now};

use session::Session;
use std::io::{self, Write};

/// Runs what the arguments ask for and writes its answer to `out`.
///
/// # Errors
/// [`Failure`]: what the person can put right in words, or something unexpected.
pub fn run(args: &Args, around: &Surroundings, out: &mut dyn Write) -> Result<(), Failure> {
    let Some(verb) = &args.verb else {
        screen::fits(args, around)?;
        let mut opened = setup::open(args, around)?;
        return screen::run(&mut opened, around);
    };
    let mut opened = setup::open(args, around)?;
    let answer = verb.run(&mut Session::new(&mut opened, around))?;
    let text = answer.written(args.json);
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        // Whoever read along has seen enough; what was done is done.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other.map_err(|error| answer.untold(&error)),
    }
}
