//! What is known of each check: one row a check, its figure, who says so, how much it weighs.

use super::rule::{Figure, Rule, RuleFacts, SourceKind, Weight};
use crate::units::Length;

const MM: fn(i64) -> Figure = |mm| Figure::Length(Length::from_mm(mm));
const EIGHTHS: fn(i64) -> Figure = |eighths| Figure::Length(Length::from_64ths(8 * eighths));

impl Rule {
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
            Self::CabinetMeasure => facts(
                "cabinet-measure",
                "where the cabinet's rails lie",
                Figure::None,
                Common,
                "geometry: a rail lies as far back as the top hangs over the cabinet",
                Note,
            ),
            Self::HoleSink => facts(
                "hole-sink",
                "from a hole to the sink's rim",
                MM(0),
                Common,
                "geometry: the drill must clear the sink below or above, which is taken as centred on its cutout",
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
                "drip groove behind the front edge, by a sink or cutout",
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
            Self::Closing => facts(
                "closing",
                "what the second diagonal is off, at most",
                EIGHTHS(1),
                Common,
                "common practice, no source",
                Warning,
            ),
        }
    }
}
