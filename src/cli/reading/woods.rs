//! The table of woods.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::papers::wood::species_paper;
use crate::wood::Standing;
use crate::wood::species::Species;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree woods\n  tackfree woods maple\n  tackfree woods \"sugar maple\"\n\nThree woods or fewer are told in full, with the source of every figure; what is from memory says so.\nWith --json, a list: name, also, botanical, kind, radial_per_point, radial_standing,\ntangential_per_point, tangential_standing, shrinkage_radial_pct, shrinkage_tangential_pct,\nshrinkage_standing, gravity, gravity_standing, standing, from_memory, your_own, source, note.";

/// What was typed.
#[derive(Debug, Args)]
pub struct WoodsArgs {
    /// The beginning of a name; all unless said.
    pub name: Option<String>,
}

#[derive(Serialize)]
struct WoodJson<'a> {
    name: &'a str,
    also: &'a [String],
    botanical: &'a str,
    kind: &'static str,
    radial_per_point: Option<f64>,
    radial_standing: Option<&'static str>,
    tangential_per_point: Option<f64>,
    tangential_standing: Option<&'static str>,
    shrinkage_radial_pct: Option<f64>,
    shrinkage_tangential_pct: Option<f64>,
    shrinkage_standing: Option<&'static str>,
    gravity: Option<f64>,
    gravity_standing: Option<&'static str>,
    standing: &'static str,
    from_memory: bool,
    your_own: bool,
    source: &'a str,
    note: &'a str,
}

impl<'a> WoodJson<'a> {
    fn of(row: &'a Species) -> Self {
        let (c, s, g) = (row.coefficients, row.shrinkage, row.gravity);
        Self {
            name: &row.name,
            also: &row.also,
            botanical: &row.botanical,
            kind: row.kind.words(),
            radial_per_point: c.map(|c| c.radial),
            radial_standing: c.map(|c| c.radial_standing.words()),
            tangential_per_point: c.map(|c| c.tangential),
            tangential_standing: c.map(|c| c.tangential_standing.words()),
            shrinkage_radial_pct: s.map(|s| s.radial),
            shrinkage_tangential_pct: s.map(|s| s.tangential),
            shrinkage_standing: s.map(|s| s.standing.words()),
            gravity: g.map(|g| g.value),
            gravity_standing: g.map(|g| g.standing.words()),
            standing: row.standing().words(),
            from_memory: [
                Some(row.standing()),
                s.map(|s| s.standing),
                g.map(|g| g.standing),
            ]
            .into_iter()
            .flatten()
            .any(Standing::is_memory),
            your_own: row.is_shops_own(),
            source: &row.source,
            note: &row.note,
        }
    }
}

/// Reads them.
pub fn run(args: &WoodsArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let table = shop.wood.table();
    let rows: Vec<&Species> = match &args.name {
        None => table.rows().collect(),
        // The exact one alone where there is one.
        Some(name) => match table.find(name) {
            Ok(one) => vec![one],
            Err(_) => table.matching(name),
        },
    };
    if let (true, Some(name)) = (rows.is_empty(), &args.name) {
        let error = table.find(name).err();
        return Err(Failure::said(
            error.map_or_else(String::new, |error| error.to_string()),
        ));
    }
    let json: Vec<WoodJson<'_>> = rows.iter().map(|row| WoodJson::of(row)).collect();
    Answer::new(species_paper(&rows), json)
}
