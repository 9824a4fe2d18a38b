//! The checks by name: the figure each goes by, who says so, how much it weighs.
//!
//! Makers and guides differ; every figure here is a default that the shop may change.

use crate::units::Length;
use serde::{Deserialize, Serialize};

/// A check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// Wood left in front of a cutout.
    StripFront,
    /// Wood left behind a cutout.
    StripBack,
    /// From a cutout to an end.
    EndStrip,
    /// From an apron-front sink's cutout to an end.
    ApronEnd,
    /// From a cutout to a joint.
    JointStrip,
    /// Between two cutouts.
    Between,
    /// Radius of a cutout's corners.
    CornerRadius,
    /// The bit that reaches into a cutout's corners.
    CornerBit,
    /// The least faucet hole.
    FaucetLeast,
    /// The largest faucet hole.
    FaucetMost,
    /// From a sink's cutout to the middle of a faucet hole.
    FaucetClear,
    /// Wood left behind a sink where a faucet stands.
    FaucetDeck,
    /// Thickness a faucet's shank passes through.
    FaucetThick,
    /// A sink's width against its cabinet's.
    SinkBase,
    /// From a sink to the cabinet's side.
    SinkWall,
    /// From a sink to the cabinet's rail.
    SinkRail,
    /// What must be measured before a sink can be held against its cabinet's rails.
    CabinetMeasure,
    /// From a hole to the sink below.
    HoleSink,
    /// Hanging out across the grain, nothing below.
    OverhangAcross,
    /// Hanging out along the grain, nothing below.
    OverhangAlong,
    /// How much of an overhang its brackets reach under.
    BracketReach,
    /// How far apart brackets stand.
    BracketApart,
    /// How far from one support to the next.
    Span,
    /// A joint over an appliance that gives steam.
    JointSteam,
    /// What keeps the steam of a dishwasher off the wood.
    Steam,
    /// The drip groove under the front edge.
    Drip,
    /// Height over the floor where accessibility is asked, the most.
    HeightMost,
    /// Height over the floor where accessibility is asked, the least.
    HeightLeast,
    /// What the second diagonal of a top out of square is off.
    Closing,
}

/// What kind of source a figure has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SourceKind {
    /// A maker's or seller's fitting guide.
    Maker,
    /// A standard of the trade.
    Standard,
    /// A building or accessibility rule.
    Code,
    /// Trade press or another page.
    Press,
    /// Usual in the trade, no single authority.
    Common,
    /// The shop's own.
    Shop,
}

impl SourceKind {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Maker => "maker's guide",
            Self::Standard => "standard",
            Self::Code => "code",
            Self::Press => "trade page",
            Self::Common => "common practice",
            Self::Shop => "the shop's own",
        }
    }
}

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Weight {
    /// Worth knowing.
    Note,
    /// Worth changing.
    Warning,
    /// Stop and think.
    Serious,
}

impl Weight {
    /// All, the lightest first.
    pub const ALL: [Self; 3] = [Self::Note, Self::Warning, Self::Serious];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Serious => "serious",
        }
    }
}

/// The figure a check goes by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Figure {
    /// A length.
    Length(Length),
    /// A share, in percent.
    Percent(u32),
    /// None: the check asks whether, not how much.
    None,
}

/// What is known of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleFacts {
    /// Its word, as typed and stored.
    pub word: &'static str,
    /// What it asks, in a few words.
    pub asks: &'static str,
    /// The figure to begin with.
    pub figure: Figure,
    /// What kind of source the figure has.
    pub kind: SourceKind,
    /// The source, and what others say.
    pub source: &'static str,
    /// How much a finding weighs to begin with.
    pub weight: Weight,
}

impl Rule {
    /// Every check, in the order they are made.
    pub const ALL: [Self; 29] = [
        Self::StripFront,
        Self::StripBack,
        Self::EndStrip,
        Self::ApronEnd,
        Self::JointStrip,
        Self::Between,
        Self::CornerRadius,
        Self::CornerBit,
        Self::FaucetLeast,
        Self::FaucetMost,
        Self::FaucetClear,
        Self::FaucetDeck,
        Self::FaucetThick,
        Self::SinkBase,
        Self::SinkWall,
        Self::SinkRail,
        Self::CabinetMeasure,
        Self::HoleSink,
        Self::OverhangAcross,
        Self::OverhangAlong,
        Self::BracketReach,
        Self::BracketApart,
        Self::Span,
        Self::JointSteam,
        Self::Steam,
        Self::Drip,
        Self::HeightMost,
        Self::HeightLeast,
        Self::Closing,
    ];

    /// The check of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|rule| rule.facts().word == word)
    }

    /// The check's word.
    pub fn word(self) -> &'static str {
        self.facts().word
    }
}
