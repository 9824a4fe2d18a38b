//! Data loggers' files.

use super::support::{ZONE, air, read, utc};
use chrono::{DateTime, Duration, Utc};
use std::io::{self, Read};
use tackfree::coating::{
    DateOrder, FileScale, LoggerAnswers, LoggerColumns, LoggerError, LoggerQuestion, LoggerRead,
    LoggerReport, read_logger,
};
use tackfree::units::Temperature;

fn now() -> DateTime<Utc> {
    utc(2026, 11, 25, 15, 0)
}

pub fn outcome(text: &str, answers: &LoggerAnswers) -> LoggerRead {
    read_logger(text.as_bytes(), answers, now(), ZONE).expect("a readable file")
}

pub fn report(text: &str, answers: &LoggerAnswers) -> LoggerReport {
    match outcome(text, answers) {
        LoggerRead::Read(report) => report,
        LoggerRead::Asks(question) => panic!("asked: {}", question.words()),
    }
}

pub fn question(text: &str, answers: &LoggerAnswers) -> LoggerQuestion {
    match outcome(text, answers) {
        LoggerRead::Read(report) => panic!("read: {report:?}"),
        LoggerRead::Asks(question) => question,
    }
}

pub const NONE: LoggerAnswers = LoggerAnswers {
    columns: None,
    scale: None,
    humidity: None,
    order: None,
};

#[test]
fn the_usual_layouts_are_recognised() {
    let expected = vec![
        read(utc(2026, 11, 20, 19, 0), 20.0, 45.0),
        read(utc(2026, 11, 20, 19, 10), 20.5, 46.0),
    ];
    for text in [
        "Time,Temperature (C),Humidity (%)\n2026-11-20 14:00,20,45\n2026-11-20 14:10,20.5,46\n",
        "\u{feff}timestamp;temp_c;rh\r\n2026-11-20T19:00:00Z;20,0;45,0\r\n2026-11-20T19:10:00Z;20,5;46\r\n",
        "Date\tTime\tTemp F\tRH %\n11/20/2026\t2:00 PM\t68\t45\n11/20/2026\t2:10 PM\t68.9\t46\n",
        "Plot Title: shop\n\"#\",\"Date Time, GMT-05:00\",\"Temp, °F\",\"RH, %\"\n1,11/20/26 02:00:00 PM,68.0,45\n2,11/20/26 02:10:00 PM,68.9,46\n",
        "No.,Date/Time,Humidity %RH,Temperature Celsius,Dew Point Celsius\n1,20.11.2026 14:00:00,45,20,7.7\n2,20.11.2026 14:10:00,46,20.5,8.5\n",
        "datetime,temperature,humidity\n1795201200,20 C,45 %\n1795201800,20.5 C,46 %\n",
        "date,temperature,humidity\n2026-11-20 14:00:00 -0500,68F,45%\n2026-11-20 14:10:00 -0500,68.9F,46%\n",
    ] {
        let report = report(text, &NONE);
        assert_eq!(report.readings, expected, "{text}");
        assert_eq!((report.refused, report.gaps), (0, 0), "{text}");
    }
    // Latin-1: the degree sign is one odd byte.
    let latin = b"Time,Temp (\xb0C),RH\n2026-11-20 14:00,20,45\n".as_slice();
    let read = read_logger(latin, &NONE, now(), ZONE).expect("readable");
    assert!(matches!(read, LoggerRead::Read(report) if report.readings == expected[..1]));
}

