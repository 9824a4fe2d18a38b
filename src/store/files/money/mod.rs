//! The files about money and hours. Each is written where there is something to say in it, and none
//! must be there: shops written before there were any have none.
//!
//! Lives here: their columns, reading and writing. May not live here: SQL, or rules beyond what a
//! store could not hold (the desk's rules were kept when the records were made).

mod bills;
mod deals;
mod estimates;
mod hours;
mod prices;

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::people::ID_CURE;
use super::table::{Line, Table, write};
use super::times;
use crate::desk::{Books, BooksError, HoursOf, MoneyRow, Row};
use crate::money::Percent;
use crate::shop::{HoursEntry, JobId, MoneyBook, PieceFile, PieceId, PriceBook, Signed};
use crate::units::Money;
use chrono::NaiveDate;
use uuid::Uuid;

/// The files about money and hours.
pub const MONEY_NAMES: [&str; 14] = [
    prices::FILE,
    deals::TERMS_FILE,
    deals::ITEMS_FILE,
    estimates::FILE,
    estimates::LINES_FILE,
    estimates::STEPS_FILE,
    deals::AGREEMENTS_FILE,
    deals::DUE_FILE,
    deals::CHANGES_FILE,
    bills::SAMPLES_FILE,
    bills::INVOICES_FILE,
    bills::PAYMENTS_FILE,
    hours::FILE,
    hours::BREAKS_FILE,
];

/// All of it.
#[derive(Debug, Default)]
pub(super) struct MoneyFiles {
    prices: Option<PriceBook>,
    book: MoneyBook,
    hours: Vec<HoursEntry>,
}

