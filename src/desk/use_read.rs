//! What the shop has learned about use, and what it plans by it.

use super::books::{Books, BooksError, Scope};
use super::snapshot::Shop;
use crate::coating::{Product, ProductId, ProductKind};
use crate::shop::{
    Begun, CanState, CoatKind, JobBatch, JobId, NEWEST_PASSES, Need, OnShelf, Pass, PassId,
    PieceFile, RateBook, Short, TallyRow, Ticket, UseBook, method_of, needs, short, tally_at,
};
use std::collections::BTreeMap;

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

    /// What stands on the shelf, can by can. A can whose batch was not read is a batch of its own.
    pub fn on_shelf(&self) -> Vec<OnShelf> {
        let usable = self.cans.cans.iter().filter(|can| can.usable());
        usable
            .map(|state| {
                let zone = self.settings.zone;
                let opened = state.opened.map(|at| at.with_timezone(&zone).date_naive());
                let until = state.can.keeps.until(state.can.day(zone), opened);
                OnShelf {
                    product: state.can.product,
                    batch: Some(mark(state)),
                    left: state.left.volume,
                    good_until: until.map(crate::shop::KeepsDay::day),
                }
            })
            .collect()
    }

    /// The stain batch each job under way was begun with: that of the newest pass which its pieces
    /// still carry.
    pub fn begun(&self) -> Vec<Begun> {
        let mut newest: BTreeMap<(JobId, ProductId), PassId> = BTreeMap::new();
        for file in self.files.iter().filter(|file| !file.piece.finished) {
            let ticket = Ticket::of(file);
            for coat in ticket.faces.iter().flat_map(|face| &face.coats) {
                if coat.kind == CoatKind::Stain {
                    let last = newest
                        .entry((file.piece.job, coat.product))
                        .or_insert(coat.pass);
                    *last = coat.pass.max(*last);
                }
            }
        }
        let batch_of = |id: PassId| {
            let pass = self.passes.iter().find(|pass| pass.id == id)?;
            let draw = pass.drawn.draws.last()?;
            self.cans.can(draw.can).map(mark)
        };
        newest
            .into_iter()
            .filter_map(|((job, product), pass)| {
                Some(Begun {
                    job,
                    product,
                    batch: batch_of(pass)?,
                })
            })
            .collect()
    }

    /// The stain batches that do not last for what their jobs still need.
    pub fn short(&self) -> Vec<Short> {
        let cans = self.on_shelf();
        let left = |begun: &Begun| {
            let same = |on: &&OnShelf| {
                on.product == begun.product && on.batch.as_ref() == Some(&begun.batch)
            };
            cans.iter().filter(same).map(|on| on.left).sum()
        };
        let batches: Vec<JobBatch> = self
            .begun()
            .into_iter()
            .filter(|begun| {
                let product = self.product(begun.product);
                product.is_some_and(|product| product.kind == ProductKind::Stain)
            })
            .map(|begun| JobBatch {
                left: left(&begun),
                job: begun.job,
                product: begun.product,
                batch: begun.batch,
            })
            .collect();
        short(&self.needs(), &batches)
    }
}

/// A can's batch; one without a mark is a batch of its own.
fn mark(state: &CanState) -> String {
    if state.can.batch.is_empty() {
        format!("of {}", state.can.called())
    } else {
        state.can.batch.clone()
    }
}
