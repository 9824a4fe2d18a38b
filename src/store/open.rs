//! Opening a store: the file and its folder, what they may be, and how `SQLite` is set.

use super::Store;
use super::error::Fault;
use super::os;
use super::schema::{self, Found};
use crate::desk::BooksError;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use std::fmt::Write as _;
use std::fs;
use std::io::{Error as IoError, ErrorKind};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How long another writer is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// How long between two tries where `SQLite` does not wait itself.
const STEP: Duration = Duration::from_millis(20);

/// The smallest page, and so the smallest database that is not empty (file format of `SQLite`, section 1.3.2).
const LEAST_BYTES: u64 = 512;

/// Statements kept ready.
const STATEMENTS: usize = 100;

impl Store {
    /// Opens the store at `path`; makes it, and its folder, if there is none (for this user alone
    /// where the system knows file modes). A store that cannot be written is opened for reading:
    /// see [`Store::is_read_only`].
    ///
    /// # Errors
    /// [`BooksError::NotAStore`], [`BooksError::Newer`], [`BooksError::ReadOnly`] (nothing there
    /// to read either), [`BooksError::CannotOpen`], [`BooksError::Full`], [`BooksError::Busy`],
    /// [`BooksError::Damaged`].
    pub fn open(path: &Path) -> Result<Self, BooksError> {
        let path = std::path::absolute(path).map_err(|error| cannot_open(path, &error))?;
        let found = if make(&path)? {
            Self::connect(&path, true)
        } else {
            Self::connect(&path, false).or_else(|fault| {
                // A file that is ours to write in a folder that is not: no write-ahead file fits
                // beside it.
                locked_out(fault, &path)?;
                Self::connect(&path, true)
            })
        };
        found.map_err(|fault| first_words(fault, &path))
    }

    /// A store in memory, for trials and tests: gone when it is dropped.
    pub fn in_memory() -> Result<Self, BooksError> {
        let path = PathBuf::from(":memory:");
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let made = Connection::open_in_memory_with_flags(flags)
            .map_err(Fault::from)
            .and_then(|conn| Self::ready(conn, path.clone(), false));
        made.map_err(|fault| fault.said(&path))
    }

    fn connect(path: &Path, read_only: bool) -> Result<Self, Fault> {
        let conn = if read_only {
            for_reading(path)?
        } else {
            let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
            let conn = Connection::open_with_flags(path, flags)?;
            if conn.is_readonly(rusqlite::MAIN_DB)? {
                return Err(BooksError::ReadOnly {
                    path: path.display().to_string(),
                }
                .into());
            }
            conn
        };
        Self::ready(conn, path.to_owned(), read_only)
    }

    fn ready(mut conn: Connection, path: PathBuf, read_only: bool) -> Result<Self, Fault> {
        let shown = path.display().to_string();
        conn.busy_timeout(PATIENCE)?;
        conn.set_prepared_statement_cache_capacity(STATEMENTS);
        // What a doctored file could bring along must not run, and a misspelt column is an error
        // rather than a text.
        conn.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
        conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
        conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
        conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
        // Before anything is written: the file may be somebody else's.
        let found = schema::look(&conn, &shown)?;
        if read_only {
            if found != Found::Layout(schema::known()) {
                return Err(BooksError::ReadOnly { path: shown }.into());
            }
        } else {
            write_ahead(&conn)?;
            conn.pragma_update(None, "synchronous", "FULL")?;
            // Only one system tells a flush to the drive from a flush to the platter.
            conn.pragma_update(None, "fullfsync", true)?;
            conn.pragma_update(None, "checkpoint_fullfsync", true)?;
            schema::bring_up(&mut conn, &shown)?;
        }
        conn.pragma_update(None, "foreign_keys", true)?;
        let tables = schema::tables(&conn)?;
        Ok(Self {
            conn,
            path,
            read_only,
            tables,
        })
    }
}

/// Switches to the write-ahead log. `SQLite` does not wait here for another program that switches
/// at the same moment, so the patience is had in steps.
fn write_ahead(conn: &Connection) -> Result<(), Fault> {
    let mut waited = Duration::ZERO;
    loop {
        // Answers with the mode in force: "memory" for a store in memory.
        match conn.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(())) {
            Err(error)
                if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy)
                    && waited < PATIENCE =>
            {
                std::thread::sleep(STEP);
                waited += STEP;
            }
            other => return Ok(other?),
        }
    }
}

