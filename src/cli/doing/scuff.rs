//! Logs a scuff.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::read_scuff;
use crate::shop::{PieceFile, ScuffMeans};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree scuff 1A\n  tackfree scuff 1A 1B --with 320\n\nWithout --with: as the schedule says. Plain brown paper keys the film without cutting the sheen; a\nmissed window wants fine paper or a pad. Without --faces: those next in line for a coat.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ScuffArgs {
    /// The pieces.
    #[arg(required = true)]
    pub pieces: Vec<String>,
    /// With what: a grit like 320, pad or "brown paper".
    #[arg(long, value_name = "MEANS", allow_hyphen_values = true)]
    pub with: Option<String>,
    /// The faces; those next in line unless said.
    #[arg(long)]
    pub faces: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What the schedules of these pieces say, if they say the same.
fn by_schedule(files: &[&PieceFile]) -> Option<ScuffMeans> {
    let mut means = files.iter().map(|file| file.schedule.scuff);
    let first = means.next()??;
    means.all(|other| other == Some(first)).then_some(first)
}

/// Does it.
pub fn run(args: &ScuffArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let means = match &args.with {
        Some(text) => read_scuff(text).map_err(|error| error.at("with"))?,
        None => by_schedule(&find::pieces(&shop, &args.pieces)?),
    };
    let means = means.ok_or_else(|| {
        Failure::said(
            "What was it scuffed with? Say --with 320, --with pad or --with \"brown paper\".",
        )
    })?;
    let picks = find::picks(&shop, &args.pieces, args.faces.as_deref())?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::Scuff { picks, means, at })
}
