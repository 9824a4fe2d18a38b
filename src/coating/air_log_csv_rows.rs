//! The rows of a logger's file: cells to numbers.

use super::air_log_csv::{LONGEST, LoggerError, LoggerReport};
use super::air_log_csv_head::{Header, LoggerColumns};
use super::air_log_csv_scale::{FileHumidity, FileScale, scale};
use super::air_log_csv_time::{DateOrder, Placing, When, read_when};
use super::air_log_kinds::{AirReading, ShopAir};
use crate::units::{Humidity, clean_line};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::io::{self, Read};

/// One row before scale and order are known.
pub(super) struct Raw {
    pub(super) line: u64,
    pub(super) when: When,
    pub(super) degrees: f64,
    pub(super) scale: Option<FileScale>,
    pub(super) humidity: f64,
}

/// The delimiter under which a header row names most, and that row.
pub(super) fn layout(head: &[u8]) -> (u8, Option<Header>) {
    let mut best: (u8, Option<Header>) = (b',', None);
    let mut most = (0, 0);
    for delimiter in [b',', b';', b'\t'] {
        let (mut header, mut width) = (None::<Header>, 0);
        for record in records(head, delimiter).flatten().take(40) {
            width = width.max(record.len());
            let cells: Vec<_> = record.iter().map(String::from_utf8_lossy).collect();
            let read = Header::read(cells.iter().map(AsRef::as_ref));
            if let Some(read) = read
                && header
                    .as_ref()
                    .is_none_or(|held| read.found() > held.found())
            {
                header = Some(read);
            }
        }
        let found = (header.as_ref().map_or(0, Header::found), width);
        if found > most {
            (most, best) = (found, (delimiter, header));
        }
    }
    best
}

pub(super) fn first_cells(head: &[u8], delimiter: u8) -> Vec<String> {
    let first = records(head, delimiter).flatten().next();
    let cells = first.into_iter().flat_map(|record| {
        let cells = record
            .iter()
            .map(|cell| clean_line(&String::from_utf8_lossy(cell)).0);
        cells.collect::<Vec<_>>()
    });
    cells.collect()
}

fn records<R: Read>(text: R, delimiter: u8) -> csv::ByteRecordsIntoIter<R> {
    csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text)
        .into_byte_records()
}

/// Every row that has a time and two numbers; the others go to the report once the first good row
/// was seen (before it they are titles and the header).
pub(super) fn rows(
    text: impl Read,
    delimiter: u8,
    columns: LoggerColumns,
    report: &mut LoggerReport,
) -> Result<Vec<Raw>, LoggerError> {
    let mut rows = Vec::new();
    for record in records(text, delimiter) {
        let record = record.map_err(|error| LoggerError::Io(io::Error::other(error)))?;
        let position = record.position();
        let line = position.map_or(0, csv::Position::line);
        if position.is_some_and(|position| position.byte() >= LONGEST) {
            return Err(LoggerError::TooLong);
        }
        if record.iter().all(<[u8]>::is_empty) {
            continue;
        }
        match raw(&record, line, columns, delimiter) {
            Ok(row) => rows.push(row),
            Err(_) if rows.is_empty() => {}
            Err(why) => report.refuse(line, why),
        }
    }
    Ok(rows)
}

fn raw(
    record: &csv::ByteRecord,
    line: u64,
    columns: LoggerColumns,
    delimiter: u8,
) -> Result<Raw, String> {
    let cell = |column: usize| {
        let bytes = record.get(column).unwrap_or_default();
        clean_line(&String::from_utf8_lossy(bytes)).0
    };
    let mut when = cell(columns.when);
    if let Some(time) = columns.time {
        when = format!("{when} {}", cell(time));
    }
    let said = |text: &str, what: &str| {
        if text.is_empty() {
            format!("no {what}")
        } else {
            format!(
                "\"{}\" is no {what}",
                text.chars().take(40).collect::<String>()
            )
        }
    };
    let (degrees, percent) = (cell(columns.temperature), cell(columns.humidity));
    Ok(Raw {
        line,
        when: read_when(&when).ok_or_else(|| said(when.trim(), "time"))?,
        degrees: number(&degrees, delimiter).ok_or_else(|| said(&degrees, "temperature"))?,
        scale: scale(degrees.trim_start_matches(|c: char| !c.is_alphabetic())),
        humidity: number(&percent, delimiter).ok_or_else(|| said(&percent, "humidity"))?,
    })
}

/// The number at the start of a cell; a decimal comma where semicolons or tabs part the cells.
fn number(cell: &str, delimiter: u8) -> Option<f64> {
    let text = cell.trim().replace('\u{2212}', "-");
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')))
        .unwrap_or(text.len());
    let digits = text.get(..end)?;
    let digits = if delimiter == b',' {
        digits.to_owned()
    } else {
        digits.replace(',', ".")
    };
    digits.parse::<f64>().ok().filter(|value| value.is_finite())
}

pub(super) fn reading(
    row: &Raw,
    (scale, humidity): (FileScale, FileHumidity),
    order: DateOrder,
    placing: &mut Placing,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<AirReading, String> {
    let at = placing
        .place(row.when, order)
        .ok_or("there is no such day")?;
    let percent = humidity.percent(row.humidity);
    let air = ShopAir {
        temperature: row.scale.unwrap_or(scale).temperature(row.degrees),
        humidity: Humidity::from_percent(percent)
            .ok_or_else(|| format!("a humidity of {percent} % cannot be"))?,
    };
    AirReading::checked(at, air, now, zone).map_err(|error| error.to_string())
}
