//! Reading rows cell by cell, and writing values as the columns hold them.

use super::error::Fault;
use chrono::{DateTime, Utc};
use rusqlite::types::FromSql;
use rusqlite::{Connection, Params, Row};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde::de::value::{BorrowedStrDeserializer, Error as WordError};
use std::fmt::Display;
use std::str::FromStr;

/// One row being read from left to right: the reading follows the order of the SELECT.
pub(super) struct Cells<'a> {
    row: &'a Row<'a>,
    at: usize,
}

impl Cells<'_> {
    fn step(&mut self) -> usize {
        self.at += 1;
        self.at - 1
    }

    /// Why the cell at `at` cannot be right: names the row by its first cell.
    fn unread(&self, at: usize, why: &dyn Display) -> Fault {
        let column = self.row.as_ref().column_name(at).unwrap_or("?").to_owned();
        let first: String = self.row.get(0).unwrap_or_else(|_| "?".to_owned());
        Fault::damaged(format!("{column} of the row {first} does not read ({why})"))
    }

    /// The next cell as it is.
    pub fn take<T: FromSql>(&mut self) -> Result<T, Fault> {
        let at = self.step();
        self.row.get(at).map_err(|error| self.unread(at, &error))
    }

    /// The next cell, text, by the type's own reading; none if the cell is empty.
    pub fn maybe_parse<T: FromStr<Err: Display>>(&mut self) -> Result<Option<T>, Fault> {
        let at = self.step();
        let text = self.row.get_ref(at)?.as_str_or_null();
        let text = text.map_err(|error| self.unread(at, &error))?;
        text.map(str::parse)
            .transpose()
            .map_err(|error| self.unread(at, &error))
    }

    /// As [`Cells::maybe_parse`], for a cell that is never empty.
    pub fn parse<T: FromStr<Err: Display>>(&mut self) -> Result<T, Fault> {
        let at = self.at;
        self.maybe_parse()?
            .ok_or_else(|| self.unread(at, &"it is empty"))
    }

    /// The next cell as one word of a list.
    pub fn maybe_word<T: DeserializeOwned>(&mut self) -> Result<Option<T>, Fault> {
        let at = self.step();
        let text = self.row.get_ref(at)?.as_str_or_null();
        let text = text.map_err(|error| self.unread(at, &error))?;
        let read = |text| T::deserialize(BorrowedStrDeserializer::<WordError>::new(text));
        text.map(read)
            .transpose()
            .map_err(|error| self.unread(at, &error))
    }

    /// As [`Cells::maybe_word`], for a cell that is never empty.
    pub fn word<T: DeserializeOwned>(&mut self) -> Result<T, Fault> {
        let at = self.at;
        self.maybe_word()?
            .ok_or_else(|| self.unread(at, &"it is empty"))
    }

    /// The next cell as JSON.
    pub fn maybe_json<T: DeserializeOwned>(&mut self) -> Result<Option<T>, Fault> {
        let at = self.step();
        let text = self.row.get_ref(at)?.as_str_or_null();
        let text = text.map_err(|error| self.unread(at, &error))?;
        text.map(serde_json::from_str)
            .transpose()
            .map_err(|error| self.unread(at, &error))
    }

    /// As [`Cells::maybe_json`], for a cell that is never empty.
    pub fn json<T: DeserializeOwned>(&mut self) -> Result<T, Fault> {
        let at = self.at;
        self.maybe_json()?
            .ok_or_else(|| self.unread(at, &"it is empty"))
    }

    /// The next cell as a moment.
    pub fn maybe_moment(&mut self) -> Result<Option<DateTime<Utc>>, Fault> {
        let at = self.at;
        let Some(ms) = self.take::<Option<i64>>()? else {
            return Ok(None);
        };
        let moment = DateTime::from_timestamp_millis(ms);
        moment
            .map(Some)
            .ok_or_else(|| self.unread(at, &"out of the calendar"))
    }

    /// As [`Cells::maybe_moment`], for a cell that is never empty.
    pub fn moment(&mut self) -> Result<DateTime<Utc>, Fault> {
        let at = self.at;
        self.maybe_moment()?
            .ok_or_else(|| self.unread(at, &"it is empty"))
    }

    /// Fails naming the row, for what only several cells together can tell.
    pub fn wrong(&self, why: &dyn Display) -> Fault {
        self.unread(self.at.saturating_sub(1), why)
    }
}

/// Every row of a query, read.
pub(super) fn all<T>(
    conn: &Connection,
    sql: &str,
    params: impl Params,
    mut read: impl FnMut(&mut Cells<'_>) -> Result<T, Fault>,
) -> Result<Vec<T>, Fault> {
    let mut statement = conn.prepare_cached(sql)?;
    let mut rows = statement.query(params)?;
    let mut out = Vec::new();
    while let Some(row) = rows.next()? {
        out.push(read(&mut Cells { row, at: 0 })?);
    }
    Ok(out)
}

/// Writes with a kept statement; the number of rows touched.
pub(super) fn run(conn: &Connection, sql: &str, params: impl Params) -> Result<usize, Fault> {
    Ok(conn.prepare_cached(sql)?.execute(params)?)
}

/// One word of a list, as its column holds it.
pub(super) fn word(value: &impl Serialize) -> Result<String, Fault> {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(word)) => Ok(word),
        Ok(other) => Err(Fault::other(format!("{other} is not one word"))),
        Err(error) => Err(Fault::other(error.to_string())),
    }
}

/// As JSON text.
pub(super) fn json(value: &impl Serialize) -> Result<String, Fault> {
    serde_json::to_string(value).map_err(|error| Fault::other(error.to_string()))
}
