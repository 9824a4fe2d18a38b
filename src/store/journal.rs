//! The journal: the frame around each action, its lines, undo and redo.
//!
//! An action's rows are written between [`begin`] and [`commit`]; triggers (see [`super::schema`])
//! keep an image of each row before and after. Undo applies an action's images backwards, redo
//! forwards, each as one more action whose own images are kept by the same triggers. An action
//! that changed no row leaves no line, so that undo never undoes nothing.

use super::cells::{all, run};
use super::error::Fault;
use super::schema::{Table, quoted};
use crate::desk::JournalLine;
use chrono::{DateTime, Utc};
use rusqlite::types::Value;
use rusqlite::{Connection, OptionalExtension, params, params_from_iter};
use serde_json::{Map, Value as Json};

/// Takes the write lock and puts the next number to the pen.
pub(super) fn begin(conn: &Connection) -> Result<(), Fault> {
    if !conn.is_autocommit() {
        return Err(Fault::other("an action is under way already"));
    }
    run(conn, "BEGIN IMMEDIATE", [])?;
    let sql = "UPDATE pen SET journal = (SELECT coalesce(max(no), 0) + 1 FROM journal)";
    run(conn, sql, []).inspect_err(|_| rollback(conn))?;
    Ok(())
}

/// Gives up what was begun, if anything was.
pub(super) fn rollback(conn: &Connection) {
    if !conn.is_autocommit() {
        // A transaction that cannot even be rolled back is rolled back by SQLite itself at the
        // latest when the file is opened next; there is nobody to tell.
        let _ = conn.execute_batch("ROLLBACK");
    }
}

/// Which kind of line an action leaves.
#[derive(Clone, Copy)]
enum Kind {
    Do,
    /// The beginning of the shop, which is not undone.
    Start,
    Undo(i64),
    Redo(i64),
}

/// Ends an action of the desk.
pub(super) fn commit(conn: &Connection, at: DateTime<Utc>, words: &str) -> Result<(), Fault> {
    close(conn, at, words, Kind::Do).inspect_err(|_| rollback(conn))
}

/// Ends the action that begins a shop.
pub(super) fn commit_start(conn: &Connection, at: DateTime<Utc>, words: &str) -> Result<(), Fault> {
    close(conn, at, words, Kind::Start).inspect_err(|_| rollback(conn))
}

