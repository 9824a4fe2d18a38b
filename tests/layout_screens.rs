//! The drawing of a piece on the screen, by keys: findings, acceptance, standing, cutting, template.

#[allow(dead_code)] // this file needs only part of it
mod rig;

use rig::Rig;

/// A working morning, mid-week.
const NOW: &str = "2026-11-25T15:20:00Z";

/// The drawing of the sink counter.
fn drawing() -> Rig {
    let mut rig = Rig::demo(NOW);
    rig.press(&["right", "right", "enter", "v"]);
    rig
}

#[test]
fn the_drawing_at_both_sizes() {
    let mut rig = drawing();
    insta::assert_snapshot!("drawing-80x24", rig.picture(80, 24));
    insta::assert_snapshot!("drawing-120x40", rig.picture(120, 40));
    rig.press(&["+", "+", "left", "y", "y"]);
    insta::assert_snapshot!("drawing-zoomed-plain-80x24", rig.picture(80, 24));
}

#[test]
fn a_finding_is_accepted_opened_again_and_undone_by_keys() {
    let mut rig = drawing();
    assert!(
        rig.picture(80, 24).contains("!1"),
        "{}",
        rig.picture(80, 24)
    );
    rig.press(&["space"]);
    insta::assert_snapshot!("drawing-accept-80x24", rig.picture(80, 24));
    rig.press(&["the client asks it", "enter"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("Accepted faucet-clear"), "{picture}");
    // What was accepted keeps its place and its number.
    assert!(
        picture.contains("accepted: the client asks it"),
        "{picture}"
    );
    rig.press(&["backspace"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("Opened faucet-clear"), "{picture}");
    rig.press(&["u"]);
    rig.press(&["f"]);
    let picture = rig.picture(80, 40);
    assert!(
        picture.contains("accepted: the client asks it"),
        "{picture}"
    );
}

#[test]
fn standing_checks_router_and_boards_have_their_forms() {
    let mut rig = drawing();
    rig.press(&["s", "across 40", "down", "back 14", "F2"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("Noted how"), "{picture}");
    rig.press(&["f"]);
    let picture = rig.picture(80, 60);
    for word in ["joint-strip", "overhang-across"] {
        assert!(picture.contains(word), "{word}: {picture}");
    }
    rig.press(&["esc", "k"]);
    insta::assert_snapshot!("checks-80x24", rig.picture(80, 24));
    rig.press(&["esc", "d"]);
    assert!(rig.picture(80, 24).contains("bushing 3/4"));
    rig.press(&["esc", "b"]);
    assert!(rig.picture(80, 24).contains("Seen width of one strip"));
}

#[test]
fn cutting_cut_list_template_and_sheet_are_a_key_away() {
    let mut rig = drawing();
    rig.press(&["c", "enter"]);
    insta::assert_snapshot!("cutting-80x40", rig.picture(80, 40));
    rig.press(&["esc", "l"]);
    insta::assert_snapshot!("cut-list-80x24", rig.picture(80, 24));
    rig.press(&["esc", "t"]);
    insta::assert_snapshot!("template-pick-80x24", rig.picture(80, 24));
    rig.press(&["x", "down", "enter"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("1A-hole-1-template: all.svg"), "{picture}");
    rig.press(&["w"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("1A-sheet.svg"), "{picture}");
    rig.press(&["esc"]);
    assert!(rig.picture(80, 24).contains("Ticket 1A"));
}

/// Where nothing is found, the screen says what was not looked at, offers no finding to go to, and
/// tells the piece in figures.
#[test]
fn a_piece_without_findings_says_what_was_not_checked() {
    let mut rig = Rig::demo(NOW);
    rig.press(&["enter", "v"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("found nothing"), "{picture}");
    assert!(
        picture.contains("overhangs, appliances and height"),
        "{picture}"
    );
    assert!(picture.contains("board feet"), "{picture}");
    assert!(!picture.contains("next finding"), "{picture}");
    rig.press(&["g"]);
    let picture = rig.picture(80, 24);
    for words in [
        "in figures",
        "board feet",
        "round the edge",
        "balances",
        "weight",
    ] {
        assert!(picture.contains(words), "{words}: {picture}");
    }
}
