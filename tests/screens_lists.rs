//! The promise: rack, shelf, job book, recipes and journal show all they know in whole words at
//! every size, and their keys ask for what they say.

#[path = "lists/maker.rs"]
mod maker;

#[path = "lists/sample.rs"]
mod sample;

#[path = "lists/look.rs"]
mod look;

#[path = "lists/rack.rs"]
mod rack;

#[path = "lists/shelf.rs"]
mod shelf;

#[path = "lists/job_book.rs"]
mod job_book;

#[path = "lists/recipes.rs"]
mod recipes;

#[path = "lists/journal.rs"]
mod journal;

use look::any_size;
use tackfree::tui::kit::Key;
use tackfree::tui::screen::Screen;
use tackfree::tui::screens::{
    job_book::JobBook, journal::Journal, rack::Rack, recipes::Recipes, shelf::Shelf,
};

/// All five, settled on a shop.
fn all(sample: &sample::Sample) -> Vec<Box<dyn Screen>> {
    let mut screens: Vec<Box<dyn Screen>> = vec![
        Box::new(Rack::new()),
        Box::new(Shelf::new()),
        Box::new(JobBook::new()),
        Box::new(Recipes::new()),
        Box::new(Journal::new()),
    ];
    for screen in &mut screens {
        screen.settle(&sample.ctx());
    }
    screens
}

/// A picture kept under tests/snapshots.
macro_rules! keep {
    ($name:expr, $screen:expr, $sample:expr) => {{
        let mut settings = insta::Settings::clone_current();
        settings.set_snapshot_path("../snapshots");
        settings.set_prepend_module_to_snapshot(false);
        settings.bind(|| {
            for size in [$crate::look::SMALL, $crate::look::LARGE] {
                let name = format!("{}_{}x{}", $name, size.0, size.1);
                insta::assert_snapshot!(name, $crate::look::picture($screen, $sample, size));
            }
        });
    }};
}
pub(crate) use keep;

#[test]
fn every_size_is_borne() {
    for sample in [sample::bare(), sample::empty(), sample::at_work()] {
        for screen in all(&sample) {
            any_size(screen.as_ref(), &sample);
        }
    }
}

/// Digits, `?`, `u`, `a`, `q` and function keys belong to the program.
#[test]
fn keys_of_the_program_do_nothing_here() {
    let sample = sample::at_work();
    for mut screen in all(&sample) {
        let before = look::draw(screen.as_ref(), &sample, look::LARGE);
        let keys = "0123456789?uaq"
            .chars()
            .map(Key::Char)
            .chain((2..=12).map(Key::F));
        for key in keys {
            let title = screen.title(&sample.ctx());
            assert_eq!(
                screen.key(&key, &sample.ctx()),
                vec![],
                "{title} {}",
                key.name()
            );
        }
        assert_eq!(look::draw(screen.as_ref(), &sample, look::LARGE), before);
    }
}

#[test]
fn every_key_shown_as_a_hint_is_on_the_help_page() {
    for sample in [sample::empty(), sample::at_work()] {
        for screen in all(&sample) {
            let help = screen.help(80).join("\n");
            for hint in screen.hints(400, &sample.ctx()).split("  ") {
                let key = hint.split(' ').next().unwrap();
                let told = help
                    .lines()
                    .any(|line| line.split([' ', ',']).next() == Some(key));
                assert!(told, "{key} of {hint:?} in\n{help}");
            }
        }
    }
}
