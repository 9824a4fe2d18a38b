//! Forms, tickets and answers over the screen: opened, left, and how an action ended.

use super::app::{App, Effect, Layer, Said};
use super::forms::{FormKind, LoggerRefused, OpenForm};
use super::kit::form::FormAction;
use super::kit::key::Key;
use super::kit::pager::Pager;
use super::screens::ticket::TicketScreen;
use super::screens::wood::WoodScreen;
use crate::coating::LoggerReport;
use crate::desk::{Action, AirImport, DeskError, Done, Made, Which};
use crate::shop::PieceId;

/// Said of a form that was left and keeps what was typed.
const KEPT: &str = "Not saved. What you typed is kept until you leave tackfree, and comes back when you \
                    open this form again.";
/// Said of a form that was left and does not.
const DROPPED: &str = "Not logged. What you typed here is dropped.";

impl App {
    pub(super) fn open_ticket(&mut self, piece: PieceId) {
        self.layers
            .push(Layer::Ticket(Box::new(TicketScreen::new(piece))));
        self.settle();
    }

    pub(super) fn open_wood(&mut self, piece: PieceId) {
        self.layers
            .push(Layer::Wood(Box::new(WoodScreen::new(piece))));
        self.settle();
    }

    pub(super) fn open_woods(&mut self) {
        self.layers.push(Layer::Woods(Box::default()));
        self.settle();
    }

    pub(super) fn open_form(&mut self, kind: FormKind) {
        let draft = self.drafts.iter().position(|(of, _)| *of == kind);
        let mut open = OpenForm::new(kind, &self.shop, self.now);
        if let Some(at) = draft {
            let (_, draft) = self.drafts.remove(at);
            open.form.fill(&draft);
            open.changed(&self.shop, self.now);
            "What you had typed here is back.".clone_into(&mut self.said.words);
        }
        self.layers.push(Layer::Form(Box::new(open)));
    }

    /// Leaves the topmost form. What was typed of a client, job, piece, recipe or product is kept
    /// while the program runs; a form that logs work is begun anew each time, so that faces and
    /// times of another moment are never logged by mistake.
    pub(super) fn leave_form(&mut self) {
        let Some(Layer::Form(open)) = self.layers.pop() else {
            return;
        };
        if !open.form.is_touched() {
            return;
        }
        let keeps = matches!(
            open.kind,
            FormKind::Client(_)
                | FormKind::Job(..)
                | FormKind::Piece(..)
                | FormKind::Recipe(..)
                | FormKind::Product(_)
                | FormKind::Settings
                | FormKind::Site(_)
                | FormKind::OwnWood(_)
        );
        if keeps {
            self.drafts.retain(|(kind, _)| *kind != open.kind);
            self.drafts.push((open.kind.clone(), open.form.draft()));
            KEPT.clone_into(&mut self.said.words);
        } else {
            DROPPED.clone_into(&mut self.said.words);
        }
    }

    /// Words about a form that was left say nothing of what is done next.
    pub(super) fn put_away_what_passed(&mut self) {
        if [KEPT, DROPPED].contains(&self.said.words.as_str()) {
            self.said.words.clear();
        }
    }

    pub(super) fn form_key(&mut self, key: &Key) -> Vec<Effect> {
        let Some(Layer::Form(open)) = self.layers.last_mut() else {
            return Vec::new();
        };
        match open.key(key, &self.shop, self.now) {
            FormAction::None | FormAction::Changed => Vec::new(),
            FormAction::Submit => {
                if let Some((file, answers)) = open.logger_file() {
                    return vec![Effect::ReadLogger(file, answers)];
                }
                if let Some(lines) = open.later(&self.shop, self.now) {
                    let title = open.form.title.clone();
                    self.layers.pop();
                    self.layers.push(Layer::Read(title, Pager::new(lines)));
                    return Vec::new();
                }
                if let Some(action) = open.submit(&self.shop, self.now) {
                    self.submitted = true;
                    return vec![Effect::Act(Box::new(action))];
                }
                let trouble = open.trouble.clone();
                self.tell(trouble);
                Vec::new()
            }
            FormAction::Cancel => {
                self.leave_form();
                Vec::new()
            }
        }
    }

    /// What came of reading a logger's file: readings for the desk to take, or what to ask.
    pub fn logger_read(
        &mut self,
        file: &str,
        read: Result<LoggerReport, LoggerRefused>,
    ) -> Vec<Effect> {
        match (read, self.layers.last_mut()) {
            (Ok(report), _) => {
                self.submitted = true;
                let file = file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned();
                vec![Effect::Act(Box::new(Action::ImportAir(AirImport {
                    file,
                    report,
                })))]
            }
            (Err(refused), Some(Layer::Form(open))) => {
                open.logger_refused(&refused);
                Vec::new()
            }
            (Err(_), _) => Vec::new(),
        }
    }

    /// Lays lines over the screen, if there are any.
    pub(super) fn tell(&mut self, lines: Vec<String>) {
        if !lines.is_empty() {
            self.layers.push(Layer::Tell(Pager::new(lines)));
        }
    }

    /// Files were written there, or why not.
    pub fn written(&mut self, result: Result<String, String>) {
        match result {
            Ok(folder) => self.said.words = format!("Wrote {folder}"),
            Err(why) => self.tell(vec![why]),
        }
    }

    /// How an action ended.
    pub fn ended(&mut self, result: Result<Done, DeskError>) {
        let from_form = std::mem::take(&mut self.submitted);
        match result {
            Ok(done) => {
                let form = if from_form { self.layers.pop() } else { None };
                let made = done.made;
                self.said = Said {
                    words: done.words,
                    notes: done.notes,
                };
                self.waiting = self.not_yet();
                self.due.retain(|piece| !self.waiting.contains(piece));
                if form.is_some() {
                    self.lead_on(made);
                }
            }
            Err(error) => {
                let (zone, now) = (self.shop.settings.zone, self.now);
                let lines = match self.layers.last_mut() {
                    Some(Layer::Form(open)) if from_form => {
                        open.refused(&error, now, zone);
                        open.trouble.clone()
                    }
                    _ => error.lines(now, zone),
                };
                self.tell(lines);
            }
        }
    }

    /// After the first client comes the first job, after it the first piece, then its ticket.
    fn lead_on(&mut self, made: Made) {
        match made {
            Made::Client(client) if !self.shop.jobs.iter().any(|job| job.client == client) => {
                self.open_form(FormKind::Job(Which::New, Some(client)));
            }
            Made::Job(job) if !self.shop.files.iter().any(|file| file.piece.job == job) => {
                self.open_form(FormKind::Piece(Which::New, Some(job)));
            }
            Made::Piece(piece) => {
                self.bench.focus_on(piece);
                let fresh = self
                    .shop
                    .file(piece)
                    .is_some_and(|file| file.events.is_empty());
                if fresh
                    && !self
                        .layers
                        .iter()
                        .any(|layer| matches!(layer, Layer::Ticket(_)))
                {
                    self.open_ticket(piece);
                }
            }
            _ => {}
        }
    }
}
