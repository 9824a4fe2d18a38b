//! A sheet as it was kept: the order the day was begun with, and the step under way.

use super::event::CoatKind;
use super::id::{JobId, PieceId};
use super::schedule::Grit;
use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// A step of a piece by what it will have done: stable from one sheet to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StepCode {
    /// A grit on all faces that ask for it.
    Sand(Grit),
    /// The wipe-down.
    WipeDown,
    /// A touch test of a coat found soft.
    Touch,
    /// Stain to be wiped off.
    WipeOff,
    /// The scuff or abrading before a coat.
    Scuff(CoatKind, u8),
    /// A coat, by its number.
    Coat(CoatKind, u8),
    /// The setting on site.
    Set,
}

impl StepCode {
    /// In words: `sand 120`, `coat 2`.
    pub fn words(self) -> String {
        match self {
            Self::Sand(grit) => format!("sand {grit}"),
            Self::WipeDown => "wipe down".to_owned(),
            Self::Touch => "touch test".to_owned(),
            Self::WipeOff => "wipe off the stain".to_owned(),
            Self::Scuff(kind, no) => format!("scuff before {}", coat(kind, no)),
            Self::Coat(kind, no) => coat(kind, no),
            Self::Set => "set".to_owned(),
        }
    }
}

fn coat(kind: CoatKind, no: u8) -> String {
    match kind {
        CoatKind::Stain if no <= 1 => "stain".to_owned(),
        _ => format!("{} {no}", kind.coat_word()),
    }
}

impl fmt::Display for StepCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sand(grit) => write!(f, "sand-{grit}"),
            Self::WipeDown => f.write_str("wipe-down"),
            Self::Touch => f.write_str("touch"),
            Self::WipeOff => f.write_str("wipe-off"),
            Self::Scuff(kind, no) => write!(f, "scuff-{}-{no}", kind.word()),
            Self::Coat(kind, no) => write!(f, "coat-{}-{no}", kind.word()),
            Self::Set => f.write_str("set"),
        }
    }
}

impl FromStr for StepCode {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("\"{text}\" is no step");
        let coat = |rest: &str| {
            let (kind, no) = rest.rsplit_once('-')?;
            let kind = CoatKind::ALL
                .into_iter()
                .find(|known| known.word() == kind)?;
            Some((kind, no.parse().ok()?))
        };
        match text {
            "wipe-down" => return Ok(Self::WipeDown),
            "touch" => return Ok(Self::Touch),
            "wipe-off" => return Ok(Self::WipeOff),
            "set" => return Ok(Self::Set),
            _ => {}
        }
        let (head, rest) = text.split_once('-').ok_or_else(wrong)?;
        match head {
            "sand" => rest.parse().ok().map(|grit| Self::Sand(Grit(grit))),
            "scuff" => coat(rest).map(|(kind, no)| Self::Scuff(kind, no)),
            "coat" => coat(rest).map(|(kind, no)| Self::Coat(kind, no)),
            _ => None,
        }
        .ok_or_else(wrong)
    }
}

impl Serialize for StepCode {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for StepCode {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

/// One step of one piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct StepKey {
    /// The piece.
    pub piece: PieceId,
    /// The step.
    pub step: StepCode,
}

/// One line of a kept sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptLine {
    /// The step.
    pub key: StepKey,
    /// When it was to start.
    pub start: DateTime<Utc>,
    /// When it was to end.
    pub end: DateTime<Utc>,
}

/// When a job was to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptJob {
    /// The job.
    pub job: JobId,
    /// Its end on the sheet.
    pub end: DateTime<Utc>,
}

/// A sheet as it was kept for a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptSheet {
    /// The day it was kept for.
    pub day: NaiveDate,
    /// When.
    pub at: DateTime<Utc>,
    /// Its lines, in order of time.
    pub lines: Vec<KeptLine>,
    /// The ends of the jobs.
    pub jobs: Vec<KeptJob>,
}

/// The step that a pair of hands is at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UnderWay {
    /// Which.
    pub key: StepKey,
    /// Since when.
    pub since: DateTime<Utc>,
}
