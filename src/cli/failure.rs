//! Why a command ended without doing what was asked, and with which exit code.

use crate::desk::typed::FieldError;
use crate::desk::{BooksError, DeskError};
use crate::units::clean_line;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::error::Error;

/// The exit codes.
pub mod exit {
    /// Something was wrong with what was asked, in words.
    pub const FAILED: u8 = 1;
    /// The arguments do not read.
    pub const USAGE: u8 = 2;
    /// A gate held it back; every reason was told.
    pub const REFUSED: u8 = 3;
    /// It was done (or read), but the answer could not be written.
    pub const UNTOLD: u8 = 4;
}

/// Why a command ended without doing what was asked, or without saying so. Nothing of it was saved,
/// unless it is [`Failure::Untold`].
#[derive(Debug)]
pub enum Failure {
    /// Sentences for the person.
    Said(Vec<String>),
    /// The arguments do not go together.
    Usage(Vec<String>),
    /// A gate held it back: what, then every reason on its own line.
    Refused(Vec<String>),
    /// The answer could not be written, though what was asked may be done and saved.
    Untold(String),
    /// Something no sentence was written for.
    Unexpected(Box<dyn Error + Send + Sync>),
}

impl Failure {
    /// One sentence.
    pub fn said(sentence: impl Into<String>) -> Self {
        Self::Said(vec![sentence.into()])
    }

    /// Something unexpected.
    pub fn unexpected(error: impl Into<Box<dyn Error + Send + Sync>>) -> Self {
        Self::Unexpected(error.into())
    }

    /// What the desk answered.
    pub fn of_desk(error: &DeskError, now: DateTime<Utc>, zone: Tz) -> Self {
        let lines = error.lines(now, zone);
        match error {
            DeskError::Refused { .. } | DeskError::RagsOpen { .. } | DeskError::RagsLeft { .. } => {
                Self::Refused(lines)
            }
            _ => Self::Said(lines),
        }
    }

    /// The same, where the way to insist has a name.
    #[must_use]
    pub fn named_sure(self) -> Self {
        match self {
            Self::Said(lines) => Self::Said(
                lines
                    .into_iter()
                    .map(|line| line.replace("say that you are sure", "add --sure"))
                    .collect(),
            ),
            other => other,
        }
    }

    /// What it says, line by line, clean of control characters: parts of it were typed.
    pub fn lines(&self) -> Vec<String> {
        match self {
            Self::Said(lines) | Self::Usage(lines) | Self::Refused(lines) => {
                lines.iter().map(|line| cleaned(line)).collect()
            }
            Self::Untold(sentence) => vec![cleaned(sentence)],
            Self::Unexpected(error) => {
                let said = cleaned(&error.to_string().replace('\n', " "));
                let said = said.trim_end_matches('.');
                vec![format!("{said}. What was confirmed before is saved.")]
            }
        }
    }

    /// Its exit code.
    pub fn code(&self) -> u8 {
        match self {
            Self::Said(_) | Self::Unexpected(_) => exit::FAILED,
            Self::Usage(_) => exit::USAGE,
            Self::Untold(_) => exit::UNTOLD,
            Self::Refused(_) => exit::REFUSED,
        }
    }
}

/// One line without control characters; the blanks in front stay.
fn cleaned(line: &str) -> String {
    let text = line.trim_start_matches(' ');
    let margin = line.get(..line.len() - text.len()).unwrap_or_default();
    format!("{margin}{}", clean_line(text).0)
}

impl From<BooksError> for Failure {
    fn from(error: BooksError) -> Self {
        Self::said(error.to_string())
    }
}

/// The option a field of what was typed came from; names and titles stand without one.
fn option_of(field: &str) -> Option<String> {
    Some(match field {
        "name" | "title" | "verdict" | "client" | "item" | "chore" | "value" => return None,
        "cutouts" => "--cutout".to_owned(),
        "holes" => "--hole".to_owned(),
        "amount" => "--used".to_owned(),
        "cure_days" => "--cure".to_owned(),
        "scuff" => "scuff".to_owned(),
        "house_built" => "--built".to_owned(),
        "shop_name" => "--name".to_owned(),
        "shop_address" => "--address".to_owned(),
        other => format!("--{}", other.replace('_', "-")),
    })
}

impl From<FieldError> for Failure {
    fn from(error: FieldError) -> Self {
        Self::from(vec![error])
    }
}

impl From<Vec<FieldError>> for Failure {
    fn from(errors: Vec<FieldError>) -> Self {
        let say = |error: FieldError| match option_of(error.field) {
            Some(option) => format!("{option}: {}", error.message),
            None => error.message,
        };
        Self::Said(errors.into_iter().map(say).collect())
    }
}
