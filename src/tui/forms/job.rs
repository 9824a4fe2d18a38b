//! The job form.

use super::context::{Context, note};
use crate::desk::typed::{FieldError, JobTyped, echo_lines, echo_promise, read_job};
use crate::desk::{Action, Which};
use crate::shop::{ClientId, Job, JobId};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

fn stored<'a>(which: Which<JobId>, ctx: &Context<'a>) -> Option<&'a Job> {
    match which {
        Which::New => None,
        Which::This(id) => ctx.shop.job(id),
    }
}

pub(super) fn form(which: Which<JobId>, client: Option<ClientId>, ctx: &Context<'_>) -> Form {
    let job = stored(which, ctx);
    let only = match ctx.shop.clients.as_slice() {
        [one] => Some(one.id),
        _ => None,
    };
    let client = job.map(|job| job.client).or(client).or(only);
    let typed = match job {
        Some(job) => JobTyped::of(job, ctx.shop),
        None => JobTyped {
            // Most tops are set where the client lives.
            site: client
                .and_then(|id| ctx.shop.client(id))
                .map_or_else(String::new, |client| client.address.clone()),
            ..JobTyped::default()
        },
    };
    let clients: Vec<Choice> = ctx
        .shop
        .clients
        .iter()
        .map(|client| Choice::new(client.id.to_string(), client.name.clone()))
        .collect();
    let picked = client.map_or_else(String::new, |id| id.to_string());
    let title = job.map_or_else(
        || "New job".to_owned(),
        |job| format!("Job {} {}", job.no, job.title),
    );
    let title_field =
        Field::text("title", "Title", &typed.title).hint("What it is, for example kitchen island.");
    let client_field = Field::choice("client", "Client", clients, &picked);
    // Whose it is needs no key when it is known.
    let first = if client.is_some() && job.is_none() {
        vec![title_field, client_field]
    } else {
        vec![client_field, title_field]
    };
    let rest = vec![
        Field::text("site", "Site address", &typed.site),
        Field::text("promised", "Promised set date", &typed.promised)
            .hint("Dec 5, friday, in 2 weeks; empty if none is promised yet."),
        Field::text("house_built", "House built", &typed.house_built)
            .hint("The year, if known: before 1978 old paint may hold lead."),
        Field::note("notes", "Notes", &typed.notes),
    ];
    Form::new(&title, first.into_iter().chain(rest).collect())
}

pub(super) fn read(
    form: &Form,
    which: Which<JobId>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let job = stored(which, ctx);
    let typed = JobTyped {
        client: form.value("client"),
        title: form.value("title"),
        site: form.value("site"),
        house_built: form.value("house_built"),
        promised: form.value("promised"),
        notes: note(form, "notes", job.map_or("", |job| &job.notes)),
    };
    let draft = read_job(&typed, job, ctx.shop, ctx.today())?;
    Ok(Action::SaveJob(which, draft))
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    vec![
        ("title", echo_lines(form.text("title"))),
        ("promised", echo_promise(form.text("promised"), ctx.today())),
    ]
}
