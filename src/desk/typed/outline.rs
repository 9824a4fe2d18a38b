//! Outlines that need more than two sizes: `L 120 x 96, run 25 1/2, leg 24, open front right`,
//! `U 120 x 96, run 25, left 24, right 24`, `oval 60 x 40`, `quad 60, 25 1/2, 59 7/8, 25 1/4,
//! diagonal 65, other 64 7/8`, `live both, over 96: 21 1/2, 22 1/4, 24`.

use super::clauses::{self, Clause};
use super::corners::{corner_named, corner_words};
use super::error::FieldError;
use super::size::{pair, read_length, sides, write_two};
use super::words::quoted;
use crate::shape::{Corners, Cup, Ell, LiveEdges, LiveSlab, Outline, Quad, Say, Station};
use crate::shop::Settings;
use crate::units::Length;

const FIELD: &str = "size";
const L_CURE: &str = "type it like L 120 x 96, run 25 1/2, leg 24, open front right.";
const U_CURE: &str = "type it like U 120 x 96, run 25 1/2, left 24, right 24.";
const QUAD_CURE: &str = "type front, right, back and left, then a diagonal from the front left corner, and the other one if it was measured: quad 60, 25 1/2, 59 7/8, 25 1/4, diagonal 65, other 64 7/8.";
const LIVE_CURE: &str = "say which edges are live and the widths: live both, over 96: 21 1/2, 22 1/4, 24, or live front: 21 1/2 at 0, 24 at 60.";

/// Reads an outline that begins with a word of its own; none where the text begins with none.
pub(super) fn read(text: &str, settings: &Settings) -> Option<Result<Outline, FieldError>> {
    type Reader = fn(&str, &Settings) -> Result<Outline, FieldError>;
    let readers: [(&str, Reader); 7] = [
        ("oval", oval),
        ("l", ell),
        ("u", cup),
        ("quad", quad),
        ("out of square", quad),
        ("live", live),
        ("slab", live),
    ];
    readers.into_iter().find_map(|(word, reader)| {
        let head = text.get(..word.len())?;
        let rest = text.get(word.len()..)?;
        let alone = !rest.starts_with(|c: char| c.is_alphabetic());
        (head.eq_ignore_ascii_case(word) && alone).then(|| {
            reader(
                rest.trim_start_matches([' ', ',', ':']).trim_end(),
                settings,
            )
        })
    })
}

fn fail<T>(message: impl Into<String>) -> Result<T, FieldError> {
    Err(FieldError::new(FIELD, message))
}

fn length(text: &str, settings: &Settings) -> Result<Length, FieldError> {
    read_length(FIELD, text, settings)
}

/// The two overall sizes in front of the clauses, and the clauses.
fn overall<'a>(
    text: &'a str,
    words: &[&'static str],
    cure: &str,
    settings: &Settings,
) -> Result<((Length, Length), Vec<Clause<'a>>), FieldError> {
    let (size, rest) = text.split_once(',').unwrap_or((text, ""));
    let [long, wide] = sides(size)[..] else {
        return fail(format!(
            "\"{}\" is not a length x width: {cure}",
            quoted(size)
        ));
    };
    let size = pair(FIELD, long, wide, settings)?;
    Ok((size, clauses::read(FIELD, rest, words)?))
}

