//! The app around the screens: which is open, what was said last, what a key means before any
//! screen sees it. `update` is pure: it changes this state and says what is to be done outside.

use super::forms::FormKind;
use super::kit::key::Key;
use super::kit::pager::Pager;
use super::kit::theme::Theme;
pub use super::layer::Layer;
use super::screen::{Ctx, Place, Screen, Wish};
use super::screens::air::Air;
use super::screens::bench::Bench;
use super::screens::day_end::DayEndScreen;
use super::screens::drawing::DrawingScreen;
use super::screens::job_book::JobBook;
use super::screens::journal::Journal;
use super::screens::rack::Rack;
use super::screens::recipes::Recipes;
use super::screens::shelf::Shelf;
use crate::coating::{LoggerAnswers, ShopAirClock};
use crate::desk::{Action, JournalLine, Shop, Which};
use crate::shop::PieceId;
use chrono::{DateTime, Utc};

/// What is to be done outside the state.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Do this action and tell the app how it ended.
    Act(Box<Action>),
    /// Read this logger's file with these answers, and tell the app what came of it.
    ReadLogger(String, LoggerAnswers),
    /// Write these files into a new folder of this name and tell the app where.
    Papers(String, Vec<(String, String)>),
    /// Ring the bell.
    Ring,
    /// Draw everything anew.
    Redraw,
    /// Leave.
    Quit,
}

/// What was said last.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Said {
    /// What was done.
    pub words: String,
    /// What to mind; gone with the next key.
    pub notes: Vec<String>,
}

/// The state of the screen.
pub struct App {
    /// The shop as last read.
    pub shop: Shop,
    /// The newest lines of the journal.
    pub journal: Vec<JournalLine>,
    /// The moment.
    pub now: DateTime<Utc>,
    /// The styles.
    pub theme: Theme,
    /// The shop's drying clock, made anew whenever the shop is read.
    pub clock: ShopAirClock,
    /// Which screen is open.
    pub place: Place,
    /// The Bench.
    pub bench: Bench,
    /// The Rack.
    pub rack: Rack,
    /// The Shelf.
    pub shelf: Shelf,
    /// The Job book.
    pub job_book: JobBook,
    /// The recipes.
    pub recipes: Recipes,
    /// The journal.
    pub journal_screen: Journal,
    /// The shop's air.
    pub air: Air,
    /// The day's end.
    pub day_end: DayEndScreen,
    /// What lies over the screen, the topmost last.
    pub layers: Vec<Layer>,
    /// What was said last.
    pub said: Said,
    /// Pieces that came due since they were last acknowledged.
    pub due: Vec<PieceId>,
    /// Pieces that were waiting when last looked at.
    pub(super) waiting: Vec<PieceId>,
    /// Whether the topmost form's action is under way.
    pub(super) submitted: bool,
    /// What was typed into forms that were left without saving.
    pub(super) drafts: Vec<(FormKind, Vec<(String, String)>)>,
    /// Whether the key before was one to leave, held back once for a day that is not closed.
    pub(super) asked_to_leave: bool,
}

impl App {
    /// A fresh screen on a shop just read. An empty shop leads into the first client.
    pub fn new(shop: Shop, journal: Vec<JournalLine>, now: DateTime<Utc>, theme: Theme) -> Self {
        let clock = shop.clock();
        let mut app = Self {
            shop,
            journal,
            now,
            theme,
            clock,
            place: Place::Bench,
            bench: Bench::default(),
            rack: Rack::default(),
            shelf: Shelf::default(),
            job_book: JobBook::default(),
            recipes: Recipes::default(),
            journal_screen: Journal::default(),
            air: Air::default(),
            day_end: DayEndScreen::default(),
            layers: Vec::new(),
            said: Said::default(),
            due: Vec::new(),
            waiting: Vec::new(),
            submitted: false,
            drafts: Vec::new(),
            asked_to_leave: false,
        };
        app.settle();
        app.waiting = app.not_yet();
        app.say_what_was_left_open();
        if app.shop.clients.is_empty() {
            app.open_form(FormKind::Client(Which::New));
            "Welcome. Begin with the client; the job and the first piece follow."
                .clone_into(&mut app.said.words);
        }
        app
    }