#[test]
fn what_the_file_does_not_say_is_asked_and_the_answer_taken() {
    let bare = "when,warmth,damp\n2026-11-20 14:00,68,45\n";
    let asked = question(bare, &NONE);
    assert!(
        matches!(&asked, LoggerQuestion::Columns { cells } if cells == &["when", "warmth", "damp"])
    );
    assert!(asked.words().ends_with("The file has: when, warmth, damp."));
    let mut answers = LoggerAnswers {
        columns: Some(LoggerColumns {
            when: 0,
            time: None,
            temperature: 1,
            humidity: 2,
        }),
        ..NONE
    };
    let asked = question(bare, &answers);
    assert_eq!(
        asked,
        LoggerQuestion::Scale {
            least: 68.0,
            most: 68.0
        }
    );
    answers.scale = Some(FileScale::Fahrenheit);
    assert_eq!(
        report(bare, &answers).readings,
        [read(utc(2026, 11, 20, 19, 0), 20.0, 45.0)]
    );
    // Two of a kind: which?
    let two = "time,temp indoor (F),temp outdoor (F),rh\n2026-11-20 14:00,68,40,45\n";
    assert!(matches!(question(two, &NONE), LoggerQuestion::Columns { cells } if cells.len() == 4));
}

#[test]
fn day_and_month_are_told_apart_by_any_row_or_asked() {
    let either = "time,temp c,rh\n3/4/2026 14:00,20,45\n3/5/2026 14:00,20,45\n";
    let asked = question(either, &NONE);
    assert_eq!(
        asked,
        LoggerQuestion::Order {
            sample: "3/4/2026".into()
        }
    );
    assert_eq!(
        asked.words(),
        "Is \"3/4/2026\" month first or day first? The file does not say."
    );
    let first = |order| {
        let answers = LoggerAnswers {
            order: Some(order),
            ..NONE
        };
        report(either, &answers).readings[0].at
    };
    assert_eq!(first(DateOrder::MonthFirst), utc(2026, 3, 4, 19, 0));
    assert_eq!(first(DateOrder::DayFirst), utc(2026, 4, 3, 18, 0));
    let decided = "time,temp c,rh\n3/4/2026 14:00,20,45\n3/14/2026 14:00,20,45\n";
    assert_eq!(
        report(decided, &NONE).readings[0].at,
        utc(2026, 3, 4, 19, 0)
    );
}

#[test]
fn a_column_in_the_wrong_scale_is_questioned_and_a_stray_row_refused() {
    let wrong = "time,temp c,rh\n2026-11-20 14:00,68,45\n2026-11-20 14:10,69,45\n";
    let asked = question(wrong, &NONE);
    assert!(
        asked.words().starts_with("68 C (154.4 F) is no shop's air"),
        "{}",
        asked.words()
    );
    let answers = LoggerAnswers {
        scale: Some(FileScale::Fahrenheit),
        ..NONE
    };
    let first = report(wrong, &answers).readings[0].air.temperature;
    assert_eq!(first, Temperature::from_f(68.0));
    let stray =
        "time,temp c,rh\n2026-11-20 14:00,20,45\n2026-11-20 14:10,68,45\n2026-11-20 14:20,20,45\n";
    let report = report(stray, &NONE);
    assert_eq!((report.readings.len(), report.refused), (2, 1));
    assert_eq!(report.first_refused[0].line, 3);
    assert!(
        report.first_refused[0]
            .why
            .starts_with("68 C (154.4 F) is outside")
    );
}

#[test]
fn bad_rows_are_told_by_line_and_in_words() {
    let text = "time,temp c,rh\n\
        2026-11-20 14:00,20,45\n\
        2026-11-26 14:00,20,45\n\
        2026-02-30 14:00,20,45\n\
        yesterday,20,45\n\
        2026-11-20 15:00,warm,45\n\
        2026-11-20 16:00,20,\n\
        2026-11-20 17:00,20,145\n\
        \n\
        2026-11-20 18:00\n\
        2026-11-20 13:00,21,45\n\
        2026-11-22 13:00,21,45\n";
    let report = report(text, &NONE);
    let said: Vec<_> = report
        .first_refused
        .iter()
        .map(|refused| (refused.line, refused.why.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            (
                3,
                "Thu 2:00 pm has not come yet (it is 10:00 am); write when the air was read."
            ),
            (4, "\"2026-02-30 14:00\" is no time"),
            (5, "\"yesterday\" is no time"),
            (6, "\"warm\" is no temperature"),
            (7, "no humidity"),
            (8, "a humidity of 145 % cannot be"),
            (9, "no temperature"),
        ]
    );
    assert_eq!(report.refused, 7);
    assert_eq!(report.readings.len(), 3);
    assert_eq!(report.out_of_order, 1);
    assert_eq!(report.gaps, 1);
    assert_eq!(
        report.first_gaps,
        [(utc(2026, 11, 20, 19, 0), utc(2026, 11, 22, 18, 0))]
    );
}

