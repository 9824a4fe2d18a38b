//! Why a folder of files was not written or not taken.

use crate::coating::ProductError;
use crate::desk::BooksError;
use crate::shape::ShapeError;
use crate::shop::{Blocker, ScheduleError};
use thiserror::Error;

/// Why files were not written, or not taken. Nothing of an import that failed was saved.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum FilesError {
    /// The store is in use already.
    #[error(
        "This store has clients already, and a whole shop is only brought into one without: give a new store with --store, or undo back to the start."
    )]
    NotEmpty,
    /// The folder to write to holds something.
    #[error(
        "{folder} is not an empty folder, and nothing is overwritten: give the name of a new one."
    )]
    FolderTaken {
        /// The folder.
        folder: String,
    },
    /// A file or folder cannot be written.
    #[error("{path} cannot be written: {detail}.")]
    CannotWrite {
        /// Where.
        path: String,
        /// What the system said.
        detail: String,
    },
    /// A file or folder cannot be read.
    #[error("{path} cannot be read: {detail}.")]
    CannotRead {
        /// Where.
        path: String,
        /// What the system said.
        detail: String,
    },
    /// One of the files is missing.
    #[error(
        "{file} is missing: every file belongs to a shop, and one with nothing to say holds its first line only (none, for a .toml)."
    )]
    NoFile {
        /// The file.
        file: &'static str,
    },
    /// A file too large to be a shop's.
    #[error(
        "{file} is larger than {most_mib} MiB, more than a shop writes in a working life: check that it is the right file."
    )]
    TooLarge {
        /// The file.
        file: &'static str,
        /// The most taken, in MiB.
        most_mib: u64,
    },
    /// Something is wrong at one place in one file.
    #[error("{file}, line {line}: {fault}")]
    At {
        /// The file.
        file: &'static str,
        /// The line, from 1.
        line: u64,
        /// What is wrong there.
        fault: Fault,
    },
    /// What is in the store does not agree with itself.
    #[error(
        "The shop was not exported, because its records do not agree: {detail}. Go back to a backup."
    )]
    Disagree {
        /// What does not.
        detail: String,
    },
    /// The store.
    #[error(transparent)]
    Books(#[from] BooksError),
}

impl FilesError {
    /// The answer line by line: what was wrong and where, then every reason of the gates.
    pub fn lines(&self) -> Vec<String> {
        let Self::At {
            file,
            line,
            fault: Fault::Refused { piece, reasons, .. },
        } = self
        else {
            return vec![self.to_string()];
        };
        let mut out = vec![format!(
            "{file}, line {line}: {piece}: this was refused by the gates"
        )];
        out.extend(reasons.iter().map(|reason| format!("- {reason}")));
        out
    }
}

