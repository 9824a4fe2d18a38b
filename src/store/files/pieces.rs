//! `pieces.csv` and `openings.csv`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word};
use super::meaning::{CONSTRUCTIONS, letter, pick, piece_kind, word as word_of};
use super::people::ID_CURE;
use super::table::{Line, Table};
use super::text::{NAME_MOST, PIECE_MOST};
use super::words::{length, read_length};
use crate::shape::{EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape};
use crate::shop::{Job, JobId, Piece, PieceId, RecipeId, Stage};
use crate::units::{Length, LengthStyle};
use std::collections::{HashMap, HashSet};

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
];
pub(super) const OPENINGS: &[&str] = &[
    "piece",
    "form",
    "no",
    "x",
    "y",
    "width",
    "depth",
    "corner_radius",
    "diameter",
];

/// What would do in an empty cell of a length.
const LENGTH_CURE: &str = "write a length like 98 3/8 in or 2500 mm";

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
    Table::open(&reading.source, "pieces.csv", PIECES)?.each(|line| {
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
    let outline = if line.cell("diameter").is_empty() {
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
    let sized = |made: fn(Length) -> EdgeProfile| {
        Ok::<_, FilesError>(made(line.must("edge_size", LENGTH_CURE, read_length)?))
    };
    let profile = match line.cell("edge") {
        "square" => {
            line.nothing_in(&["edge_size"], "square")?;
            EdgeProfile::Square
        }
        "eased" => sized(EdgeProfile::Eased)?,
        "round-over" => sized(EdgeProfile::RoundOver)?,
        "chamfer" => sized(EdgeProfile::Chamfer)?,
        other => {
            let why = format!(
                "\"{}\" is not one of square, eased, round-over, chamfer.",
                super::table::short(other)
            );
            return Err(line.bad("edge", &why));
        }
    };
    let thickness = line.must("thickness", LENGTH_CURE, read_length)?;
    let band = line.maybe("band", read_length)?;
    let openings = openings.into_iter().map(|(_, opening)| opening).collect();
    Shape::new(outline, thickness, profile, openings, band).map_err(|error| line.fail(error.into()))
}

/// Openings by the key of their piece, each with its line.
type Openings = HashMap<String, Vec<(u64, Opening)>>;

fn openings(reading: &Reading<'_>) -> Result<Openings, FilesError> {
    let mut out = Openings::new();
    Table::open(&reading.source, "openings.csv", OPENINGS)?.each(|line| {
        let piece = line.must("piece", "write the id of the piece it is cut through", word)?;
        let no = line.must("no", "number cutouts, and holes, from 1", |text| {
            let no = text.parse::<u8>().ok().filter(|no| *no > 0);
            no.ok_or_else(|| format!("\"{text}\" is no number of an opening; write 1 to 255."))
        })?;
        let size = |column| line.must(column, LENGTH_CURE, read_length);
        let what = match line.cell("form") {
            "cutout" => {
                line.nothing_in(&["diameter"], "cutout")?;
                OpeningKind::Cutout {
                    width: size("width")?,
                    depth: size("depth")?,
                    corner_radius: line
                        .maybe("corner_radius", read_length)?
                        .unwrap_or(Length::ZERO),
                }
            }
            "hole" => {
                line.nothing_in(&["width", "depth", "corner_radius"], "hole")?;
                OpeningKind::Hole {
                    diameter: size("diameter")?,
                }
            }
            other => {
                let why = format!(
                    "\"{}\" is not one of cutout, hole.",
                    super::table::short(other)
                );
                return Err(line.bad("form", &why));
            }
        };
        let place = Place {
            x: size("x")?,
            y: size("y")?,
        };
        out.entry(piece).or_default().push((
            line.no,
            Opening {
                no,
                place,
                what,
                purpose: Purpose::Plain,
            },
        ));
        Ok(())
    })?;
    Ok(out)
}

/// A piece's cells.
pub(super) fn piece_row(piece: &Piece, style: LengthStyle) -> Vec<String> {
    let show = |given: Length| length(given, style);
    let (long, wide, across) = match piece.shape.outline() {
        Outline::Rectangle { length, width } => (show(*length), show(*width), String::new()),
        Outline::Circle { diameter } => (String::new(), String::new(), show(*diameter)),
        _ => (String::new(), String::new(), String::new()),
    };
    let profile = piece.shape.profile();
    let edge = profile.code();
    let size = if profile == EdgeProfile::Square {
        String::new()
    } else {
        show(profile.reach())
    };
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
        edge.to_owned(),
        size,
        piece.shape.band().map_or(String::new(), show),
        piece.recipe.to_string(),
    ]
}

/// The cells of a piece's openings.
pub(super) fn opening_rows(piece: &Piece, style: LengthStyle) -> Vec<Vec<String>> {
    let show = |given: Length| length(given, style);
    let row = |opening: &Opening| {
        let empty = String::new;
        let (form, sizes) = match opening.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } => (
                "cutout",
                [show(width), show(depth), show(corner_radius), empty()],
            ),
            OpeningKind::Hole { diameter } => ("hole", [empty(), empty(), empty(), show(diameter)]),
        };
        let mut cells = vec![
            piece.id.to_string(),
            form.to_owned(),
            opening.no.to_string(),
            show(opening.place.x),
            show(opening.place.y),
        ];
        cells.extend(sizes);
        cells
    };
    piece.shape.openings().iter().map(row).collect()
}
