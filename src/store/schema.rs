//! The layout of a store: numbered migrations, and the triggers that write row images.

use super::error::Fault;
use crate::desk::BooksError;
use rusqlite::{Connection, TransactionBehavior};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Marks a file as ours (`PRAGMA application_id`): the letters `tkfr`.
pub(super) const APPLICATION_ID: i64 = 0x746b_6672;

/// The migrations, forward only: the first takes an empty file to layout 1, and so on. One that
/// was ever released is never changed.
const MIGRATIONS: [&str; 12] = [
    include_str!("migrations/001_start.sql"),
    include_str!("migrations/002_air.sql"),
    include_str!("migrations/003_products.sql"),
    include_str!("migrations/004_day.sql"),
    include_str!("migrations/005_wood.sql"),
    include_str!("migrations/006_shapes.sql"),
    include_str!("migrations/007_layout.sql"),
    include_str!("migrations/008_cans.sql"),
    include_str!("migrations/009_use.sql"),
    include_str!("migrations/010_openings.sql"),
    include_str!("migrations/011_plan.sql"),
    include_str!("migrations/012_money.sql"),
];

/// Tables that keep the store's own books; every other table holds shop data and is journalled.
const BOOKKEEPING: [&str; 3] = ["journal", "image", "pen"];

/// The newest layout this program knows.
pub(super) fn known() -> i64 {
    i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX)
}

/// What a file holds, seen from its header.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// Nothing at all yet.
    Empty,
    /// A store of this layout, known to this program.
    Layout(i64),
}

/// Looks at what is in the file, changing nothing. `path` is for the words.
pub(super) fn look(conn: &Connection, path: &str) -> Result<Found, Fault> {
    let application: i64 = conn.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let layout: i64 = conn.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let things: i64 = conn.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if application == 0 && layout == 0 && things == 0 {
        return Ok(Found::Empty);
    }
    if application != APPLICATION_ID {
        return Err(BooksError::NotAStore {
            path: path.to_owned(),
        }
        .into());
    }
    if layout > known() {
        return Err(BooksError::Newer {
            found: layout,
            known: known(),
        }
        .into());
    }
    if layout < 1 {
        return Err(Fault::damaged(format!(
            "its layout number {layout} was never used"
        )));
    }
    Ok(Found::Layout(layout))
}

/// Brings the store to the newest layout and its triggers in step with it, all or nothing. Another
/// program may be at the same work, so everything is looked at again under the write lock.
pub(super) fn bring_up(conn: &mut Connection, path: &str) -> Result<(), Fault> {
    if look(conn, path)? == Found::Layout(known()) && triggers(conn)? == wanted(conn)? {
        return Ok(());
    }
    // Rebuilding a table is only possible while nothing watches the references to it; the check
    // below makes up for it. The pragma does nothing inside a transaction, hence out here.
    conn.pragma_update(None, "foreign_keys", false)?;
    let done = migrate(conn, path);
    conn.pragma_update(None, "foreign_keys", true)?;
    done
}

fn migrate(conn: &mut Connection, path: &str) -> Result<(), Fault> {
    let work = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let from = match look(&work, path)? {
        Found::Empty => 0,
        Found::Layout(layout) => layout,
    };
    for name in triggers(&work)?.keys() {
        work.execute_batch(&format!("DROP TRIGGER {}", quoted(name)))?;
    }
    for (sql, layout) in MIGRATIONS
        .iter()
        .zip(1..)
        .filter(|(_, layout)| *layout > from)
    {
        work.execute_batch(sql)?;
        work.pragma_update(None, "user_version", layout)?;
    }
    work.pragma_update(None, "application_id", APPLICATION_ID)?;
    for sql in wanted(&work)?.values() {
        work.execute_batch(sql)?;
    }
    if let Some(broken) = broken_references(&work)?.first() {
        return Err(Fault::damaged(broken.clone()));
    }
    Ok(work.commit()?)
}

