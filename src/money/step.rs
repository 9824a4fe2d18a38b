//! Kinds of step that hours are estimated and logged by, and where their times start.

use super::line::LineKind;
use serde::{Deserialize, Serialize};

/// One kind of step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StepKind {
    /// Measuring and templating at the site.
    Measure,
    /// Milling, glue-up, flattening.
    Make,
    /// Cutouts and holes.
    Cutout,
    /// Sanding of top and underside.
    Sand,
    /// Sanding of edges, ends and walls.
    SandEdges,
    /// The wipe-down.
    Wipe,
    /// Seal coats.
    Seal,
    /// Stain, wiped off.
    Stain,
    /// Topcoats.
    Topcoat,
    /// Scuffs between coats.
    Scuff,
    /// Setting at the site.
    Set,
    /// The way to the site and back.
    Travel,
    /// What was to do again: sand-backs, call-backs.
    Rework,
    /// Talk, drawing, buying, anything else.
    Other,
}

/// What a step's size is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Driver {
    /// Square feet, each grit or coat counted.
    SquareFeet,
    /// Things: cutouts, pieces.
    Each,
}

impl Driver {
    /// The unit behind `min/`.
    pub fn unit(self) -> &'static str {
        match self {
            Self::SquareFeet => "sq ft",
            Self::Each => "each",
        }
    }
}

/// Where a kind of step starts: minutes of set-up for each time, and minutes for each unit of
/// size, each as the range that holds two shops in three.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Set-up, minutes.
    pub fixed: (f64, f64),
    /// Minutes per unit of size.
    pub rate: (f64, f64),
    /// Who says so.
    pub source: &'static str,
}

const OWN: &str = "starting range, judgement, no source";
const COAT: &str = "starting range, common practice, no source";

impl StepKind {
    /// All, in the order of the work.
    pub const ALL: [Self; 14] = [
        Self::Measure,
        Self::Make,
        Self::Cutout,
        Self::Sand,
        Self::SandEdges,
        Self::Wipe,
        Self::Seal,
        Self::Stain,
        Self::Topcoat,
        Self::Scuff,
        Self::Set,
        Self::Travel,
        Self::Rework,
        Self::Other,
    ];

    /// The word in files and commands.
    pub fn word(self) -> &'static str {
        match self {
            Self::Measure => "measure",
            Self::Make => "make",
            Self::Cutout => "cutout",
            Self::Sand => "sand",
            Self::SandEdges => "sand-edges",
            Self::Wipe => "wipe",
            Self::Seal => "seal",
            Self::Stain => "stain",
            Self::Topcoat => "topcoat",
            Self::Scuff => "scuff",
            Self::Set => "set",
            Self::Travel => "travel",
            Self::Rework => "rework",
            Self::Other => "other",
        }
    }

    /// In words, on papers.
    pub fn words(self) -> &'static str {
        match self {
            Self::Measure => "measuring",
            Self::Make => "glue-up and flattening",
            Self::Cutout => "cutouts",
            Self::Sand => "sanding of faces",
            Self::SandEdges => "sanding of edges",
            Self::Wipe => "wipe-down",
            Self::Seal => "seal coats",
            Self::Stain => "stain",
            Self::Topcoat => "topcoats",
            Self::Scuff => "scuffs",
            Self::Set => "setting",
            Self::Travel => "travel",
            Self::Rework => "work done again",
            Self::Other => "other work",
        }
    }

    /// The line of the price it goes into.
    pub fn line(self) -> LineKind {
        match self {
            Self::Measure | Self::Set | Self::Travel => LineKind::SiteWork,
            _ => LineKind::ShopWork,
        }
    }

    /// What its size is counted in.
    pub fn driver(self) -> Driver {
        match self {
            Self::Measure | Self::Cutout | Self::Travel => Driver::Each,
            _ => Driver::SquareFeet,
        }
    }

    /// Where its times start; none for work that nobody plans.
    ///
    /// No published table of minutes for each grit on a wood top was found. Sanding follows from
    /// pad size, speed of travel and overlap (three passes a grit, 5 in pad, 50 % overlap, 1 to
    /// 4 in a second: 0.7 to 2.9 min/sq ft); coats, stain, scuff and edges (1 to 2 min a foot of a
    /// 1 1/2 in edge for four grits) are common practice.
    pub fn start(self) -> Option<Start> {
        let start = |fixed, rate, source| {
            Some(Start {
                fixed,
                rate,
                source,
            })
        };
        match self {
            Self::Measure => start((30.0, 75.0), (8.0, 20.0), OWN),
            Self::Make => start((45.0, 120.0), (5.0, 12.0), OWN),
            Self::Cutout => start((5.0, 15.0), (15.0, 40.0), OWN),
            Self::Sand => start(
                (2.0, 5.0),
                (0.7, 2.9),
                "starting range, from pad size, travel and overlap",
            ),
            Self::SandEdges => start((1.0, 2.0), (2.0, 4.0), COAT),
            Self::Wipe => start((3.0, 8.0), (0.1, 0.3), OWN),
            Self::Seal | Self::Topcoat => start((15.0, 30.0), (0.4, 0.8), COAT),
            Self::Stain => start((15.0, 30.0), (0.6, 1.2), COAT),
            Self::Scuff => start((3.0, 6.0), (0.3, 0.6), COAT),
            Self::Set => start((30.0, 90.0), (1.0, 3.0), OWN),
            Self::Travel => start((30.0, 90.0), (0.0, 0.1), OWN),
            Self::Rework | Self::Other => None,
        }
    }
}
