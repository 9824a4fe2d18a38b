//! Lists inside a form: one to pick from with type-ahead, one to tick.

use super::key::Key;
use super::text;

/// One thing to pick or tick.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// What it is called by in code and in a kept draft.
    pub value: String,
    /// What it is called on the screen.
    pub label: String,
}

impl Choice {
    /// A choice of that value and label.
    pub fn new(value: impl Into<String>, label: impl Into<String>) -> Self {
        Self {
            value: value.into(),
            label: label.into(),
        }
    }
}

/// How well a label answers what was typed: 0 begins with it, 1 has a word that begins with it,
/// 2 has all its words somewhere; `None` does not match. Case does not count.
pub fn rank(label: &str, typed: &str) -> Option<u8> {
    let (label, typed) = (label.to_lowercase(), typed.trim().to_lowercase());
    if label.starts_with(&typed) {
        return Some(0);
    }
    if label
        .split_whitespace()
        .any(|word| word.starts_with(&typed))
    {
        return Some(1);
    }
    typed
        .split_whitespace()
        .all(|word| label.contains(word))
        .then_some(2)
}

/// The places in `labels` that match what was typed, best first, in their own order otherwise.
pub fn matching<'a>(labels: impl Iterator<Item = &'a str>, typed: &str) -> Vec<usize> {
    let mut found: Vec<(u8, usize)> = labels
        .enumerate()
        .filter_map(|(i, label)| Some((rank(label, typed)?, i)))
        .collect();
    found.sort_unstable();
    found.into_iter().map(|(_, i)| i).collect()
}

/// Picks one of several: arrows left and right step, typing narrows to what matches.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PickOne {
    options: Vec<Choice>,
    picked: Option<usize>,
    typed: String,
    /// What was picked when typing began, to come back to when it is taken back.
    before: Option<usize>,
}

impl PickOne {
    /// A list with nothing picked yet.
    pub fn new(options: Vec<Choice>) -> Self {
        Self {
            options,
            ..Self::default()
        }
    }

    /// The options.
    pub fn options(&self) -> &[Choice] {
        &self.options
    }

    /// The option picked.
    pub fn picked(&self) -> Option<&Choice> {
        self.options.get(self.picked?)
    }

    /// What was typed to narrow the list.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The options that match what was typed, best first, and the place of the picked one there.
    pub fn shown(&self) -> (Vec<&Choice>, Option<usize>) {
        let places = self.places();
        let at = places.iter().position(|i| Some(*i) == self.picked);
        (
            places
                .into_iter()
                .filter_map(|i| self.options.get(i))
                .collect(),
            at,
        )
    }

    /// Picks the option of that value; an empty value picks none. Returns whether there is one.
    pub fn pick(&mut self, value: &str) -> bool {
        let place = self.options.iter().position(|o| o.value == value);
        if place.is_none() && !value.is_empty() {
            return false;
        }
        self.picked = place;
        self.typed.clear();
        true
    }

    /// Works on the list with one key; returns whether the key was one of the list's.
    pub fn key(&mut self, key: &Key) -> bool {
        match key {
            Key::Left => self.step(false),
            Key::Right => self.step(true),
            // With nothing typed the big key steps; inside a typed text it is a space.
            Key::Char(' ') if self.typed.is_empty() => self.step(true),
            Key::Char(c) if !c.is_control() => self.narrow(&c.to_string()),
            Key::Backspace if self.typed.is_empty() => {}
            Key::Backspace => {
                let last = text::graphemes(&self.typed).next_back().map_or(0, str::len);
                self.typed.truncate(self.typed.len() - last);
                self.follow_typed();
            }
            Key::Delete | Key::Ctrl('u') => {
                self.typed.clear();
                self.picked = None;
            }
            _ => return false,
        }
        true
    }

