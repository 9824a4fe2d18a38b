//! The wood sheet, its forms, the table of woods and the client's page on screen: every one by keys.

#[allow(dead_code, reason = "another test's rig, of which this uses a part")]
mod rig;

use rig::Rig;
use tackfree::shop::{Moisture, SiteAir};

/// A working morning, mid-week.
const NOW: &str = "2026-11-25T15:20:00Z";

/// Takes a picture at both sizes.
macro_rules! pictures {
    ($name:literal, $rig:expr) => {
        insta::assert_snapshot!(concat!($name, "-80x24"), $rig.picture(80, 24));
        insta::assert_snapshot!(concat!($name, "-120x40"), $rig.picture(120, 40));
    };
}

/// The wood sheet of the sink counter: its ticket by way of the staining column.
fn sheet() -> Rig {
    let mut rig = Rig::demo(NOW);
    let sink = rig
        .app
        .shop
        .find_piece("1A")
        .expect("the sink counter")
        .piece
        .id;
    rig.app.bench.focus_on(sink);
    rig.press(&["enter", "o"]);
    assert!(rig.picture(80, 24).contains("Wood 1A sink counter"));
    rig
}

fn readings(rig: &Rig) -> Vec<Moisture> {
    let sink = rig.app.shop.find_piece("1A").expect("the sink counter");
    rig.app.shop.moisture(sink.piece.id).to_vec()
}

/// Everything that scrolls by, from the top to the end.
fn read_through(rig: &mut Rig, width: u16, height: u16) -> String {
    rig.picture(width, height);
    rig.press(&["home"]);
    let mut all = String::new();
    let mut before = String::new();
    for _ in 0..60 {
        let page = rig.picture(width, height);
        if page == before {
            break;
        }
        all.push_str(&page);
        all.push('\n');
        before = page;
        rig.press(&["pgdn"]);
    }
    all
}

#[test]
fn the_sheet_is_one_key_from_the_ticket_and_read_by_scrolling() {
    let mut rig = sheet();
    pictures!("wood-sheet", rig);
    for (width, height) in [(80, 24), (120, 40)] {
        let all = read_through(&mut rig, width, height);
        for words in [
            "THE WOOD",
            "MOISTURE",
            "READY?",
            "READINGS AND CURVE",
            "MOVEMENT",
            "LEAVE AND HOLD",
            "SEALING AND CUP",
            "Seal the whole slab",
            "o read, . curve",
        ] {
            assert!(all.contains(words), "{words} at {width}x{height}:\n{all}");
        }
        assert!(!all.contains('…'), "something is cut:\n{all}");
    }
    // Where one has scrolled to stays when the shop is read anew.
    rig.press(&["home", "pgdn"]);
    let before = rig.picture(80, 24);
    rig.app.tick(rig.now);
    assert_eq!(rig.picture(80, 24), before);
    rig.press(&["esc"]);
    assert!(rig.picture(80, 24).contains("Ticket 1A"));
}

#[test]
fn a_reading_is_noted_corrected_removed_and_undone_by_keys() {
    let mut rig = sheet();
    let had = readings(&rig).len();
    rig.press(&["n"]);
    pictures!("wood-form-reading", rig);
    // The place, meter and correction of the last reading stand there already.
    rig.press(&["9.2", "F2"]);
    let now = readings(&rig);
    assert_eq!(now.len(), had + 1);
    let newest = &now.last().expect("a reading").reading;
    assert_eq!(newest.percent.show(), "9.2%");
    assert_eq!(newest.place, now[had - 1].reading.place);
    assert_eq!(newest.at, rig.now);
    // Correcting asks for the list first.
    rig.press(&["e"]);
    assert!(rig.picture(80, 24).contains("Press tab, pick the reading"));
    rig.press(&["enter", "tab"]);
    pictures!("wood-readings", rig);
    rig.press(&["e", "ctrl-u", "9.4", "F2"]);
    assert_eq!(
        readings(&rig)
            .last()
            .expect("a reading")
            .reading
            .percent
            .show(),
        "9.4%"
    );
    assert_eq!(
        readings(&rig).last().expect("a reading").reading.at,
        rig.now
    );
    rig.press(&["x"]);
    assert_eq!(readings(&rig).len(), had);
    rig.press(&["u"]);
    assert_eq!(readings(&rig).len(), had + 1);
}

