//! The demo shop in a store, its export, and exports with one thing changed.

use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::Books;
use tackfree::store::Store;
use tackfree::store::files::{
    FilesError, ImportReport, NAMES, WOOD_NAMES, demo_files, export, import, load_demo,
};
use tempfile::TempDir;

pub const ZONE: Tz = chrono_tz::America::Denver;
pub const NOW: &str = "2026-06-10T15:00:00Z";

pub fn utc(text: &str) -> DateTime<Utc> {
    DateTime::parse_from_rfc3339(text)
        .unwrap()
        .with_timezone(&Utc)
}

pub fn mint(store: &Store) -> Mint {
    Mint::new(store.last_id().unwrap(), 11)
}

pub fn demo_store() -> Store {
    let mut store = Store::in_memory().unwrap();
    let mut mint = mint(&store);
    load_demo(&mut store, utc(NOW), &mut mint, ZONE, &LabelHours).unwrap();
    store
}

/// Exports into a folder that goes when it is dropped.
pub fn exported(store: &Store) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    // A folder of the export's own making, then moved over the one that cleans up after itself.
    std::fs::remove_dir(folder.path()).unwrap();
    export(store, folder.path(), ZONE).unwrap();
    folder
}

pub fn bring_in(folder: &Path) -> Result<(Store, ImportReport), FilesError> {
    let mut store = Store::in_memory().unwrap();
    let mut mint = mint(&store);
    match import(&mut store, folder, utc(NOW), &mut mint, ZONE, &LabelHours) {
        Ok(report) => Ok((store, report)),
        Err(error) => {
            assert!(
                store.clients().unwrap().is_empty(),
                "something of a failed import stayed"
            );
            assert!(
                store.settings().unwrap().is_none(),
                "something of a failed import stayed"
            );
            assert!(
                store.journal(1).unwrap().is_empty(),
                "a failed import left a journal line"
            );
            Err(error)
        }
    }
}

pub fn contents(folder: &Path) -> BTreeMap<&'static str, String> {
    let read = |name| std::fs::read_to_string(folder.join(name)).unwrap();
    let all = NAMES.into_iter().chain(WOOD_NAMES);
    all.map(|name| (name, read(name))).collect()
}

/// The demo's own files in a folder, one of them replaced.
pub fn demo_with(name: &str, text: &[u8]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (file, has) in demo_files() {
        std::fs::write(folder.path().join(file), has).unwrap();
    }
    std::fs::write(folder.path().join(name), text).unwrap();
    folder
}

/// One file of the demo with one passage replaced, which must be there.
pub fn demo_but(name: &str, from: &str, to: &str) -> TempDir {
    let (_, text) = demo_files()
        .into_iter()
        .find(|(file, _)| *file == name)
        .unwrap();
    assert!(text.contains(from), "{name} has no {from}");
    demo_with(name, text.replacen(from, to, 1).as_bytes())
}

/// What an import of this folder answers.
pub fn refusal(folder: &TempDir) -> String {
    match bring_in(folder.path()) {
        Ok((_, report)) => panic!("it was taken: {}", report.words),
        Err(error) => error.to_string(),
    }
}

/// A CSV file as rows of cells, the header first.
pub type Rows = Vec<Vec<String>>;

/// The export of the demo with the rows of one file changed.
pub fn export_but(name: &str, change: impl FnOnce(&mut Rows)) -> TempDir {
    static DEMO: OnceLock<BTreeMap<&'static str, String>> = OnceLock::new();
    let texts = DEMO.get_or_init(|| contents(exported(&demo_store()).path()));
    let folder = tempfile::tempdir().unwrap();
    for (file, text) in texts {
        std::fs::write(folder.path().join(file), text).unwrap();
    }
    let path = folder.path().join(name);
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_path(&path)
        .unwrap();
    let mut rows: Rows = reader
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect();
    change(&mut rows);
    let mut writer = csv::Writer::from_path(&path).unwrap();
    for row in &rows {
        writer.write_record(row).unwrap();
    }
    writer.flush().unwrap();
    folder
}

/// The place of a column.
pub fn column(rows: &Rows, name: &str) -> usize {
    rows[0].iter().position(|has| has == name).unwrap()
}

/// The identifier of a piece of the demo.
pub fn id_of(folder: &Path, piece: &str) -> String {
    let text = std::fs::read_to_string(folder.join("pieces.csv")).unwrap();
    let line = text
        .lines()
        .find(|line| line.contains(&format!(",{piece},")))
        .unwrap();
    line.split(',').next().unwrap().to_owned()
}
