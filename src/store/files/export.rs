//! Writing the whole shop out.

use super::air::{self, AirBook};
use super::days;
use super::draws;
use super::error::FilesError;
use super::fastening;
use super::log::{self, event_row};
use super::money::MoneyFiles;
use super::openings::{self, opening_rows};
use super::own_woods;
use super::passes::{self, pass_row};
use super::people::{self, client_row, job_row};
use super::pieces::{self, piece_row};
use super::recipes;
use super::shelf;
use super::table::{pour, write};
use super::tomls;
use super::use_book;
use super::wood;
use super::{bench, bench_write, can_log, cans};
use super::{layout, layout_write};
use crate::desk::{Books, Scope, Shop};
use crate::shop::{CanRecords, What};
use crate::store::os;
use chrono_tz::Tz;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

/// What was written, and is on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ExportReport {
    /// The folder.
    pub folder: PathBuf,
    /// Clients.
    pub clients: usize,
    /// Jobs.
    pub jobs: usize,
    /// Pieces.
    pub pieces: usize,
    /// Passes.
    pub passes: usize,
    /// Lines of the pieces' logs.
    pub events: usize,
    /// Readings of the shop's air.
    pub readings: usize,
}

/// Writes the whole shop into a new folder: the files of the format that `demo-data/README.md`
/// describes. Two exports of equal shops are equal byte for byte. `zone` counts where no settings
/// were saved. On unix the folder is for its owner alone (0700), and so are the files (0600).
///
/// # Errors
/// [`FilesError::FolderTaken`] when there is anything in the folder already; what was written
/// before another error is taken away again.
pub fn export(books: &dyn Books, folder: &Path, zone: Tz) -> Result<ExportReport, FilesError> {
    let shop = sorted(Shop::read(books, Scope::All, zone)?);
    agree(&shop)?;
    let mut texts = texts(&shop).map_err(|error| cannot(folder, &error.to_string()))?;
    let air = AirBook::of(books)?;
    let records = books.cans(Scope::All)?;
    texts.extend(can_texts(&records, &shop).map_err(|error| cannot(folder, &error.to_string()))?);
    texts.extend(bench_write::write(&shop.plan).map(|text| (bench::FILE, text.into_bytes())));
    texts.extend(air_texts(&air).map_err(|error| cannot(folder, &error.to_string()))?);
    let of_use = use_book::write(&shop.use_book);
    texts.extend(of_use.map(|text| (use_book::FILE, text.into_bytes())));
    let money = MoneyFiles::of(books)?;
    texts.extend(
        money
            .texts()
            .map_err(|error| cannot(folder, &error.to_string()))?,
    );
    open_folder(folder)?;
    let mut written = Vec::new();
    for (name, bytes) in texts {
        let path = folder.join(name);
        let poured = create(&path).and_then(|mut file| {
            written.push(path.clone());
            pour(&mut file, &bytes)
        });
        if let Err(error) = poured {
            // Half a shop would be worse than none; what cannot be removed is told as it is.
            for path in written {
                let _ = fs::remove_file(path);
            }
            return Err(cannot(&path, &os::said(&error)));
        }
    }
    #[cfg(unix)]
    File::open(folder)
        .and_then(|folder| folder.sync_all())
        .map_err(|error| cannot(folder, &os::said(&error)))?;
    Ok(ExportReport {
        folder: folder.to_owned(),
        clients: shop.clients.len(),
        jobs: shop.jobs.len(),
        pieces: shop.files.len(),
        passes: shop.passes.len(),
        events: shop.files.iter().map(|file| file.events.len()).sum(),
        readings: air.readings.len(),
    })
}

/// Every list in an order that follows from the shop alone.
fn sorted(mut shop: Shop) -> Shop {
    shop.clients
        .sort_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
    shop.jobs.sort_by_key(|job| (job.no, job.id));
    shop.products
        .sort_by(|a, b| (a.kind, &a.name, a.id).cmp(&(b.kind, &b.name, b.id)));
    shop.recipes
        .sort_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
    shop.passes.sort_by_key(|pass| (pass.started, pass.id));
    let numbers: Vec<_> = shop.jobs.iter().map(|job| (job.id, job.no)).collect();
    let number = |id| {
        numbers
            .iter()
            .find(|(job, _)| *job == id)
            .map(|(_, no)| *no)
    };
    shop.layouts.sort_by_key(|layout| layout.piece);
    shop.files
        .sort_by_cached_key(|file| (number(file.piece.job), file.piece.no, file.piece.id));
    shop
}

/// Coat lines take their kind, product and times from their pass, so they must agree with it.
fn agree(shop: &Shop) -> Result<(), FilesError> {
    let passes: std::collections::HashMap<_, _> =
        shop.passes.iter().map(|pass| (pass.id, pass)).collect();
    for file in &shop.files {
        for event in &file.events {
            let What::Coat {
                pass,
                kind,
                product,
                started,
                ..
            } = &event.what
            else {
                continue;
            };
            let agrees = passes.get(pass).is_some_and(|pass| {
                (pass.kind, pass.product, pass.started, pass.ended)
                    == (*kind, *product, *started, event.at)
            });
            if !agrees {
                let detail = format!("{} and its pass {pass} differ", shop.called(file));
                return Err(FilesError::Disagree { detail });
            }
        }
    }
    Ok(())
}

