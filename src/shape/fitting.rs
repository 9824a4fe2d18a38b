//! What an opening is for: a sink with its reveal and the cabinet below it, a cooktop, a faucet.

use serde::{Deserialize, Serialize};

use crate::units::Length;

/// How the edge of the wood lies to the bowl of a sink mounted from below. There is no usual one:
/// makers disagree, so it is always asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reveal {
    /// The sink's rim shows by this much all round.
    Positive(Length),
    /// Flush with the bowl.
    Zero,
    /// The wood hangs over the bowl by this much all round.
    Negative(Length),
}

impl Reveal {
    /// How much the cutout is larger than the bowl on each side; less than nothing where the wood
    /// hangs over.
    pub fn beyond(self) -> Length {
        match self {
            Reveal::Positive(by) => by,
            Reveal::Zero => Length::ZERO,
            Reveal::Negative(by) => -by,
        }
    }

    /// The word for it: `positive`, `zero`, `negative`.
    pub fn word(self) -> &'static str {
        match self {
            Reveal::Positive(_) => "positive",
            Reveal::Zero => "zero",
            Reveal::Negative(_) => "negative",
        }
    }
}

/// How a sink is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mount {
    /// Fixed from below; the wall of the cutout is seen and gets wet.
    Undermount(Reveal),
    /// Dropped in from above; its rim covers the wall.
    DropIn,
    /// Its front takes the place of the top's front edge: the cutout is open to the front.
    ApronFront(Reveal),
}

impl Mount {
    /// The word for it: `undermount`, `drop-in`, `apron-front`.
    pub fn word(self) -> &'static str {
        match self {
            Mount::Undermount(_) => "undermount",
            Mount::DropIn => "drop-in",
            Mount::ApronFront(_) => "apron-front",
        }
    }

    /// The reveal, where the wall of the cutout is seen.
    pub fn reveal(self) -> Option<Reveal> {
        match self {
            Mount::Undermount(reveal) | Mount::ApronFront(reveal) => Some(reveal),
            Mount::DropIn => None,
        }
    }
}

/// The cabinet that a sink hangs in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Cabinet {
    /// Outside, from side to side.
    pub width: Length,
    /// From the top's left end to the cabinet's left side; where not measured, it stands centred
    /// under the sink.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Length>,
    /// Thickness of each side, where measured: see [`Cabinet::wall_taken`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall: Option<Length>,
    /// How far the front rail reaches back from the cabinet's front; zero for none.
    #[serde(default)]
    pub front_rail: Length,
    /// How far the back rail reaches forward from the cabinet's back; zero for none.
    #[serde(default)]
    pub back_rail: Length,
    /// From the top's front edge back to the cabinet's front, where measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overhang: Option<Length>,
    /// From the cabinet's front to its back, where measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<Length>,
}

impl Cabinet {
    /// What a side is taken for where nobody measured it: 3/4 in (common practice, no source).
    pub const USUAL_WALL: Length = Length::from_64ths(48);

    /// The thickness of each side: as measured, or else the usual one.
    pub fn wall_taken(&self) -> Length {
        self.wall.unwrap_or(Self::USUAL_WALL)
    }

    /// The width inside, between its sides.
    pub fn inside(&self) -> Length {
        self.width - self.wall_taken() * 2
    }

    pub(super) fn sizes(&self) -> Vec<(&'static str, Length)> {
        vec![
            ("cabinet width", self.width),
            ("cabinet wall", self.wall_taken()),
        ]
    }

    pub(super) fn distances(&self) -> Vec<(&'static str, Length)> {
        let known = [
            ("front rail", Some(self.front_rail)),
            ("back rail", Some(self.back_rail)),
            ("cabinet's left side", self.left),
            ("overhang over the cabinet", self.overhang),
            ("cabinet depth", self.depth),
        ];
        known
            .into_iter()
            .filter_map(|(what, size)| Some((what, size?)))
            .collect()
    }
}

/// A sink in its cutout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Sink {
    /// How it is set.
    pub mount: Mount,
    /// Its overall width (x) and depth (y), rim included, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overall: Option<(Length, Length)>,
    /// The thickness of its walls, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall: Option<Length>,
    /// The cabinet below, where measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cabinet: Option<Cabinet>,
}

/// What an opening is for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// Not said.
    #[default]
    Plain,
    /// A cutout for a sink.
    Sink(Sink),
    /// A cutout for a cooktop.
    Cooktop,
    /// A cutout or hole for an electrical outlet.
    Outlet,
    /// A hole for a faucet.
    Faucet,
    /// A hole for a sprayer, a soap pump and the like.
    Accessory,
    /// A hole for a cable.
    Cable,
}

impl Purpose {
    /// The word for it; empty for [`Purpose::Plain`].
    pub fn word(self) -> &'static str {
        match self {
            Purpose::Plain => "",
            Purpose::Sink(_) => "sink",
            Purpose::Cooktop => "cooktop",
            Purpose::Outlet => "outlet",
            Purpose::Faucet => "faucet",
            Purpose::Accessory => "accessory",
            Purpose::Cable => "cable",
        }
    }

    /// The sink, if it is one.
    pub fn sink(&self) -> Option<&Sink> {
        match self {
            Purpose::Sink(sink) => Some(sink),
            _ => None,
        }
    }
}
