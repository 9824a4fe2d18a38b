//! Drawings and templates put on the disk: new files in a new folder, nothing overwritten.

use crate::units::clean_line;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a drawing was not written.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PaperError {
    /// Something is there already.
    #[error("{path} is there already: name another, nothing is overwritten.")]
    Taken {
        /// Where.
        path: String,
    },
    /// The disk refused.
    #[error("{path} cannot be written: {detail}. Free some space or name another folder.")]
    CannotWrite {
        /// Where.
        path: String,
        /// What the system said.
        detail: String,
    },
}

/// Folders of one name tried before giving up.
const TRIES: u32 = 999;

fn failed(path: &Path, error: &io::Error) -> PaperError {
    let (path, _) = clean_line(&path.display().to_string());
    if error.kind() == io::ErrorKind::AlreadyExists {
        return PaperError::Taken { path };
    }
    PaperError::CannotWrite {
        path,
        detail: error.to_string(),
    }
}

/// Writes one new file.
///
/// # Errors
/// It is there already, or the disk refused; half a file is taken away again.
pub fn write_paper(path: &Path, text: &str) -> Result<(), PaperError> {
    let mut file = fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .map_err(|error| failed(path, &error))?;
    let written = file
        .write_all(text.as_bytes())
        .and_then(|()| file.sync_all());
    if let Err(error) = written {
        // What cannot be taken away is told as it is: the disk refused.
        let _ = fs::remove_file(path);
        return Err(failed(path, &error));
    }
    Ok(())
}

/// Writes several files into a new folder.
///
/// # Errors
/// As for [`write_paper`]; of a folder that failed nothing is left.
pub fn write_papers(folder: &Path, files: &[(String, String)]) -> Result<(), PaperError> {
    fs::create_dir(folder).map_err(|error| failed(folder, &error))?;
    for (name, text) in files {
        if let Err(error) = write_paper(&folder.join(name), text) {
            let _ = fs::remove_dir_all(folder);
            return Err(error);
        }
    }
    Ok(())
}

/// The same into the first folder of this name that is free (`3A-template`, `3A-template-2`, ...),
/// made under `parent`.
///
/// # Errors
/// As for [`write_papers`].
pub fn write_papers_fresh(
    parent: &Path,
    stem: &str,
    files: &[(String, String)],
) -> Result<PathBuf, PaperError> {
    fs::create_dir_all(parent).map_err(|error| failed(parent, &error))?;
    for no in 1..=TRIES {
        let name = if no == 1 {
            stem.to_owned()
        } else {
            format!("{stem}-{no}")
        };
        let folder = parent.join(name);
        match write_papers(&folder, files) {
            Err(PaperError::Taken { .. }) => {}
            Err(error) => return Err(error),
            Ok(()) => return Ok(folder),
        }
    }
    Err(PaperError::Taken {
        path: clean_line(&parent.join(stem).display().to_string()).0,
    })
}
