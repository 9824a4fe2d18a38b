use super::*;
use crate::tui::kit::options::Choice;

fn choices(labels: &[&str]) -> Vec<Choice> {
    labels
        .iter()
        .map(|l| Choice::new(l.to_lowercase(), *l))
        .collect()
}

fn form() -> Form {
    Form::new(
        "A piece",
        vec![
            Field::text("name", "Name", ""),
            Field::choice(
                "wood",
                "Wood",
                choices(&["White oak", "Red oak", "Walnut", "Maple"]),
                "",
            ),
            Field::toggle("edge", "Eased edge", false),
            Field::many(
                "faces",
                "Faces",
                choices(&["Top", "Left end", "Right end"]),
                &["top"],
            ),
            Field::note("notes", "Notes", ""),
        ],
    )
}

fn keys(form: &mut Form, names: &[&str]) -> FormAction {
    let mut last = FormAction::None;
    for name in names {
        last = form.key(&Key::from_name(name).unwrap());
    }
    last
}

#[test]
fn walks_from_field_to_field_and_submits_on_the_last() {
    let mut f = form();
    assert_eq!(keys(&mut f, &["a"]), FormAction::Changed);
    keys(&mut f, &["enter"]);
    assert_eq!(f.focused(), "wood");
    keys(&mut f, &["down", "tab"]);
    assert_eq!(f.focused(), "faces");
    keys(&mut f, &["down", "down"]);
    assert_eq!(f.focused(), "faces", "arrows move inside the list first");
    keys(&mut f, &["down"]);
    assert_eq!(f.focused(), "notes");
    keys(&mut f, &["up"]);
    assert_eq!(f.focused(), "faces");
    keys(&mut f, &["up", "up", "up"]);
    assert_eq!(f.focused(), "edge", "entered from below, left at the top");
    keys(&mut f, &["shift-tab", "shift-tab", "shift-tab"]);
    assert_eq!(f.focused(), "name");
    keys(&mut f, &["pgdn"]);
    assert_eq!(keys(&mut f, &["down"]), FormAction::None);
    assert_eq!(keys(&mut f, &["enter"]), FormAction::Submit);
    keys(&mut f, &["pgup"]);
    assert_eq!(keys(&mut f, &["F2"]), FormAction::Submit);
    assert_eq!(keys(&mut f, &["ctrl-s"]), FormAction::Submit);
    assert_eq!(keys(&mut f, &["esc"]), FormAction::Cancel);
    assert_eq!(f.text("name"), "a");
}

#[test]
fn typing_narrows_a_choice() {
    let mut f = form();
    f.focus("wood");
    assert_eq!(keys(&mut f, &["o"]), FormAction::Changed);
    assert_eq!(
        f.choice("wood"),
        Some("white oak"),
        "a word that begins with it"
    );
    keys(&mut f, &["right"]);
    assert_eq!(f.choice("wood"), Some("red oak"));
    keys(&mut f, &["right"]);
    assert_eq!(f.choice("wood"), Some("red oak"), "the last that matches");
    keys(&mut f, &["enter"]);
    keys(&mut f, &["up", "right"]);
    assert_eq!(
        f.choice("wood"),
        Some("walnut"),
        "what was typed is gone after leaving"
    );
    keys(&mut f, &["m", "backspace"]);
    assert_eq!(f.choice("wood"), Some("walnut"), "taken back");
    keys(&mut f, &["x", "enter", "up"]);
    assert_eq!(f.choice("wood"), None);
    let FieldKind::Choice(list) = &f.field("wood").unwrap().kind else {
        panic!("a choice")
    };
    assert_eq!(list.typed(), "x", "what matches nothing stays to be seen");
    keys(&mut f, &["delete"]);
    assert_eq!(f.paste("maple\n"), FormAction::Changed);
    assert_eq!(f.choice("wood"), Some("maple"));
}

#[test]
fn toggles_and_ticks() {
    let mut f = form();
    f.focus("edge");
    keys(&mut f, &["space"]);
    assert!(f.toggle("edge"));
    keys(&mut f, &["n"]);
    assert!(!f.toggle("edge"));
    f.focus("faces");
    keys(&mut f, &["down", "space"]);
    assert_eq!(f.many("faces"), ["top", "left end"]);
    keys(&mut f, &["*"]);
    assert_eq!(f.many("faces").len(), 3);
    keys(&mut f, &["*"]);
    assert!(f.many("faces").is_empty());
    keys(&mut f, &["r", "space"]);
    assert_eq!(f.many("faces"), ["right end"]);
    assert_eq!(
        keys(&mut f, &["up"]),
        FormAction::None,
        "moving is no change"
    );
}

#[test]
fn a_change_takes_its_echo_and_error_away() {
    let mut f = form();
    f.set_error("name", Some("A name is needed.".into()));
    f.set_error("wood", Some("Pick one.".into()));
    f.set_echo("name", Some("nothing".into()));
    keys(&mut f, &["pgdn"]);
    assert!(f.focus_first_error());
    assert_eq!(f.focused(), "name");
    keys(&mut f, &["left"]);
    assert_eq!(f.first_error(), Some("name"), "moving is no change");
    keys(&mut f, &["x"]);
    assert_eq!(f.first_error(), Some("wood"));
    assert_eq!(f.field("name").unwrap().echo, None);
}

#[test]
fn drafts_come_back() {
    let mut f = form();
    assert!(!f.is_touched());
    keys(&mut f, &["X", "enter", "m", "enter", "y", "enter", "*"]);
    f.focus("notes");
    f.paste("two\nlines");
    assert!(f.is_touched());
    let draft = f.draft();
    let mut g = form();
    assert!(g.fill(&draft).is_empty());
    assert_eq!(g.draft(), draft);
    assert_eq!(g.text("notes"), "two lines");
    assert_eq!(
        g.fill(&[
            ("wood".into(), "plastic".into()),
            ("gone".into(), "1".into())
        ]),
        ["wood", "gone"]
    );
    assert_eq!(
        g.choice("wood"),
        Some("maple"),
        "what cannot be put in leaves what is there"
    );
}

#[test]
fn paste_where_no_text_goes_says_so() {
    let mut f = form();
    f.focus("edge");
    assert_eq!(f.paste("yes"), FormAction::None);
    assert_eq!(f.first_error(), Some("edge"));
}

#[test]
fn a_form_without_fields_does_no_harm() {
    let mut f = Form::new("Nothing", Vec::new());
    assert_eq!(f.focused(), "");
    for name in ["up", "down", "tab", "x", "pgdn"] {
        assert_eq!(keys(&mut f, &[name]), FormAction::None);
    }
    assert_eq!(f.paste("x"), FormAction::None);
    assert_eq!(keys(&mut f, &["enter"]), FormAction::Submit);
    let mut g = Form::new(
        "Empty lists",
        vec![
            Field::many("m", "M", vec![], &[]),
            Field::choice("c", "C", vec![], ""),
        ],
    );
    keys(
        &mut g,
        &[
            "space",
            "*",
            "a",
            "end",
            "enter",
            "right",
            "left",
            "a",
            "backspace",
        ],
    );
    assert_eq!(g.choice("c"), None);
}
