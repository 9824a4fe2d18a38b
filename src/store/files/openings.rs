//! `openings.csv`.

use super::error::FilesError;
use super::import::Reading;
use super::keys::word;
use super::pieces::{LENGTH_CURE, profile, profile_cells, with_units};
use super::table::Table;
use super::words::{length, read_length};
use crate::desk::typed::{read_purpose, write_purpose};
use crate::shape::{Opening, OpeningKind, Place};
use crate::shop::{Piece, Settings};
use crate::units::{Length, LengthStyle};
use chrono_tz::Tz;
use std::collections::HashMap;

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
    "purpose",
    "edge",
    "edge_size",
];
/// Columns that older files do not have.
const LATER_OPENINGS: &[&str] = &["purpose", "edge", "edge_size"];

/// Openings by the key of their piece, each with its line.
pub(super) type Openings = HashMap<String, Vec<(u64, Opening)>>;

pub(super) fn openings(reading: &Reading<'_>) -> Result<Openings, FilesError> {
    let mut out = Openings::new();
    Table::open_with(&reading.source, "openings.csv", OPENINGS, LATER_OPENINGS)?.each(|line| {
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
        let purpose = line.maybe("purpose", |text| {
            with_units(text)?;
            read_purpose(text, &Settings::starting(Tz::UTC))
        })?;
        let purpose = purpose.unwrap_or_default();
        out.entry(piece).or_default().push((
            line.no,
            Opening {
                no,
                place,
                what,
                purpose,
                profile: profile(line, true)?,
            },
        ));
        Ok(())
    })?;
    Ok(out)
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
        cells.push(write_purpose(&opening.purpose, &show));
        cells.extend(profile_cells(opening.profile, style));
        cells
    };
    piece.shape.openings().iter().map(row).collect()
}
