//! Published moisture-excluding effectiveness, row by row, and looking it up.

use std::sync::LazyLock;

use serde::Deserialize;

use super::finish::{Exposure, FinishKind};
use crate::wood::{Between, Standing};

const CSV: &str = include_str!("../data/excluding.csv");

static ROWS: LazyLock<Vec<ExcludingRow>> = LazyLock::new(|| {
    // The file is part of the program and a test reads every row of it.
    csv::Reader::from_reader(CSV.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("the built-in table of moisture exclusion reads")
});

/// One published row, or part of one: figures read and figures remembered stand in rows apart.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct ExcludingRow {
    /// Which finish.
    pub finish: FinishKind,
    /// How many coats.
    pub coats: u8,
    /// Effectiveness after 1 day, %; 100 keeps everything out, 0 is bare wood.
    pub day_1: Option<f64>,
    /// After 7 days.
    pub day_7: Option<f64>,
    /// After 14 days.
    pub day_14: Option<f64>,
    /// How the row is known.
    pub standing: Standing,
    /// Document and page.
    pub source: String,
    /// What to mind; empty when nothing.
    pub note: String,
}

impl ExcludingRow {
    /// The figure after so long, where there is one.
    pub fn after(&self, exposure: Exposure) -> Option<f64> {
        match exposure {
            Exposure::Day1 => self.day_1,
            Exposure::Day7 => self.day_7,
            Exposure::Day14 => self.day_14,
        }
    }
}

/// Every published row.
pub fn excluding_rows() -> &'static [ExcludingRow] {
    &ROWS
}

/// Why no figure is given.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SealingError {
    /// The finish was not in the published tests.
    #[error("No published moisture figure was found for {finish}, so nothing is reckoned from it.")]
    NotPublished {
        /// The finish.
        finish: &'static str,
    },
}

/// What some coats of one finish hold back.
#[derive(Debug, Clone, PartialEq)]
pub struct Excluding {
    /// Effectiveness, %, as a range: single where it was measured.
    pub percent: Between<f64>,
    /// The coats that were measured, when they are not the coats asked for.
    pub as_for: Option<u8>,
    /// How the figure is known.
    pub standing: Standing,
    /// Document and page.
    pub source: &'static str,
}

/// What so many coats of a finish hold back after so long. More coats than were measured count as
/// the most measured; fewer than the fewest measured lie between bare wood and those. No coats
/// hold back nothing, by definition. Of two rows for one cell the firmer is taken.
///
/// # Errors
/// [`SealingError::NotPublished`] for a finish without any figure.
pub fn excluding(
    finish: FinishKind,
    coats: u8,
    exposure: Exposure,
) -> Result<Excluding, SealingError> {
    if coats == 0 {
        return Ok(Excluding {
            percent: Between::only(0.0),
            as_for: None,
            standing: Standing::Retrieved,
            source: "bare wood, by definition",
        });
    }
    let figures = || {
        excluding_rows()
            .iter()
            .filter(move |row| row.finish == finish)
            .filter_map(move |row| row.after(exposure).map(|figure| (row, figure)))
    };
    let most_up_to = figures()
        .filter(|(row, _)| row.coats <= coats)
        .max_by_key(|(row, _)| (row.coats, std::cmp::Reverse(row.standing)));
    if let Some((row, figure)) = most_up_to {
        return Ok(Excluding {
            percent: Between::only(figure),
            as_for: (row.coats != coats).then_some(row.coats),
            standing: row.standing,
            source: &row.source,
        });
    }
    let fewest = figures().min_by_key(|(row, _)| (row.coats, row.standing));
    let Some((row, figure)) = fewest else {
        return Err(SealingError::NotPublished {
            finish: finish.words(),
        });
    };
    Ok(Excluding {
        percent: Between::new(0.0, figure),
        as_for: Some(row.coats),
        standing: row.standing.weaker(Standing::Derived),
        source: &row.source,
    })
}
