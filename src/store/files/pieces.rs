//! `pieces.csv`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word};
use super::meaning::{CONSTRUCTIONS, letter, pick, piece_kind, word as word_of};
use super::openings::openings;
use super::people::ID_CURE;
use super::table::{Line, Table};
use super::text::{NAME_MOST, PIECE_MOST};
use super::words::{length, read_length};
use crate::desk::typed::{read_corners, read_size, write_corners, write_outline};
use crate::shape::{EdgeProfile, Opening, Outline, Say, Shape, ShapeDraft};
use crate::shop::{Job, JobId, Piece, PieceId, RecipeId, Settings, Stage};
use crate::units::{Length, LengthStyle};
use chrono_tz::Tz;
use std::collections::HashSet;

pub(super) const PIECES: &[&str] = &[
    "id",
    "job",
    "letter",
    "name",
    "kind",
    "species",
    "construction",
    "length",
    "width",
    "diameter",
    "thickness",
    "edge",
    "edge_size",
    "band",
    "recipe",
    "outline",
    "corners",
    "band_round",
];
/// Columns that files of the first version do not have.
const LATER_PIECES: &[&str] = &["outline", "corners", "band_round"];
/// What would do in an empty cell of a length.
pub(super) const LENGTH_CURE: &str = "write a length like 98 3/8 in or 2500 mm";

/// A piece and where it stands in its file.
pub(super) struct Read {
    pub(super) piece: Piece,
    pub(super) line: u64,
    /// As it is called on tickets.
    pub(super) called: String,
}

/// Reads the pieces with their openings. Stage and schedule come later, from the log.
pub(super) fn pieces(
    reading: &mut Reading<'_>,
    jobs: &[Job],
    job_ring: &Ring<JobId>,
    recipes: &Ring<RecipeId>,
) -> Result<(Vec<Read>, Ring<PieceId>), FilesError> {
    let mut openings = openings(reading)?;
    let (mut out, mut ring): (Vec<Read>, _) = (Vec::new(), Ring::new("piece"));
    let mut letters = HashSet::new();
    Table::open_with(&reading.source, "pieces.csv", PIECES, LATER_PIECES)?.each(|line| {
        let key = line.must("id", ID_CURE, word)?;
        let id = reading
            .keys
            .of(&key)
            .ok_or_else(|| line.fail(ring.twice(&key)))?;
        ring.hang(&key, PieceId(id))
            .map_err(|fault| line.fail(fault))?;
        let job = line.must("job", "write the id of the job it belongs to", |key| {
            job_ring.find(key).map_err(|fault| fault.to_string())
        })?;
        let after = |read: &Read| {
            if read.piece.job == job {
                read.piece.no + 1
            } else {
                0
            }
        };
        let next = || out.iter().map(after).max().unwrap_or(0);
        let no = line.maybe("letter", letter)?.unwrap_or_else(next);
        let recipe = line.must("recipe", "write the id of the recipe it follows", |key| {
            recipes.find(key).map_err(|fault| fault.to_string())
        })?;
        let shape = shape(line, openings.remove(&key).unwrap_or_default())?;
        let notes = &mut reading.notes;
        let piece = Piece {
            id: PieceId(id),
            job,
            no,
            name: line.name("name", PIECE_MOST, notes)?,
            kind: line.must("kind", "write what it will be, like counter", piece_kind)?,
            species: line.name("species", NAME_MOST, notes)?,
            construction: line.must(
                "construction",
                "write how it is built up, like edge-grain",
                |text| pick(CONSTRUCTIONS, text),
            )?,
            shape,
            recipe,
            schedule: None,
            stage: Stage::Sanding,
            finished: false,
        };
        let job_no = jobs
            .iter()
            .find(|has| has.id == job)
            .map_or(0, |job| job.no);
        if !letters.insert((job, no)) {
            let key = piece.ticket_no(job_no);
            return Err(line.fail(Fault::Twice {
                what: "ticket",
                key,
            }));
        }
        let called = format!("{} {}", piece.ticket_no(job_no), piece.name);
        out.push(Read {
            piece,
            line: line.no,
            called,
        });
        Ok(())
    })?;
    // Of openings without a piece, the first in the file.
    let lost = openings
        .into_iter()
        .filter_map(|(key, of)| Some((of.first()?.0, key)))
        .min();
    match lost {
        Some((line, key)) => {
            let key = super::table::short(&key);
            Err(Fault::Unknown { what: "piece", key }.at("openings.csv", line))
        }
        None => Ok((out, ring)),
    }
}

