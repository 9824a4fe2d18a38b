//! The table of woods in words: every figure with its standing.

use super::{Line, Weight, on_paper};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use crate::wood::Standing;
use crate::wood::moisture::MoistureContent;
use crate::wood::species::Species;

/// The standing of a row's movement figures, short: `from memory`, `your own figure`; marked so
/// that rows from memory stand out.
pub fn species_short(species: &Species) -> String {
    if species.coefficients.is_none() && species.shrinkage.is_none() {
        return "no figures".to_owned();
    }
    let standing = species.standing();
    let mark = if standing.is_memory() { "MEMORY: " } else { "" };
    format!("{mark}{}", standing.words())
}

fn standing(words: Standing) -> String {
    let mark = if words.is_memory() { "MEMORY: " } else { "" };
    format!("{mark}{}", words.words())
}

/// One wood in full.
pub fn species_lines(species: &Species) -> Vec<Line> {
    let mut out = vec![(Weight::Heading, species.name.clone())];
    let mut say = |weight, text: String| out.push((weight, text));
    if !species.botanical.is_empty() {
        say(Weight::Body, species.botanical.clone());
    }
    if !species.also.is_empty() {
        say(
            Weight::Body,
            format!(
                "Also found as {} (common practice, no source).",
                species.also.join(", ")
            ),
        );
    }
    say(
        Weight::Body,
        format!("Stands for {}.", species.kind.words()),
    );
    match species.coefficients {
        Some(c) => {
            say(
                Weight::Body,
                format!(
                    "Radial {:.5} per point: {}.",
                    c.radial,
                    standing(c.radial_standing)
                ),
            );
            say(
                Weight::Body,
                format!(
                    "Tangential {:.5} per point: {}.",
                    c.tangential,
                    standing(c.tangential_standing)
                ),
            );
        }
        None => say(Weight::Body, "No coefficients for 6 to 14 %.".to_owned()),
    }
    match species.shrinkage {
        Some(s) => say(
            Weight::Body,
            format!(
                "Shrinkage, green to ovendry: radial {} %, tangential {} %: {}.",
                s.radial,
                s.tangential,
                standing(s.standing)
            ),
        ),
        None => say(
            Weight::Body,
            "No shrinkage from green to ovendry.".to_owned(),
        ),
    }
    if let Some(g) = species.gravity {
        let at_12 = MoistureContent::from_thousandths(12_000)
            .and_then(|content| species.density_at(content))
            .map_or_else(String::new, |density| {
                format!(", {:.0} kg/m3 at 12 %", density.g_per_ml() * 1000.0)
            });
        say(
            Weight::Body,
            format!(
                "Specific gravity {}{at_12}: {}.",
                g.value,
                standing(g.standing)
            ),
        );
    }
    let source = match species.source.as_str() {
        "" => "not said",
        source => source,
    };
    say(Weight::Small, format!("Source: {source}."));
    if !species.note.is_empty() {
        say(Weight::Small, format!("Mind: {}", species.note));
    }
    out
}

/// The table, a row a wood; or, when few, each in full.
pub fn species_paper(rows: &[&Species]) -> Vec<String> {
    if rows.len() <= 3 {
        let lines: Vec<Line> = rows.iter().flat_map(|row| species_lines(row)).collect();
        return on_paper(&lines);
    }
    let mut columns = Columns::at_most(&[26]);
    columns.row(["WOOD", "RADIAL", "TANGENTIAL", "STANDING"]);
    for row in rows {
        let figure = |of: Option<f64>| of.map_or_else(|| "-".to_owned(), |of| format!("{of:.5}"));
        let kind = match row.kind {
            crate::wood::species::SpeciesKind::Single => String::new(),
            kind => format!("; {}", kind.words()),
        };
        columns.row([
            &row.name,
            &figure(row.coefficients.map(|c| c.radial)),
            &figure(row.coefficients.map(|c| c.tangential)),
            &format!("{}{kind}", species_short(row)),
        ]);
    }
    let mut out = columns.lines(0, PAPER_WIDTH);
    out.push(String::new());
    out.push(
        "Change of size per point of moisture, 6 to 14 %. Sources: tackfree woods NAME.".to_owned(),
    );
    out
}
