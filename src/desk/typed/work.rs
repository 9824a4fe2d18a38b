//! What is typed when work is logged: amounts, air, times, faces, scuffs, touch tests.

use super::can::read_weight;
use super::error::FieldError;
use super::product_text::write_volume;
use super::words::{either, number, pick, plain, quoted};
use crate::desk::{AmountDraft, DeskError};
use crate::shape::FaceKey;
use crate::shop::{Air, Amount, AmountBasis, Grit, ScuffMeans, Settings, TouchVerdict};
use crate::units::{Mass, Volume, parse_air, parse_moment};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::cmp::Ordering;

/// Reads how much was used: nothing or `estimate`; `4 oz`, `120 mL`; the can before and after,
/// `1042 g > 884 g` (a unit behind the second counts for both), or only after, `> 884 g`: before,
/// the can weighed what it was weighed last.
///
/// # Errors
/// What does not read, and what would, at `amount`.
pub fn read_amount(text: &str, settings: &Settings) -> Result<AmountDraft, FieldError> {
    const FIELD: &str = "amount";
    let typed = text.trim();
    if matches!(plain(typed).as_str(), "" | "est" | "estimate" | "estimated") {
        return Ok(AmountDraft::Estimate);
    }
    if let Some((before, after)) = typed.split_once('>') {
        let before = before.trim_end().trim_end_matches(['-', '=']).trim();
        let after = after.trim();
        let unit = after.trim_start_matches(|c: char| !c.is_alphabetic());
        let bare = number(before).is_some() && !after.is_empty();
        let before = if bare {
            format!("{before} {unit}")
        } else {
            before.to_owned()
        };
        let wrong = |error| FieldError::said(FIELD, &error);
        let after = read_weight(after).map_err(wrong)?;
        if before.is_empty() {
            return Ok(AmountDraft::WeighedAfter(after));
        }
        let before = read_weight(&before).map_err(wrong)?;
        let error = match after.cmp(&before) {
            Ordering::Less => return Ok(AmountDraft::Weighed { before, after }),
            Ordering::Equal => DeskError::NothingUsed,
            Ordering::Greater => DeskError::WeightRose {
                before: before.show(),
                after: after.show(),
            },
        };
        return Err(FieldError::said(FIELD, &error));
    }
    match Volume::parse(typed, settings.volume) {
        Ok(Volume::ZERO) => Err(FieldError::said(FIELD, &DeskError::NothingUsed)),
        Ok(volume) => Ok(AmountDraft::Volume(volume)),
        Err(_) if Mass::parse(typed).is_ok() => Err(FieldError::new(
            FIELD,
            format!(
                "\"{}\" is one weight: weigh the can before and after and type both, like 1042 g > 884 g.",
                quoted(typed)
            ),
        )),
        Err(error) => Err(FieldError::said(FIELD, &error)),
    }
}

/// An amount as it would be typed, exactly.
pub fn write_amount(amount: Amount, settings: &Settings) -> String {
    match amount.basis {
        AmountBasis::Estimated => "estimate".to_owned(),
        AmountBasis::Measured => write_volume(amount.volume, settings),
        AmountBasis::Weighed { before, after } => {
            format!("{} g > {} g", before.g(), after.g())
        }
    }
}

/// Reads shop air; nothing typed is not noted.
///
/// # Errors
/// The sentence of [`parse_air`], at `air`.
pub fn read_air(text: &str, settings: &Settings) -> Result<Option<Air>, FieldError> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    parse_air(text, settings.temperature)
        .map(|(temperature, humidity)| {
            Some(Air {
                temperature,
                humidity,
            })
        })
        .map_err(|error| FieldError::said("air", &error))
}

/// Reads when something happened; nothing typed is now, and one or two digits alone are minutes
/// ago: work is most often logged a little after it was done.
///
/// # Errors
/// The sentence of [`parse_moment`], at `at`.
pub fn read_when(text: &str, now: DateTime<Utc>, zone: Tz) -> Result<DateTime<Utc>, FieldError> {
    if text.trim().is_empty() {
        return Ok(now);
    }
    let typed = text.trim();
    let minutes = typed.len() <= 2 && typed.bytes().all(|b| b.is_ascii_digit());
    let ago = format!("-{typed}");
    let text = if minutes { &ago } else { text };
    parse_moment(text, now, zone).map_err(|error| FieldError::said("at", &error))
}

