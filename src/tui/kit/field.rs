//! One field of a form: what it asks, what is in it, what was understood, what is wrong.

use super::key::Key;
use super::line_edit::LineEdit;
use super::options::{Choice, PickOne, TickMany};

/// What a field holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FieldKind {
    /// A line of text: a name, a size, a date.
    Text(LineEdit),
    /// Text of any length, still one line; shown in full when not in focus.
    Note(LineEdit),
    /// One of several.
    Choice(PickOne),
    /// Yes or no.
    Toggle(bool),
    /// Any of several.
    Many(TickMany),
    /// Lines to read, nothing to type; each with whether it is to be minded.
    Told(Vec<(String, bool)>),
}

/// One field of a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// What code calls it by; unique in its form.
    pub id: &'static str,
    /// What the screen calls it.
    pub label: String,
    /// What it holds.
    pub kind: FieldKind,
    /// What can be said here, shown while it is in focus; may be empty.
    pub hint: String,
    /// What was understood of what was typed.
    pub echo: Option<String>,
    /// What is wrong with it.
    pub error: Option<String>,
}

impl Field {
    fn new(id: &'static str, label: &str, kind: FieldKind) -> Self {
        Self {
            id,
            label: label.to_owned(),
            kind,
            hint: String::new(),
            echo: None,
            error: None,
        }
    }

    /// A line of text, `start` already in it.
    pub fn text(id: &'static str, label: &str, start: &str) -> Self {
        Self::new(id, label, FieldKind::Text(LineEdit::new(start)))
    }

    /// A text of any length, `start` already in it.
    pub fn note(id: &'static str, label: &str, start: &str) -> Self {
        Self::new(id, label, FieldKind::Note(LineEdit::new(start)))
    }

    /// One of several, the one of value `start` picked if there is one.
    pub fn choice(id: &'static str, label: &str, options: Vec<Choice>, start: &str) -> Self {
        let mut list = PickOne::new(options);
        list.pick(start);
        Self::new(id, label, FieldKind::Choice(list))
    }

    /// Yes or no.
    pub fn toggle(id: &'static str, label: &str, on: bool) -> Self {
        Self::new(id, label, FieldKind::Toggle(on))
    }

    /// Any of several, those of the values `ticked` ticked.
    pub fn many(id: &'static str, label: &str, options: Vec<Choice>, ticked: &[&str]) -> Self {
        let mut list = TickMany::new(options);
        list.tick(ticked);
        Self::new(id, label, FieldKind::Many(list))
    }

    /// Lines to read, which the caller fills in with [`Field::tell`].
    pub fn told(id: &'static str, label: &str) -> Self {
        Self::new(id, label, FieldKind::Told(Vec::new()))
    }

    /// Puts lines into a field that only tells; any other is left as it is.
    pub fn tell(&mut self, lines: Vec<(String, bool)>) {
        if let FieldKind::Told(told) = &mut self.kind {
            *told = lines;
        }
    }

    /// The same field with a hint.
    #[must_use]
    pub fn hint(mut self, hint: &str) -> Self {
        hint.clone_into(&mut self.hint);
        self
    }

    /// What it holds as one text, for a draft: the text, the value picked, `yes` or `no`, the
    /// values ticked one a line.
    pub fn value(&self) -> String {
        match &self.kind {
            FieldKind::Text(line) | FieldKind::Note(line) => line.text().to_owned(),
            FieldKind::Choice(list) => list.picked().map(|o| o.value.clone()).unwrap_or_default(),
            FieldKind::Toggle(on) => if *on { "yes" } else { "no" }.to_owned(),
            FieldKind::Many(list) => list.values().join("\n"),
            FieldKind::Told(_) => String::new(),
        }
    }

    /// Puts in what [`Field::value`] gave. Returns whether all of it could be put in: a value
    /// that is no option (any more) is left out.
    pub fn set_value(&mut self, value: &str) -> bool {
        match &mut self.kind {
            FieldKind::Text(line) | FieldKind::Note(line) => line.set(value),
            FieldKind::Choice(list) => return list.pick(value),
            FieldKind::Toggle(on) => match value {
                "yes" => *on = true,
                "no" => *on = false,
                _ => return false,
            },
            FieldKind::Many(list) => {
                return list.tick(&value.lines().collect::<Vec<_>>());
            }
            FieldKind::Told(_) => {}
        }
        true
    }

    /// Works on what it holds with one key; returns whether the key was one of the field's.
    pub fn key(&mut self, key: &Key) -> bool {
        match &mut self.kind {
            FieldKind::Text(line) | FieldKind::Note(line) => line.edit(key),
            FieldKind::Choice(list) => list.key(key),
            FieldKind::Many(list) => list.key(key),
            FieldKind::Told(_) => false,
            FieldKind::Toggle(on) => {
                *on = match key {
                    Key::Char(' ') | Key::Left | Key::Right => !*on,
                    Key::Char('y' | 'Y') => true,
                    Key::Char('n' | 'N') => false,
                    _ => return false,
                };
                true
            }
        }
    }

    /// Takes pasted text where text belongs. Returns whether it was taken.
    pub fn paste(&mut self, pasted: &str) -> bool {
        match &mut self.kind {
            FieldKind::Text(line) | FieldKind::Note(line) => line.paste(pasted),
            FieldKind::Choice(list) => {
                list.narrow(pasted.trim());
                true
            }
            FieldKind::Toggle(_) | FieldKind::Many(_) | FieldKind::Told(_) => false,
        }
    }
}
