//! `layout.toml`: the shop's own figures for layout and cutting, how pieces will stand, and what
//! was accepted. A shop of an earlier version has no such file and says nothing by it.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::Ring;
use super::text::{self, NAME_MOST};
use super::tomls::Read;
use super::words::read_length;
use crate::desk::typed::{
    CheckTyped, FieldError, LumberTyped, RouterTyped, StandingTyped, read_check, read_lumber,
    read_router, read_standing,
};
use crate::shape::layout::{About, Accepted, Rule, Weight};
use crate::shop::{LayoutBook, PieceFile, PieceId, PieceLayout, Settings};
use crate::units::Length;
use chrono_tz::Tz;
use serde::Deserialize;
use std::collections::BTreeMap;
use toml::Spanned;

/// The file.
pub(super) const FILE: &str = "layout.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LayoutFile {
    router: Option<Spanned<RouterRow>>,
    lumber: Option<Spanned<LumberRow>>,
    #[serde(default)]
    check: Vec<Spanned<CheckRow>>,
    #[serde(default)]
    stands: Vec<Spanned<StandsRow>>,
    #[serde(default)]
    accepted: Vec<Spanned<AcceptedRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RouterRow {
    bit: String,
    cutting_length: String,
    flutes: u32,
    rpm: u32,
    chip: String,
    depth: String,
    clean_up: String,
    guide: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LumberRow {
    strip: String,
    end_trim: String,
    side_trim: String,
    kerf: String,
    waste_percent: u32,
    board_width: String,
    board_length: String,
    quarters: u32,
    page: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CheckRow {
    check: String,
    #[serde(default)]
    figure: String,
    weight: String,
    made: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StandsRow {
    piece: String,
    #[serde(default)]
    joints: String,
    #[serde(default)]
    overhangs: String,
    #[serde(default)]
    span: String,
    #[serde(default)]
    appliances: String,
    #[serde(default)]
    drip: String,
    #[serde(default)]
    height: String,
    #[serde(default)]
    accessible: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AcceptedRow {
    piece: String,
    check: String,
    about: String,
    missing: String,
    weight: String,
    reason: String,
}

/// Lengths in the file always have a unit, so that it does not matter in whose shop they are read.
fn settings() -> Settings {
    Settings::starting(Tz::UTC)
}

/// Every length has its unit: a bare number is anybody's guess.
fn units(text: &str) -> Result<(), String> {
    let spread = text.replace(" to ", ";").replace(" every ", ";");
    let bare = spread
        .split([',', ';'])
        .map(str::trim)
        .find(|part| part.ends_with(|c: char| c.is_ascii_digit()));
    match bare {
        Some(part) => Err(format!(
            "\"{}\" has no unit; write in or mm behind each length.",
            super::table::short(part)
        )),
        None => Ok(()),
    }
}

/// The layout of a shop as read.
pub(super) struct Layouts {
    pub(super) book: LayoutBook,
    pub(super) pieces: Vec<PieceLayout>,
}

/// Reads it; pieces are known by their keys.
pub(super) fn read(
    reading: &mut Reading<'_>,
    ring: &Ring<PieceId>,
    files: &[PieceFile],
) -> Result<Layouts, FilesError> {
    let file = match Read::<LayoutFile>::file(&reading.source, FILE) {
        Err(FilesError::NoFile { .. }) => {
            return Ok(Layouts {
                book: LayoutBook::default(),
                pieces: Vec::new(),
            });
        }
        other => other?,
    };
    let book = book(&file)?;
    let mut pieces: BTreeMap<PieceId, PieceLayout> = BTreeMap::new();
    let find = |key: &str, line: u64| {
        let id = ring.find(key).map_err(|fault| fault.at(FILE, line))?;
        Ok::<_, FilesError>((id, line))
    };
    for row in &file.what.stands {
        let (id, line) = find(&row.get_ref().piece, file.line(row))?;
        let standing = stands(row.get_ref()).and_then(|standing| {
            let extent = files
                .iter()
                .find(|file| file.piece.id == id)
                .map(|file| file.piece.shape.outline().extent());
            let (length, width) = extent.unwrap_or_default();
            standing
                .check(length, width)
                .map_err(|error| error.to_string())?;
            Ok(standing)
        });
        let standing = standing.map_err(|why| wrong("stands", &why, line))?;
        let layout = pieces.entry(id).or_insert_with(|| PieceLayout::unsaid(id));
        if !layout.standing.is_unsaid() {
            let key = row.get_ref().piece.clone();
            return Err(Fault::Twice { what: "piece", key }.at(FILE, line));
        }
        layout.standing = standing;
    }
    for row in &file.what.accepted {
        let (id, line) = find(&row.get_ref().piece, file.line(row))?;
        let mut taken = accepted(row.get_ref()).map_err(|why| wrong("accepted", &why, line))?;
        let (reason, left_out) = text::line("reason", &taken.reason, NAME_MOST * 2)
            .map_err(|fault| fault.at(FILE, line))?;
        reading.notes.left_out(FILE, line, "reason", left_out);
        taken.reason = reason;
        let layout = pieces.entry(id).or_insert_with(|| PieceLayout::unsaid(id));
        let twice = |other: &Accepted| other.rule == taken.rule && other.about == taken.about;
        if layout.accepted.iter().any(twice) {
            let key = taken.rule.word().to_owned();
            return Err(Fault::Twice {
                what: "finding",
                key,
            }
            .at(FILE, line));
        }
        layout.accepted.push(taken);
        layout
            .accepted
            .sort_by(|a, b| (a.rule, &a.about).cmp(&(b.rule, &b.about)));
    }
    Ok(Layouts {
        book,
        pieces: pieces.into_values().collect(),
    })
}

fn wrong(what: &'static str, why: &str, line: u64) -> FilesError {
    let why = super::table::tidy(why);
    Fault::Value { what, why }.at(FILE, line)
}

fn first(errors: &[FieldError]) -> String {
    errors.first().map_or_else(String::new, |error| {
        format!("{}: {}", error.field, error.message)
    })
}

fn book(file: &Read<LayoutFile>) -> Result<LayoutBook, FilesError> {
    let mut book = LayoutBook::default();
    if let Some(row) = &file.what.router {
        let at = row.get_ref();
        let typed = RouterTyped {
            bit: at.bit.clone(),
            cutting_length: at.cutting_length.clone(),
            flutes: at.flutes.to_string(),
            rpm: at.rpm.to_string(),
            chip: at.chip.clone(),
            depth: at.depth.clone(),
            clean_up: at.clean_up.clone(),
            guide: at.guide.clone(),
        };
        let with_units = [
            &at.bit,
            &at.cutting_length,
            &at.chip,
            &at.depth,
            &at.clean_up,
            &at.guide,
        ];
        let read = all_units(&with_units)
            .and_then(|()| read_router(&typed, &settings()).map_err(|said| first(&said)));
        book.router = read.map_err(|why| wrong("router", &why, file.line(row)))?;
    }
    if let Some(row) = &file.what.lumber {
        let at = row.get_ref();
        let typed = LumberTyped {
            strip: at.strip.clone(),
            end_trim: at.end_trim.clone(),
            side_trim: at.side_trim.clone(),
            kerf: at.kerf.clone(),
            waste: at.waste_percent.to_string(),
            board_width: at.board_width.clone(),
            board_length: at.board_length.clone(),
            quarters: at.quarters.to_string(),
            page: at.page.clone(),
        };
        let with_units = [
            &at.strip,
            &at.end_trim,
            &at.side_trim,
            &at.kerf,
            &at.board_width,
            &at.board_length,
        ];
        let read = all_units(&with_units)
            .and_then(|()| read_lumber(&typed, &settings()).map_err(|said| first(&said)));
        (book.lumber, book.page) = read.map_err(|why| wrong("lumber", &why, file.line(row)))?;
    }
    for row in &file.what.check {
        let line = file.line(row);
        let at = row.get_ref();
        let rule = rule(&at.check).map_err(|why| wrong("check", &why, line))?;
        let typed = CheckTyped {
            figure: at.figure.clone(),
            weight: at.weight.clone(),
            made: if at.made { "yes" } else { "no" }.to_owned(),
        };
        let percent = matches!(
            rule.facts().figure,
            crate::shape::layout::Figure::Percent(_)
        );
        let checked = if percent { Ok(()) } else { units(&at.figure) };
        let setting = checked
            .and_then(|()| read_check(rule, &typed, &settings()).map_err(|said| first(&said)))
            .map_err(|why| wrong("check", &why, line))?;
        let set = book.rules.set(rule, setting);
        set.map_err(|error| wrong("check", &error.to_string(), line))?;
    }
    Ok(book)
}

fn all_units(texts: &[&String]) -> Result<(), String> {
    texts.iter().try_for_each(|text| units(text))
}

fn rule(word: &str) -> Result<Rule, String> {
    Rule::of_word(word).ok_or_else(|| {
        let word = super::table::short(word);
        format!("\"{word}\" is no check; tackfree checks lists them.")
    })
}

fn stands(row: &StandsRow) -> Result<crate::shape::layout::Standing, String> {
    all_units(&[
        &row.joints,
        &row.overhangs,
        &row.span,
        &row.appliances,
        &row.drip,
        &row.height,
    ])?;
    let typed = StandingTyped {
        joints: row.joints.clone(),
        overhangs: row.overhangs.clone(),
        span: row.span.clone(),
        appliances: row.appliances.clone(),
        drip: row.drip.clone(),
        height: row.height.clone(),
        accessible: if row.accessible { "yes" } else { "no" }.to_owned(),
    };
    read_standing(&typed, &settings()).map_err(|said| first(&said))
}

fn accepted(row: &AcceptedRow) -> Result<Accepted, String> {
    let missing = if matches!(row.missing.as_str(), "0 in" | "0 mm") {
        Length::ZERO
    } else {
        read_length(&row.missing)?
    };
    let weight = Weight::ALL
        .into_iter()
        .find(|weight| weight.word() == row.weight)
        .ok_or_else(|| "a weight is note, warning or serious.".to_owned())?;
    let known = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '+');
    if row.about.is_empty() || row.about.len() > 80 || !row.about.chars().all(known) {
        return Err("about names what it concerns, like cutout-1+hole-2.".to_owned());
    }
    if row.reason.trim().is_empty() {
        return Err("the reason is empty; write why it may stay.".to_owned());
    }
    Ok(Accepted {
        rule: rule(&row.check)?,
        about: About(row.about.clone()),
        missing,
        weight,
        reason: row.reason.clone(),
    })
}
