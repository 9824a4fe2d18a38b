//! Clients and jobs as typed.

use super::error::{FieldError, keep};
use super::piece::text_needed;
use super::words::quoted;
use crate::desk::people::NAME_MOST;
use crate::desk::{ClientDraft, DeskError, JobDraft, Shop};
use crate::shop::{ClientId, Job};
use crate::units::{parse_date, parse_future_date};
use chrono::{Datelike, NaiveDate};
use serde::Serialize;

/// Checks a client: a draft is text already.
///
/// # Errors
/// The name if it is empty or too long. Longer texts elsewhere are refused by the desk.
pub fn read_client(typed: &ClientDraft) -> Result<ClientDraft, Vec<FieldError>> {
    let mut errors = Vec::new();
    let cure = "type who the work is for.";
    text_needed(
        "name",
        "The client's name",
        &typed.name,
        NAME_MOST,
        cure,
        &mut errors,
    );
    if errors.is_empty() {
        Ok(typed.clone())
    } else {
        Err(errors)
    }
}

/// A job, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct JobTyped {
    /// Whose: a name or an identifier.
    pub client: String,
    /// Title.
    pub title: String,
    /// Site address.
    pub site: String,
    /// Year the house was built; empty if not known.
    pub house_built: String,
    /// Promised set date; empty if none.
    pub promised: String,
    /// Notes.
    pub notes: String,
}

impl JobTyped {
    /// A job as it would be typed.
    pub fn of(job: &Job, shop: &Shop) -> Self {
        Self {
            client: client_text(job.client, shop),
            title: job.title.clone(),
            site: job.site.clone(),
            house_built: job
                .house_built
                .map_or_else(String::new, |year| year.to_string()),
            promised: job
                .promised
                .map_or_else(String::new, |date| date.to_string()),
            notes: job.notes.clone(),
        }
    }
}

/// A client as it would be typed: the name, or the identifier where two share it.
pub(super) fn client_text(id: ClientId, shop: &Shop) -> String {
    match shop.client(id) {
        Some(client) if shop.find_client(&client.name).map(|found| found.id) == Some(id) => {
            client.name.clone()
        }
        _ => id.to_string(),
    }
}

/// Reads a job; `before` is the job as it stands when it is changed, so that a promise already
/// made may pass by.
///
/// # Errors
/// Every field that does not read.
pub fn read_job(
    typed: &JobTyped,
    before: Option<&Job>,
    shop: &Shop,
    today: NaiveDate,
) -> Result<JobDraft, Vec<FieldError>> {
    let mut errors = Vec::new();
    let client = shop.find_client(&typed.client).map(|client| client.id).ok_or_else(|| {
        let message = if typed.client.trim().is_empty() {
            "No client was picked: say whose job it is.".to_owned()
        } else {
            let name = quoted(&typed.client);
            format!("There is no client called \"{name}\", or more than one: pick one from the list.")
        };
        FieldError::new("client", message)
    });
    let client = keep(client, &mut errors);
    let cure = "type what the job is, for example kitchen island.";
    text_needed(
        "title",
        "The job's title",
        &typed.title,
        NAME_MOST,
        cure,
        &mut errors,
    );
    let house_built = keep(read_year(&typed.house_built, today), &mut errors);
    let promised = read_promise(&typed.promised, today, before.and_then(|job| job.promised));
    let promised = keep(promised, &mut errors);
    match (client, house_built, promised) {
        (Some(client), Some(house_built), Some(promised)) if errors.is_empty() => Ok(JobDraft {
            client,
            title: typed.title.clone(),
            site: typed.site.clone(),
            house_built,
            promised,
            notes: typed.notes.clone(),
        }),
        _ => Err(errors),
    }
}

/// Reads a promised date; nothing typed is none. `before` is the promise that stands already.
///
/// # Errors
/// What is no date, or lies in the past, at `promised`.
pub fn read_promise(
    text: &str,
    today: NaiveDate,
    before: Option<NaiveDate>,
) -> Result<Option<NaiveDate>, FieldError> {
    let wrong = |error| FieldError::said("promised", &error);
    if text.trim().is_empty() || text.trim().eq_ignore_ascii_case("none") {
        return Ok(None);
    }
    let kept = before.filter(|before| parse_date(text, today) == Ok(*before));
    // A promise made long ago, written out in full, stands as well.
    let kept = kept.or_else(|| before.filter(|before| before.to_string() == text.trim()));
    match kept {
        Some(before) => Ok(Some(before)),
        None => parse_future_date(text, today).map(Some).map_err(wrong),
    }
}

/// Reads the year a house was built; nothing typed is not known.
///
/// # Errors
/// What is no such year, at `house_built`.
pub fn read_year(text: &str, today: NaiveDate) -> Result<Option<i32>, FieldError> {
    const FIELD: &str = "house_built";
    let typed = text.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let digits = typed.len() <= 6 && typed.bytes().all(|b| b.is_ascii_digit());
    match digits.then(|| typed.parse::<i32>().ok()).flatten() {
        Some(year) if (1500..=today.year() + 1).contains(&year) => Ok(Some(year)),
        Some(year) => Err(FieldError::said(FIELD, &DeskError::Year(year))),
        None => Err(FieldError::new(
            FIELD,
            format!(
                "\"{}\" is no year: type four digits, like 1962, or leave it empty.",
                quoted(text)
            ),
        )),
    }
}
