//! `woods.toml`: the shop's own woods and its rule of readiness. Need not be there.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::shelf::table;
use super::text::{self, LINE_MOST, NAME_MOST};
use super::tomls::{Read, quoted, value};
use super::words;
use crate::shop::{ShopWood, WoodId};
use crate::wood::moisture::{MoistureContent, ReadyRule};
use crate::wood::species::{OwnWood, SpeciesTable};
use serde::Deserialize;
use std::fmt::Write as _;
use toml::Spanned;

pub(super) const FILE: &str = "woods.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    rule: Option<Spanned<RuleRow>>,
    #[serde(default)]
    wood: Vec<Spanned<WoodRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleRow {
    days_apart: u16,
    within: String,
    care_over: String,
    stop_over: String,
    fresh_days: u16,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WoodRow {
    id: String,
    name: String,
    #[serde(default)]
    botanical: String,
    shrinkage: Option<[String; 2]>,
    change: Option<[String; 2]>,
    gravity: Option<String>,
    #[serde(default)]
    source: String,
}

/// A figure to so many decimals.
fn figure(what: &'static str, text: &str, places: u32) -> Result<f64, Fault> {
    let parts = words::undecimal(text.trim(), places);
    #[allow(clippy::cast_precision_loss)] // the desk refuses what is anywhere near that great
    let read = parts.map(|parts| parts as f64 / 10_f64.powi(places.cast_signed()));
    value(
        what,
        read.ok_or_else(|| format!("\"{}\" is no figure.", super::table::short(text))),
    )
}

fn pair(
    what: &'static str,
    texts: Option<&[String; 2]>,
    places: u32,
) -> Result<Option<(f64, f64)>, Fault> {
    texts
        .map(|[radial, tangential]| {
            Ok((
                figure(what, radial, places)?,
                figure(what, tangential, places)?,
            ))
        })
        .transpose()
}

fn content(what: &'static str, text: &str) -> Result<MoistureContent, Fault> {
    value(
        what,
        MoistureContent::parse(text).map_err(|error| error.to_string()),
    )
}

/// The shop's own woods and its rule, if the files say one.
type Woods = (Vec<ShopWood>, Option<ReadyRule>);

/// Reads them.
pub(super) fn read(reading: &mut Reading<'_>) -> Result<Woods, FilesError> {
    let file = match Read::<File>::file(&reading.source, FILE) {
        Ok(file) => file,
        Err(FilesError::NoFile { .. }) => return Ok((Vec::new(), None)),
        Err(error) => return Err(error),
    };
    let rule = match &file.what.rule {
        None => None,
        Some(spanned) => {
            let line = file.line(spanned);
            Some(rule(spanned.get_ref()).map_err(|fault| fault.at(FILE, line))?)
        }
    };
    let (mut out, mut known) = (Vec::new(), SpeciesTable::new());
    let mut ring: Ring<WoodId> = Ring::new("wood");
    for spanned in &file.what.wood {
        let line = file.line(spanned);
        let row = spanned.get_ref();
        let at = |fault: Fault| fault.at(FILE, line);
        let key = value("id", key_word(&row.id)).map_err(at)?;
        let id = reading.keys.of(&key);
        let id = WoodId(id.ok_or_else(|| at(ring.twice(&key)))?);
        ring.hang(&key, id).map_err(at)?;
        let mut clean = |what, text: &str, most| {
            let (text, left_out) = text::line(what, text, most).map_err(at)?;
            reading.notes.left_out(FILE, line, what, left_out);
            Ok::<_, FilesError>(text)
        };
        let wood = OwnWood {
            name: clean("name", &row.name, NAME_MOST)?,
            botanical: clean("botanical", &row.botanical, NAME_MOST)?,
            source: clean("source", &row.source, LINE_MOST)?,
            shrinkage: pair("shrinkage", row.shrinkage.as_ref(), 3).map_err(at)?,
            coefficients: pair("change", row.change.as_ref(), 8).map_err(at)?,
            gravity: match &row.gravity {
                Some(text) => Some(figure("gravity", text, 3).map_err(at)?),
                None => None,
            },
        };
        known.add(wood.clone()).map_err(|error| {
            let why = super::table::tidy(&error.to_string());
            at(Fault::Value { what: "wood", why })
        })?;
        out.push(ShopWood { id, wood });
    }
    Ok((out, rule))
}

fn rule(row: &RuleRow) -> Result<ReadyRule, Fault> {
    let rule = ReadyRule {
        days_apart: row.days_apart,
        within: figure("within", &row.within, 1)?,
        care_over: content("care_over", &row.care_over)?,
        stop_over: content("stop_over", &row.stop_over)?,
        fresh_days: row.fresh_days,
    };
    value("rule", rule.check().map_err(|error| error.to_string()))?;
    Ok(rule)
}

/// A figure as whole parts of so many decimals, written back.
fn written(figure: f64, places: u32) -> String {
    #[allow(clippy::cast_possible_truncation)] // no such figure is that great
    let parts = (figure * 10_f64.powi(places.cast_signed())).round() as i64;
    quoted(&words::decimal(parts, places))
}

/// Writes them, the rule first.
pub(super) fn write(own: &[ShopWood], rule: &ReadyRule) -> String {
    let mut out = String::new();
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        "[rule]\ndays_apart = {}\nwithin = {}\ncare_over = {}\nstop_over = {}\nfresh_days = {}\n",
        rule.days_apart,
        written(rule.within, 1),
        quoted(&rule.care_over.show()),
        quoted(&rule.stop_over.show()),
        rule.fresh_days
    );
    for own in own {
        let wood = &own.wood;
        let pair = |pair: (f64, f64), places| {
            format!("[{}, {}]", written(pair.0, places), written(pair.1, places))
        };
        let mut lines = vec![
            ("id", quoted(&own.id.to_string())),
            ("name", quoted(&wood.name)),
            ("botanical", quoted(&wood.botanical)),
        ];
        lines.extend(wood.shrinkage.map(|of| ("shrinkage", pair(of, 3))));
        lines.extend(wood.coefficients.map(|of| ("change", pair(of, 8))));
        lines.extend(wood.gravity.map(|of| ("gravity", written(of, 3))));
        lines.push(("source", quoted(&wood.source)));
        table(&mut out, "wood", &lines);
    }
    out
}
