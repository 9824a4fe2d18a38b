//! Which row of a list is picked, by what it stands for rather than by its place.

use super::super::kit::keymap::Keymap;

/// One step through a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    Up,
    Down,
    PageUp,
    PageDown,
    Home,
    End,
}

/// Rows a page step goes: about what the smallest screen shows at once.
const PAGE: usize = 8;

/// The row picked. It follows its thing when rows come and go; if the thing itself has gone, the
/// row that took its place is picked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Picked<K> {
    key: Option<K>,
    /// Where it stood last.
    at: usize,
    /// The rows as last seen.
    known: Vec<K>,
    /// A new row was asked for: pick it when it comes.
    awaits: bool,
}

impl<K> Default for Picked<K> {
    fn default() -> Self {
        Self {
            key: None,
            at: 0,
            known: Vec::new(),
            awaits: false,
        }
    }
}

impl<K: Copy + PartialEq> Picked<K> {
    /// The place of the row picked among these, if there are any.
    pub fn index(&self, keys: &[K]) -> Option<usize> {
        let last = keys.len().checked_sub(1)?;
        let found = self.key.and_then(|key| keys.iter().position(|k| *k == key));
        Some(found.unwrap_or(self.at.min(last)))
    }

    /// What is picked.
    pub fn get(&self, keys: &[K]) -> Option<K> {
        self.index(keys).and_then(|i| keys.get(i).copied())
    }

    /// Picks this one.
    pub fn pick(&mut self, key: K, keys: &[K]) {
        self.key = Some(key);
        self.at = keys.iter().position(|k| *k == key).unwrap_or(self.at);
    }

    /// Back to the first row.
    pub fn pick_first(&mut self) {
        self.key = None;
        self.at = 0;
    }

    /// Goes a step.
    pub fn step(&mut self, step: Step, keys: &[K]) {
        let (Some(i), Some(last)) = (self.index(keys), keys.len().checked_sub(1)) else {
            return;
        };
        let to = match step {
            Step::Up => i.saturating_sub(1),
            Step::Down => i + 1,
            Step::PageUp => i.saturating_sub(PAGE),
            Step::PageDown => i + PAGE,
            Step::Home => 0,
            Step::End => last,
        };
        self.pick(keys[to.min(last)], keys);
    }

    /// A form for a new thing was asked for: what comes of it, and of the forms that follow it, is
    /// to be picked.
    pub fn await_new(&mut self) {
        self.awaits = true;
    }

    /// The person is back at the list: what comes now comes from elsewhere.
    pub fn stop_awaiting(&mut self) {
        self.awaits = false;
    }

    /// The rows were read anew. Returns the row that came and was waited for. An empty list waits
    /// for its first row.
    pub fn settle(&mut self, keys: &[K]) -> Option<K> {
        let fresh = keys.iter().copied().find(|key| !self.known.contains(key));
        let came = fresh.filter(|_| self.awaits);
        if let Some(key) = came {
            self.pick(key, keys);
        } else if let Some(i) = self.index(keys) {
            self.pick(keys[i], keys);
        }
        self.awaits |= keys.is_empty();
        self.known = keys.to_vec();
        came
    }
}

/// A key table with the steps through a list around the screen's own rows: arrows first.
macro_rules! list_keys {
    ($act:ident: $($row:expr),+ $(,)?) => {{
        use $crate::tui::kit::keymap::{Binding, Keymap};
        use $crate::tui::screens::picked::Step;
        const fn go(key: &'static [&'static str], step: Step, help: &'static str) -> Binding<$act> {
            Binding { keys: key, action: $act::Go(step), hint: "", help }
        }
        Keymap(&[
            go(&["up"], Step::Up, "Goes one row up."),
            go(&["down"], Step::Down, "Goes one row down."),
            $($row,)+
            go(&["pgup"], Step::PageUp, "Goes up by a page."),
            go(&["pgdn"], Step::PageDown, "Goes down by a page."),
            go(&["home"], Step::Home, "Goes to the first row."),
            go(&["end"], Step::End, "Goes to the last row."),
        ])
    }};
}
pub(super) use list_keys;

/// The help page of a screen: what it is for, its keys, and what else is to be known.
pub(super) fn help<A: Copy>(
    about: &str,
    keys: &Keymap<A>,
    more: &str,
    width: usize,
) -> Vec<String> {
    let mut lines = super::super::kit::text::wrap(about, width);
    lines.push(String::new());
    lines.extend(keys.help_lines(width));
    if !more.is_empty() {
        lines.push(String::new());
        lines.extend(super::super::kit::text::wrap(more, width));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn follows_its_thing_and_else_keeps_its_place() {
        let mut picked = Picked::default();
        picked.settle(&['a', 'b', 'c']);
        picked.step(Step::Down, &['a', 'b', 'c']);
        assert_eq!(picked.get(&['a', 'b', 'c']), Some('b'));
        assert_eq!(picked.get(&['x', 'y', 'b']), Some('b'));
        picked.settle(&['a', 'c']);
        assert_eq!(picked.get(&['a', 'c']), Some('c'));
        picked.settle(&[]);
        assert_eq!(picked.get(&[]), None);
        picked.settle(&['z']);
        assert_eq!(picked.get(&['z']), Some('z'));
    }

    #[test]
    fn steps_stay_in_the_list() {
        let rows: Vec<u32> = (0..20).collect();
        let mut picked = Picked::default();
        let mut at = |step| {
            picked.step(step, &rows);
            picked.index(&rows)
        };
        assert_eq!(at(Step::Up), Some(0));
        assert_eq!(at(Step::PageDown), Some(8));
        assert_eq!(at(Step::End), Some(19));
        assert_eq!(at(Step::Down), Some(19));
        assert_eq!(at(Step::PageUp), Some(11));
        assert_eq!(at(Step::Home), Some(0));
    }

    #[test]
    fn a_new_row_is_picked_only_when_it_was_asked_for() {
        let mut picked = Picked::default();
        picked.settle(&[1, 2]);
        picked.settle(&[1, 2, 3]);
        assert_eq!(picked.get(&[1, 2, 3]), Some(1));
        picked.await_new();
        assert_eq!(picked.settle(&[1, 2, 3]), None);
        assert_eq!(picked.settle(&[0, 1, 2, 3]), Some(0));
        assert_eq!(picked.settle(&[0, 1, 2, 3, 4]), Some(4));
        picked.stop_awaiting();
        assert_eq!(picked.settle(&[0, 1, 2, 3, 4, 5]), None);
        assert_eq!(picked.get(&[0, 1, 2, 3, 4, 5]), Some(4));
    }

    #[test]
    fn an_empty_list_waits_for_its_first_row() {
        let mut picked = Picked::default();
        picked.settle(&[]);
        assert_eq!(picked.settle(&['b']), Some('b'));
        assert_eq!(
            picked.settle(&['a', 'b']),
            Some('a'),
            "made from the forms that follow"
        );
    }
}
