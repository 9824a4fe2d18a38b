//! The day's end, the checks and the corrections on the screen, at 80x24 and 120x40.

use crate::rig::Rig;

/// A working morning, mid-week: 9:20 in the shop.
const MORNING: &str = "2026-11-25T15:20:00Z";
/// The same day, 17:20.
const EVENING: &str = "2026-11-25T23:20:00Z";

macro_rules! pictures {
    ($name:literal, $rig:expr) => {
        insta::assert_snapshot!(concat!($name, "-80x24"), $rig.picture(80, 24));
        insta::assert_snapshot!(concat!($name, "-120x40"), $rig.picture(120, 40));
    };
}

#[test]
fn the_days_end_is_ticked_and_closed_by_keys() {
    let mut rig = Rig::demo(MORNING);
    rig.wait_until(EVENING);
    rig.app.now = rig.now;
    assert!(
        rig.picture(80, 24).contains("z day's end"),
        "late, with rags about"
    );
    rig.press(&["z"]);
    pictures!("days-end", rig);
    // The day does not close silently.
    rig.press(&["x"]);
    pictures!("days-end-asks", rig);
    rig.press(&["no rags", "F2"]);
    assert!(
        rig.picture(80, 24).contains("two words or more"),
        "six letters say nothing"
    );
    rig.press(&["esc", "f"]);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("[x] oily rags"), "{seen}");
    assert!(seen.contains("flat outdoors 5:20 pm"), "{seen}");
    rig.press(&["u", "-", "down"]);
    rig.press(&["up", "right", "right", "down", "20"]);
    pictures!("days-end-earlier", rig);
    rig.press(&["F2"]);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("can of water 5:00 pm"), "{seen}");
    rig.press(&["x"]);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("Closed the day Wed Nov 25"), "{seen}");
    pictures!("days-end-closed", rig);
    rig.press(&["q"]);
    assert!(rig.left, "a closed day is left with one key");
}

#[test]
fn closing_all_the_same_takes_the_reason() {
    let mut rig = Rig::demo(MORNING);
    rig.wait_until(EVENING);
    rig.app.now = rig.now;
    rig.press(&["z", "x", "brushed on, no rags used", "enter"]);
    let seen = rig.picture(120, 40);
    assert!(
        seen.contains("with oily rags not logged: brushed on, no rags used"),
        "{seen}"
    );
}

#[test]
fn leaving_late_with_an_open_day_says_so_once() {
    let mut rig = Rig::demo(MORNING);
    rig.press(&["q"]);
    assert!(rig.left, "in the morning there is nothing to say");
    for key in ["q", "ctrl-c"] {
        let mut rig = Rig::demo(MORNING);
        rig.wait_until(EVENING);
        rig.app.now = rig.now;
        rig.press(&[key]);
        assert!(!rig.left);
        let seen = rig.picture(80, 24);
        assert!(seen.contains("Today is not closed: oily rags of"), "{seen}");
        // Another key between asks anew; the same key at once leaves.
        rig.press(&["2", key]);
        assert!(!rig.left);
        rig.press(&[key]);
        assert!(rig.left);
    }
}

#[test]
fn the_next_start_tells_of_the_day_left_open() {
    let mut rig = Rig::demo(MORNING);
    let seen = rig.picture(80, 24);
    assert!(!seen.contains("was not closed"), "{seen}");
    rig.start_again("2026-11-26T14:00:00Z");
    let seen = rig.picture(80, 24);
    assert!(
        seen.contains("Wed Nov 25 was not closed: oily rags of"),
        "{seen}"
    );
    rig.press(&["z"]);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("Day's end, Wed Nov 25: not closed"), "{seen}");
    pictures!("days-end-left-open", rig);
}

#[test]
fn the_pass_form_shows_its_checks_and_is_looked_at_when_it_had_better_wait() {
    let mut rig = Rig::demo(MORNING);
    // The topcoats column, the first piece that takes a coat.
    rig.press(&["right", "right", "right", "p"]);
    rig.press(&["pgdn"]);
    pictures!("pass-checks", rig);
    rig.press(&["up", "40F 95", "F2"]);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("Look at this first"), "{seen}");
    assert!(seen.contains("! wait: "), "{seen}");
    pictures!("pass-checks-wait", rig);
    rig.press(&["F2"]);
    let seen = rig.picture(80, 24);
    assert!(
        seen.contains("Logged coat"),
        "the same key again logs it: {seen}"
    );
}

#[test]
fn a_line_of_the_log_is_picked_and_its_time_corrected() {
    let mut rig = Rig::demo(MORNING);
    rig.press(&["right", "right", "right", "enter", "l"]);
    pictures!("log-picked", rig);
    rig.press(&["enter"]);
    pictures!("log-correct", rig);
    rig.press(&["esc", "esc"]);
    assert!(
        rig.picture(80, 24).starts_with("Ticket "),
        "back on the sheet"
    );
}

#[test]
fn ticks_count_as_done_so_many_minutes_ago() {
    let mut rig = Rig::demo(MORNING);
    rig.press(&["enter", "-", "-", "-", "-"]);
    pictures!("ticket-earlier", rig);
    let seen = rig.picture(80, 24);
    assert!(seen.contains("20 min ago, 9:00 am"), "{seen}");
    rig.press(&["g", "space", "esc"]);
    let shop = &rig.app.shop;
    let newest = shop
        .files
        .iter()
        .flat_map(|file| &file.events)
        .max_by_key(|event| event.id)
        .unwrap();
    assert_eq!(
        newest.at,
        "2026-11-25T15:00:00Z"
            .parse::<chrono::DateTime<chrono::Utc>>()
            .unwrap()
    );
    rig.press(&["+", "+", "+", "+"]);
    assert!(!rig.picture(80, 24).contains("ticks count as done"));
}
