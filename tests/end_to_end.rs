//! The main job, pressed by keys in a real terminal on an empty store: from the client to the set
//! list, every forbidden short cut tried on the way, and the tally reckoned by hand at the end.

#[allow(dead_code)] // Shared with the other tests that use a terminal.
mod pty;
#[path = "end_to_end/tally.rs"]
mod tally;

use pty::Terminal;
use std::path::Path;
use tally::tally_by_hand;

/// One sitting at the screen at a fixed time; left with `q`.
fn sitting(store: &Path, now: &str, rows: u16, cols: u16, work: impl FnOnce(&mut Terminal)) {
    let mut terminal = Terminal::start(store, now, rows, cols);
    terminal.see("Bench");
    work(&mut terminal);
    terminal.press(&["q"]);
    if now.contains("T18:") {
        // Late in the day an open day is told first; the same key again leaves.
        terminal.see("Today is not closed");
        terminal.press(&["q"]);
    }
    assert_eq!(terminal.wait(), 0, "{}", terminal.text());
}

/// Ticks a whole grit over `faces` faces, saying "not yet" to those in `leave`.
fn walk(terminal: &mut Terminal, grit: &str, faces: usize, leave: &[usize]) {
    terminal.press(&["g"]);
    for face in 1..=faces {
        terminal.see(&format!("{grit} grit, face {face} of {faces}"));
        terminal.press(&[if leave.contains(&face) { "n" } else { "space" }]);
    }
    terminal.see(&format!("Ticked {grit} grit"));
}

/// Answers a refusal: reads it to its end, checks that it names each of `reasons`, puts it away.
fn refused(terminal: &mut Terminal, what: &str, reasons: &[&str]) {
    terminal.see(&format!("{what} was refused"));
    terminal.see_all_below(reasons);
    terminal.press(&["enter"]);
    terminal.see_no("was refused");
}

fn open_ticket(terminal: &mut Terminal) {
    terminal.see("1A sink top");
    terminal.press(&["enter"]);
    terminal.see("Ticket 1A sink top");
}

/// Unticks faces in a form's list of faces: `rows` counted from the top, in rising order.
fn leave_faces(terminal: &mut Terminal, rows: &[usize]) {
    let mut at = 0;
    for row in rows {
        for _ in at..*row {
            terminal.press(&["down"]);
        }
        terminal.press(&["space"]);
        at = *row;
    }
}

const FACES: [&str; 9] = [
    "top",
    "underside band",
    "underside field",
    "front edge",
    "back edge",
    "left end",
    "right end",
    "cutout 1 wall",
    "hole 1 wall",
];

