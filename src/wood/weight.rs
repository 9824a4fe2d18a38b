//! How heavy a top is.

use crate::units::Mass;
use crate::wood::moisture::MoistureContent;
use crate::wood::species::{Species, SpeciesTable};

/// The moisture content reckoned with where a piece has no reading: 8 %, the middle of the 6 to
/// 9 % that slabs are dried to before they are used indoors (common practice, no source).
pub const ASSUMED: f64 = 8.0;

/// The weight of so much wood, water included: volume times [`Species::density_at`]. Finish and
/// glue are not counted. `None` when the row has no specific gravity.
pub fn weight_of(wood: &Species, cubic_metres: f64, content: MoistureContent) -> Option<Mass> {
    let density = wood.density_at(content)?;
    // 1 g/mL is 1,000,000 g/m3.
    Some(Mass::from_g(density.g_per_ml() * 1e6 * cubic_metres))
}

/// A weight and what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The weight.
    pub mass: Mass,
    /// The wood it was taken for, by its name in the table.
    pub wood: String,
    /// The moisture content it was taken at.
    pub content: MoistureContent,
    /// Whether that content was measured, or assumed.
    pub measured: bool,
}

/// The weight of so much wood of a species as the ticket names it, at a measured moisture content
/// or at [`ASSUMED`]. `None` when the table does not know one wood by that name.
pub fn weigh(
    woods: &SpeciesTable,
    species: &str,
    cubic_metres: f64,
    measured: Option<MoistureContent>,
) -> Option<Weighed> {
    let wood = woods.find(species).ok()?;
    let content = measured.or(MoistureContent::from_percent(ASSUMED))?;
    Some(Weighed {
        mass: weight_of(wood, cubic_metres, content)?,
        wood: wood.name.clone(),
        content,
        measured: measured.is_some(),
    })
}