#[test]
fn the_hours_of_a_clock_change_are_told_apart() {
    let back = "time,temp c,rh\n2026-11-01 00:50,20,45\n2026-11-01 01:20,20,45\n2026-11-01 01:50,20,45\n\
        2026-11-01 01:20,20,45\n2026-11-01 01:50,20,45\n2026-11-01 02:20,20,45\n";
    let read = report(back, &NONE);
    let times: Vec<_> = read.readings.iter().map(|row| row.at).collect();
    let steps: Vec<_> = times.windows(2).map(|pair| pair[1] - pair[0]).collect();
    assert_eq!(steps, [Duration::minutes(30); 5]);
    assert_eq!(read.out_of_order, 0);
    // A logger that does not know of summer time goes on as before: 2:30 is 3:30.
    let forward = "time,temp c,rh\n2026-03-08 01:30,20,45\n2026-03-08 02:30,20,45\n";
    let read = report(forward, &NONE);
    assert_eq!(
        read.readings[1].at - read.readings[0].at,
        Duration::hours(1)
    );
    assert_eq!(read.left_out, 1);
}

/// A file that cannot be read.
struct Broken;
impl Read for Broken {
    fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
        Err(io::Error::other("cable pulled"))
    }
}

#[test]
fn what_is_no_logger_s_file_is_refused_in_words() {
    let said = |bytes: &[u8]| {
        read_logger(bytes, &NONE, now(), ZONE)
            .expect_err("refused")
            .to_string()
    };
    assert!(said(b" \n\n").contains("empty"));
    assert!(said(b"PK\x03\x04\x00\x00").contains("no CSV text"));
    assert!(said(b"\xff\xfeT\x00i\x00").contains("no CSV text"));
    let broken = read_logger(Broken, &NONE, now(), ZONE);
    assert!(matches!(broken, Err(LoggerError::Io(_))));
    let text = "\u{1b}[31mred\u{7},b,c\n1,2,3\n";
    assert!(
        matches!(question(text, &NONE), LoggerQuestion::Columns { cells } if cells[0] == "red")
    );
}

/// Rows made as they are read, so that no file of this length ever lies in memory.
struct Rows {
    next: i64,
    end: i64,
    waiting: Vec<u8>,
}

impl Read for Rows {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        while self.waiting.is_empty() && self.next < self.end {
            let at = utc(2026, 1, 1, 0, 0) + Duration::minutes(self.next * 10);
            let line = format!(
                "{},{},45\n",
                at.format("%Y-%m-%dT%H:%M:%SZ"),
                15 + self.next % 9
            );
            self.waiting = line.into_bytes();
            self.next += 1;
        }
        let count = self.waiting.len().min(into.len());
        into[..count].copy_from_slice(&self.waiting[..count]);
        self.waiting.drain(..count);
        Ok(count)
    }
}

#[test]
fn tens_of_thousands_of_rows_stream_through_and_merge_once() {
    let rows = || {
        let head = io::Cursor::new(b"time,temp c,rh\n".to_vec());
        head.chain(Rows {
            next: 0,
            end: 40_000,
            waiting: Vec::new(),
        })
    };
    let LoggerRead::Read(report) = read_logger(rows(), &NONE, now(), ZONE).expect("readable")
    else {
        panic!("asked");
    };
    assert_eq!(
        (report.readings.len(), report.refused, report.gaps),
        (40_000, 0, 0)
    );
    let mut log = super::support::log_of(&[]);
    assert_eq!(log.merge(report.readings.iter().copied()).added, 40_000);
    let again = log.merge(report.readings);
    assert_eq!((again.added, again.same, again.differ), (0, 40_000, 0));
    assert_eq!(
        log.air_at(utc(2026, 1, 1, 0, 15)).air,
        Some(air(16.0, 45.0))
    );
}
