//! `fastening.csv`: how pieces lie and are held. Need not be there.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::Ring;
use super::meaning::{Words, pick, word};
use super::wood::{maybe, wrong};
use super::words;
use crate::shop::{PieceId, PieceWood};
use crate::units::{Length, LengthStyle};
use crate::wood::movement::{Grain, HoldLine, Situation, SpacingRule};
use crate::wood::species::SpeciesTable;
use std::collections::HashSet;

pub(super) const FILE: &str = "fastening.csv";

pub(super) const FASTENING: &[&str] = &[
    "piece",
    "wood",
    "grain",
    "held",
    "screw",
    "spacing",
    "figure_eight",
    "stands",
];

const GRAINS: Words<Grain> = &[
    (Grain::Flat, "flat"),
    (Grain::Quarter, "quarter"),
    (Grain::Mixed, "mixed"),
    (Grain::Unknown, "unknown"),
];
const HELD: Words<HoldLine> = &[
    (HoldLine::OppositeEdge, "front"),
    (HoldLine::Middle, "middle"),
    (HoldLine::ThisEdge, "back"),
];
const SITUATIONS: Words<Situation> = &[
    (Situation::BackToWall, "back-to-wall"),
    (Situation::Island, "island"),
    (Situation::BetweenWalls, "between-walls"),
    (Situation::Corner, "corner"),
    (Situation::DropInSink, "drop-in-sink"),
    (Situation::CrossPiece, "cross-piece"),
    (Situation::ShowingJoint, "showing-joint"),
];
/// Reads how pieces lie and are held.
pub(super) fn fastening(
    reading: &mut Reading<'_>,
    pieces: &Ring<PieceId>,
    table_of_woods: &SpeciesTable,
) -> Result<Vec<PieceWood>, FilesError> {
    let mut out = Vec::new();
    let mut seen = HashSet::new();
    let Some(table) = maybe(reading, FILE, FASTENING)? else {
        return Ok(out);
    };
    table.each(|line| {
        let piece = line.must("piece", "write the id of the piece", |key| {
            pieces.find(key).map_err(|fault| fault.to_string())
        })?;
        if !seen.insert(piece) {
            let (what, key) = ("fastening of piece", line.cell("piece").to_owned());
            return Err(line.fail(Fault::Twice { what, key }));
        }
        let unsaid = PieceWood::unsaid(piece);
        let wood = line.maybe("wood", |text| match table_of_woods.find(text) {
            Ok(row) => Ok(row.name.clone()),
            Err(error) => Err(error.to_string()),
        })?;
        let spacing = line.maybe("spacing", |text| match text {
            "wide" => Ok(SpacingRule::Wide),
            "close" => Ok(SpacingRule::Close),
            _ => words::read_length(text).map(SpacingRule::Own),
        })?;
        let mut situations: Vec<Situation> = line
            .cell("stands")
            .split_whitespace()
            .map(|text| pick(SITUATIONS, text).map_err(|why| wrong(line, "stands", &why)))
            .collect::<Result<_, _>>()?;
        situations.sort_unstable();
        situations.dedup();
        let length = |column, usual: Length| {
            let read = line.maybe(column, words::read_length)?;
            Ok::<_, FilesError>(read.unwrap_or(usual))
        };
        let of = PieceWood {
            piece,
            wood: wood.unwrap_or_default(),
            grain: line
                .maybe("grain", |text| pick(GRAINS, text))?
                .unwrap_or(unsaid.grain),
            held: line
                .maybe("held", |text| pick(HELD, text))?
                .unwrap_or(unsaid.held),
            screw: length("screw", unsaid.screw)?,
            spacing: spacing.unwrap_or(unsaid.spacing),
            eight: length("figure_eight", unsaid.eight)?,
            situations,
        };
        of.check()
            .map_err(|error| wrong(line, "fastener", &error.to_string()))?;
        out.push(of);
        Ok(())
    })?;
    Ok(out)
}

/// The cells of how a piece lies and is held.
pub(super) fn fastening_row(of: &PieceWood, style: LengthStyle) -> Vec<String> {
    let stands: Vec<&str> = of
        .situations
        .iter()
        .map(|situation| word(SITUATIONS, situation))
        .collect();
    vec![
        of.piece.to_string(),
        of.wood.clone(),
        word(GRAINS, &of.grain).to_owned(),
        word(HELD, &of.held).to_owned(),
        words::length(of.screw, style),
        match of.spacing {
            SpacingRule::Wide => "wide".to_owned(),
            SpacingRule::Close => "close".to_owned(),
            SpacingRule::Own(apart) => words::length(apart, style),
        },
        words::length(of.eight, style),
        stands.join(" "),
    ]
}