    /// Narrows the list by typed or pasted text.
    pub fn narrow(&mut self, typed: &str) {
        if self.typed.is_empty() {
            self.before = self.picked;
        }
        self.typed.push_str(&text::one_line(typed));
        self.follow_typed();
    }

    /// Ends type-ahead when the field is left: what was typed has done its work, unless it
    /// matched nothing and must stay to be seen.
    pub fn settle(&mut self) {
        if self.picked.is_some() {
            self.typed.clear();
        }
    }

    fn places(&self) -> Vec<usize> {
        matching(self.options.iter().map(|o| o.label.as_str()), &self.typed)
    }

    fn follow_typed(&mut self) {
        self.picked = if self.typed.is_empty() {
            self.before
        } else {
            self.places().first().copied()
        };
    }

    fn step(&mut self, forward: bool) {
        let places = self.places();
        let at = places.iter().position(|i| Some(*i) == self.picked);
        let last = places.len().saturating_sub(1);
        let to = match (at, forward) {
            (None, true) => 0,
            (None, false) => last,
            (Some(at), true) => (at + 1).min(last),
            (Some(at), false) => at.saturating_sub(1),
        };
        self.picked = places.get(to).copied().or(self.picked);
    }
}

/// Ticks any of several.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TickMany {
    options: Vec<Choice>,
    ticked: Vec<bool>,
    at: usize,
}

impl TickMany {
    /// A list with nothing ticked.
    pub fn new(options: Vec<Choice>) -> Self {
        Self {
            ticked: vec![false; options.len()],
            options,
            at: 0,
        }
    }

    /// The options, each with whether it is ticked.
    pub fn rows(&self) -> impl ExactSizeIterator<Item = (&Choice, bool)> {
        self.options.iter().zip(self.ticked.iter().copied())
    }

    /// The row in focus.
    pub fn at(&self) -> usize {
        self.at
    }

    /// The values that are ticked, in the list's order.
    pub fn values(&self) -> Vec<&str> {
        self.rows()
            .filter(|(_, on)| *on)
            .map(|(o, _)| o.value.as_str())
            .collect()
    }

    /// Ticks exactly these values. Returns whether all of them exist; those that do are ticked.
    pub fn tick<S: AsRef<str>>(&mut self, values: &[S]) -> bool {
        let wanted = |o: &Choice| values.iter().any(|v| v.as_ref() == o.value);
        self.ticked = self.options.iter().map(wanted).collect();
        values
            .iter()
            .all(|v| self.options.iter().any(|o| o.value == v.as_ref()))
    }

    /// Works on the list with one key; returns whether the key was one of the list's. Arrow up in
    /// the first row and arrow down in the last are not: they leave the list.
    pub fn key(&mut self, key: &Key) -> bool {
        match key {
            Key::Up if self.at > 0 => self.at -= 1,
            Key::Down if self.at + 1 < self.options.len() => self.at += 1,
            Key::Home => self.at = 0,
            Key::End => self.at = self.options.len().saturating_sub(1),
            Key::Char(' ') => {
                if let Some(on) = self.ticked.get_mut(self.at) {
                    *on = !*on;
                }
            }
            Key::Char('*') => {
                let all = self.ticked.iter().all(|on| *on);
                self.ticked.fill(!all);
            }
            Key::Char(c) if !c.is_control() => self.jump(*c),
            _ => return false,
        }
        true
    }

    /// Comes to the list from above or from below.
    pub fn enter(&mut self, from_below: bool) {
        self.at = if from_below {
            self.options.len().saturating_sub(1)
        } else {
            0
        };
    }

    /// Goes to the next row that begins with that letter.
    fn jump(&mut self, c: char) {
        let letter = c.to_lowercase().to_string();
        let len = self.options.len();
        let next = (1..=len).map(|n| (self.at + n) % len).find(|i| {
            self.options
                .get(*i)
                .is_some_and(|o| o.label.to_lowercase().starts_with(&letter))
        });
        self.at = next.unwrap_or(self.at);
    }
}
