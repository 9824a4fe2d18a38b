//! Brings a data logger's file into the air log.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::{
    DateOrder, FileHumidity, FileScale, LoggerAnswers, LoggerColumns, LoggerQuestion, LoggerRead,
    read_logger,
};
use crate::desk::{Action, AirImport};
use clap::{Args, ValueEnum};
use std::fs::File;
use std::io::BufReader;
use std::path::PathBuf;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree logger ~/november.csv\n  tackfree logger ~/november.csv --scale F --dates month-first\n  tackfree logger ~/november.csv --columns 2,3,5\n\nTime, temperature and humidity are found by the names of the columns; what the file does not say is\nasked, and answered with an option. Times are the shop's own unless they carry an offset. Readings\nthat are in the log already stay; gaps, bad rows and rows out of order are told. One undo takes the\nwhole file back.";

/// How the file writes temperatures.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum Scale {
    /// Fahrenheit.
    #[value(name = "F", alias = "f")]
    Fahrenheit,
    /// Celsius.
    #[value(name = "C", alias = "c")]
    Celsius,
    /// Kelvin.
    #[value(name = "K", alias = "k")]
    Kelvin,
}

/// How the file writes humidity.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum Damp {
    /// 45 is 45 %.
    Percent,
    /// 0.45 is 45 %.
    Fraction,
}

/// How the file writes dates.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum Dates {
    /// 11/20/2026.
    MonthFirst,
    /// 20/11/2026.
    DayFirst,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct LoggerArgs {
    /// The file: CSV with time, temperature and humidity.
    pub file: PathBuf,
    /// The scale of the temperatures, should the file not say.
    #[arg(long, value_enum)]
    pub scale: Option<Scale>,
    /// How the humidity is written, should it be doubtful.
    #[arg(long, value_enum)]
    pub humidity: Option<Damp>,
    /// The order of day and month, should the file not say.
    #[arg(long, value_enum)]
    pub dates: Option<Dates>,
    /// Which columns are time, temperature and humidity, counted from 1: 1,2,3; with date and time
    /// apart 1+2,3,4.
    #[arg(long, value_name = "T,T,H")]
    pub columns: Option<String>,
}

/// Does it.
pub fn run(args: &LoggerArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let answers = LoggerAnswers {
        columns: args.columns.as_deref().map(columns).transpose()?,
        scale: args.scale.map(|scale| match scale {
            Scale::Fahrenheit => FileScale::Fahrenheit,
            Scale::Celsius => FileScale::Celsius,
            Scale::Kelvin => FileScale::Kelvin,
        }),
        humidity: args.humidity.map(|damp| match damp {
            Damp::Percent => FileHumidity::Percent,
            Damp::Fraction => FileHumidity::Fraction,
        }),
        order: args.dates.map(|dates| match dates {
            Dates::MonthFirst => DateOrder::MonthFirst,
            Dates::DayFirst => DateOrder::DayFirst,
        }),
    };
    let path = args.file.display().to_string();
    let file = File::open(&args.file)
        .map_err(|error| Failure::said(format!("{path} cannot be read: {error}.")))?;
    let read = read_logger(
        BufReader::new(file),
        &answers,
        session.now,
        shop.settings.zone,
    )
    .map_err(|error| Failure::said(error.to_string()))?;
    let report = match read {
        LoggerRead::Read(report) => report,
        LoggerRead::Asks(question) => {
            return Err(Failure::Said(vec![
                question.words(),
                format!("Answer with {}.", way(&question)),
            ]));
        }
    };
    let file = args
        .file
        .file_name()
        .map_or(path, |name| name.to_string_lossy().into_owned());
    session.perform(&Action::ImportAir(AirImport { file, report }))
}

/// The option that answers a question.
fn way(question: &LoggerQuestion) -> &'static str {
    match question {
        LoggerQuestion::Columns { .. } => "--columns, like --columns 1,2,3",
        LoggerQuestion::Scale { .. } | LoggerQuestion::ScaleDoubtful { .. } => {
            "--scale F, --scale C or --scale K"
        }
        LoggerQuestion::HumidityDoubtful { .. } => "--humidity fraction or --humidity percent",
        LoggerQuestion::Order { .. } => "--dates month-first or --dates day-first",
    }
}

/// `1,2,3`, or `1+2,3,4` where date and time stand apart.
fn columns(text: &str) -> Result<LoggerColumns, Failure> {
    let wrong = || {
        Failure::said(format!(
            "--columns: \"{}\" does not read; number the columns from 1: time, temperature, \
             humidity, like 1,2,3, or 1+2,3,4 where date and time stand apart.",
            crate::units::clean_line(text).0
        ))
    };
    let number = |part: &str| {
        let no: usize = part.trim().parse().map_err(|_| wrong())?;
        no.checked_sub(1).ok_or_else(wrong)
    };
    let [time, temperature, humidity] = text
        .split(',')
        .collect::<Vec<_>>()
        .try_into()
        .map_err(|_| wrong())?;
    let (date, clock) = match time.split_once('+') {
        Some((date, clock)) => (number(date)?, Some(number(clock)?)),
        None => (number(time)?, None),
    };
    Ok(LoggerColumns {
        when: date,
        time: clock,
        temperature: number(temperature)?,
        humidity: number(humidity)?,
    })
}
