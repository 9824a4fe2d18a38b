//! Verbs on money and hours: prices, estimates, agreements, bills, the clock.
//!
//! Lives here: one file for verbs that belong together; each reads what was typed and hands one action to
//! the desk, or prints what is. May not live here: any check on what may be done.

pub mod bills;
pub mod clock;
pub mod deal;
pub mod estimate;
pub mod places;
pub mod prices;
pub mod remove;
pub mod samples;
pub mod slip;

use super::answer::Answer;
use super::failure::Failure;
use super::session::Session;
use crate::desk::typed::FieldError;
use crate::desk::{Action, Books, HoursOf, MoneyAction, Shop};
use crate::shop::{HoursEntry, Signed};
use crate::units::parse_date;
use chrono::NaiveDate;

fn act(session: &mut Session<'_>, action: MoneyAction) -> Result<Answer, Failure> {
    session.perform(&Action::Money(Box::new(action)))
}

fn all_hours(session: &Session<'_>) -> Result<Vec<HoursEntry>, Failure> {
    Ok(session.store.hours(HoursOf::All)?)
}

/// A date as typed after an option; none where nothing was.
fn date(
    field: &'static str,
    text: Option<&str>,
    today: NaiveDate,
) -> Result<Option<NaiveDate>, Failure> {
    let read =
        |text| parse_date(text, today).map_err(|error| FieldError::new(field, error.to_string()));
    Ok(text.map(read).transpose()?)
}

/// A signature: who, and when (today unless said). Who is the job's client unless said.
fn signature(
    by: Option<&String>,
    on: Option<&str>,
    client: &str,
    today: NaiveDate,
) -> Result<Signed, Failure> {
    Ok(Signed {
        on: date("on", on, today)?.unwrap_or(today),
        by: by.cloned().unwrap_or_else(|| client.to_owned()),
    })
}

fn client_name(shop: &Shop, job: &crate::shop::Job) -> String {
    let client = shop.client(job.client);
    client.map_or_else(String::new, |client| client.name.clone())
}
