//! The shop as it stands, read at one moment, for screens, commands and papers.

use super::air_rows::{DryingRules, PassedOver};
use super::books::{Books, BooksError, Scope};
use super::money::HoursOf;
use super::shop_air::ForClock;
use super::use_read::learned_rates;
use crate::coating::{
    AirLog, Assumed, DryingClock, Forecast, Product, ProductId, ShopAir, ShopAirClock, Tuning,
    UsualDay,
};
use crate::shape::layout::Finding;
use crate::shop::moving::{AirBasis, Records, ShopsAir};
use crate::shop::{
    CanBook, Client, ClientId, DayLog, Films, Gates, HoursEntry, Job, JobId, LayoutBook, MoneyBook,
    Pass, PieceFile, PieceId, PieceLayout, PlanBook, PriceBook, RateBook, Recipe, RecipeId,
    Settings, Strictness, Ticket, UseBook, WoodBook,
};
use crate::units::{Humidity, Temperature};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::sync::Arc;

/// The shop read at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// Settings in force.
    pub settings: Settings,
    /// Clients, by name.
    pub clients: Vec<Client>,
    /// Jobs, by number.
    pub jobs: Vec<Job>,
    /// Products.
    pub products: Vec<Product>,
    /// Recipes, by name.
    pub recipes: Vec<Recipe>,
    /// The pieces read, with their logs.
    pub files: Vec<PieceFile>,
    /// The passes that touched them.
    pub passes: Vec<Pass>,
    /// The cans; of a shop read whole all that ever were, else those not thrown away and those that
    /// the passes read here drew on.
    pub cans: Arc<CanBook>,
    /// What was ticked and closed at the days' ends.
    pub days: DayLog,
    /// What is on record about wood.
    pub wood: WoodBook,
    /// The shop's air, as far as what was read here asks for: the last five weeks, and the time in
    /// which older coats of unfinished pieces dry. Not the whole log: a list or a plot of older
    /// air asks the store.
    pub air: Arc<AirLog>,
    /// What touch tests have taught, per product.
    pub tuning: Arc<HashMap<ProductId, Tuning>>,
    /// Touch tests that teach nothing, per product.
    pub passed_over: Arc<HashMap<ProductId, PassedOver>>,
    /// The typed forecast; without steps where there is none.
    pub forecast: Arc<Forecast>,
    /// What the shop has set about drying.
    pub drying: DryingRules,
    /// Film factors of passes laid thicker than the label's.
    pub films: Arc<Films>,
    /// The shop's own figures for layout and cutting.
    pub layout: LayoutBook,
    /// What is kept of pieces' layouts.
    pub layouts: Vec<PieceLayout>,
    /// What is kept about use.
    pub use_book: UseBook,
    /// The spread rates learned, where all pieces or all open ones were read; of one job or piece
    /// alone nothing is learned, and the label's count.
    pub rates: Arc<RateBook>,
    /// What days are planned by, and what was promised.
    pub plan: PlanBook,
    /// The shop's figures for pricing.
    pub prices: PriceBook,
    /// What is on record about the money of jobs.
    pub money: MoneyBook,
    /// The entry of the hours log whose clock runs, if one does.
    pub running: Option<HoursEntry>,
}

impl Shop {
    /// Reads the shop; `zone` counts where no settings were saved.
    pub fn read(books: &dyn Books, scope: Scope, zone: Tz) -> Result<Self, BooksError> {
        let settings = books
            .settings()?
            .unwrap_or_else(|| Settings::starting(zone));
        let (products, files) = (books.products()?, books.pieces(scope)?);
        let passes = books.passes(scope)?;
        let use_book = books.use_book()?;
        let rates = learned_rates(books, scope, (&files, &passes), &products, &use_book)?;
        let for_clock = ForClock::read(books, (&files, &passes), &products, settings.zone)?;
        Ok(Self {
            clients: books.clients()?,
            jobs: books.jobs()?,
            recipes: books.recipes()?,
            days: books.days()?,
            air: for_clock.air,
            tuning: for_clock.tuning,
            passed_over: for_clock.passed_over,
            forecast: for_clock.forecast,
            drying: for_clock.rules,
            films: for_clock.films,
            layout: books.layout_book()?.unwrap_or_default(),
            layouts: books.layouts(scope)?,
            use_book,
            rates: Arc::new(rates),
            cans: Arc::new(books.cans(scope)?.fold(&products)),
            plan: books.plan_book()?,
            prices: books.price_book()?.unwrap_or_default(),
            money: books.money()?,
            running: books.hours(HoursOf::Running)?.into_iter().next(),
            settings,
            products,
            wood: books.wood(scope)?.in_order(),
            files,
            passes,
        })
    }

