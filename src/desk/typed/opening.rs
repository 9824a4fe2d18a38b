//! Cutouts and holes: `30 x 16 r 3/4 at 49 1/4, 12 3/4` and `1 3/8 at 60, 22 1/2`, several
//! separated by `;`, each with what it is for behind it: `... sink undermount negative 3/8`. What is
//! run along its edge may stand anywhere behind the place: `... profile round-over 1/4`.
//!
//! Each keeps its number for life, since the ticks and coats of its wall hang on it: the n-th
//! typed has number n unless a number and a colon stand in front (`2: 30 x 16 at 20, 12`). Where
//! there are several, or one whose number is not 1, they are written with their numbers, so that
//! one can be taken out and the others stay who they are. A cutout for a sink may be typed by its
//! bowl (`bowl 30 x 16 r 3/4 at ...`): the cutout is then the bowl and the reveal.

use super::error::FieldError;
use super::place::{self, Onto};
use super::purpose::{self, write_purpose};
use super::size::{pair, profile_with, read_length, read_profile, sides, write_length, write_two};
use super::words::{plain, quoted};
use crate::shape::{
    EdgeProfile, Mount, Opening, OpeningKind, OpeningName, Place, Purpose, Reveal, Say, Sink,
};
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
pub fn read_cutouts(
    text: &str,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Vec<Opening>, FieldError> {
    read(
        text,
        CUTOUTS,
        "Cutout",
        |size, purpose| cutout(size, purpose, settings),
        onto,
        settings,
    )
}

/// The form of a cutout: its size, or its bowl with the reveal all round.
fn cutout(text: &str, purpose: &Purpose, settings: &Settings) -> Result<OpeningKind, FieldError> {
    let bowl = word_at(text, &["bowl"]).filter(|(before, _)| before.trim().is_empty());
    let form = bowl.map_or(text, |(_, after)| after.trim());
    let (size, radius) = word_at(form, &["r", "radius", "corner"])
        .map_or((form, None), |(before, after)| (before, Some(after)));
    let parts = sides(size);
    let [width, depth] = parts.as_slice() else {
        let message = format!("\"{}\" is not a width x depth: {CUTOUT_CURE}", quoted(size));
        return Err(FieldError::new(CUTOUTS, message));
    };
    let (mut width, mut depth) = pair(CUTOUTS, width, depth, settings)?;
    let mut corner_radius = match radius {
        Some(radius) => read_length(CUTOUTS, radius.trim(), settings)?,
        None => Length::ZERO,
    };
    if bowl.is_some() {
        let Some(reveal) = purpose.sink().and_then(|sink| sink.mount.reveal()) else {
            let message = "A bowl is typed only for a sink mounted from below: say sink undermount or sink apron-front and its reveal, or type the cutout's own size.";
            return Err(FieldError::new(CUTOUTS, message));
        };
        let beyond = reveal.beyond();
        width += beyond * 2;
        depth += beyond * if is_apron(purpose) { 1 } else { 2 };
        // Walls that keep their distance to the bowl round the corner with it.
        if corner_radius > Length::ZERO && reveal != Reveal::Zero {
            corner_radius = (corner_radius + beyond).max(Length::ZERO);
        }
    }
    Ok(OpeningKind::Cutout {
        width,
        depth,
        corner_radius,
    })
}

fn is_apron(purpose: &Purpose) -> bool {
    let mount = purpose.sink().map(|sink: &Sink| sink.mount);
    matches!(mount, Some(Mount::ApronFront(_)))
}

/// Reads holes; nothing typed is none.
///
/// # Errors
/// As for [`read_cutouts`], at `holes`.
pub fn read_holes(
    text: &str,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Vec<Opening>, FieldError> {
    let hole = |size: &str, _: &Purpose| {
        let diameter = read_length(HOLES, size, settings)?;
        Ok(OpeningKind::Hole { diameter })
    };
    read(text, HOLES, "Hole", hole, onto, settings)
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

/// What was typed of an opening, without its number.
struct Form {
    what: OpeningKind,
    place: Place,
    purpose: Purpose,
    profile: EdgeProfile,
}

fn read(
    text: &str,
    field: &'static str,
    called: &str,
    form: impl Fn(&str, &Purpose) -> Result<OpeningKind, FieldError>,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Vec<Opening>, FieldError> {
    if matches!(plain(text).as_str(), "none" | "no") {
        return Ok(Vec::new());
    }
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
        let one = one(field, rest, &form, onto, settings).map_err(|error| here(error.message))?;
        read.push((no, one));
    }
    Ok(number(read))
}

/// One opening: its size, its place, and what it is for.
fn one(
    field: &'static str,
    text: &str,
    form: &impl Fn(&str, &Purpose) -> Result<OpeningKind, FieldError>,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Form, FieldError> {
    let Some((size, rest)) = word_at(text, &["at"]).or_else(|| text.split_once('@')) else {
        let cure = if field == CUTOUTS {
            CUTOUT_CURE
        } else {
            HOLE_CURE
        };
        let message = format!("\"{}\" does not say where: {cure}", quoted(text));
        return Err(FieldError::new(field, message));
    };
    let (rest, profile) = profiled(field, rest, settings)?;
    let (at, purpose) = match word_at(&rest, &purpose::WORDS) {
        Some((at, _)) => (at, &rest[at.len()..]),
        None => (rest.as_str(), ""),
    };
    let purpose = purpose::read(field, purpose, settings)?;
    let what = form(size.trim(), &purpose)?;
    let fixed = match what {
        OpeningKind::Cutout { depth, .. } if is_apron(&purpose) => {
            Some(Length::from_nm(depth.nm() / 2))
        }
        _ => None,
    };
    let at = at.trim().trim_end_matches(',');
    let place = place::read(field, at, fixed, onto, settings)?;
    Ok(Form {
        what,
        place,
        purpose,
        profile,
    })
}

/// Takes the profile of the edge out of what stands behind `at`; square where none is said.
fn profiled(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<(String, EdgeProfile), FieldError> {
    const WORDS: [&str; 1] = ["profile"];
    let Some((before, after)) = word_at(text, &WORDS) else {
        return Ok((text.to_owned(), EdgeProfile::Square));
    };
    let end = purpose::end_of_profile(after);
    let (said, behind) = after.split_at(end);
    if word_at(behind, &WORDS).is_some() {
        let message = "The profile of the edge is said twice: say it once.";
        return Err(FieldError::new(field, message));
    }
    if said.trim().is_empty() {
        let message =
            "Which profile the edge gets is not said: type it like profile round-over 1/4.";
        return Err(FieldError::new(field, message));
    }
    let profile =
        read_profile(said, settings).map_err(|error| FieldError::new(field, error.message))?;
    let before = before.trim_end().trim_end_matches(',');
    let behind = behind.trim_start_matches([',', ' ']);
    let comma = if behind.is_empty() { "" } else { ", " };
    Ok((format!("{before}{comma}{behind}"), profile))
}

/// Gives each its number: the one typed, else its place in the row, else the next that is free.
fn number(read: Vec<(Option<u8>, Form)>) -> Vec<Opening> {
    let mut taken: Vec<u8> = read.iter().filter_map(|(no, _)| *no).collect();
    let mut openings = Vec::new();
    for (i, (no, form)) in read.into_iter().enumerate() {
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
            place: form.place,
            what: form.what,
            purpose: form.purpose,
            profile: form.profile,
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

/// One opening as it would be typed, without its number; `say` writes a length.
pub fn write_opening(opening: &Opening, say: Say<'_>) -> String {
    let form = match opening.what {
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        } => {
            let radius = if corner_radius == Length::ZERO {
                String::new()
            } else {
                format!(" r {}", say(corner_radius))
            };
            let (width, depth) = write_two(width, depth, say);
            format!("{width} x {depth}{radius}")
        }
        OpeningKind::Hole { diameter } => say(diameter),
    };
    let (x, y) = write_two(opening.place.x, opening.place.y, say);
    let purpose = write_purpose(&opening.purpose, say);
    let gap = if purpose.is_empty() { "" } else { " " };
    let profile = if opening.profile.is_square() {
        String::new()
    } else {
        format!(" profile {}", profile_with(opening.profile, say))
    };
    format!("{form} at {x}, {y}{profile}{gap}{purpose}")
}

fn write(openings: &[Opening], settings: &Settings, mine: impl Fn(OpeningName) -> bool) -> String {
    let mine: Vec<&Opening> = openings
        .iter()
        .filter(|opening| mine(opening.name()))
        .collect();
    let plain = matches!(mine.as_slice(), [one] if one.no == 1);
    let parts: Vec<String> = mine
        .into_iter()
        .map(|opening| {
            let text = write_opening(opening, &|length| write_length(length, settings));
            if plain {
                text
            } else {
                format!("{}: {text}", opening.no)
            }
        })
        .collect();
    parts.join("; ")
}