/// Makes the file and its folder if there are none; whether what is there may only be read.
fn make(path: &Path) -> Result<bool, BooksError> {
    match fs::metadata(path) {
        Ok(there) if there.is_dir() => {
            let detail = "it is a folder; name a file in it".to_owned();
            Err(BooksError::CannotOpen {
                path: path.display().to_string(),
                detail,
            })
        }
        Ok(there) if !there.is_file() => {
            let detail = "it is not a plain file".to_owned();
            Err(BooksError::CannotOpen {
                path: path.display().to_string(),
                detail,
            })
        }
        // SQLite takes a file of a few bytes for an empty one, and would write over it.
        Ok(there) if (1..LEAST_BYTES).contains(&there.len()) => Err(BooksError::NotAStore {
            path: path.display().to_string(),
        }),
        Ok(there) => {
            let closed = there.permissions().readonly() || is_closed(folder(path));
            if there.len() == 0 && !closed {
                for_owner_alone(path);
            }
            Ok(closed)
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {
            make_new(path)?;
            Ok(false)
        }
        Err(error) => Err(cannot_open(path, &error)),
    }
}

/// An empty file that becomes a store gets the mode of a new one. Where it belongs to somebody else
/// its mode is not ours to change; whether it can be written is seen soon enough.
#[cfg(unix)]
fn for_owner_alone(path: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let _ = fs::set_permissions(path, fs::Permissions::from_mode(0o600));
}

/// File modes are not known here.
#[cfg(not(unix))]
fn for_owner_alone(_: &Path) {}

fn folder(path: &Path) -> &Path {
    path.parent().unwrap_or(path)
}

/// Whether a folder's mode lets nobody write into it. (The superuser could all the same; a folder
/// closed on purpose is left closed.)
fn is_closed(folder: &Path) -> bool {
    fs::metadata(folder).is_ok_and(|there| there.permissions().readonly())
}

fn make_new(path: &Path) -> Result<(), BooksError> {
    let folder = folder(path);
    let nearest = folder
        .ancestors()
        .find(|above| above.exists())
        .unwrap_or(folder);
    if is_closed(nearest) {
        return Err(BooksError::ReadOnly {
            path: nearest.display().to_string(),
        });
    }
    let refused = |error: IoError| {
        if is_refused(&error) {
            BooksError::ReadOnly {
                path: nearest.display().to_string(),
            }
        } else if is_full(&error) {
            BooksError::Full
        } else {
            cannot_open(path, &error)
        }
    };
    let mut folders = fs::DirBuilder::new();
    folders.recursive(true);
    let mut file = fs::OpenOptions::new();
    file.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt};
        folders.mode(0o700);
        file.mode(0o600);
    }
    folders.create(folder).map_err(refused)?;
    match file.open(path) {
        Ok(_) => Ok(()),
        // Another program made it in the meantime: that one will do.
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(()),
        Err(error) => Err(refused(error)),
    }
}

/// A connection that only reads. With no write-ahead file about, nobody is writing: `SQLite` is
/// told that the file stands still, or it would want to make files beside it.
fn for_reading(path: &Path) -> Result<Connection, Fault> {
    let mut wal = path.as_os_str().to_owned();
    wal.push("-wal");
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if fs::metadata(&wal).is_ok_and(|there| there.len() > 0) {
        return Ok(Connection::open_with_flags(path, flags)?);
    }
    let uri = format!("file:{}?immutable=1", percent(path));
    Ok(Connection::open_with_flags(
        uri,
        flags | OpenFlags::SQLITE_OPEN_URI,
    )?)
}

/// A path as it stands in a URI (RFC 3986): all but the unreserved characters and the slash in
/// per cent.
fn percent(path: &Path) -> String {
    let mut out = String::new();
    for byte in path.as_os_str().as_encoded_bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                out.push(char::from(*byte));
            }
            other => {
                // Writing to a String cannot fail.
                let _ = write!(out, "%{other:02X}");
            }
        }
    }
    out
}

/// Whether the store could not be opened for writing because its folder does not let itself be
/// written; any other reason is given back.
fn locked_out(fault: Fault, path: &Path) -> Result<(), Fault> {
    if matches!(fault, Fault::Said(BooksError::ReadOnly { .. })) {
        return Ok(());
    }
    match fault.code() {
        Some(ErrorCode::ReadOnly) => Ok(()),
        // SQLite does not say why it could not make the files beside the store: try.
        Some(ErrorCode::CannotOpen) => match tempfile::tempfile_in(folder(path)) {
            Err(error) if is_refused(&error) => Ok(()),
            Err(error) if is_full(&error) => Err(BooksError::Full.into()),
            _ => Err(fault),
        },
        _ => Err(fault),
    }
}

fn is_refused(error: &IoError) -> bool {
    matches!(
        error.kind(),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem
    )
}

fn is_full(error: &IoError) -> bool {
    matches!(
        error.kind(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded
    )
}

/// What goes wrong on opening: a file that is no database at all is somebody else's, not damaged;
/// and why a file cannot be opened the system says better than `SQLite` does.
fn first_words(fault: Fault, path: &Path) -> BooksError {
    match fault.code() {
        Some(ErrorCode::NotADatabase) => BooksError::NotAStore {
            path: path.display().to_string(),
        },
        Some(ErrorCode::CannotOpen) => match fs::File::open(path) {
            Err(error) => cannot_open(path, &error),
            Ok(_) => fault.said(path),
        },
        _ => fault.said(path),
    }
}

fn cannot_open(path: &Path, error: &IoError) -> BooksError {
    BooksError::CannotOpen {
        path: path.display().to_string(),
        detail: os::said(error),
    }
}