/// The cans; nothing where there are none.
fn can_texts(
    records: &CanRecords,
    shop: &Shop,
) -> Result<Vec<(&'static str, Vec<u8>)>, csv::Error> {
    if records.cans.is_empty() {
        return Ok(Vec::new());
    }
    let cans: Vec<_> = records.cans.iter().map(cans::can_row).collect();
    let lines: Vec<_> = records.lines.iter().map(can_log::line_row).collect();
    let drawn: Vec<_> = shop.passes.iter().flat_map(draws::draw_rows).collect();
    Ok(vec![
        (cans::CANS_FILE, write(cans::CANS, &cans)?),
        (can_log::FILE, write(can_log::LOG, &lines)?),
        (draws::FILE, write(draws::DRAWS, &drawn)?),
    ])
}

/// The files that are written only where they have something to say.
fn air_texts(air: &AirBook) -> Result<Vec<(&'static str, Vec<u8>)>, csv::Error> {
    let table = air.table()?;
    let mut texts: Vec<(&'static str, Vec<u8>)> =
        table.map(|table| (air::FILE, table)).into_iter().collect();
    texts.extend(air.text().map(|text| (air::RULES, text.into_bytes())));
    Ok(texts)
}

fn texts(shop: &Shop) -> Result<Vec<(&'static str, Vec<u8>)>, csv::Error> {
    let style = shop.settings.length;
    let pieces = || shop.files.iter().map(|file| &file.piece);
    let own = pieces().filter_map(|piece| Some((piece.id, piece.schedule.as_ref()?)));
    let rows = |rows: Vec<Vec<String>>, columns| write(columns, &rows);
    let log = shop.files.iter().flat_map(|file| {
        file.events
            .iter()
            .map(|event| event_row(file.piece.id, event))
    });
    Ok(vec![
        (
            "shop.toml",
            tomls::write_settings(&shop.settings).into_bytes(),
        ),
        ("products.toml", shelf::write(&shop.products).into_bytes()),
        ("recipes.toml", recipes::write(&shop.recipes).into_bytes()),
        (
            "clients.csv",
            rows(
                shop.clients.iter().map(client_row).collect(),
                people::CLIENTS,
            )?,
        ),
        (
            "jobs.csv",
            rows(shop.jobs.iter().map(job_row).collect(), people::JOBS)?,
        ),
        (
            "pieces.csv",
            rows(
                pieces().map(|piece| piece_row(piece, style)).collect(),
                pieces::PIECES,
            )?,
        ),
        (
            "openings.csv",
            rows(
                pieces()
                    .flat_map(|piece| opening_rows(piece, style))
                    .collect(),
                openings::OPENINGS,
            )?,
        ),
        ("schedules.toml", recipes::write_own(own).into_bytes()),
        (
            "passes.csv",
            rows(shop.passes.iter().map(pass_row).collect(), passes::PASSES)?,
        ),
        ("log.csv", rows(log.collect(), log::LOG)?),
        (days::FILE, rows(days::rows(&shop.days), days::DAYS)?),
        (
            own_woods::FILE,
            own_woods::write(&shop.wood.own, &shop.wood.rule).into_bytes(),
        ),
        (
            wood::SITES_FILE,
            rows(
                shop.wood.sites.iter().map(wood::site_row).collect(),
                wood::SITES,
            )?,
        ),
        (
            fastening::FILE,
            rows(
                shop.wood
                    .pieces
                    .iter()
                    .map(|of| fastening::fastening_row(of, style))
                    .collect(),
                fastening::FASTENING,
            )?,
        ),
        (
            wood::MOISTURE_FILE,
            rows(
                shop.wood
                    .readings
                    .iter()
                    .map(|of| wood::reading_row(of, style))
                    .collect(),
                wood::MOISTURE,
            )?,
        ),
        (
            layout::FILE,
            layout_write::write(&shop.layout, &shop.layouts, style).into_bytes(),
        ),
    ])
}

fn cannot(path: &Path, detail: &str) -> FilesError {
    FilesError::CannotWrite {
        path: path.display().to_string(),
        detail: detail.to_owned(),
    }
}

fn open_folder(folder: &Path) -> Result<(), FilesError> {
    let taken = || FilesError::FolderTaken {
        folder: folder.display().to_string(),
    };
    let mut builder = fs::DirBuilder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    match builder.create(folder) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            let mut inside = fs::read_dir(folder).map_err(|_| taken())?;
            if inside.next().is_some() {
                Err(taken())
            } else {
                Ok(())
            }
        }
        Err(error) => Err(cannot(folder, &os::said(&error))),
    }
}

fn create(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o600);
    }
    options.open(path)
}
