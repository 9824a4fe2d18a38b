//! Bringing a whole shop in: read, replayed through the gates, and put, all or nothing.

use super::air::AirBook;
use super::bench;
use super::cans::{self, Cans};
use super::days;
use super::draws;
use super::error::FilesError;
use super::fastening;
use super::keys::{Keys, Ring};
use super::layout::{self, Layouts};
use super::log;
use super::money::MoneyFiles;
use super::own_woods;
use super::passes;
use super::people;
use super::pieces;
use super::put::put;
use super::recipes::{self, Book};
use super::replay::Replay;
use super::shelf::{self, Shelf};
use super::source::Source;
use super::table::Notes;
use super::tomls;
use super::use_book;
use super::wood;
use crate::coating::id::Mint;
use crate::coating::{DryingClock, Product};
use crate::desk::{Books, Scope};
use crate::shop::{
    Client, DayLog, Gates, Job, JobId, Pass, PieceFile, PieceId, PlanBook, Recipe, Settings,
    Strictness, UseBook, WoodBook,
};
use crate::units::counted;
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::path::Path;

/// What was brought in, and is on the disk.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ImportReport {
    /// The journal's words.
    pub words: String,
    /// Clients.
    pub clients: usize,
    /// Jobs.
    pub jobs: usize,
    /// Pieces.
    pub pieces: usize,
    /// Products.
    pub products: usize,
    /// Recipes.
    pub recipes: usize,
    /// Passes.
    pub passes: usize,
    /// Lines of the pieces' logs.
    pub events: usize,
    /// Readings of the shop's air.
    pub readings: usize,
    /// Things to mind.
    pub notes: Vec<String>,
}

/// What every file is read with.
pub(super) struct Reading<'a> {
    pub(super) source: Source<'a>,
    pub(super) now: DateTime<Utc>,
    /// The shop's zone: that of `shop.toml`, or the one given.
    pub(super) zone: Tz,
    pub(super) today: NaiveDate,
    pub(super) keys: Keys<'a>,
    pub(super) notes: Notes,
}

/// A whole shop, read and replayed.
pub(super) struct Read {
    pub(super) settings: Settings,
    pub(super) products: Vec<Product>,
    pub(super) recipes: Vec<Recipe>,
    pub(super) clients: Vec<Client>,
    pub(super) jobs: Vec<Job>,
    pub(super) files: Vec<PieceFile>,
    pub(super) passes: Vec<Pass>,
    pub(super) cans: Cans,
    pub(super) air: AirBook,
    pub(super) days: DayLog,
    pub(super) wood: WoodBook,
    /// Whether the files say a rule of readiness.
    pub(super) rules: bool,
    pub(super) layouts: Layouts,
    pub(super) use_book: UseBook,
    pub(super) plan: PlanBook,
    pub(super) money: MoneyFiles,
}

/// Brings the shop in `folder` into a store without clients, as one action with one line in the
/// journal. Times in the files that are relative count from `now`, in the zone of `shop.toml` or,
/// where that names none, in `zone`.
///
/// # Errors
/// [`FilesError::NotEmpty`] for a store with clients; else the first fault met, with its file and
/// line. Nothing of an import that failed is in the store.
pub fn import(
    books: &mut dyn Books,
    folder: &Path,
    now: DateTime<Utc>,
    mint: &mut Mint,
    zone: Tz,
    clock: &dyn DryingClock,
) -> Result<ImportReport, FilesError> {
    let name = folder.file_name().map_or_else(
        || folder.display().to_string(),
        |name| name.to_string_lossy().into_owned(),
    );
    let (name, _) = crate::units::clean_line(&name);
    let words = format!("Brought in the shop from {name}");
    bring_in(
        books,
        Source::Folder(folder),
        Begins::Action(&words),
        (now, zone),
        mint,
        clock,
    )
}

