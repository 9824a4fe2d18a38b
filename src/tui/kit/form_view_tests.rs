use super::super::draw::testing::{SIZES, canvas, rows};
use super::super::field::Field;
use super::super::key::Key;
use super::super::options::Choice;
use super::*;
use crate::tui::kit::form::FormAction;

fn form() -> Form {
    let woods = [
        "White oak",
        "Red oak",
        "Walnut",
        "Maple",
        "Cherry",
        "Ash",
        "Beech",
        "Birch",
    ];
    let choices = |labels: &[&str]| {
        labels
            .iter()
            .map(|l| Choice::new(*l, *l))
            .collect::<Vec<_>>()
    };
    Form::new(
        "A new piece",
        vec![
            Field::text("name", "Name", "Island 木目 e\u{301}"),
            Field::text("length", "Length", "98 3/8")
                .hint("As on the tape: 8' 2 3/8\", 98-3/8, 2500mm"),
            Field::choice("wood", "Wood", choices(&woods), "Walnut"),
            Field::toggle("eased", "Edges eased on all sides of the top", true),
            Field::many(
                "faces",
                "Faces",
                choices(&["Top", "Underside", "Left end", "Right end"]),
                &["Top"],
            ),
            Field::note("notes", "Notes", ""),
        ],
    )
}

fn seen(form: &Form, w: u16, h: u16) -> Vec<String> {
    let (mut buf, area) = canvas(w, h);
    draw(form, &mut buf, area, &Theme::plain());
    rows(&buf, area)
}

#[test]
fn a_form_at_its_ordinary_size() {
    let mut f = form();
    f.set_echo("length", Some("8 ft 2 3/8 in".into()));
    f.focus("length");
    let lines = seen(&f, 80, 24);
    assert!(
        lines[0].starts_with("A new piece") && lines[0].ends_with("field 2 of 6"),
        "{lines:?}"
    );
    assert_eq!(
        lines[1],
        "  Name                              Island 木目 e\u{301}"
    );
    assert_eq!(lines[2], "> Length                            98 3/8");
    assert_eq!(lines[3].trim(), "= 8 ft 2 3/8 in");
    assert_eq!(
        lines[4].trim(),
        "As on the tape: 8' 2 3/8\", 98-3/8, 2500mm"
    );
    assert!(lines[5].ends_with("Walnut"));
    assert_eq!(lines[23], "enter next  esc back  F2 save  up/down move");
}

#[test]
fn the_field_in_focus_is_in_sight_in_the_smallest_place() {
    let mut f = form();
    let error = "Too long for one top: 300 ft is more than any slab; say it in feet or inches.";
    for id in ["name", "length", "wood", "eased", "faces", "notes"] {
        f.set_error(id, Some(error.into()));
        f.focus(id);
        let lines = seen(&f, 40, 8);
        assert!(lines.iter().any(|l| l.starts_with('>')), "{id}: {lines:#?}");
        assert!(
            lines[0].contains("more "),
            "{id}: says that there is more: {lines:#?}"
        );
        assert!(
            lines[7].contains("enter ") && lines[7].contains("esc back"),
            "{lines:#?}"
        );
        let said: Vec<&str> = lines
            .iter()
            .map(|l| l.get(18..).unwrap_or("").trim())
            .collect();
        let said = said.join(" ");
        for word in error.split(' ') {
            assert!(said.contains(word), "{id}: {word}: {lines:#?}");
        }
    }
}

