//! `clients.csv` and `jobs.csv`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word};
use super::table::Table;
use super::text::{LINE_MOST, NAME_MOST, NOTES_MOST};
use super::times;
use crate::shop::{Client, ClientId, Job, JobId};
use chrono::Datelike;
use std::collections::HashSet;

pub(super) const CLIENTS: &[&str] = &["id", "name", "phone", "email", "address", "notes"];
pub(super) const JOBS: &[&str] = &[
    "id",
    "no",
    "client",
    "title",
    "site",
    "house_built",
    "promised",
    "taken",
    "notes",
];

/// What would do in an empty id cell.
pub(super) const ID_CURE: &str = "write a word of your own, the same wherever it is meant";

/// Reads the clients.
pub(super) fn clients(
    reading: &mut Reading<'_>,
) -> Result<(Vec<Client>, Ring<ClientId>), FilesError> {
    let (mut out, mut ring) = (Vec::new(), Ring::new("client"));
    Table::open(&reading.source, "clients.csv", CLIENTS)?.each(|line| {
        let key = line.must("id", ID_CURE, word)?;
        let id = reading
            .keys
            .of(&key)
            .ok_or_else(|| line.fail(ring.twice(&key)))?;
        ring.hang(&key, ClientId(id))
            .map_err(|fault| line.fail(fault))?;
        let notes = &mut reading.notes;
        out.push(Client {
            id: ClientId(id),
            name: line.name("name", NAME_MOST, notes)?,
            phone: line.line("phone", LINE_MOST, notes)?,
            email: line.line("email", LINE_MOST, notes)?,
            address: line.line("address", LINE_MOST, notes)?,
            notes: line.lines("notes", NOTES_MOST, notes)?,
        });
        Ok(())
    })?;
    Ok((out, ring))
}

/// Reads the jobs. A job without a number gets the next one.
pub(super) fn jobs(
    reading: &mut Reading<'_>,
    clients: &Ring<ClientId>,
) -> Result<(Vec<Job>, Ring<JobId>), FilesError> {
    let (mut out, mut ring): (Vec<Job>, _) = (Vec::new(), Ring::new("job"));
    let mut numbers = HashSet::new();
    Table::open(&reading.source, "jobs.csv", JOBS)?.each(|line| {
        let key = line.must("id", ID_CURE, word)?;
        let id = reading
            .keys
            .of(&key)
            .ok_or_else(|| line.fail(ring.twice(&key)))?;
        ring.hang(&key, JobId(id))
            .map_err(|fault| line.fail(fault))?;
        let today = reading.today;
        let date = |text: &str| times::read_date(text, today);
        let number = |text: &str| {
            let no = text
                .parse::<u32>()
                .ok()
                .filter(|no| (1..1_000_000).contains(no));
            no.ok_or_else(|| format!("\"{text}\" is no job number; write 1 to 999999."))
        };
        let year = |text: &str| {
            let year = text.parse::<i32>().ok();
            year.filter(|year| (1500..=today.year() + 1).contains(year))
                .ok_or_else(|| {
                    format!("\"{text}\" is not a year a house was built in; write four digits.")
                })
        };
        let next = || out.iter().map(|job| job.no).max().unwrap_or(0) + 1;
        let no = line.maybe("no", number)?.unwrap_or_else(next);
        if !numbers.insert(no) {
            return Err(line.fail(Fault::Twice {
                what: "job number",
                key: no.to_string(),
            }));
        }
        let client = line.must("client", "write the id of the client it is for", |key| {
            clients.find(key).map_err(|fault| fault.to_string())
        })?;
        let notes = &mut reading.notes;
        out.push(Job {
            id: JobId(id),
            no,
            client,
            title: line.name("title", NAME_MOST, notes)?,
            site: line.line("site", LINE_MOST, notes)?,
            house_built: line.maybe("house_built", year)?,
            promised: line.maybe("promised", date)?,
            notes: line.lines("notes", NOTES_MOST, notes)?,
            taken: line.maybe("taken", date)?.unwrap_or(today),
        });
        Ok(())
    })?;
    Ok((out, ring))
}

/// A client's cells.
pub(super) fn client_row(client: &Client) -> Vec<String> {
    vec![
        client.id.to_string(),
        client.name.clone(),
        client.phone.clone(),
        client.email.clone(),
        client.address.clone(),
        client.notes.clone(),
    ]
}

/// A job's cells.
pub(super) fn job_row(job: &Job) -> Vec<String> {
    vec![
        job.id.to_string(),
        job.no.to_string(),
        job.client.to_string(),
        job.title.clone(),
        job.site.clone(),
        job.house_built
            .map_or(String::new(), |year| year.to_string()),
        job.promised.map_or(String::new(), times::date),
        times::date(job.taken),
        job.notes.clone(),
    ]
}
