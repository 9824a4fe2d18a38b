//! Where a figure comes from, and so how far it may be trusted.

use serde::{Deserialize, Serialize};

/// How a figure came to be known here, the firmest first: of two figures that make a third, the
/// later in this order is the standing of the third.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Read in the document that is named.
    Retrieved,
    /// Read where another text quotes the document.
    SecondHand,
    /// Worked out here from published figures.
    Derived,
    /// Entered by the shop.
    ShopsOwn,
    /// From memory, and reproduced here from published figures.
    #[serde(rename = "memory+derived")]
    MemoryDerived,
    /// From memory alone.
    Memory,
    /// Common practice, no source.
    Practice,
    /// A judgement made for this program.
    Judgement,
}

impl Standing {
    /// Every standing, the firmest first.
    pub const ALL: [Self; 8] = [
        Self::Retrieved,
        Self::SecondHand,
        Self::Derived,
        Self::ShopsOwn,
        Self::MemoryDerived,
        Self::Memory,
        Self::Practice,
        Self::Judgement,
    ];

    /// The words on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            Self::Retrieved => "read in the document",
            Self::SecondHand => "read second-hand",
            Self::Derived => "worked out from published figures",
            Self::ShopsOwn => "your own figure",
            Self::MemoryDerived => "from memory, agrees with published shrinkage",
            Self::Memory => "from memory",
            Self::Practice => "common practice, no source",
            Self::Judgement => "a judgement, no source",
        }
    }

    /// Whether the figure rests on memory, and so should be checked before much hangs on it.
    pub fn is_memory(self) -> bool {
        matches!(self, Self::MemoryDerived | Self::Memory)
    }

    /// The less firm of two.
    #[must_use]
    pub fn weaker(self, other: Self) -> Self {
        self.max(other)
    }
}
