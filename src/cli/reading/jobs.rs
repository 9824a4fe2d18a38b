//! The jobs.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::units::show_date;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "With --json: jobs [id, no, title, client, client_id, site, house_built (year or null), promised\n(date or null), taken (date), notes, pieces (their ticket numbers), set (how many of them are)].";

#[derive(Serialize)]
struct JobsJson {
    jobs: Vec<JobJson>,
}

#[derive(Serialize)]
struct JobJson {
    id: String,
    no: u32,
    title: String,
    client: String,
    client_id: String,
    site: String,
    house_built: Option<i32>,
    promised: Option<String>,
    taken: String,
    notes: String,
    pieces: Vec<String>,
    set: usize,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let today = session.today(&shop);
    let mut columns = Columns::at_most(&[6, 30, 20]);
    let mut jobs = Vec::new();
    for job in &shop.jobs {
        let files: Vec<_> = shop
            .files
            .iter()
            .filter(|file| file.piece.job == job.id)
            .collect();
        let set = files.iter().filter(|file| file.piece.finished).count();
        let client = shop.client(job.client).map_or("", |client| &client.name);
        let promised = match job.promised {
            Some(date) if date < today && set < files.len() => {
                format!("promised {}, late", show_date(date, today))
            }
            Some(date) => format!("promised {}", show_date(date, today)),
            None => "no promise".to_owned(),
        };
        let pieces = if files.len() == 1 { "piece" } else { "pieces" };
        let words = format!("{promised}; {set} of {} {pieces} set", files.len());
        columns.row([&job.no.to_string(), &job.title, client, &words]);
        jobs.push(JobJson {
            id: job.id.to_string(),
            no: job.no,
            title: job.title.clone(),
            client: client.to_owned(),
            client_id: job.client.to_string(),
            site: job.site.clone(),
            house_built: job.house_built,
            promised: job.promised.map(|date| date.to_string()),
            taken: job.taken.to_string(),
            notes: job.notes.clone(),
            pieces: files.iter().map(|file| shop.ticket_no(file)).collect(),
            set,
        });
    }
    let mut lines = columns.lines(0, PAPER_WIDTH);
    if lines.is_empty() {
        lines.push("There is no job yet. Enter one: tackfree job CLIENT TITLE".to_owned());
    }
    Answer::new(lines, JobsJson { jobs })
}
