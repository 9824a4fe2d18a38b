//! The whole shop as plain files, out and in, and the demo shop that is written in them.
//!
//! Lives here: the format (its reference is `demo-data/README.md`), reading and writing of it,
//! and the replay of every piece's log through the gates on the way in. May not live here: SQL,
//! the screen, or a reading of the clock; the store is met through
//! [`Books`](crate::desk::Books), time is passed in.
//!
//! A piece's stage and whether it is finished are never read: they follow from the replay, so no
//! file gets a piece past coverage or sealing.

mod air;
mod bench;
mod bench_write;
mod can_log;
mod cans;
mod days;
mod demo;
mod draws;
mod error;
mod export;
mod faces;
mod fastening;
mod import;
mod keys;
mod layout;
mod layout_write;
mod log;
mod meaning;
mod money;
mod openings;
mod own_woods;
mod passes;
mod people;
mod pieces;
mod put;
mod recipes;
mod replay;
mod shelf;
mod source;
mod table;
mod text;
mod times;
mod tomls;
mod use_book;
mod wood;
mod words;

pub use demo::{demo_files, load_demo};
pub use error::{Fault, FilesError};
pub use export::{ExportReport, export};
pub use import::{ImportReport, import};
pub use money::MONEY_NAMES;
pub use table::write as guarded_csv;

/// The number of this layout of the files, in `shop.toml`. A change that older versions cannot
/// read gets the next number.
pub const FORMAT: i64 = 2;

/// The oldest layout of the files that is still read.
const OLDEST: i64 = 1;

/// The ten files that belong to every shop, in the order they are read. `layout.toml` stands beside
/// them; a shop of an earlier version has none.
pub const NAMES: [&str; 10] = [
    "shop.toml",
    "products.toml",
    "recipes.toml",
    "clients.csv",
    "jobs.csv",
    "pieces.csv",
    "openings.csv",
    "schedules.toml",
    "passes.csv",
    "log.csv",
];

/// Files of a shop that may be missing: the log of its air with the forecast, and what is set about
/// drying. They are written where there is something to say in them.
pub const AIR_NAMES: [&str; 2] = [air::FILE, air::RULES];
/// What days are planned by, of which the same is true.
pub const BENCH_NAMES: [&str; 1] = [bench::FILE];
/// The days' ends, of which the same is true.
pub const LATER: [&str; 1] = ["day.csv"];
/// What is kept about use, of which the same is true.
pub const USE_NAMES: [&str; 1] = [use_book::FILE];
/// The files about cans, written where there are any. Exports of older versions lack them.
pub const CAN_NAMES: [&str; 3] = [cans::CANS_FILE, can_log::FILE, draws::FILE];
/// The files about wood. Exports of older versions lack them, so none of them must be there.
pub const WOOD_NAMES: [&str; 4] = [
    own_woods::FILE,
    wood::SITES_FILE,
    fastening::FILE,
    wood::MOISTURE_FILE,
];

/// The largest file taken: 256 MiB, some hundred times a long working life's log.
const FILE_MOST: u64 = 256 * 1024 * 1024;
/// The longest cell taken: 1 MiB.
const CELL_MOST: usize = 1024 * 1024;