#[test]
fn lists_show_the_row_in_focus_and_its_ticks() {
    let mut f = form();
    f.focus("faces");
    f.key(&Key::Down);
    f.key(&Key::Char(' '));
    let lines = seen(&f, 80, 24);
    assert!(lines.iter().any(|l| l.trim() == "[x] Top"), "{lines:#?}");
    assert!(
        lines.iter().any(|l| l.trim() == "> [x] Underside"),
        "{lines:#?}"
    );
    let lines = seen(&f, 40, 8);
    assert!(
        lines.iter().any(|l| l.trim() == "> [x] Underside"),
        "{lines:#?}"
    );
    assert_eq!(lines[7], "enter next  esc back  space tick");
    f.focus("wood");
    assert_eq!(f.key(&Key::Char('b')), FormAction::Changed);
    let lines = seen(&f, 40, 8);
    assert!(lines.iter().any(|l| l.trim() == "> Beech"), "{lines:#?}");
    assert!(
        lines.iter().any(|l| l.ends_with("Beech  1 of 2")),
        "{lines:#?}"
    );
    f.key(&Key::Char('x'));
    assert!(seen(&f, 40, 8).join("\n").contains("! nothing here"));
    f.key(&Key::Enter);
    assert!(
        seen(&f, 80, 24)
            .join("\n")
            .contains("! nothing here matches \"bx\"")
    );
}

#[test]
fn the_cursor_stands_where_typing_goes() {
    let mut f = form();
    let (mut buf, area) = canvas(80, 24);
    let at = |f: &Form, buf: &mut _| draw(f, buf, area, &Theme::dark());
    let end = at(&f, &mut buf).unwrap();
    assert_eq!((end.x, end.y), (area.x + 36 + 13, area.y + 1));
    f.key(&Key::Left);
    f.key(&Key::Left);
    f.key(&Key::Left);
    assert_eq!(at(&f, &mut buf).unwrap().x, end.x - 4);
    f.focus("eased");
    assert_eq!(at(&f, &mut buf), None);
}

#[test]
fn a_long_text_scrolls_sideways_and_says_so() {
    let mut f = form();
    f.paste(&"木目 walnut ".repeat(40));
    let lines = seen(&f, 40, 8);
    assert!(lines[1].ends_with('<'), "{lines:#?}");
    f.key(&Key::Home);
    let lines = seen(&f, 40, 8);
    assert!(
        lines[1].contains("Island") && lines[1].ends_with('>'),
        "{lines:#?}"
    );
    f.focus("notes");
    assert!(seen(&f, 40, 8).len() == 8);
}

#[test]
fn every_size_every_field_every_look() {
    for theme in [Theme::plain(), Theme::dark(), Theme::light().in_ascii(true)] {
        for (w, h) in SIZES.iter().chain(&[(8, 3), (9, 4), (39, 7)]) {
            let mut f = form();
            for id in ["name", "length", "wood", "eased", "faces", "notes"] {
                f.focus(id);
                f.set_error(id, Some("木目 ".repeat(60)));
                let (mut buf, area) = canvas(*w, *h);
                let cursor = draw(&f, &mut buf, area, &theme);
                rows(&buf, area);
                assert!(cursor.is_none_or(|c| area.contains(c)), "{id} at {w}x{h}");
            }
            let empty = Form::new("Nothing here", Vec::new());
            let (mut buf, area) = canvas(*w, *h);
            draw(&empty, &mut buf, area, &theme);
            rows(&buf, area);
        }
    }
}

proptest::proptest! {
    #[test]
    fn any_keys_at_any_size_keep_the_form_in_its_place(
        keys in proptest::collection::vec(0usize..20, 0..50), w in 0u16..100, h in 0u16..30,
    ) {
        let names = [
            "up", "down", "tab", "shift-tab", "left", "right", "enter", "space", "*", "o", "x",
            "backspace", "delete", "home", "end", "pgup", "pgdn", "ctrl-w", "木", "\u{301}",
        ];
        let mut f = form();
        for key in keys {
            if let Some(key) = Key::from_name(names[key]) {
                f.key(&key);
            }
        }
        let (mut buf, area) = canvas(w, h);
        let cursor = draw(&f, &mut buf, area, &Theme::either());
        let lines = rows(&buf, area);
        proptest::prop_assert!(cursor.is_none_or(|c| area.contains(c)));
        proptest::prop_assert!(w < 40 || h < 8 || lines.iter().any(|l| l.starts_with('>')));
    }
}
