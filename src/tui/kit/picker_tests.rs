use super::super::draw::testing::{SIZES, canvas, rows};
use super::*;

fn picker() -> Picker<u8> {
    let names = [
        "Sand a face",
        "Seal",
        "Stain 木目",
        "Log a coat",
        "Undo",
        "Log shop air",
    ];
    let items = names
        .iter()
        .zip(0..)
        .map(|(name, n)| Item::new(n, *name, format!("detail {n}")));
    Picker::new("What to do", items.collect())
}

fn press(p: &mut Picker<u8>, names: &[&str]) -> PickerAction {
    let mut last = PickerAction::None;
    for name in names {
        last = p.key(&Key::from_name(name).unwrap());
    }
    last
}

fn seen(p: &Picker<u8>, w: u16, h: u16) -> Vec<String> {
    let (mut buf, area) = canvas(w, h);
    p.draw(&mut buf, area, &Theme::plain());
    rows(&buf, area)
}

#[test]
fn moves_finds_and_chooses() {
    let mut p = picker();
    press(&mut p, &["down", "down", "up"]);
    assert_eq!(p.chosen().unwrap().value, 1);
    press(&mut p, &["end", "down"]);
    assert_eq!(p.chosen().unwrap().value, 5);
    press(&mut p, &["l", "o", "g", "space", "s"]);
    assert_eq!(
        p.chosen().unwrap().value,
        5,
        "what begins with it goes first"
    );
    assert_eq!(press(&mut p, &["enter"]), PickerAction::Chosen);
    press(&mut p, &["x", "x"]);
    assert_eq!(press(&mut p, &["enter"]), PickerAction::None);
    assert!(p.chosen().is_none());
    assert_eq!(press(&mut p, &["esc"]), PickerAction::None);
    assert_eq!(p.chosen().unwrap().value, 0);
    assert_eq!(press(&mut p, &["esc"]), PickerAction::Cancel);
    p.paste("undo\n");
    assert_eq!(p.chosen().unwrap().value, 4);
}

#[test]
fn digits_choose_in_a_menu_only() {
    let mut p = picker();
    assert_eq!(press(&mut p, &["2"]), PickerAction::None);
    assert_eq!(p.typed(), "2");
    let mut p = picker().numbered();
    assert_eq!(press(&mut p, &["9"]), PickerAction::None);
    assert_eq!(press(&mut p, &["4"]), PickerAction::Chosen);
    assert_eq!(p.chosen().unwrap().value, 3);
}

#[test]
fn drawn_in_the_smallest_place() {
    let mut p = picker().numbered();
    press(&mut p, &["end", "up"]);
    assert_eq!(
        seen(&p, 40, 8),
        [
            "What to do                        5 of 6",
            "  1 Sand a face   detail 0",
            "  2 Seal          detail 1",
            "  3 Stain 木目    detail 2",
            "  4 Log a coat    detail 3",
            "> 5 Undo          detail 4",
            "  6 Log shop air  detail 5",
            "enter choose  esc back  type to find",
        ]
    );
    let lines = seen(&p, 40, 6);
    assert_eq!(lines[1], "  3 Stain 木目    detail 2");
    assert_eq!(lines[4], "  6 Log shop air  detail 5");
}

#[test]
fn says_when_there_is_nothing() {
    let mut p = picker();
    press(&mut p, &["q"]);
    let lines = seen(&p, 40, 8);
    assert_eq!(lines[1], "find: q");
    assert_eq!(lines[2], "Nothing matches \"q\"; esc takes it back.");
    let none: Picker<u8> = Picker::new("Cans", Vec::new());
    assert_eq!(seen(&none, 40, 8)[1], "Nothing to choose from yet.");
}

#[test]
fn new_rows_keep_the_place() {
    let mut p = picker();
    press(&mut p, &["end"]);
    p.set_items(vec![Item::new(7, "One", ""), Item::new(8, "Two", "")]);
    assert_eq!(p.chosen().unwrap().value, 8);
    p.focus(|v| *v == 7);
    assert_eq!(p.chosen().unwrap().value, 7);
    p.set_items(Vec::new());
    assert!(p.chosen().is_none());
    assert_eq!(
        press(&mut p, &["up", "down", "pgdn", "end", "enter"]),
        PickerAction::None
    );
}

#[test]
fn every_size_can_be_drawn() {
    for (w, h) in SIZES {
        let mut p = picker();
        p.set_height(*h);
        press(&mut p, &["pgdn"]);
        seen(&p, *w, *h);
        let (mut buf, area) = canvas(*w, *h);
        p.paste(&"木目".repeat(50));
        let cursor = p.draw(&mut buf, area, &Theme::dark());
        rows(&buf, area);
        assert!(cursor.is_none_or(|c| area.contains(c)), "{w}x{h}");
    }
}
