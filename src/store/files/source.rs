//! Where the files are read from, and what is refused before anybody looks at their meaning.

use super::error::{Fault, FilesError};
use super::{CELL_MOST, FILE_MOST};
use crate::store::os;
use std::fmt;
use std::fs::File;
use std::io::{self, BufReader, Read};
use std::path::Path;

/// A folder, or files that the program carries with it.
#[derive(Clone, Copy)]
pub(super) enum Source<'a> {
    /// A folder on the disk.
    Folder(&'a Path),
    /// Names and texts.
    Carried(&'a [(&'static str, &'static str)]),
}

impl<'a> Source<'a> {
    /// Opens one file.
    pub(super) fn open(&self, name: &'static str) -> Result<Box<dyn Read + 'a>, FilesError> {
        match self {
            Self::Folder(folder) => Ok(Box::new(BufReader::new(open_plain(folder, name)?))),
            Self::Carried(files) => files
                .iter()
                .find(|(has, _)| *has == name)
                .map(|(_, text)| Box::new(text.as_bytes()) as Box<dyn Read>)
                .ok_or(FilesError::NoFile { file: name }),
        }
    }

    /// Whether a file that may be missing is there.
    pub(super) fn has(&self, name: &str) -> bool {
        match self {
            Self::Folder(folder) => folder.join(name).symlink_metadata().is_ok(),
            Self::Carried(files) => files.iter().any(|(has, _)| *has == name),
        }
    }

    /// One file whole.
    pub(super) fn text(&self, name: &'static str) -> Result<String, FilesError> {
        let mut bytes = Vec::new();
        let mut reader = self.open(name)?.take(FILE_MOST + 1);
        reader
            .read_to_end(&mut bytes)
            .map_err(|error| unreadable(name, &error))?;
        if bytes.len() as u64 > FILE_MOST {
            return Err(too_large(name));
        }
        let line_of = |at: usize| bytes[..at].split(|b| *b == b'\n').count() as u64;
        if let Some(at) = bytes.iter().position(|b| *b == 0) {
            return Err(Fault::Nul.at(name, line_of(at)));
        }
        match std::str::from_utf8(&bytes) {
            Ok(text) => Ok(text.strip_prefix('\u{FEFF}').unwrap_or(text).to_owned()),
            Err(error) => Err(Fault::NotText.at(name, line_of(error.valid_up_to()))),
        }
    }
}

fn open_plain(folder: &Path, name: &'static str) -> Result<File, FilesError> {
    let path = folder.join(name);
    let fail = |error: &io::Error| match error.kind() {
        io::ErrorKind::NotFound if folder.is_dir() => FilesError::NoFile { file: name },
        _ => FilesError::CannotRead {
            path: path.display().to_string(),
            detail: os::said(error),
        },
    };
    // Asked before opening: to open a pipe would wait for whoever writes to it.
    let about = std::fs::metadata(&path).map_err(|error| fail(&error))?;
    if !about.is_file() {
        let detail = "it is not a file".to_owned();
        return Err(FilesError::CannotRead {
            path: path.display().to_string(),
            detail,
        });
    }
    if about.len() > FILE_MOST {
        return Err(too_large(name));
    }
    File::open(&path).map_err(|error| fail(&error))
}

pub(super) fn unreadable(name: &'static str, error: &io::Error) -> FilesError {
    FilesError::CannotRead {
        path: name.to_owned(),
        detail: os::said(error),
    }
}

fn too_large(file: &'static str) -> FilesError {
    FilesError::TooLarge {
        file,
        most_mib: FILE_MOST / (1024 * 1024),
    }
}

/// What [`Watched`] stops at; travels inside an [`io::Error`].
#[derive(Debug, Clone, Copy)]
pub(super) struct Stopped {
    line: u64,
    why: Why,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Why {
    Nul,
    LongCell,
    LargeFile,
}

impl fmt::Display for Stopped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "stopped at line {}", self.line)
    }
}

impl std::error::Error for Stopped {}

impl Stopped {
    /// In the words of the files.
    pub(super) fn at(self, file: &'static str) -> FilesError {
        match self.why {
            Why::Nul => Fault::Nul.at(file, self.line),
            Why::LongCell => Fault::LongCell.at(file, self.line),
            Why::LargeFile => too_large(file),
        }
    }
}

/// Where in a CSV text the last byte was.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inside {
    Start,
    Plain,
    Quoted,
    QuoteEnd,
}

/// Passes CSV through and stops at a NUL byte, at a cell that does not end, and at a file that
/// does not end: the CSV reader would gather such a cell whole in memory.
pub(super) struct Watched<R> {
    inner: R,
    most: u64,
    read: u64,
    line: u64,
    cell: usize,
    cell_line: u64,
    inside: Inside,
}

impl<R: Read> Watched<R> {
    pub(super) fn new(inner: R) -> Self {
        Self {
            inner,
            most: FILE_MOST,
            read: 0,
            line: 1,
            cell: 0,
            cell_line: 1,
            inside: Inside::Start,
        }
    }

    fn look(&mut self, byte: u8) -> Result<(), Stopped> {
        if byte == 0 {
            return Err(Stopped {
                line: self.line,
                why: Why::Nul,
            });
        }
        let line_ends = byte == b'\n';
        self.inside = match (self.inside, byte) {
            (Inside::Quoted, b'"') => Inside::QuoteEnd,
            (Inside::Start | Inside::QuoteEnd, b'"') | (Inside::Quoted, _) => Inside::Quoted,
            (_, b',' | b'\n' | b'\r') => Inside::Start,
            _ => Inside::Plain,
        };
        self.line += u64::from(line_ends);
        if self.inside == Inside::Start {
            (self.cell, self.cell_line) = (0, self.line);
        } else {
            self.cell += 1;
        }
        if self.cell > CELL_MOST {
            return Err(Stopped {
                line: self.cell_line,
                why: Why::LongCell,
            });
        }
        Ok(())
    }
}

impl<R: Read> Read for Watched<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let count = self.inner.read(buffer)?;
        self.read += count as u64;
        if self.read > self.most {
            return Err(io::Error::other(Stopped {
                line: self.line,
                why: Why::LargeFile,
            }));
        }
        for byte in &buffer[..count] {
            self.look(*byte).map_err(io::Error::other)?;
        }
        Ok(count)
    }
}