/// What an import is in the journal, with its words.
#[derive(Clone, Copy)]
pub(super) enum Begins<'a> {
    /// An action like any other.
    Action(&'a str),
    /// The beginning of the shop, which is not undone.
    Shop(&'a str),
}

/// The same from any source.
pub(super) fn bring_in(
    books: &mut dyn Books,
    source: Source<'_>,
    begins: Begins<'_>,
    (now, zone): (DateTime<Utc>, Tz),
    mint: &mut Mint,
    clock: &dyn DryingClock,
) -> Result<ImportReport, FilesError> {
    let (Begins::Action(words) | Begins::Shop(words)) = begins;
    books.begin()?;
    match inside(books, source, words, (now, zone), mint, clock) {
        Ok(report) => {
            match begins {
                Begins::Action(_) => books.commit(now, &report.words)?,
                Begins::Shop(_) => books.commit_start(now, &report.words)?,
            }
            Ok(report)
        }
        Err(error) => {
            books.rollback();
            Err(error)
        }
    }
}

fn inside(
    books: &mut dyn Books,
    source: Source<'_>,
    words: &str,
    (now, zone): (DateTime<Utc>, Tz),
    mint: &mut Mint,
    clock: &dyn DryingClock,
) -> Result<ImportReport, FilesError> {
    if !books.clients()?.is_empty() || !books.pieces(Scope::All)?.is_empty() {
        return Err(FilesError::NotEmpty);
    }
    let (products, recipes) = (books.products()?, books.recipes()?);
    // Asked inside the transaction: another program on the same store may have written since.
    mint.raise(books.last_id()?);
    let mut reading = Reading {
        source,
        now,
        zone,
        today: now.with_timezone(&zone).date_naive(),
        keys: Keys::new(mint, now.timestamp_millis()),
        notes: Notes::default(),
    };
    let read = read(&mut reading, (&products, &recipes), clock)?;
    put(books, &read, (&products, &recipes))?;
    let Reading { keys, notes, .. } = reading;
    keys.settle();
    let mut report = ImportReport {
        words: String::new(),
        clients: read.clients.len(),
        jobs: read.jobs.len(),
        pieces: read.files.len(),
        products: read.products.len(),
        recipes: read.recipes.len(),
        passes: read.passes.len(),
        events: read.files.iter().map(|file| file.events.len()).sum(),
        readings: read.air.readings.len(),
        notes: notes.0,
    };
    report.words = format!(
        "{words}: {}, {}, {}, {}, {}",
        counted(report.clients, "client", "clients"),
        counted(report.jobs, "job", "jobs"),
        counted(report.pieces, "piece", "pieces"),
        counted(report.passes, "pass", "passes"),
        counted(report.events, "line of work", "lines of work")
    );
    Ok(report)
}

fn read(
    reading: &mut Reading<'_>,
    (products, recipes): (&[Product], &[Recipe]),
    clock: &dyn DryingClock,
) -> Result<Read, FilesError> {
    let settings = tomls::settings(reading)?;
    reading.zone = settings.zone;
    reading.today = reading.now.with_timezone(&settings.zone).date_naive();
    let (shelf, book) = stock(reading, products, recipes)?;
    let (clients, client_ring) = people::clients(reading)?;
    let (jobs, job_ring) = people::jobs(reading, &client_ring)?;
    let (read, piece_ring) = pieces::pieces(reading, &jobs, &job_ring, &book.ring)?;
    let (wood, rules) = woods(reading, &job_ring, &piece_ring)?;
    let mut own = recipes::read_own(reading, &shelf, &piece_ring)?;
    let (mut passes, pass_ring) = passes::read(reading, &shelf)?;

    let place: HashMap<PieceId, usize> = read
        .iter()
        .enumerate()
        .map(|(place, read)| (read.piece.id, place))
        .collect();
    let mut entries: Vec<Vec<log::Entry>> = read.iter().map(|_| Vec::new()).collect();
    log::read(reading, &piece_ring, &pass_ring, &passes, |piece, entry| {
        if let Some(of) = place.get(&piece).and_then(|place| entries.get_mut(*place)) {
            of.push(entry);
        }
    })?;

    for entry in entries.iter().flatten() {
        reading.keys.after(&entry.key);
    }
    let gates = Gates {
        products: &shelf.products,
        clock,
        strictness: Strictness::Record,
        films: None,
    };
    let mut replay = Replay {
        gates,
        lines: Ring::new("line of the log"),
        areas: settings.area(),
    };
    let mut files = Vec::new();
    for (at, (read, entries)) in read.into_iter().zip(entries).enumerate() {
        let mut piece = read.piece;
        piece.schedule = own.remove(&piece.id);
        let recipe = book.recipes.iter().find(|recipe| recipe.id == piece.recipe);
        let schedule = piece
            .schedule
            .clone()
            .or_else(|| recipe.map(|recipe| recipe.schedule.clone()));
        let Some(schedule) = schedule else {
            let key = piece.recipe.to_string();
            return Err(super::Fault::Unknown {
                what: "recipe",
                key,
            }
            .at("pieces.csv", read.line));
        };
        let mut file = PieceFile {
            piece,
            schedule,
            events: Vec::new(),
        };
        replay.piece(reading, (at, &read.called), &mut file, entries, &mut passes)?;
        files.push(file);
    }
    passes::settle(&mut passes, &shelf, &mut files)?;
    let pass_of = |key: &str| {
        let at = pass_ring.find(key)?;
        let unknown = || super::Fault::Unknown {
            what: "pass",
            key: key.to_owned(),
        };
        passes.get(at).map(|read| read.pass.id).ok_or_else(unknown)
    };
    let use_book = use_book::read(reading, &shelf, pass_of)?;
    let (cans, can_ring) = cans::read(reading, &shelf, &client_ring, &job_ring)?;
    draws::read(reading, &cans, &can_ring, &pass_ring, &mut passes)?;
    let passes = passes.into_iter().map(|read| read.pass).collect();
    let air = AirBook::read(reading, &shelf)?;
    let days = days::read(reading)?;
    let layouts = layout::read(reading, &piece_ring, &files)?;
    let plan = bench::read(reading, &job_ring, &piece_ring)?;
    let money = MoneyFiles::read(reading, &job_ring, &piece_ring, &files)?;
    let (products, recipes) = (shelf.products, book.recipes);
    Ok(Read {
        settings,
        products,
        recipes,
        clients,
        jobs,
        files,
        passes,
        cans,
        air,
        days,
        wood,
        rules,
        layouts,
        use_book,
        plan,
        money,
    })
}

/// What the files say about wood; with it whether they say a rule of readiness.
fn woods(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    pieces: &Ring<PieceId>,
) -> Result<(WoodBook, bool), FilesError> {
    let (own, rule) = own_woods::read(reading)?;
    let mut book = WoodBook {
        own,
        rule: rule.unwrap_or_default(),
        ..WoodBook::default()
    };
    book.sites = wood::sites(reading, jobs)?;
    book.pieces = fastening::fastening(reading, pieces, &book.table())?;
    book.readings = wood::readings(reading, pieces)?;
    Ok((book, rule.is_some()))
}

/// Products and recipes of the files; where the files list neither, those that the store has.
fn stock(
    reading: &mut Reading<'_>,
    products: &[Product],
    recipes: &[Recipe],
) -> Result<(Shelf, Book), FilesError> {
    let mut shelf = shelf::read(reading, products)?;
    let keeps = shelf.products.is_empty();
    if keeps {
        for product in products {
            // Known by name as well, since nobody types an identifier. Names are their own.
            let _ = shelf.ring.hang(&product.id.to_string(), product.id);
            let _ = shelf.ring.hang(&product.name, product.id);
        }
        shelf.products = products.to_vec();
    }
    let mut book = recipes::read(reading, &shelf, recipes)?;
    if keeps {
        let named = |old: &Recipe| {
            book.recipes
                .iter()
                .any(|new| new.name.eq_ignore_ascii_case(&old.name))
        };
        let kept: Vec<Recipe> = recipes.iter().filter(|old| !named(old)).cloned().collect();
        for recipe in kept {
            let _ = book.ring.hang(&recipe.id.to_string(), recipe.id);
            let _ = book.ring.hang(&recipe.name, recipe.id);
            book.recipes.push(recipe);
        }
    }
    Ok((shelf, book))
}
