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
        keys: &["8"],
        action: (),
        hint: "",
        help: "To the shop's air.",
    },
    Binding {
        keys: &["r"],
        action: (),
        hint: "",
        help: "Logs a reading of the shop's air.",
    },
    Binding {
        keys: &["z"],
        action: (),
        hint: "",
        help: "The day's end: rags, waste and dust to see to, and the day closed.",
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
        help: "Leaves. All that was confirmed is on the disk. Late in a day that is not closed it says \
               so first; the same key again leaves.",
    },
]);

const FORM_KEYS: Keymap<()> = Keymap(&[
    Binding {
        keys: &["enter", "tab"],
        action: (),
        hint: "",
        help: "To the next field; enter on the last field saves.",
    },
    Binding {
        keys: &["shift-tab"],
        action: (),
        hint: "",
        help: "To the field before.",
    },
    Binding {
        keys: &["down", "up"],
        action: (),
        hint: "",
        help: "To the next field or the one before; in a list of faces, to the next or last face, \
               and past its ends on.",
    },
    Binding {
        keys: &["F2", "ctrl-s"],
        action: (),
        hint: "",
        help: "Saves, from any field.",
    },
    Binding {
        keys: &["left", "right"],
        action: (),
        hint: "",
        help: "In text, moves the cursor; in a choice, picks. Typing narrows a choice; backspace, \
               delete and ctrl-u widen it again.",
    },
    Binding {
        keys: &["space", "*"],
        action: (),
        hint: "",
        help: "In a list of faces, space ticks one and * all or none; a letter goes to the next \
               face that begins with it. In a yes or no, space, y and n answer.",
    },
    Binding {
        keys: &["home", "end", "ctrl-a", "ctrl-e"],
        action: (),
        hint: "",
        help: "To the beginning or end of the text or list.",
    },
    Binding {
        keys: &["ctrl-left", "ctrl-right"],
        action: (),
        hint: "",
        help: "A word to the left or right.",
    },
    Binding {
        keys: &[
            "backspace",
            "delete",
            "ctrl-h",
            "ctrl-w",
            "ctrl-u",
            "ctrl-k",
        ],
        action: (),
        hint: "",
        help: "Take away a character, the word before, all before the cursor, all after it.",
    },
    Binding {
        keys: &["pgup", "pgdn"],
        action: (),
        hint: "",
        help: "To the first or last field.",
    },
    Binding {
        keys: &["esc"],
        action: (),
        hint: "",
        help: "Leaves the form.",
    },
]);

const PAGE_KEYS: Keymap<()> = Keymap(&[
    Binding {
        keys: &["up", "down", "pgup", "pgdn", "space", "home", "end"],
        action: (),
        hint: "",
        help: "Read on or back.",
    },
    Binding {
        keys: &["enter", "esc"],
        action: (),
        hint: "",
        help: "Put it away. An answer is also put away by any other key, which then does what it \
               does.",
    },
]);

/// The help page's lines.
pub(super) fn help_lines(width: usize) -> Vec<String> {
    let mut out = vec!["Everywhere:".to_owned()];
    out.extend(KEYS.help_lines(width));
    out.push(String::new());
    out.push("In a form:".to_owned());
    out.extend(FORM_KEYS.help_lines(width));
    out.push(String::new());
    out.push("On a page to read, or an answer:".to_owned());
    out.extend(PAGE_KEYS.help_lines(width));
    out
}

/// Fails unless a screen's key table is sound and takes no key that means the same everywhere: such
/// a key would never reach the screen.
#[cfg(test)]
pub(super) fn assert_screen<A: Copy + 'static>(map: &Keymap<A>) {
    crate::tui::kit::keymap::assert_sound(map);
    // The Bench and the Rack offer the day's end among their own hints.
    let everywhere = KEYS.0.iter().flat_map(|binding| binding.keys);
    let everywhere = everywhere.filter(|key| **key != "z");
    for key in everywhere {
        let taken = map.0.iter().find(|binding| binding.keys.contains(key));
        assert!(taken.is_none(), "{key} means the same everywhere");
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_key_tables_are_sound() {
        crate::tui::kit::keymap::assert_sound(&super::KEYS);
        crate::tui::kit::keymap::assert_sound(&super::FORM_KEYS);
        crate::tui::kit::keymap::assert_sound(&super::PAGE_KEYS);
    }
}
