//! Exports that somebody changed: none gets a piece past coverage or sealing.

use super::support::{Rows, column, demo_but, export_but, refusal};
use tackfree::shop::{Stage, Ticket};

/// The rows of the log that are this piece's, by what they say and whether this text is in them.
fn find(rows: &Rows, piece: &str, what: &str, also: &str) -> usize {
    let (of, sort) = (column(rows, "piece"), column(rows, "what"));
    let fits = |row: &Vec<String>| {
        row[of] == piece && row[sort] == what && row.iter().any(|cell| cell == also)
    };
    rows.iter()
        .position(fits)
        .unwrap_or_else(|| panic!("no {what} {also}"))
}

/// Changes the log of one piece of the exported demo. Keys survive an export of the same store,
/// but not a new one, so the piece is found by a row that is its own.
fn log_but(ticket: Whose, change: impl FnOnce(&mut Rows, &str)) -> String {
    let folder = export_but("log.csv", |rows| {
        let piece = whose(rows, ticket);
        change(rows, &piece);
    });
    refusal(&folder)
}

/// A piece by something that only its log has.
#[derive(Clone, Copy)]
enum Whose {
    /// 6B lower shelf: its set list is finished.
    LowerShelf,
    /// 6A upper shelf: one face of it is not exposed.
    UpperShelf,
}

fn whose(rows: &Rows, ticket: Whose) -> String {
    let of = column(rows, "piece");
    let text = match ticket {
        Whose::LowerShelf => "care-sheet",
        Whose::UpperShelf => "glued into the groove of the case",
    };
    rows.iter()
        .find(|row| row.iter().any(|cell| cell == text))
        .unwrap()[of]
        .clone()
}

#[test]
fn a_tick_taken_out_is_missed() {
    let said = log_but(Whose::LowerShelf, |rows, piece| {
        let (faces, grit) = (column(rows, "faces"), column(rows, "grit"));
        let at = rows
            .iter()
            .position(|row| {
                row[faces] == "left" && row[grit] == "150" && row.iter().any(|c| c == piece)
            })
            .unwrap();
        rows.remove(at);
    });
    assert!(said.starts_with("log.csv, line "), "{said}");
    assert!(
        said.contains("6B lower shelf was refused: left end: 150 grit not done"),
        "{said}"
    );
}

#[test]
fn a_coat_taken_out_is_missed() {
    let said = log_but(Whose::LowerShelf, |rows, piece| {
        let at = find(rows, piece, "coat", "top underside front back left right");
        rows.remove(at);
    });
    // The first of its coats is the seal coat: every face says so, in order.
    assert!(
        said.contains("top: not sealed (seal coat 1 of 1); underside: not sealed"),
        "{said}"
    );
    assert!(
        said.contains("right end: not sealed (seal coat 1 of 1)."),
        "{said}"
    );
}

#[test]
fn a_face_taken_out_of_a_coat_is_missed() {
    let said = log_but(Whose::LowerShelf, |rows, piece| {
        let at = find(rows, piece, "coat", "top underside front back left right");
        let (faces, areas) = (column(rows, "faces"), column(rows, "areas_m2"));
        rows[at][faces] = "top front back left right".to_owned();
        let kept: Vec<&str> = rows[at][areas].split(' ').collect();
        let kept: Vec<&str> = kept
            .iter()
            .enumerate()
            .filter(|(i, _)| *i != 1)
            .map(|(_, a)| *a)
            .collect();
        rows[at][areas] = kept.join(" ");
    });
    assert!(
        said.contains("underside: not sealed (seal coat 1 of 1)"),
        "{said}"
    );
}

#[test]
fn a_move_put_in_is_refused() {
    let said = log_but(Whose::LowerShelf, |rows, piece| {
        let at = find(rows, piece, "wipe", piece);
        let mut row = vec![String::new(); rows[0].len()];
        for (name, cell) in [
            ("piece", piece),
            ("at", &rows[at][column(rows, "at")]),
            ("what", "move"),
            ("to", "set"),
        ] {
            row[column(rows, name)] = cell.to_owned();
        }
        rows.insert(at, row);
        // Its own identifiers would be out of order with a new one, so that cannot be what is
        // refused here: all go.
        let id = column(rows, "id");
        rows.iter_mut().skip(1).for_each(|row| row[id].clear());
    });
    assert!(
        said.contains("after sanding comes sealing; top: not wiped down"),
        "{said}"
    );
    assert!(said.contains("left end: not sealed"), "{said}");
    assert!(said.contains("underside: coat 1 of 3 not done"), "{said}");
}