    /// A shop with settings and nothing else.
    pub fn blank(settings: Settings) -> Self {
        let air = AirLog::new(settings.zone, Assumed::LabelConditions);
        Self {
            settings,
            clients: Vec::new(),
            jobs: Vec::new(),
            products: Vec::new(),
            recipes: Vec::new(),
            files: Vec::new(),
            passes: Vec::new(),
            cans: Arc::default(),
            days: DayLog::default(),
            air: Arc::new(air),
            tuning: Arc::default(),
            passed_over: Arc::default(),
            forecast: Arc::default(),
            drying: DryingRules::default(),
            films: Arc::default(),
            wood: WoodBook::default(),
            layout: LayoutBook::default(),
            layouts: Vec::new(),
            use_book: UseBook::default(),
            rates: Arc::default(),
            plan: PlanBook::default(),
            prices: PriceBook::default(),
            money: MoneyBook::default(),
            running: None,
        }
    }

    /// Which touch tests of a product teach nothing.
    pub fn passed_over(&self, product: ProductId) -> PassedOver {
        self.passed_over.get(&product).copied().unwrap_or_default()
    }

    /// The drying clock of this shop: the safe one, which the gates hold to; its twin is
    /// [`ShopAirClock::likely`]. Where no air was ever logged, no forecast typed and nothing
    /// learned, its times are the label's hours as plain hours. Cheap; the log is shared.
    pub fn clock(&self) -> ShopAirClock {
        let (air, tuning) = (Arc::clone(&self.air), Arc::clone(&self.tuning));
        ShopAirClock::new(air, self.drying.law, tuning).with_forecast((*self.forecast).clone())
    }

    /// The moisture readings of a piece, in order of time.
    pub fn moisture(&self, piece: PieceId) -> &[crate::shop::Moisture] {
        self.wood.moisture(piece)
    }

    /// The shop's air as wood meets it: its usual air, the mean of the last four weeks, once it
    /// rests on three days; before that the last reading, also one noted with a pass. None where
    /// nothing was noted.
    pub fn shops_air(&self, now: DateTime<Utc>) -> Option<ShopsAir> {
        if let Some(usual) = self.air.usual(now).filter(|usual| usual.days() >= 3) {
            return Some(mean_of(&usual));
        }
        let logged = self.air.reading_before(now).map(|reading| {
            let air =
                crate::wood::moisture::Air::new(reading.air.temperature, reading.air.humidity);
            (reading.at, air)
        });
        let passes = self.passes.iter().filter(|pass| pass.started <= now);
        let noted = passes.filter_map(|pass| Some((pass.started, pass.air?.into())));
        let (at, air) = noted.chain(logged).max_by_key(|(at, _)| *at)?;
        Some(ShopsAir {
            air,
            basis: AirBasis::Noted(at),
        })
    }

