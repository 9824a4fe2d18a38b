//! How heavy a top is.

use crate::units::Mass;
use crate::wood::moisture::MoistureContent;
use crate::wood::species::Species;

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

/// The weight of so much of a wood, at a measured moisture content or at [`ASSUMED`]. `None` when
/// the row has no specific gravity.
pub fn weigh(
    wood: &Species,
    cubic_metres: f64,
    measured: Option<MoistureContent>,
) -> Option<Weighed> {
    let content = measured.or(MoistureContent::from_percent(ASSUMED))?;
    Some(Weighed {
        mass: weight_of(wood, cubic_metres, content)?,
        wood: wood.name.clone(),
        content,
        measured: measured.is_some(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wood::species::SpeciesTable;

    #[test]
    fn a_cubic_foot_of_red_oak_weighs_what_the_handbook_says() {
        // Wood Handbook (FPL-GTR-190), table 5-3: northern red oak, specific gravity 0.63 at 12 %
        // moisture, so 1.12 x 0.63 x 62.4 = 44 lb per cubic foot (the usual trade figure).
        let table = SpeciesTable::new();
        let oak = table
            .rows()
            .find(|row| row.name.to_lowercase() == "oak, northern red")
            .or_else(|| {
                table
                    .rows()
                    .find(|row| row.name.to_lowercase().contains("northern red"))
            })
            .expect("red oak is in the table");
        let cubic_foot = 0.3048_f64.powi(3);
        let at = |percent| {
            let content = MoistureContent::from_percent(percent);
            weigh(oak, cubic_foot, content).expect("a weight").mass.g() / 453.592_37
        };
        assert!((at(12.0) - 44.0).abs() < 1.0, "{}", at(12.0));
        // Drier is lighter, and nothing said is the assumed content.
        assert!(at(6.0) < at(12.0) && at(12.0) < at(40.0));
        let assumed = weigh(oak, cubic_foot, None).expect("a weight");
        assert!(!assumed.measured && (assumed.content.percent() - ASSUMED).abs() < 1e-9);
    }
}
