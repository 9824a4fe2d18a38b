//! The five stages, in their order.

use serde::{Deserialize, Serialize};

/// Where a piece stands: always one of these five, in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Every face through every grit, then the wipe-down.
    Sanding,
    /// Seal coats.
    Sealing,
    /// Stain, wiped off.
    Staining,
    /// The film or oil, coat by coat.
    Topcoats,
    /// On site.
    Set,
}

impl Stage {
    /// All five, first to last.
    pub const ALL: [Self; 5] = [
        Self::Sanding,
        Self::Sealing,
        Self::Staining,
        Self::Topcoats,
        Self::Set,
    ];

    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sanding => "sanding",
            Self::Sealing => "sealing",
            Self::Staining => "staining",
            Self::Topcoats => "topcoats",
            Self::Set => "set",
        }
    }

    /// Reads the word back.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|stage| stage.word() == word)
    }
}

impl std::fmt::Display for Stage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.word())
    }
}
