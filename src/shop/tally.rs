//! The tally: what was used, what was planned, and what it cost.

use super::event::{CoatKind, What};
use super::id::PassId;
use super::pass::{AmountBasis, Pass};
use super::piece::PieceFile;
use super::ticket::Ticket;
use super::use_needs::{Bases, coats_of, volume_of};
use super::use_rates::RateBook;
use crate::coating::{Product, ProductId};
use crate::units::{Area, Money, Volume};
use std::collections::{BTreeMap, HashMap};

/// One product's line in a tally.
#[derive(Debug, Clone, PartialEq)]
pub struct TallyRow {
    /// The product.
    pub product: ProductId,
    /// What it was used as.
    pub kind: CoatKind,
    /// Area coated, every coat counted.
    pub coated: Area,
    /// Used, by weighing or measuring.
    pub measured: Volume,
    /// Used, by area over the spread rate.
    pub estimated: Volume,
    /// Planned for the whole schedule of the same pieces.
    pub planned: Volume,
    /// Cost of what was used, at the can's price, rounded once on this line.
    pub cost: Money,
}

impl TallyRow {
    /// Used in all.
    pub fn used(&self) -> Volume {
        self.measured + self.estimated
    }
}

/// Planned use of one product on one piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    /// The product.
    pub product: ProductId,
    /// What it is used as.
    pub kind: CoatKind,
    /// Area to coat, every coat counted.
    pub area: Area,
    /// Volume at the rates in use.
    pub volume: Volume,
    /// What stands behind the rates: the label, or the shop's own passes.
    pub bases: Bases,
}

/// What the schedule asks of a piece at the label's spread rates as printed.
pub fn planned_use(file: &PieceFile, products: &[Product]) -> Vec<Planned> {
    planned_use_by(file, products, &RateBook::default())
}

/// What the schedule asks of a piece: area times coats over the spread rate, per product; the
/// shop's own rate where it has passes, else the label's as printed. A face declared not exposed
/// asks for no more than it carries already.
pub fn planned_use_by(file: &PieceFile, products: &[Product], rates: &RateBook) -> Vec<Planned> {
    let ticket = Ticket::of(file);
    let mut out = Vec::new();
    for kind in CoatKind::ALL {
        let product = ticket.schedule.product_for(kind);
        let Some(product) = product.and_then(|id| products.iter().find(|p| p.id == id)) else {
            continue;
        };
        let areas = coats_of(&ticket, kind, false);
        if areas.is_empty() {
            continue;
        }
        let (volume, bases) = volume_of(&areas, product, &file.piece.species, rates, None);
        out.push(Planned {
            product: product.id,
            kind,
            area: Area::from_m2(areas.values().sum()),
            volume,
            bases,
        });
    }
    out
}

/// The tally of these pieces, by product and kind, in the order of the stages.
pub fn tally(files: &[PieceFile], passes: &[Pass], products: &[Product]) -> Vec<TallyRow> {
    tally_by(files, passes, products, &RateBook::default())
}

/// The same, planned by the shop's own rates where it has them.
pub fn tally_by(
    files: &[PieceFile],
    passes: &[Pass],
    products: &[Product],
    rates: &RateBook,
) -> Vec<TallyRow> {
    let basis: HashMap<PassId, AmountBasis> = passes
        .iter()
        .map(|pass| (pass.id, pass.amount.basis))
        .collect();
    let mut rows: BTreeMap<(CoatKind, ProductId), TallyRow> = BTreeMap::new();
    let mut row_of = |kind: CoatKind, product: ProductId, change: &dyn Fn(&mut TallyRow)| {
        let row = rows.entry((kind, product)).or_insert_with(|| TallyRow {
            product,
            kind,
            coated: Area::from_m2(0.0),
            measured: Volume::from_ul(0),
            estimated: Volume::from_ul(0),
            planned: Volume::from_ul(0),
            cost: Money::from_cents(0),
        });
        change(row);
    };
    for file in files {
        for event in &file.events {
            let What::Coat {
                pass,
                kind,
                product,
                faces,
                used,
                ..
            } = &event.what
            else {
                continue;
            };
            let area: Area = faces.iter().map(|(_, area)| *area).sum();
            let measured = basis.get(pass).is_some_and(|basis| basis.is_measured());
            row_of(*kind, *product, &|row| {
                row.coated += area;
                if measured {
                    row.measured += *used;
                } else {
                    row.estimated += *used;
                }
            });
        }
        for planned in planned_use_by(file, products, rates) {
            row_of(planned.kind, planned.product, &|row| {
                row.planned += planned.volume;
            });
        }
    }
    let mut rows: Vec<TallyRow> = rows.into_values().collect();
    for row in &mut rows {
        if let Some(product) = products.iter().find(|product| product.id == row.product) {
            row.cost = product.cost_of(row.used());
        }
    }
    rows
}
