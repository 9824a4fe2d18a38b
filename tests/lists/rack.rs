use super::keep;
use super::look::{LARGE, SMALL, draw, nothing_is_lost, press, says};
use super::sample::{Sample, at_work, empty};
use tackfree::shop::CoatKind;
use tackfree::tui::forms::FormKind;
use tackfree::tui::screen::{Screen, Wish};
use tackfree::tui::screens::rack::Rack;

fn opened(sample: &Sample) -> Rack {
    let mut rack = Rack::new();
    rack.settle(&sample.ctx());
    rack
}

#[test]
fn looks_as_kept() {
    let (sample, none) = (at_work(), empty());
    let mut rack = opened(&sample);
    keep!("rack", &rack, &sample);
    press(&mut rack, &sample, "c");
    keep!("rack_countdown_below", &rack, &sample);
    press(&mut rack, &sample, "c");
    keep!("rack_countdown_full", &rack, &sample);
    keep!("rack_empty", &opened(&none), &none);
}

#[test]
fn no_word_is_lost() {
    let sample = at_work();
    let mut rack = opened(&sample);
    nothing_is_lost(&rack, &sample);
    press(&mut rack, &sample, "c down down");
    nothing_is_lost(&rack, &sample);
}

#[test]
fn ready_comes_first_then_missed_then_the_soonest() {
    let sample = at_work();
    let rows = draw(&opened(&sample), &sample, (120, 100));
    let text = rows.join("\n");
    let at = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words} in\n{text}"))
    };
    assert!(at("Ready now: 1 piece") < at("13B shelf"));
    assert!(at("13B shelf") < at("Window missed, abrade first: 1 piece"));
    assert!(at("Window missed") < at("13A bar top"));
    assert!(at("13A bar top") < at("Drying, soonest first"));
    assert!(at("13C tread") < at("12A island top"));
    assert!(says(&rows, "Times by label hours"));
}

#[test]
fn keys_ask_for_forms_where_they_apply() {
    let sample = at_work();
    let mut rack = opened(&sample);
    let shelf = sample.piece("13B");
    assert_eq!(press(&mut rack, &sample, "enter"), [Wish::Ticket(shelf)]);
    let kind = CoatKind::Topcoat;
    assert_eq!(
        press(&mut rack, &sample, "p"),
        [Wish::Form(FormKind::Pass {
            pieces: vec![shelf],
            kind
        })]
    );
    assert_eq!(
        press(&mut rack, &sample, "s"),
        [Wish::Form(FormKind::Scuff {
            pieces: vec![shelf]
        })]
    );
    assert_eq!(
        press(&mut rack, &sample, "t"),
        [Wish::Form(FormKind::Touch {
            pieces: vec![shelf]
        })]
    );
    let bar = sample.piece("13A");
    assert_eq!(
        press(&mut rack, &sample, "down p"),
        [Wish::Form(FormKind::Pass {
            pieces: vec![bar],
            kind
        })]
    );
}

#[test]
fn what_does_not_apply_is_answered_with_what_it_waits_for() {
    let sample = at_work();
    let mut rack = opened(&sample);
    // The tread's wipe-down flashes off: no coat yet.
    let told = |wishes: Vec<Wish>| match wishes.as_slice() {
        [Wish::Tell(lines)] => lines.join(" "),
        other => panic!("{other:?}"),
    };
    press(&mut rack, &sample, "down down");
    for key in ["t", "g", "s", "p", "w"] {
        let words = told(press(&mut rack, &sample, key));
        assert!(
            words.contains("13C tread") && words.contains("flashes off 2:20 pm"),
            "{words}"
        );
    }
    let words = told(press(&mut rack, &sample, "down p"));
    assert!(
        words.contains("12A island top") && words.contains("g records that"),
        "{words}"
    );
    let none = empty();
    let words = told(press(&mut opened(&none), &none, "enter"));
    assert!(words.starts_with("Nothing is drying"), "{words}");
}

#[test]
fn the_countdown_runs_to_the_soonest_and_goes_away() {
    let sample = at_work();
    let mut rack = opened(&sample);
    let list = draw(&rack, &sample, SMALL);
    press(&mut rack, &sample, "c c");
    let full = draw(&rack, &sample, LARGE);
    assert!(says(&full, "13C tread") && says(&full, "in 20 min, at 2:20 pm, by label hours"));
    assert!(
        full.iter().filter(|row| row.contains('█')).count() >= 15,
        "grown to the screen"
    );
    press(&mut rack, &sample, "esc");
    assert_eq!(draw(&rack, &sample, SMALL), list);
    press(&mut rack, &sample, "c c c");
    assert_eq!(draw(&rack, &sample, SMALL), list);
}

#[test]
fn the_selection_stays_with_its_piece() {
    let mut sample = at_work();
    let mut rack = opened(&sample);
    press(&mut rack, &sample, "down");
    let bar = sample.piece("13A");
    let shelf = sample.piece("13B");
    sample.shop.files.retain(|file| file.piece.id != shelf);
    rack.settle(&sample.ctx());
    assert_eq!(press(&mut rack, &sample, "enter"), [Wish::Ticket(bar)]);
}
