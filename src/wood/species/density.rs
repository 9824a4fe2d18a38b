//! How heavy a wood is at a moisture content.

use super::row::{GravityAt, Species};
use crate::units::Density;
use crate::wood::moisture::MoistureContent;

/// Fibre saturation, % moisture content: about 30 on average (Wood Handbook, FPL-GTR-190, p. 4-2).
/// Wood above it neither swells nor shrinks.
pub const FIBRE_SATURATION: f64 = 30.0;

/// Of eq. 4-11: `Gx = Gb / (1 - 0.265 Gb (1 - x / MCfs))`.
const SWELL: f64 = 0.265;

impl Species {
    /// Specific gravity on the green volume. From a figure at 12 %, eq. 4-11 solved for Gb.
    pub fn basic_gravity(&self) -> Option<f64> {
        self.gravity.map(|gravity| match gravity.at {
            GravityAt::Green => gravity.value,
            GravityAt::Twelve => {
                let k = SWELL * (1.0 - 12.0 / FIBRE_SATURATION);
                gravity.value / (1.0 + k * gravity.value)
            }
        })
    }

    /// Specific gravity (ovendry mass) on the volume at this moisture content: Wood Handbook eq.
    /// 4-11 with fibre saturation at 30 %, above which the volume no longer changes.
    pub fn gravity_at(&self, content: MoistureContent) -> Option<f64> {
        let basic = self.basic_gravity()?;
        let x = content.percent().min(FIBRE_SATURATION);
        Some(basic / (1.0 - SWELL * basic * (1.0 - x / FIBRE_SATURATION)))
    }

    /// Density at this moisture content, water included: 1000 Gx (1 + x/100) kg/m3. `None` when
    /// the row has no specific gravity.
    pub fn density_at(&self, content: MoistureContent) -> Option<Density> {
        let gravity = self.gravity_at(content)?;
        Density::from_g_per_ml(gravity * (1.0 + content.percent() / 100.0))
    }
}
