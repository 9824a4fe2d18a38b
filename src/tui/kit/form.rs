//! A form: fields, which of them is in focus, and what keys do to them. What the words in it mean
//! is the caller's to find out, on every change, and to say with an echo or an error.

use super::field::{Field, FieldKind};
use super::key::Key;

/// What came of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormAction {
    /// Nothing to act on; perhaps the focus moved.
    None,
    /// The field in focus holds something else now. Its echo and error were taken away, since
    /// they spoke of what it held before.
    Changed,
    /// The person is done: check everything, then store it or set errors.
    Submit,
    /// The person goes back. See [`Form::is_touched`] before throwing anything away.
    Cancel,
}

/// The state of a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Form {
    /// The heading.
    pub title: String,
    /// What submitting does, one word or two for the key line: `save`, `start`.
    pub submit_word: String,
    fields: Vec<Field>,
    at: usize,
    touched: bool,
}

impl Form {
    /// A form with the first field in focus.
    pub fn new(title: &str, fields: Vec<Field>) -> Self {
        let (title, submit_word) = (title.to_owned(), "save".to_owned());
        Self {
            title,
            submit_word,
            fields,
            at: 0,
            touched: false,
        }
    }

    /// The fields in order.
    pub fn fields(&self) -> &[Field] {
        &self.fields
    }

    /// The place of the field in focus.
    pub fn at(&self) -> usize {
        self.at
    }

    /// The id of the field in focus; empty for a form without fields.
    pub fn focused(&self) -> &'static str {
        self.fields.get(self.at).map_or("", |f| f.id)
    }

    /// Something was typed, picked or ticked since the form was made.
    pub fn is_touched(&self) -> bool {
        self.touched
    }

    /// Says that all of it is stored.
    pub fn call_clean(&mut self) {
        self.touched = false;
    }

    /// Works on the form with one key.
    pub fn key(&mut self, key: &Key) -> FormAction {
        match key {
            Key::Esc => return FormAction::Cancel,
            Key::F(2) | Key::Ctrl('s') => {
                self.settle();
                return FormAction::Submit;
            }
            _ => {}
        }
        if let Some(field) = self.fields.get_mut(self.at) {
            let before = field.value();
            if field.key(key) {
                return self.after_change(&before);
            }
        }
        match key {
            Key::Enter if self.at + 1 >= self.fields.len() => {
                self.settle();
                return FormAction::Submit;
            }
            Key::Enter | Key::Down | Key::Tab => self.go(self.at + 1),
            Key::Up | Key::BackTab => self.go(self.at.saturating_sub(1)),
            Key::PageUp => self.go(0),
            Key::PageDown => self.go(self.fields.len()),
            _ => {}
        }
        FormAction::None
    }

    /// Puts pasted text into the field in focus. One that takes no text is left as it is.
    pub fn paste(&mut self, pasted: &str) -> FormAction {
        let Some(field) = self.fields.get_mut(self.at) else {
            return FormAction::None;
        };
        let before = field.value();
        if !field.paste(pasted) {
            field.error = Some("What was pasted does not go in here.".to_owned());
            return FormAction::None;
        }
        self.after_change(&before)
    }

    /// The field of that id.
    pub fn field(&self, id: &str) -> Option<&Field> {
        self.fields.iter().find(|f| f.id == id)
    }

    /// The field of that id, to be changed.
    pub fn field_mut(&mut self, id: &str) -> Option<&mut Field> {
        self.fields.iter_mut().find(|f| f.id == id)
    }

    /// What the field holds as one text, see [`Field::value`]; empty if there is no such field.
    pub fn value(&self, id: &str) -> String {
        self.field(id).map(Field::value).unwrap_or_default()
    }

    /// Puts a value in, see [`Field::set_value`]. Returns whether it could be put in.
    pub fn set(&mut self, id: &str, value: &str) -> bool {
        self.field_mut(id).is_some_and(|f| f.set_value(value))
    }

    /// The text of a text or note; empty for other kinds.
    pub fn text(&self, id: &str) -> &str {
        match self.field(id).map(|f| &f.kind) {
            Some(FieldKind::Text(line) | FieldKind::Note(line)) => line.text(),
            _ => "",
        }
    }

    /// The value picked.
    pub fn choice(&self, id: &str) -> Option<&str> {
        match self.field(id).map(|f| &f.kind) {
            Some(FieldKind::Choice(list)) => list.picked().map(|o| o.value.as_str()),
            _ => None,
        }
    }

    /// Whether the answer is yes.
    pub fn toggle(&self, id: &str) -> bool {
        matches!(
            self.field(id).map(|f| &f.kind),
            Some(FieldKind::Toggle(true))
        )
    }

    /// The values ticked, in the list's order.
    pub fn many(&self, id: &str) -> Vec<&str> {
        match self.field(id).map(|f| &f.kind) {
            Some(FieldKind::Many(list)) => list.values(),
            _ => Vec::new(),
        }
    }

    /// Says what was understood, or takes that back.
    pub fn set_echo(&mut self, id: &str, echo: Option<String>) {
        if let Some(field) = self.field_mut(id) {
            field.echo = echo;
        }
    }

    /// Says what is wrong, or takes that back.
    pub fn set_error(&mut self, id: &str, error: Option<String>) {
        if let Some(field) = self.field_mut(id) {
            field.error = error;
        }
    }

    /// Brings a field into focus. Returns whether there is one.
    pub fn focus(&mut self, id: &str) -> bool {
        let place = self.fields.iter().position(|f| f.id == id);
        if let Some(place) = place {
            self.go(place);
        }
        place.is_some()
    }

    /// The id of the first field with an error.
    pub fn first_error(&self) -> Option<&'static str> {
        self.fields.iter().find(|f| f.error.is_some()).map(|f| f.id)
    }

    /// Brings the first field with an error into focus. Returns whether there is one.
    pub fn focus_first_error(&mut self) -> bool {
        self.first_error().is_some_and(|id| self.focus(id))
    }

    /// Everything it holds, to be kept as a draft.
    pub fn draft(&self) -> Vec<(String, String)> {
        self.fields
            .iter()
            .map(|f| (f.id.to_owned(), f.value()))
            .collect()
    }

    /// Puts a draft back in. Returns the ids of what could not be put back.
    pub fn fill<'a>(&mut self, draft: &'a [(String, String)]) -> Vec<&'a str> {
        let mut lost = Vec::new();
        for (id, value) in draft {
            if !self.set(id, value) {
                lost.push(id.as_str());
            }
        }
        self.touched = true;
        lost
    }

    fn after_change(&mut self, before: &str) -> FormAction {
        match self.fields.get_mut(self.at) {
            Some(field) if field.value() != before => {
                field.echo = None;
                field.error = None;
                self.touched = true;
                FormAction::Changed
            }
            _ => FormAction::None,
        }
    }

    fn settle(&mut self) {
        if let Some(FieldKind::Choice(list)) = self.fields.get_mut(self.at).map(|f| &mut f.kind) {
            list.settle();
        }
    }

    fn go(&mut self, to: usize) {
        self.settle();
        let from = self.at;
        self.at = to.min(self.fields.len().saturating_sub(1));
        if self.at == from {
            return;
        }
        if let Some(FieldKind::Many(list)) = self.fields.get_mut(self.at).map(|f| &mut f.kind) {
            list.enter(self.at < from);
        }
    }
}

#[cfg(test)]
#[path = "form_tests.rs"]
mod tests;
