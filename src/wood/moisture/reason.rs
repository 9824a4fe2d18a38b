//! What speaks for or against a piece's being ready, one thing at a time.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use super::content::MoistureContent;
use super::reading::Doubt;
use super::season::SeasonBand;

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Yes.
    Ready,
    /// Yes, minding what is said.
    WithCare,
    /// No.
    NotYet,
}

/// One thing that speaks for or against.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// Nothing was ever read.
    NoReadings,
    /// The last reading is too old.
    Stale {
        /// Days since.
        days: i64,
    },
    /// The readings at a place do not yet lie far enough apart.
    TooSoon {
        /// Where.
        place: String,
        /// From when on one more reading there can tell.
        due: DateTime<Utc>,
    },
    /// A place still dries or takes on water.
    Moving {
        /// Where.
        place: String,
        /// The earlier reading.
        from: MoistureContent,
        /// The later reading.
        to: MoistureContent,
        /// Days between them.
        days: i64,
    },
    /// A place was read longer ago than the others; it is not too wet, as far as was read.
    LeftBehind {
        /// Where.
        place: String,
        /// What was read last.
        content: MoistureContent,
        /// Days since.
        days: i64,
    },
    /// A place was too wet when it was last read, longer ago than the others.
    LeftWet {
        /// Where.
        place: String,
        /// What was read last.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
        /// Days since.
        days: i64,
    },
    /// A place is steady.
    Steady {
        /// Where.
        place: String,
        /// The earlier reading.
        from: MoistureContent,
        /// The later reading.
        to: MoistureContent,
        /// Days between them.
        days: i64,
    },
    /// Too wet to go on.
    TooWet {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
    },
    /// Wet enough to mind.
    Damp {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
    },
    /// A reading that may be off.
    Unsure {
        /// Where.
        place: String,
        /// What was read.
        content: MoistureContent,
        /// Why it may be off.
        doubt: Doubt,
    },
    /// Outside what the client's rooms will make of it.
    OutsideBand {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The band.
        band: SeasonBand,
    },
    /// Nothing is known of the client's rooms.
    NoBand,
}

impl Reason {
    /// What it makes of the answer.
    pub fn verdict(&self) -> Verdict {
        match self {
            Self::Steady { .. } => Verdict::Ready,
            Self::Damp { .. }
            | Self::Unsure { .. }
            | Self::LeftBehind { .. }
            | Self::OutsideBand { .. }
            | Self::NoBand => Verdict::WithCare,
            Self::NoReadings
            | Self::Stale { .. }
            | Self::TooSoon { .. }
            | Self::Moving { .. }
            | Self::TooWet { .. }
            | Self::LeftWet { .. } => Verdict::NotYet,
        }
    }

    /// One sentence; a due date is left to the caller, who knows the shop's zone.
    pub fn words(&self) -> String {
        match self {
            Self::NoReadings => "No moisture reading yet.".to_owned(),
            Self::Stale { days } => {
                format!("The last reading is {} old; read again.", days_words(*days))
            }
            Self::TooSoon { place, .. } => format!(
                "{place}: the readings do not lie far enough apart yet; read there again when due."
            ),
            Self::Moving {
                place,
                from,
                to,
                days,
            } => format!(
                "{place}: still moving, {} to {} in {}.",
                from.show(),
                to.show(),
                days_words(*days)
            ),
            Self::LeftBehind {
                place,
                content,
                days,
            } => format!(
                "{place}: last read {}, {} ago; read there again to be sure.",
                content.show(),
                days_words(*days)
            ),
            Self::LeftWet {
                place,
                content,
                limit,
                days,
            } => format!(
                "{place}: last read {}, {} ago, over the limit of {}; read there again.",
                content.show(),
                days_words(*days),
                limit.show()
            ),
            Self::Steady {
                place,
                from,
                to,
                days,
            } => format!(
                "{place}: steady, {} to {} in {}.",
                from.show(),
                to.show(),
                days_words(*days)
            ),
            Self::TooWet {
                place,
                content,
                limit,
            } => format!(
                "{place}: {} is over the limit of {}.",
                content.show(),
                limit.show()
            ),
            Self::Damp {
                place,
                content,
                limit,
            } => format!(
                "{place}: {} is over {}; it will shrink on.",
                content.show(),
                limit.show()
            ),
            Self::Unsure {
                place,
                content,
                doubt,
            } => format!("{place}: {} {}.", content.show(), doubt.words()),
            Self::OutsideBand {
                place,
                content,
                band,
            } => format!(
                "{place}: {} lies outside the {} of the client's year; wood should go in at what \
                 it will have in service (Wood Handbook p. 13-3).",
                content.show(),
                band.show()
            ),
            Self::NoBand => "The client's winter and summer air is not known.".to_owned(),
        }
    }
}

/// `1 day`, `7 days`.
fn days_words(days: i64) -> String {
    match days {
        1 => "1 day".to_owned(),
        days => format!("{days} days"),
    }
}
