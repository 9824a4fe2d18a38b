//! Sales tax, as a setting of the line and the place. The rules differ from place to place (most
//! places take an installed top for work on a house and tax the shop's purchases; an uninstalled
//! one is a sale): the shop's own adviser and local rules decide, this only reckons.

use super::line::LineKind;
use super::percent::Percent;
use serde::{Deserialize, Serialize};

/// What is said with every tax.
pub const DEFER: &str = "Sales tax follows your local rules; ask the tax office or your adviser.";

/// A place and what is taxed there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TaxPlace {
    /// Its name: a state, county or town.
    pub name: String,
    /// The rate.
    pub rate: Percent,
    /// The kinds of line that are taxed there.
    pub taxed: Vec<LineKind>,
    /// Who says so.
    pub source: String,
}

impl TaxPlace {
    /// The rate on a line of this kind.
    pub fn rate_on(&self, kind: LineKind) -> Percent {
        if self.taxed.contains(&kind) {
            self.rate
        } else {
            Percent::ZERO
        }
    }
}

/// How one line is taxed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TaxChoice {
    /// As its place taxes its kind.
    #[default]
    AsPlace,
    /// Not at all.
    Free,
    /// At this rate.
    At(Percent),
}

impl TaxChoice {
    /// The rate on a line of this kind at this place; without a place nothing is taxed.
    pub fn rate(self, kind: LineKind, place: Option<&TaxPlace>) -> Percent {
        match self {
            Self::Free => Percent::ZERO,
            Self::At(rate) => rate,
            Self::AsPlace => place.map_or(Percent::ZERO, |place| place.rate_on(kind)),
        }
    }
}
