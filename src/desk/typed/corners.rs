//! Corners that are not left sharp: `round 2 front left; clip 3 x 3 back right; notch 4 x 6 back
//! left; round 1 all`.

use super::error::FieldError;
use super::size::{pair, read_length, sides, write_two};
use super::words::quoted;
use crate::shape::{Corner, Corners, Cut, Outline, Say};
use crate::shop::Settings;
use crate::units::Length;

const FIELD: &str = "corners";
const CURE: &str = "type round, clip or notch, the size and the corner, for example round 2 front left; clip 3 x 3 back right; notch 4 x 6 back left; round 1 all.";

/// The corner of these words: `front left`, `inside`, `leg right`.
pub(super) fn corner_named(text: &str) -> Option<Corner> {
    let code = text
        .to_lowercase()
        .split([' ', '-', '_'])
        .filter(|word| !word.is_empty() && *word != "corner")
        .collect::<Vec<_>>()
        .join("-");
    Corner::of_code(&code).or_else(|| {
        // The other way round: `left front`, `right inside`.
        let (one, other) = code.split_once('-')?;
        Corner::of_code(&format!("{other}-{one}"))
    })
}

/// A corner as it is typed.
pub(super) fn corner_words(corner: Corner) -> String {
    corner.code().replace('-', " ")
}

fn fail<T>(message: impl Into<String>) -> Result<T, FieldError> {
    Err(FieldError::new(FIELD, message))
}

/// Reads the corners onto an outline.
///
/// # Errors
/// What does not read, and what would, at `corners`.
pub fn read_corners(
    text: &str,
    outline: Outline,
    settings: &Settings,
) -> Result<Outline, FieldError> {
    let typed = text.trim();
    if matches!(
        typed.to_lowercase().as_str(),
        "" | "sharp" | "none" | "square"
    ) {
        return Ok(outline);
    }
    let outside = outside(&outline);
    let mut cuts = Vec::new();
    for part in typed
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        let (cut, places) = one(part, settings)?;
        if places == "all" {
            cuts.extend(outside.iter().map(|corner| (*corner, cut)));
            continue;
        }
        for place in places.split(" and ") {
            cuts.extend(
                named(place, &outside)?
                    .into_iter()
                    .map(|corner| (corner, cut)),
            );
        }
    }
    let corners = Corners::new(cuts);
    match outline {
        Outline::Rectangle { length, width } | Outline::Cornered { length, width, .. } => {
            Ok(Outline::Cornered {
                length,
                width,
                corners,
            })
        }
        Outline::L(ell) => Ok(Outline::L(crate::shape::Ell { corners, ..ell })),
        Outline::U(cup) => Ok(Outline::U(crate::shape::Cup { corners, ..cup })),
        Outline::Quad(quad) => Ok(Outline::Quad(crate::shape::Quad { corners, ..quad })),
        Outline::Circle { .. } | Outline::Oval { .. } => {
            fail("A round top has no corners to cut: leave the corners empty.")
        }
        Outline::Live(_) => {
            fail("The corners of a live edge are not cut here: leave the corners empty.")
        }
    }
}

/// The outside corners of an outline.
fn outside(outline: &Outline) -> Vec<Corner> {
    let mut corners = Corner::OUTER.to_vec();
    match outline {
        Outline::L(ell) => {
            corners.retain(|corner| *corner != ell.open);
            corners.extend([Corner::Leg, Corner::Run]);
        }
        Outline::U(_) => corners.extend([Corner::LegLeft, Corner::LegRight]),
        _ => {}
    }
    corners
}

/// The corners of `front left`, or of a whole side: `front`.
fn named(place: &str, outside: &[Corner]) -> Result<Vec<Corner>, FieldError> {
    let words = place.trim();
    if let Some(corner) = corner_named(words) {
        return Ok(vec![corner]);
    }
    let word = words.split(' ').next().unwrap_or("");
    let side = ["front", "back", "left", "right"].contains(&word);
    let of_side = |corner: &&Corner| {
        Corner::OUTER.contains(corner) && corner.code().split('-').any(|part| part == word)
    };
    let found: Vec<Corner> = outside.iter().filter(of_side).copied().collect();
    if side && !found.is_empty() && !words.contains(' ') {
        return Ok(found);
    }
    fail(format!("\"{}\" is no corner: {CURE}", quoted(place)))
}

/// One cut and the words for its corners.
fn one(text: &str, settings: &Settings) -> Result<(Cut, String), FieldError> {
    const PLACES: [&str; 12] = [
        "all", "every", "front", "back", "left", "right", "inside", "leg", "run", "and", "corner",
        "corners",
    ];
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_place = |word: &str| {
        word.to_lowercase()
            .trim_matches(',')
            .split('-')
            .all(|part| PLACES.contains(&part))
    };
    let places = words.iter().rev().take_while(|word| is_place(word)).count();
    let (front, places) = words.split_at(words.len() - places);
    let Some((verb, size)) = front.split_first() else {
        return fail(format!(
            "\"{}\" does not say what is cut: {CURE}",
            quoted(text)
        ));
    };
    let size = size.join(" ");
    let places: Vec<String> = places
        .iter()
        .map(|word| word.to_lowercase().trim_matches(',').replace('-', " "))
        .filter(|word| !matches!(word.as_str(), "corner" | "corners"))
        .map(|word| {
            if word == "every" {
                "all".to_owned()
            } else {
                word
            }
        })
        .collect();
    if places.is_empty() {
        return fail(format!(
            "\"{}\" does not say which corner: {CURE}",
            quoted(text)
        ));
    }
    let two = |size: &str| -> Result<(Length, Length), FieldError> {
        match sides(size)[..] {
            [one] => read_length(FIELD, one, settings).map(|length| (length, length)),
            [along, across] => pair(FIELD, along, across, settings),
            _ => fail(format!(
                "\"{}\" is not one size or two: {CURE}",
                quoted(size)
            )),
        }
    };
    let cut = match verb.to_lowercase().as_str() {
        "round" | "rounded" | "radius" | "r" => Cut::Round(read_length(FIELD, &size, settings)?),
        "clip" | "clipped" => {
            let (along, across) = two(&size)?;
            Cut::Clip { along, across }
        }
        "notch" | "notched" => {
            let (along, across) = two(&size)?;
            Cut::Notch { along, across }
        }
        _ => {
            return fail(format!(
                "\"{}\" is not a way to cut a corner: {CURE}",
                quoted(verb)
            ));
        }
    };
    Ok((cut, places.join(" ")))
}

/// Corners as they would be typed; `say` writes a length.
pub fn write_corners(corners: &Corners, say: Say<'_>) -> String {
    let two = |first: Length, second: Length| {
        let (first, second) = write_two(first, second, say);
        format!("{first} x {second}")
    };
    let parts: Vec<String> = corners
        .iter()
        .map(|(corner, cut)| {
            let size = match cut {
                Cut::Round(radius) => say(radius),
                Cut::Clip { along, across } | Cut::Notch { along, across } => two(along, across),
            };
            format!("{} {size} {}", cut.word(), corner_words(corner))
        })
        .collect();
    parts.join("; ")
}
