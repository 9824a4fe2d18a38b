//! TOML: read with the line of every fault, and the settings in `shop.toml`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::meaning::{LENGTHS, LOOKS, TEMPERATURES, VOLUMES, pick, word};
use super::source::Source;
use super::text::{self, LINE_MOST, NAME_MOST};
use super::{FORMAT, OLDEST};
use crate::shop::Settings;
use chrono_tz::Tz;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::fmt::Write as _;
use toml::Spanned;

/// A file read, with its text for finding lines.
pub(super) struct Read<T> {
    pub(super) what: T,
    text: String,
}

impl<T: DeserializeOwned> Read<T> {
    pub(super) fn file(source: &Source<'_>, file: &'static str) -> Result<Self, FilesError> {
        let text = source.text(file)?;
        match toml::from_str(&text) {
            Ok(what) => Ok(Self { what, text }),
            Err(error) => {
                let line = line_of(&text, error.span().map_or(0, |span| span.start));
                // What the reader says may run over several lines; one sentence is enough.
                let said = error.message().lines().collect::<Vec<_>>().join(", ");
                Err(Fault::Syntax(super::table::tidy(&said)).at(file, line))
            }
        }
    }
}

impl<T> Read<T> {
    /// The line at which a part starts.
    pub(super) fn line<P>(&self, part: &Spanned<P>) -> u64 {
        line_of(&self.text, part.span().start)
    }
}

fn line_of(text: &str, at: usize) -> u64 {
    1 + text.bytes().take(at).filter(|b| *b == b'\n').count() as u64
}

/// A text as TOML writes it.
pub(super) fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {
                // Writing to a String cannot fail.
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// A value that does not read, at its place.
pub(super) fn value<T>(what: &'static str, read: Result<T, String>) -> Result<T, Fault> {
    read.map_err(|why| Fault::Value {
        what,
        why: super::table::tidy(&why),
    })
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShopRow {
    format: i64,
    name: Spanned<String>,
    address: Spanned<String>,
    lengths: Spanned<String>,
    temperatures: Spanned<String>,
    volumes: Spanned<String>,
    zone: Option<Spanned<String>>,
    look: Spanned<String>,
}

/// Only the number, so that a newer file is told apart from a wrong one.
#[derive(Deserialize)]
struct FormatRow {
    format: Spanned<i64>,
}

const FILE: &str = "shop.toml";

/// Reads the settings; where the file names no zone, `reading.zone` stays in force.
pub(super) fn settings(reading: &mut Reading<'_>) -> Result<Settings, FilesError> {
    let format = Read::<FormatRow>::file(&reading.source, FILE)?;
    let found = *format.what.format.get_ref();
    if !(OLDEST..=FORMAT).contains(&found) {
        let line = format.line(&format.what.format);
        let fault = if found > FORMAT {
            Fault::Newer {
                found,
                known: FORMAT,
            }
        } else {
            Fault::Value {
                what: "format",
                why: format!("there is no format {found}; write {FORMAT}."),
            }
        };
        return Err(fault.at(FILE, line));
    }
    let file = Read::<ShopRow>::file(&reading.source, FILE)?;
    let row = &file.what;
    debug_assert_eq!(row.format, found);
    let at = |part: &Spanned<String>, fault: Fault| fault.at(FILE, file.line(part));
    let mut clean = |what, part: &Spanned<String>, most| {
        let (text, left_out) =
            text::line(what, part.get_ref(), most).map_err(|fault| at(part, fault))?;
        reading
            .notes
            .left_out(FILE, file.line(part), what, left_out);
        Ok::<_, FilesError>(text)
    };
    let shop_name = clean("name", &row.name, NAME_MOST)?;
    let shop_address = clean("address", &row.address, LINE_MOST)?;
    let zone = match &row.zone {
        None => reading.zone,
        Some(part) => part.get_ref().parse::<Tz>().map_err(|_| {
            let why = format!(
                "\"{}\" is no time zone; write one like America/Denver.",
                super::table::short(part.get_ref())
            );
            at(part, Fault::Value { what: "zone", why })
        })?,
    };
    let (l, t, v, k) = (&row.lengths, &row.temperatures, &row.volumes, &row.look);
    let picked = |what, part: &Spanned<String>, why| at(part, Fault::Value { what, why });
    Ok(Settings {
        shop_name,
        shop_address,
        length: pick(LENGTHS, l.get_ref()).map_err(|why| picked("lengths", l, why))?,
        temperature: pick(TEMPERATURES, t.get_ref())
            .map_err(|why| picked("temperatures", t, why))?,
        volume: pick(VOLUMES, v.get_ref()).map_err(|why| picked("volumes", v, why))?,
        zone,
        look: pick(LOOKS, k.get_ref()).map_err(|why| picked("look", k, why))?,
    })
}

/// Writes the settings.
pub(super) fn write_settings(settings: &Settings) -> String {
    format!(
        "format = {FORMAT}\nname = {}\naddress = {}\nlengths = \"{}\"\ntemperatures = \"{}\"\n\
         volumes = \"{}\"\nzone = {}\nlook = \"{}\"\n",
        quoted(&settings.shop_name),
        quoted(&settings.shop_address),
        word(LENGTHS, &settings.length),
        word(TEMPERATURES, &settings.temperature),
        word(VOLUMES, &settings.volume),
        quoted(settings.zone.name()),
        word(LOOKS, &settings.look),
    )
}
