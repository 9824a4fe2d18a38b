//! What the shop keeps about use: passes struck out of learning, can sizes on offer, mixes, and
//! what planning allows for.

use super::id::PassId;
use super::use_mix::Mix;
use crate::coating::cans::CanOffer;
use crate::coating::rates::{Ground, Method};
use crate::coating::{Product, ProductId};
use crate::units::{Mass, Money, Volume, counted};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A pass that teaches nothing of the shop's spread rate, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Struck {
    /// The pass.
    pub pass: PassId,
    /// Why: a can set down wrong, say.
    pub reason: String,
}

/// A can size that can be bought, beside the one the product is priced by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offer {
    /// Of what.
    pub product: ProductId,
    /// What the can holds.
    pub holds: Volume,
    /// What it costs.
    pub price: Money,
}

/// What planning allows for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct UseRules {
    /// Bought beyond the need, in per cent of it.
    pub reserve_percent: u32,
    /// Lost to rag, brush and tray where only the label's rate is known, in per cent.
    pub loss_percent: u32,
    /// What a coat covers on bare wood against a later coat, in per cent, where only the label's
    /// rate is known.
    pub bare_percent: u32,
    /// The smallest step of the shop's scale.
    pub scale: Mass,
    /// The smallest mark of the shop's measuring cup.
    pub cup: Volume,
}

impl Default for UseRules {
    /// A tenth in reserve, which is common practice (no source). Loss of brush or roller 10 to
    /// 15 % (a maker's data sheet). A first coat on bare wood covers 0.60 to 0.75 of a later one
    /// (two makers' data sheets: 600 against 1000 and 400-500 against 500-700 ft2/gal). A kitchen
    /// scale of one gram.
    fn default() -> Self {
        Self {
            reserve_percent: 10,
            loss_percent: 15,
            bare_percent: 70,
            scale: Mass::from_mg(1_000),
            cup: Volume::from_ul(1_000),
        }
    }
}

/// Why the rules cannot be so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum UseRuleError {
    /// A reserve beyond sense.
    #[error("A reserve of {0} % is more than as much again: give 0 to 100.")]
    Reserve(u32),
    /// A loss that leaves nothing.
    #[error("A loss of {0} % leaves too little on the wood: give 0 to 60.")]
    Loss(u32),
    /// No coverage at all, or more than a later coat's.
    #[error("A first coat covers a part of what a later one does: give 30 to 100 %, not {0} %.")]
    Bare(u32),
    /// A scale without a step.
    #[error("The scale's step must be 0.01 g to 100 g: give what its last digit counts.")]
    Scale,
    /// A cup without marks.
    #[error("The cup's step must be 0.1 mL to 100 mL: give how far its marks lie apart.")]
    Cup,
}

/// The share lost in spraying: airless 30 %, conventional up to 50 % (a maker's data sheet).
const SPRAY_LOSS: u32 = 30;

impl UseRules {
    /// Checks them.
    ///
    /// # Errors
    /// The first figure out of its range.
    pub fn check(&self) -> Result<(), UseRuleError> {
        if self.reserve_percent > 100 {
            return Err(UseRuleError::Reserve(self.reserve_percent));
        }
        if self.loss_percent > 60 {
            return Err(UseRuleError::Loss(self.loss_percent));
        }
        if !(30..=100).contains(&self.bare_percent) {
            return Err(UseRuleError::Bare(self.bare_percent));
        }
        if !(10..=100_000).contains(&self.scale.mg()) {
            return Err(UseRuleError::Scale);
        }
        if !(100..=100_000).contains(&self.cup.ul()) {
            return Err(UseRuleError::Cup);
        }
        Ok(())
    }

    /// The share of the label's rate that planning counts on: 0.85 for a later wiped coat.
    pub fn of_label(&self, method: Method, ground: Ground) -> f64 {
        let loss = match method {
            Method::Sprayed => self.loss_percent.max(SPRAY_LOSS),
            Method::Wiped | Method::Brushed => self.loss_percent,
        };
        let kept = f64::from(100 - loss.min(99)) / 100.0;
        match ground {
            Ground::BareWood => kept * f64::from(self.bare_percent) / 100.0,
            Ground::Later => kept,
        }
    }

    /// A need with the reserve on top, rounded up to the microlitre.
    pub fn with_reserve(&self, need: Volume) -> Volume {
        let more = need.ul().saturating_mul(i64::from(self.reserve_percent));
        Volume::from_ul(need.ul() + more.div_euclid(100) + i64::from(more.rem_euclid(100) > 0))
    }
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct UseBook {
    /// The rules.
    pub rules: UseRules,
    /// Passes struck out.
    pub struck: Vec<Struck>,
    /// Further can sizes.
    pub offers: Vec<Offer>,
    /// What the shop mixes itself.
    pub mixes: Vec<Mix>,
}

impl UseBook {
    /// Puts the lists in an order of their own.
    #[must_use]
    pub fn in_order(mut self) -> Self {
        self.struck.sort_by_key(|struck| struck.pass);
        self.offers
            .sort_by_key(|offer| (offer.product, offer.holds));
        self.mixes.sort_by_key(|mix| mix.product);
        self
    }

    /// The sizes on offer of a product, smallest first: the can it is priced by, and those noted
    /// beside it. A noted size that is the product's own takes its place.
    pub fn offers_of(&self, product: &Product) -> Vec<CanOffer> {
        let mut out: Vec<CanOffer> = self
            .offers
            .iter()
            .filter(|offer| offer.product == product.id)
            .map(|offer| CanOffer {
                holds: offer.holds,
                price: offer.price,
            })
            .collect();
        if !out.iter().any(|offer| offer.holds == product.can) {
            out.push(CanOffer {
                holds: product.can,
                price: product.price,
            });
        }
        out.sort_by_key(|offer| offer.holds);
        out
    }

    /// Why a pass is struck out, if it is.
    pub fn struck(&self, pass: PassId) -> Option<&str> {
        let found = self.struck.iter().find(|struck| struck.pass == pass);
        found.map(|struck| struck.reason.as_str())
    }

    /// How a product is mixed, if the shop mixes it.
    pub fn mix(&self, product: ProductId) -> Option<&Mix> {
        self.mixes.iter().find(|mix| mix.product == product)
    }
}

/// `yours from 6 passes`.
pub(super) fn yours(passes: usize) -> String {
    format!("yours from {}", counted(passes, "pass", "passes"))
}