    /// The shop was read anew.
    pub fn loaded(&mut self, shop: Shop, journal: Vec<JournalLine>, now: DateTime<Utc>) {
        self.clock = shop.clock();
        self.shop = shop;
        self.journal = journal;
        self.now = now;
        self.settle();
    }

    /// Runs `look` with the screens in hand and the shop to look at.
    fn with<T>(&mut self, look: impl FnOnce(&mut dyn Screen, &Ctx<'_>) -> T) -> T {
        let ctx = Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: self.now,
            clock: &self.clock,
            theme: &self.theme,
        };
        if let Some(screen) = self.layers.last_mut().and_then(Layer::screen_mut) {
            return look(screen, &ctx);
        }
        match self.place {
            Place::Bench => look(&mut self.bench, &ctx),
            Place::Rack => look(&mut self.rack, &ctx),
            Place::Shelf => look(&mut self.shelf, &ctx),
            Place::JobBook => look(&mut self.job_book, &ctx),
            Place::Recipes => look(&mut self.recipes, &ctx),
            Place::Journal => look(&mut self.journal_screen, &ctx),
            Place::Air => look(&mut self.air, &ctx),
            Place::DayEnd => look(&mut self.day_end, &ctx),
        }
    }

    pub(super) fn settle(&mut self) {
        let ctx = Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: self.now,
            clock: &self.clock,
            theme: &self.theme,
        };
        let screens: [&mut dyn Screen; 7] = [
            &mut self.bench,
            &mut self.rack,
            &mut self.shelf,
            &mut self.job_book,
            &mut self.recipes,
            &mut self.journal_screen,
            &mut self.air,
        ];
        for screen in screens {
            screen.settle(&ctx);
        }
        for layer in &mut self.layers {
            if let Some(screen) = layer.screen_mut() {
                screen.settle(&ctx);
            }
        }
    }

    /// A key.
    pub fn key(&mut self, key: &Key) -> Vec<Effect> {
        self.said.notes.clear();
        self.put_away_what_passed();
        let asked = std::mem::take(&mut self.asked_to_leave);
        if *key == Key::Ctrl('c') {
            let touched =
                matches!(self.layers.last(), Some(Layer::Form(open)) if open.form.is_touched());
            if touched {
                self.leave_form();
                return Vec::new();
            }
            return self.quit(asked);
        }
        if *key == Key::Ctrl('l') {
            return vec![Effect::Redraw];
        }
        match self.layers.last_mut() {
            Some(Layer::Form(_)) => self.form_key(key),
            Some(Layer::Read(_, pager)) => {
                if !pager.key(key) && matches!(key, Key::Enter | Key::Esc | Key::Char('q' | '?')) {
                    self.layers.pop();
                }
                Vec::new()
            }
            Some(Layer::Tell(pager)) => {
                if pager.key(key) {
                    return Vec::new();
                }
                self.layers.pop();
                // Any other key puts the answer away and does what it does.
                match key {
                    Key::Enter | Key::Esc => Vec::new(),
                    other => self.key(other),
                }
            }
            Some(Layer::Ticket(ticket)) if ticket.is_walking() => self.screen_key(key),
            _ => self
                .global_key(key, asked)
                .unwrap_or_else(|| self.screen_key(key)),
        }
    }

    /// What must still be done before the program ends: what was said on a walk is kept.
    pub fn leaving(&mut self) -> Vec<Effect> {
        match self.layers.last() {
            Some(Layer::Ticket(ticket)) => ticket
                .said_on_the_walk(self.now)
                .map(|action| Effect::Act(Box::new(action)))
                .into_iter()
                .collect(),
            _ => Vec::new(),
        }
    }

    /// Pasted text goes into the form.
    pub fn paste(&mut self, text: &str) {
        if let Some(Layer::Form(open)) = self.layers.last_mut() {
            open.paste(text, &self.shop, self.now);
        }
    }

    fn global_key(&mut self, key: &Key, asked: bool) -> Option<Vec<Effect>> {
        let searching = self.place == Place::Journal
            && self.layers.is_empty()
            && self.journal_screen.is_searching();
        if searching {
            return None;
        }
        Some(match key {
            Key::Char('q') => self.quit(asked),
            Key::Char('z') => {
                self.go_to_day_end();
                Vec::new()
            }
            Key::Char('u') => vec![Effect::Act(Box::new(Action::Undo))],
            Key::Char('a') => vec![Effect::Act(Box::new(Action::Redo))],
            Key::Char('0') => {
                self.due.clear();
                Vec::new()
            }
            Key::Char('?') => {
                self.help();
                Vec::new()
            }
            Key::Char('7') => {
                self.open_form(FormKind::Settings);
                Vec::new()
            }
            Key::Char('r') => {
                self.open_form(FormKind::Air(Which::New));
                Vec::new()
            }
            Key::Char(digit) => {
                let place = Place::ALL.into_iter().find(|place| place.digit() == *digit);
                self.go(place?);
                Vec::new()
            }
            _ => return None,
        })
    }

    pub(super) fn go(&mut self, place: Place) {
        self.layers.clear();
        self.place = place;
    }

    fn help(&mut self) {
        let width = 72;
        let (title, mut lines) = self.with(|screen, ctx| (screen.title(ctx), screen.help(width)));
        lines.push(String::new());
        lines.extend(super::global_keys::help_lines(width));
        self.layers
            .push(Layer::Read(format!("Keys: {title}"), Pager::new(lines)));
    }

    fn screen_key(&mut self, key: &Key) -> Vec<Effect> {
        let wishes = self.with(|screen, ctx| screen.key(key, ctx));
        wishes
            .into_iter()
            .flat_map(|wish| self.grant(wish))
            .collect()
    }

    fn grant(&mut self, wish: Wish) -> Vec<Effect> {
        match wish {
            Wish::Act(action) => return vec![Effect::Act(Box::new(action))],
            Wish::Form(kind) => self.open_form(kind),
            Wish::Ticket(piece) => self.open_ticket(piece),
            Wish::Go(Place::DayEnd) => self.go_to_day_end(),
            Wish::Wood(piece) => self.open_wood(piece),
            Wish::Woods => self.open_woods(),
            Wish::Drawing(piece) => {
                let drawing = DrawingScreen::new(piece);
                self.layers.push(Layer::Drawing(Box::new(drawing)));
                self.settle();
            }
            Wish::Papers { stem, files } => return vec![Effect::Papers(stem, files)],
            Wish::Go(place) => self.go(place),
            Wish::Tell(lines) => self.tell(lines),
            Wish::Read { title, lines } => {
                self.layers.push(Layer::Read(title, Pager::new(lines)));
            }
            Wish::Back => {
                if let Some(Layer::Ticket(ticket)) = self.layers.pop() {
                    self.bench.focus_on(ticket.piece());
                }
            }
        }
        Vec::new()
    }

    /// The topmost screen under forms and notices, with what it may look at.
    pub fn look<T>(&self, look: impl FnOnce(&dyn Screen, &Ctx<'_>) -> T) -> T {
        let ctx = Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: self.now,
            clock: &self.clock,
            theme: &self.theme,
        };
        if let Some(screen) = self.layers.iter().rev().find_map(Layer::screen) {
            return look(screen, &ctx);
        }
        match self.place {
            Place::Bench => look(&self.bench, &ctx),
            Place::Rack => look(&self.rack, &ctx),
            Place::Shelf => look(&self.shelf, &ctx),
            Place::JobBook => look(&self.job_book, &ctx),
            Place::Recipes => look(&self.recipes, &ctx),
            Place::Journal => look(&self.journal_screen, &ctx),
            Place::Air => look(&self.air, &ctx),
            Place::DayEnd => look(&self.day_end, &ctx),
        }
    }
}
