//! Logs a wipe-down, and that stain was wiped off.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::{Action, FacePick};
use chrono::{DateTime, Utc};
use clap::Args;

/// Examples.
pub const MORE: &str =
    "Example:\n  tackfree wipe 1A 1B\n\nWithout --faces: every face that waits for its wipe-down.";

/// Examples.
pub const OFF_MORE: &str = "Example:\n  tackfree wiped-off 1A --at \"5 min ago\"\n\nThe stain dries from then on. Without --faces: every face whose stain waits.";

/// What was typed, of either.
#[derive(Debug, Args)]
pub struct WipeArgs {
    /// The pieces.
    #[arg(required = true)]
    pub pieces: Vec<String>,
    /// The faces; those that wait unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

impl WipeArgs {
    fn read(&self, session: &Session<'_>) -> Result<(Vec<FacePick>, DateTime<Utc>), Failure> {
        let shop = session.shop()?;
        let picks = find::picks(&shop, &self.pieces, self.faces.as_deref())?;
        Ok((picks, session.when("at", self.at.as_deref(), &shop)?))
    }
}

/// Logs a wipe-down.
pub fn run(args: &WipeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let (picks, at) = args.read(session)?;
    session.perform(&Action::Wipe { picks, at })
}

/// Logs that stain was wiped off.
pub fn off(args: &WipeArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let (picks, at) = args.read(session)?;
    session.perform(&Action::WipeOff { picks, at })
}
