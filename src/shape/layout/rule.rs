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

const MM: fn(i64) -> Figure = |mm| Figure::Length(Length::from_mm(mm));
const EIGHTHS: fn(i64) -> Figure = |eighths| Figure::Length(Length::from_64ths(8 * eighths));

impl Rule {
    /// Every check, in the order they are made.
    pub const ALL: [Self; 26] = [
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
    ];

    /// The check of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|rule| rule.facts().word == word)
    }

    /// The check's word.
    pub fn word(self) -> &'static str {
        self.facts().word
    }

    /// What is known of it. Sources: fitting guides and care sheets of makers of wood tops, told
    /// apart by country; an architectural woodwork standard (2009); the US accessibility standard
    /// (2010).
    #[allow(clippy::too_many_lines)] // one row a check, side by side, reads best
    pub fn facts(self) -> RuleFacts {
        use SourceKind::{Code, Common, Maker, Press, Standard};
        use Weight::{Note, Serious, Warning};
        const UK: &str = "UK worktop fitting guide";
        let facts = |word, asks, figure, kind, source, weight| RuleFacts {
            word,
            asks,
            figure,
            kind,
            source,
            weight,
        };
        match self {
            Self::StripFront => facts(
                "strip-front",
                "wood in front of a cutout",
                MM(50),
                Maker,
                UK,
                Serious,
            ),
            Self::StripBack => facts(
                "strip-back",
                "wood behind a cutout",
                MM(50),
                Maker,
                UK,
                Warning,
            ),
            Self::EndStrip => facts(
                "end-strip",
                "from a cutout to an end",
                MM(100),
                Maker,
                "UK worktop fitting guide; a US maker asks 10 in",
                Warning,
            ),
            Self::ApronEnd => facts(
                "apron-end",
                "from an apron-front cutout to an end",
                MM(300),
                Maker,
                UK,
                Warning,
            ),
            Self::JointStrip => facts(
                "joint-strip",
                "from a cutout to a joint",
                MM(100),
                Maker,
                UK,
                Serious,
            ),
            Self::Between => facts(
                "between",
                "between two cutouts, propped below",
                MM(100),
                Maker,
                UK,
                Warning,
            ),
            Self::CornerRadius => facts(
                "corner-radius",
                "radius of a cutout's corners",
                EIGHTHS(2),
                Standard,
                "architectural woodwork standard (2009) for laminate, wood exempt; UK worktop fitting guide: round, never sharp",
                Warning,
            ),
            Self::CornerBit => facts(
                "corner-bit",
                "corner no tighter than the shop's bit",
                Figure::None,
                Common,
                "geometry: an inside corner is never tighter than the bit's radius",
                Warning,
            ),
            Self::FaucetLeast => facts(
                "faucet-least",
                "least faucet hole",
                EIGHTHS(10),
                Press,
                "faucet sellers' pages: 1 3/8 in usual, 1 1/4 to 1 1/2 seen",
                Note,
            ),
            Self::FaucetMost => facts(
                "faucet-most",
                "largest faucet hole",
                EIGHTHS(12),
                Press,
                "faucet sellers' pages: 1 3/8 in usual, 1 1/4 to 1 1/2 seen",
                Note,
            ),
            Self::FaucetClear => facts(
                "faucet-clear",
                "from a cutout to a faucet hole's middle",
                EIGHTHS(16),
                Common,
                "common practice, no source",
                Warning,
            ),
            Self::FaucetDeck => facts(
                "faucet-deck",
                "wood behind a sink with a faucet",
                EIGHTHS(24),
                Press,
                "page on undermount sinks: about 3 in or more",
                Warning,
            ),
            Self::FaucetThick => facts(
                "faucet-thick",
                "thickness a faucet's shank passes",
                EIGHTHS(12),
                Common,
                "common practice, no source: shanks pass 1 1/2 to 2 1/2 in",
                Note,
            ),
            Self::SinkBase => facts(
                "sink-base",
                "cabinet wider than its sink",
                EIGHTHS(24),
                Press,
                "two sink sellers' pages: 3 in, some allow 2 in",
                Warning,
            ),
            Self::SinkWall => facts(
                "sink-wall",
                "from a sink to the cabinet's side",
                MM(0),
                Common,
                "geometry: the sink must pass between the sides",
                Serious,
            ),
            Self::SinkRail => facts(
                "sink-rail",
                "from a sink to the cabinet's rail",
                MM(0),
                Common,
                "geometry: the sink must clear the rails",
                Serious,
            ),
            Self::OverhangAcross => facts(
                "overhang-across",
                "overhang across the grain, unsupported",
                EIGHTHS(80),
                Maker,
                "US maker: 10 in; another from 6 in on, a Canadian one 12 to 14 in",
                Serious,
            ),
            Self::OverhangAlong => facts(
                "overhang-along",
                "overhang along the grain, unsupported",
                EIGHTHS(192),
                Maker,
                "Canadian maker: 24 to 30 in by species and thickness",
                Warning,
            ),
            Self::BracketReach => facts(
                "bracket-reach",
                "part of an overhang its brackets reach",
                Figure::Percent(75),
                Maker,
                "US maker: 75 % or more",
                Warning,
            ),
            Self::BracketApart => facts(
                "bracket-apart",
                "from bracket to bracket",
                EIGHTHS(144),
                Maker,
                "US maker: every 12 to 18 in",
                Warning,
            ),
            Self::Span => facts(
                "span",
                "from support to support",
                EIGHTHS(288),
                Maker,
                "US maker: 36 in; woodwork standard, appendix: 30 to 36 in",
                Warning,
            ),
            Self::JointSteam => facts(
                "joint-steam",
                "no joint over a dishwasher",
                MM(0),
                Maker,
                "page on installation mistakes",
                Serious,
            ),
            Self::Steam => facts(
                "steam",
                "barrier over a dishwasher",
                Figure::None,
                Maker,
                "three makers: foil or moisture barrier, full width, lapping onto both neighbours",
                Warning,
            ),
            Self::Drip => facts(
                "drip",
                "drip groove behind the front edge, by a sink",
                EIGHTHS(3),
                Standard,
                "architectural woodwork standard (2009): 1/8 x 1/8 in, 3/8 in behind the edge, sealed",
                Note,
            ),
            Self::HeightMost => facts(
                "height-most",
                "height where accessibility is asked, most",
                EIGHTHS(272),
                Code,
                "US accessibility standard (2010) 902.3, 804.3, 606.3; local rules win",
                Serious,
            ),
            Self::HeightLeast => facts(
                "height-least",
                "height where accessibility is asked, least",
                EIGHTHS(224),
                Code,
                "US accessibility standard (2010) 902.3; local rules win",
                Serious,
            ),
        }
    }
}
