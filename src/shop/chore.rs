//! What a day's products leave to be done before the shop is left: rags, waste, dust.

use super::caution::Caution;
use super::event::ScuffMeans;
use crate::coating::Family;
use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

/// One chore of the day's end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Chore {
    /// Rags wet with an oil that dries by taking up oxygen, and so heats.
    OilyRags,
    /// Rags wet with a solvent that burns.
    SolventRags,
    /// Dust and rags of nitrocellulose lacquer.
    LacquerWaste,
    /// Sanding dust of finish.
    FinishDust,
    /// Sawdust.
    WoodDust,
}

/// How oily rags were made safe: the two ways that the tip sheet names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RagWay {
    /// Spread flat, or hung, outdoors.
    FlatOutdoors,
    /// In a lidded metal can filled with water.
    WaterCan,
}

impl RagWay {
    /// Both.
    pub const ALL: [Self; 2] = [Self::FlatOutdoors, Self::WaterCan];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::FlatOutdoors => "laid flat outdoors",
            Self::WaterCan => "in a lidded metal can of water",
        }
    }

    /// The word in files and commands.
    pub fn code(self) -> &'static str {
        match self {
            Self::FlatOutdoors => "flat-outdoors",
            Self::WaterCan => "water-can",
        }
    }
}

impl Chore {
    /// Every chore, the one that can burn the shop down first.
    pub const ALL: [Self; 5] = [
        Self::OilyRags,
        Self::SolventRags,
        Self::LacquerWaste,
        Self::FinishDust,
        Self::WoodDust,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::OilyRags => "oily rags",
            Self::SolventRags => "solvent rags",
            Self::LacquerWaste => "lacquer dust and rags",
            Self::FinishDust => "sander bag with finish dust",
            Self::WoodDust => "sawdust",
        }
    }

    /// The word in files and commands.
    pub fn code(self) -> &'static str {
        match self {
            Self::OilyRags => "oily-rags",
            Self::SolventRags => "solvent-rags",
            Self::LacquerWaste => "lacquer-waste",
            Self::FinishDust => "finish-dust",
            Self::WoodDust => "wood-dust",
        }
    }

    /// Said of it once it is done: `emptied outdoors`.
    pub fn done_words(self) -> &'static str {
        match self {
            Self::OilyRags => "made safe",
            Self::SolventRags => "in a closed metal waste can",
            Self::LacquerWaste => "kept wet in a lidded metal can, apart",
            Self::FinishDust => "emptied outdoors",
            Self::WoodDust => "swept up and taken out",
        }
    }

    /// What is to be done, and who says so.
    pub fn caution(self) -> Caution {
        let (line, source) = match self {
            Self::OilyRags => (
                "They can catch fire by themselves within hours: lay them flat outdoors or drown \
                 them in a lidded metal can of water; the label and local fire code decide.",
                "NFPA oily-rag tip sheet",
            ),
            Self::SolventRags => (
                "Into a closed metal waste can, emptied every day; the label and local fire code \
                 decide.",
                "29 CFR 1910.106(h)(8)(iii)",
            ),
            Self::LacquerWaste => (
                "Dry nitrocellulose burns very fast: keep it wet in a lidded metal can of its own; \
                 see the safety data sheet.",
                "US Army course EN0562",
            ),
            Self::FinishDust => (
                "Dust of finish up to 30 days old can heat by itself: empty the sander bag \
                 outdoors, away from the house.",
                "city fire office notice on sander dust",
            ),
            Self::WoodDust => (
                "Sweep or vacuum it up and take it out, mask on; local fire code decides.",
                "common practice, no source",
            ),
        };
        Caution { line, source }
    }

    /// What a product of this family leaves on its rags. Water-borne finish leaves nothing that
    /// heats or burns (NFPA oily-rag tip sheet).
    pub fn of_family(family: Family) -> &'static [Self] {
        match family {
            Family::WaterBorne => &[],
            Family::Shellac | Family::MineralSpirits => &[Self::SolventRags],
            Family::Lacquer => &[Self::SolventRags, Self::LacquerWaste],
            Family::OilWipingVarnish
            | Family::OilBrushingVarnish
            | Family::OilGelStain
            | Family::OilLiquidStain
            | Family::OilConditioner
            | Family::HardwaxOil
            | Family::TungOil => &[Self::OilyRags],
        }
    }

    /// What a scuff leaves: paper and pads raise dust of finish, brown paper only burnishes.
    pub fn of_scuff(means: ScuffMeans) -> &'static [Self] {
        if means.abrades() {
            &[Self::FinishDust]
        } else {
            &[]
        }
    }
}

/// A chore as it was ticked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChoreDone {
    /// The day whose chore it was, on the shop's calendar.
    pub day: NaiveDate,
    /// Which.
    pub chore: Chore,
    /// How, of oily rags alone.
    pub way: Option<RagWay>,
    /// When.
    pub at: DateTime<Utc>,
}

impl ChoreDone {
    /// `oily rags laid flat outdoors`.
    pub fn words(&self) -> String {
        let how = self.way.map_or(self.chore.done_words(), RagWay::words);
        format!("{} {how}", self.chore.words())
    }
}

/// A day that was closed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayClosed {
    /// The day.
    pub day: NaiveDate,
    /// When it was closed.
    pub at: DateTime<Utc>,
    /// Why it was closed although oily rags were not logged.
    pub reason: Option<String>,
}

/// What was ticked and closed, all days.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DayLog {
    /// Chores, by day.
    pub done: Vec<ChoreDone>,
    /// Closed days, by day.
    pub closed: Vec<DayClosed>,
}

impl DayLog {
    /// How a chore of a day was ticked.
    pub fn done(&self, day: NaiveDate, chore: Chore) -> Option<&ChoreDone> {
        self.done
            .iter()
            .find(|done| done.day == day && done.chore == chore)
    }

    /// How a day was closed.
    pub fn closed(&self, day: NaiveDate) -> Option<&DayClosed> {
        self.closed.iter().find(|closed| closed.day == day)
    }
}
