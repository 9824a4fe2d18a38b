//! The keys that mean the same everywhere outside a form.

use super::kit::keymap::{Binding, Keymap};

const KEYS: Keymap<()> = Keymap(&[
    Binding {
        keys: &["1", "2", "3", "4", "5", "6"],
        action: (),
        hint: "",
        help: "To the Bench, the Rack, the Shelf, the Job book, the recipes, the journal.",
    },
    Binding {
        keys: &["7"],
        action: (),
        hint: "",
        help: "The shop's settings.",
    },
    Binding {
        keys: &["u"],
        action: (),
        hint: "",
        help: "Undoes the last action, whatever it was.",
    },
    Binding {
        keys: &["a"],
        action: (),
        hint: "",
        help: "Does again what was undone last.",
    },
    Binding {
        keys: &["0"],
        action: (),
        hint: "",
        help: "Puts away the banner of what came due.",
    },
    Binding {
        keys: &["?"],
        action: (),
        hint: "",
        help: "Shows the keys of this screen.",
    },
    Binding {
        keys: &["ctrl-l"],
        action: (),
        hint: "",
        help: "Draws the screen anew.",
    },
    Binding {
        keys: &["q", "ctrl-c"],
        action: (),
        hint: "",
        help: "Leaves. All that was confirmed is on the disk.",
    },
]);

const FORM_KEYS: Keymap<()> = Keymap(&[
    Binding {
        keys: &["enter", "down", "tab"],
        action: (),
        hint: "",
        help: "In a form: to the next field; enter on the last field saves.",
    },
    Binding {
        keys: &["F2", "ctrl-s"],
        action: (),
        hint: "",
        help: "In a form: saves from any field.",
    },
    Binding {
        keys: &["up", "shift-tab"],
        action: (),
        hint: "",
        help: "In a form: to the field before.",
    },
    Binding {
        keys: &["left", "right"],
        action: (),
        hint: "",
        help: "In a form: in text, moves the cursor; in a choice, picks. Typing narrows a choice.",
    },
    Binding {
        keys: &["space", "*"],
        action: (),
        hint: "",
        help: "In a list of faces: ticks one; * ticks all or none.",
    },
    Binding {
        keys: &["esc"],
        action: (),
        hint: "",
        help: "Leaves a form, notice or page.",
    },
]);

/// The help page's lines.
pub(super) fn help_lines(width: usize) -> Vec<String> {
    let mut out = vec!["Everywhere:".to_owned()];
    out.extend(KEYS.help_lines(width));
    out.push(String::new());
    out.extend(FORM_KEYS.help_lines(width));
    out
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_tables_are_sound() {
        crate::tui::kit::keymap::assert_sound(&super::KEYS);
        crate::tui::kit::keymap::assert_sound(&super::FORM_KEYS);
    }
}
