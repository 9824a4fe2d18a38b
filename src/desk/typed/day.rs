//! What is typed at the day's end: the day, the chore, how rags were made safe.

use super::error::FieldError;
use super::words::{pick, plain, quoted};
use crate::shop::{Chore, RagWay};
use crate::units::moment::parse_past_date;
use chrono::NaiveDate;

/// Reads a day gone by, or today; nothing typed is today.
///
/// # Errors
/// What does not read, at `day`.
pub fn read_day(text: &str, today: NaiveDate) -> Result<NaiveDate, FieldError> {
    if text.trim().is_empty() {
        return Ok(today);
    }
    parse_past_date(text, today).ok_or_else(|| {
        let message = format!(
            "\"{}\" does not read as a day: say today, yesterday, mon, Nov 20 or 2026-11-20.",
            quoted(text)
        );
        FieldError::new("day", message)
    })
}

/// Reads a chore, by its words or code or a beginning only one has.
///
/// # Errors
/// What is none of them, at `chore`.
pub fn read_chore(text: &str) -> Result<Chore, FieldError> {
    let words: Vec<(Chore, String)> = Chore::ALL
        .into_iter()
        .map(|chore| (chore, plain(chore.code())))
        .collect();
    pick("chore", text, &words)
}

/// Reads how oily rags were made safe: `flat` (outdoors) or `can` (of water).
///
/// # Errors
/// What is neither, at `how`.
pub fn read_rag_way(text: &str) -> Result<RagWay, FieldError> {
    match plain(text).as_str() {
        "flat" | "flat outdoors" | "outdoors" => Ok(RagWay::FlatOutdoors),
        "can" | "water" | "water can" => Ok(RagWay::WaterCan),
        _ => Err(FieldError::new(
            "how",
            format!(
                "\"{}\" is no way to make oily rags safe: say flat (laid flat outdoors) or can \
                 (in a lidded metal can of water).",
                quoted(text)
            ),
        )),
    }
}
