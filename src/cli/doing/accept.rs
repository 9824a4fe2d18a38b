//! Takes a layout finding as it is, with the reason, and opens it again.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::{Action, Shop};
use crate::shape::layout::{About, Finding, Rule};
use crate::shop::PieceFile;
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree accept 1A 2 --reason \"the client asks it, propped below\"\n  tackfree accept 1A strip-front:cutout-1 --reason \"sink sheet asks 1 1/2 in\"\n\nThe number is the one tackfree findings tells. The reason stays on the ticket; should more be missing\nlater, the finding is open again.";
/// Examples.
pub const REOPEN_MORE: &str =
    "Example:\n  tackfree reopen 1A strip-front:cutout-1\n\nThe finding is a warning again.";

/// What was typed.
#[derive(Debug, Args)]
pub struct AcceptArgs {
    /// The piece.
    pub piece: String,
    /// The finding: its number, or its check, a colon and what it is about.
    pub finding: String,
    /// Why it may stay as it is.
    #[arg(long)]
    pub reason: String,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct ReopenArgs {
    /// The piece.
    pub piece: String,
    /// The finding: its number, or its check, a colon and what it is about.
    pub finding: String,
}

/// Takes it.
pub fn run(args: &AcceptArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let (rule, about) = meant(&shop, file, &args.finding)?;
    session.perform(&Action::AcceptFinding {
        piece: file.piece.id,
        rule,
        about,
        reason: args.reason.clone(),
    })
}

/// Opens it again.
pub fn reopen(args: &ReopenArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let file = find::piece(&shop, &args.piece)?;
    let (rule, about) = meant(&shop, file, &args.finding)?;
    session.perform(&Action::WithdrawAccepted {
        piece: file.piece.id,
        rule,
        about,
    })
}

fn meant(shop: &Shop, file: &PieceFile, text: &str) -> Result<(Rule, About), Failure> {
    let found = shop.findings(file);
    let by_number = |no: usize| {
        let finding: Option<&Finding> = no.checked_sub(1).and_then(|at| found.get(at));
        finding.map(|finding| (finding.rule, finding.about.clone()))
    };
    let named = || {
        let (rule, about) = text.trim().split_once(':')?;
        Some((Rule::of_word(rule)?, About(about.to_owned())))
    };
    let meant = match text.trim().parse::<usize>() {
        Ok(no) => by_number(no),
        Err(_) => named(),
    };
    meant.ok_or_else(|| {
        Failure::said(format!(
            "\"{}\" is no finding of this piece: tackfree findings tells their numbers.",
            crate::units::clean_line(text).0
        ))
    })
}
