//! One wood and its figures.

use serde::{Deserialize, Serialize};

use crate::wood::Standing;

/// What a row of the table stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SpeciesKind {
    /// One species.
    #[serde(rename = "species")]
    Single,
    /// Several species sold under one commercial name, with one group figure.
    #[serde(rename = "commercial group")]
    CommercialGroup,
    /// Several species of one genus sold under one name.
    #[serde(rename = "several species")]
    SeveralSpecies,
    /// A printed row that does not fit the wood it is named for: see its note.
    #[serde(rename = "doubtful")]
    Doubtful,
}

impl SpeciesKind {
    /// The words on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            Self::Single => "one species",
            Self::CommercialGroup => "a commercial group of species",
            Self::SeveralSpecies => "several species under one name",
            Self::Doubtful => "doubtful figures, see the note",
        }
    }
}

/// Dimensional change coefficients: change of size as a fraction, per point of moisture content,
/// good from 6 to 14 % (Wood Handbook, FPL-GTR-190, eq. 13-2 and Table 13-5, p. 13-16).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Coefficients {
    /// Across the growth rings, 1/point.
    pub radial: f64,
    /// Where the radial one comes from.
    pub radial_standing: Standing,
    /// Along the growth rings, 1/point.
    pub tangential: f64,
    /// Where the tangential one comes from.
    pub tangential_standing: Standing,
}

/// Shrinkage from green to ovendry, in percent of the green size (Wood Handbook Tables 4-3, p.
/// 4-6, and 4-4, p. 4-8).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shrinkage {
    /// Across the growth rings, %.
    pub radial: f64,
    /// Along the growth rings, %.
    pub tangential: f64,
    /// By volume, %, where it is known.
    pub volume: Option<f64>,
    /// Where they come from.
    pub standing: Standing,
}

/// The volume a specific gravity is reckoned on; the mass is always ovendry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum GravityAt {
    /// On the volume at 12 % moisture content (Table 5-3a).
    #[serde(rename = "12%")]
    Twelve,
    /// On the green volume ("basic").
    #[serde(rename = "green")]
    Green,
}

/// Specific gravity: ovendry mass over volume, against water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Gravity {
    /// The figure.
    pub value: f64,
    /// On which volume.
    pub at: GravityAt,
    /// Where it comes from.
    pub standing: Standing,
}

/// One wood: a row of the table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Species {
    /// The name it is found and shown by, as the handbook writes it: `Maple, sugar`.
    pub name: String,
    /// Other names it is found by (common practice, no source).
    pub also: Vec<String>,
    /// The botanical name; empty when the shop gave none.
    pub botanical: String,
    /// Whether it is one species, a commercial group...
    pub kind: SpeciesKind,
    /// Printed coefficients, when there are any.
    pub coefficients: Option<Coefficients>,
    /// Shrinkage, when it is known.
    pub shrinkage: Option<Shrinkage>,
    /// The moisture content (%) at which shrinking is taken to begin: 30, but 22 for the few
    /// low-shrinkage woods whose coefficients follow only from 22. Above it nothing moves.
    pub starts_at: f64,
    /// Specific gravity, when it is known.
    pub gravity: Option<Gravity>,
    /// Document, table and page.
    pub source: String,
    /// What to mind about this row; empty when nothing.
    pub note: String,
}

impl Species {
    /// The weakest standing among the row's movement figures: what to show beside the row. With
    /// none, [`Standing::Judgement`].
    pub fn standing(&self) -> Standing {
        match (&self.coefficients, &self.shrinkage) {
            (Some(c), _) => c.radial_standing.weaker(c.tangential_standing),
            (None, Some(s)) => s.standing.weaker(Standing::Derived),
            (None, None) => Standing::Judgement,
        }
    }

    /// Whether the row was entered by the shop.
    pub fn is_shops_own(&self) -> bool {
        self.coefficients
            .is_some_and(|c| c.radial_standing == Standing::ShopsOwn)
            || self
                .shrinkage
                .is_some_and(|s| s.standing == Standing::ShopsOwn)
    }

    /// `Red oak, commercial (a commercial group of species; read in the document)`.
    pub fn words(&self) -> String {
        let standing = self.standing().words();
        match self.kind {
            SpeciesKind::Single => format!("{} ({standing})", self.name),
            kind => format!("{} ({}; {standing})", self.name, kind.words()),
        }
    }

    /// The coefficient that follows from a shrinkage of `percent`: C = (S/100)/F / (1 - (S/100)
    /// (F - 10)/F), which is eq. 13-3 taken at 10 % (worked out here; it reproduces Table 13-5 to
    /// 0.00001 for nearly every species of Table 4-3).
    pub fn coefficient_of(percent: f64, starts_at: f64) -> f64 {
        let s = percent / 100.0;
        s / starts_at / (1.0 - s * (starts_at - 10.0) / starts_at)
    }
}
