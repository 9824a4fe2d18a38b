//! The tally: what was used, what was planned, and what it cost.

use super::can_fold::CanBook;
use super::event::CoatKind;
use super::pass::Pass;
use super::piece::PieceFile;
use super::tally_lines::use_lines;
use super::ticket::Ticket;
use super::use_needs::{Bases, coats_of, volume_of};
use super::use_rates::RateBook;
use crate::coating::{Product, ProductId};
use crate::units::{Area, Money, Volume};
use std::collections::BTreeMap;

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
    /// Cost of what was used: pass by pass what came out of its cans, or the can's price.
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

/// The tally of these pieces, by product and kind, in the order of the stages; every pass at the
/// product's can price.
pub fn tally(files: &[PieceFile], passes: &[Pass], products: &[Product]) -> Vec<TallyRow> {
    tally_from(files, passes, products, &CanBook::default())
}

/// The same, passes that name their cans at what those cost.
pub fn tally_from(
    files: &[PieceFile],
    passes: &[Pass],
    products: &[Product],
    cans: &CanBook,
) -> Vec<TallyRow> {
    tally_at((files, passes), products, cans, &RateBook::default())
}

/// The same, planned by the shop's own rates where it has them.
pub fn tally_at(
    (files, passes): (&[PieceFile], &[Pass]),
    products: &[Product],
    cans: &CanBook,
    rates: &RateBook,
) -> Vec<TallyRow> {
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
    for line in use_lines(files, passes, products, cans) {
        row_of(line.kind, line.product, &|row| {
            row.coated += line.area;
            row.cost += line.cost;
            if line.measured {
                row.measured += line.used;
            } else {
                row.estimated += line.used;
            }
        });
    }
    for file in files {
        for planned in planned_use_by(file, products, rates) {
            row_of(planned.kind, planned.product, &|row| {
                row.planned += planned.volume;
            });
        }
    }
    rows.into_values().collect()
}
