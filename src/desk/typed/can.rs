//! What is typed about cans: weights, shelf life, which cans, how a pass was put on.

use super::error::FieldError;
use super::words::{pick, plain, quoted};
use super::work::read_amount;
use crate::coating::Method;
use crate::desk::{AmountDraft, CanTake, TakeAmount};
use crate::shop::{CanBook, CanId, Settings};
use crate::units::{Mass, MassError};

/// Reads a weight where only a weight can be meant: as [`Mass::parse`], and plain ounces are
/// ounces of weight (`1042 g`, `36.8 oz`, `2 lb 4 oz`).
///
/// # Errors
/// The sentence of [`Mass::parse`].
pub fn read_weight(text: &str) -> Result<Mass, MassError> {
    match Mass::parse(text) {
        Err(MassError::PlainOunces { .. }) => Mass::parse(&format!("{} wt", text.trim_end())),
        other => other,
    }
}

/// Takes `sure` off the end of what was typed; whether it stood there.
pub fn split_sure(text: &str) -> (&str, bool) {
    let text = text.trim_end();
    let cut = text.len().checked_sub("sure".len());
    let last = cut.and_then(|cut| text.is_char_boundary(cut).then(|| text.split_at(cut)));
    match last {
        Some((rest, word))
            if word.eq_ignore_ascii_case("sure")
                && (rest.is_empty() || rest.ends_with(char::is_whitespace)) =>
        {
            (rest.trim_end(), true)
        }
        _ => (text, false),
    }
}

/// Reads how long a can keeps: `90 days`, `18 months`, `3 years`; nothing typed is not known. A
/// month counts as the twelfth of 365 days, rounded.
///
/// # Errors
/// What does not read, at `field`.
pub fn read_keeps(field: &'static str, text: &str) -> Result<Option<u32>, FieldError> {
    let typed = plain(text);
    if matches!(typed.as_str(), "" | "none" | "not known") {
        return Ok(None);
    }
    let digits = typed.trim_start_matches(|c: char| c.is_ascii_digit());
    let (number, unit) = typed.split_at(typed.len() - digits.len());
    let wrong = || {
        FieldError::new(
            field,
            format!(
                "\"{}\" does not read as how long it keeps: write it like 90 days, 18 months or 3 years.",
                quoted(text)
            ),
        )
    };
    let number: u32 = number.parse().map_err(|_| wrong())?;
    let days = match unit.trim() {
        "d" | "day" | "days" => Some(number),
        "w" | "week" | "weeks" => number.checked_mul(7),
        "mo" | "month" | "months" => number.checked_mul(365).map(|n| (n + 6) / 12),
        "y" | "yr" | "yrs" | "year" | "years" => number.checked_mul(365),
        _ => None,
    };
    days.filter(|days| *days <= 36_500)
        .map(Some)
        .ok_or_else(wrong)
}

/// Reads how a product was put on; nothing typed is as its family usually is.
///
/// # Errors
/// What is none of the ways, at `method`.
pub fn read_method(text: &str) -> Result<Option<Method>, FieldError> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let words: Vec<(Method, String)> = Method::ALL
        .into_iter()
        .map(|method| (method, method.word().to_owned()))
        .collect();
    pick("method", text, &words).map(Some)
}

/// Reads which can: the number on its lid, with or without `can` before it, or its identifier.
///
/// # Errors
/// That there is none, at `can`.
pub fn read_can_no(text: &str, book: &CanBook) -> Result<CanId, FieldError> {
    let typed = plain(text);
    let no = typed
        .strip_prefix("can ")
        .unwrap_or(&typed)
        .trim_start_matches('#');
    let found = book.cans.iter().find(|state| {
        no.parse() == Ok(state.can.no) || state.can.id.to_string() == text.trim().to_lowercase()
    });
    found.map(|state| state.can.id).ok_or_else(|| {
        let message = format!(
            "There is no can \"{}\": say the number on its lid, like 7 (tackfree cans lists them).",
            quoted(text)
        );
        FieldError::new("can", message)
    })
}

/// Reads one can of a pass: `7`; with how much of it: `7: 4 oz`, `7: 1042 g > 884 g`,
/// `7: > 884 g`.
///
/// # Errors
/// What does not read, at `can`.
pub fn read_take(text: &str, book: &CanBook, settings: &Settings) -> Result<CanTake, FieldError> {
    let (can, amount) = text.split_once(':').unwrap_or((text, ""));
    let can = read_can_no(can, book)?;
    let amount = match read_amount(amount, settings).map_err(|error| error.at("can"))? {
        AmountDraft::Estimate => None,
        AmountDraft::Volume(volume) => Some(TakeAmount::Volume(volume)),
        AmountDraft::Weighed { before, after } => Some(TakeAmount::Weighed {
            before: Some(before),
            after,
        }),
        AmountDraft::WeighedAfter(after) => Some(TakeAmount::Weighed {
            before: None,
            after,
        }),
    };
    Ok(CanTake { can, amount })
}
