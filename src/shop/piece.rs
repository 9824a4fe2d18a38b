//! A piece and its file: shape, wood, recipe, and the log of what was done to it.

use super::event::Event;
use super::id::{JobId, PieceId, RecipeId};
use super::schedule::Schedule;
use super::stage::Stage;
use crate::shape::{Construction, Shape};
use serde::{Deserialize, Serialize};

/// What the piece will be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PieceKind {
    /// Kitchen counter.
    Counter,
    /// Island top.
    Island,
    /// Bar top.
    Bar,
    /// Vanity top.
    Vanity,
    /// Table or desk top.
    Table,
    /// Shelf.
    Shelf,
    /// Stair tread.
    Tread,
    /// Sample board.
    Sample,
}

impl PieceKind {
    /// Every kind, in the order of the pick list.
    pub const ALL: [Self; 8] = [
        Self::Counter,
        Self::Island,
        Self::Bar,
        Self::Vanity,
        Self::Table,
        Self::Shelf,
        Self::Tread,
        Self::Sample,
    ];

    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Counter => "counter",
            Self::Island => "island",
            Self::Bar => "bar",
            Self::Vanity => "vanity",
            Self::Table => "table",
            Self::Shelf => "shelf",
            Self::Tread => "tread",
            Self::Sample => "sample",
        }
    }
}

/// One top that moves through the shop alone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    /// Its identifier.
    pub id: PieceId,
    /// The job it belongs to.
    pub job: JobId,
    /// Its own letter number within the job: 0 is A. Stable for life.
    pub no: u32,
    /// What the shop calls it.
    pub name: String,
    /// What it will be.
    pub kind: PieceKind,
    /// Wood species, as the shop says it.
    pub species: String,
    /// How it is built up.
    pub construction: Construction,
    /// Its shape, checked.
    pub shape: Shape,
    /// The recipe it follows.
    pub recipe: RecipeId,
    /// Its own copy of the schedule, from the moment work started.
    pub schedule: Option<Schedule>,
    /// Where it stands; follows from the log and is kept beside it for the board.
    pub stage: Stage,
    /// Whether its set list is finished.
    pub finished: bool,
}

impl Piece {
    /// The ticket number: job number and letter (`12A`; `12AA` after `12Z`).
    pub fn ticket_no(&self, job_no: u32) -> String {
        format!("{job_no}{}", letters(self.no))
    }
}

/// 0 is A, 25 is Z, 26 is AA.
fn letters(mut no: u32) -> String {
    let mut out = Vec::new();
    loop {
        out.push(char::from(b'A' + u8::try_from(no % 26).unwrap_or(0)));
        if no < 26 {
            break;
        }
        no = no / 26 - 1;
    }
    out.iter().rev().collect()
}

/// A piece with all that was logged on it.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceFile {
    /// The piece.
    pub piece: Piece,
    /// The schedule in force: its own copy, or its recipe's while no work has started.
    pub schedule: Schedule,
    /// Its log in the order it was recorded.
    pub events: Vec<Event>,
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn letters_run_on_after_z() {
        let got: Vec<String> = [0, 1, 25, 26, 27, 51, 52, 701, 702].map(letters).into();
        assert_eq!(got, ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
    }
}
