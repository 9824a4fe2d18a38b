//! Cutouts and holes: `30 x 16 r 3/4 at 49 1/4, 12 3/4` and `1 3/8 at 60, 22 1/2`, several
//! separated by `;`.
//!
//! Each keeps its number for life, since the ticks and coats of its wall hang on it: the n-th
//! typed has number n unless a number and a colon stand in front (`2: 30 x 16 at 20, 12`). Where
//! there are several, or one whose number is not 1, they are written with their numbers, so that
//! one can be taken out and the others stay who they are.

use super::error::FieldError;
use super::size::{pair, read_length, sides, write_length, write_pair};
use super::words::quoted;
use crate::shape::{Opening, OpeningKind, OpeningName, Place, Purpose};
use crate::shop::Settings;
use crate::units::Length;

const CUTOUTS: &str = "cutouts";
const HOLES: &str = "holes";
const CUTOUT_CURE: &str = "type width x depth r corner radius at centre from the left end, from the front edge, for example 30 x 16 r 3/4 at 49 1/4, 12 3/4.";
const HOLE_CURE: &str = "type the diameter at centre from the left end, from the front edge, for example 1 3/8 at 60, 22 1/2.";

/// Reads cutouts; nothing typed is none.
///
/// # Errors
/// Which of them does not read, why, and what would do, at `cutouts`.
pub fn read_cutouts(text: &str, settings: &Settings) -> Result<Vec<Opening>, FieldError> {
    read(text, CUTOUTS, "Cutout", |form, at| {
        let (size, radius) = word_at(form, &["r", "radius", "corner"])
            .map_or((form, None), |(before, after)| (before, Some(after)));
        let parts = sides(size);
        let [width, depth] = parts.as_slice() else {
            let message = format!("\"{}\" is not a width x depth: {CUTOUT_CURE}", quoted(size));
            return Err(FieldError::new(CUTOUTS, message));
        };
        let (width, depth) = pair(CUTOUTS, width, depth, settings)?;
        let corner_radius = match radius {
            Some(radius) => read_length(CUTOUTS, radius.trim(), settings)?,
            None => Length::ZERO,
        };
        Ok((
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            },
            place(CUTOUTS, at, settings)?,
        ))
    })
}

/// Reads holes; nothing typed is none.
///
/// # Errors
/// As for [`read_cutouts`], at `holes`.
pub fn read_holes(text: &str, settings: &Settings) -> Result<Vec<Opening>, FieldError> {
    read(text, HOLES, "Hole", |form, at| {
        let diameter = read_length(HOLES, form, settings)?;
        Ok((OpeningKind::Hole { diameter }, place(HOLES, at, settings)?))
    })
}

/// Cutouts as they would be typed; other openings are left out.
pub fn write_cutouts(openings: &[Opening], settings: &Settings) -> String {
    write(openings, settings, |name| {
        matches!(name, OpeningName::Cutout(_))
    })
}

/// Holes as they would be typed; other openings are left out.
pub fn write_holes(openings: &[Opening], settings: &Settings) -> String {
    write(openings, settings, |name| {
        matches!(name, OpeningName::Hole(_))
    })
}

type Form = (OpeningKind, Place);

fn read(
    text: &str,
    field: &'static str,
    called: &str,
    form: impl Fn(&str, &str) -> Result<Form, FieldError>,
) -> Result<Vec<Opening>, FieldError> {
    let mut read: Vec<(Option<u8>, Form)> = Vec::new();
    let typed: Vec<&str> = text
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect();
    for (i, part) in typed.iter().enumerate() {
        let here = |message: String| {
            // With one alone there is no doubt which is meant.
            let which = if typed.len() > 1 {
                format!("{called} {}: ", i + 1)
            } else {
                String::new()
            };
            FieldError::new(field, which + &message)
        };
        let (no, rest) = numbered(part).map_err(here)?;
        let Some((size, at)) = word_at(rest, &["at"]).or_else(|| rest.split_once('@')) else {
            let cure = if field == CUTOUTS {
                CUTOUT_CURE
            } else {
                HOLE_CURE
            };
            return Err(here(format!(
                "\"{}\" does not say where: {cure}",
                quoted(rest)
            )));
        };
        let one = form(size.trim(), at.trim()).map_err(|error| here(error.message))?;
        read.push((no, one));
    }
    Ok(number(read))
}

