//! The clients.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str =
    "With --json: clients [id, name, phone, email, address, notes, jobs (their numbers)].";

#[derive(Serialize)]
struct ClientsJson {
    clients: Vec<ClientJson>,
}

#[derive(Serialize)]
struct ClientJson {
    id: String,
    name: String,
    phone: String,
    email: String,
    address: String,
    notes: String,
    jobs: Vec<u32>,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut columns = Columns::at_most(&[32, 24]);
    let mut clients = Vec::new();
    for client in &shop.clients {
        let jobs: Vec<u32> = shop
            .jobs
            .iter()
            .filter(|job| job.client == client.id)
            .map(|job| job.no)
            .collect();
        let numbers: Vec<String> = jobs.iter().map(ToString::to_string).collect();
        let numbers = match jobs.len() {
            0 => "no job yet".to_owned(),
            1 => format!("job {}", numbers.join(", ")),
            _ => format!("jobs {}", numbers.join(", ")),
        };
        let reach = if client.phone.is_empty() {
            &client.email
        } else {
            &client.phone
        };
        columns.row([&client.name, reach, &numbers]);
        clients.push(ClientJson {
            id: client.id.to_string(),
            name: client.name.clone(),
            phone: client.phone.clone(),
            email: client.email.clone(),
            address: client.address.clone(),
            notes: client.notes.clone(),
            jobs,
        });
    }
    let mut lines = columns.lines(0, PAPER_WIDTH);
    if lines.is_empty() {
        lines.push("There is no client yet. Enter one: tackfree client NAME".to_owned());
    }
    Answer::new(lines, ClientsJson { clients })
}
