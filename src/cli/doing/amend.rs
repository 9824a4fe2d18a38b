//! Corrects how much a pass used, and from where.

use super::pass::{lost, picked};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{read_amount, read_method};
use crate::desk::{Action, AmountDraft, CanPick, CanTake, DrawnDraft, TakeAmount};
use crate::shop::{AmountBasis, Pass};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree amend last --used \"5 oz\"\n  tackfree amend 4f9c21 --used \"1042 g > 884 g\"\n  tackfree amend last --can 7 --lost \"6 g\"\n\nThe code of a pass stands in the log of the ticket. --used estimate goes back to area and spread rate.\nWhat is not said stays as it is. What is doubtful is asked; --sure says yes.";

/// What was typed.
#[derive(Debug, Args)]
pub struct AmendArgs {
    /// The pass: last, or its code.
    pub pass: String,
    /// How much it used.
    #[arg(
        long,
        value_name = "AMOUNT",
        allow_hyphen_values = true,
        required_unless_present_any = ["can", "no_can", "lost", "method"]
    )]
    pub used: Option<String>,
    /// The can it came from, with how much where it came from several: 7, "7: 1042 g > 884 g".
    #[arg(long, value_name = "CAN", conflicts_with = "no_can")]
    pub can: Vec<String>,
    /// Names no can.
    #[arg(long)]
    pub no_can: bool,
    /// What stayed in rag and tray, weighed at once: "6 g"; "0 g" takes it back.
    #[arg(long, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub lost: Option<String>,
    /// How it was put on: wiped, brushed or sprayed.
    #[arg(long)]
    pub method: Option<String>,
    /// Says yes to what was asked.
    #[arg(long)]
    pub sure: bool,
}

/// The amount as it stands.
fn as_it_stands(pass: &Pass) -> AmountDraft {
    match pass.amount.basis {
        AmountBasis::Estimated => AmountDraft::Estimate,
        AmountBasis::Measured => AmountDraft::Volume(pass.amount.volume),
        AmountBasis::Weighed { before, after } => AmountDraft::Weighed { before, after },
    }
}

/// The cans as they stand, each with what came from it.
fn cans_as_they_stand(pass: &Pass) -> CanPick {
    let [_, _, ..] = pass.drawn.draws.as_slice() else {
        return DrawnDraft::of(pass).cans;
    };
    let draws = pass.drawn.draws.iter();
    let takes = draws.map(|draw| CanTake {
        can: draw.can,
        amount: Some(match draw.weights {
            None => TakeAmount::Volume(draw.volume),
            Some(weights) => TakeAmount::Weighed {
                before: Some(weights.before),
                after: weights.after,
            },
        }),
    });
    CanPick::These(takes.collect())
}

/// Does it.
pub fn run(args: &AmendArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let pass = find::pass(&shop, &args.pass)?;
    let mut drawn = DrawnDraft::of(pass);
    drawn.sure = args.sure;
    if args.lost.is_some() {
        drawn.lost = lost(args.lost.as_deref())?;
    }
    if let Some(method) = &args.method {
        drawn.method = read_method(method)?;
    }
    let picked = picked(&args.can, args.no_can, &shop)?;
    let by_can = |pick: &CanPick| matches!(pick, CanPick::These(takes) if takes.iter().any(|take| take.amount.is_some()));
    let amount = match (&args.used, picked) {
        (Some(used), picked) => {
            drawn.cans = picked.unwrap_or(drawn.cans);
            read_amount(used, &shop.settings)?
        }
        (None, Some(picked)) => {
            let amount = if by_can(&picked) {
                AmountDraft::Estimate
            } else {
                as_it_stands(pass)
            };
            drawn.cans = picked;
            amount
        }
        (None, None) => {
            drawn.cans = cans_as_they_stand(pass);
            if by_can(&drawn.cans) {
                AmountDraft::Estimate
            } else {
                as_it_stands(pass)
            }
        }
    };
    let action = Action::CorrectPassUse {
        pass: pass.id,
        amount,
        drawn,
    };
    session.perform(&action).map_err(Failure::named_sure)
}
