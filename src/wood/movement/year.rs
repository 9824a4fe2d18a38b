//! What a size goes through from today over a year.

use super::build::{Axis, Build};
use super::change::{Movement, MovementError};
use crate::units::Length;
use crate::wood::Between;
use crate::wood::moisture::{MoistureContent, SeasonBand};

/// A size today, in the dry season and in the damp one.
#[derive(Debug, Clone, PartialEq)]
pub struct YearMovement {
    /// From today to the driest.
    pub to_dry: Movement,
    /// From today to the wettest.
    pub to_wet: Movement,
    /// The year's moisture.
    pub band: SeasonBand,
}

impl Build<'_> {
    /// How far a size (measured today) moves from today's moisture content to each end of the
    /// year's band.
    ///
    /// # Errors
    /// [`MovementError`] as for [`Build::change`].
    pub fn year(
        &self,
        axis: Axis,
        size: Length,
        today: MoistureContent,
        band: &SeasonBand,
    ) -> Result<YearMovement, MovementError> {
        Ok(YearMovement {
            to_dry: self.change(axis, size, today, band.driest())?,
            to_wet: self.change(axis, size, today, band.wettest())?,
            band: *band,
        })
    }
}

impl YearMovement {
    fn ends(&self) -> Between<Length> {
        self.to_dry.change.joined(self.to_wet.change)
    }

    /// The most it may grow beyond today's size; nothing when the wood is at its wettest today.
    pub fn outward(&self) -> Length {
        self.ends().high().max(Length::ZERO)
    }

    /// The most it may shrink below today's size.
    pub fn inward(&self) -> Length {
        (-self.ends().low()).max(Length::ZERO)
    }

    /// The most that a mark on it travels from today on: outward and inward together.
    pub fn travel(&self) -> Length {
        self.outward() + self.inward()
    }

    /// From the driest to the wettest, as a range, on the size of today.
    pub fn swing(&self) -> Between<Length> {
        let (dry, wet) = (self.to_dry.change, self.to_wet.change);
        // The livelier way of the wood goes further to both sides of today, so its ends are the
        // outer ones; when today lies outside the band both changes have one sign.
        if wet.high() > Length::ZERO && dry.low() < Length::ZERO {
            Between::new(wet.low() - dry.high(), wet.high() - dry.low())
        } else {
            Between::new(wet.low() - dry.low(), wet.high() - dry.high())
        }
    }

    /// The swing in words, as every range is told.
    pub fn swing_words(&self) -> String {
        super::change::spread(self.swing())
    }

    /// `width 25 1/2" today: shrinks 1/8" (3.1 mm) in the dry season, grows 1/16" (1.8 mm) in the
    /// damp one`.
    pub fn show(&self) -> String {
        format!(
            "{} {} today: {} in the dry season, {} in the damp one",
            self.to_dry.axis.words(),
            super::show::both(self.to_dry.size),
            self.to_dry.show(),
            self.to_wet.show()
        )
    }
}
