//! What the shop has learned about use, and what it plans by it.

use super::books::{Books, BooksError, Scope};
use super::snapshot::Shop;
use crate::coating::Product;
use crate::shop::{
    NEWEST_PASSES, Need, Pass, PieceFile, RateBook, TallyRow, UseBook, method_of, needs, tally_at,
};

/// The rates learned from what was read, or from as much of the log as teaches.
pub(super) fn learned_rates(
    books: &dyn Books,
    scope: Scope,
    (files, passes): (&[PieceFile], &[Pass]),
    products: &[Product],
    book: &UseBook,
) -> Result<RateBook, BooksError> {
    let learn = |files: &[PieceFile], passes: &[Pass]| {
        RateBook::learn(files, passes, products, book, method_of)
    };
    Ok(match scope {
        Scope::All | Scope::MeasuredLately(_) => learn(files, passes),
        Scope::OpenSince(_) => {
            let lately = Scope::MeasuredLately(NEWEST_PASSES);
            learn(&books.pieces(lately)?, &books.passes(lately)?)
        }
        Scope::Job(_) | Scope::One(_) => RateBook::default(),
    })
}

impl Shop {
    /// The tally of these pieces, planned by the shop's own rates where it has them.
    pub fn tally(&self, files: &[PieceFile]) -> Vec<TallyRow> {
        tally_at(
            (files, &self.passes),
            &self.products,
            &self.cans,
            &self.rates,
        )
    }

    /// What the pieces read still take.
    pub fn needs(&self) -> Vec<Need> {
        needs(
            &self.files,
            &self.products,
            &self.rates,
            &self.use_book.rules,
        )
    }
}
