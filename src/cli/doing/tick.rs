//! Ticks a grit, and takes a tick back.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Action;
use crate::desk::typed::read_grits;
use crate::shop::Grit;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree tick 1A 80 --faces all\n  tackfree tick 1A 120 --faces \"top, front, left end\" --at \"10 min ago\"\n\nall is every face that the schedule asks this grit of and that does not carry it yet. Faces go by\ntheir names or codes (top, band, field, front, back, left, right, rim, cutout-1, hole-1), or several\nat once: edges, ends, walls, underside.";
/// Examples.
pub const UNTICK_MORE: &str = "Example:\n  tackfree untick 1A 120 --face top";

/// What was typed.
#[derive(Debug, Args)]
pub struct TickArgs {
    /// The piece.
    pub piece: String,
    /// The grit, by the number on the paper.
    #[arg(allow_hyphen_values = true)]
    pub grit: String,
    /// The faces looked at.
    #[arg(long)]
    pub faces: String,
    /// When: now unless said; "10 min ago", "7:30 am", "mon 7:30 am".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct UntickArgs {
    /// The piece.
    pub piece: String,
    /// The grit, by the number on the paper.
    #[arg(allow_hyphen_values = true)]
    pub grit: String,
    /// The face.
    #[arg(long)]
    pub face: String,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// One grit.
pub(super) fn grit(text: &str) -> Result<Grit, Failure> {
    let grits = read_grits(text).map_err(|error| Failure::said(error.message))?;
    match grits.as_slice() {
        [one] => Ok(*one),
        _ => Err(Failure::said(
            "One grit at a time: say the number on the paper, like 120.",
        )),
    }
}

/// Ticks.
pub fn run(args: &TickArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let grit = grit(&args.grit)?;
    let faces = find::faces_for_grit(file, grit, &args.faces)?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::Tick {
        piece: file.piece.id,
        faces,
        grit,
        at,
    })
}

/// Takes a tick back.
pub fn untick(args: &UntickArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let (grit, face) = (grit(&args.grit)?, find::face(file, &args.face)?);
    let at = session.when("at", args.at.as_deref(), &shop)?;
    session.perform(&Action::Untick {
        piece: file.piece.id,
        face,
        grit,
        at,
    })
}
