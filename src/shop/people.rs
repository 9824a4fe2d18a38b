//! Clients and their jobs.

use super::id::{ClientId, JobId};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// Who the work is for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Client {
    /// Its identifier.
    pub id: ClientId,
    /// Name, one line, cleaned.
    pub name: String,
    /// Telephone number as given.
    pub phone: String,
    /// Mail address as given.
    pub email: String,
    /// Postal address as given.
    pub address: String,
    /// Notes.
    pub notes: String,
}

/// One agreement at one address.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// Its identifier.
    pub id: JobId,
    /// The shop's running job number, on tickets.
    pub no: u32,
    /// Whose.
    pub client: ClientId,
    /// Title.
    pub title: String,
    /// Where it will be set.
    pub site: String,
    /// Year the house was built, if known: before 1978 the lead caution shows.
    pub house_built: Option<i32>,
    /// The promised set date.
    pub promised: Option<NaiveDate>,
    /// Notes.
    pub notes: String,
    /// Day it was taken.
    pub taken: NaiveDate,
}
