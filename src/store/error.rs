//! From what `SQLite` says to one sentence for the person.

use crate::desk::BooksError;
use rusqlite::{ErrorCode, ffi};
use std::path::Path;

/// What went wrong inside the store: said already, or still in `SQLite`'s words.
#[derive(Debug)]
pub(super) enum Fault {
    Sql(rusqlite::Error),
    Said(BooksError),
}

impl From<rusqlite::Error> for Fault {
    fn from(error: rusqlite::Error) -> Self {
        Self::Sql(error)
    }
}

impl From<BooksError> for Fault {
    fn from(error: BooksError) -> Self {
        Self::Said(error)
    }
}

impl Fault {
    /// Something no other variant of [`BooksError`] says.
    pub fn other(detail: impl Into<String>) -> Self {
        Self::Said(BooksError::Other {
            detail: detail.into(),
        })
    }

    /// Something that cannot be read back.
    pub fn damaged(detail: impl Into<String>) -> Self {
        Self::Said(BooksError::Damaged {
            detail: detail.into(),
        })
    }

    /// `SQLite`'s kind of failure, if it is one.
    pub fn code(&self) -> Option<ErrorCode> {
        match self {
            Self::Sql(error) => error.sqlite_error_code(),
            Self::Said(_) => None,
        }
    }

    /// Whether a row is still pointed at, or points at one that is not there.
    pub fn is_foreign_key(&self) -> bool {
        matches!(self, Self::Sql(rusqlite::Error::SqliteFailure(failure, _))
            if failure.extended_code == ffi::SQLITE_CONSTRAINT_FOREIGNKEY)
    }

    /// The sentence, for the store at `path`.
    pub fn said(self, path: &Path) -> BooksError {
        match self {
            Self::Said(error) => error,
            Self::Sql(error) => said(error, path),
        }
    }
}

fn said(error: rusqlite::Error, path: &Path) -> BooksError {
    let shown = || path.display().to_string();
    match error {
        rusqlite::Error::SqliteFailure(failure, message) => {
            // Without a message of the connection, the general one of the code.
            let detail = message.unwrap_or_else(|| failure.to_string());
            match failure.code {
                // The file shared by those that use the store could not grow.
                _ if failure.extended_code == ffi::SQLITE_IOERR_SHMSIZE => BooksError::Full,
                ErrorCode::DiskFull => BooksError::Full,
                ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => BooksError::Busy,
                ErrorCode::ReadOnly => BooksError::ReadOnly { path: shown() },
                ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase => {
                    BooksError::Damaged { detail }
                }
                ErrorCode::CannotOpen | ErrorCode::PermissionDenied => BooksError::CannotOpen {
                    path: shown(),
                    detail,
                },
                ErrorCode::SystemIoFailure => BooksError::Other {
                    detail: format!("the disk answered with an error ({detail})"),
                },
                ErrorCode::ConstraintViolation => BooksError::Other {
                    detail: constraint(failure.extended_code, &detail),
                },
                _ => BooksError::Other { detail },
            }
        }
        // STRICT tables and our own writing leave no other way for a value not to read.
        rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::InvalidColumnType(..)
        | rusqlite::Error::Utf8Error(..) => BooksError::Damaged {
            detail: error.to_string(),
        },
        other => BooksError::Other {
            detail: other.to_string(),
        },
    }
}

fn constraint(code: i32, detail: &str) -> String {
    match code {
        ffi::SQLITE_CONSTRAINT_FOREIGNKEY => {
            "it belongs to something that is not in this store".to_owned()
        }
        ffi::SQLITE_CONSTRAINT_UNIQUE | ffi::SQLITE_CONSTRAINT_PRIMARYKEY => {
            "another one has that number already".to_owned()
        }
        _ => format!("a value does not fit ({detail})"),
    }
}
