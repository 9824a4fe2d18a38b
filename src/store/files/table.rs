//! CSV, read row by row, every cell by the name of its column; and written, every cell guarded.

use super::error::{Fault, FilesError};
use super::source::{Source, Stopped, Watched, unreadable};
use super::text;
use csv::{ErrorKind, StringRecord};
use std::io::{Read, Write};

/// One CSV file being read.
pub(super) struct Table<'s> {
    file: &'static str,
    wanted: &'static [&'static str],
    columns: Vec<Option<usize>>,
    reader: csv::Reader<Watched<Box<dyn Read + 's>>>,
}

/// One row.
pub(super) struct Line<'t> {
    file: &'static str,
    wanted: &'static [&'static str],
    columns: &'t [Option<usize>],
    record: &'t StringRecord,
    /// Its line in the file, from 1.
    pub(super) no: u64,
}

impl<'s> Table<'s> {
    /// Opens a file whose first line must name exactly these columns, in any order.
    pub(super) fn open(
        source: &Source<'s>,
        file: &'static str,
        wanted: &'static [&'static str],
    ) -> Result<Self, FilesError> {
        Self::open_with(source, file, wanted, &[])
    }

    /// The same, where some of the columns may be missing, as in a file of an earlier version:
    /// their cells are then empty.
    pub(super) fn open_with(
        source: &Source<'s>,
        file: &'static str,
        wanted: &'static [&'static str],
        may_miss: &[&str],
    ) -> Result<Self, FilesError> {
        let watched = Watched::new(source.open(file)?);
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(true)
            .from_reader(watched);
        let header = reader
            .headers()
            .map_err(|error| fault(file, error))?
            .clone();
        let names: Vec<&str> = header.iter().map(str::trim).collect();
        for (i, name) in names.iter().enumerate() {
            if !wanted.contains(name) && !header.is_empty() {
                let known = wanted.join(", ");
                return Err(Fault::UnknownColumn {
                    name: short(name),
                    known,
                }
                .at(file, 1));
            }
            if names[..i].contains(name) {
                return Err(Fault::TwiceColumn {
                    name: (*name).to_owned(),
                }
                .at(file, 1));
            }
        }
        let mut columns = Vec::new();
        for name in wanted {
            let at = names.iter().position(|has| has == name);
            if at.is_none() && !may_miss.contains(name) {
                return Err(Fault::NoColumn { name }.at(file, 1));
            }
            columns.push(at);
        }
        Ok(Self {
            file,
            wanted,
            columns,
            reader,
        })
    }

    /// Every row in turn.
    pub(super) fn each(
        mut self,
        mut take: impl FnMut(&Line<'_>) -> Result<(), FilesError>,
    ) -> Result<(), FilesError> {
        let mut record = StringRecord::new();
        while self
            .reader
            .read_record(&mut record)
            .map_err(|error| fault(self.file, error))?
        {
            let no = record.position().map_or(0, csv::Position::line);
            let (file, wanted, columns) = (self.file, self.wanted, self.columns.as_slice());
            take(&Line {
                file,
                wanted,
                columns,
                record: &record,
                no,
            })?;
        }
        Ok(())
    }
}

/// The start of a text that may be anything, for a message.
pub(super) fn short(text: &str) -> String {
    let (clean, _) = crate::units::clean_line(text);
    if clean.chars().count() > 60 {
        return clean.chars().take(57).chain("...".chars()).collect();
    }
    clean
}

/// A sentence that may quote what was written: cleaned, and its middle left out if it is long.
pub(super) fn tidy(sentence: &str) -> String {
    let (clean, _) = crate::units::clean_line(sentence);
    let length = clean.chars().count();
    if length <= 400 {
        return clean;
    }
    let (start, end) = (clean.chars().take(200), clean.chars().skip(length - 190));
    start.chain(" ... ".chars()).chain(end).collect()
}

fn fault(file: &'static str, error: csv::Error) -> FilesError {
    let line = error.position().map_or(1, csv::Position::line);
    match error.into_kind() {
        ErrorKind::Io(error) => match error.get_ref().and_then(|e| e.downcast_ref::<Stopped>()) {
            Some(stopped) => stopped.at(file),
            None => unreadable(file, &error),
        },
        ErrorKind::Utf8 { .. } => Fault::NotText.at(file, line),
        ErrorKind::UnequalLengths {
            expected_len, len, ..
        } => Fault::Cells {
            has: len,
            wants: expected_len,
        }
        .at(file, line),
        other => Fault::Syntax(format!("{other:?}")).at(file, line),
    }
}

