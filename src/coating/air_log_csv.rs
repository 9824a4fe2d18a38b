//! Reading of a data logger's file: time, temperature and humidity in columns.
//!
//! Columns, scale and the order of day and month are recognised from the file; what it does not
//! say is asked, never guessed. Bad rows are left out and told of by line.

use super::air_log_csv_head::Header;
pub use super::air_log_csv_head::LoggerColumns;
use super::air_log_csv_rows::{first_cells, layout, reading, rows};
use super::air_log_csv_scale::scale;
pub use super::air_log_csv_scale::{FileHumidity, FileScale};
use super::air_log_csv_scale::{settle_humidity, settle_order, settle_scale};
pub use super::air_log_csv_time::DateOrder;
use super::air_log_csv_time::Placing;
use super::air_log_kinds::AirReading;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::io::{self, Read};
use thiserror::Error;

/// Bytes looked at for the header.
const HEAD: u64 = 16 * 1024;
/// Longest file: 1 GiB, more than a hundred years of readings by the minute.
pub(super) const LONGEST: u64 = 1 << 30;
/// Bad rows and gaps told one by one; the rest only counted.
const TOLD: usize = 20;

/// What the person has answered about a file.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct LoggerAnswers {
    /// Which column is which.
    pub columns: Option<LoggerColumns>,
    /// The scale of the temperatures.
    pub scale: Option<FileScale>,
    /// How the humidity is written.
    pub humidity: Option<FileHumidity>,
    /// The order of day and month.
    pub order: Option<DateOrder>,
}

/// What has to be asked before the file can be read. Ask, and read again with the answer.
#[derive(Debug, Clone, PartialEq)]
pub enum LoggerQuestion {
    /// Which column is which. `cells` are the header's, or the first row's.
    Columns {
        /// One text a column.
        cells: Vec<String>,
    },
    /// Whether the temperatures are in F, C or K: the file does not say.
    Scale {
        /// The coldest number.
        least: f64,
        /// The hottest number.
        most: f64,
    },
    /// The file says one scale, but most of it would be no shop's air: `68 C (154.4 F)`.
    ScaleDoubtful {
        /// The first such temperature in both scales.
        shown: String,
    },
    /// Whether the humidity is a fraction of one: as percent it would be no shop's air.
    HumidityDoubtful {
        /// The least number.
        least: f64,
        /// The greatest number.
        most: f64,
    },
    /// Whether dates are month first or day first: every one could be either.
    Order {
        /// The first such date, as it stands.
        sample: String,
    },
}

impl LoggerQuestion {
    /// The question in words.
    pub fn words(&self) -> String {
        match self {
            Self::Columns { cells } => format!(
                "Which columns are time, temperature and humidity? The file has: {}.",
                cells.join(", ")
            ),
            Self::Scale { least, most } => format!(
                "Are the temperatures in F, C or K? The file does not say; they run from {least} to \
                 {most}."
            ),
            Self::HumidityDoubtful { least, most } => format!(
                "Is the humidity a fraction of one? It runs from {least} to {most}; as percent that \
                 would be drier than any shop's air."
            ),
            Self::ScaleDoubtful { shown } => format!(
                "{shown} is no shop's air, and most of the file is like that: are the temperatures \
                 in another scale?"
            ),
            Self::Order { sample } => {
                format!("Is \"{sample}\" month first or day first? The file does not say.")
            }
        }
    }
}

/// A row that was left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// Its line in the file, from 1; after empty lines, the first of these.
    pub line: u64,
    /// Why, in words.
    pub why: String,
}

/// What was read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct LoggerReport {
    /// The readings in the order of the file; duplicates are found when they are merged.
    pub readings: Vec<AirReading>,
    /// How many rows were left out.
    pub refused: usize,
    /// The first of them.
    pub first_refused: Vec<Refused>,
    /// How many rows lie before the one above them.
    pub out_of_order: usize,
    /// How many times the readings pause for more than twelve hours, so that the usual air stands
    /// in.
    pub gaps: usize,
    /// The first of these pauses.
    pub first_gaps: Vec<(DateTime<Utc>, DateTime<Utc>)>,
    /// Local times that a clock change leaves out, taken an hour later.
    pub left_out: usize,
}