/// Rows that point at rows that are not there, in words.
pub(super) fn broken_references(conn: &Connection) -> Result<Vec<String>, Fault> {
    let mut statement = conn.prepare("SELECT \"table\", parent FROM pragma_foreign_key_check")?;
    let rows = statement.query_map([], |row| {
        let (table, parent): (String, String) = (row.get(0)?, row.get(1)?);
        Ok(format!("a {table} belongs to a {parent} that is not there"))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// A table of shop data, as the schema has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Table {
    /// Its name.
    pub name: String,
    /// Its columns, in order.
    pub columns: Vec<String>,
    /// The columns of its primary key, in order.
    pub key: Vec<String>,
}

/// The tables of shop data.
pub(super) fn tables(conn: &Connection) -> Result<Vec<Table>, Fault> {
    let mut statement = conn.prepare(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' \
         ESCAPE '\\' ORDER BY name",
    )?;
    let names: Vec<String> = statement
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    names
        .into_iter()
        .filter(|name| !BOOKKEEPING.contains(&name.as_str()))
        .map(|name| {
            let mut statement =
                conn.prepare("SELECT name, pk FROM pragma_table_info(?1) ORDER BY cid")?;
            let columns: Vec<(String, i64)> = statement
                .query_map([&name], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect::<Result<_, _>>()?;
            let mut key: Vec<(i64, String)> = columns
                .iter()
                .filter(|(_, pk)| *pk > 0)
                .map(|(name, pk)| (*pk, name.clone()))
                .collect();
            key.sort();
            Ok(Table {
                name,
                columns: columns.into_iter().map(|(name, _)| name).collect(),
                key: key.into_iter().map(|(_, name)| name).collect(),
            })
        })
        .collect()
}

/// The triggers that are there, by name, with their text.
fn triggers(conn: &Connection) -> Result<BTreeMap<String, String>, Fault> {
    let mut statement =
        conn.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The triggers there should be: three for each table of shop data.
fn wanted(conn: &Connection) -> Result<BTreeMap<String, String>, Fault> {
    let mut out = BTreeMap::new();
    for table in tables(conn)? {
        for (event, before, after) in [
            ("insert", false, true),
            ("update", true, true),
            ("delete", true, false),
        ] {
            let name = format!("image_of_{}_{event}", table.name);
            let sql = trigger(&name, &table, event, before, after);
            out.insert(name, sql);
        }
    }
    Ok(out)
}

/// One trigger. It writes the row before and after as JSON under the number the pen holds; with
/// no number there the image is refused, and with it the write.
fn trigger(name: &str, table: &Table, event: &str, before: bool, after: bool) -> String {
    let image = |row: &str, is: bool| {
        if !is {
            return "NULL".to_owned();
        }
        let pairs = table
            .columns
            .iter()
            .map(|c| format!("{}, {row}.{}", text(c), quoted(c)));
        format!("json_object({})", pairs.collect::<Vec<_>>().join(", "))
    };
    let keyed = if before { "OLD" } else { "NEW" };
    let key: Vec<String> = table
        .key
        .iter()
        .map(|c| format!("{keyed}.{}", quoted(c)))
        .collect();
    let mut when = String::new();
    if event == "update" {
        let changed = table
            .columns
            .iter()
            .map(|c| format!("OLD.{0} IS NOT NEW.{0}", quoted(c)));
        // Writing to a String cannot fail.
        let _ = write!(when, " WHEN {}", changed.collect::<Vec<_>>().join(" OR "));
    }
    format!(
        "CREATE TRIGGER {} AFTER {} ON {}{when} BEGIN \
         INSERT INTO image (journal, pos, tbl, key, before, after) SELECT journal, \
         (SELECT coalesce(max(pos), 0) + 1 FROM image WHERE image.journal = pen.journal), \
         {}, json_array({}), {}, {} FROM pen; END",
        quoted(name),
        event.to_uppercase(),
        quoted(&table.name),
        text(&table.name),
        key.join(", "),
        image("OLD", before),
        image("NEW", after),
    )
}

/// A name as SQL writes it.
pub(super) fn quoted(name: &str) -> String {
    format!("\"{}\"", name.replace('"', "\"\""))
}

/// A text as SQL writes it.
fn text(value: &str) -> String {
    format!("'{}'", value.replace('\'', "''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Columns that a migration takes away on purpose: since products say of every figure where it
    /// came from, one word for all of them is no more.
    const TAKEN_AWAY: [(&str, &str); 1] = [("product", "basis")];

    /// A table that is made anew must take along every column that it had.
    #[test]
    fn no_migration_loses_a_column() {
        let conn = Connection::open_in_memory().unwrap();
        let mut had: Vec<Table> = Vec::new();
        for sql in MIGRATIONS {
            conn.execute_batch(sql).unwrap();
            let has = tables(&conn).unwrap();
            for table in &had {
                let now = has.iter().find(|now| now.name == table.name);
                for column in &table.columns {
                    if TAKEN_AWAY.contains(&(table.name.as_str(), column.as_str())) {
                        continue;
                    }
                    assert!(
                        now.is_some_and(|now| now.columns.contains(column)),
                        "{}.{column} is gone",
                        table.name
                    );
                }
            }
            had = has;
        }
        assert!(broken_references(&conn).unwrap().is_empty());
    }
}
