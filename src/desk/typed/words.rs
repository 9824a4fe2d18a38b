//! Picking one of several words, numbers and text fit for a message.

use super::error::FieldError;
use crate::shape::Construction;
use crate::shop::PieceKind;
use crate::units::clean_line;

/// The kinds of piece with their words.
pub fn kind_words() -> Vec<(PieceKind, String)> {
    PieceKind::ALL
        .into_iter()
        .map(|kind| (kind, kind.word().to_owned()))
        .collect()
}

/// The constructions with their words.
pub fn construction_words() -> Vec<(Construction, String)> {
    Construction::ALL
        .into_iter()
        .map(|built| (built, built.to_string()))
        .collect()
}

/// Foreign text made fit for a message: cleaned and cut at 40 characters.
pub(super) fn quoted(text: &str) -> String {
    let (line, _) = clean_line(text);
    if line.chars().count() <= 40 {
        return line;
    }
    let mut short: String = line.chars().take(39).collect();
    short.push('…');
    short
}

/// Lower case, hyphens and underscores as spaces, single spaces.
pub(super) fn plain(text: &str) -> String {
    let text = text.to_lowercase().replace(['-', '_'], " ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `a, b or c`.
pub(super) fn either(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

/// The one meant by a word: said in full, by a beginning that only one has, or by the beginning of
/// a word inside that only one has ("slab").
///
/// # Errors
/// One sentence at `field`, naming the choices.
pub fn pick<T: Clone>(
    field: &'static str,
    text: &str,
    choices: &[(T, String)],
) -> Result<T, FieldError> {
    let typed = plain(text);
    let all: Vec<String> = choices.iter().map(|(_, word)| word.clone()).collect();
    if typed.is_empty() {
        return Err(FieldError::new(
            field,
            format!("Nothing was picked: say {}.", either(&all)),
        ));
    }
    let whole = |word: &str| word == typed;
    let begins = |word: &str| word.starts_with(&typed);
    let inside = |word: &str| word.split(' ').any(|part| part.starts_with(&typed));
    let tests: [&dyn Fn(&str) -> bool; 3] = [&whole, &begins, &inside];
    for test in tests {
        let found: Vec<&(T, String)> = choices
            .iter()
            .filter(|(_, word)| test(&plain(word)))
            .collect();
        match found.as_slice() {
            [] => {}
            [(value, _)] => return Ok(value.clone()),
            several => {
                let words: Vec<String> = several.iter().map(|(_, word)| word.clone()).collect();
                let message = format!(
                    "\"{}\" may be {}: type more of it.",
                    quoted(text),
                    either(&words)
                );
                return Err(FieldError::new(field, message));
            }
        }
    }
    let message = format!(
        "\"{}\" is not among them: say {}.",
        quoted(text),
        either(&all)
    );
    Err(FieldError::new(field, message))
}

/// A plain number, digits with at most one point: no signs, no exponents, no words.
pub(super) fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    let fit = text.bytes().all(|b| b.is_ascii_digit() || b == b'.')
        && text.bytes().any(|b| b.is_ascii_digit());
    fit.then(|| text.parse().ok()).flatten()
}

/// Splits `2.5 h` into the number in front and the rest, trimmed.
pub(super) fn number_and_rest(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let end = text
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(text.len());
    Some((number(&text[..end])?, text[end..].trim()))
}

/// A whole number of something, zero to 255.
pub(super) fn count(field: &'static str, what: &str, text: &str) -> Result<u8, FieldError> {
    let typed = text.trim();
    let digits = !typed.is_empty() && typed.bytes().all(|b| b.is_ascii_digit());
    let value = typed.parse().ok().filter(|_| digits);
    value.ok_or_else(|| {
        let message = if digits {
            format!(
                "\"{}\" is far more {what} than can be asked: type a smaller number.",
                quoted(text)
            )
        } else if typed.is_empty() {
            format!("How many {what} is not said: type a whole number, 0 for none.")
        } else {
            format!(
                "\"{}\" is no number of {what}: type a whole number, 0 for none.",
                quoted(text)
            )
        };
        FieldError::new(field, message)
    })
}

/// Yes or no.
pub(super) fn yes_no(field: &'static str, text: &str) -> Result<bool, FieldError> {
    match plain(text).as_str() {
        "y" | "yes" | "stained" => Ok(true),
        "" | "n" | "no" | "none" => Ok(false),
        _ => Err(FieldError::new(
            field,
            format!("\"{}\" is neither: say yes or no.", quoted(text)),
        )),
    }
}