/// The outcome of reading.
#[derive(Debug, Clone, PartialEq)]
pub enum LoggerRead {
    /// Read.
    Read(LoggerReport),
    /// Something must be asked first.
    Asks(LoggerQuestion),
}

/// Why a file cannot be read at all.
#[derive(Debug, Error)]
pub enum LoggerError {
    /// The file system or the device said no.
    #[error("The logger's file could not be read: {0}.")]
    Io(#[from] io::Error),
    /// Nothing in it.
    #[error("The logger's file is empty; export it from the logger again.")]
    Empty,
    /// Not text.
    #[error("This is no CSV text (a spreadsheet or another encoding); save it as CSV in UTF-8.")]
    NotText,
    /// Too long.
    #[error("The logger's file is over 1 GiB; split it by year.")]
    TooLong,
}

/// Reads a logger's file. `now` refuses readings from the future, `zone` places local times.
///
/// # Errors
/// [`LoggerError`] where nothing at all can be made of it; bad rows are told in the report.
pub fn read_logger(
    mut file: impl Read,
    answers: &LoggerAnswers,
    now: DateTime<Utc>,
    zone: Tz,
) -> Result<LoggerRead, LoggerError> {
    let mut head = Vec::new();
    file.by_ref().take(HEAD).read_to_end(&mut head)?;
    if head.iter().all(u8::is_ascii_whitespace) {
        return Err(LoggerError::Empty);
    }
    if head.contains(&0) || head.starts_with(&[0xFF, 0xFE]) || head.starts_with(&[0xFE, 0xFF]) {
        return Err(LoggerError::NotText);
    }
    let (delimiter, header) = layout(&head);
    let columns = answers
        .columns
        .or_else(|| header.as_ref().and_then(Header::columns));
    let Some(columns) = columns else {
        let cells = header.map_or_else(|| first_cells(&head, delimiter), |header| header.cells);
        return Ok(LoggerRead::Asks(LoggerQuestion::Columns { cells }));
    };
    let stated = header
        .as_ref()
        .and_then(|header| scale(header.cells.get(columns.temperature)?));
    let offset = header.as_ref().and_then(|header| header.offset_minutes);
    let mut report = LoggerReport::default();
    let whole = io::Cursor::new(head).chain(file.take(LONGEST));
    let rows = rows(whole, delimiter, columns, &mut report)?;
    let scale = match settle_scale(&rows, answers.scale, stated) {
        Ok(scale) => scale,
        Err(question) => return Ok(LoggerRead::Asks(question)),
    };
    let humidity = match settle_humidity(&rows, answers.humidity) {
        Ok(humidity) => humidity,
        Err(question) => return Ok(LoggerRead::Asks(question)),
    };
    let order = match settle_order(&rows, answers.order) {
        Ok(order) => order,
        Err(question) => return Ok(LoggerRead::Asks(question)),
    };
    let mut placing = Placing::new(zone, offset);
    for row in rows {
        match reading(&row, (scale, humidity), order, &mut placing, now, zone) {
            Ok(reading) => report.take(reading),
            Err(why) => report.refuse(row.line, why),
        }
    }
    report.left_out = placing.left_out;
    report.find_gaps();
    Ok(LoggerRead::Read(report))
}

impl LoggerReport {
    fn take(&mut self, reading: AirReading) {
        if self
            .readings
            .last()
            .is_some_and(|last| reading.at < last.at)
        {
            self.out_of_order += 1;
        }
        self.readings.push(reading);
    }

    pub(super) fn refuse(&mut self, line: u64, why: String) {
        self.refused += 1;
        // Rows are refused in two walks over the file; told are its first.
        let at = self.first_refused.partition_point(|row| row.line <= line);
        self.first_refused.insert(at, Refused { line, why });
        self.first_refused.truncate(TOLD);
    }

    fn find_gaps(&mut self) {
        let mut times: Vec<DateTime<Utc>> = self.readings.iter().map(|row| row.at).collect();
        times.sort_unstable();
        for (from, to) in times.iter().zip(times.iter().skip(1)) {
            if (*to - *from).num_seconds() > super::air_log::HOLDS {
                self.gaps += 1;
                if self.first_gaps.len() < TOLD {
                    self.first_gaps.push((*from, *to));
                }
            }
        }
    }
}
