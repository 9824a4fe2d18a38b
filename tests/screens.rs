//! Pictures of the screens at 80x24 and 120x40, and what keys do to them.

mod rig;

use proptest::prelude::*;
use rig::Rig;
use tackfree::tui::app::Effect;
use tackfree::tui::kit::key::Key;

/// A working morning, mid-week.
const NOW: &str = "2026-11-25T15:20:00Z";

/// Takes a picture at both sizes.
macro_rules! pictures {
    ($name:literal, $rig:expr) => {
        insta::assert_snapshot!(concat!($name, "-80x24"), $rig.picture(80, 24));
        insta::assert_snapshot!(concat!($name, "-120x40"), $rig.picture(120, 40));
    };
}

#[test]
fn the_bench() {
    let mut rig = Rig::demo(NOW);
    pictures!("bench", rig);
    rig.press(&["right", "right", "right", "space", "down", "space", "down"]);
    pictures!("bench-picked", rig);
    insta::assert_snapshot!("bench-narrow-60x20", rig.picture(60, 20));
}

#[test]
fn tickets_of_every_stage() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["enter"]);
    pictures!("ticket-sanding", rig);
    rig.press(&["g"]);
    pictures!("ticket-walk", rig);
    rig.press(&["esc", "l"]);
    pictures!("ticket-log", rig);
    rig.press(&["esc", "m"]);
    pictures!("ticket-move-refused", rig);
    rig.press(&["enter", "esc", "right", "enter"]);
    pictures!("ticket-sealing", rig);
    rig.press(&["esc", "right", "enter"]);
    pictures!("ticket-staining", rig);
    rig.press(&["esc", "right", "enter"]);
    pictures!("ticket-topcoats", rig);
    rig.press(&["esc", "right", "enter"]);
    pictures!("ticket-set", rig);
}

#[test]
fn forms() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["right", "p"]);
    pictures!("form-seal-coat", rig);
    rig.press(&["esc", "right", "w"]);
    pictures!("form-wipe-off", rig);
    rig.press(&["esc", "right", "p"]);
    pictures!("form-coat", rig);
    rig.press(&["esc", "t"]);
    pictures!("form-touch", rig);
    rig.press(&["esc", "enter", "b"]);
    pictures!("form-sand-back", rig);
    rig.press(&["esc", "e"]);
    pictures!("form-piece", rig);
    rig.press(&["esc", "7"]);
    pictures!("form-settings", rig);
    rig.press(&["esc", "5", "n"]);
    pictures!("form-recipe", rig);
}

#[test]
fn an_empty_shop_leads_into_the_first_client_job_and_piece() {
    let mut rig = Rig::fresh(NOW);
    pictures!("empty-client", rig);
    rig.press(&["Ada Finch", "F2"]);
    pictures!("empty-job", rig);
    rig.press(&["Kitchen", "F2"]);
    pictures!("empty-piece", rig);
    rig.press(&["esc"]);
    pictures!("empty-bench", rig);
    rig.press(&["n", "counter", "enter", "96 x 25", "enter", "maple", "F2"]);
    pictures!("first-ticket", rig);
    rig.press(&["space"]);
    assert!(
        rig.picture(80, 24)
            .contains("Ticked 80 grit on top of 1A counter")
    );
}

#[test]
fn help_lists_every_key_of_the_screen() {
    let mut rig = Rig::demo(NOW);
    for (digit, place) in [
        ("1", "Bench"),
        ("2", "Rack"),
        ("3", "Shelf"),
        ("4", "Job book"),
        ("5", "Recipes"),
        ("6", "Journal"),
    ] {
        rig.press(&[digit, "?"]);
        let help = rig.picture(120, 100);
        assert!(help.contains(&format!("Keys: {place}")), "{help}");
        for key in ["u ", "a ", "q, ctrl-c", "?", "0 ", "F2, ctrl-s"] {
            assert!(
                help.contains(key),
                "{key} is not in the help of {place}:\n{help}"
            );
        }
        rig.press(&["esc"]);
    }
}

#[test]
fn undo_and_do_again_from_any_screen() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["enter", "down", "space"]);
    assert!(
        rig.picture(120, 40)
            .contains("Ticked 120 grit on underside of 3C tread 3")
    );
    rig.press(&["u"]);
    assert!(
        rig.picture(120, 40)
            .contains("Undone: Ticked 120 grit on underside")
    );
    rig.press(&["a"]);
    assert!(
        rig.picture(120, 40)
            .contains("Done again: Ticked 120 grit on underside")
    );
    rig.press(&["a"]);
    assert!(
        rig.picture(120, 40)
            .contains("There is nothing to do again")
    );
}

