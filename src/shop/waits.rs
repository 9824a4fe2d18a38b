//! What a piece waits for, in words.

use super::blocker::Blocker;
use super::event::CoatKind;
use super::out_of_sight;
use super::schedule::Grit;
use super::stage::Stage;

use crate::units::moment::show_date;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// How a piece shows on the board, besides its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shows {
    /// A hand is wanted now.
    Ready,
    /// A recoat window was missed.
    Missed,
    /// Held: something was left out.
    Held,
    /// Drying: nothing to do before a known moment.
    Drying,
    /// Set, and its list finished.
    Done,
}

impl Shows {
    /// One word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::Missed => "missed",
            Self::Held => "held",
            Self::Drying => "drying",
            Self::Done => "done",
        }
    }
}

/// What a piece waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(
    missing_docs,
    reason = "the line above each variant says what its fields are"
)]
pub enum Waiting {
    /// A grit on some faces.
    Grit { grit: Grit, done: usize, of: usize },
    /// The wipe-down.
    WipeDown { done: usize, of: usize },
    /// The wipe-down's solvent to leave.
    FlashOff { ready: DateTime<Utc> },
    /// Nothing more here: move it along. `then` is what still keeps the first coat of the next
    /// stage from going on, if anything does: the piece may move, but no hand is wanted yet.
    MoveOn {
        to: Stage,
        then: Option<Box<Waiting>>,
    },
    /// A coat: so many faces done of those due.
    Lay {
        kind: CoatKind,
        no: u8,
        of: u8,
        done: usize,
        faces: usize,
    },
    /// The coat below to dry.
    Dry {
        kind: CoatKind,
        no: u8,
        of: u8,
        below: CoatKind,
        ready: DateTime<Utc>,
    },
    /// The next window to open: a coat between would lift the film.
    NextWindow {
        kind: CoatKind,
        no: u8,
        of: u8,
        ready: DateTime<Utc>,
    },
    /// A touch test found it soft: dries on until it is to be tested again; none means now.
    TestAgain {
        kind: CoatKind,
        no: u8,
        of: u8,
        again: Option<DateTime<Utc>>,
    },
    /// A scuff.
    Scuff,
    /// A missed window: abrade first.
    Abrade {
        kind: CoatKind,
        no: u8,
        of: u8,
        shut: DateTime<Utc>,
    },
    /// Stain to be wiped off.
    WipeOff { faces: usize },
    /// Something left out.
    Held { why: Blocker },
    /// The last coat to cure.
    Cure { ready: DateTime<Utc> },
    /// The set list.
    SetList { done: usize, of: usize },
    /// Finished.
    Finished { at: DateTime<Utc> },
}

impl Waiting {
    /// In words, as the board says it.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let when = |at: &DateTime<Utc>| out_of_sight::when(*at, now, zone);
        match self {
            Self::Grit { grit, done, of } => format!("{grit} grit: {}", of_faces(*done, *of)),
            Self::WipeDown { done, of } => format!("wipe down: {}", of_faces(*done, *of)),
            Self::FlashOff { ready } => format!("wipe-down flashes off {}", when(ready)),
            Self::MoveOn { to, then: None } => format!("ready to move to {to}"),
            Self::MoveOn {
                to,
                then: Some(then),
            } => format!("{}; can move to {to}", then.words(now, zone)),
            Self::Lay {
                kind,
                no,
                of,
                done: 0,
                ..
            } => format!("{}: ready", coat(*kind, *no, *of)),
            Self::Lay {
                kind,
                no,
                of,
                done,
                faces,
            } => {
                format!("{}: {done} of {faces} faces", coat(*kind, *no, *of))
            }
            Self::Dry {
                kind,
                no,
                of,
                below: CoatKind::Stain,
                ready,
            } => {
                format!("{}: stain dry {}", coat(*kind, *no, *of), when(ready))
            }
            Self::Dry {
                kind,
                no,
                of,
                ready,
                ..
            } => {
                format!("{}: dry to recoat {}", coat(*kind, *no, *of), when(ready))
            }
            Self::NextWindow {
                kind,
                no,
                of,
                ready,
            } => {
                format!(
                    "{}: would lift, next window {}",
                    coat(*kind, *no, *of),
                    when(ready)
                )
            }
            Self::TestAgain {
                kind,
                no,
                of,
                again,
            } => {
                let again = again.as_ref().map_or("now".to_owned(), when);
                format!("{}: still soft, test again {again}", coat(*kind, *no, *of))
            }
            Self::Scuff => "ready to scuff".to_owned(),
            Self::Abrade { kind, no, of, shut } => {
                format!(
                    "{}: window shut {}, abrade first",
                    coat(*kind, *no, *of),
                    when(shut)
                )
            }
            Self::WipeOff { faces: 1 } => "wipe off the stain: 1 face".to_owned(),
            Self::WipeOff { faces } => format!("wipe off the stain: {faces} faces"),
            Self::Held { why } => format!("held: {}", why.brief(now, zone)),
            Self::Cure { ready } => {
                format!("cures until {}", out_of_sight::until(*ready, now, zone))
            }
            Self::SetList { done, of } => format!("set list: {done} of {of}"),
            Self::Finished { at } => {
                let today = now.with_timezone(&zone).date_naive();
                format!(
                    "set {}",
                    show_date(at.with_timezone(&zone).date_naive(), today)
                )
            }
        }
    }

    /// In words with how it shows in front, where the words do not say that themselves.
    pub fn line(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let (words, shows) = (self.words(now, zone), self.shows().word());
        if words.starts_with(shows) || words.ends_with(shows) {
            words
        } else {
            format!("{shows}: {words}")
        }
    }

    /// The step at which hands are wanted next: of a piece that may move along, the one that
    /// stands between it and the first coat of the next stage.
    pub fn step(&self) -> &Self {
        match self {
            Self::MoveOn {
                then: Some(then), ..
            } => then,
            _ => self,
        }
    }

    /// How it shows.
    pub fn shows(&self) -> Shows {
        match self.step() {
            Self::Grit { .. }
            | Self::WipeDown { .. }
            | Self::MoveOn { .. }
            | Self::Lay { .. }
            | Self::Scuff
            | Self::TestAgain { again: None, .. }
            | Self::WipeOff { .. }
            | Self::SetList { .. } => Shows::Ready,
            Self::Abrade { .. } => Shows::Missed,
            Self::Held { .. } => Shows::Held,
            Self::FlashOff { .. }
            | Self::Dry { .. }
            | Self::NextWindow { .. }
            | Self::TestAgain { again: Some(_), .. }
            | Self::Cure { .. } => Shows::Drying,
            Self::Finished { .. } => Shows::Done,
        }
    }

    /// The moment it waits for, if that is known.
    pub fn until(&self) -> Option<DateTime<Utc>> {
        match self.step() {
            Self::FlashOff { ready }
            | Self::Dry { ready, .. }
            | Self::NextWindow { ready, .. }
            | Self::Cure { ready } => Some(*ready),
            Self::TestAgain { again, .. } => *again,
            _ => None,
        }
    }
}

/// `3 of 9 faces`, `0 of 1 face`.
fn of_faces(done: usize, of: usize) -> String {
    format!("{done} of {of} {}", if of == 1 { "face" } else { "faces" })
}

fn coat(kind: CoatKind, no: u8, of: u8) -> String {
    match kind {
        CoatKind::Stain if of <= 1 => "stain".to_owned(),
        _ => format!("{} {no} of {of}", kind.coat_word()),
    }
}
