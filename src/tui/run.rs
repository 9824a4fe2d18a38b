//! The loop: input in, effects out. The only place of the screen room that touches the store and
//! the terminal; the time is asked of whoever started it.

use super::app::{App, Effect};
use super::app_view;
use super::kit::events::{Input, Inputs};
use super::kit::terminal::Screen;
use super::kit::theme::{Look, Theme};
use super::run_logger;
use crate::coating::id::Mint;
use crate::desk::{Books, BooksError, Desk, Scope, Shop};
use crate::shop::LookChoice;
use chrono::{DateTime, Timelike, Utc};
use chrono_tz::Tz;
use std::collections::VecDeque;
use std::io;
use std::time::Duration;
use thiserror::Error;

/// How many journal lines the screen holds.
const JOURNAL_LINES: usize = 500;

/// Why the screen had to stop.
#[derive(Debug, Error)]
pub enum RunError {
    /// The terminal.
    #[error("The terminal cannot be used: {0}")]
    Terminal(#[from] io::Error),
    /// The store.
    #[error(transparent)]
    Books(#[from] BooksError),
}

/// What the loop is given from outside.
pub struct Outside<'a> {
    /// The store.
    pub books: &'a mut dyn Books,
    /// The moment, whenever asked.
    pub now: &'a dyn Fn() -> DateTime<Utc>,
    /// Where identifiers come from.
    pub mint: &'a mut Mint,
    /// The machine's zone, for a store without settings.
    pub zone: Tz,
    /// Whether the environment asks for no colour.
    pub no_color: bool,
    /// What the environment says of the terminal's background.
    pub background: Option<String>,
    /// Whether only ASCII signs may be drawn.
    pub ascii: bool,
}

impl Outside<'_> {
    fn theme(&self, shop: &Shop) -> Theme {
        let look = match shop.settings.look {
            LookChoice::Auto => Look::Auto,
            LookChoice::Dark => Look::Dark,
            LookChoice::Light => Look::Light,
            LookChoice::Plain => Look::Plain,
        };
        let look = look.with_background_hint(self.background.as_deref());
        Theme::from_env(look, self.no_color).in_ascii(self.ascii)
    }

    fn read(&self) -> Result<Shop, BooksError> {
        Shop::read(self.books, Scope::All, self.zone)
    }
}

/// Runs the screen until the person leaves.
pub fn run(outside: &mut Outside<'_>) -> Result<(), RunError> {
    let shop = outside.read()?;
    let theme = outside.theme(&shop);
    let journal = outside.books.journal(JOURNAL_LINES)?;
    let mut version = outside.books.version()?;
    let mut app = App::new(shop, journal, (outside.now)(), theme);
    let mut screen = Screen::open()?;
    let mut inputs = Inputs::open()?;
    let mut minute = minute_of((outside.now)());
    loop {
        screen.draw(|frame| {
            let area = frame.area();
            app_view::resize(&mut app, area);
            let cursor = app_view::draw(&app, frame.buffer_mut(), area);
            if let Some(cursor) = cursor {
                frame.set_cursor_position(cursor);
            }
        })?;
        let input = inputs.next(until_next_minute((outside.now)()));
        let now = (outside.now)();
        if outside.books.version()? != version {
            version = reload(&mut app, outside, now)?;
        }
        let mut effects = Vec::new();
        if minute_of(now) != minute {
            minute = minute_of(now);
            effects.extend(app.tick(now));
        }
        app.now = now;
        match input {
            Input::Key(key) => effects.extend(app.key(&key)),
            Input::Paste(text) => app.paste(&text),
            Input::Resize | Input::Tick => {}
            Input::Quit(_) => {
                effects.extend(app.leaving());
                effects.push(Effect::Quit);
            }
        }
        let mut effects: VecDeque<Effect> = effects.into();
        while let Some(effect) = effects.pop_front() {
            match effect {
                Effect::Act(action) => {
                    let mut desk = Desk {
                        books: outside.books,
                        now,
                        mint: outside.mint,
                        zone: outside.zone,
                    };
                    let result = desk.perform(&action);
                    if result.is_ok() {
                        version = reload(&mut app, outside, now)?;
                        app.theme = outside.theme(&app.shop);
                    }
                    app.ended(result);
                }
                Effect::ReadLogger(file, answers) => {
                    let zone = app.shop.settings.zone;
                    let read = run_logger::read(&file, &answers, now, zone);
                    effects.extend(app.logger_read(&file, read));
                }
                Effect::Ring => Screen::ring(),
                Effect::Redraw => screen.redraw_all()?,
                Effect::Quit => return Ok(()),
            }
        }
    }
}

fn reload(app: &mut App, outside: &Outside<'_>, now: DateTime<Utc>) -> Result<i64, BooksError> {
    let version = outside.books.version()?;
    let shop = outside.read()?;
    let journal = outside.books.journal(JOURNAL_LINES)?;
    app.loaded(shop, journal, now);
    Ok(version)
}

fn minute_of(at: DateTime<Utc>) -> i64 {
    at.timestamp().div_euclid(60)
}

/// How long until the clock on the screen must change.
fn until_next_minute(now: DateTime<Utc>) -> Duration {
    Duration::from_secs(u64::from(60 - now.second().min(59)))
}
