//! Which key does what on the Bench.

use super::super::kit::keymap::{Binding, Keymap};

/// What a key does on the Bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Do {
    Left,
    Right,
    Up,
    Down,
    First,
    Last,
    Open,
    Pick,
    Next,
    Move,
    Pass,
    Wipe,
    Scuff,
    Touch,
    Unpick,
    NewPiece,
    DayEnd,
}

pub(super) const KEYS: Keymap<Do> = Keymap(&[
    Binding {
        keys: &["enter"],
        action: Do::Open,
        hint: "ticket",
        help: "Opens the ticket of the piece.",
    },
    Binding {
        keys: &["d"],
        action: Do::Next,
        hint: "do next",
        help: "Does what the piece waits for: opens the sheet, the form, or moves it along.",
    },
    Binding {
        keys: &["z"],
        action: Do::DayEnd,
        hint: "day's end",
        help: "Shows the day's end: rags, waste and dust to see to before the shop is left.",
    },
    Binding {
        keys: &["space"],
        action: Do::Pick,
        hint: "pick",
        help: "Picks the piece, or lets it go; passes and moves then go to all that are picked.",
    },
    Binding {
        keys: &["m"],
        action: Do::Move,
        hint: "move along",
        help: "Moves the piece, or all picked, to the next stage that asks something; a refused \
               move lists every reason.",
    },
    Binding {
        keys: &["p"],
        action: Do::Pass,
        hint: "log pass",
        help: "Logs one pass of one product on the piece, or on all picked.",
    },
    Binding {
        keys: &["w"],
        action: Do::Wipe,
        hint: "wipe",
        help: "Logs the wipe-down, or stain wiped off.",
    },
    Binding {
        keys: &["s"],
        action: Do::Scuff,
        hint: "scuff",
        help: "Logs a scuff between coats.",
    },
    Binding {
        keys: &["t"],
        action: Do::Touch,
        hint: "touch test",
        help: "Logs a touch test.",
    },
    Binding {
        keys: &["n"],
        action: Do::NewPiece,
        hint: "new piece",
        help: "Enters a new piece.",
    },
    Binding {
        keys: &["left"],
        action: Do::Left,
        hint: "",
        help: "To the stage on the left.",
    },
    Binding {
        keys: &["right"],
        action: Do::Right,
        hint: "",
        help: "To the stage on the right.",
    },
    Binding {
        keys: &["up"],
        action: Do::Up,
        hint: "",
        help: "To the piece above.",
    },
    Binding {
        keys: &["down"],
        action: Do::Down,
        hint: "",
        help: "To the piece below.",
    },
    Binding {
        keys: &["home"],
        action: Do::First,
        hint: "",
        help: "To the first piece of the stage.",
    },
    Binding {
        keys: &["end"],
        action: Do::Last,
        hint: "",
        help: "To the last piece of the stage.",
    },
    Binding {
        keys: &["esc"],
        action: Do::Unpick,
        hint: "",
        help: "Lets all picked pieces go.",
    },
]);

#[cfg(test)]
mod tests {
    use super::KEYS;

    #[test]
    fn the_key_table_is_sound() {
        crate::tui::global_keys::assert_screen(&KEYS);
    }
}
