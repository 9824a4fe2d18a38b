//! Reading a data logger's file for the form that asked for it.

use super::forms::LoggerRefused;
use crate::coating::{LoggerAnswers, LoggerRead, LoggerReport, read_logger};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::fs::File;
use std::io;
use std::path::PathBuf;

/// Reads the file; a path that begins with `~/` is in the person's home.
pub(super) fn read(
    file: &str,
    answers: &LoggerAnswers,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<LoggerReport, LoggerRefused> {
    let unread = |why: String| LoggerRefused::Unread(why);
    let opened = File::open(path(file)).map_err(|error| {
        unread(match error.kind() {
            io::ErrorKind::NotFound => format!("There is no file {file}; look at its folder and name."),
            io::ErrorKind::PermissionDenied => {
                format!("{file} may not be read by you; copy it to a folder of your own.")
            }
            _ => format!("{file} cannot be opened: {error}. Copy it to this machine's disk and name it there."),
        })
    })?;
    if opened.metadata().is_ok_and(|about| !about.is_file()) {
        return Err(unread(format!(
            "{file} is no file; name the CSV file in it."
        )));
    }
    match read_logger(opened, answers, now, zone) {
        Ok(LoggerRead::Read(report)) => Ok(report),
        Ok(LoggerRead::Asks(question)) => Err(LoggerRefused::Asks(question)),
        Err(error) => Err(unread(error.to_string())),
    }
}

fn path(file: &str) -> PathBuf {
    let home = || directories::UserDirs::new().map(|dirs| dirs.home_dir().to_owned());
    match file
        .strip_prefix("~/")
        .and_then(|rest| Some(home()?.join(rest)))
    {
        Some(path) => path,
        None => PathBuf::from(file),
    }
}