fn shape(line: &Line<'_>, openings: Vec<(u64, Opening)>) -> Result<Shape, FilesError> {
    let outline = outline(line)?;
    let profile = profile(line, false)?;
    let thickness = line.must("thickness", LENGTH_CURE, read_length)?;
    let band = line.maybe("band", read_length)?;
    let band_round_openings = match (line.cell("band_round"), band) {
        ("", _) => false,
        ("yes", Some(_)) => true,
        ("yes", None) => {
            line.nothing_in(&["band_round"], "no band")?;
            false
        }
        (other, _) => {
            let other = super::table::short(other);
            let why = format!("\"{other}\" is not yes; write yes or leave it empty.");
            return Err(line.bad("band_round", &why));
        }
    };
    let draft = ShapeDraft {
        outline,
        thickness,
        profile,
        openings: openings.into_iter().map(|(_, opening)| opening).collect(),
        band,
        band_round_openings,
    };
    Shape::try_from(draft).map_err(|error| line.fail(error.into()))
}

/// The outline: by length and width, by a diameter, or in the words of its own column, where every
/// length has its unit.
fn outline(line: &Line<'_>) -> Result<Outline, FilesError> {
    let outline = if !line.cell("outline").is_empty() {
        let cells = ["length", "width", "diameter"];
        line.nothing_in(&cells, "an outline in its own column")?;
        line.must("outline", LENGTH_CURE, |text| {
            with_units(text)?;
            read_size(text, &Settings::starting(Tz::UTC)).map_err(|error| error.message)
        })?
    } else if line.cell("diameter").is_empty() {
        let cure = "write length and width, or the diameter of a round top";
        let length = line.must("length", cure, read_length)?;
        Outline::Rectangle {
            length,
            width: line.must("width", cure, read_length)?,
        }
    } else {
        line.nothing_in(&["length", "width"], "a round top")?;
        Outline::Circle {
            diameter: line.must("diameter", LENGTH_CURE, read_length)?,
        }
    };
    let corners = |text: &str| {
        with_units(text)?;
        read_corners(text, outline.clone(), &Settings::starting(Tz::UTC))
            .map_err(|error| error.message)
    };
    Ok(line.maybe("corners", corners)?.unwrap_or(outline))
}

/// Every length in a cell of words has its unit: a bare number is anybody's guess. The number of an
/// opening that something is measured from is no length.
pub(super) fn with_units(text: &str) -> Result<(), String> {
    for part in text.split([',', ';', ':', '+', 'x']) {
        let bare = part.trim().ends_with(|c: char| c.is_ascii_digit());
        if bare {
            let part = super::table::short(part.trim());
            return Err(format!(
                "\"{part}\" has no unit; write in or mm behind each length."
            ));
        }
    }
    Ok(())
}

/// The profile of `edge` and `edge_size`; where nothing need be said, empty is square.
pub(super) fn profile(line: &Line<'_>, maybe: bool) -> Result<EdgeProfile, FilesError> {
    let edge = line.cell("edge");
    if edge == "square" || (maybe && edge.is_empty()) {
        line.nothing_in(&["edge_size"], "square")?;
        return Ok(EdgeProfile::Square);
    }
    if EdgeProfile::of_code(edge, Some(Length::ZERO)).is_none() {
        let mut known = vec!["square"];
        known.extend(EdgeProfile::SIZED.map(|make| make(Length::ZERO).code()));
        let why = format!(
            "\"{}\" is not one of {}.",
            super::table::short(edge),
            known.join(", ")
        );
        return Err(line.bad("edge", &why));
    }
    let size = line.must("edge_size", LENGTH_CURE, read_length)?;
    Ok(EdgeProfile::of_code(edge, Some(size)).unwrap_or_default())
}

/// The cells `edge` and `edge_size`.
pub(super) fn profile_cells(profile: EdgeProfile, style: LengthStyle) -> [String; 2] {
    let size = if profile.is_square() {
        String::new()
    } else {
        length(profile.reach(), style)
    };
    [profile.code().to_owned(), size]
}

/// A piece's cells.
pub(super) fn piece_row(piece: &Piece, style: LengthStyle) -> Vec<String> {
    let show = |given: Length| length(given, style);
    let say: Say<'_> = &|given: Length| length(given, style);
    let outline = piece.shape.outline();
    let empty = String::new;
    let (long, wide, across, other) = match outline {
        Outline::Rectangle { length, width } | Outline::Cornered { length, width, .. } => {
            (show(*length), show(*width), empty(), empty())
        }
        Outline::Circle { diameter } => (empty(), empty(), show(*diameter), empty()),
        other => (empty(), empty(), empty(), write_outline(other, say)),
    };
    let [edge, size] = profile_cells(piece.shape.profile(), style);
    // The letter alone: the ticket number of job 0 without its 0.
    let ticket = piece.ticket_no(0);
    vec![
        piece.id.to_string(),
        piece.job.to_string(),
        ticket.trim_start_matches('0').to_owned(),
        piece.name.clone(),
        piece.kind.word().to_owned(),
        piece.species.clone(),
        word_of(CONSTRUCTIONS, &piece.construction).to_owned(),
        long,
        wide,
        across,
        show(piece.shape.thickness()),
        edge,
        size,
        piece.shape.band().map_or(String::new(), show),
        piece.recipe.to_string(),
        other,
        write_corners(outline.corners(), say),
        if piece.shape.band_round_openings() {
            "yes".to_owned()
        } else {
            empty()
        },
    ]
}
