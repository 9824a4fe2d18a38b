//! Film in a tally: of one coat by how it was put on, and on every face.

use super::event::CoatKind;
use super::id::PieceId;
use super::tally_lines::UseLine;
use crate::coating::film::{Film, film};
use crate::coating::{Method, Product, ProductId};
use crate::shape::FaceKey;
use crate::units::{Area, Volume};
use std::collections::BTreeMap;

/// Film of what was put on in one way: the mean of one coat over all area it coated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MethodFilm {
    /// How.
    pub method: Method,
    /// Area coated, every coat counted.
    pub area: Area,
    /// On the wood.
    pub on_wood: Volume,
    /// Of one coat.
    pub film: Film,
    /// Whether every pass of it was weighed or measured: an estimate tells the label's film.
    pub measured: bool,
}

/// Film of one face of one piece, all coats of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceFilm {
    /// The piece.
    pub piece: PieceId,
    /// The face.
    pub face: FaceKey,
    /// What kind of coat.
    pub kind: CoatKind,
    /// The product.
    pub product: ProductId,
    /// Coats.
    pub coats: usize,
    /// Film of all of them.
    pub film: Film,
    /// Whether all of it was weighed or measured.
    pub measured: bool,
}

/// The film on every face, coat upon coat, from what is on the wood. Sanding between coats, and
/// what was sanded back, is not taken off.
pub fn face_films(lines: &[UseLine], products: &[Product]) -> Vec<FaceFilm> {
    let mut out: BTreeMap<(PieceId, FaceKey, CoatKind, ProductId), FaceFilm> = BTreeMap::new();
    for line in lines {
        let Some(solids) = solids(line.product, products) else {
            continue;
        };
        let Some(coat) = film(line.on_wood(), line.area, solids) else {
            continue;
        };
        for (face, _) in &line.faces {
            let sum = out
                .entry((line.piece, *face, line.kind, line.product))
                .or_insert_with(|| FaceFilm {
                    piece: line.piece,
                    face: *face,
                    kind: line.kind,
                    product: line.product,
                    coats: 0,
                    film: Film {
                        wet_um: 0.0,
                        dry_um: 0.0,
                    },
                    measured: true,
                });
            sum.coats += 1;
            sum.film.wet_um += coat.wet_um;
            sum.film.dry_um += coat.dry_um;
            sum.measured &= line.measured;
        }
    }
    out.into_values().collect()
}

/// Volume solids of a product, in per cent.
pub(super) fn solids(id: ProductId, products: &[Product]) -> Option<f64> {
    products
        .iter()
        .find(|product| product.id == id)
        .map(|product| product.label.solids_pct)
}
