//! Opening the store a command works on.

use super::args::Args;
use super::failure::Failure;
use crate::coating::LabelHours;
use crate::coating::id::Mint;
use crate::desk::{Books, Desk};
use crate::shop::Settings;
use crate::store::{Store, files};
use crate::units::clean_line;
use chrono::{DateTime, NaiveDateTime, TimeZone, Utc};
use chrono_tz::Tz;
use std::path::PathBuf;
use tempfile::TempDir;

/// What the program read of the world around it.
pub struct Surroundings {
    /// The moment, whenever asked.
    pub now: Box<dyn Fn() -> DateTime<Utc>>,
    /// The machine's zone.
    pub zone: Tz,
    /// A random number, so that two machines never make the same identifier.
    pub random: u64,
    /// The store the environment names.
    pub store: Option<PathBuf>,
    /// The platform's folder for this program's data.
    pub data_folder: Option<PathBuf>,
    /// Whether the environment asks for no colour.
    pub no_color: bool,
    /// What the environment says of the terminal's background.
    pub background: Option<String>,
    /// Whether only ASCII signs may be drawn.
    pub ascii: bool,
    /// Whether a person sits at a terminal.
    pub on_terminal: bool,
}

/// A store ready for work.
pub struct Opened {
    /// The store.
    pub store: Store,
    /// Where identifiers come from.
    pub mint: Mint,
    /// The folder of a demo, gone when this is dropped. Last, so that the store is closed first.
    _demo: Option<TempDir>,
}

/// Reads the moment that stands still for the whole run: RFC 3339, or local like
/// `2026-11-25 14:00`.
///
/// # Errors
/// One sentence that says what would do.
pub fn read_now(text: &str, zone: Tz) -> Result<DateTime<Utc>, Failure> {
    let typed = text.trim();
    if let Ok(at) = DateTime::parse_from_rfc3339(typed) {
        return Ok(at.with_timezone(&Utc));
    }
    let local = [
        "%Y-%m-%d %H:%M",
        "%Y-%m-%d %H:%M:%S",
        "%Y-%m-%dT%H:%M",
        "%Y-%m-%dT%H:%M:%S",
    ]
    .into_iter()
    .find_map(|form| NaiveDateTime::parse_from_str(typed, form).ok())
    .and_then(|local| zone.from_local_datetime(&local).earliest());
    local.map(|at| at.with_timezone(&Utc)).ok_or_else(|| {
        let shown: String = clean_line(typed).0.chars().take(40).collect();
        Failure::said(format!(
            "TACKFREE_NOW is \"{shown}\", which is no moment: write it like 2026-11-25 14:00 or \
             2026-11-25T14:00:00-06:00, or take it away."
        ))
    })
}

/// Where the store lies, unless it is the demo's.
fn path(args: &Args, around: &Surroundings) -> Result<PathBuf, Failure> {
    let in_folder = || {
        around
            .data_folder
            .as_ref()
            .map(|folder| folder.join("shop.tackfree"))
    };
    let said = args.store.clone().or_else(|| around.store.clone());
    said.or_else(in_folder).ok_or_else(|| {
        Failure::said("This machine names no folder for data: say where with --store PATH.")
    })
}

/// Opens the store the arguments name; a new one gets the starting products and recipes, a demo
/// the demo shop.
pub fn open(args: &Args, around: &Surroundings) -> Result<Opened, Failure> {
    if args.demo {
        let folder = tempfile::Builder::new()
            .prefix("tackfree-demo-")
            .tempdir()
            .map_err(|error| {
                let why = crate::store::os::said(&error);
                Failure::said(format!("The demo finds no room to unpack: {why}."))
            })?;
        let mut store = Store::open(&folder.path().join("demo.tackfree"))?;
        let mut mint = Mint::new(store.last_id()?, around.random);
        files::load_demo(
            &mut store,
            (around.now)(),
            &mut mint,
            around.zone,
            &LabelHours,
        )
        .map_err(|error| Failure::Said(error.lines()))?;
        return Ok(Opened {
            store,
            mint,
            _demo: Some(folder),
        });
    }
    let mut store = Store::open(&path(args, around)?)?;
    let mut mint = Mint::new(store.last_id()?, around.random);
    if store.settings()?.is_none() {
        let mut desk = Desk {
            books: &mut store,
            now: (around.now)(),
            mint: &mut mint,
            zone: around.zone,
        };
        desk.furnish(&Settings::starting(around.zone))
            .map_err(|error| Failure::of_desk(&error, (around.now)(), around.zone))?;
    }
    Ok(Opened {
        store,
        mint,
        _demo: None,
    })
}
