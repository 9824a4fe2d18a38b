//! A logger's file through the desk: thousands of rows in one action, one line, one undo.

use crate::shop::{Trial, ZONE, air, utc};
use chrono::Duration;
use std::fmt::Write as _;
use tackfree::coating::{LoggerAnswers, LoggerRead, LoggerReport, read_logger};
use tackfree::desk::{Action, AirImport, AirSource, AirSpan, Books, DeskError};

const NOW: &str = "2026-11-25T20:00:00Z";

fn report(text: &str, trial: &Trial) -> LoggerReport {
    let answers = LoggerAnswers::default();
    match read_logger(text.as_bytes(), &answers, trial.now, ZONE) {
        Ok(LoggerRead::Read(report)) => report,
        other => panic!("{other:?}"),
    }
}

fn import(text: &str, trial: &Trial) -> Action {
    Action::ImportAir(AirImport {
        file: "november.csv".to_owned(),
        report: report(text, trial),
    })
}

/// Ten thousand rows, ten minutes apart, of which 60 come twice, 3 differ from themselves, 5 do not
/// read, and two days are missing.
fn ten_thousand() -> String {
    let mut text = "Time,Temperature (C),Humidity (%)\n".to_owned();
    let start = utc("2026-09-01T05:00:00Z");
    for step in 0..10_000_i64 {
        let pause = if step >= 5_000 { 2 * 144 } else { 0 };
        let at = (start + Duration::minutes((step + pause) * 10)).with_timezone(&ZONE);
        let c = 15.0 + (step % 144) as f64 / 20.0;
        let _ = writeln!(
            text,
            "{},{c:.2},{}",
            at.format("%Y-%m-%d %H:%M:%S"),
            40 + step % 20
        );
        if step % 167 == 0 {
            let _ = writeln!(
                text,
                "{},{c:.2},{}",
                at.format("%Y-%m-%d %H:%M:%S"),
                40 + step % 20
            );
        }
        if step % 4_000 == 1 {
            let _ = writeln!(text, "{},{:.2},41", at.format("%Y-%m-%d %H:%M:%S"), c + 1.0);
        }
        if step % 2_000 == 7 {
            text.push_str("sensor fault,,\n");
        }
    }
    text
}

#[test]
fn ten_thousand_rows_are_one_action_with_everything_told() {
    let mut trial = Trial::at(NOW);
    // Typed readings stand at the time of two of its rows, one the same, one another.
    trial.log_at(utc("2026-09-01T05:10:00Z"), 15.05, 41.0);
    trial.log_at(utc("2026-09-01T05:20:00Z"), 21.0, 50.0);
    let (lines, before) = (trial.lines(), trial.shop().air);
    let done = trial.done(&import(&ten_thousand(), &trial));
    assert_eq!(
        done.words,
        "Brought in 9,998 readings of the shop's air from november.csv, Sep 1, 12:00 am to Nov 11, \
         9:30 am"
    );
    assert_eq!(trial.lines(), lines + 1);
    assert_eq!(trial.words(), done.words);
    for wants in [
        "61 rows were there already.",
        "4 rows were left out: another reading stands at that time and stays.",
        "5 rows could not be read and were left out.",
        "And 2 more rows.",
        "1 time without readings for more than 12 hours",
    ] {
        let told = done.notes.iter().any(|note| note.starts_with(wants));
        assert!(told, "{wants}: {:#?}", done.notes);
    }
    let refused: Vec<u64> = done
        .notes
        .iter()
        .filter_map(|note| note.strip_prefix("Line ")?.split_once(':'))
        .map(|(line, _)| line.parse().expect("a number"))
        .collect();
    assert!(
        refused.len() == 3 && refused.is_sorted(),
        "{:#?}",
        done.notes
    );
    let all = AirSpan {
        from: utc("2026-01-01T00:00:00Z"),
        to: None,
    };
    let rows = trial.store.air(all).expect("the log");
    assert_eq!(rows.len(), 10_000);
    let typed: Vec<_> = rows
        .iter()
        .filter(|row| row.source == AirSource::Typed)
        .collect();
    assert_eq!(typed.len(), 2);
    assert_eq!(typed[1].reading.air, air(21.0, 50.0));
    // Once more: nothing new, nothing journalled.
    let done = trial.done(&import(&ten_thousand(), &trial));
    assert!(
        done.words.starts_with("None of the 10,") && done.words.ends_with("was brought in"),
        "some differ from what stands: {}",
        done.words
    );
    assert_eq!(trial.lines(), lines + 1);
    // One undo takes the whole file back, one redo brings it again.
    trial.done(&Action::Undo);
    assert_eq!(trial.shop().air, before);
    trial.done(&Action::Redo);
    assert_eq!(trial.store.air(all).expect("the log"), rows);
}

#[test]
fn a_file_older_than_the_log_is_put_before_it_and_said_so() {
    let mut trial = Trial::at(NOW);
    trial.log(20.0, 45.0);
    let text = "time,temp F,RH\n2026-11-24 08:00,60,50\n2026-11-24 07:50,61,50\n";
    let done = trial.done(&import(text, &trial));
    assert!(
        done.notes
            .iter()
            .any(|note| note.contains("1 row was put in order of time")),
        "{:?}",
        done.notes
    );
    let last = done.notes.last().expect("a note");
    assert_eq!(
        last,
        "Older readings came in: what dried after Tue 7:50 am is reckoned anew."
    );
    assert_eq!(trial.shop().air.len(), 3);
}

#[test]
fn a_file_with_nothing_to_read_is_refused() {
    let mut trial = Trial::at(NOW);
    let text = "time,temp F,RH\n2026-11-26 08:00,60,50\n";
    let error = trial.perform(&import(text, &trial)).expect_err("tomorrow");
    assert!(matches!(error, DeskError::NoAirRows { .. }));
    assert!(error.to_string().contains("line 2"), "{error}");
    assert!(trial.shop().air.is_empty());
}

#[test]
fn what_stands_already_and_what_conflicts_are_told_apart() {
    let mut trial = Trial::at(NOW);
    let one = "time,temp F,RH\n2026-11-24 08:00,60,50\n";
    let done = trial.done(&import(one, &trial));
    assert_eq!(
        done.words,
        "Brought in 1 reading of the shop's air from november.csv, of Tue 8:00 am"
    );
    let done = trial.done(&import(one, &trial));
    assert_eq!(
        done.words,
        "The one reading of november.csv is in the log already"
    );
    let other = "time,temp F,RH\n2026-11-24 08:00,61,50\n2026-11-24 08:00,62,50\n";
    let done = trial.done(&import(other, &trial));
    assert_eq!(
        done.words,
        "None of the 2 readings of november.csv was brought in"
    );
    assert_eq!(
        done.notes,
        ["2 rows were left out: another reading stands at that time and stays."]
    );
}

#[test]
fn a_time_that_the_clocks_left_out_is_told_in_the_singular() {
    let mut trial = Trial::at(NOW);
    let text = "time,temp F,RH\n2026-03-08 02:30,60,50\n";
    let done = trial.done(&import(text, &trial));
    let said = "1 local time fell into the hour that the clock change leaves out and was taken an \
                hour later.";
    assert!(
        done.notes.iter().any(|note| note == said),
        "{:?}",
        done.notes
    );
}
