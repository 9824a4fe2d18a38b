//! A form that is open: the toolkit's form, what it is about, and what is wrong with it.

use super::FormKind;
use super::context::Context;
use super::{
    accept, client, correct_pass, hidden, job, layout_book, pass, piece, product, recipe,
    sand_back, scuff, settings, stands, touch, wipe, wipe_off,
};
use crate::desk::typed::{FieldError, field_of};
use crate::desk::{Action, DeskError, Shop};
use crate::tui::kit::Key;
use crate::tui::kit::form::{Form, FormAction};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// A form that is open.
///
/// The caller hands keys to [`OpenForm::key`] (or to the form itself, calling
/// [`OpenForm::changed`] after each), on [`FormAction::Submit`] asks [`OpenForm::submit`] for the
/// action, and gives the desk's refusal back to [`OpenForm::refused`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenForm {
    /// What it is about.
    pub kind: FormKind,
    /// The toolkit's form.
    pub form: Form,
    /// What is wrong with no field in particular, line by line; empty when nothing is.
    pub trouble: Vec<String>,
    /// Fields the person has been in and left: those whose errors show.
    left: Vec<&'static str>,
    /// The field that was in focus when last looked at.
    at: &'static str,
    /// What the desk said of a field, and what was in the field then.
    told: Vec<Told>,
    /// The product family whose figures were filled in last.
    family: String,
}

#[derive(Debug, Clone, PartialEq, Eq)]
struct Told {
    field: &'static str,
    value: String,
    message: String,
}

impl OpenForm {
    /// Opens a form, its defaults filled in and its first field in focus.
    pub fn new(kind: FormKind, shop: &Shop, now: DateTime<Utc>) -> Self {
        let ctx = Context::new(shop, now);
        let form = match &kind {
            FormKind::Client(which) => client::form(*which, &ctx),
            FormKind::Job(which, client) => job::form(*which, *client, &ctx),
            FormKind::Piece(which, job) => piece::form(*which, *job, &ctx),
            FormKind::Recipe(which, copy_of) => recipe::form(*which, *copy_of, &ctx),
            FormKind::Product(which) => product::form(*which, &ctx),
            FormKind::Settings => settings::form(&ctx),
            FormKind::Pass { pieces, kind } => pass::form(pieces, *kind, &ctx),
            FormKind::Wipe { pieces } => wipe::form(pieces, &ctx),
            FormKind::WipeOff { pieces } => wipe_off::form(pieces, &ctx),
            FormKind::Scuff { pieces } => scuff::form(pieces, &ctx),
            FormKind::Touch { pieces } => touch::form(pieces, &ctx),
            FormKind::SandBack { piece, faces } => sand_back::form(*piece, faces, &ctx),
            FormKind::Hidden { piece } => hidden::form(*piece, &ctx),
            FormKind::Accept { piece, rule, about } => accept::form(*piece, *rule, about, &ctx),
            FormKind::Stands { piece } => stands::form(*piece, &ctx),
            FormKind::Checks => layout_book::checks_form(&ctx),
            FormKind::Router => layout_book::router_form(&ctx),
            FormKind::Boards => layout_book::boards_form(&ctx),
            FormKind::CorrectPass(pass) => correct_pass::form(*pass, &ctx),
        };
        let (at, family) = (form.focused(), form.value("family"));
        let mut open = Self {
            kind,
            form,
            trouble: Vec::new(),
            left: Vec::new(),
            at,
            told: Vec::new(),
            family,
        };
        open.changed(shop, now);
        open
    }

    /// Works on the form with one key and says again what was understood.
    pub fn key(&mut self, key: &Key, shop: &Shop, now: DateTime<Utc>) -> FormAction {
        let action = self.form.key(key);
        if action == FormAction::Changed {
            self.trouble.clear();
        }
        self.changed(shop, now);
        action
    }

    /// Puts pasted text in and says again what was understood.
    pub fn paste(&mut self, pasted: &str, shop: &Shop, now: DateTime<Utc>) -> FormAction {
        let action = self.form.paste(pasted);
        // A field that takes no text says so itself; looking again would take that away.
        if action == FormAction::Changed {
            self.trouble.clear();
            self.changed(shop, now);
        }
        action
    }

    /// Says beside every field what was understood, and what is wrong with those that were left.
    /// To be called after every key, also when only the focus moved.
    pub fn changed(&mut self, shop: &Shop, now: DateTime<Utc>) {
        let ctx = Context::new(shop, now);
        let focused = self.form.focused();
        if focused != self.at {
            self.left.push(self.at);
            self.at = focused;
        }
        if matches!(self.kind, FormKind::Product(_)) {
            product::follow_family(&mut self.form, &mut self.family, &ctx);
        }
        for (id, echo) in self.echo(&ctx) {
            self.form.set_echo(id, echo);
        }
        let errors = self.read(&ctx).err().unwrap_or_default();
        let ids: Vec<&'static str> = self.form.fields().iter().map(|field| field.id).collect();
        for id in ids {
            let shown = self
                .form
                .field(id)
                .is_some_and(|field| field.error.is_some());
            // While it is being typed, a field is not found fault with.
            let tell = if id == focused {
                shown
            } else {
                self.left.contains(&id)
            };
            let found = errors.iter().find(|error| error.field == id);
            let found = found
                .map(|error| error.message.clone())
                .or_else(|| self.told(id));
            self.form.set_error(id, found.filter(|_| tell));
        }
    }