/// What is wrong at one place in a file.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// Bytes that are no text.
    #[error("this is not text in UTF-8: save the file as UTF-8 and try again.")]
    NotText,
    /// A NUL byte.
    #[error(
        "there is a NUL byte here, which no text has: the file is damaged, or not a text file."
    )]
    Nul,
    /// A cell too long.
    #[error("a cell is longer than 1 MiB: look for a quotation mark that is not closed.")]
    LongCell,
    /// Not what the file format asks (TOML, or CSV).
    #[error("this does not read as the file it should be: {0}.")]
    Syntax(String),
    /// Written by a newer version.
    #[error(
        "these files are of format {found}, and this program knows up to {known}: install the newer tackfree."
    )]
    Newer {
        /// Found.
        found: i64,
        /// Known.
        known: i64,
    },
    /// A column that is not known.
    #[error("there is no column called \"{name}\" here; the columns are {known}.")]
    UnknownColumn {
        /// As written.
        name: String,
        /// All that there are.
        known: String,
    },
    /// A column that is missing.
    #[error("the column \"{name}\" is missing from the first line.")]
    NoColumn {
        /// Its name.
        name: &'static str,
    },
    /// A column that stands twice.
    #[error("the column \"{name}\" stands twice in the first line.")]
    TwiceColumn {
        /// Its name.
        name: String,
    },
    /// A row with too few or too many cells.
    #[error(
        "this row has {has} cells and the first line has {wants}: look for a comma too many or a quotation mark that is not closed."
    )]
    Cells {
        /// In the row.
        has: u64,
        /// In the first line.
        wants: u64,
    },
    /// A cell that must say something.
    #[error("{what} is empty: {cure}.")]
    Empty {
        /// The column.
        what: &'static str,
        /// What would do.
        cure: String,
    },
    /// A cell that must say nothing here.
    #[error("{what} has no meaning for \"{with}\": leave it empty.")]
    NotHere {
        /// The column.
        what: &'static str,
        /// What the row is.
        with: String,
    },
    /// A value that does not read.
    #[error("{what}: {why}")]
    Value {
        /// The column.
        what: &'static str,
        /// One sentence.
        why: String,
    },
    /// A text too long.
    #[error("{what} can have up to {most} characters; this has {has}.")]
    TooLong {
        /// The column.
        what: &'static str,
        /// Most.
        most: usize,
        /// Here.
        has: usize,
    },
    /// The same key twice.
    #[error("the {what} \"{key}\" is there already: each needs its own.")]
    Twice {
        /// What.
        what: &'static str,
        /// The key.
        key: String,
    },
    /// A key that leads nowhere.
    #[error("there is no {what} \"{key}\" in these files.")]
    Unknown {
        /// What.
        what: &'static str,
        /// The key.
        key: String,
    },
    /// Lines of a piece out of their order.
    #[error(
        "the identifiers of a piece's lines must rise from line to line: put the lines in order, or leave their id cells empty."
    )]
    Order,
    /// The gates hold it back.
    #[error("{piece} was refused: {}.", reasons.join("; "))]
    Refused {
        /// The piece as it is called on tickets.
        piece: String,
        /// The reasons, in order.
        blockers: Vec<Blocker>,
        /// The same in words.
        reasons: Vec<String>,
    },
    /// Faces that come and go without reason.
    #[error("{piece}: the log does not lead to the faces of the piece as it is: {detail}.")]
    Faces {
        /// The piece as it is called on tickets.
        piece: String,
        /// Which.
        detail: String,
    },
    /// An area that no face of this piece has.
    #[error(
        "{piece}: {face} is said to have {said}, and by the size of the piece it has {has}: correct the area, or the size in pieces.csv."
    )]
    Area {
        /// The piece as it is called on tickets.
        piece: String,
        /// The face.
        face: String,
        /// As written.
        said: String,
        /// As it is.
        has: String,
    },
    /// One face twice in a pass.
    #[error("pass {pass} lays two coats on the {face} of {piece}: one pass is one coat.")]
    TwoCoats {
        /// The pass.
        pass: String,
        /// The face.
        face: String,
        /// The piece as it is called on tickets.
        piece: String,
    },
    /// A pass that lies on nothing.
    #[error("pass {pass} is on no piece: add its coat lines to log.csv, or take it out.")]
    NoCoat {
        /// The pass.
        pass: String,
    },
    /// Shares that do not make the whole.
    #[error(
        "the shares of pass {pass} make {shares}, and the pass used {amount}: correct the one or the other."
    )]
    Shares {
        /// The pass.
        pass: String,
        /// The sum.
        shares: String,
        /// The amount.
        amount: String,
    },
    /// A share that is not the area's.
    #[error(
        "a share of pass {pass} is {share}, and by its area it would be {by_area}: a pass is shared out by area."
    )]
    Share {
        /// The pass.
        pass: String,
        /// As written.
        share: String,
        /// By area.
        by_area: String,
    },
    /// A product of the wrong kind.
    #[error("{product} is a {is}, not a {needs}: name another product.")]
    WrongProduct {
        /// The product.
        product: String,
        /// Its kind.
        is: &'static str,
        /// The kind needed.
        needs: &'static str,
    },
    /// A shape that cannot be cut.
    #[error(transparent)]
    Shape(#[from] ShapeError),
    /// A schedule that cannot stand.
    #[error(transparent)]
    Schedule(#[from] ScheduleError),
    /// A product that cannot be.
    #[error(transparent)]
    Product(#[from] ProductError),
}

impl Fault {
    /// The fault at its place.
    pub(super) fn at(self, file: &'static str, line: u64) -> FilesError {
        FilesError::At {
            file,
            line,
            fault: self,
        }
    }
}
