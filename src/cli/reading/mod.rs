//! Verbs that read: each prints what is, as text and as JSON.
//!
//! Lives here: one file a verb, and the fields of its JSON, with units in their names. May not
//! live here: anything that writes.

pub mod air;
pub mod bench;
pub mod buy;
pub mod cans;
pub mod clients;
pub mod compare;
pub mod cutlist;
pub mod cutplan;
pub mod day;
pub mod daysheet;
pub mod draw;
mod face_json;
pub mod findings;
pub mod jobs;
pub mod journal;
pub mod later;
pub mod log;
pub mod place;
pub mod products;
pub mod rack;
mod rack_json;
pub mod rates;
pub mod ready;
pub mod recipes;
mod shape_json;
mod short_json;
pub mod tally;
mod tally_by;
pub mod ticket;
pub mod wood;
mod wood_json;
mod wood_leave_json;
pub mod woods;

pub(super) use wood_json::ReadingJson;

use crate::desk::Shop;
use crate::shop::PieceFile;
use chrono::{DateTime, Utc};
use serde::Serialize;

/// Which piece a line speaks of.
#[derive(Debug, Serialize)]
pub(super) struct PieceJson {
    /// Its ticket number: `3A`.
    ticket: String,
    /// Its identifier.
    id: String,
    /// What the shop calls it.
    piece: String,
    /// The number of its job.
    job_no: u32,
    /// The title of its job.
    job: String,
    /// The client.
    client: String,
}

impl PieceJson {
    fn of(shop: &Shop, file: &PieceFile) -> Self {
        let job = shop.job(file.piece.job);
        Self {
            ticket: shop.ticket_no(file),
            id: file.piece.id.to_string(),
            piece: file.piece.name.clone(),
            job_no: job.map_or(0, |job| job.no),
            job: job.map_or_else(String::new, |job| job.title.clone()),
            client: shop
                .client_of(file)
                .map_or_else(String::new, |client| client.name.clone()),
        }
    }
}

/// A moment as RFC 3339, to the second.
pub(super) fn moment(at: DateTime<Utc>) -> String {
    at.to_rfc3339_opts(chrono::SecondsFormat::Secs, true)
}

/// A figure with the noise of binary fractions rounded off: to a thousandth.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// An area or rate, to a millionth.
pub(super) fn fine(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
