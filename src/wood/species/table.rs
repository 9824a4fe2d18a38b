//! The table of woods and finding one in it.

use std::sync::LazyLock;

use serde::Deserialize;

use super::own::{OwnWood, OwnWoodError};
use super::row::{Coefficients, Gravity, GravityAt, Shrinkage, Species, SpeciesKind};
use crate::wood::Standing;

/// The built-in rows, as published.
const CSV: &str = include_str!("../data/species.csv");

static BUILT_IN: LazyLock<Vec<Species>> = LazyLock::new(|| {
    // The file is part of the program and a test reads every row of it.
    read(CSV).expect("the built-in table of woods reads")
});

/// A row as it stands in the file.
#[derive(Deserialize)]
struct Line {
    name: String,
    also: String,
    botanical: String,
    kind: SpeciesKind,
    c_radial: Option<f64>,
    c_radial_standing: Option<Standing>,
    c_tangential: Option<f64>,
    c_tangential_standing: Option<Standing>,
    s_radial: Option<f64>,
    s_tangential: Option<f64>,
    s_volume: Option<f64>,
    s_standing: Option<Standing>,
    starts_at: f64,
    gravity: Option<f64>,
    gravity_at: Option<GravityAt>,
    gravity_standing: Option<Standing>,
    source: String,
    note: String,
}

impl From<Line> for Species {
    fn from(line: Line) -> Self {
        let coefficients = line
            .c_radial
            .zip(line.c_radial_standing)
            .zip(line.c_tangential.zip(line.c_tangential_standing))
            .map(
                |((radial, radial_standing), (tangential, tangential_standing))| Coefficients {
                    radial,
                    radial_standing,
                    tangential,
                    tangential_standing,
                },
            );
        let shrinkage = line
            .s_radial
            .zip(line.s_tangential)
            .zip(line.s_standing)
            .map(|((radial, tangential), standing)| Shrinkage {
                radial,
                tangential,
                volume: line.s_volume,
                standing,
            });
        let gravity = line
            .gravity
            .zip(line.gravity_at)
            .zip(line.gravity_standing)
            .map(|((value, at), standing)| Gravity {
                value,
                at,
                standing,
            });
        Self {
            name: line.name,
            also: line
                .also
                .split(';')
                .map(|name| name.trim().to_owned())
                .filter(|name| !name.is_empty())
                .collect(),
            botanical: line.botanical,
            kind: line.kind,
            coefficients,
            shrinkage,
            starts_at: line.starts_at,
            gravity,
            source: line.source,
            note: line.note,
        }
    }
}

fn read(text: &str) -> Result<Vec<Species>, csv::Error> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize::<Line>()
        .map(|line| line.map(Species::from))
        .collect()
}

/// Why no single wood was found.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LookUpError {
    /// Nothing was typed.
    #[error("No wood was given; type the beginning of its name, like sugar maple.")]
    Empty,
    /// No row fits.
    #[error(
        "No wood in the table is called \"{text}\"; try the beginning of its name, or add it as a wood of your own."
    )]
    Unknown {
        /// What was typed.
        text: String,
    },
    /// Several rows fit.
    #[error("\"{text}\" may be {}; type more of the name.", listed(names))]
    Several {
        /// What was typed.
        text: String,
        /// The names that fit.
        names: Vec<String>,
    },
}

/// `Maple, red; Maple, sugar or 4 more`.
fn listed(names: &[String]) -> String {
    const MOST: usize = 5;
    match names {
        [] => String::new(),
        [one] => one.clone(),
        names if names.len() <= MOST => {
            let (last, rest) = names.split_last().unwrap_or((&names[0], &[]));
            format!("{} or {last}", rest.join("; "))
        }
        names => format!(
            "{} or {} more",
            names[..MOST].join("; "),
            names.len() - MOST
        ),
    }
}

/// The woods the shop reckons with: the built-in rows and its own.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SpeciesTable {
    own: Vec<Species>,
}

impl SpeciesTable {
    /// The built-in rows alone.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a wood of the shop's own.
    ///
    /// # Errors
    /// [`OwnWoodError`] when the name is taken or the figures cannot be.
    pub fn add(&mut self, wood: OwnWood) -> Result<(), OwnWoodError> {
        let row = wood.row()?;
        if self.named(&row.name).is_some() {
            return Err(OwnWoodError::Taken { name: row.name });
        }
        self.own.push(row);
        Ok(())
    }

    /// Every row: the shop's own first, then the built-in ones as published.
    pub fn rows(&self) -> impl Iterator<Item = &Species> {
        self.own.iter().chain(BUILT_IN.iter())
    }

    /// The row with exactly this name, capitals aside: for names that were stored.
    pub fn named(&self, name: &str) -> Option<&Species> {
        let wanted = name.trim().to_lowercase();
        self.rows().find(|row| row.name.to_lowercase() == wanted)
    }

    /// Every row that fits the beginning of a name: each typed word must begin a word of the
    /// name (or of one other name, or of the botanical one), in any order, so `sug map`, `maple,
    /// sugar` and `sugar maple` find the same.
    pub fn matching(&self, text: &str) -> Vec<&Species> {
        let typed = words(text);
        if typed.is_empty() {
            return Vec::new();
        }
        let fits = |name: &str| {
            let name = words(name);
            typed
                .iter()
                .all(|part| name.iter().any(|word| word.starts_with(part)))
        };
        self.rows().filter(|row| names(row).any(fits)).collect()
    }

    /// The one row that is meant: the only one that fits, or the only one whose name has exactly
    /// the typed words.
    ///
    /// # Errors
    /// [`LookUpError`] tells nothing typed, no row and several rows apart.
    pub fn find(&self, text: &str) -> Result<&Species, LookUpError> {
        let typed = || text.trim().to_owned();
        let mut wanted = words(text);
        if wanted.is_empty() {
            return Err(LookUpError::Empty);
        }
        if let Some(row) = self.named(text) {
            return Ok(row);
        }
        let found = self.matching(text);
        match found[..] {
            [] => return Err(LookUpError::Unknown { text: typed() }),
            [one] => return Ok(one),
            _ => {}
        }
        wanted.sort();
        let exactly = |name: &str| {
            let mut name = words(name);
            name.sort();
            name == wanted
        };
        let exact: Vec<_> = found.iter().filter(|row| names(row).any(exactly)).collect();
        match exact[..] {
            [one] => Ok(one),
            _ => Err(LookUpError::Several {
                text: typed(),
                names: found.iter().map(|row| row.name.clone()).collect(),
            }),
        }
    }
}

/// Everything a row is found by.
fn names(row: &Species) -> impl Iterator<Item = &str> {
    [row.name.as_str(), row.botanical.as_str()]
        .into_iter()
        .chain(row.also.iter().map(String::as_str))
}

/// The words of a name in small letters: what stands between spaces, commas, hyphens and brackets.
fn words(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}