    /// The action meant; or none, the errors set at their fields and the first in focus.
    pub fn submit(&mut self, shop: &Shop, now: DateTime<Utc>) -> Option<Action> {
        self.trouble.clear();
        let ctx = Context::new(shop, now);
        match self.read(&ctx) {
            Ok(action) => Some(action),
            Err(errors) => {
                self.left = self.form.fields().iter().map(|field| field.id).collect();
                for FieldError { field, message } in errors {
                    if self.form.field(field).is_some() {
                        self.form.set_error(field, Some(message));
                    } else {
                        self.trouble.push(message);
                    }
                }
                self.form.focus_first_error();
                self.at = self.form.focused();
                None
            }
        }
    }

    /// Puts the desk's refusal at the field it belongs to, or into [`OpenForm::trouble`].
    pub fn refused(&mut self, error: &DeskError, now: DateTime<Utc>, zone: Tz) {
        self.trouble.clear();
        let mut fields: Vec<&'static str> = field_of(error).into_iter().collect();
        if matches!(error, DeskError::WrongProduct { .. }) {
            fields.extend(["product", "kind"]);
        }
        if fields == ["profile"] && self.form.choice("profile") != Some("square") {
            fields.insert(0, "profile_size");
        }
        let Some(field) = fields.into_iter().find(|id| self.form.field(id).is_some()) else {
            self.trouble = error.lines(now, zone);
            return;
        };
        let (value, message) = (self.form.value(field), error.to_string());
        self.form.set_error(field, Some(message.clone()));
        self.told.retain(|told| told.field != field);
        self.told.push(Told {
            field,
            value,
            message,
        });
        self.form.focus(field);
        self.at = self.form.focused();
    }

    /// What the desk said of a field that still holds what it held then.
    fn told(&self, id: &str) -> Option<String> {
        let told = self.told.iter().find(|told| told.field == id)?;
        (told.value == self.form.value(id)).then(|| told.message.clone())
    }

    fn read(&self, ctx: &Context<'_>) -> Result<Action, Vec<FieldError>> {
        let form = &self.form;
        match &self.kind {
            FormKind::Client(which) => client::read(form, *which, ctx),
            FormKind::Job(which, _) => job::read(form, *which, ctx),
            FormKind::Piece(which, job) => piece::read(form, *which, *job, ctx),
            FormKind::Recipe(which, _) => recipe::read(form, *which, ctx),
            FormKind::Product(which) => product::read(form, *which, ctx),
            FormKind::Settings => settings::read(form),
            FormKind::Pass { pieces, kind } => pass::read(form, pieces, *kind, ctx),
            FormKind::Wipe { pieces } => wipe::read(form, pieces, ctx),
            FormKind::WipeOff { pieces } => wipe_off::read(form, pieces, ctx),
            FormKind::Scuff { pieces } => scuff::read(form, pieces, ctx),
            FormKind::Touch { pieces } => touch::read(form, pieces, ctx),
            FormKind::SandBack { piece, .. } => sand_back::read(form, *piece, ctx),
            FormKind::Hidden { piece } => hidden::read(form, *piece),
            FormKind::Accept { piece, rule, about } => accept::read(form, *piece, *rule, about),
            FormKind::Stands { piece } => stands::read(form, *piece, ctx),
            FormKind::Checks => layout_book::checks_read(form, ctx),
            FormKind::Router => layout_book::router_read(form, ctx),
            FormKind::Boards => layout_book::boards_read(form, ctx),
            FormKind::CorrectPass(pass) => correct_pass::read(form, *pass, ctx),
        }
    }

    fn echo(&self, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
        let form = &self.form;
        match &self.kind {
            FormKind::Client(_) => client::echo(form),
            FormKind::Job(..) => job::echo(form, ctx),
            FormKind::Piece(..) => piece::echo(form, ctx),
            FormKind::Recipe(..) => recipe::echo(form),
            FormKind::Product(_) => product::echo(form, ctx),
            FormKind::Pass { pieces, kind } => pass::echo(form, pieces, *kind, ctx),
            FormKind::Wipe { pieces } => wipe::echo(form, pieces, ctx),
            FormKind::WipeOff { pieces } => wipe_off::echo(form, pieces, ctx),
            FormKind::Scuff { pieces } => scuff::echo(form, pieces, ctx),
            FormKind::Touch { pieces } => touch::echo(form, pieces, ctx),
            FormKind::SandBack { piece, .. } => sand_back::echo(form, *piece, ctx),
            FormKind::Settings
            | FormKind::Hidden { .. }
            | FormKind::Accept { .. }
            | FormKind::Stands { .. }
            | FormKind::Checks
            | FormKind::Router
            | FormKind::Boards => Vec::new(),
            FormKind::CorrectPass(pass) => correct_pass::echo(form, *pass, ctx),
        }
    }
}
