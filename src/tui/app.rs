//! The app around the screens: which is open, what was said last, what a key means before any
//! screen sees it. `update` is pure: it changes this state and says what is to be done outside.

use super::forms::{FormKind, OpenForm};
use super::kit::key::Key;
use super::kit::pager::Pager;
use super::kit::theme::Theme;
use super::screen::{Ctx, Place, Screen, Wish};
use super::screens::bench::Bench;
use super::screens::drawing::DrawingScreen;
use super::screens::job_book::JobBook;
use super::screens::journal::Journal;
use super::screens::rack::Rack;
use super::screens::recipes::Recipes;
use super::screens::shelf::Shelf;
use super::screens::ticket::TicketScreen;
use crate::coating::DryingClock;
use crate::desk::{Action, JournalLine, Shop, Which};
use crate::shop::{PieceId, Shows, Ticket, waiting};
use chrono::{DateTime, Utc};

/// What is to be done outside the state.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Do this action and tell the app how it ended.
    Act(Box<Action>),
    /// Write these files into a new folder of this name and tell the app where.
    Papers(String, Vec<(String, String)>),
    /// Ring the bell.
    Ring,
    /// Draw everything anew.
    Redraw,
    /// Leave.
    Quit,
}

/// What lies over the screen.
#[derive(Debug)]
pub enum Layer {
    /// A ticket.
    Ticket(Box<TicketScreen>),
    /// A drawing.
    Drawing(Box<DrawingScreen>),
    /// A form.
    Form(Box<OpenForm>),
    /// Lines to read, with a heading.
    Read(String, Pager),
    /// Lines that answer what was just tried.
    Tell(Pager),
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
    /// The drying clock.
    pub clock: Box<dyn DryingClock>,
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
}

impl App {
    /// A fresh screen on a shop just read. An empty shop leads into the first client.
    pub fn new(
        shop: Shop,
        journal: Vec<JournalLine>,
        now: DateTime<Utc>,
        theme: Theme,
        clock: Box<dyn DryingClock>,
    ) -> Self {
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
            layers: Vec::new(),
            said: Said::default(),
            due: Vec::new(),
            waiting: Vec::new(),
            submitted: false,
            drafts: Vec::new(),
        };
        app.settle();
        app.waiting = app.not_yet();
        if app.shop.clients.is_empty() {
            app.open_form(FormKind::Client(Which::New));
            "Welcome. Begin with the client; the job and the first piece follow."
                .clone_into(&mut app.said.words);
        }
        app
    }

    /// The shop was read anew.
    pub fn loaded(&mut self, shop: Shop, journal: Vec<JournalLine>, now: DateTime<Utc>) {
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
            clock: self.clock.as_ref(),
            theme: &self.theme,
        };
        if let Some(Layer::Ticket(ticket)) = self.layers.last_mut() {
            return look(ticket.as_mut(), &ctx);
        }
        if let Some(Layer::Drawing(drawing)) = self.layers.last_mut() {
            return look(drawing.as_mut(), &ctx);
        }
        match self.place {
            Place::Bench => look(&mut self.bench, &ctx),
            Place::Rack => look(&mut self.rack, &ctx),
            Place::Shelf => look(&mut self.shelf, &ctx),
            Place::JobBook => look(&mut self.job_book, &ctx),
            Place::Recipes => look(&mut self.recipes, &ctx),
            Place::Journal => look(&mut self.journal_screen, &ctx),
        }
    }

    pub(super) fn settle(&mut self) {
        let ctx = Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: self.now,
            clock: self.clock.as_ref(),
            theme: &self.theme,
        };
        let screens: [&mut dyn Screen; 6] = [
            &mut self.bench,
            &mut self.rack,
            &mut self.shelf,
            &mut self.job_book,
            &mut self.recipes,
            &mut self.journal_screen,
        ];
        for screen in screens {
            screen.settle(&ctx);
        }
        for layer in &mut self.layers {
            match layer {
                Layer::Ticket(ticket) => ticket.settle(&ctx),
                Layer::Drawing(drawing) => drawing.settle(&ctx),
                _ => {}
            }
        }
    }

    /// Pieces that wait for a moment still to come.
    pub(super) fn not_yet(&self) -> Vec<PieceId> {
        let gates = self.shop.gates(self.clock.as_ref());
        self.shop
            .files
            .iter()
            .filter(|file| waiting(&Ticket::of(file), &gates, self.now).shows() == Shows::Drying)
            .map(|file| file.piece.id)
            .collect()
    }

    /// Time went on: what came due rings the bell and holds the banner.
    pub fn tick(&mut self, now: DateTime<Utc>) -> Vec<Effect> {
        self.now = now;
        self.settle();
        let waits = self.not_yet();
        let gates = self.shop.gates(self.clock.as_ref());
        let came_due: Vec<PieceId> = self
            .shop
            .files
            .iter()
            .filter(|file| self.waiting.contains(&file.piece.id) && !waits.contains(&file.piece.id))
            .filter(|file| waiting(&Ticket::of(file), &gates, now).shows() == Shows::Ready)
            .map(|file| file.piece.id)
            .collect();
        self.waiting = waits;
        let rings = came_due.iter().any(|piece| !self.due.contains(piece));
        for piece in came_due {
            if !self.due.contains(&piece) {
                self.due.push(piece);
            }
        }
        if rings {
            vec![Effect::Ring]
        } else {
            Vec::new()
        }
    }

    /// A key.
    pub fn key(&mut self, key: &Key) -> Vec<Effect> {
        self.said.notes.clear();
        if *key == Key::Ctrl('c') {
            let touched =
                matches!(self.layers.last(), Some(Layer::Form(open)) if open.form.is_touched());
            if touched {
                self.leave_form();
                return Vec::new();
            }
            let mut effects = self.leaving();
            effects.push(Effect::Quit);
            return effects;
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
            _ => self.global_key(key).unwrap_or_else(|| self.screen_key(key)),
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

    fn global_key(&mut self, key: &Key) -> Option<Vec<Effect>> {
        let searching = self.place == Place::Journal
            && self.layers.is_empty()
            && self.journal_screen.is_searching();
        if searching {
            return None;
        }
        Some(match key {
            Key::Char('q') => vec![Effect::Quit],
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
            Key::Char(digit @ '1'..='6') => {
                let at = usize::from(u8::try_from(*digit).unwrap_or(b'1') - b'1');
                self.go(Place::ALL[at.min(Place::ALL.len() - 1)]);
                Vec::new()
            }
            _ => return None,
        })
    }

    fn go(&mut self, place: Place) {
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
            clock: self.clock.as_ref(),
            theme: &self.theme,
        };
        let over = self.layers.iter().rev().find_map(|layer| match layer {
            Layer::Ticket(ticket) => Some(ticket.as_ref() as &dyn Screen),
            Layer::Drawing(drawing) => Some(drawing.as_ref() as &dyn Screen),
            _ => None,
        });
        if let Some(over) = over {
            return look(over, &ctx);
        }
        match self.place {
            Place::Bench => look(&self.bench, &ctx),
            Place::Rack => look(&self.rack, &ctx),
            Place::Shelf => look(&self.shelf, &ctx),
            Place::JobBook => look(&self.job_book, &ctx),
            Place::Recipes => look(&self.recipes, &ctx),
            Place::Journal => look(&self.journal_screen, &ctx),
        }
    }
}