fn close(conn: &Connection, at: DateTime<Utc>, words: &str, kind: Kind) -> Result<(), Fault> {
    if conn.is_autocommit() {
        return Err(Fault::other("no action was begun"));
    }
    let sql =
        "SELECT journal, EXISTS (SELECT 1 FROM image WHERE image.journal = pen.journal) FROM pen";
    let (no, changed): (i64, bool) = conn
        .prepare_cached(sql)?
        .query_row([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    if !changed {
        rollback(conn);
        return Ok(());
    }
    let (word, target) = match kind {
        Kind::Do | Kind::Start => {
            // Something new was done: what was undone before it can no longer be done again.
            run(conn, "UPDATE journal SET undone = 2 WHERE undone = 1", [])?;
            let word = if matches!(kind, Kind::Do) {
                "do"
            } else {
                "start"
            };
            (word, None)
        }
        Kind::Undo(target) => ("undo", Some((target, 1))),
        Kind::Redo(target) => ("redo", Some((target, 0))),
    };
    if let Some((target, undone)) = target {
        run(
            conn,
            "UPDATE journal SET undone = ?2 WHERE no = ?1",
            [target, undone],
        )?;
    }
    run(
        conn,
        "INSERT INTO journal (no, at_ms, words, kind, target, undone) \
         VALUES (?1, ?2, ?3, ?4, ?5, 0)",
        params![
            no,
            at.timestamp_millis(),
            words,
            word,
            target.map(|(target, _)| target)
        ],
    )?;
    run(conn, "UPDATE pen SET journal = NULL", [])?;
    run(conn, "COMMIT", [])?;
    Ok(())
}

/// Undoes the newest action in force; its words.
pub(super) fn undo(
    conn: &Connection,
    tables: &[Table],
    at: DateTime<Utc>,
) -> Result<Option<String>, Fault> {
    let sql = "SELECT no, words FROM journal WHERE kind = 'do' AND undone = 0 \
               ORDER BY no DESC LIMIT 1";
    turn(conn, tables, at, sql, true)
}

/// Does again the action undone last, unless something new was done since; its words.
pub(super) fn redo(
    conn: &Connection,
    tables: &[Table],
    at: DateTime<Utc>,
) -> Result<Option<String>, Fault> {
    let sql = "SELECT no, words FROM journal WHERE undone = 1 ORDER BY no LIMIT 1";
    turn(conn, tables, at, sql, false)
}

fn turn(
    conn: &Connection,
    tables: &[Table],
    at: DateTime<Utc>,
    which: &str,
    back: bool,
) -> Result<Option<String>, Fault> {
    begin(conn)?;
    let turned = (|| {
        let found: Option<(i64, String)> = conn
            .prepare_cached(which)?
            .query_row([], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        let Some((no, words)) = found else {
            rollback(conn);
            return Ok(None);
        };
        // Rows come back in the order they went, which need not be the order of references.
        conn.pragma_update(None, "defer_foreign_keys", true)?;
        replay(conn, tables, no, back)?;
        if !back {
            relink(conn, no)?;
        }
        let (said, kind) = if back {
            (format!("Undone: {words}"), Kind::Undo(no))
        } else {
            (format!("Done again: {words}"), Kind::Redo(no))
        };
        close(conn, at, &said, kind)?;
        Ok(Some(words))
    })();
    turned.inspect_err(|_| rollback(conn))
}

/// Touch tests that come back from before the store knew which coats they were made on are told
/// so; all others brought that with them.
fn relink(conn: &Connection, no: i64) -> Result<(), Fault> {
    let sql = "SELECT DISTINCT key ->> 0 FROM image WHERE journal = ?1 AND tbl = 'event'";
    #[allow(
        clippy::redundant_closure_for_method_calls,
        reason = "the method alone is not general enough"
    )]
    for event in all(conn, sql, [no], |row| row.parse())? {
        super::air::link_touch(conn, event)?;
    }
    Ok(())
}

type Image = Map<String, Json>;

/// Applies the images of one action: backwards, or once more.
fn replay(conn: &Connection, tables: &[Table], no: i64, back: bool) -> Result<(), Fault> {
    let sql = "SELECT tbl, before, after FROM image WHERE journal = ?1 ORDER BY pos";
    let mut images = all(conn, sql, [no], |row| {
        let table: String = row.take()?;
        let (before, after): (Option<Image>, Option<Image>) =
            (row.maybe_json()?, row.maybe_json()?);
        Ok((table, before, after))
    })?;
    if back {
        images.reverse();
        for (_, before, after) in &mut images {
            std::mem::swap(before, after);
        }
    }
    for (name, from, to) in images {
        let table = tables
            .iter()
            .find(|table| table.name == name)
            .ok_or_else(|| Fault::other(format!("there is no longer any {name} to change back")))?;
        step(conn, table, from.as_ref(), to.as_ref())?;
    }
    Ok(())
}

/// Takes one row from one image to another. The row must still be as the first image has it.
fn step(
    conn: &Connection,
    table: &Table,
    from: Option<&Image>,
    to: Option<&Image>,
) -> Result<(), Fault> {
    let mut values: Vec<Value> = Vec::new();
    let set = to
        .map(|to| columns(table, to, &mut values))
        .transpose()?
        .unwrap_or_default();
    let held = from
        .map(|from| columns(table, from, &mut values))
        .transpose()?
        .unwrap_or_default();
    let name = quoted(&table.name);
    let mark = |n: usize| format!("?{}", n + 1);
    let held_as: Vec<String> = held
        .iter()
        .zip(set.len()..)
        .map(|(column, n)| {
            // The key by `=`, so that its index serves.
            let by = if table.key.contains(column) {
                "="
            } else {
                "IS"
            };
            format!("{} {by} {}", quoted(column), mark(n))
        })
        .collect();
    let held_as = held_as.join(" AND ");
    let names: Vec<String> = set.iter().map(|column| quoted(column)).collect();
    let sql = match (from, to) {
        (None, Some(_)) => {
            let marks: Vec<String> = (0..set.len()).map(mark).collect();
            format!(
                "INSERT INTO {name} ({}) VALUES ({})",
                names.join(", "),
                marks.join(", ")
            )
        }
        (Some(_), None) => format!("DELETE FROM {name} WHERE {held_as}"),
        (Some(_), Some(_)) => {
            let to: Vec<String> = names
                .iter()
                .enumerate()
                .map(|(n, name)| format!("{name} = {}", mark(n)))
                .collect();
            format!("UPDATE {name} SET {} WHERE {held_as}", to.join(", "))
        }
        (None, None) => return Err(Fault::damaged("an image of the journal is empty")),
    };
    if run(conn, &sql, params_from_iter(values))? == 1 {
        return Ok(());
    }
    Err(Fault::other(format!(
        "a {} is no longer as the action left it",
        table.name
    )))
}

/// The columns an image fills, in the schema's order; their values are added to `values`.
fn columns(table: &Table, image: &Image, values: &mut Vec<Value>) -> Result<Vec<String>, Fault> {
    let filled: Vec<&String> = table
        .columns
        .iter()
        .filter(|column| image.contains_key(*column))
        .collect();
    if filled.len() != image.len() {
        return Err(Fault::other(format!(
            "a {} had another layout at that time",
            table.name
        )));
    }
    for column in &filled {
        values.push(match &image[*column] {
            Json::Null => Value::Null,
            Json::String(text) => Value::Text(text.clone()),
            Json::Number(number) if number.is_i64() => Value::Integer(number.as_i64().unwrap_or(0)),
            other => return Err(Fault::damaged(format!("{other} stands in the journal"))),
        });
    }
    Ok(filled.into_iter().cloned().collect())
}

/// The newest lines, newest first.
pub(super) fn lines(conn: &Connection, limit: usize) -> Result<Vec<JournalLine>, Fault> {
    let limit = i64::try_from(limit).unwrap_or(i64::MAX);
    let sql = "SELECT no, at_ms, words, undone FROM journal ORDER BY no DESC LIMIT ?1";
    all(conn, sql, [limit], |row| {
        Ok(JournalLine {
            no: row.take()?,
            at: row.moment()?,
            words: row.take()?,
            undone: row.take::<i64>()? != 0,
        })
    })
}

/// A number that changes whenever anybody has written: the newest line's, since no write leaves
/// none; and `SQLite`'s own count of what other connections did, should a whole store have been put
/// back in place.
pub(super) fn version(conn: &Connection) -> Result<i64, Fault> {
    let sql = "SELECT coalesce(max(no), 0) FROM journal";
    let newest: i64 = conn.prepare_cached(sql)?.query_row([], |row| row.get(0))?;
    let others: i64 = conn.pragma_query_value(None, "data_version", |row| row.get(0))?;
    Ok((others << 40).wrapping_add(newest))
}

/// The highest identifier: of the rows that are there, and of those that a redo would bring back.
pub(super) fn last_id(conn: &Connection) -> Result<Option<String>, Fault> {
    let sql = "SELECT max(id) FROM (SELECT max(id) AS id FROM event \
               UNION ALL SELECT max(id) FROM pass UNION ALL SELECT max(id) FROM piece \
               UNION ALL SELECT max(id) FROM job UNION ALL SELECT max(id) FROM client \
               UNION ALL SELECT max(id) FROM recipe UNION ALL SELECT max(id) FROM product \
               UNION ALL SELECT max(id) FROM moisture UNION ALL SELECT max(id) FROM own_wood \
               UNION ALL SELECT max(id) FROM can UNION ALL SELECT max(id) FROM can_line \
               UNION ALL SELECT max(id) FROM slot UNION ALL SELECT max(id) FROM promise \
               UNION ALL SELECT max(id) FROM estimate UNION ALL SELECT max(id) FROM change_order \
               UNION ALL SELECT max(id) FROM sample_board UNION ALL SELECT max(id) FROM invoice \
               UNION ALL SELECT max(id) FROM payment UNION ALL SELECT max(id) FROM hours \
               UNION ALL SELECT max(image.key ->> 0) FROM journal \
               JOIN image ON image.journal = journal.no \
               WHERE journal.undone = 1 AND image.tbl IN \
               ('event', 'pass', 'piece', 'job', 'client', 'recipe', 'product', 'moisture', 'own_wood', \
               'can', 'can_line', 'slot', 'promise', 'estimate', 'change_order', 'sample_board', 'invoice', \
               'payment', 'hours'))";
    Ok(conn.prepare_cached(sql)?.query_row([], |row| row.get(0))?)
}
