//! Steps begun and finished from the day sheet, and the sheet made anew and kept.

use super::pass::{DrawnArgs, drawn};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{read_amount, read_verdict};
use crate::desk::{Action, AmountDraft, ROUNDS, StepEnd, day_sheet, kept_of, with_floor};
use crate::papers::SheetWords;
use crate::shop::day_sheet::changes;
use clap::Args;
use serde::Serialize;
use std::sync::atomic::AtomicBool;

/// Examples.
pub const BEGIN_MORE: &str = "Examples:\n  tackfree begin\n  tackfree begin 3A\n  tackfree begin 3A --at '10 min ago'\n\nBegins the next step of a piece, or without one the first step of the day sheet; a piece is moved\nalong to the stage of that step. tackfree finish logs it. The gates hold as at the bench.";
/// Examples.
pub const FINISH_MORE: &str = "Examples:\n  tackfree finish\n  tackfree finish --at '5 min ago' --amount '4 fl oz'\n  tackfree finish --found 'dry to recoat'\n\nLogs the step under way: the tick, wipe, scuff, touch test or pass with its start and end.\n--drop puts it down instead, with nothing logged.";
/// Examples and fields.
pub const REPLAN_MORE: &str = "Examples:\n  tackfree replan\n\nMakes the day sheet anew from now, says what is otherwise than on the sheet kept before, and keeps\nthe new one: the rest of the day stays in its order unless that costs lateness. With --json: done,\nchanges.";

/// What was typed.
#[derive(Debug, Args)]
pub struct BeginArgs {
    /// The piece, by its ticket number.
    #[arg(value_name = "PIECE")]
    pub piece: Option<String>,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct FinishArgs {
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// How much a coat used: estimated unless said.
    #[arg(long, value_name = "AMOUNT")]
    pub amount: Option<String>,
    /// Which cans, what was lost, how it was put on.
    #[command(flatten)]
    pub drawn: DrawnArgs,
    /// What a touch test found.
    #[arg(long, value_name = "VERDICT")]
    pub found: Option<String>,
    /// Puts it down instead; nothing is logged.
    #[arg(long, conflicts_with_all = ["at", "amount", "found"])]
    pub drop: bool,
}

/// Begins a step.
pub fn begin(args: &BeginArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    let piece = args
        .piece
        .as_deref()
        .map(|text| find::piece(&shop, text))
        .transpose()?;
    let sheet = day_sheet(&shop, session.now, ROUNDS, &AtomicBool::new(false)).sheet;
    let line = match piece {
        Some(file) => sheet
            .lines
            .iter()
            .find(|line| line.key.piece == file.piece.id),
        None => sheet.lines.first(),
    };
    let Some(line) = line else {
        return Err(Failure::said(
            "There is no step to begin: tackfree daysheet says what each piece waits for.",
        ));
    };
    session.perform(&Action::StartStep { key: line.key, at })
}

/// Finishes the step under way.
pub fn finish(args: &FinishArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    if args.drop {
        return session.perform(&Action::DropStep);
    }
    let shop = session.shop()?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    let amount = match &args.amount {
        Some(text) => read_amount(text, &shop.settings)?,
        None => AmountDraft::Estimate,
    };
    let verdict = args.found.as_deref().map(read_verdict).transpose()?;
    let end = StepEnd {
        at,
        amount,
        drawn: drawn(&args.drawn, &shop)?,
        verdict,
    };
    session
        .perform(&Action::FinishStep(end))
        .map_err(Failure::named_sure)
}

#[derive(Serialize)]
struct ReplanJson {
    done: String,
    changes: Vec<String>,
}

/// Makes the sheet anew and keeps it.
pub fn replan(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let sheet = day_sheet(&shop, session.now, ROUNDS, &AtomicBool::new(false)).sheet;
    let words = SheetWords {
        shop: &shop,
        now: session.now,
    };
    let changed: Vec<String> = match &shop.plan.kept {
        None => Vec::new(),
        Some(kept) => with_floor(&shop, session.now, |floor| changes(floor, kept, &sheet))
            .into_iter()
            .map(|changed| words.changed(changed))
            .collect(),
    };
    let kept = kept_of(&sheet, shop.settings.zone);
    let said = session.performed(&Action::KeepSheet(Box::new(kept)))?;
    let mut lines = vec![said.clone()];
    lines.extend(changed.iter().map(|line| format!("Changed: {line}")));
    if changed.is_empty() && shop.plan.kept.is_some() {
        lines.push("Nothing changed against the sheet kept before.".to_owned());
    }
    Answer::done(
        lines,
        ReplanJson {
            done: said,
            changes: changed,
        },
    )
}
