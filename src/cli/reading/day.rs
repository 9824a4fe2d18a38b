//! A day's end: what it leaves to be done, what is done of it, whether it is closed.

use super::moment;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::day_paper;
use crate::shop::DayState;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree day\n  tackfree day --day yesterday\n\nWhat is listed follows from the passes, wipes, scuffs and sanding logged on that day. With --json:\nday, state (nothing, open, open-again, closed), closed_at, reason, rags_left_open (the\nnewest day before it whose oily rags are not logged, or null), chores [chore, done, at, how, of,\nlast, to_do, source]; times RFC 3339 or null.";

/// What was typed.
#[derive(Debug, Args)]
pub struct DayArgs {
    /// The day: today unless said; "yesterday", "mon", "2026-11-20".
    #[arg(long, value_name = "DATE")]
    pub day: Option<String>,
}

#[derive(Serialize)]
struct DayJson {
    day: String,
    state: &'static str,
    closed_at: Option<String>,
    reason: Option<String>,
    rags_left_open: Option<String>,
    chores: Vec<ChoreJson>,
}

#[derive(Serialize)]
struct ChoreJson {
    chore: &'static str,
    done: bool,
    at: Option<String>,
    how: Option<&'static str>,
    of: String,
    last: String,
    to_do: &'static str,
    source: &'static str,
}

/// Reads it.
pub fn run(args: &DayArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let day = session.day(args.day.as_deref(), &shop)?;
    let end = shop.day_end(day);
    let chores = end
        .calls
        .iter()
        .map(|call| ChoreJson {
            chore: call.chore.code(),
            done: call.is_done(),
            at: call.ticked.map(|done| moment(done.at)),
            how: call
                .ticked
                .and_then(|done| done.way)
                .map(crate::shop::RagWay::code),
            of: shop.causes_words(call),
            last: moment(call.last),
            to_do: call.chore.caution().line,
            source: call.chore.caution().source,
        })
        .collect();
    let json = DayJson {
        day: day.to_string(),
        state: match end.state() {
            DayState::Nothing => "nothing",
            DayState::Open => "open",
            DayState::OpenAgain => "open-again",
            DayState::Closed => "closed",
        },
        closed_at: end.closed.as_ref().map(|closed| moment(closed.at)),
        reason: end.closed.as_ref().and_then(|closed| closed.reason.clone()),
        rags_left_open: shop.rags_left(day).map(|left| left.day.to_string()),
        chores,
    };
    Answer::new(day_paper(&end, &shop, session.now), json)
}
