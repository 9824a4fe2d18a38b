//! A store that the first released layout wrote is opened, brought to the newest layout, and loses
//! nothing on the way: its rows, its export, and what can be undone are the same in all the parts
//! that both know. What a later layout adds is not asked of it.

use rusqlite::Connection;
use rusqlite::types::Value;
use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use tackfree::desk::Books;
use tackfree::shop::{Ticket, What};
use tackfree::store::Store;
use tackfree::store::files::export;

const ZONE: chrono_tz::Tz = chrono_tz::America::Denver;

/// The tables of shop data in the first layout.
const TABLES: [&str; 10] = [
    "setting",
    "client",
    "job",
    "product",
    "recipe",
    "piece",
    "opening",
    "pass",
    "event",
    "event_face",
];

fn first_layout(folder: &Path) -> PathBuf {
    let path = folder.join("old.tackfree");
    let conn = Connection::open(&path).expect("a file");
    conn.execute_batch(include_str!("../src/store/migrations/001_start.sql"))
        .expect("the first layout");
    conn.execute_batch(include_str!("fixtures/layout_1.sql"))
        .expect("its rows");
    conn.pragma_update(None, "user_version", 1).expect("one");
    // The letters tkfr.
    conn.pragma_update(None, "application_id", 0x746b_6672)
        .expect("ours");
    path
}

/// One row, cell by column. What is written as JSON has a form of its own in each layout; the
/// export tells whether it still says the same.
type Row = BTreeMap<String, String>;

fn rows(conn: &Connection, table: &str) -> Vec<Row> {
    let Ok(mut statement) = conn.prepare(&format!("SELECT * FROM {table}")) else {
        return Vec::new();
    };
    let columns: Vec<String> = statement.column_names().map(str::to_owned).collect();
    let read = statement.query_map([], |row| {
        let mut out = Row::new();
        for (at, column) in columns.iter().enumerate() {
            let shown = match row.get::<_, Value>(at)? {
                Value::Text(text) if text.starts_with(['{', '[']) => continue,
                Value::Text(text) => text,
                other => format!("{other:?}"),
            };
            out.insert(column.clone(), shown);
        }
        Ok(out)
    });
    read.expect("a query")
        .collect::<Result<_, _>>()
        .expect("rows")
}

/// Those columns of `new` that `old` has as well.
fn known(old: &Row, new: &Row) -> (Row, Row) {
    let both = |of: &Row, other: &Row| {
        of.iter()
            .filter(|(column, _)| other.contains_key(*column))
            .map(|(column, cell)| (column.clone(), cell.clone()))
            .collect()
    };
    (both(old, new), both(new, old))
}

#[test]
fn every_row_is_still_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = first_layout(folder.path());
    let before: HashMap<&str, Vec<Row>> = {
        let conn = Connection::open(&path).expect("opens");
        TABLES
            .iter()
            .map(|table| (*table, rows(&conn, table)))
            .collect()
    };
    let store = Store::open(&path).expect("it opens");
    assert_eq!(store.check(), Ok(Vec::new()));
    drop(store);
    let conn = Connection::open(&path).expect("opens");
    let mut cells = 0;
    for table in TABLES {
        let (old, new) = (&before[table], rows(&conn, table));
        assert!(!old.is_empty(), "the fixture has no {table}");
        if new.is_empty() {
            // A later layout keeps it elsewhere; the export below says whether it is still there.
            continue;
        }
        assert_eq!(old.len(), new.len(), "{table}");
        for (old, new) in old.iter().zip(&new) {
            let (was, is) = known(old, new);
            assert_eq!(was, is, "{table}");
            cells += was.len();
        }
    }
    assert!(cells > 3000, "only {cells} cells were compared");
}

/// A CSV file by its header.
fn table(folder: &Path, name: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_path(folder.join(name)).expect("a table");
    reader
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("rows")
}

/// The values of a TOML file, each under its path.
fn values(folder: &Path, name: &str) -> Row {
    fn walk(at: &str, value: &toml::Value, out: &mut Row) {
        match value {
            toml::Value::Table(table) => {
                for (key, value) in table {
                    walk(&format!("{at}/{key}"), value, out);
                }
            }
            toml::Value::Array(list) => {
                for (no, value) in list.iter().enumerate() {
                    walk(&format!("{at}/{no}"), value, out);
                }
            }
            other => {
                out.insert(at.to_owned(), other.to_string());
            }
        }
    }
    let text = std::fs::read_to_string(folder.join(name)).expect("a file");
    let mut out = Row::new();
    walk(
        "",
        &toml::Value::Table(text.parse().expect("TOML")),
        &mut out,
    );
    // The number of the format, which may rise.
    out.remove("/format");
    out
}

#[test]
fn what_it_held_is_exported_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(&first_layout(folder.path())).expect("it opens");
    let out = folder.path().join("out");
    export(&store, &out, ZONE).expect("exported");
    let then = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/layout_1");
    for name in [
        "clients.csv",
        "jobs.csv",
        "pieces.csv",
        "openings.csv",
        "passes.csv",
        "log.csv",
    ] {
        let (old, new) = (table(&then, name), table(&out, name));
        assert_eq!(old.len(), new.len(), "{name}");
        for (old, new) in old.iter().zip(&new) {
            let (was, is) = known(old, new);
            assert_eq!(was, is, "{name}");
            assert!(
                was.len() >= 3,
                "{name}: {old:?} and {new:?} have little in common"
            );
        }
    }
    for (name, least) in [
        ("shop.toml", 6),
        ("products.toml", 60),
        ("recipes.toml", 60),
        ("schedules.toml", 100),
    ] {
        let (was, is) = known(&values(&then, name), &values(&out, name));
        assert_eq!(was, is, "{name}");
        assert!(was.len() >= least, "{name}: only {} values", was.len());
    }
}

#[test]
fn its_pieces_stand_where_they_stood_and_its_undo_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = Store::open(&first_layout(folder.path())).expect("it opens");
    let files = store.pieces(tackfree::desk::Scope::All).expect("read");
    assert_eq!(files.len(), 8);
    for file in &files {
        let ticket = Ticket::of(file);
        assert_eq!(ticket.stage, file.piece.stage, "{}", file.piece.name);
        assert_eq!(ticket.finished.is_some(), file.piece.finished);
    }
    let sorts = |what: fn(&What) -> bool| {
        let events = files.iter().flat_map(|file| &file.events);
        events.filter(|event| what(&event.what)).count()
    };
    assert_eq!(sorts(|what| matches!(what, What::SandBack { .. })), 1);
    assert!(sorts(|what| matches!(what, What::NotExposed { .. })) > 0);
    assert!(sorts(|what| matches!(what, What::Touch { .. })) > 0);
    let at = chrono::DateTime::from_timestamp(1_800_000_000, 0).expect("a moment");
    let change = "Changed client Wren Ott: phone 555 0107 > 555 0109";
    assert_eq!(store.redo(at), Ok(Some(change.to_owned())));
    let phone = |store: &Store| {
        let clients = store.clients().expect("read");
        let wren = clients.iter().find(|client| client.name == "Wren Ott");
        wren.map(|client| client.phone.clone())
    };
    assert_eq!(phone(&store).as_deref(), Some("555 0109"));
    store.undo(at).expect("undone");
    store.undo(at).expect("undone");
    assert_eq!(phone(&store), None);
    assert_eq!(store.undo(at), Ok(None), "the beginning stands");
}
