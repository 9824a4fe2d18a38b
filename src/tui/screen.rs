//! What a screen is: a state that turns keys into wishes, and a view that only reads.

use super::forms::FormKind;
use super::kit::key::Key;
use super::kit::theme::Theme;
use crate::coating::ShopAirClock;
use crate::desk::{Action, JournalLine, Shop};
use crate::shop::{Gates, PieceId};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// What every screen may look at.
#[derive(Clone, Copy)]
pub struct Ctx<'a> {
    /// The shop as last read.
    pub shop: &'a Shop,
    /// The newest lines of the journal, newest first.
    pub journal: &'a [JournalLine],
    /// The moment.
    pub now: DateTime<Utc>,
    /// The shop's drying clock: the safe one; `clock.likely()` is its twin.
    pub clock: &'a ShopAirClock,
    /// The styles.
    pub theme: &'a Theme,
}

impl<'a> Ctx<'a> {
    /// The gates over the shop's products.
    pub fn gates(&self) -> Gates<'a> {
        self.shop.gates(self.clock)
    }

    /// The shop's zone.
    pub fn zone(&self) -> Tz {
        self.shop.settings.zone
    }
}

/// The screens one digit away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// The stage board.
    Bench,
    /// What dries, what is ready.
    Rack,
    /// Products, use, tally.
    Shelf,
    /// Clients, jobs, pieces.
    JobBook,
    /// Finish schedules.
    Recipes,
    /// What was done, undo.
    Journal,
    /// The shop's air.
    Air,
    /// What a day leaves to be seen to; has no digit of its own.
    DayEnd,
}

impl Place {
    /// Those with a digit, in the order of their digits; 7 is the settings'.
    pub const ALL: [Self; 7] = [
        Self::Bench,
        Self::Rack,
        Self::Shelf,
        Self::JobBook,
        Self::Recipes,
        Self::Journal,
        Self::Air,
    ];

    /// The key that leads there.
    pub fn digit(self) -> char {
        match self {
            Self::Bench => '1',
            Self::Rack => '2',
            Self::Shelf => '3',
            Self::JobBook => '4',
            Self::Recipes => '5',
            Self::Journal => '6',
            Self::Air => '8',
            Self::DayEnd => 'z',
        }
    }

    /// The name on screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Bench => "Bench",
            Self::Rack => "Rack",
            Self::Shelf => "Shelf",
            Self::JobBook => "Job book",
            Self::Recipes => "Recipes",
            Self::Journal => "Journal",
            Self::Air => "Shop air",
            Self::DayEnd => "Day's end",
        }
    }
}

/// What a screen asks of the program.
#[derive(Debug, Clone, PartialEq)]
pub enum Wish {
    /// Do this and say what was done.
    Act(Action),
    /// Open a form.
    Form(FormKind),
    /// Open a piece's ticket.
    Ticket(PieceId),
    /// Open a piece's wood sheet.
    Wood(PieceId),
    /// Open the table of woods.
    Woods,
    /// Go to a screen.
    Go(Place),
    /// Show these lines until they are put away.
    Tell(Vec<String>),
    /// Show these lines as a page to read.
    Read {
        /// Its heading.
        title: String,
        /// The lines.
        lines: Vec<String>,
    },
    /// Back to the screen before.
    Back,
}

/// A screen.
pub trait Screen {
    /// Its name in the heading.
    fn title(&self, ctx: &Ctx<'_>) -> String;
    /// A key, turned into wishes.
    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish>;
    /// The shop was read anew: keep the selection on what it was on.
    fn settle(&mut self, ctx: &Ctx<'_>);
    /// Draws itself inside `area`.
    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>);
    /// Its hints, as many whole ones as fit.
    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String;
    /// Its keys, for the help page.
    fn help(&self, width: usize) -> Vec<String>;
}
