//! `air.csv` and `drying.toml`: the log of the shop's air with its forecast, and what is set about
//! drying. Both may be missing: a shop that has nothing to say in them writes none.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::meaning::{Words, pick, word};
use super::shelf::Shelf;
use super::table::{Line, Table, short};
use super::text::guard;
use super::times::{moment, read_moment};
use super::tomls::{self, quoted, value};
use super::words;
use crate::coating::{
    AirReading, Assumed, Care, Forecast, ForecastStep, ModelSettings, ProductId, ShopAir,
};
use crate::desk::{AirSource, AirSpan, Books, BooksError, DryingRules, LoggedAir, Row};
use chrono::{DateTime, SubsecRound, Utc};
use serde::Deserialize;
use std::collections::{BTreeMap, HashSet};
use std::fmt::Write as _;
use toml::Spanned;

pub(super) const FILE: &str = "air.csv";
pub(super) const RULES: &str = "drying.toml";
pub(super) const AIR: &[&str] = &["at", "until", "temperature", "humidity", "source"];

const CARES: Words<Care> = &[(Care::Safe, "safe"), (Care::Strict, "strict")];
/// The word of a row that is foretold, not read.
const FORETOLD: &str = "forecast";

/// What the store has of the shop's air and of drying, or a folder of files.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct AirBook {
    pub(super) readings: Vec<LoggedAir>,
    pub(super) forecast: Vec<ForecastStep>,
    pub(super) rules: DryingRules,
    pub(super) afresh: BTreeMap<ProductId, DateTime<Utc>>,
}

impl AirBook {
    /// Everything that is in the store.
    pub(super) fn of(books: &dyn Books) -> Result<Self, BooksError> {
        let whole = AirSpan {
            from: DateTime::<Utc>::MIN_UTC,
            to: None,
        };
        Ok(Self {
            readings: books.air(whole)?,
            forecast: books.forecast()?,
            rules: books.drying_rules()?,
            afresh: books.afresh()?.into_iter().collect(),
        })
    }

    /// Writes everything, as part of an action.
    pub(super) fn put(&self, books: &mut dyn Books) -> Result<(), BooksError> {
        for reading in &self.readings {
            books.put(Row::Air(reading))?;
        }
        if !self.forecast.is_empty() {
            books.put(Row::Forecast(&self.forecast))?;
        }
        if self.rules != DryingRules::default() {
            books.put(Row::DryingRules(&self.rules))?;
        }
        for (product, at) in &self.afresh {
            books.put(Row::Afresh(*product, *at))?;
        }
        Ok(())
    }

    /// The text of `air.csv`, row by row: there may be a million; none where there is nothing to
    /// write.
    pub(super) fn table(&self) -> Result<Option<Vec<u8>>, csv::Error> {
        if self.readings.is_empty() && self.forecast.is_empty() {
            return Ok(None);
        }
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(AIR)?;
        let mut row = |at: &str, until: &str, air: ShopAir, source: &str| {
            let (temperature, humidity) = (
                words::temperature(air.temperature),
                words::humidity(air.humidity),
            );
            let cells = [at, until, &temperature, &humidity, source];
            writer.write_record(cells.map(guard))
        };
        for read in &self.readings {
            row(
                &moment(read.reading.at),
                "",
                read.reading.air,
                read.source.word(),
            )?;
        }
        for step in &self.forecast {
            row(&moment(step.from), &moment(step.until), step.air, FORETOLD)?;
        }
        writer.flush()?;
        writer
            .into_inner()
            .map(Some)
            .map_err(|error| csv::Error::from(error.into_error()))
    }

    /// The text of `drying.toml`; none where there is nothing to write.
    pub(super) fn text(&self) -> Option<String> {
        if self.rules == DryingRules::default() && self.afresh.is_empty() {
            return None;
        }
        let law = self.rules.law;
        let mut out = format!(
            "care = \"{}\"\ncap_thousandths = {}\ndamp_slows_oil = {}\n",
            word(CARES, &law.safe),
            law.cap,
            law.oil_humidity
        );
        // Writing to a String cannot fail.
        if let Assumed::Air(air) = self.rules.assumed {
            let _ = writeln!(
                out,
                "assumed_temperature = \"{}\"\nassumed_humidity = \"{}\"",
                words::temperature(air.temperature),
                words::humidity(air.humidity)
            );
        }
        for (product, at) in &self.afresh {
            let _ = write!(
                out,
                "\n[[learns_afresh]]\nproduct = {}\nsince = \"{}\"\n",
                quoted(&product.to_string()),
                moment(*at)
            );
        }
        Some(out)
    }

    /// Reads both files, as far as they are there.
    pub(super) fn read(reading: &mut Reading<'_>, shelf: &Shelf) -> Result<Self, FilesError> {
        let mut book = Self::default();
        if reading.source.has(FILE) {
            book.read_rows(reading)?;
        }
        if reading.source.has(RULES) {
            book.read_rules(reading, shelf)?;
        }
        Ok(book)
    }

