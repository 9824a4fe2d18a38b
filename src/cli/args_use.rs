//! Verbs, with their help: cans, use, rates and what to buy.

use super::answer::Answer;
use super::doing::{allow, can, mix, offer, strike};
use super::failure::Failure;
use super::reading::{buy, cans, compare, rates, tally};
use super::session::Session;
use clap::Subcommand;

/// Cans, use, rates and what to buy.
#[derive(Debug, Subcommand)]
pub enum UseVerb {
    /// Lists the cans on the shelf: what is left and how that is known, batch, age, place; or one with
    /// its log.
    #[command(after_help = cans::MORE)]
    Cans(cans::CansArgs),
    /// Logs what happened to cans: received, opened, weighed, mixed, a jar poured off, thrown away.
    #[command(after_help = can::MORE)]
    Can(Box<can::CanArgs>),
    /// Tells what was used, what was planned and what it cost, for a job or in all.
    #[command(after_help = tally::MORE)]
    Tally(tally::TallyArgs),
    /// Tells your own spread rates beside the labels', with the passes that stand behind them.
    #[command(after_help = rates::MORE)]
    Rates(rates::RatesArgs),
    /// Strikes a pass out of the spread rates, or takes it back.
    #[command(after_help = strike::MORE)]
    Strike(strike::StrikeArgs),
    /// Plans what to buy for the jobs to come: the cheapest cans, one batch of stain a job.
    #[command(after_help = buy::MORE)]
    Buy(buy::BuyArgs),
    /// Lists the can sizes on offer, adds one or takes one away.
    #[command(after_help = offer::MORE)]
    Offer(offer::OfferArgs),
    /// Notes how the shop mixes a product, or measures a mix out.
    #[command(after_help = mix::MORE)]
    Mix(mix::MixArgs),
    /// Shows or sets what planning of use allows for: reserve, loss, bare wood, scale and cup.
    #[command(after_help = allow::MORE)]
    Allow(allow::AllowArgs),
    /// Tells how the finish of a piece differs from that of another, or of its sample.
    #[command(after_help = compare::MORE)]
    Compare(compare::CompareArgs),
}

impl UseVerb {
    /// Does it.
    pub(super) fn run(&self, session: &mut Session<'_>) -> Result<Answer, Failure> {
        match self {
            Self::Cans(args) => cans::run(args, session),
            Self::Can(args) => can::run(args, session),
            Self::Tally(args) => tally::run(args, session),
            Self::Rates(args) => rates::run(args, session),
            Self::Strike(args) => strike::run(args, session),
            Self::Buy(args) => buy::run(args, session),
            Self::Offer(args) => offer::run(args, session),
            Self::Mix(args) => mix::run(args, session),
            Self::Allow(args) => allow::run(args, session),
            Self::Compare(args) => compare::run(args, session),
        }
    }
}
