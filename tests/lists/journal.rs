use super::keep;
use super::look::{SMALL, draw, nothing_is_lost, press, says};
use super::sample::{Sample, at_work, empty};
use tackfree::tui::screen::Screen;
use tackfree::tui::screens::journal::Journal;

fn opened(sample: &Sample) -> Journal {
    let mut journal = Journal::new();
    journal.settle(&sample.ctx());
    journal
}

#[test]
fn looks_as_kept() {
    let (sample, none) = (at_work(), empty());
    let mut journal = opened(&sample);
    keep!("journal", &journal, &sample);
    press(&mut journal, &sample, "/ 1 3 b");
    keep!("journal_search", &journal, &sample);
    keep!("journal_empty", &opened(&none), &none);
}

#[test]
fn no_word_is_lost() {
    let sample = at_work();
    nothing_is_lost(&opened(&sample), &sample);
}

#[test]
fn undone_lines_say_so() {
    let sample = at_work();
    let rows = draw(&opened(&sample), &sample, SMALL);
    assert!(says(
        &rows,
        "[undone] Scuffed 13B shelf with a synthetic pad"
    ));
}

#[test]
fn typing_narrows_and_esc_brings_all_back() {
    let sample = at_work();
    let mut journal = opened(&sample);
    let all = draw(&journal, &sample, SMALL);
    // Letters that are keys of the program elsewhere are letters here.
    press(&mut journal, &sample, "/");
    assert!(journal.is_searching());
    press(&mut journal, &sample, "s c u f f space 1 3");
    let rows = draw(&journal, &sample, SMALL);
    assert!(
        says(&rows, "2 lines found") && says(&rows, "with a synthetic pad"),
        "{rows:#?}"
    );
    assert!(!says(&rows, "Opened the shop"));
    press(&mut journal, &sample, "enter");
    assert!(!journal.is_searching());
    assert!(says(&draw(&journal, &sample, SMALL), "2 lines found"));
    press(&mut journal, &sample, "/ z z");
    assert!(says(
        &draw(&journal, &sample, SMALL),
        "Press esc to show all lines again"
    ));
    press(&mut journal, &sample, "esc");
    assert!(!journal.is_searching());
    assert_eq!(draw(&journal, &sample, SMALL), all);
}

#[test]
fn wide_letters_are_found_and_shown_whole() {
    let sample = at_work();
    let mut journal = opened(&sample);
    press(&mut journal, &sample, "/ 木 村");
    let rows = draw(&journal, &sample, SMALL);
    assert!(
        says(&rows, "Search: 木村") && says(&rows, "1 line found"),
        "{rows:#?}"
    );
    assert!(says(&rows, "Entered Zoe\u{301} 木村 and daughters"));
}
