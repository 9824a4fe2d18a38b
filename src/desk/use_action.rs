//! What a person can do about use: rates, can sizes, mixes, allowances.

use crate::coating::ProductId;
use crate::shop::{Mix, PassId, UseRules};
use crate::units::{Money, Volume};

/// One action about use.
#[derive(Debug, Clone, PartialEq)]
pub enum UseAction {
    /// A pass is to teach nothing of the spread rates.
    StrikePass {
        /// The pass.
        pass: PassId,
        /// Why.
        reason: String,
    },
    /// A struck pass teaches again.
    CountPass(PassId),
    /// A can size that can be bought.
    SaveOffer {
        /// Of what.
        product: ProductId,
        /// What the can holds.
        holds: Volume,
        /// What it costs.
        price: Money,
    },
    /// That size is no longer on offer.
    RemoveOffer {
        /// Of what.
        product: ProductId,
        /// What the can holds.
        holds: Volume,
    },
    /// How the shop mixes a product.
    SaveMix(Mix),
    /// The shop does not mix that product.
    RemoveMix(ProductId),
    /// Set what planning of use allows for.
    SaveUseRules(UseRules),
}
