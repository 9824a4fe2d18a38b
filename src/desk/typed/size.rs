//! Lengths, sizes and edge profiles: `98 3/8 x 25 1/2`, `round 36`, `round-over 1/4`.

use super::error::FieldError;
use super::outline::{self, write_outline};
use super::words::{pick, plain, quoted};
use crate::shape::{EdgeProfile, Outline, Say};
use crate::shop::Settings;
use crate::units::{BareUnit, Length, LengthStyle};

/// One length, in the shop's unit where none is said.
///
/// # Errors
/// The sentence of [`Length::parse`] at `field`.
pub fn read_length(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<Length, FieldError> {
    Length::parse(text, settings.bare_unit()).map_err(|error| FieldError::said(field, &error))
}

/// A length as this shop would type it, exactly: `98 3/8` to the 64th, `2500` in a shop that
/// writes millimetres, `19.05 mm` where the shop's own unit does not hold it.
pub fn write_length(length: Length, settings: &Settings) -> String {
    match settings.bare_unit() {
        BareUnit::Millimetres => {
            let text = length.show_exact(LengthStyle::Millimetres);
            text.strip_suffix(" mm").map_or(text.clone(), str::to_owned)
        }
        BareUnit::Inches => {
            let step = Length::from_64ths(1).nm();
            if length.nm() < 0 || length.nm() % step != 0 {
                return length.show_exact(LengthStyle::Millimetres);
            }
            mixed(length.nm() / step)
        }
    }
}

/// `98 3/8` from a number of 64ths.
fn mixed(sixty_fourths: i64) -> String {
    let (whole, mut above, mut below) = (sixty_fourths / 64, sixty_fourths % 64, 64);
    while above > 0 && above % 2 == 0 {
        above /= 2;
        below /= 2;
    }
    match (whole, above) {
        (whole, 0) => whole.to_string(),
        (0, above) => format!("{above}/{below}"),
        (whole, above) => format!("{whole} {above}/{below}"),
    }
}

/// What would do where a size does not read.
pub(super) const SIZE_CURE: &str =
    "type length x width, for example 98 3/8 x 25 1/2, or round 36 for a round top.";

/// A size: length along the grain x width, `round` and the diameter, or one of the outlines that
/// begin with a word of their own (L, U, oval, quad, live). Its corners are read apart.
///
/// # Errors
/// What does not read, and what would, at `size`.
pub fn read_size(text: &str, settings: &Settings) -> Result<Outline, FieldError> {
    const FIELD: &str = "size";
    const CURE: &str = SIZE_CURE;
    let typed = text.trim();
    if typed.is_empty() {
        return Err(FieldError::new(FIELD, format!("No size was given: {CURE}")));
    }
    if let Some(read) = outline::read(typed, settings) {
        return read;
    }
    if let Some(diameter) = round(typed) {
        return Ok(Outline::Circle {
            diameter: read_length(FIELD, diameter, settings)?,
        });
    }
    let parts = sides(typed);
    match parts.as_slice() {
        [length, width] => {
            let (length, width) = pair(FIELD, length, width, settings)?;
            Ok(Outline::Rectangle { length, width })
        }
        [one] => {
            read_length(FIELD, one, settings)?;
            Err(FieldError::new(
                FIELD,
                format!("\"{}\" is one length alone: {CURE}", quoted(one)),
            ))
        }
        _ => Err(FieldError::new(
            FIELD,
            format!("\"{}\" has more than two lengths: {CURE}", quoted(typed)),
        )),
    }
}

/// A size as it would be typed.
pub fn write_size(outline: &Outline, settings: &Settings) -> String {
    write_outline(outline, &|length| write_length(length, settings))
}

/// What follows `round` (or stands before it).
fn round(text: &str) -> Option<&str> {
    const WORDS: [&str; 5] = ["round", "circle", "diameter", "dia", "ø"];
    let trim = |rest: &str| rest.starts_with(|c: char| !c.is_alphabetic());
    for word in WORDS {
        if let Some(head) = text.get(..word.len())
            && head.to_lowercase() == word
            && let Some(rest) = text.get(word.len()..)
            && (rest.is_empty() || trim(rest))
        {
            return Some(rest.trim_start_matches([' ', ':', '.']));
        }
        if let Some(at) = text.len().checked_sub(word.len())
            && let (Some(head), Some(tail)) = (text.get(..at), text.get(at..))
            && tail.to_lowercase() == word
            && head.ends_with(|c: char| !c.is_alphabetic())
        {
            return Some(head.trim_end());
        }
    }
    None
}

/// Splits at `x` (no unit of length has one inside), the times sign, or `by`.
pub(super) fn sides(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut rest = text;
    while let Some((at, width)) = cross(rest) {
        parts.push(rest[..at].trim());
        rest = &rest[at + width..];
    }
    parts.push(rest.trim());
    parts
}

fn cross(text: &str) -> Option<(usize, usize)> {
    let mark = text
        .char_indices()
        .find(|(_, c)| matches!(c, 'x' | 'X' | '×'));
    let mark = mark.map(|(at, c)| (at, c.len_utf8()));
    let word = [" by ", " BY ", " By "]
        .into_iter()
        .find_map(|by| text.find(by))
        .map(|at| (at, 4));
    match (mark, word) {
        (Some(mark), Some(word)) => Some(if mark.0 < word.0 { mark } else { word }),
        (mark, word) => mark.or(word),
    }
}

/// Two lengths that belong together: `30 x 16 in` says inches for both.
pub(super) fn pair(
    field: &'static str,
    first: &str,
    second: &str,
    settings: &Settings,
) -> Result<(Length, Length), FieldError> {
    let bare = |text: &str| !text.is_empty() && text.chars().all(is_of_number);
    let unit = second.trim_start_matches(is_of_number).trim();
    // Only a lone unit is carried over: behind feet and inches nothing is missing in front.
    let lone = !unit.is_empty() && !unit.contains(|c: char| c.is_ascii_digit());
    let first = if bare(first) && lone {
        // Not where the second is nonsense: then its own sentence tells.
        read_length(field, second, settings)?;
        read_length(field, &format!("{first} {unit}"), settings)?
    } else {
        read_length(field, first, settings)?
    };
    Ok((first, read_length(field, second, settings)?))
}

/// Two lengths that belong together, each with its unit where the second's would be taken for
/// the first's; `say` writes a length.
pub(super) fn write_two(first: Length, second: Length, say: Say<'_>) -> (String, String) {
    let (mut first, second) = (say(first), say(second));
    if second.ends_with("mm") && first.ends_with(|c: char| c.is_ascii_digit()) {
        first.push_str(" in");
    }
    (first, second)
}

fn is_of_number(c: char) -> bool {
    c.is_ascii_digit() || c.is_whitespace() || matches!(c, '/' | '.' | '-' | '¼'..='¾' | '⅛'..='⅞')
}

/// An edge profile: `square`, `eased 1/16`, `round-over 1/4`, `chamfer 1/8`. Nothing is square.
///
/// # Errors
/// What does not read, and what would, at `profile`.
pub fn read_profile(text: &str, settings: &Settings) -> Result<EdgeProfile, FieldError> {
    const FIELD: &str = "profile";
    let typed = text.trim();
    if typed.is_empty() {
        return Ok(EdgeProfile::Square);
    }
    let end = typed
        .find(|c: char| !(c.is_alphabetic() || c.is_whitespace() || matches!(c, '-' | '_')))
        .unwrap_or(typed.len());
    // A minus before the number belongs to the number.
    let name = typed[..end].trim_end().trim_end_matches('-');
    let size = typed[name.len()..].trim();
    let mut choices = vec![(None, "square".to_owned())];
    choices.extend(EdgeProfile::SIZED.into_iter().map(|make| {
        let code = make(Length::ZERO).code().to_owned();
        (Some(make), code)
    }));
    let said = plain(name);
    let name = match said.as_str() {
        "square edge" => "square",
        "eased edge" => "eased",
        "roundover" => "round-over",
        other => other,
    };
    match (pick(FIELD, name, &choices)?, size.is_empty()) {
        (None, true) => Ok(EdgeProfile::Square),
        (None, false) => Err(FieldError::new(
            FIELD,
            format!(
                "A square edge has no size: leave \"{}\" out, or say eased, round-over, chamfer, ogee, cove or bullnose.",
                quoted(size)
            ),
        )),
        (Some(_), true) => Err(FieldError::new(
            FIELD,
            format!(
                "\"{}\" has no size: type it behind, for example round-over 1/4.",
                quoted(typed)
            ),
        )),
        (Some(make), false) => read_length(FIELD, size, settings).map(make),
    }
}

/// A profile as it would be typed.
pub fn write_profile(profile: EdgeProfile, settings: &Settings) -> String {
    profile_with(profile, &|length| write_length(length, settings))
}

/// A profile as it would be typed; `say` writes a length.
pub(super) fn profile_with(profile: EdgeProfile, say: Say<'_>) -> String {
    if profile.is_square() {
        return profile.code().to_owned();
    }
    format!("{} {}", profile.code(), say(profile.reach()))
}
