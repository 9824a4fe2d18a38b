//! Written reasons: what says enough to be understood years later.

use super::blocker::Blocker;
use super::check::{Gates, Strictness};
use crate::shape::FaceKey;

/// From here on (kana, ideographs, hangul: Unicode chart "CJK Radicals Supplement" and after) one
/// sign is a syllable or a word, and says at least as much as two letters.
const SYLLABLES: char = '\u{2e80}';
/// Up to here (Latin, Greek, Cyrillic, Armenian: before the chart "Hebrew") words stand apart for
/// certain. Later scripts may set no blanks, so their words are not counted.
const SPACED: char = '\u{0590}';

/// What a reason is written for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReasonFor {
    /// A sand-back: `run` will do.
    SandBack,
    /// A face that is hidden for good: the reason must still speak in five years, so two words
    /// and eight letters at least.
    Hiding,
}

impl ReasonFor {
    /// Whether the text is reason enough.
    pub fn is_met_by(self, reason: &str) -> bool {
        match self {
            Self::SandBack => letters(reason) >= 3,
            Self::Hiding => {
                let words = reason.split_whitespace().filter(|word| letters(word) > 0);
                let spaced = reason.chars().all(|c| !c.is_alphanumeric() || c < SPACED);
                letters(reason) >= 8 && (!spaced || words.count() >= 2)
            }
        }
    }

    /// What would do, in words.
    pub fn asks(self) -> &'static str {
        match self {
            Self::SandBack => {
                "write the reason, a word like run or scratch; it stays on the ticket"
            }
            Self::Hiding => {
                "write the reason in two words or more, like glued to the wall; it stays on the \
                 ticket"
            }
        }
    }
}

impl Gates<'_> {
    /// A reason is asked. One on record was written when it was done: it only has to be there.
    pub(super) fn needs_reason(
        &self,
        face: FaceKey,
        what: ReasonFor,
        reason: &str,
        out: &mut Vec<Blocker>,
    ) {
        let met = match self.strictness {
            Strictness::Live => what.is_met_by(reason),
            Strictness::Record => letters(reason) > 0,
        };
        if !met {
            out.push(Blocker::NoReason { face, what });
        }
    }
}

/// How many letters a text has, a syllable or word sign counted as two.
fn letters(text: &str) -> usize {
    text.chars()
        .filter(|c| c.is_alphanumeric())
        .map(|c| if c < SYLLABLES { 1 } else { 2 })
        .sum()
}