#[test]
fn lines_out_of_order_are_refused() {
    let said = log_but(Whose::LowerShelf, |rows, piece| {
        let at = find(rows, piece, "set-tick", "dry-fit");
        rows.swap(at, at + 1);
    });
    assert!(said.contains("must rise from line to line"), "{said}");
}

#[test]
fn an_area_changed_wildly_is_refused() {
    let change = |to: &'static str| {
        move |rows: &mut Rows, piece: &str| {
            let at = find(rows, piece, "coat", "top underside front back left right");
            let areas = column(rows, "areas_m2");
            let rest = rows[at][areas].split_once(' ').unwrap().1.to_owned();
            rows[at][areas] = format!("{to} {rest}");
        }
    };
    let said = log_but(Whose::LowerShelf, change("90"));
    assert!(
        said.contains("6B lower shelf: top is said to have 968.8 sq ft"),
        "{said}"
    );
    // Less wild, but the shares of the pass no longer go by area.
    let said = log_but(Whose::LowerShelf, change("1.1"));
    assert!(said.contains("a pass is shared out by area"), "{said}");
    let said = log_but(Whose::LowerShelf, change("-1"));
    assert!(said.contains("\"-1\" is no area"), "{said}");
}

#[test]
fn a_hole_put_in_afterwards_is_a_bare_face() {
    let folder = export_but("openings.csv", |_| ());
    let piece = super::support::id_of(folder.path(), "lower shelf");
    let path = folder.path().join("openings.csv");
    let mut text = std::fs::read_to_string(&path).unwrap();
    text = format!("{text}{piece},hole,1,4 in,4 in,,,,1 in,,,\n");
    std::fs::write(&path, text).unwrap();
    let said = refusal(&folder);
    assert!(
        said.contains("6B lower shelf was refused: hole 1 wall: 80 grit not done"),
        "{said}"
    );
}

#[test]
fn an_exemption_without_a_reason_is_refused() {
    for reason in ["", "  ", "--"] {
        let said = log_but(Whose::UpperShelf, |rows, piece| {
            let at = find(rows, piece, "not-exposed", "back");
            let column = column(rows, "reason");
            rows[at][column] = reason.to_owned();
        });
        assert!(
            said.contains("back edge: write the reason"),
            "{reason:?}: {said}"
        );
    }
}

/// The log of 6B with lines that take a face off before its first and add one after its last.
fn reshaped(removed: Option<&str>, added: Option<&str>) -> String {
    log_but(Whose::LowerShelf, |rows, piece| {
        let id = column(rows, "id");
        rows.iter_mut().skip(1).for_each(|row| row[id].clear());
        let of = column(rows, "piece");
        let first = rows.iter().position(|row| row[of] == piece).unwrap();
        let last = rows.iter().rposition(|row| row[of] == piece).unwrap();
        let line = |at: usize, name: &str, face: &str, rows: &Rows| {
            let mut row = vec![String::new(); rows[0].len()];
            let when = &rows[at][column(rows, "at")];
            for (name, cell) in [
                ("piece", piece),
                ("at", when),
                ("what", "reshape"),
                (name, face),
            ] {
                cell.clone_into(&mut row[column(rows, name)]);
            }
            row
        };
        if let Some(face) = added {
            let line = line(last, "faces", face, rows);
            rows.insert(last + 1, line);
        }
        if let Some(face) = removed {
            let line = line(first, "removed", face, rows);
            rows.insert(first, line);
        }
    })
}

#[test]
fn a_face_cannot_be_written_away() {
    // Taken off at once, so that nothing is asked of it, and coated all the same.
    let said = reshaped(Some("left"), None);
    assert!(said.contains("the change leaves no whole top"), "{said}");
    let said = reshaped(Some("left"), Some("left"));
    assert!(said.contains("the change leaves no whole top"), "{said}");
    let said = reshaped(None, Some("hole-3"));
    assert!(
        said.contains("the hole 3 wall is in the log, and not on the piece"),
        "{said}"
    );
    let said = reshaped(None, Some("left"));
    assert!(
        said.contains("left end: this piece has no such face"),
        "{said}"
    );
}

