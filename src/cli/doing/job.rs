//! Enters or changes a job.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{JobTyped, read_job};
use crate::desk::{Action, Which};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree job \"Ada Quill\" \"basement bar\" --site \"12 Alder Row\" --built 1962 --promised \"dec 12\"\n  tackfree job --change 3 --promised \"in 3 weeks\"";

/// What was typed.
#[derive(Debug, Args)]
pub struct JobArgs {
    /// Whose job it is.
    #[arg(
        value_name = "CLIENT",
        required_unless_present = "change",
        conflicts_with = "change"
    )]
    pub client: Option<String>,
    /// What the job is.
    #[arg(
        value_name = "TITLE",
        required_unless_present = "change",
        conflicts_with = "change"
    )]
    pub title: Option<String>,
    /// Changes this job; what is not given stays.
    #[arg(long, value_name = "JOB")]
    pub change: Option<String>,
    /// The new title, with --change.
    #[arg(long, value_name = "TITLE", requires = "change")]
    pub retitle: Option<String>,
    /// The client it belongs to instead, with --change.
    #[arg(long, value_name = "CLIENT", requires = "change")]
    pub give_to: Option<String>,
    /// Where it will be set.
    #[arg(long, value_name = "ADDRESS")]
    pub site: Option<String>,
    /// Year the house was built; before 1978 the lead caution shows.
    #[arg(long, value_name = "YEAR", allow_hyphen_values = true)]
    pub built: Option<String>,
    /// Promised set date: dec 12, 2026-12-12, friday, in 3 weeks, none.
    #[arg(long, value_name = "DATE", allow_hyphen_values = true)]
    pub promised: Option<String>,
    /// Notes.
    #[arg(long)]
    pub notes: Option<String>,
}

/// Does it.
pub fn run(args: &JobArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let before = match &args.change {
        None => None,
        Some(text) => Some(find::job(&shop, text)?),
    };
    let mut typed = before.map_or_else(JobTyped::default, |job| JobTyped::of(job, &shop));
    put(
        &mut typed.client,
        args.client.as_ref().or(args.give_to.as_ref()),
    );
    put(
        &mut typed.title,
        args.title.as_ref().or(args.retitle.as_ref()),
    );
    put(&mut typed.site, args.site.as_ref());
    put(&mut typed.house_built, args.built.as_ref());
    put(&mut typed.promised, args.promised.as_ref());
    put(&mut typed.notes, args.notes.as_ref());
    // Told by its own sentence, with where to look.
    typed.client = find::client(&shop, &typed.client)?.id.to_string();
    let draft = read_job(&typed, before, &shop, session.today(&shop))?;
    let which = before.map_or(Which::New, |job| Which::This(job.id));
    session.perform(&Action::SaveJob(which, draft))
}
