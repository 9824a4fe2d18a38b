//! What a logger's file leaves open, and headings that say it.

use super::logger::{NONE, question, report};
use super::support::{read, utc};
use tackfree::coating::{FileHumidity, FileScale, LoggerAnswers, LoggerQuestion};

#[test]
fn a_humidity_that_never_passes_one_is_asked_about() {
    let text = "time,temp C,rh\n2026-11-20 14:00,20,0.45\n2026-11-20 14:10,20,0.5\n";
    let asked = question(text, &NONE);
    assert_eq!(
        asked,
        LoggerQuestion::HumidityDoubtful {
            least: 0.45,
            most: 0.5
        }
    );
    assert!(
        asked
            .words()
            .starts_with("Is the humidity a fraction of one? It runs from 0.45")
    );
    let read_as = |humidity| {
        let answers = LoggerAnswers {
            humidity: Some(humidity),
            ..NONE
        };
        report(text, &answers).readings[0].air.humidity.percent()
    };
    assert!((read_as(FileHumidity::Fraction) - 45.0).abs() < 1e-9);
    assert!((read_as(FileHumidity::Percent) - 0.5).abs() < 1e-9);
    // One dry row among others is no such file.
    let one = "time,temp C,rh\n2026-11-20 14:00,20,1\n2026-11-20 14:10,20,45\n";
    assert_eq!(report(one, &NONE).readings.len(), 2);
}

#[test]
fn kelvin_abbreviated_zones_and_short_headings_are_recognised() {
    let expected = read(utc(2026, 11, 20, 19, 0), 20.0, 45.0);
    for text in [
        "time,temp K,rh\n2026-11-20 14:00,293.15,45\n",
        "time,temperature (kelvin),hum\n2026-11-20 14:00,293.15,45\n",
        "Datum,t_f,hum\n20.11.2026 14:00,68,45\n",
        "time,T (C),RH %\n2026-11-20 14:00,20,45\n",
        "Time (EST),temp F,rh\n2026-11-20 14:00,68,45\n",
    ] {
        assert_eq!(report(text, &NONE).readings, [expected], "{text}");
    }
    // A logger on standard time keeps to it in July, when the clocks of the shop do not.
    let july = "Time (EST),temp F,rh\n2026-07-20 14:00,68,45\n";
    assert_eq!(report(july, &NONE).readings[0].at, utc(2026, 7, 20, 19, 0));
    let local = "Time,temp F,rh\n2026-07-20 14:00,68,45\n";
    assert_eq!(report(local, &NONE).readings[0].at, utc(2026, 7, 20, 18, 0));
    // Not said at all: K is one of the answers.
    let bare = "time,temp,rh\n2026-11-20 14:00,293.15,45\n";
    let asked = question(bare, &NONE);
    assert!(
        asked
            .words()
            .starts_with("Are the temperatures in F, C or K?")
    );
    let answers = LoggerAnswers {
        scale: Some(FileScale::Kelvin),
        ..NONE
    };
    assert_eq!(report(bare, &answers).readings, [expected]);
}

#[test]
fn the_question_quotes_the_date_as_it_stands() {
    for date in ["05/06/2026", "5/6/26", "5-6-2026"] {
        let text = format!("time,temp c,rh\n{date} 14:00,20,45\n");
        assert_eq!(
            question(&text, &NONE),
            LoggerQuestion::Order {
                sample: date.to_owned()
            }
        );
    }
}

#[test]
fn the_first_refused_lines_are_kept_in_the_order_of_the_file() {
    // Line 2 is refused by its time, line 3 by its cells: two walks over the file.
    let text = "time,temp c,rh\n2026-11-20 14:00,20,45\n2026-11-26 14:00,20,45\nfault,,\n";
    let lines: Vec<u64> = report(text, &NONE)
        .first_refused
        .iter()
        .map(|r| r.line)
        .collect();
    assert_eq!(lines, [3, 4]);
}
