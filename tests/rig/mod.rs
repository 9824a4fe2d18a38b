//! The screens without a terminal: the app over a store in memory, keys in, rows of text out.

use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::coating::{LoggerRead, read_logger};
use tackfree::desk::{Action, Books, Desk, Scope, Shop};
use tackfree::store::Store;
use tackfree::store::files::load_demo;
use tackfree::tui::app::{App, Effect};
use tackfree::tui::app_view;
use tackfree::tui::forms::LoggerRefused;
use tackfree::tui::kit::key::Key;
use tackfree::tui::kit::theme::Theme;

/// The zone of every rig.
pub const ZONE: Tz = chrono_tz::America::Chicago;

/// The app with all that the loop around it would hold.
pub struct Rig {
    /// The store.
    pub store: Store,
    /// The screens.
    pub app: App,
    /// The moment.
    pub now: DateTime<Utc>,
    /// Whether the person has left.
    pub left: bool,
    mint: Mint,
}

impl Rig {
    /// The demo shop, loaded at `now`.
    pub fn demo(now: &str) -> Self {
        let now = now.parse().expect("a moment");
        let mut store = Store::in_memory().expect("a store");
        let mut mint = Mint::new(uuid::Uuid::nil(), 7);
        load_demo(&mut store, now, &mut mint, ZONE, &LabelHours).expect("the demo");
        Self::over(store, mint, now)
    }

    /// The demo shop without a reading of its air: the label's hours hold.
    #[allow(dead_code, reason = "not every test is about the shop's air")]
    pub fn airless(now: &str) -> Self {
        let mut rig = Self::demo(now);
        let readings: Vec<_> = rig.store.air_newest(1000).expect("the air");
        for row in readings {
            rig.carry_out(Effect::Act(Box::new(Action::RemoveAir(row.reading.at))));
        }
        rig
    }

    /// A new shop with nothing but its starting products and recipes.
    #[allow(dead_code, reason = "not every test starts an empty shop")]
    pub fn fresh(now: &str) -> Self {
        let now = now.parse().expect("a moment");
        let mut store = Store::in_memory().expect("a store");
        let mut mint = Mint::new(uuid::Uuid::nil(), 7);
        let settings = tackfree::shop::Settings::starting(ZONE);
        let mut desk = Desk {
            books: &mut store,
            now,
            mint: &mut mint,
            zone: ZONE,
        };
        desk.furnish(&settings).expect("a start");
        Self::over(store, mint, now)
    }

    fn over(store: Store, mint: Mint, now: DateTime<Utc>) -> Self {
        let shop = Shop::read(&store, Scope::All, ZONE).expect("the shop");
        let journal = store.journal(100).expect("the journal");
        let app = App::new(shop, journal, now, Theme::plain());
        Self {
            store,
            app,
            now,
            left: false,
            mint,
        }
    }

    /// Leaves and starts again at `now`, on the same store.
    #[allow(dead_code, reason = "not every test starts again")]
    pub fn start_again(&mut self, now: &str) {
        self.now = now.parse().expect("a moment");
        let shop = Shop::read(&self.store, Scope::All, ZONE).expect("the shop");
        let journal = self.store.journal(100).expect("the journal");
        self.app = App::new(shop, journal, self.now, Theme::plain());
    }

    /// Presses one key and does what the app then asks for.
    pub fn key(&mut self, key: Key) {
        for effect in self.app.key(&key) {
            self.carry_out(effect);
        }
    }

    /// Presses keys by name; a longer word that is no key's name is typed.
    pub fn press(&mut self, names: &[&str]) {
        for name in names {
            match Key::from_name(name) {
                Some(key) => self.key(key),
                None => name.chars().for_each(|c| self.key(Key::Char(c))),
            }
        }
    }

    /// Lets the clock go on to `now`.
    #[allow(dead_code, reason = "not every test lets time go by")]
    pub fn wait_until(&mut self, now: &str) -> Vec<Effect> {
        self.now = now.parse().expect("a moment");
        self.app.tick(self.now)
    }

    fn carry_out(&mut self, effect: Effect) {
        match effect {
            Effect::Act(action) => {
                let mut desk = Desk {
                    books: &mut self.store,
                    now: self.now,
                    mint: &mut self.mint,
                    zone: ZONE,
                };
                let result = desk.perform(&action);
                if result.is_ok() {
                    let shop = Shop::read(&self.store, Scope::All, ZONE).expect("the shop");
                    let journal = self.store.journal(100).expect("the journal");
                    self.app.loaded(shop, journal, self.now);
                }
                self.app.ended(result);
            }
            Effect::ReadLogger(file, answers) => {
                let opened = std::fs::File::open(&file).expect("the logger's file");
                let zone = self.app.shop.settings.zone;
                let read = match read_logger(opened, &answers, self.now, zone) {
                    Ok(LoggerRead::Read(report)) => Ok(report),
                    Ok(LoggerRead::Asks(question)) => Err(LoggerRefused::Asks(question)),
                    Err(error) => Err(LoggerRefused::Unread(error.to_string())),
                };
                for effect in self.app.logger_read(&file, read) {
                    self.carry_out(effect);
                }
            }
            Effect::Quit => self.left = true,
            Effect::Papers(stem, files) => {
                let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
                self.app.written(Ok(format!("{stem}: {}", names.join(" "))));
            }
            Effect::Ring | Effect::Redraw => {}
        }
    }

    /// The screen at a size, row by row, trailing spaces dropped.
    pub fn rows(&mut self, width: u16, height: u16) -> Vec<String> {
        let area = Rect::new(0, 0, width, height);
        app_view::resize(&mut self.app, area);
        let mut buffer = Buffer::empty(area);
        app_view::draw(&self.app, &mut buffer, area);
        (0..height)
            .map(|y| {
                let row: String = (0..width).map(|x| buffer[(x, y)].symbol()).collect();
                row.trim_end().to_owned()
            })
            .collect()
    }

    /// The screen at a size, as one text.
    pub fn picture(&mut self, width: u16, height: u16) -> String {
        self.rows(width, height).join("\n")
    }
}
