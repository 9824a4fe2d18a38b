//! Sample boards.

use super::{act, client_name, date, signature};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::{MoneyAction, SampleDraft, Shop, Which};
use crate::shop::{Job, Sample};
use clap::Args;

/// Examples.
pub const SAMPLE_MORE: &str = "Examples:\n  tackfree sampleboard 1 \"hard maple, 150 end grit, gel stain, 2 topcoats\" --light \"north window\" --twin \"drawer 3\"\n  tackfree sampleboard 1 --no 1 --approve --by \"Ada Quill\"";

/// What was typed.
#[derive(Debug, Args)]
pub struct SampleArgs {
    /// The job.
    pub job: String,
    /// What it carries: wood, end grit, products, coats.
    #[arg(required_unless_present = "no")]
    pub carries: Option<String>,
    /// Changes or approves this board.
    #[arg(long, value_name = "NUMBER")]
    pub no: Option<u32>,
    /// When it was made: today unless said.
    #[arg(long, value_name = "DATE")]
    pub made: Option<String>,
    /// The light it was looked at in.
    #[arg(long)]
    pub light: Option<String>,
    /// Where its twin is kept.
    #[arg(long, value_name = "PLACE")]
    pub twin: Option<String>,
    /// It was approved.
    #[arg(long, requires = "no", conflicts_with_all = ["carries", "made", "light", "twin"])]
    pub approve: bool,
    /// By whom: the client unless said.
    #[arg(long, value_name = "NAME", requires = "approve")]
    pub by: Option<String>,
    /// When: today unless said.
    #[arg(long, value_name = "DATE", requires = "approve")]
    pub on: Option<String>,
}

/// The sample board of a number.
pub(super) fn sample_no<'s>(shop: &'s Shop, job: &Job, no: u32) -> Result<&'s Sample, Failure> {
    let found = shop.money.samples(job.id).find(|of| of.no == no);
    found.ok_or_else(|| {
        let words = format!(
            "Job {} has no sample board {no}: tackfree deal {0} lists them.",
            job.no
        );
        Failure::said(words)
    })
}

/// A sample board.
pub fn sample(args: &SampleArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let job = find::job(&shop, &args.job)?;
    let before = args.no.map(|no| sample_no(&shop, job, no)).transpose()?;
    if let (Some(before), true) = (before, args.approve) {
        let client = client_name(&shop, job);
        let signed = signature(args.by.as_ref(), args.on.as_deref(), &client, today)?;
        return act(session, MoneyAction::ApproveSample(before.id, signed));
    }
    let text = |typed: &Option<String>, was: fn(&Sample) -> &String| {
        let kept = before.map(|before| was(before).clone());
        typed.clone().or(kept).unwrap_or_default()
    };
    let made = date("made", args.made.as_deref(), today)?;
    let draft = SampleDraft {
        job: job.id,
        made: made.or(before.map(|of| of.made)).unwrap_or(today),
        carries: text(&args.carries, |of| &of.carries),
        light: text(&args.light, |of| &of.light),
        twin: text(&args.twin, |of| &of.twin),
    };
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    act(session, MoneyAction::SaveSample(which, draft))
}
