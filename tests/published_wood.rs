//! Wood against published sources. Each number stands beside the document, table and page that it
//! is taken from; where it was only read in a text that quotes the document it says "second-hand",
//! where nothing was read it says "from memory" or "common practice, no source". Figures from
//! memory are shown as such by the program and are nowhere the only check of a formula.
//!
//! "Wood Handbook" is FPL-GTR-190 (2010); equation numbers are the same in FPL-GTR-282 (2021).

use tackfree::shape::Construction;
use tackfree::units::{Humidity, Length, Temperature};
use tackfree::wood::moisture::{Air, MoistureContent};
use tackfree::wood::movement::{Build, Grain};
use tackfree::wood::species::{Species, SpeciesTable};

#[path = "wood/air.rs"]
mod air;
#[path = "wood/change.rs"]
mod change;
#[path = "wood/coats.rs"]
mod coats;
#[path = "wood/cup.rs"]
mod cup;
#[path = "wood/fit.rs"]
mod fit;
#[path = "wood/page.rs"]
mod page;
#[path = "wood/properties.rs"]
mod properties;
#[path = "wood/readings.rs"]
mod readings;
#[path = "wood/woods.rs"]
mod woods;

fn near(found: f64, published: f64, tolerance: f64) {
    let off = (found - published).abs();
    assert!(
        off <= tolerance,
        "{found} is not {published} within {tolerance}"
    );
}

fn mc(percent: f64) -> MoistureContent {
    MoistureContent::from_percent(percent).unwrap()
}

fn inches(inches: f64) -> Length {
    Length::from_metres_rounded(inches * 0.0254)
}

fn air_f(f: f64, rh: f64) -> Air {
    Air::new(Temperature::from_f(f), Humidity::from_percent(rh).unwrap())
}

fn air_c(c: f64, rh: f64) -> Air {
    Air::new(Temperature::from_c(c), Humidity::from_percent(rh).unwrap())
}

/// A row by its exact name.
fn wood(name: &str) -> Species {
    let found = SpeciesTable::new().named(name).cloned();
    found.unwrap_or_else(|| panic!("{name} is not in the table"))
}

/// Boards laid flat.
fn flat(species: &Species, grain: Grain) -> Build<'_> {
    Build {
        species,
        construction: Construction::FaceGrain,
        grain,
    }
}