type Texts = Vec<(&'static str, Vec<u8>)>;

impl MoneyFiles {
    /// What the store has.
    pub(super) fn of(books: &dyn Books) -> Result<Self, BooksError> {
        let mut all = Self {
            prices: books.price_book()?,
            book: books.money()?,
            hours: books.hours(HoursOf::All)?,
        };
        let book = &mut all.book;
        book.terms.sort_by_key(|of| of.job);
        book.estimates.sort_by_key(|of| of.id);
        book.agreements.sort_by_key(|of| of.job);
        book.changes.sort_by_key(|of| of.id);
        book.samples.sort_by_key(|of| of.id);
        book.invoices.sort_by_key(|of| of.no);
        book.payments.sort_by_key(|of| of.no);
        all.hours.sort_by_key(|of| (of.started, of.id));
        Ok(all)
    }

    /// The files that have something to say.
    pub(super) fn texts(&self) -> Result<Texts, csv::Error> {
        let mut texts: Texts = Vec::new();
        if let Some(book) = &self.prices {
            texts.push((prices::FILE, prices::write(book).into_bytes()));
        }
        let book = &self.book;
        for (file, columns, rows) in [
            deals::terms_table(book),
            deals::items_table(book),
            estimates::table(book),
            estimates::lines_table(book),
            estimates::steps_table(book),
            deals::agreements_table(book),
            deals::due_table(book),
            deals::changes_table(book),
            bills::samples_table(book),
            bills::invoices_table(book),
            bills::payments_table(book),
            hours::table(&self.hours),
            hours::breaks_table(&self.hours),
        ] {
            if !rows.is_empty() {
                texts.push((file, write(columns, &rows)?));
            }
        }
        Ok(texts)
    }

    /// Reads what is there.
    pub(super) fn read(
        reading: &mut Reading<'_>,
        jobs: &Ring<JobId>,
        pieces: &Ring<PieceId>,
        files: &[PieceFile],
    ) -> Result<Self, FilesError> {
        let prices = prices::read(reading)?;
        let terms = deals::read_terms(reading, jobs)?;
        let (estimates, ring) = estimates::read(reading, jobs)?;
        let agreements = deals::read_agreements(reading, jobs, &ring)?;
        let changes = deals::read_changes(reading, jobs, &agreements)?;
        let samples = bills::read_samples(reading, jobs)?;
        let (invoices, ring) = bills::read_invoices(reading, jobs)?;
        let payments = bills::read_payments(reading, jobs, &ring)?;
        let hours = hours::read(reading, jobs, pieces, files)?;
        Ok(Self {
            prices,
            book: MoneyBook {
                terms,
                estimates,
                agreements,
                changes,
                samples,
                invoices,
                payments,
            },
            hours,
        })
    }

    /// Writes it into a store.
    pub(super) fn put(&self, books: &mut dyn Books) -> Result<(), BooksError> {
        let book = &self.book;
        let rows = self.prices.iter().map(MoneyRow::Prices);
        let rows = rows
            .chain(book.terms.iter().map(MoneyRow::Terms))
            .chain(book.estimates.iter().map(MoneyRow::Estimate))
            .chain(book.agreements.iter().map(MoneyRow::Agreement))
            .chain(book.changes.iter().map(MoneyRow::Change))
            .chain(book.samples.iter().map(MoneyRow::Sample))
            .chain(book.invoices.iter().map(MoneyRow::Invoice))
            .chain(book.payments.iter().map(MoneyRow::Payment))
            .chain(self.hours.iter().map(MoneyRow::Hours));
        for row in rows {
            books.put(Row::Money(row))?;
        }
        Ok(())
    }
}

/// A table as it is written: its file, its columns, its rows.
type Out = (&'static str, &'static [&'static str], Vec<Vec<String>>);

/// `1250.00`.
fn cents(amount: Money) -> String {
    let (size, sign) = (
        amount.cents().unsigned_abs(),
        if amount < Money::ZERO { "-" } else { "" },
    );
    format!("{sign}{}.{:02}", size / 100, size % 100)
}

fn maybe_date(date: Option<NaiveDate>) -> String {
    date.map_or_else(String::new, times::date)
}

fn signature(signed: Option<&Signed>) -> [String; 2] {
    signed.map_or_else(Default::default, |of| [times::date(of.on), of.by.clone()])
}

/// Every row of a file that need not be there.
fn each(
    reading: &mut Reading<'_>,
    file: &'static str,
    columns: &'static [&'static str],
    mut take: impl FnMut(&mut Reading<'_>, &Line<'_>) -> Result<(), FilesError>,
) -> Result<(), FilesError> {
    if !reading.source.has(file) {
        return Ok(());
    }
    let source = reading.source;
    Table::open(&source, file, columns)?.each(|line| take(reading, line))
}

fn money(line: &Line<'_>, column: &'static str) -> Result<Money, FilesError> {
    line.must(column, "write an amount like 1250.00", |text| {
        Money::parse(text).map_err(|error| error.to_string())
    })
}

fn percent(text: &str) -> Result<Percent, String> {
    Percent::parse(text).map_err(|error| error.to_string())
}

fn date(
    reading: &Reading<'_>,
    line: &Line<'_>,
    column: &'static str,
) -> Result<NaiveDate, FilesError> {
    line.must(column, "write a date like 2026-11-20", |text| {
        times::read_date(text, reading.today)
    })
}

fn whole(line: &Line<'_>, column: &'static str) -> Result<u32, FilesError> {
    line.must(column, "write a whole number from 1", |text| {
        let number = text.parse::<u32>().ok().filter(|no| *no >= 1);
        number.ok_or_else(|| format!("\"{text}\" is no whole number from 1."))
    })
}

fn known<T: Copy>(line: &Line<'_>, column: &'static str, ring: &Ring<T>) -> Result<T, FilesError> {
    line.must(column, "write the id it has in its own file", |key| {
        ring.find(key).map_err(|fault| fault.to_string())
    })
}

/// The identifier of a row, hung on its ring.
fn named<T: Copy>(
    reading: &mut Reading<'_>,
    line: &Line<'_>,
    ring: &mut Ring<T>,
    make: fn(Uuid) -> T,
) -> Result<T, FilesError> {
    let key = line.must("id", ID_CURE, key_word)?;
    let id = reading.keys.of(&key);
    let id = make(id.ok_or_else(|| line.fail(ring.twice(&key)))?);
    ring.hang(&key, id).map_err(|fault| line.fail(fault))?;
    Ok(id)
}

/// Both cells of a signature, or neither.
fn signed(
    reading: &mut Reading<'_>,
    line: &Line<'_>,
    on: &'static str,
    by: &'static str,
) -> Result<Option<Signed>, FilesError> {
    let name = line.line(by, super::text::NAME_MOST, &mut reading.notes)?;
    let day = line.maybe(on, |text| times::read_date(text, reading.today))?;
    match (day, name.is_empty()) {
        (None, true) => Ok(None),
        (Some(on), false) => Ok(Some(Signed { on, by: name })),
        (Some(_), true) => Err(line.bad(by, "write who signed, or leave the day empty too.")),
        (None, false) => {
            Err(line.bad(on, "write when it was signed, or leave the name empty too."))
        }
    }
}

/// Refuses a number that was given before.
fn once<K: std::hash::Hash + Eq>(
    line: &Line<'_>,
    seen: &mut std::collections::HashSet<K>,
    key: K,
    what: &'static str,
    shown: &str,
) -> Result<(), FilesError> {
    if seen.insert(key) {
        return Ok(());
    }
    let key = shown.to_owned();
    Err(line.fail(Fault::Twice { what, key }))
}
