//! Keys of the files and the identifiers they stand for.

use super::error::Fault;
use super::table::short;
use crate::coating::id::Mint;
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// Gives identifiers: one of the program's own is kept, any other word gets a new one.
pub(super) struct Keys<'m> {
    mint: &'m mut Mint,
    at_ms: i64,
    used: HashSet<Uuid>,
    greatest: Uuid,
}

/// 2^43 ms after 1970 is the year 2248: a later identifier was not made by this program, and all
/// that come after it would have to be later still.
const LATEST_MS: u128 = 1 << 43;

/// The identifier that a key is, if it is one of the program's own (`UUIDv7`, RFC 9562).
fn own(key: &str) -> Option<Uuid> {
    let id = Uuid::parse_str(key)
        .ok()
        .filter(|id| key.len() == 36 && id.get_version_num() == 7)?;
    let variant = id.get_variant() == uuid::Variant::RFC4122;
    (variant && id.as_u128() >> 80 < LATEST_MS).then_some(id)
}

impl<'m> Keys<'m> {
    pub(super) fn new(mint: &'m mut Mint, at_ms: i64) -> Self {
        Self {
            mint,
            at_ms,
            used: HashSet::new(),
            greatest: Uuid::nil(),
        }
    }

    /// A new identifier.
    pub(super) fn mint(&mut self) -> Uuid {
        loop {
            let id = self.mint.next(self.at_ms);
            if self.used.insert(id) {
                return id;
            }
        }
    }

    /// The identifier of a key: kept if it is one, else new. None if it was given before.
    pub(super) fn of(&mut self, key: &str) -> Option<Uuid> {
        self.of_or(key, None)
    }

    /// The same, but a key that is a word takes `there` rather than a new one.
    pub(super) fn of_or(&mut self, key: &str, there: Option<Uuid>) -> Option<Uuid> {
        match own(key).or(there) {
            Some(id) => {
                self.greatest = self.greatest.max(id);
                self.used.insert(id).then_some(id)
            }
            None => Some(self.mint()),
        }
    }

    /// Sees to it that what is made from now on comes after this key and all that were kept, so
    /// that a line without a key can follow lines that have one.
    pub(super) fn after(&mut self, key: &str) {
        let kept = own(key).map_or(self.greatest, |id| id.max(self.greatest));
        self.greatest = kept;
        self.mint.raise(kept);
    }

    /// Sees to it that whatever is made from now on comes after all that was kept.
    pub(super) fn settle(self) {
        let next = self.mint.next(self.at_ms);
        if next <= self.greatest
            && let Ok(later) = i64::try_from((self.greatest.as_u128() >> 80) + 1)
        {
            self.mint.next(later);
        }
    }
}

/// A key as it may be written: a word of letters, digits, `-`, `_` and `.`.
pub(super) fn word(text: &str) -> Result<String, String> {
    let fits = text
        .chars()
        .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.'));
    if fits && text.chars().count() <= 60 {
        return Ok(text.to_owned());
    }
    Err(format!(
        "\"{}\" is no key: write one word of up to 60 letters, digits, - _ and .",
        short(text)
    ))
}

/// The keys of one kind of thing.
pub(super) struct Ring<T> {
    what: &'static str,
    of: HashMap<String, T>,
}

impl<T: Copy> Ring<T> {
    pub(super) fn new(what: &'static str) -> Self {
        Self {
            what,
            of: HashMap::new(),
        }
    }

    /// Hangs a key on the ring.
    pub(super) fn hang(&mut self, key: &str, thing: T) -> Result<(), Fault> {
        let before = self.of.insert(key.to_owned(), thing);
        if before.is_some() {
            Err(self.twice(key))
        } else {
            Ok(())
        }
    }

    /// The key is there already.
    pub(super) fn twice(&self, key: &str) -> Fault {
        Fault::Twice {
            what: self.what,
            key: short(key),
        }
    }

    /// What a key stands for.
    pub(super) fn find(&self, key: &str) -> Result<T, Fault> {
        let unknown = || Fault::Unknown {
            what: self.what,
            key: short(key),
        };
        self.of.get(key).copied().ok_or_else(unknown)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_identifiers_are_kept_and_later_ones_come_after_them() {
        let mut far = Mint::new(Uuid::nil(), 7);
        let kept = far.next(4_000_000_000_000);
        let mut mint = Mint::new(Uuid::nil(), 9);
        let mut keys = Keys::new(&mut mint, 1_000);
        assert_eq!(keys.of(&kept.to_string()), Some(kept));
        assert_eq!(keys.of(&kept.to_string()), None, "twice");
        assert_ne!(keys.of("island"), None);
        // No identifier of ours: version 4, and one at the end of all numbers.
        for foreign in [
            "9f0c1f6e-35a3-4b1e-8a44-0f2a6f2b7a10",
            "ffffffff-ffff-7fff-bfff-ffffffffffff",
        ] {
            let made = keys.of(foreign).unwrap();
            assert_ne!(made.to_string(), foreign);
        }
        keys.settle();
        assert!(mint.next(1_000) > kept);
    }

    #[test]
    fn keys_are_words() {
        assert!(word("bar-top_2.1").is_ok());
        for bad in ["two words", "a/b", &"x".repeat(61)] {
            assert!(word(bad).is_err(), "{bad}");
        }
    }
}