/// Gives each its number: the one typed, else its place in the row, else the next that is free.
fn number(read: Vec<(Option<u8>, Form)>) -> Vec<Opening> {
    let mut taken: Vec<u8> = read.iter().filter_map(|(no, _)| *no).collect();
    let mut openings = Vec::new();
    for (i, (no, (what, place))) in read.into_iter().enumerate() {
        let no = no.unwrap_or_else(|| {
            let first = u8::try_from(i + 1).unwrap_or(u8::MAX);
            let free = (first..=u8::MAX)
                .find(|no| !taken.contains(no))
                .unwrap_or(u8::MAX);
            taken.push(free);
            free
        });
        openings.push(Opening {
            no,
            place,
            what,
            purpose: Purpose::Plain,
        });
    }
    openings
}

/// The number and colon in front, if they are there.
fn numbered(part: &str) -> Result<(Option<u8>, &str), String> {
    let Some((no, rest)) = part.split_once(':') else {
        return Ok((None, part));
    };
    let no = no.trim();
    let value = no
        .bytes()
        .all(|b| b.is_ascii_digit())
        .then(|| no.parse().ok())
        .flatten();
    match value {
        Some(no) if no > 0 => Ok((Some(no), rest.trim())),
        _ => Err(format!(
            "\"{}\" is no number to stand before a colon: use 1 to 255.",
            quoted(no)
        )),
    }
}

fn place(field: &'static str, text: &str, settings: &Settings) -> Result<Place, FieldError> {
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let [x, y] = parts.as_slice() else {
        let message = format!(
            "\"{}\" is not a place: after at, type the centre from the left end, a comma, and from the front edge, for example at 49 1/4, 12 3/4.",
            quoted(text)
        );
        return Err(FieldError::new(field, message));
    };
    let (x, y) = pair(field, x, y, settings)?;
    Ok(Place { x, y })
}

/// Splits at the first of these words that stands as a word of its own.
fn word_at<'a>(text: &'a str, words: &[&str]) -> Option<(&'a str, &'a str)> {
    let mut from = 0;
    while let Some(start) = text[from..].find(char::is_alphabetic).map(|at| from + at) {
        let length = text[start..].find(|c: char| !c.is_alphabetic());
        let end = length.map_or(text.len(), |length| start + length);
        if words.contains(&text[start..end].to_lowercase().as_str()) {
            return Some((&text[..start], &text[end..]));
        }
        from = end;
    }
    None
}

fn write(openings: &[Opening], settings: &Settings, mine: impl Fn(OpeningName) -> bool) -> String {
    let mine: Vec<&Opening> = openings
        .iter()
        .filter(|opening| mine(opening.name()))
        .collect();
    let plain = matches!(mine.as_slice(), [one] if one.no == 1);
    let length = |length| write_length(length, settings);
    let parts: Vec<String> = mine
        .into_iter()
        .map(|opening| {
            let no = if plain {
                String::new()
            } else {
                format!("{}: ", opening.no)
            };
            let form = match opening.what {
                OpeningKind::Cutout {
                    width,
                    depth,
                    corner_radius,
                } => {
                    let radius = if corner_radius == Length::ZERO {
                        String::new()
                    } else {
                        format!(" r {}", length(corner_radius))
                    };
                    let (width, depth) = write_pair(width, depth, settings);
                    format!("{width} x {depth}{radius}")
                }
                OpeningKind::Hole { diameter } => length(diameter),
            };
            let (x, y) = write_pair(opening.place.x, opening.place.y, settings);
            format!("{no}{form} at {x}, {y}")
        })
        .collect();
    parts.join("; ")
}
