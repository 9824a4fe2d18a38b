//! What a job slipped by.

use super::all_hours;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::papers::slip_paper;
use clap::Args;
use serde::Serialize;

/// Fields.
pub const SLIP_MORE: &str = "Held against the estimate that was agreed, else the last one given. Work not done yet counts as\nestimated, or as logged where that is more already. With --json: job_no, estimated_minutes,\nactual_minutes, over_minutes, over_cents, percent, cause, steps [step, estimated_minutes,\nactual_minutes, over_minutes, done].";

/// What was typed.
#[derive(Debug, Args)]
pub struct SlipArgs {
    /// The job.
    pub job: String,
}

#[derive(Serialize)]
struct SlipJson {
    job_no: u32,
    estimated_minutes: i64,
    actual_minutes: i64,
    over_minutes: i64,
    over_cents: i64,
    percent: Option<String>,
    cause: Option<&'static str>,
    steps: Vec<SlipStepJson>,
}

#[derive(Serialize)]
struct SlipStepJson {
    step: &'static str,
    estimated_minutes: i64,
    actual_minutes: i64,
    over_minutes: i64,
    done: bool,
}

/// What a job slipped by.
pub fn slip(args: &SlipArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let job = find::job(&shop, &args.job)?;
    let hours = all_hours(session)?;
    let slip = shop.slip(job, &hours, session.now).ok_or_else(|| {
        Failure::said(format!(
            "No estimate was given for job {} yet, so there is nothing to hold hours against: tackfree \
             estimate {0} --give.",
            job.no
        ))
    })?;
    let json = SlipJson {
        job_no: job.no,
        estimated_minutes: slip.estimated,
        actual_minutes: slip.actual,
        over_minutes: slip.over,
        over_cents: slip.dollars.cents(),
        percent: slip.percent.map(|percent| format!("{percent} %")),
        cause: slip.cause.map(|cause| cause.step.word()),
        steps: slip
            .steps
            .iter()
            .map(|step| SlipStepJson {
                step: step.step.word(),
                estimated_minutes: step.estimated,
                actual_minutes: step.actual,
                over_minutes: step.over(),
                done: step.done,
            })
            .collect(),
    };
    Answer::new(slip_paper(job, &slip), json)
}