/// A length that must be said.
fn said(
    clauses: &[Clause<'_>],
    word: &'static str,
    cure: &str,
    settings: &Settings,
) -> Result<Length, FieldError> {
    match clauses::one(FIELD, clauses, word)? {
        Some(text) => length(text, settings),
        None => fail(format!("The {word} is not said: {cure}")),
    }
}

fn oval(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    let [long, wide] = sides(text)[..] else {
        return fail(format!(
            "\"{}\" is not a length x width: type it like oval 60 x 40.",
            quoted(text)
        ));
    };
    let (length, width) = pair(FIELD, long, wide, settings)?;
    Ok(Outline::Oval { length, width })
}

fn ell(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    let ((length, width), clauses) =
        overall(text, &["run", "leg", "open at", "open"], L_CURE, settings)?;
    let open = clauses::one(FIELD, &clauses, "open")?
        .or(clauses::one(FIELD, &clauses, "open at")?)
        .map(|text| {
            let text = text.trim_start_matches("the ");
            corner_named(text).ok_or_else(|| {
                let message = format!("\"{}\" is no corner: {L_CURE}", quoted(text));
                FieldError::new(FIELD, message)
            })
        });
    let Some(open) = open else {
        return fail(format!("Which corner is open is not said: {L_CURE}"));
    };
    Ok(Outline::L(Ell {
        length,
        width,
        run: said(&clauses, "run", L_CURE, settings)?,
        leg: said(&clauses, "leg", L_CURE, settings)?,
        open: open?,
        corners: Corners::SHARP,
    }))
}

fn cup(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    let ((length, width), clauses) = overall(text, &["run", "left", "right"], U_CURE, settings)?;
    Ok(Outline::U(Cup {
        length,
        width,
        run: said(&clauses, "run", U_CURE, settings)?,
        left: said(&clauses, "left", U_CURE, settings)?,
        right: said(&clauses, "right", U_CURE, settings)?,
        corners: Corners::SHARP,
    }))
}

fn quad(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    let lower = text.to_lowercase();
    let at = ["diagonal", "other"]
        .iter()
        .filter_map(|word| lower.find(word))
        .min()
        .filter(|at| text.is_char_boundary(*at));
    let (sides, rest) = text.split_at(at.unwrap_or(text.len()));
    let parts: Vec<&str> = sides
        .split(',')
        .map(|part| part.trim().trim_start_matches(char::is_alphabetic).trim())
        .filter(|part| !part.is_empty())
        .collect();
    let [front, right, back, left] = parts[..] else {
        return fail(format!(
            "{} sides are given where four are asked: {QUAD_CURE}",
            parts.len()
        ));
    };
    let clauses = clauses::read(FIELD, rest, &["diagonal", "other diagonal", "other"])?;
    let one = |word| match clauses::one(FIELD, &clauses, word)? {
        Some(text) => length(text, settings).map(Some),
        None => Ok(None),
    };
    Ok(Outline::Quad(Quad {
        front: length(front, settings)?,
        right: length(right, settings)?,
        back: length(back, settings)?,
        left: length(left, settings)?,
        rising: one("diagonal")?,
        falling: one("other")?.or(one("other diagonal")?),
        corners: Corners::SHARP,
    }))
}

fn live(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    let lower = text.to_lowercase();
    let (head, list) = match text.split_once(':') {
        Some((head, list)) => (head, list),
        // Without a colon the list starts at the first number.
        None => text.split_at(
            text.find(|c: char| c.is_ascii_digit())
                .unwrap_or(text.len()),
        ),
    };
    let edges = [
        ("both", LiveEdges::Both),
        ("front", LiveEdges::Front),
        ("back", LiveEdges::Back),
    ]
    .into_iter()
    .find(|(word, _)| lower.starts_with(word));
    let Some((word, edges)) = edges else {
        return fail(format!("Which edge is live is not said: {LIVE_CURE}"));
    };
    let head = head.get(word.len()..).unwrap_or("");
    let head = head
        .trim_start_matches([' ', ','])
        .trim_start_matches("edges");
    let clauses = clauses::read(FIELD, head.trim_start_matches("edge"), &["over", "every"])?;
    let parts: Vec<&str> = list
        .split(',')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect();
    let count = i64::try_from(parts.len()).unwrap_or(i64::MAX);
    let over = clauses::one(FIELD, &clauses, "over")?;
    let every = clauses::one(FIELD, &clauses, "every")?;
    let mut stations = Vec::new();
    for (i, part) in (0_i64..).zip(parts) {
        let (width, front, at) = station(part, settings)?;
        let at = match (at, every, over) {
            (Some(at), None, None) => at,
            (None, Some(every), None) => length(every, settings)? * i,
            (None, None, Some(over)) => {
                let whole = i128::from(length(over, settings)?.nm());
                let spaces = i128::from((count - 1).max(1));
                let nm = (2 * whole * i128::from(i) + spaces) / (2 * spaces);
                Length::from_nm(i64::try_from(nm).unwrap_or(i64::MAX))
            }
            _ => {
                return fail(format!(
                    "Where \"{}\" was measured is not said once: {LIVE_CURE}",
                    quoted(part)
                ));
            }
        };
        stations.push(Station { at, width, front });
    }
    Ok(Outline::Live(LiveSlab { edges, stations }))
}

/// A width, the part of it in front of the line if it was measured in two, and its place.
type Typed = (Length, Option<Length>, Option<Length>);

/// `21 1/2`, `9 1/2 + 12`, either with `at 60` behind.
fn station(text: &str, settings: &Settings) -> Result<Typed, FieldError> {
    let lower = text.to_ascii_lowercase();
    let (width, at) = match lower.find(" at ") {
        Some(at) => (&text[..at], Some(length(text[at + 4..].trim(), settings)?)),
        None => (text, None),
    };
    match width.split_once('+') {
        Some((front, back)) => {
            let (front, back) = pair(FIELD, front.trim(), back.trim(), settings)?;
            Ok((front + back, Some(front), at))
        }
        None => Ok((length(width.trim(), settings)?, None, at)),
    }
}

/// An outline as it would be typed, its corners apart; `say` writes a length.
pub fn write_outline(outline: &Outline, say: Say<'_>) -> String {
    let two = |first: Length, second: Length| {
        let (first, second) = write_two(first, second, say);
        format!("{first} x {second}")
    };
    match outline {
        Outline::Rectangle { length, width } | Outline::Cornered { length, width, .. } => {
            two(*length, *width)
        }
        Outline::Circle { diameter } => format!("round {}", say(*diameter)),
        Outline::Oval { length, width } => format!("oval {}", two(*length, *width)),
        Outline::L(ell) => format!(
            "L {}, run {}, leg {}, open {}",
            two(ell.length, ell.width),
            say(ell.run),
            say(ell.leg),
            corner_words(ell.open)
        ),
        Outline::U(cup) => format!(
            "U {}, run {}, left {}, right {}",
            two(cup.length, cup.width),
            say(cup.run),
            say(cup.left),
            say(cup.right)
        ),
        Outline::Quad(quad) => {
            let sides = [quad.front, quad.right, quad.back, quad.left].map(say);
            let diagonals = [("diagonal", quad.rising), ("other", quad.falling)];
            let mut parts = sides.to_vec();
            parts.extend(
                diagonals
                    .into_iter()
                    .filter_map(|(word, size)| Some(format!("{word} {}", say(size?)))),
            );
            format!("quad {}", parts.join(", "))
        }
        Outline::Live(slab) => write_live(slab, say),
    }
}

fn write_live(slab: &LiveSlab, say: Say<'_>) -> String {
    let word = match slab.edges {
        LiveEdges::Both => "both",
        LiveEdges::Front => "front",
        LiveEdges::Back => "back",
    };
    let every = every(slab);
    let widths: Vec<String> = slab
        .stations
        .iter()
        .map(|station| {
            let width = match station.front {
                None => say(station.width),
                Some(front) => {
                    let (before, behind) = write_two(front, station.width - front, say);
                    format!("{before} + {behind}")
                }
            };
            match every {
                Some(_) => width,
                None => format!("{width} at {}", say(station.at)),
            }
        })
        .collect();
    let spacing = every.map_or_else(String::new, |every| format!(", every {}", say(every)));
    format!("live {word}{spacing}: {}", widths.join(", "))
}

/// The spacing of stations that are evenly spaced from the left end on.
fn every(slab: &LiveSlab) -> Option<Length> {
    let [first, second, ..] = &slab.stations[..] else {
        return None;
    };
    let step = second.at - first.at;
    let even = slab
        .stations
        .iter()
        .zip(0_i64..)
        .all(|(station, i)| station.at == step * i);
    even.then_some(step)
}
