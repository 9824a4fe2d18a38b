//! A form that is open: the toolkit's form, what it is about, and what is wrong with it.

use super::FormKind;
use super::context::Context;
use super::{
    accept, air, air_import, client, correct_pass, day, fasten, forecast, hidden, job, later,
    layout_book, moisture, own_wood, pass, pass_checks, piece, product, recipe, retime, sand_back,
    scuff, settings, site, stands, touch, wipe::Wipe,
};
use crate::coating::{LoggerAnswers, LoggerQuestion};
use crate::desk::typed::{FieldError, field_of};
use crate::desk::{Action, DeskError, Shop};
use crate::shop::Caution;
use crate::tui::kit::Key;
use crate::tui::kit::form::{Form, FormAction};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// Why a logger's file was not brought in.
#[derive(Debug, Clone, PartialEq)]
pub enum LoggerRefused {
    /// Something must be answered first.
    Asks(LoggerQuestion),
    /// It cannot be read.
    Unread(String),
}

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
    /// What says that a pass had better wait, as it was shown.
    seen: Vec<String>,
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
            FormKind::Wipe { pieces } => Wipe::Down.form(pieces, &ctx),
            FormKind::WipeOff { pieces } => Wipe::Off.form(pieces, &ctx),
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
            FormKind::Air(which) => air::form(*which, &ctx),
            FormKind::AirImport => air_import::form(),
            FormKind::Forecast => forecast::form(),
            FormKind::Later(product) => later::form(*product, &ctx),
            FormKind::Retime(piece, line) => retime::form(*piece, *line, &ctx),
            FormKind::Chore(day, chore) => day::chore_form(*day, *chore, &ctx),
            FormKind::CloseDay(day) => day::close_form(*day, &ctx),
            FormKind::Moisture(which, piece) => moisture::form(*which, *piece, &ctx),
            FormKind::Site(job) => site::form(*job, &ctx),
            FormKind::Fasten(piece) => fasten::form(*piece, &ctx),
            FormKind::OwnWood(which) => own_wood::form(*which, &ctx),
            FormKind::Steady => own_wood::rule_form(&ctx),
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
            seen: Vec::new(),
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
        if let FormKind::Pass { pieces, kind } = &self.kind {
            pass_checks::show(&mut self.form, pieces, *kind, &ctx);
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
            Ok(_) if self.looks_first(&ctx) => None,
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

    /// The logger's file meant and the answers about it, where this is that form and it is whole.
    pub fn logger_file(&self) -> Option<(String, LoggerAnswers)> {
        match self.kind {
            FormKind::AirImport => air_import::read(&self.form).ok(),
            _ => None,
        }
    }

    /// What a coat would do if it went on later, where this is that form and it is whole.
    pub fn later(&self, shop: &Shop, now: DateTime<Utc>) -> Option<Vec<String>> {
        match self.kind {
            FormKind::Later(_) => later::read(&self.form, &Context::new(shop, now)).ok(),
            _ => None,
        }
    }

    /// Puts what a logger's file asks, or why it cannot be read, at the field that answers it.
    pub fn logger_refused(&mut self, refused: &LoggerRefused) {
        let (field, message) = match refused {
            LoggerRefused::Asks(question) => (air_import::field_of(question), question.words()),
            LoggerRefused::Unread(why) => ("file", why.clone()),
        };
        self.form.set_error(field, Some(message.clone()));
        self.told.push(Told {
            field,
            value: self.form.value(field),
            message,
        });
        self.form.focus(field);
        self.at = self.form.focused();
    }

    /// A pass that had better wait is looked at once before it is logged: the checks come into
    /// focus. Whether they did.
    fn looks_first(&mut self, ctx: &Context<'_>) -> bool {
        let FormKind::Pass { pieces, kind } = &self.kind else {
            return false;
        };
        let holds = pass_checks::holds(&self.form, pieces, *kind, ctx);
        let looking = self.form.focused() == pass_checks::FIELD;
        if looking || holds.iter().all(|hold| self.seen.contains(hold)) {
            return false;
        }
        self.seen = holds;
        self.form.focus(pass_checks::FIELD);
        self.at = self.form.focused();
        let message = "Look at this first; the same key again logs the pass as it is.";
        self.form
            .set_error(pass_checks::FIELD, Some(message.to_owned()));
        true
    }

    /// The cautions of the pass that is being typed: they go by the product picked.
    pub fn pass_cautions(&self, shop: &Shop, now: DateTime<Utc>) -> Vec<Caution> {
        match &self.kind {
            FormKind::Pass { pieces, kind } => {
                pass_checks::cautions(&self.form, pieces, *kind, &Context::new(shop, now))
            }
            _ => Vec::new(),
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
            FormKind::Wipe { pieces } => Wipe::Down.read(form, pieces, ctx),
            FormKind::WipeOff { pieces } => Wipe::Off.read(form, pieces, ctx),
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
            FormKind::Air(which) => air::read(form, *which, ctx),
            FormKind::Forecast => forecast::read(form, ctx),
            // The file is read outside; what is wrong with the form itself is told here.
            FormKind::AirImport => Err(air_import::read(form).err().unwrap_or_default()),
            FormKind::Later(_) => Err(later::read(form, ctx).err().unwrap_or_default()),
            FormKind::Retime(piece, line) => retime::read(form, *piece, *line, ctx),
            FormKind::Chore(day, chore) => day::read_chore_form(form, (*day, *chore), ctx),
            FormKind::CloseDay(day) => day::read_close(form, *day),
            FormKind::Moisture(which, piece) => moisture::read(form, *which, *piece, ctx),
            FormKind::Site(job) => site::read(form, *job, ctx),
            FormKind::Fasten(piece) => fasten::read(form, *piece, ctx),
            FormKind::OwnWood(which) => own_wood::read(form, *which),
            FormKind::Steady => own_wood::read_rule_form(form),
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
            FormKind::Wipe { pieces } => Wipe::Down.echo(form, pieces, ctx),
            FormKind::WipeOff { pieces } => Wipe::Off.echo(form, pieces, ctx),
            FormKind::Scuff { pieces } => scuff::echo(form, pieces, ctx),
            FormKind::Touch { pieces } => touch::echo(form, pieces, ctx),
            FormKind::SandBack { piece, .. } => sand_back::echo(form, *piece, ctx),
            FormKind::Air(_) => air::echo(form, ctx),
            FormKind::Forecast => forecast::echo(form, ctx),
            FormKind::Later(_) => later::echo(form, ctx),
            FormKind::Retime(..) => retime::echo(form, ctx),
            FormKind::Chore(..) => day::echo_chore(form, ctx),
            FormKind::Moisture(which, piece) => moisture::echo(form, *which, *piece, ctx),
            FormKind::Site(_) => site::echo(form, ctx),
            FormKind::Fasten(piece) => fasten::echo(form, *piece, ctx),
            FormKind::Settings
            | FormKind::AirImport
            | FormKind::CloseDay(_)
            | FormKind::OwnWood(_)
            | FormKind::Steady
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
