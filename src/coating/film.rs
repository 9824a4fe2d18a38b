//! Film build: wet film, dry film, spread rate and loss, from the identities of the trade.
//!
//! One litre spread one micrometre thick covers 1000 square metres; one US gallon one mil thick
//! covers 1604.1667 square feet (231 cubic inches over 0.001 inch).

use crate::units::{Area, SpreadRate, Volume};

/// One mil in micrometres: 0.001 in, exactly.
pub const MIL_UM: f64 = 25.4;

/// Dry film in micrometres: wet film times volume solids.
pub fn dry_film_um(wet_um: f64, solids_pct: f64) -> f64 {
    wet_um * solids_pct / 100.0
}

/// The spread rate that leaves `dry_um` of film without loss: 10 x solids / dry film, in m2/L.
/// None where it is no rate.
pub fn theoretical_spread(solids_pct: f64, dry_um: f64) -> Option<SpreadRate> {
    SpreadRate::from_m2_per_l(10.0 * solids_pct / dry_um)
}

/// The spread rate left after a share of the product is lost to rag, tray or air. None where
/// nothing is left.
pub fn practical_spread(theoretical: SpreadRate, loss: f64) -> Option<SpreadRate> {
    (0.0..1.0)
        .contains(&loss)
        .then(|| SpreadRate::from_m2_per_l(theoretical.m2_per_l() * (1.0 - loss)))
        .flatten()
}

/// Volume solids after thinning by `pct` per cent of the product's volume.
pub fn thinned_solids_pct(solids_pct: f64, pct: f64) -> f64 {
    solids_pct * 100.0 / (100.0 + pct)
}

/// Volume solids from the weight solids (share), the wet density and the dry film's density, both
/// in g/mL: the principle of ISO 23811.
pub fn solids_by_weight_pct(weight_solids: f64, wet: f64, dry: f64) -> f64 {
    100.0 * weight_solids * wet / dry
}

/// VOC in g/L of a product without water or exempt solvent: what is not solid, by weight.
pub fn voc_g_per_l(density_g_per_ml: f64, weight_solids: f64) -> f64 {
    1000.0 * density_g_per_ml * (1.0 - weight_solids)
}

/// Film of one coat over an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Film {
    /// Wet, in micrometres.
    pub wet_um: f64,
    /// Dry, in micrometres.
    pub dry_um: f64,
}

/// The film that `used` leaves on `area`. None where there is no area.
pub fn film(used: Volume, area: Area, solids_pct: f64) -> Option<Film> {
    if area.m2() <= 0.0 {
        return None;
    }
    let wet_um = used.litres() * 1000.0 / area.m2();
    Some(Film {
        wet_um,
        dry_um: dry_film_um(wet_um, solids_pct),
    })
}