#[test]
#[allow(clippy::too_many_lines)] // One job from first to last; cut up it would say less.
fn a_top_from_the_client_to_the_set_list() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = folder.path().join("shop.tackfree");

    sitting(&store, "2026-11-23T08:00:00Z", 24, 80, |t| {
        t.see("Begin with the client");
        t.type_text("Ada Finch");
        t.press(&["F2"]);
        t.see("New job");
        t.type_text("Bar and sink");
        t.press(&["F2"]);
        t.see("New piece for job 1 Bar and sink");
        t.type_text("sink top");
        t.press(&["enter"]);
        t.type_text("98 3/8 x 25 1/2");
        t.press(&["enter"]);
        t.see("8' 2 3/8\" x 2' 1 1/2\"");
        t.type_text("hard maple");
        t.press(&["enter"]);
        t.type_text("gel");
        t.press(&[
            "enter", "enter", "enter", "enter", "enter", "enter", "enter",
        ]);
        t.type_text("30 x 16 r 3/4 at 49 1/4, 12 3/4");
        t.press(&["enter"]);
        t.type_text("1 3/8 at 49 1/4, 23");
        t.press(&["enter"]);
        t.type_text("2");
        t.see("9 faces");
        t.press(&["enter"]);
        t.see("Ticket 1A sink top");
        t.see("80 grit: 0 of 9 faces");

        // Move early: every face, every grit, the wipe-down.
        t.press(&["m"]);
        let mut reasons = Vec::new();
        for face in FACES {
            reasons.push(format!("{face}: 80 grit not done"));
            reasons.push(format!("{face}: 120 grit not done"));
            reasons.push(format!("{face}: not wiped down"));
        }
        let reasons: Vec<&str> = reasons.iter().map(String::as_str).collect();
        refused(t, "The move", &reasons);

        // Skip a grit.
        t.press(&["right", "space"]);
        refused(
            t,
            "The tick",
            &["top: 80 grit not done, so 120 cannot be ticked yet"],
        );

        // Leave one end.
        walk(t, "80", 9, &[]);
        walk(t, "120", 9, &[6]);
        t.press(&["w"]);
        t.see("Wipe down: 1A sink top");
        t.press(&["F2"]);
        refused(t, "The wipe-down", &["left end: 120 grit not done"]);
        t.press(&["esc"]);
        t.see_no("Wipe down: 1A");
        t.press(&["m"]);
        refused(
            t,
            "The move",
            &["left end: 120 grit not done", "left end: not wiped down"],
        );
        walk(t, "120", 1, &[]);
        t.press(&["d"]);
        t.see("Wipe down: 1A sink top");
        t.press(&["F2"]);
        t.see("can move to sealing");
        t.press(&["m"]);
        t.see("Moved 1A sink top to sealing");

        // The spirits have not flashed off.
        t.press(&["p"]);
        t.see("Seal coat: 1A sink top");
        t.press(&["F2"]);
        t.see("the same key again logs the pass");
        t.press(&["F2"]);
        refused(
            t,
            "The pass",
            &["underside field: wipe-down not flashed off until 8:30 am"],
        );
        t.press(&["esc"]);
        // Leave the underside.
        t.see_no("Seal coat: 1A");
        t.press(&["m"]);
        refused(t, "The move", &["underside field: not sealed"]);
    });

    sitting(&store, "2026-11-23T09:00:00Z", 24, 80, |t| {
        open_ticket(t);
        t.press(&["p"]);
        t.see("Seal coat: 1A sink top");
        t.press(&["F2"]);
        t.see("Logged seal coat 1 on underside field");
        t.press(&["m"]);
        t.see("Moved 1A sink top to staining");
        t.press(&["d"]);
        t.see("Stain: 1A sink top");
        t.press(&["F2"]);
        t.see("wipe off the stain: 8 faces");
        t.press(&["m"]);
        refused(
            t,
            "The move",
            &[
                "top: stain not wiped off",
                "hole 1 wall: stain not wiped off",
            ],
        );
        t.press(&["d"]);
        t.see("Wipe off");
        t.press(&["F2"]);
        t.see("can move to topcoats");
        t.press(&["m"]);
        t.see("Moved 1A sink top to topcoats");
        // Inside the drying time.
        t.press(&["p"]);
        t.see("Coat 1 of 6: 1A sink top");
        t.press(&["F2"]);
        t.see("the same key again logs the pass");
        t.press(&["F2"]);
        refused(
            t,
            "The pass",
            &["top: stain dry to recoat Tue 9:00 am (in 1 day)"],
        );
        t.press(&["esc"]);
    });

    // Six wiped coats, one each morning and evening from Tuesday; windows open after 6 hours and
    // shut after 24.
    let mornings = [
        "2026-11-24T10:00:00Z",
        "2026-11-24T18:00:00Z",
        "2026-11-25T10:00:00Z",
        "2026-11-25T18:00:00Z",
        "2026-11-26T10:00:00Z",
        "2026-11-26T18:00:00Z",
    ];
    for (coat, now) in mornings.iter().enumerate() {
        let (rows, cols) = if coat % 2 == 0 { (24, 80) } else { (40, 120) };
        sitting(&store, now, rows, cols, |t| {
            open_ticket(t);
            let form = format!("Coat {} of 6: 1A sink top", coat + 1);
            if coat > 0 {
                t.see("ready to scuff");
                // Not scuffed: refused.
                t.press(&["p"]);
                t.see(&form);
                t.press(&["esc"]);
                t.see_no(&form);
                t.press(&["d"]);
                t.see("Scuff");
                t.press(&["F2"]);
                t.see("Scuffed with plain brown paper");
            }
            t.press(&["p"]);
            t.see(&form);
            if coat == 5 {
                // The last coat: the left end is forgotten.
                t.see("8 faces");
                let at = if t.text().contains("underside field") {
                    5
                } else {
                    4
                };
                leave_faces(t, &[at]);
            }
            t.press(&["F2"]);
            t.see(&format!("Logged coat {}", coat + 1));
            if coat == 5 {
                t.see("held: left end coat 6 of 6 missing");
                t.press(&["m"]);
                refused(
                    t,
                    "The move",
                    &["left end: coat 6 of 6 not done", "last coat cures until"],
                );
                t.press(&["p"]);
                t.see(&form);
                t.press(&["F2"]);
                t.see("Logged coat 6 on left end");
            } else {
                t.see("dry to recoat");
            }
        });
    }

    sitting(&store, "2026-11-27T10:00:00Z", 24, 80, |t| {
        open_ticket(t);
        t.see("cures until Sun 6:00 pm");
        t.press(&["m"]);
        refused(t, "The move", &["top: last coat cures until Sun 6:00 pm"]);
    });

    sitting(&store, "2026-11-30T10:00:00Z", 24, 80, |t| {
        open_ticket(t);
        t.see("ready to move to set");
        t.press(&["m"]);
        t.see("Moved 1A sink top to set");
        t.see("set list: 0 of 7");
        for item in 0..7 {
            t.press(&["space"]);
            t.see(if item < 6 {
                "set list: "
            } else {
                "set Mon Nov 30"
            });
            t.see(
                &format!("[{} of 7]", item + 1)
                    .replace(['[', ']'], "")
                    .replace("7 of 7", "set Mon"),
            );
            t.press(&["down"]);
        }
        t.press(&["3"]);
        t.see("cost so far");
    });

    tally_by_hand(&store);
}