/// Reads faces out of those a piece has, separated by commas: codes (`cutout-1`), words (`left
/// end`), beginnings only one has, or several at once (`all`, `edges`, `ends`, `walls`; `underside`
/// is band and field where it is split). Nothing typed, or `due`, is none: those next in line.
///
/// # Errors
/// What is no face of this piece, at `faces`.
pub fn read_faces(text: &str, keys: &[FaceKey]) -> Result<Option<Vec<FaceKey>>, FieldError> {
    const FIELD: &str = "faces";
    if matches!(plain(text).as_str(), "" | "due") {
        return Ok(None);
    }
    let mut found: Vec<FaceKey> = Vec::new();
    for part in text
        .split([',', ';'])
        .filter(|part| !part.trim().is_empty())
    {
        let several: Vec<FaceKey> = keys
            .iter()
            .copied()
            .filter(|key| in_group(part, *key))
            .collect();
        if several.is_empty() {
            let mut choices: Vec<(FaceKey, String)> =
                keys.iter().map(|key| (*key, key.to_string())).collect();
            choices.extend(keys.iter().map(|key| (*key, key.code())));
            found.push(pick_face(part, &choices).ok_or_else(|| {
                let names: Vec<String> = keys.iter().map(ToString::to_string).collect();
                let message = format!(
                    "\"{}\" is no face of this piece: say all, {}.",
                    quoted(part),
                    either(&names)
                );
                FieldError::new(FIELD, message)
            })?);
        } else {
            found.extend(several);
        }
    }
    found.sort_unstable();
    found.dedup();
    Ok(Some(found))
}

fn in_group(word: &str, key: FaceKey) -> bool {
    match plain(word).as_str() {
        "all" | "everything" => true,
        "edges" => matches!(
            key,
            FaceKey::Front
                | FaceKey::Back
                | FaceKey::LegFront
                | FaceKey::InnerEdge(_)
                | FaceKey::LiveFront
                | FaceKey::LiveBack
                | FaceKey::Rim
        ),
        "ends" => matches!(key, FaceKey::Left | FaceKey::Right | FaceKey::InnerEnd(_)),
        "corners" => matches!(key, FaceKey::Corner(_)),
        "walls" => matches!(key, FaceKey::Cutout(_) | FaceKey::Hole(_)),
        "underside" => matches!(key, FaceKey::Underside | FaceKey::Band | FaceKey::Field),
        _ => false,
    }
}

fn pick_face(word: &str, choices: &[(FaceKey, String)]) -> Option<FaceKey> {
    let typed = plain(word);
    let whole = choices.iter().find(|(_, name)| plain(name) == typed);
    if let Some((key, _)) = whole {
        return Some(*key);
    }
    let mut keys: Vec<FaceKey> = choices
        .iter()
        .filter(|(_, name)| !typed.is_empty() && plain(name).starts_with(&typed))
        .map(|(key, _)| *key)
        .collect();
    keys.sort_unstable();
    keys.dedup();
    match keys.as_slice() {
        [one] => Some(*one),
        _ => None,
    }
}

/// Reads a scuff: `320` for fine paper, `pad`, `brown paper`; nothing or `none` is none.
///
/// # Errors
/// What is no scuff, at `scuff`.
pub fn read_scuff(text: &str) -> Result<Option<ScuffMeans>, FieldError> {
    const FIELD: &str = "scuff";
    let typed = plain(text);
    let word = typed
        .trim_end_matches("paper")
        .trim()
        .trim_end_matches("fine")
        .trim();
    let word = word.trim_end_matches("grit").trim();
    if matches!(typed.as_str(), "" | "none" | "no") {
        return Ok(None);
    }
    if !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit()) {
        return match word.parse().ok().filter(|grit| (24..=3000).contains(grit)) {
            Some(grit) => Ok(Some(ScuffMeans::FinePaper(Grit(grit)))),
            None => Err(FieldError::new(
                FIELD,
                format!(
                    "{} is no grit of paper: they lie between 24 and 3000.",
                    quoted(word)
                ),
            )),
        };
    }
    let words = [
        (ScuffMeans::Pad, "pad"),
        (ScuffMeans::Pad, "synthetic pad"),
        (ScuffMeans::BrownPaper, "brown paper"),
        (ScuffMeans::BrownPaper, "plain brown paper"),
    ];
    let found = words
        .into_iter()
        .find(|(_, name)| !word.is_empty() && name.starts_with(word));
    found.map(|(means, _)| Some(means)).ok_or_else(|| {
        let message = format!(
            "\"{}\" is no way to scuff: say a grit like 320, pad, brown paper or none.",
            quoted(text)
        );
        FieldError::new(FIELD, message)
    })
}

/// Reads what a touch test found, by its words or code or a beginning only one has.
///
/// # Errors
/// What is none of them, at `verdict`.
pub fn read_verdict(text: &str) -> Result<TouchVerdict, FieldError> {
    let words: Vec<(TouchVerdict, String)> = TouchVerdict::ALL
        .into_iter()
        .map(|verdict| (verdict, plain(verdict.code())))
        .collect();
    pick("verdict", text, &words).or_else(|error| {
        // The words on screen say more than the code.
        let whole = TouchVerdict::ALL
            .into_iter()
            .find(|found| plain(found.words()) == plain(text));
        whole.ok_or(error)
    })
}
