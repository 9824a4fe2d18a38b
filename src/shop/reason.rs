//! Written reasons: when one says enough.

use super::blocker::Blocker;
use crate::shape::FaceKey;

/// A reason says something: `run` will do for a sand-back.
pub(super) fn needs_reason(face: FaceKey, reason: &str, out: &mut Vec<Blocker>) {
    if letters(reason) < 3 {
        out.push(Blocker::NoReason { face });
    }
}

/// A face is hidden for good, so its reason must still speak in five years.
pub(super) fn needs_full_reason(face: FaceKey, reason: &str, out: &mut Vec<Blocker>) {
    if !says_enough(reason) {
        out.push(Blocker::NoReason { face });
    }
}

/// Whether a reason still speaks in five years: two words and eight letters at least.
pub fn says_enough(reason: &str) -> bool {
    let words = reason
        .split_whitespace()
        .filter(|word| letters(word) > 0)
        .count();
    words >= 2 && letters(reason) >= 8
}

fn letters(text: &str) -> usize {
    text.chars().filter(|c| c.is_alphanumeric()).count()
}