#[test]
fn what_comes_due_rings_once_and_holds_the_banner_until_it_is_put_away() {
    let mut rig = Rig::demo(NOW);
    assert!(!rig.picture(80, 24).contains("DUE"));
    let rung = rig.wait_until("2026-11-25T17:00:00Z");
    assert_eq!(rung, [Effect::Ring]);
    assert!(
        rig.picture(80, 24)
            .contains("DUE  1C window counter: ready to scuff")
    );
    assert_eq!(rig.wait_until("2026-11-25T17:01:00Z"), []);
    assert!(rig.picture(80, 24).contains("DUE"));
    rig.press(&["0"]);
    assert!(!rig.picture(80, 24).contains("DUE"));
}

#[test]
fn a_coat_found_soft_dries_on_and_rings_when_it_is_to_be_tested_again() {
    let mut rig = Rig::demo(NOW);
    rig.wait_until("2026-11-25T17:00:00Z");
    rig.press(&["0", "2"]);
    let before = rig.picture(120, 40);
    let ready = |screen: &str| {
        let rows = screen.split("Drying, soonest first").next();
        rows.is_some_and(|rows| rows.contains("1C window counter"))
    };
    assert!(ready(&before), "{before}");
    // 1C is the one of the ready rows whose wait has just ended.
    let on_it = |rig: &mut Rig| {
        let screen = rig.picture(120, 40);
        screen
            .lines()
            .any(|line| line.starts_with('>') && line.contains("1C window"))
    };
    for _ in 0..20 {
        if on_it(&mut rig) {
            break;
        }
        rig.press(&["down"]);
    }
    assert!(on_it(&mut rig));
    rig.press(&["o"]);
    let soft = rig.picture(120, 40);
    assert!(!ready(&soft), "{soft}");
    assert!(soft.contains("still soft, test again"), "{soft}");
    let rung = rig.wait_until("2026-11-26T16:00:00Z");
    assert_eq!(rung, [Effect::Ring]);
    let due = rig.picture(120, 40);
    assert!(
        due.contains("DUE") && due.contains("still soft, test again now"),
        "{due}"
    );
}

#[test]
fn words_about_a_form_that_was_left_go_with_the_next_key() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["r", "68F", "esc"]);
    assert!(rig.picture(80, 24).contains("Not logged. What you typed"));
    rig.press(&["3"]);
    assert!(!rig.picture(80, 24).contains("Not logged"));
}

#[test]
fn a_form_left_in_the_middle_keeps_what_was_typed() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["4", "c", "Nils Aker", "esc"]);
    assert!(rig.picture(120, 40).contains("What you typed is kept"));
    rig.press(&["c"]);
    let back = rig.picture(120, 40);
    assert!(back.contains("Nils Aker") && back.contains("What you had typed here is back"));
}

#[test]
fn every_size_draws_without_a_panic() {
    let mut rig = Rig::demo(NOW);
    for keys in [
        &["1"][..],
        &["enter"],
        &["esc", "2"],
        &["3"],
        &["4"],
        &["5"],
        &["6"],
        &["7"],
    ] {
        rig.press(keys);
        for (width, height) in [(1, 1), (20, 5), (40, 10), (74, 20), (80, 24), (300, 100)] {
            rig.picture(width, height);
        }
    }
}

fn any_key() -> impl Strategy<Value = Key> {
    prop_oneof![
        4 => prop::char::range(' ', '~').prop_map(Key::Char),
        1 => any::<char>().prop_filter("no control", |c| !c.is_control()).prop_map(Key::Char),
        2 => Just(Key::Enter),
        2 => Just(Key::Esc),
        2 => Just(Key::Down),
        1 => Just(Key::Up),
        1 => Just(Key::Left),
        2 => Just(Key::Right),
        1 => Just(Key::Tab),
        1 => Just(Key::F(2)),
        1 => Just(Key::Backspace),
        1 => Just(Key::PageDown),
        1 => Just(Key::End),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn nonsense_keys_never_panic_and_never_reach_set_with_a_bare_face(
        keys in prop::collection::vec(any_key(), 1..200),
    ) {
        let mut rig = Rig::demo(NOW);
        for key in keys {
            rig.key(key);
            rig.picture(80, 24);
        }
    }
}
