//! Which key does what on a ticket.

use super::super::kit::keymap::{Binding, Keymap};

/// What a key does on a ticket.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Do {
    Tick,
    TakeBack,
    WholeGrit,
    Next,
    Move,
    MoveBack,
    Pass,
    Wipe,
    Scuff,
    Touch,
    SandBack,
    Hidden,
    Edit,
    Wood,
    Log,
    Earlier,
    Later,
    Drawing,
    Other,
    Up,
    Down,
    Left,
    Right,
    Back,
}

pub(super) const KEYS: Keymap<Do> = Keymap(&[
    Binding {
        keys: &["space"],
        action: Do::Tick,
        hint: "tick",
        help: "Ticks the cell, only in order; on a coat it opens the pass.",
    },
    Binding {
        keys: &["g"],
        action: Do::WholeGrit,
        hint: "whole grit",
        help: "Ticks the next grit whole: asks face by face whether it was looked at.",
    },
    Binding {
        keys: &["d"],
        action: Do::Next,
        hint: "do next",
        help: "Does what the piece waits for.",
    },
    Binding {
        keys: &["m"],
        action: Do::Move,
        hint: "move along",
        help: "Moves the piece to the next stage that asks something; a refused move lists every \
               reason.",
    },
    Binding {
        keys: &["p"],
        action: Do::Pass,
        hint: "log pass",
        help: "Logs a pass on this piece.",
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
        hint: "touch",
        help: "Logs a touch test.",
    },
    Binding {
        keys: &["b"],
        action: Do::SandBack,
        hint: "sand back",
        help: "Sands faces back to a grit, with the reason; their later ticks and coats are to do \
               again.",
    },
    Binding {
        keys: &["h"],
        action: Do::Hidden,
        hint: "",
        help: "Declares a face not exposed, with the reason, or withdraws it.",
    },
    Binding {
        keys: &["l"],
        action: Do::Log,
        hint: "log",
        help: "Shows the log of the piece; there enter corrects the time of a line.",
    },
    Binding {
        keys: &["-"],
        action: Do::Earlier,
        hint: "done earlier",
        help: "Ticks count as done 5, 10, 15, 20, 30 minutes ago and on to 2 hours, a step with \
               each press.",
    },
    Binding {
        keys: &["+", "="],
        action: Do::Later,
        hint: "",
        help: "One step back towards now.",
    },
    Binding {
        keys: &["o"],
        action: Do::Wood,
        hint: "wood",
        help: "Opens the wood sheet: moisture, movement, gaps and slots, sealing and cup.",
    },
    Binding {
        keys: &["v"],
        action: Do::Drawing,
        hint: "drawing",
        help: "The piece drawn to scale: layout findings, cutting, template, cut list.",
    },
    Binding {
        keys: &["e"],
        action: Do::Edit,
        hint: "",
        help: "Changes the piece's data.",
    },
    Binding {
        keys: &["backspace", "delete"],
        action: Do::TakeBack,
        hint: "",
        help: "Takes a tick back that was a mistake.",
    },
    Binding {
        keys: &["k"],
        action: Do::MoveBack,
        hint: "",
        help: "Moves the piece one stage back.",
    },
    Binding {
        keys: &["tab"],
        action: Do::Other,
        hint: "",
        help: "Between the sheet of faces and the set list, once the piece is in set.",
    },
    Binding {
        keys: &["up"],
        action: Do::Up,
        hint: "",
        help: "To the face or line above.",
    },
    Binding {
        keys: &["down"],
        action: Do::Down,
        hint: "",
        help: "To the face or line below.",
    },
    Binding {
        keys: &["left"],
        action: Do::Left,
        hint: "",
        help: "To the step before.",
    },
    Binding {
        keys: &["right"],
        action: Do::Right,
        hint: "",
        help: "To the step after.",
    },
    Binding {
        keys: &["esc"],
        action: Do::Back,
        hint: "back",
        help: "Back to the screen before.",
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
