//! Verbs, with their help: order of work and promises.

use super::answer::Answer;
use super::doing::{hours, promise, steps};
use super::failure::Failure;
use super::reading::daysheet;
use super::session::Session;
use clap::Subcommand;

/// Order of work and promises.
#[derive(Debug, Subcommand)]
pub enum DaysVerb {
    /// Tells what to do when today and the next days, why, and which job will be late.
    #[command(after_help = daysheet::MORE)]
    Daysheet(daysheet::DaysheetArgs),
    /// Makes the day sheet anew from now, tells what changed, and keeps its order for the day.
    #[command(after_help = steps::REPLAN_MORE)]
    Replan,
    /// Begins a step of the day sheet.
    #[command(after_help = steps::BEGIN_MORE)]
    Begin(steps::BeginArgs),
    /// Finishes the step under way and logs it.
    #[command(after_help = steps::FINISH_MORE)]
    Finish(steps::FinishArgs),
    /// Shows or changes the bench hours, rack places, and what else days are planned by.
    #[command(after_help = hours::MORE)]
    Hours(Box<hours::HoursArgs>),
    /// Shows or changes how long steps take.
    #[command(after_help = hours::TIMES_MORE)]
    Steptimes(hours::SteptimesArgs),
    /// Notes time taken by other work, a day off, or bench hours added; lists or removes them.
    #[command(after_help = hours::SLOT_MORE)]
    Slot(hours::SlotArgs),
    /// Tells when a job can be set, as odds; promises a date; tells how promises were kept.
    #[command(after_help = promise::MORE)]
    Promise(promise::PromiseArgs),
}

impl DaysVerb {
    /// Does it.
    pub(super) fn run(&self, session: &mut Session<'_>) -> Result<Answer, Failure> {
        match self {
            Self::Daysheet(args) => daysheet::run(args, session),
            Self::Replan => steps::replan(session),
            Self::Begin(args) => steps::begin(args, session),
            Self::Finish(args) => steps::finish(args, session),
            Self::Hours(args) => hours::run(args, session),
            Self::Steptimes(args) => hours::steptimes(args, session),
            Self::Slot(args) => hours::slot(args, session),
            Self::Promise(args) => promise::run(args, session),
        }
    }
}
