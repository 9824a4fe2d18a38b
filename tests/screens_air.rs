//! The promise: shop air is logged in two keys and what was read, shown as it was, brought in from
//! a logger and foretold; the Rack tells by it when each coat is dry, and a touch test is one key.

mod rig;

use rig::Rig;
use std::io::Write;

const NOW: &str = "2026-11-25T15:00:00Z";

#[test]
fn a_reading_is_one_key_what_was_read_and_enter() {
    let mut rig = Rig::airless(NOW);
    rig.press(&["2", "r", "68F 45", "enter"]);
    assert!(rig.picture(80, 24).contains("Logged shop air 68 F, 45%"));
    rig.press(&["8"]);
    let screen = rig.picture(80, 24);
    assert!(
        screen.contains("Now 68 F, 45%; dew point 45.9 F"),
        "{screen}"
    );
    // Earlier than now, in the same line.
    rig.press(&["r", "60F 50 20 min ago", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("2 readings"), "{screen}");
    assert!(screen.contains("Now 68 F, 45%"), "{screen}");
    rig.press(&["u", "u"]);
    assert!(rig.picture(80, 24).contains("No reading yet"));
}

#[test]
fn a_wrong_scale_is_questioned_and_can_be_insisted_on() {
    let mut rig = Rig::airless(NOW);
    rig.press(&["r", "68C 45", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("no usual shop air"), "{screen}");
    assert!(screen.contains("68 F"), "{screen}");
    rig.press(&["ctrl-u", "41C 20", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(!screen.contains("Logged"), "{screen}");
    rig.press(&[" sure", "enter"]);
    assert!(rig.picture(80, 24).contains("Logged shop air"));
}

#[test]
fn a_reading_of_tomorrow_is_refused_in_words() {
    let mut rig = Rig::airless(NOW);
    rig.press(&["r", "68F 45 2026-11-26 8:00", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("has not come yet"), "{screen}");
}

#[test]
fn a_reading_is_corrected_and_taken_out() {
    let mut rig = Rig::airless(NOW);
    rig.press(&["r", "68F 45", "enter", "8", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("Correct a reading"), "{screen}");
    // The line holds what was logged, exactly; a wrong humidity is typed anew.
    rig.press(&["ctrl-u", "68F 55 7:30", "enter"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("55%"), "{screen}");
    rig.press(&["x"]);
    assert!(rig.picture(80, 24).contains("No reading yet"));
}

#[test]
fn a_loggers_file_is_read_asked_about_and_brought_in_as_one_action() {
    let mut rig = Rig::airless(NOW);
    let mut file = tempfile::NamedTempFile::new().expect("a file");
    writeln!(file, "time,temp,rh").expect("written");
    for minute in 0..600 {
        let (hour, minute) = (minute / 60, minute % 60);
        writeln!(file, "2026-11-25 {hour:02}:{minute:02},20.5,45").expect("written");
    }
    let path = file.path().to_str().expect("a path").to_owned();
    rig.press(&["8", "i", "/nowhere"]);
    rig.press(&["ctrl-u", &path, "F2"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("F, C or K?"), "{screen}");
    rig.press(&["right", "right", "F2"]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("Brought in 541 readings"), "{screen}");
    assert!(screen.contains("58 rows"), "{screen}");
    rig.press(&["u"]);
    assert!(rig.picture(80, 24).contains("No reading yet"));
}

#[test]
fn the_plots_stand_at_every_size() {
    let mut rig = Rig::airless(NOW);
    rig.press(&[
        "r",
        "68F 45 yesterday 16:00",
        "enter",
        "r",
        "58F 60",
        "enter",
        "8",
    ]);
    let wide = rig.picture(120, 40);
    for words in [
        "Temperature",
        "Humidity",
        "Close dots",
        "Wed 25",
        "dew point",
    ] {
        assert!(wide.contains(words), "{words}:\n{wide}");
    }
    rig.press(&["right", "right"]);
    assert!(rig.picture(80, 24).contains("Last 28 days: 2 readings"));
    rig.press(&["left", "left", "left"]);
    assert!(rig.picture(80, 24).contains("Last 1 day"));
}

#[test]
fn days_of_readings_make_a_curve() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["r", "58F 60", "enter", "8"]);
    insta::assert_snapshot!("air_80x24", rig.picture(80, 24));
}

#[test]
fn the_rack_tells_likely_and_safe_and_why_it_is_slow() {
    let mut rig = Rig::airless(NOW);
    rig.press(&[
        "r",
        "60F 50 yesterday 12:00",
        "enter",
        "r",
        "60F 50",
        "enter",
        "2",
    ]);
    let screen = rig.picture(120, 40);
    assert!(screen.contains("60 F since"), "{screen}");
    assert!(screen.contains("% speed"), "{screen}");
    assert!(screen.contains("likely, worth a test"), "{screen}");
    assert!(screen.contains("label-hours to recoat"), "{screen}");
    insta::assert_snapshot!("rack_cold_80x24", rig.picture(80, 24));
}

#[test]
fn a_film_that_does_not_dry_at_all_is_said_to() {
    let mut rig = Rig::airless(NOW);
    rig.press(&[
        "r",
        "50F 50 yesterday 12:00",
        "enter",
        "r",
        "50F 50",
        "enter",
        "2",
    ]);
    for (width, height) in [(80, 24), (120, 40)] {
        let screen = rig.picture(width, height);
        assert!(screen.contains("not in this air"), "{screen}");
        assert!(screen.contains("does not dry"), "{screen}");
        assert!(!screen.contains("2036"), "{screen}");
    }
}

#[test]
fn a_touch_test_is_one_key_on_the_rack_and_can_be_undone() {
    let mut rig = Rig::airless(NOW);
    rig.press(&["2"]);
    // The first of those that still dry.
    for _ in 0..12 {
        let screen = rig.picture(120, 40);
        if screen.contains("powders") {
            break;
        }
        rig.press(&["down"]);
    }
    let before = rig.picture(120, 40);
    assert!(before.contains("powders"), "{before}");
    rig.press(&["g"]);
    let screen = rig.picture(120, 40);
    assert!(screen.contains("dry to recoat"), "{screen}");
    assert!(screen.contains("touch test"), "{screen}");
    rig.press(&["u"]);
    assert!(rig.picture(120, 40).contains("Undone"));
}

#[test]
fn a_coat_planned_for_later_is_told() {
    let mut rig = Rig::airless(NOW);
    rig.press(&[
        "r", "58F 60", "enter", "8", "o", "58F 60", "tab", "tab", "in 20 h", "enter",
    ]);
    let screen = rig.picture(80, 24);
    assert!(screen.contains("Forecast: 58 F, 60% until"), "{screen}");
    rig.press(&["2", "f", "tab", "in 3 h", "enter"]);
    let screen = rig.picture(120, 40);
    assert!(
        screen.contains("Reckoned by the forecast typed in"),
        "{screen}"
    );
    assert!(screen.contains("tack-free"), "{screen}");
    rig.press(&["esc", "8", "c"]);
    assert!(!rig.picture(80, 24).contains("Forecast: 58 F"));
}
