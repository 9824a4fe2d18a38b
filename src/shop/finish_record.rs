//! What a piece's finish is made of, read off its log.

use super::event::{CoatKind, What};
use super::id::PassId;
use super::pass::{Air, Pass};
use super::piece::PieceFile;
use super::schedule::Grit;
use super::ticket::Ticket;
use crate::coating::film::film;
use crate::coating::rates::Method;
use crate::coating::{Product, ProductId};
use crate::shape::FaceKey;
use crate::units::Volume;
use chrono::{DateTime, Utc};
use std::collections::HashMap;

/// One coat of one face.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordCoat {
    /// The pass it came from.
    pub pass: PassId,
    /// What kind.
    pub kind: CoatKind,
    /// Of what.
    pub product: ProductId,
    /// How it was put on.
    pub method: Method,
    /// The batch of its can, where that is known.
    pub batch: Option<String>,
    /// End of the pass.
    pub ended: DateTime<Utc>,
    /// Minutes from the end of the pass until it was wiped off, of a stain that was.
    pub wiped_off_after: Option<i64>,
    /// The shop's air, if it was noted with the pass.
    pub air: Option<Air>,
    /// Its wet and dry film in micrometres, where the pass was measured.
    pub film: Option<(f64, f64)>,
}

/// One face.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordFace {
    /// Which.
    pub key: FaceKey,
    /// The grits it carries, coarse to fine.
    pub grits: Vec<Grit>,
    /// Its coats, first to last.
    pub coats: Vec<RecordCoat>,
    /// Whether it was declared hidden.
    pub hidden: bool,
}

/// The finish of a piece as it was done.
#[derive(Debug, Clone, PartialEq)]
pub struct FinishRecord {
    /// The wood.
    pub species: String,
    /// Every face.
    pub faces: Vec<RecordFace>,
}

impl FinishRecord {
    /// Reads it off the log. `method_of` and `batch_of` say what the pass itself does not.
    pub fn of(
        file: &PieceFile,
        passes: &[Pass],
        products: &[Product],
        method_of: impl Fn(&Pass, &Product) -> Method,
        batch_of: impl Fn(PassId) -> Option<String>,
    ) -> Self {
        let by_id: HashMap<PassId, &Pass> = passes.iter().map(|pass| (pass.id, pass)).collect();
        // The same wet film lies on every face of a pass: use and area of this piece's share.
        let mut laid: HashMap<PassId, (Volume, f64)> = HashMap::new();
        for event in &file.events {
            if let What::Coat {
                pass, faces, used, ..
            } = &event.what
            {
                let of = laid.entry(*pass).or_insert((Volume::ZERO, 0.0));
                of.0 += *used;
                of.1 += faces.iter().map(|(_, area)| area.m2()).sum::<f64>();
            }
        }
        let ticket = Ticket::of(file);
        let faces = ticket.faces.iter().map(|face| RecordFace {
            key: face.key,
            grits: face.ticks.keys().copied().collect(),
            hidden: !face.is_exposed(),
            coats: face
                .coats
                .iter()
                .map(|coat| {
                    let pass = by_id.get(&coat.pass).copied();
                    let product = products.iter().find(|p| p.id == coat.product);
                    let method = pass.zip(product).map(|(pass, of)| method_of(pass, of));
                    let measured = pass.filter(|pass| pass.amount.basis.is_measured());
                    let wet_dry = measured.and(product).zip(laid.get(&coat.pass)).and_then(
                        |(product, (used, m2))| {
                            let area = crate::units::Area::from_m2(*m2);
                            film(
                                pass.map_or(*used, |pass| pass.on_wood_of(*used)),
                                area,
                                product.label.solids_pct,
                            )
                        },
                    );
                    RecordCoat {
                        pass: coat.pass,
                        kind: coat.kind,
                        product: coat.product,
                        method: method.unwrap_or(Method::Wiped),
                        batch: batch_of(coat.pass),
                        ended: coat.ended,
                        wiped_off_after: coat
                            .wiped_off
                            .map(|off| (off - coat.ended).num_minutes().max(0)),
                        air: pass.and_then(|pass| pass.air),
                        film: wet_dry.map(|film| (film.wet_um, film.dry_um)),
                    }
                })
                .collect(),
        });
        Self {
            species: file.piece.species.clone(),
            faces: faces.collect(),
        }
    }

    pub(super) fn face(&self, key: FaceKey) -> Option<&RecordFace> {
        self.faces.iter().find(|face| face.key == key)
    }
}
