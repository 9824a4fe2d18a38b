//! Which key does what on a drawing.

use super::super::kit::keymap::{Binding, Keymap};

/// What a key does on a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Do {
    Next,
    Before,
    Accept,
    Reopen,
    Nearer,
    Further,
    Whole,
    Up,
    Down,
    Left,
    Right,
    Signs,
    Stands,
    Findings,
    Figures,
    Cutting,
    CutList,
    Template,
    Sheet,
    Checks,
    Router,
    Boards,
    Back,
}

pub(super) const KEYS: Keymap<Do> = Keymap(&[
    Binding {
        keys: &["n", "tab"],
        action: Do::Next,
        hint: "next finding",
        help: "To the next finding; it is shown below the drawing.",
    },
    Binding {
        keys: &["p", "shift-tab"],
        action: Do::Before,
        hint: "",
        help: "To the finding before.",
    },
    Binding {
        keys: &["space", "enter"],
        action: Do::Accept,
        hint: "accept",
        help: "Takes the finding as it is, with a written reason that stays on the ticket.",
    },
    Binding {
        keys: &["backspace", "delete"],
        action: Do::Reopen,
        hint: "",
        help: "Opens an accepted finding again.",
    },
    Binding {
        keys: &["s"],
        action: Do::Stands,
        hint: "stands",
        help: "Notes how it will stand: joints, overhangs, appliances, height.",
    },
    Binding {
        keys: &["+", "="],
        action: Do::Nearer,
        hint: "nearer",
        help: "Nearer.",
    },
    Binding {
        keys: &["-"],
        action: Do::Further,
        hint: "further",
        help: "Further off.",
    },
    Binding {
        keys: &["c"],
        action: Do::Cutting,
        hint: "cutting",
        help: "Plans a cut: pick which; template, passes, feed, what to mind.",
    },
    Binding {
        keys: &["t"],
        action: Do::Template,
        hint: "template",
        help: "Writes a full-size template: pick of what; x draws it from below.",
    },
    Binding {
        keys: &["l"],
        action: Do::CutList,
        hint: "cut list",
        help: "Shows the strips to cut and the lumber to buy.",
    },
    Binding {
        keys: &["w"],
        action: Do::Sheet,
        hint: "sheet",
        help: "Writes the dimensioned sheet for paper.",
    },
    Binding {
        keys: &["g"],
        action: Do::Figures,
        hint: "figures",
        help: "The piece in figures: area, board feet, weight, where it balances, edge length.",
    },
    Binding {
        keys: &["f"],
        action: Do::Findings,
        hint: "",
        help: "Shows all findings with their sources as a page to read.",
    },
    Binding {
        keys: &["."],
        action: Do::Whole,
        hint: "",
        help: "The whole piece again.",
    },
    Binding {
        keys: &["up"],
        action: Do::Up,
        hint: "",
        help: "Moves the drawing towards its back.",
    },
    Binding {
        keys: &["down"],
        action: Do::Down,
        hint: "",
        help: "Moves it towards its front.",
    },
    Binding {
        keys: &["left"],
        action: Do::Left,
        hint: "",
        help: "Moves it to the left.",
    },
    Binding {
        keys: &["right"],
        action: Do::Right,
        hint: "",
        help: "Moves it to the right.",
    },
    Binding {
        keys: &["y"],
        action: Do::Signs,
        hint: "",
        help: "Other signs: braille, half blocks, plain.",
    },
    Binding {
        keys: &["k"],
        action: Do::Checks,
        hint: "",
        help: "The layout checks: figure and weight of each, or off.",
    },
    Binding {
        keys: &["d"],
        action: Do::Router,
        hint: "",
        help: "The shop's router: bit, guide, speed, depth of a pass.",
    },
    Binding {
        keys: &["b"],
        action: Do::Boards,
        hint: "",
        help: "How the shop glues up and buys: strips, waste, boards, paper.",
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
