//! Keys as the screens see them, and the words they are written with.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

/// One key press. A space is `Char(' ')`; capitals arrive as the capital letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Key {
    /// A typed character.
    Char(char),
    /// Enter or return.
    Enter,
    /// Escape.
    Esc,
    /// Takes back the character before the cursor.
    Backspace,
    /// Takes away the character under the cursor.
    Delete,
    /// Tab.
    Tab,
    /// Shift and tab.
    BackTab,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// One word to the left (ctrl or alt with arrow left, alt-b).
    WordLeft,
    /// One word to the right (ctrl or alt with arrow right, alt-f).
    WordRight,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// A function key, F1 upwards.
    F(u8),
    /// Ctrl with a character, the character in lower case. Ctrl-C arrives here, not as a signal.
    Ctrl(char),
}

/// Keys that are written with a word, and that word.
const NAMED: &[(&str, Key)] = &[
    ("space", Key::Char(' ')),
    ("enter", Key::Enter),
    ("esc", Key::Esc),
    ("backspace", Key::Backspace),
    ("delete", Key::Delete),
    ("tab", Key::Tab),
    ("shift-tab", Key::BackTab),
    ("up", Key::Up),
    ("down", Key::Down),
    ("left", Key::Left),
    ("right", Key::Right),
    ("ctrl-left", Key::WordLeft),
    ("ctrl-right", Key::WordRight),
    ("home", Key::Home),
    ("end", Key::End),
    ("pgup", Key::PageUp),
    ("pgdn", Key::PageDown),
];

impl Key {
    /// The key of a name as key tables write it: `space`, `enter`, `pgup`, `x`, `?`, `F2`,
    /// `ctrl-c`. `None` if there is no such key.
    pub fn from_name(name: &str) -> Option<Self> {
        if let Some((_, key)) = NAMED.iter().find(|(word, _)| *word == name) {
            return Some(*key);
        }
        let mut chars = name.chars();
        match (chars.next(), chars.as_str()) {
            (Some(c), "") if !c.is_control() => return Some(Self::Char(c)),
            (Some('F'), number) => {
                let n: u8 = number.parse().ok()?;
                return (1..=24).contains(&n).then_some(Self::F(n));
            }
            _ => {}
        }
        let mut rest = name.strip_prefix("ctrl-")?.chars();
        match (rest.next(), rest.as_str()) {
            (Some(c), "") if !c.is_control() && !c.is_uppercase() => Some(Self::Ctrl(c)),
            _ => None,
        }
    }

    /// The name of this key, the opposite of [`Key::from_name`].
    pub fn name(&self) -> String {
        if let Some((word, _)) = NAMED.iter().find(|(_, key)| key == self) {
            return (*word).to_owned();
        }
        match self {
            Self::Char(c) => c.to_string(),
            Self::F(n) => format!("F{n}"),
            Self::Ctrl(c) => format!("ctrl-{c}"),
            // Every other key is in the table above.
            _ => String::new(),
        }
    }

    /// The character this key types, if it types one.
    pub fn typed(&self) -> Option<char> {
        match self {
            Self::Char(c) if !c.is_control() => Some(*c),
            _ => None,
        }
    }

    /// Translates a key event of the terminal. `None` for key releases, for keys the screens have
    /// no use for, and for modifier keys alone.
    pub fn from_event(event: KeyEvent) -> Option<Self> {
        if event.kind == KeyEventKind::Release {
            return None;
        }
        let ctrl = event.modifiers.contains(KeyModifiers::CONTROL);
        let alt = event.modifiers.contains(KeyModifiers::ALT);
        Some(match event.code {
            // Ctrl and alt together is how some keyboards send their third level: a character.
            KeyCode::Char(c) => match (ctrl, alt) {
                (true, false) => Self::Ctrl(c.to_ascii_lowercase()),
                (false, true) => match c.to_ascii_lowercase() {
                    'b' => Self::WordLeft,
                    'f' => Self::WordRight,
                    _ => return None,
                },
                _ => Self::Char(c),
            },
            KeyCode::Enter => Self::Enter,
            KeyCode::Esc => Self::Esc,
            KeyCode::Backspace if alt || ctrl => Self::Ctrl('w'),
            KeyCode::Backspace => Self::Backspace,
            KeyCode::Delete => Self::Delete,
            KeyCode::Tab if event.modifiers.contains(KeyModifiers::SHIFT) => Self::BackTab,
            KeyCode::Tab => Self::Tab,
            KeyCode::BackTab => Self::BackTab,
            KeyCode::Up => Self::Up,
            KeyCode::Down => Self::Down,
            KeyCode::Left if ctrl || alt => Self::WordLeft,
            KeyCode::Left => Self::Left,
            KeyCode::Right if ctrl || alt => Self::WordRight,
            KeyCode::Right => Self::Right,
            KeyCode::Home => Self::Home,
            KeyCode::End => Self::End,
            KeyCode::PageUp => Self::PageUp,
            KeyCode::PageDown => Self::PageDown,
            KeyCode::F(n) => Self::F(n),
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyEventState;

    #[test]
    fn every_name_comes_back() {
        for (word, key) in NAMED {
            assert_eq!(Key::from_name(word), Some(*key));
            assert_eq!(key.name(), *word);
        }
        for key in [
            Key::Char('x'),
            Key::Char('?'),
            Key::Char('F'),
            Key::Char('é'),
            Key::F(2),
            Key::F(12),
            Key::Ctrl('c'),
        ] {
            assert_eq!(Key::from_name(&key.name()), Some(key));
        }
    }

    #[test]
    fn wrong_names_are_no_keys() {
        for name in [
            "", "F0", "F25", "Fx", "ctrl-", "ctrl-C", "ctrl-xy", "spce", "\n",
        ] {
            assert_eq!(Key::from_name(name), None, "{name:?}");
        }
    }

    #[test]
    fn events_become_keys() {
        let event = |code, modifiers, kind| KeyEvent {
            code,
            modifiers,
            kind,
            state: KeyEventState::NONE,
        };
        let none = KeyModifiers::NONE;
        let press = KeyEventKind::Press;
        let cases = [
            (event(KeyCode::Char('a'), none, press), Some(Key::Char('a'))),
            (
                event(KeyCode::Char('a'), none, KeyEventKind::Repeat),
                Some(Key::Char('a')),
            ),
            (event(KeyCode::Char('a'), none, KeyEventKind::Release), None),
            (
                event(KeyCode::Char('A'), KeyModifiers::SHIFT, press),
                Some(Key::Char('A')),
            ),
            (
                event(KeyCode::Char('C'), KeyModifiers::CONTROL, press),
                Some(Key::Ctrl('c')),
            ),
            (
                event(
                    KeyCode::Char('@'),
                    KeyModifiers::CONTROL | KeyModifiers::ALT,
                    press,
                ),
                Some(Key::Char('@')),
            ),
            (event(KeyCode::Char('x'), KeyModifiers::ALT, press), None),
            (
                event(KeyCode::Tab, KeyModifiers::SHIFT, press),
                Some(Key::BackTab),
            ),
            (
                event(KeyCode::Left, KeyModifiers::ALT, press),
                Some(Key::WordLeft),
            ),
            (event(KeyCode::CapsLock, none, press), None),
        ];
        for (event, key) in cases {
            assert_eq!(Key::from_event(event), key, "{event:?}");
        }
    }
}
