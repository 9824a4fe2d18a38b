//! Places on a top: by numbers from the left end and the front edge, by centre lines, or from the
//! back edge: `49 1/4, 12 3/4`, `centre, 2 1/2 from back`, `cutout 1 + 4, 2 1/2 from back`.

use super::error::FieldError;
use super::size::{pair, read_length};
use super::words::quoted;
use crate::shape::{Opening, OpeningName, Outline, Place};
use crate::shop::Settings;
use crate::units::Length;

/// What a place can be measured from.
#[derive(Clone, Copy, Default)]
pub struct Onto<'a> {
    /// The outline, if it is known already.
    pub outline: Option<&'a Outline>,
    /// The openings that are already there.
    pub openings: &'a [Opening],
}

const CURE: &str = "after at, type the centre from the left end, a comma, and from the front edge, for example at 49 1/4, 12 3/4; or by centre lines, at cutout 1, 2 1/2 from back. Only an apron-front sink, which lies at the front, takes at centre alone.";

fn fail<T>(field: &'static str, message: impl Into<String>) -> Result<T, FieldError> {
    Err(FieldError::new(field, message))
}

/// Reads a place; `fixed` is the second part where the opening itself says it.
pub(super) fn read(
    field: &'static str,
    text: &str,
    fixed: Option<Length>,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Place, FieldError> {
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let (x, y) = match (parts.as_slice(), fixed) {
        ([x], Some(y)) => {
            return Ok(Place {
                x: along(field, x, onto, settings)?,
                y,
            });
        }
        ([x, y], _) => (*x, *y),
        _ => {
            return fail(
                field,
                format!("\"{}\" is not a place: {CURE}", quoted(text)),
            );
        }
    };
    let plain =
        |text: &str| text.starts_with(|c: char| c.is_ascii_digit() || "-.¼½¾⅛⅜⅝⅞".contains(c));
    let from_back = y.to_lowercase().find("from").filter(|at| {
        y.is_char_boundary(*at) && y[at + 4..].trim_start_matches(" the").trim() == "back"
    });
    if plain(x) && plain(y) && from_back.is_none() {
        let (x, y) = pair(field, x, y, settings)?;
        return Ok(Place { x, y });
    }
    let x = along(field, x, onto, settings)?;
    let Some(outline) = onto.outline else {
        let message = format!(
            "\"{}\" counts from the outline: give the size first.",
            quoted(text)
        );
        return match from_back {
            Some(_) => fail(field, message),
            None => Ok(Place {
                x,
                y: across(field, y, onto, settings)?,
            }),
        };
    };
    let y = match from_back {
        None => across(field, y, onto, settings)?,
        Some(at) => {
            let far = read_length(field, y[..at].trim(), settings)?;
            let Some(back) = outline.back_at(x) else {
                return fail(
                    field,
                    format!("There is no back edge behind \"{}\": {CURE}", quoted(text)),
                );
            };
            back - far
        }
    };
    Ok(Place { x, y })
}

/// `centre`, `cutout 1`, `hole 2`, a number; with `+ 4` or `- 4` behind.
fn along(
    field: &'static str,
    text: &str,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Length, FieldError> {
    line(
        field,
        text,
        onto,
        settings,
        |place| place.x,
        |outline| outline.extent().0,
    )
}

fn across(
    field: &'static str,
    text: &str,
    onto: Onto<'_>,
    settings: &Settings,
) -> Result<Length, FieldError> {
    line(
        field,
        text,
        onto,
        settings,
        |place| place.y,
        |outline| outline.extent().1,
    )
}

fn line(
    field: &'static str,
    text: &str,
    onto: Onto<'_>,
    settings: &Settings,
    of: fn(&Place) -> Length,
    whole: fn(&Outline) -> Length,
) -> Result<Length, FieldError> {
    let lower = text.to_lowercase();
    let word = ["centre", "center", "middle", "cutout", "hole"]
        .into_iter()
        .find(|word| lower.starts_with(word));
    let Some(word) = word else {
        return read_length(field, text, settings);
    };
    let rest = text[word.len()..].trim();
    let sign = rest.find(['+', '-']);
    let (which, offset) = rest.split_at(sign.unwrap_or(rest.len()));
    let which = which.trim();
    let start = match word {
        "cutout" | "hole" => {
            let no = which.parse::<u8>().ok();
            let name = no.map(|no| {
                if word == "cutout" {
                    OpeningName::Cutout(no)
                } else {
                    OpeningName::Hole(no)
                }
            });
            let found = onto
                .openings
                .iter()
                .find(|opening| Some(opening.name()) == name);
            match found {
                Some(opening) => of(&opening.place),
                None => {
                    return fail(
                        field,
                        format!(
                            "There is no {word} {} to measure from: {CURE}",
                            quoted(which)
                        ),
                    );
                }
            }
        }
        _ => match onto.outline {
            Some(outline) if which.is_empty() => Length::from_nm(whole(outline).nm().div_euclid(2)),
            Some(_) => {
                return fail(
                    field,
                    format!("\"{}\" is not a place: {CURE}", quoted(text)),
                );
            }
            None => {
                return fail(
                    field,
                    "The centre counts from the outline: give the size first.",
                );
            }
        },
    };
    let Some(by) = offset.get(1..).map(str::trim) else {
        return Ok(start);
    };
    let by = read_length(field, by, settings)?;
    Ok(if offset.starts_with('+') {
        start + by
    } else {
        start - by
    })
}
