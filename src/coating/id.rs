//! Identifiers: time-ordered 128-bit values (`UUIDv7`, RFC 9562), one type for each kind of thing
//! so that a job's number can never be handed in where a piece's is asked.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Declares an identifier type over [`Uuid`].
macro_rules! id_type {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash,
            serde::Serialize, serde::Deserialize,
        )]
        #[serde(transparent)]
        pub struct $name(pub uuid::Uuid);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }

        impl std::str::FromStr for $name {
            type Err = uuid::Error;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                text.parse().map($name)
            }
        }
    };
}
pub(crate) use id_type;

id_type!(
    /// Names one product on the shelf.
    ProductId
);

/// Makes identifiers: each is later in order than every one made before it, also when the
/// machine's clock jumps back, because the order of the log hangs on it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Mint {
    last: u128,
    random: u64,
}

impl Mint {
    /// Starts after `last` (the highest identifier already in the store, or zero). `random` is any
    /// random number, so that two machines never make the same identifier.
    pub fn new(last: Uuid, random: u64) -> Self {
        Self {
            last: last.as_u128(),
            random: random | 1,
        }
    }

    /// Makes sure that what comes next is later than `last` too: a store that others write to as
    /// well may hold identifiers later than any made here.
    pub fn raise(&mut self, last: Uuid) {
        self.last = self.last.max(last.as_u128());
    }

    /// The next identifier for the moment `at_ms` (milliseconds since 1970).
    pub fn next(&mut self, at_ms: i64) -> Uuid {
        // A linear congruential step is enough: the value only has to differ between machines,
        // nothing secret hangs on it.
        self.random = self
            .random
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let millis = u64::try_from(at_ms).unwrap_or(0);
        let mut bytes = [0_u8; 10];
        bytes[..8].copy_from_slice(&self.random.to_be_bytes());
        bytes[8..].copy_from_slice(&(self.random >> 17).to_le_bytes()[..2]);
        let fresh = uuid::Builder::from_unix_timestamp_millis(millis, &bytes)
            .into_uuid()
            .as_u128();
        let next = if fresh > self.last {
            fresh
        } else {
            bump(self.last, u128::from(self.random >> 24) | 1)
        };
        self.last = next;
        Uuid::from_u128(next)
    }
}

/// `step` more than `value` in the random part, keeping the version and variant bits of the format.
/// The step is itself random: two programs that start from the same last identifier at the same
/// moment must not go on alike.
fn bump(value: u128, step: u128) -> u128 {
    // The low 62 bits are free; carrying past them would touch the variant, so go on in the
    // 48-bit time field instead.
    let low = (1_u128 << 62) - 1;
    if (value & low) + step > low {
        (value & !low) + (1_u128 << 80) + (step & low)
    } else {
        value + step
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn later_is_greater_even_when_the_clock_goes_back() {
        let mut mint = Mint::new(Uuid::nil(), 42);
        let mut last = Uuid::nil();
        for at in [1_000_000, 1_000_000, 999_000, 5, 2_000_000, 1_999_999] {
            let id = mint.next(at);
            assert!(id > last, "{id} is not after {last}");
            assert_eq!(id.get_version_num(), 7);
            last = id;
        }
    }

    #[test]
    fn two_machines_differ() {
        let (mut a, mut b) = (Mint::new(Uuid::nil(), 1), Mint::new(Uuid::nil(), 3));
        assert_ne!(a.next(77), b.next(77));
    }

    #[test]
    fn two_programs_on_one_store_do_not_go_on_alike() {
        let last = Mint::new(Uuid::nil(), 9).next(1_000_000);
        let (mut a, mut b) = (Mint::new(last, 1), Mint::new(last, 3));
        for at in [5, 1_000_000, 6] {
            assert_ne!(a.next(at), b.next(at));
        }
        let newest = a.next(2_000_000);
        b.raise(newest);
        assert!(b.next(7) > newest);
    }

    #[test]
    fn a_full_low_part_carries_into_the_time() {
        let full = Uuid::from_u128((7_u128 << 76) | (2_u128 << 62) | ((1_u128 << 62) - 1));
        let mut mint = Mint::new(full, 1);
        let next = mint.next(0);
        assert!(next > full);
        assert_eq!(next.get_version_num(), 7);
    }
}
