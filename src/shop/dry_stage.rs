//! The stages a drying film goes through, and what a touch test says of them.

use super::event::TouchVerdict;
use crate::coating::{Product, Span};

/// How far a film has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DryStage {
    /// Wet to the touch.
    Wet,
    /// Set to touch: nothing transfers to a finger.
    Touch,
    /// Tack-free: no longer grabs.
    TackFree,
    /// Dry to recoat: sands to powder.
    Recoat,
    /// Dry to handle.
    Handle,
    /// Ready for light use.
    LightUse,
    /// Fully cured.
    FullCure,
}

impl DryStage {
    /// Every stage after wet, in order.
    pub const TO_COME: [Self; 6] = [
        Self::Touch,
        Self::TackFree,
        Self::Recoat,
        Self::Handle,
        Self::LightUse,
        Self::FullCure,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Wet => "wet",
            Self::Touch => "set to touch",
            Self::TackFree => "tack-free",
            Self::Recoat => "dry to recoat",
            Self::Handle => "dry to handle",
            Self::LightUse => "light use",
            Self::FullCure => "full cure",
        }
    }

    /// The word in JSON.
    pub fn code(self) -> &'static str {
        match self {
            Self::Wet => "wet",
            Self::Touch => "set-to-touch",
            Self::TackFree => "tack-free",
            Self::Recoat => "dry-to-recoat",
            Self::Handle => "dry-to-handle",
            Self::LightUse => "light-use",
            Self::FullCure => "full-cure",
        }
    }

    /// The label time it asks.
    pub(super) fn span(self, product: &Product) -> Option<Span> {
        let label = &product.label;
        Some(match self {
            Self::Wet => return None,
            Self::Touch => label.touch,
            Self::TackFree => label.tack_free,
            Self::Recoat => label.windows.first()?.opens,
            Self::Handle => label.handle,
            Self::LightUse => label.light_use,
            Self::FullCure => label.full_cure,
        })
    }

    /// The least finding of a touch test that shows it; none where no thumb can.
    pub(super) fn verdict(self) -> Option<TouchVerdict> {
        Some(match self {
            Self::Touch => TouchVerdict::TouchDry,
            Self::TackFree => TouchVerdict::TackFree,
            Self::Recoat => TouchVerdict::DryToRecoat,
            Self::Handle => TouchVerdict::DryToHandle,
            Self::Wet | Self::LightUse | Self::FullCure => return None,
        })
    }
}

/// The first stage that a finding says is still to come. Still soft says no more than that the
/// film is not dry to recoat: it may have been tack-free for days.
pub(super) fn denied_from(found: TouchVerdict) -> Option<DryStage> {
    match found {
        TouchVerdict::StillSoft | TouchVerdict::TackFree => Some(DryStage::Recoat),
        TouchVerdict::TouchDry => Some(DryStage::TackFree),
        TouchVerdict::DryToRecoat | TouchVerdict::DryToHandle => None,
    }
}
