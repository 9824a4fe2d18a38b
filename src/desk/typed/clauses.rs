//! Clauses: a word that says what, and what is said of it: `run 25 1/2, leg 24, open front right`.

use super::error::FieldError;
use super::words::{either, quoted};

/// One clause: its word, and the text behind it.
pub(super) type Clause<'a> = (&'static str, &'a str);

/// The longest of these words that stands at the beginning of a text as a word of its own.
fn word_at_start(text: &str, words: &[&'static str]) -> Option<&'static str> {
    words
        .iter()
        .copied()
        .filter(|word| {
            text.get(..word.len())
                .is_some_and(|head| head.eq_ignore_ascii_case(word))
                && !text[word.len()..].starts_with(|c: char| c.is_alphanumeric())
        })
        .max_by_key(|word| word.len())
}

/// Reads clauses, parted by commas or by nothing at all.
///
/// # Errors
/// What stands where one of the words should, at `field`.
pub(super) fn read<'a>(
    field: &'static str,
    text: &'a str,
    words: &[&'static str],
) -> Result<Vec<Clause<'a>>, FieldError> {
    let part = |c: char| c.is_whitespace() || matches!(c, ',' | ':');
    let mut out: Vec<Clause<'a>> = Vec::new();
    let mut rest = text.trim_start_matches(part);
    while !rest.is_empty() {
        let Some(word) = word_at_start(rest, words) else {
            let names: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
            let message = format!(
                "\"{}\" does not begin with a word known here: say {}.",
                quoted(rest),
                either(&names)
            );
            return Err(FieldError::new(field, message));
        };
        let after = &rest[word.len()..];
        let end = end_of_value(after, words);
        out.push((word, after[..end].trim_matches(part)));
        rest = after[end..].trim_start_matches(part);
    }
    Ok(out)
}

/// Where the text behind a word ends: at a comma, or where another of the words begins.
pub(super) fn end_of_value(text: &str, words: &[&'static str]) -> usize {
    let mut inside = false;
    for (at, c) in text.char_indices() {
        if c == ',' {
            return at;
        }
        let letter = c.is_alphanumeric();
        if letter && !inside && c.is_alphabetic() && word_at_start(&text[at..], words).is_some() {
            return at;
        }
        inside = letter;
    }
    text.len()
}

/// The text of one clause, which must not be said twice.
///
/// # Errors
/// That it was, at `field`.
pub(super) fn one<'a>(
    field: &'static str,
    clauses: &[Clause<'a>],
    word: &'static str,
) -> Result<Option<&'a str>, FieldError> {
    let mut found = clauses.iter().filter(|(has, _)| *has == word);
    let first = found.next().map(|(_, value)| *value);
    if found.next().is_some() {
        let message = format!("\"{word}\" is said twice: say it once.");
        return Err(FieldError::new(field, message));
    }
    Ok(first)
}
