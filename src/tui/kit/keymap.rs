//! One table for each screen that says which key does what; the dispatch, the hint line and the
//! help page are all read from it, so they cannot disagree.

use super::draw;
use super::key::Key;
use super::table::{self, Column};

/// One row of a key table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Binding<A: 'static> {
    /// The names of the keys, the one to be shown first; see [`Key::from_name`].
    pub keys: &'static [&'static str],
    /// What they do.
    pub action: A,
    /// One or two words for the hint line; empty if it is only for the help page.
    pub hint: &'static str,
    /// A full sentence for the help page.
    pub help: &'static str,
}

/// A key table. Earlier rows come first in hint line and help.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Keymap<A: Copy + 'static>(pub &'static [Binding<A>]);

impl<A: Copy + 'static> Keymap<A> {
    /// What the key does here.
    pub fn find(&self, key: &Key) -> Option<A> {
        self.0
            .iter()
            .find(|row| {
                row.keys
                    .iter()
                    .any(|name| Key::from_name(name).as_ref() == Some(key))
            })
            .map(|row| row.action)
    }

    /// The hints for which `filter` says yes, as many whole ones as fit in `width` cells, ending
    /// in `? help` when some had to be left out.
    pub fn hint_line(&self, width: usize, filter: impl Fn(A) -> bool) -> String {
        let hints: Vec<String> = self
            .0
            .iter()
            .filter(|row| !row.hint.is_empty() && filter(row.action))
            .filter_map(|row| row.keys.first().map(|key| format!("{key} {}", row.hint)))
            .collect();
        draw::hints(&hints, width, "? help")
    }

    /// The help page's lines: keys on the left, the sentence on the right, wrapped to `width`.
    pub fn help_lines(&self, width: usize) -> Vec<String> {
        let rows: Vec<Vec<String>> = self
            .0
            .iter()
            .map(|row| vec![row.keys.join(", "), row.help.to_owned()])
            .collect();
        table::columns(&rows, &[Column::wrapped(10), Column::wrapped(20)], width)
    }

    /// Every fault of the table in words: a name that is no key, a key bound twice, a row without
    /// key or help. For tests: an empty list is a sound table.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        let mut seen = Vec::new();
        for (n, row) in self.0.iter().enumerate() {
            if row.keys.is_empty() || row.help.trim().is_empty() {
                faults.push(format!("row {} has no key or no help", n + 1));
            }
            for name in row.keys {
                match Key::from_name(name) {
                    None => faults.push(format!("{name:?} is no key")),
                    Some(key) if seen.contains(&key) => {
                        faults.push(format!("{name} is bound twice"));
                    }
                    Some(key) => seen.push(key),
                }
            }
        }
        faults
    }
}

/// Fails if the table is not sound, with everything that is wrong with it.
#[cfg(test)]
pub(crate) fn assert_sound<A: Copy + 'static>(map: &Keymap<A>) {
    let faults = map.faults();
    assert!(faults.is_empty(), "{}", faults.join("; "));
}

#[cfg(test)]
mod tests {
    use super::*;

    const MAP: Keymap<char> = Keymap(&[
        Binding {
            keys: &["space"],
            action: 't',
            hint: "tick",
            help: "Ticks the cell.",
        },
        Binding {
            keys: &["enter", "o"],
            action: 'o',
            hint: "open",
            help: "Opens the ticket.",
        },
        Binding {
            keys: &["F5"],
            action: 'r',
            hint: "",
            help: "Draws everything again.",
        },
        Binding {
            keys: &["esc"],
            action: 'b',
            hint: "back",
            help: "Goes back; nothing is lost.",
        },
    ]);

    #[test]
    fn dispatch_hints_and_help_are_one_table() {
        assert_sound(&MAP);
        assert_eq!(MAP.find(&Key::Char(' ')), Some('t'));
        assert_eq!(MAP.find(&Key::Char('o')), Some('o'));
        assert_eq!(MAP.find(&Key::F(5)), Some('r'));
        assert_eq!(MAP.find(&Key::Char('z')), None);
        assert_eq!(
            MAP.hint_line(80, |_| true),
            "space tick  enter open  esc back"
        );
        assert_eq!(MAP.hint_line(80, |a| a != 'o'), "space tick  esc back");
        assert_eq!(MAP.hint_line(20, |_| true), "space tick  ? help");
        assert_eq!(
            MAP.help_lines(30),
            [
                "space     Ticks the cell.",
                "enter, o  Opens the ticket.",
                "F5        Draws everything",
                "          again.",
                "esc       Goes back; nothing",
                "          is lost.",
            ]
        );
    }

    #[test]
    fn faults_are_found() {
        let map = Keymap(&[
            Binding {
                keys: &["x", "nokey"],
                action: 1,
                hint: "",
                help: "One.",
            },
            Binding {
                keys: &["x"],
                action: 2,
                hint: "",
                help: " ",
            },
        ]);
        assert_eq!(
            map.faults(),
            [
                "\"nokey\" is no key",
                "row 2 has no key or no help",
                "x is bound twice"
            ]
        );
    }
}