    fn read_rows(&mut self, reading: &Reading<'_>) -> Result<(), FilesError> {
        let (now, zone) = (reading.now, reading.zone);
        let mut seen = HashSet::new();
        let mut last = 1;
        Table::open(&reading.source, FILE, AIR)?.each(|line| {
            last = line.no;
            let at = |text: &str| read_moment(text, now, zone).map(|at| at.trunc_subsecs(0));
            let when = line.must("at", "write when the air was read", at)?;
            let until = line.maybe("until", at)?;
            let air = ShopAir {
                temperature: line.must(
                    "temperature",
                    "write it like 20 C",
                    words::read_temperature,
                )?,
                humidity: line.must("humidity", "write it like 45 %", words::read_humidity)?,
            };
            let source = source(line)?;
            match (source, until) {
                (None, Some(until)) => self.forecast.push(ForecastStep {
                    from: when,
                    until,
                    air,
                }),
                (None, None) => {
                    let cure = "a forecast says until when".to_owned();
                    return Err(line.fail(Fault::Empty {
                        what: "until",
                        cure,
                    }));
                }
                (Some(_), Some(_)) => line.nothing_in(&["until"], "a reading")?,
                (Some(_), None) if when > now => {
                    return Err(line.bad("at", "the air was read at a time still to come."));
                }
                (Some(_), None) if !seen.insert(when) => {
                    return Err(line.bad("at", "another reading has the same second."));
                }
                (Some(source), None) => self.readings.push(LoggedAir {
                    reading: AirReading { at: when, air },
                    source,
                }),
            }
            Ok(())
        })?;
        self.readings.sort_by_key(|row| row.reading.at);
        let forecast = Forecast::new(std::mem::take(&mut self.forecast)).map_err(|error| {
            let why = error.to_string();
            Fault::Value { what: "until", why }.at(FILE, last)
        })?;
        self.forecast = forecast.steps().to_vec();
        Ok(())
    }

    fn read_rules(&mut self, reading: &Reading<'_>, stock: &Shelf) -> Result<(), FilesError> {
        let file = tomls::Read::<RulesRow>::file(&reading.source, RULES)?;
        let row = &file.what;
        let at = |line: u64, fault: Fault| fault.at(RULES, line);
        let care = pick(CARES, row.care.get_ref())
            .map_err(|why| at(file.line(&row.care), Fault::Value { what: "care", why }))?;
        let cap = *row.cap_thousandths.get_ref();
        if !(1000..=1500).contains(&cap) {
            let why = format!("{cap} is not between 1000 and 1500.");
            let what = "cap_thousandths";
            return Err(at(
                file.line(&row.cap_thousandths),
                Fault::Value { what, why },
            ));
        }
        self.rules.law = ModelSettings {
            safe: care,
            cap,
            oil_humidity: row.damp_slows_oil,
        };
        self.rules.assumed = match (&row.assumed_temperature, &row.assumed_humidity) {
            (None, None) => Assumed::LabelConditions,
            (Some(warmth), Some(damp)) => {
                let (warm, wet) = (
                    words::read_temperature(warmth.get_ref()),
                    words::read_humidity(damp.get_ref()),
                );
                Assumed::Air(ShopAir {
                    temperature: value("assumed_temperature", warm)
                        .map_err(|fault| at(file.line(warmth), fault))?,
                    humidity: value("assumed_humidity", wet)
                        .map_err(|fault| at(file.line(damp), fault))?,
                })
            }
            (Some(part), None) | (None, Some(part)) => {
                let why = "air has a temperature and a humidity; write both or none.".to_owned();
                let what = "assumed air";
                return Err(at(file.line(part), Fault::Value { what, why }));
            }
        };
        for part in &row.learns_afresh {
            let line = file.line(&part.product);
            let product = stock
                .ring
                .find(part.product.get_ref())
                .map_err(|fault| at(line, fault))?;
            let since = read_moment(part.since.get_ref(), reading.now, reading.zone);
            let since = value("since", since).map_err(|fault| at(line, fault))?;
            self.afresh.insert(product, since);
        }
        Ok(())
    }
}

/// Where a reading came from; none for what is foretold.
fn source(line: &Line<'_>) -> Result<Option<AirSource>, FilesError> {
    match line.cell("source") {
        "typed" | "" => Ok(Some(AirSource::Typed)),
        "logger" => Ok(Some(AirSource::Logger)),
        FORETOLD => Ok(None),
        other => {
            let other = short(other);
            let why = format!("\"{other}\" is not one of typed, logger, forecast.");
            Err(line.bad("source", &why))
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RulesRow {
    care: Spanned<String>,
    cap_thousandths: Spanned<i32>,
    damp_slows_oil: bool,
    assumed_temperature: Option<Spanned<String>>,
    assumed_humidity: Option<Spanned<String>>,
    #[serde(default)]
    learns_afresh: Vec<AfreshRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AfreshRow {
    product: Spanned<String>,
    since: Spanned<String>,
}