impl Line<'_> {
    /// A fault at this row.
    pub(super) fn fail(&self, fault: Fault) -> FilesError {
        fault.at(self.file, self.no)
    }

    /// A value of this column that does not read.
    pub(super) fn bad(&self, what: &'static str, why: &str) -> FilesError {
        self.fail(Fault::Value {
            what,
            why: tidy(why),
        })
    }

    /// The cell of a column, its guard taken off, blanks around it too.
    pub(super) fn cell(&self, column: &'static str) -> &str {
        let at = self.wanted.iter().position(|name| *name == column);
        let cell = at
            .and_then(|at| self.columns.get(at).copied().flatten())
            .and_then(|at| self.record.get(at));
        text::unguard(cell.unwrap_or_default()).trim()
    }

    /// A cell that may be empty, read by `read`.
    pub(super) fn maybe<T>(
        &self,
        column: &'static str,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Result<Option<T>, FilesError> {
        match self.cell(column) {
            "" => Ok(None),
            cell => read(cell).map(Some).map_err(|why| self.bad(column, &why)),
        }
    }

    /// A cell that must say something, read by `read`.
    pub(super) fn must<T>(
        &self,
        column: &'static str,
        cure: &str,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Result<T, FilesError> {
        let empty = || {
            self.fail(Fault::Empty {
                what: column,
                cure: cure.to_owned(),
            })
        };
        self.maybe(column, read)?.ok_or_else(empty)
    }

    /// Cells that must be empty in a row of this sort.
    pub(super) fn nothing_in(
        &self,
        columns: &[&'static str],
        with: &str,
    ) -> Result<(), FilesError> {
        match columns.iter().find(|column| !self.cell(column).is_empty()) {
            Some(what) => Err(self.fail(Fault::NotHere {
                what,
                with: with.to_owned(),
            })),
            None => Ok(()),
        }
    }

    /// One line of text, cleaned and held to its length.
    pub(super) fn line(
        &self,
        column: &'static str,
        most: usize,
        notes: &mut Notes,
    ) -> Result<String, FilesError> {
        let (text, left_out) =
            text::line(column, self.cell(column), most).map_err(|fault| self.fail(fault))?;
        notes.left_out(self.file, self.no, column, left_out);
        Ok(text)
    }

    /// One line of text that must say something.
    pub(super) fn name(
        &self,
        column: &'static str,
        most: usize,
        notes: &mut Notes,
    ) -> Result<String, FilesError> {
        let name = self.line(column, most, notes)?;
        if name.is_empty() {
            let cure = "each needs one".to_owned();
            return Err(self.fail(Fault::Empty { what: column, cure }));
        }
        Ok(name)
    }

    /// Several lines of text.
    pub(super) fn lines(
        &self,
        column: &'static str,
        most: usize,
        notes: &mut Notes,
    ) -> Result<String, FilesError> {
        let (text, left_out) =
            text::lines(column, self.cell(column), most).map_err(|fault| self.fail(fault))?;
        notes.left_out(self.file, self.no, column, left_out);
        Ok(text)
    }
}

/// Things to mind about an import.
#[derive(Debug, Default)]
pub(super) struct Notes(pub(super) Vec<String>);

impl Notes {
    /// The most that are kept: nobody reads more.
    const MOST: usize = 50;

    pub(super) fn say(&mut self, note: String) {
        if self.0.len() < Self::MOST {
            self.0.push(note);
        }
    }

    pub(super) fn left_out(&mut self, file: &str, line: u64, what: &str, count: usize) {
        if count > 0 {
            self.say(format!(
                "{file}, line {line}: {what}: {count} control characters were left out."
            ));
        }
    }
}

/// Writes a CSV text, the columns' names first, every cell guarded against spreadsheets that take
/// it for a formula.
///
/// # Errors
/// What the writer meets; in memory that is nothing.
pub fn write(columns: &[&str], rows: &[Vec<String>]) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(columns)?;
    for row in rows {
        writer.write_record(row.iter().map(|cell| text::guard(cell)))?;
    }
    writer.flush()?;
    writer
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

/// Passes bytes on to a file.
pub(super) fn pour(file: &mut std::fs::File, bytes: &[u8]) -> std::io::Result<()> {
    file.write_all(bytes)?;
    // What the export has reported is on the disk.
    file.sync_all()
}