#[test]
fn a_reading_that_cannot_be_is_found_fault_with_at_its_field() {
    let mut rig = sheet();
    rig.press(&["n", "300", "F2"]);
    let picture = rig.picture(80, 24);
    assert!(
        picture.contains("A moisture content of 300 cannot be"),
        "{picture}"
    );
    rig.press(&["ctrl-u", "9", "tab", "ctrl-u", "F2"]);
    let picture = rig.picture(80, 24);
    assert!(picture.contains("Say where on the piece"), "{picture}");
}

#[test]
fn the_site_and_the_fastening_are_said_by_keys() {
    let mut rig = sheet();
    rig.press(&["s"]);
    pictures!("wood-form-site", rig);
    rig.press(&["ctrl-u", "68F 25", "F2"]);
    let sink = rig.app.shop.find_piece("1A").expect("the sink counter");
    let site = rig.app.shop.wood.site(sink.piece.job);
    let Some(SiteAir::Air { winter, .. }) = site.air else {
        panic!("{site:?}");
    };
    assert_eq!(winter.humidity.tenths(), 250);
    rig.press(&["f"]);
    pictures!("wood-form-fasten", rig);
    rig.press(&["ctrl-u", "red oak, comm", "F2"]);
    let sink = rig.app.shop.find_piece("1A").expect("the sink counter");
    assert_eq!(
        rig.app.shop.wood.lie(&sink.piece).wood,
        "Red oak, commercial"
    );
    let all = read_through(&mut rig, 80, 24);
    assert!(all.contains("a commercial group of species"), "{all}");
    rig.press(&["f", "ctrl-u", "unobtainium", "F2"]);
    assert!(
        rig.picture(80, 24)
            .contains("No wood in the table is called")
    );
}

#[test]
fn the_rule_is_changed_by_keys() {
    let mut rig = sheet();
    rig.press(&["y", "ctrl-u", "5", "F2"]);
    assert_eq!(rig.app.shop.wood.rule.days_apart, 5);
}

#[test]
fn the_table_of_woods_marks_memory_and_takes_woods_of_ones_own() {
    let mut rig = sheet();
    rig.press(&["o"]);
    pictures!("woods", rig);
    // The built-in rows stay as they are.
    rig.press(&["down", "enter"]);
    assert!(
        rig.picture(80, 24)
            .contains("is a published row and stays as it is")
    );
    rig.press(&[
        "enter",
        "n",
        "Mill run elm",
        "tab",
        "tab",
        "4.3 / 8.2",
        "F2",
    ]);
    assert_eq!(rig.app.shop.wood.own.len(), 2);
    rig.press(&["f"]);
    let own = rig.picture(80, 24);
    assert!(
        own.contains("Mill run elm") && own.contains("your own figure"),
        "{own}"
    );
    rig.press(&["end", "x"]);
    assert_eq!(rig.app.shop.wood.own.len(), 1);
    rig.press(&["f"]);
    pictures!("woods-memory", rig);
    let memory = rig.picture(120, 40);
    assert!(memory.contains("MEMORY: from memory"), "{memory}");
    rig.press(&["esc"]);
    assert!(rig.picture(80, 24).contains("Wood 1A sink counter"));
}

#[test]
fn the_clients_page_is_read_on_screen() {
    let mut rig = sheet();
    rig.press(&["c"]);
    pictures!("wood-client-page", rig);
    rig.press(&["esc"]);
    assert!(rig.picture(80, 24).contains("Wood 1A sink counter"));
}