    /// What is looked at to reckon the wood of a piece.
    pub fn wood_records<'a>(
        &'a self,
        file: &'a PieceFile,
        ticket: &'a Ticket,
        air: Option<ShopsAir>,
    ) -> Records<'a> {
        Records {
            piece: &file.piece,
            ticket,
            book: &self.wood,
            products: &self.products,
            air,
        }
    }

    /// The gates over these products and their films.
    pub fn gates<'a>(&'a self, clock: &'a dyn DryingClock) -> Gates<'a> {
        Gates {
            products: &self.products,
            clock,
            strictness: Strictness::Live,
            films: Some(&self.films),
        }
    }

    /// What is kept of a piece's layout.
    pub fn layout_of(&self, piece: PieceId) -> PieceLayout {
        let kept = self.layouts.iter().find(|layout| layout.piece == piece);
        kept.cloned().unwrap_or_else(|| PieceLayout::unsaid(piece))
    }

    /// What the layout checks find on a piece.
    pub fn findings(&self, file: &PieceFile) -> Vec<Finding> {
        let layout = self.layout_of(file.piece.id);
        self.layout.findings(file, &layout, self.settings.length)
    }

    /// A client.
    pub fn client(&self, id: ClientId) -> Option<&Client> {
        self.clients.iter().find(|client| client.id == id)
    }

    /// A job.
    pub fn job(&self, id: JobId) -> Option<&Job> {
        self.jobs.iter().find(|job| job.id == id)
    }

    /// A product.
    pub fn product(&self, id: ProductId) -> Option<&Product> {
        self.products.iter().find(|product| product.id == id)
    }

    /// A recipe.
    pub fn recipe(&self, id: RecipeId) -> Option<&Recipe> {
        self.recipes.iter().find(|recipe| recipe.id == id)
    }

    /// A piece with its log.
    pub fn file(&self, id: PieceId) -> Option<&PieceFile> {
        self.files.iter().find(|file| file.piece.id == id)
    }

    /// The ticket number of a piece: `3A`.
    pub fn ticket_no(&self, file: &PieceFile) -> String {
        file.piece
            .ticket_no(self.job(file.piece.job).map_or(0, |job| job.no))
    }

    /// What a piece is called on tickets and in the journal: `3A bar top`.
    pub fn called(&self, file: &PieceFile) -> String {
        format!("{} {}", self.ticket_no(file), file.piece.name)
    }

    /// The client a piece is for.
    pub fn client_of(&self, file: &PieceFile) -> Option<&Client> {
        self.job(file.piece.job)
            .and_then(|job| self.client(job.client))
    }

    /// The piece meant by `text`: its ticket number, its whole name, or its identifier.
    pub fn find_piece(&self, text: &str) -> Option<&PieceFile> {
        let text = text.trim();
        self.files
            .iter()
            .find(|file| self.ticket_no(file).eq_ignore_ascii_case(text))
            .or_else(|| {
                only(
                    self.files
                        .iter()
                        .filter(|file| same(&file.piece.name, text)),
                )
            })
            .or_else(|| {
                self.files
                    .iter()
                    .find(|file| file.piece.id.to_string() == text)
            })
    }

    /// The job meant by `text`: its number, its whole title, or its identifier.
    pub fn find_job(&self, text: &str) -> Option<&Job> {
        let text = text.trim();
        self.jobs
            .iter()
            .find(|job| job.no.to_string() == text)
            .or_else(|| only(self.jobs.iter().filter(|job| same(&job.title, text))))
            .or_else(|| self.jobs.iter().find(|job| job.id.to_string() == text))
    }

    /// The client meant by `text`.
    pub fn find_client(&self, text: &str) -> Option<&Client> {
        only(
            self.clients
                .iter()
                .filter(|client| same(&client.name, text)),
        )
        .or_else(|| {
            self.clients
                .iter()
                .find(|client| client.id.to_string() == text.trim())
        })
    }

    /// The recipe meant by `text`.
    pub fn find_recipe(&self, text: &str) -> Option<&Recipe> {
        only(
            self.recipes
                .iter()
                .filter(|recipe| same(&recipe.name, text)),
        )
        .or_else(|| {
            self.recipes
                .iter()
                .find(|recipe| recipe.id.to_string() == text.trim())
        })
    }

    /// The product meant by `text`.
    pub fn find_product(&self, text: &str) -> Option<&Product> {
        only(
            self.products
                .iter()
                .filter(|product| same(&product.name, text)),
        )
        .or_else(|| {
            self.products
                .iter()
                .find(|product| product.id.to_string() == text.trim())
        })
    }
}

/// The mean over the hours of the usual day.
fn mean_of(usual: &UsualDay) -> ShopsAir {
    let hours = usual.hours();
    let mean = |of: fn(&ShopAir) -> f64| hours.iter().map(of).sum::<f64>() / 24.0;
    let temperature = Temperature::from_c(mean(|air| air.temperature.c()));
    let humidity = Humidity::from_percent(mean(|air| air.humidity.percent()));
    ShopsAir {
        air: crate::wood::moisture::Air::new(
            temperature,
            humidity.unwrap_or(usual.hour(12).humidity),
        ),
        basis: AirBasis::Usual { days: usual.days() },
    }
}

fn same(name: &str, text: &str) -> bool {
    name.trim().to_lowercase() == text.trim().to_lowercase()
}

/// The only one, if there is just one: two of the same name are nobody's guess.
fn only<'a, T>(mut found: impl Iterator<Item = &'a T>) -> Option<&'a T> {
    let first = found.next()?;
    found.next().is_none().then_some(first)
}