#[test]
fn a_face_taken_off_at_the_end_is_still_on_the_piece() {
    let last = "lower,-5d 16:00,set-tick,,,,,,,,,,,,care-sheet\n";
    let off = format!("{last},lower,now-30m,reshape,,,,,,,,,left,,,\n");
    let said = refusal(&demo_but("log.csv", last, &off));
    assert!(said.contains("the change leaves no whole top"), "{said}");
    let off = ",sample,now-30m,reshape,,,,,,,,,hole-4,,,\n";
    let twice = format!("{last}{off}{off}");
    let said = refusal(&demo_but("log.csv", last, &twice));
    assert!(
        said.contains("hole 4 wall is taken off and is not there"),
        "{said}"
    );
}

#[test]
fn a_face_that_comes_back_comes_back_bare_and_to_sanding() {
    let folder = demo_but(
        "log.csv",
        "lower,-5d 16:00,set-tick,,,,,,,,,,,,care-sheet\n",
        "lower,-5d 16:00,set-tick,,,,,,,,,,,,care-sheet\n\
         ,lower,now-30m,reshape,left,,,,,,,,left,,,\n",
    );
    let (store, _) = super::support::bring_in(folder.path()).unwrap();
    let shop = super::shop(&store);
    let file = shop.find_piece("6B").unwrap();
    let ticket = Ticket::of(file);
    assert_eq!(
        (file.piece.stage, file.piece.finished),
        (Stage::Sanding, false)
    );
    let left = ticket.face(tackfree::shape::FaceKey::Left).unwrap();
    assert!(left.coats.is_empty() && left.ticks.is_empty());
}

#[test]
fn a_schedule_that_leaves_a_side_bare_is_refused() {
    let said = refusal(&demo_but(
        "recipes.toml",
        "underside = { grits = [80, 120], seal_coats = 1, stained = false, topcoats = 3 }",
        "underside = { grits = [80, 120], seal_coats = 0, stained = false, topcoats = 0 }",
    ));
    assert!(
        said.starts_with("recipes.toml, line 1: The underside would stay bare"),
        "{said}"
    );
    let own = "[[own]]\npiece = \"lower\"\n[own.schedule]\n\
        show = { grits = [80], seal_coats = 1, stained = false, topcoats = 3 }\n\
        end_grain = { grits = [80], seal_coats = 1, stained = false, topcoats = 1 }\n\
        underside = { grits = [80], seal_coats = 1, stained = false, topcoats = 3 }\n\
        wipe_down = \"none\"\nsealer = \"shellac\"\ntopcoat = \"water-clear\"\n\
        cure_before_set = \"1 h\"\nbalance_allowance = 0\n";
    let said = refusal(&super::support::demo_with("schedules.toml", own.as_bytes()));
    assert!(
        said.starts_with("schedules.toml, line 1: Ends, cutout walls and holes"),
        "{said}"
    );
}

#[test]
fn one_pass_is_one_coat() {
    let twice = demo_but(
        "log.csv",
        "lower,,coat,due,,shelves-3",
        "lower,,coat,due,,shelves-2",
    );
    let said = refusal(&twice);
    assert!(
        said.contains("pass shelves-2 lays two coats on the top of 6B lower shelf"),
        "{said}"
    );
}

#[test]
fn shares_must_make_the_whole() {
    let folder = export_but("log.csv", |rows| {
        let used = column(rows, "used");
        let at = rows
            .iter()
            .position(|row| row[used].ends_with(" mL"))
            .unwrap();
        rows[at][used] = "1 mL".to_owned();
    });
    let said = refusal(&folder);
    assert!(
        said.starts_with("passes.csv, line ") && said.contains("the shares of pass "),
        "{said}"
    );
}

#[test]
fn stage_and_finish_are_not_read() {
    let said = refusal(&export_but("pieces.csv", |rows| {
        rows[0].push("stage".to_owned());
        rows.iter_mut()
            .skip(1)
            .for_each(|row| row.push("set".to_owned()));
    }));
    assert!(
        said.starts_with("pieces.csv, line 1: there is no column called \"stage\""),
        "{said}"
    );
}
